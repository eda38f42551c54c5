"""The plan of the garden: drawn, written to a file, and loaded from one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from spadework.faces.cli.say import WIDTH, wrapped

if TYPE_CHECKING:
    from spadework.usecases.plan_picture import PlanPicture


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
