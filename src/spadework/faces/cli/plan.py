"""The plan of the garden: drawn, written to a file, and loaded from one."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.inout import counted
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.say import WIDTH, wrapped
from spadework.faces.cli.written import ASKED_BACK
from spadework.faces.voice import Voice

if TYPE_CHECKING:
    from spadework.usecases.plan_garden import PlanLoaded
    from spadework.usecases.plan_picture import PlanPicture

_PARTS = {
    "bed": ("bed",),
    "kit": ("piece of kit", "pieces of kit"),
    "seed": ("seed lot",),
    "person": ("person", "people"),
    "chore": ("chore",),
    "perennial": ("perennial",),
    "stood": ("crop of years before", "crops of years before"),
}
_MARKS = {"new": "+", "changed": "~", "gone": "-"}


def plan_show(*, common: Common | None = None) -> None:
    """The plan drawn to scale, with a legend."""
    from spadework.usecases.plan_garden import show_plan

    common = common or Common()
    found = show_plan(common.garden, common.day)

    def tell() -> None:
        us = found.units == "us"
        tell_locks(found.locks, Voice(us=us, today=common.day))
        if not found.beds:
            print(f"{found.garden} has no beds yet. Write a plan: spadework plan write plan.toml")
            return
        print(f"{found.garden}, {counted(found.beds, 'bed')}\n")
        tell_picture(found.picture, us)

    answer(common, found, tell)


def plan_write(
    file: Path,
    *,
    over: Annotated[bool, Parameter(negative="", help="Replace a file that is there.")] = False,
    common: Common | None = None,
) -> None:
    """Write the plan to a TOML file that can be edited and loaded again.

    Parameters
    ----------
    file : Path
        Such as plan.toml.
    """
    from spadework.usecases.plan_garden import write_plan

    common = common or Common()
    found = write_plan(common.garden, file, common.day, over=over)

    def tell() -> None:
        tell_locks(found.locks, Voice(us=found.units == "us", today=common.day))
        held = ", ".join(counted(number, *_PARTS[part]) for part, number in found.parts.items())
        print(wrapped(f"The plan of {found.garden} is written to {found.file}: {held or 'its place only'}."))
        print("Edit it, see what would change, then load it:")
        print(f"  spadework plan load {found.file} --dry-run")

    answer(common, found, tell)


def plan_load(
    file: Path,
    *,
    dry_run: Annotated[bool, Parameter(negative="", help="Only say what would change.")] = False,
    insist: Annotated[
        bool, Parameter(negative="", help="Do it although something was asked; the entries are marked.")
    ] = False,
    by: Annotated[str, Parameter(help="Who writes.")] = "",
    common: Common | None = None,
) -> None:
    """Make the garden as a plan file has it: all of it or nothing, as entries of the book.

    Parameters
    ----------
    file : Path
        As `spadework plan write` makes it.
    """
    from spadework.usecases.plan_garden import load_plan

    common = common or Common()
    at_terminal = sys.stdin.isatty() and sys.stdout.isatty() and not common.json
    found = load_plan(
        common.garden,
        file,
        common.day,
        by=by,
        trial=dry_run,
        insist=insist,
        sure=_sure if at_terminal else None,
    )
    answer(common, found, lambda: _tell_loaded(found, common))
    if found.questions:
        sys.exit(ASKED_BACK)


def _sure(question: str) -> bool:
    try:
        return input(f"{question} Go on? [no] > ").strip().lower() in ("y", "yes")
    except (EOFError, KeyboardInterrupt):
        return False


def _tell_loaded(found: PlanLoaded, common: Common) -> None:
    tell_locks(found.locks, Voice(us=found.units == "us", today=common.day))
    if not found.changes:
        print(f"{found.garden} is as {found.file} has it; nothing changes.")
    elif found.trial:
        print(f"{found.file} would change in {found.garden}:")
    elif found.stored:
        print(f"{found.garden} is now as {found.file} has it:")
    else:
        print(f"Nothing was changed. {found.file} would change in {found.garden}:")
    for change in found.changes:
        says = f": {change.says}" if change.says else ""
        asks = f" ({change.asks})" if change.asks else ""
        print(wrapped(f"{change.part} {change.name}{says}{asks}", 6, f"  {_MARKS[change.what]} "))
    for line in found.left:
        print(wrapped(line, 4, "  · "))
    for question in found.questions:
        near = f" Nearest: {', '.join(question.nearest)}." if question.nearest else ""
        print(wrapped(f"{question.found} {question.why}{near}", 2, "? "))
    if found.questions:
        print("If it is so all the same, add --insist.")
    elif found.trial and found.changes:
        print(f"To do it: spadework plan load {found.file}")


def tell_picture(picture: PlanPicture, us: bool) -> None:
    """The plan drawn, its scale, and its legend."""
    if picture.lines:
        for line in picture.lines:
            print(f"  {line}".rstrip())
        print()
        print(wrapped(f"North is up. {_scale(picture.column_m, us)}"))
    width = max((len(row.mark) for row in picture.legend), default=0)
    for row in picture.legend:
        name = "" if row.name == row.mark else f"{row.name}: "
        print(wrapped(f"{name}{row.about}", width + 4, f"  {row.mark.ljust(width)}  "))


def _scale(column_m: float, us: bool) -> str:
    """A bar of a round length in the garden's units."""
    unit_m, unit = (0.3048, "ft") if us else (1.0, "m")
    for length in (1, 2, 5, 10, 20, 50, 100, 200):
        columns = round(length * unit_m / column_m)
        if columns >= 4:
            break
    return f"├{'─' * max(0, min(columns, WIDTH - 30) - 2)}┤ is {length} {unit}."
