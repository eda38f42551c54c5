"""Show the plan of a garden, write it to a file, and load one: all of it or nothing."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields, replace
from datetime import date
from pathlib import Path

import msgspec

from spadework.errors import GardenError, InputFileError
from spadework.garden.entries import BedGone, BedSet, PersonSet
from spadework.garden.plan import Planned, beds_of, plan_of
from spadework.garden.site import Site
from spadework.garden.state import Garden
from spadework.store.garden_folder import GardenFolder, open_garden
from spadework.store.plan_file import read_plan
from spadework.store.plan_text import plan_text
from spadework.usecases.keep_book import Asked, State, Written, asked_of, author_key, open_state, write_acts
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.plan_changes import Change, Changes, changes_of
from spadework.usecases.plan_names import settled_names
from spadework.usecases.plan_picture import PlanPicture, draw_plan


class PlanShown(msgspec.Struct, frozen=True, kw_only=True):
    """The plan drawn, with the locks that are in force."""

    garden: str
    units: str
    beds: int
    picture: PlanPicture
    locks: list[LockLine]
    damage: str = ""


class PlanWritten(msgspec.Struct, frozen=True, kw_only=True):
    """Where the plan was written, and how much of each part."""

    garden: str
    file: str
    parts: dict[str, int]
    locks: list[LockLine]
    units: str
    damage: str = ""


class PlanText(msgspec.Struct, frozen=True, kw_only=True):
    """The plan as it would be written to a file."""

    garden: str
    text: str
    locks: list[LockLine]
    damage: str = ""


class ChangeSaid(msgspec.Struct, frozen=True, kw_only=True):
    """One change as it is shown."""

    what: str
    part: str
    name: str
    says: str
    asks: str


class PlanLoaded(msgspec.Struct, frozen=True, kw_only=True):
    """What loading a plan did, or would do.

    Parameters
    ----------
    stored : bool
        Whether the garden is now as the plan has it.
    trial : bool
        Only a trial was wanted.
    changes : list of ChangeSaid
    left : list of str
        What the plan does not have and is left as it is; what was taken for granted.
    questions : list of Asked
        Those that hold it up, by the place of their change.
    """

    garden: str
    file: str
    units: str
    stored: bool
    trial: bool
    changes: list[ChangeSaid]
    left: list[str]
    questions: list[Asked]
    locks: list[LockLine]


def show_plan(folder: Path, today: date) -> PlanShown:
    """The plan as it is on a day."""
    garden, state = _read(folder, today)
    beds = beds_of(plan_of(state.garden, today))
    return PlanShown(
        garden=garden.site.name,
        units=garden.site.units,
        beds=len(beds),
        picture=draw_plan(beds, garden.site.units),
        locks=lock_lines(state.garden, today, words=garden.site.words),
        damage=state.damage,
    )


def write_plan(folder: Path, file: Path, today: date, *, over: bool = False) -> PlanWritten:
    """Write the plan to a file.

    Raises
    ------
    GardenError
        If the file is there already and `over` is not set, or it cannot be written.
    """
    garden, state = _read(folder, today)
    plan = plan_of(state.garden, today)
    if file.exists() and not over:
        raise GardenError(f"{file} is there already.", "Choose another name, or give --over to replace it.")
    try:
        file.write_text(plan_text(garden.site, plan, file.name), encoding="utf-8", newline="\n")
    except OSError as error:
        raise GardenError(f"{file} cannot be written: {error.strerror}.", "Choose another place.") from None
    return PlanWritten(
        garden=garden.site.name,
        file=str(file),
        parts={part: len(found) for part, found in plan.items() if found},
        locks=lock_lines(state.garden, today, words=garden.site.words),
        units=garden.site.units,
        damage=state.damage,
    )


def text_of_plan(folder: Path, today: date) -> PlanText:
    """The plan in the words of its file."""
    garden, state = _read(folder, today)
    return PlanText(
        garden=garden.site.name,
        text=plan_text(garden.site, plan_of(state.garden, today), "plan.toml"),
        locks=lock_lines(state.garden, today, words=garden.site.words),
        damage=state.damage,
    )


def load_plan(
    folder: Path,
    file: Path,
    today: date,
    *,
    by: str = "",
    trial: bool = False,
    insist: bool = False,
    sure: Callable[[str], bool] | None = None,
) -> PlanLoaded:
    """Make the garden as a plan file has it; parameters and errors as for `load_plan_text`.

    Raises
    ------
    GardenError
        If it cannot be read.
    """
    try:
        text = file.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise GardenError(f"{file.name} is not UTF-8 text.", "Save it as UTF-8.") from None
    except OSError as error:
        raise GardenError(f"{file} cannot be read ({error.strerror}).", "Give the path of a plan.") from None
    return load_plan_text(folder, text, str(file), today, by=by, trial=trial, insist=insist, sure=sure)


def load_plan_text(
    folder: Path,
    text: str,
    file: str,
    today: date,
    *,
    by: str = "",
    trial: bool = False,
    insist: bool = False,
    sure: Callable[[str], bool] | None = None,
) -> PlanLoaded:
    """Make the garden as a plan has it.

    Parameters
    ----------
    text : str
        As `text_of_plan` writes it.
    file : str
        What it is called in messages.
    by : str
        Who writes; empty for the usual one.
    trial : bool
        Only say what would change.
    insist : bool
        Write although something was asked.
    sure : function or None
        Asked with a sentence before a bed with plants in it is taken away; None for no.

    Raises
    ------
    InputFileError
        If anything in the file cannot be meant; every problem is named with its line, nothing is changed.
    """
    garden, state = _read(folder, today)
    read = read_plan(text, garden.site.units, today)
    now = plan_of(state.garden, today)
    wanted = settled_names(read, now, state.garden)
    if read.faults:
        faults = [fault for _, fault in sorted(read.faults, key=lambda each: each[0])]
        raise InputFileError(Path(file).name, list(dict.fromkeys(faults)))
    before = garden.site
    site = replace(before, **read.site)
    found = changes_of(now, wanted, state.garden, today)
    stored, questions = False, list[Asked]()
    if not trial:
        author = _author(state.garden, wanted, by) if found.changes else ""
        stored, questions = _stored(garden, site, found, today, author, insist, sure)
    return PlanLoaded(
        garden=site.name,
        file=file,
        units=site.units,
        stored=stored,
        trial=trial,
        changes=[*_site_changes(before, site), *map(_said, found.changes)],
        left=[*found.left, *read.took],
        questions=questions,
        locks=lock_lines(state.garden, today, words=garden.site.words),
    )


def _read(folder: Path, today: date) -> tuple[GardenFolder, State]:
    garden = open_garden(folder)
    return garden, open_state(garden, day=today)


def _author(garden: Garden, wanted: Mapping[str, Sequence[Planned]], by: str) -> str:
    """Who writes: where nobody is known yet, the first keeper of the plan."""
    new = [each.payload for each in wanted.get("person", ()) if isinstance(each.payload, PersonSet)]
    keepers = [each.person for each in new if each.role == "keeper"]
    if not garden.people and keepers and not by:
        return keepers[0]
    return author_key(garden, by)


def _stored(
    folder: GardenFolder,
    site: Site,
    found: Changes,
    today: date,
    author: str,
    insist: bool,
    sure: Callable[[str], bool] | None,
) -> tuple[bool, list[Asked]]:
    """Write the changes, all or none, and the site with them."""
    held = []
    for place, change in enumerate(found.changes, start=1):
        said = f"{change.name} goes, though {change.asks}."
        if change.asks and not insist and not (sure is not None and sure(said)):
            held.append(
                Asked(
                    act=place,
                    about=change.part,
                    found=said,
                    why="Clear it first.",
                    nearest=(),
                    may_insist=True,
                )
            )
    if held:
        return False, held
    before = folder.site
    if site != before:
        folder.keep_site(site)
    written = None
    try:
        written = _written(folder, found.changes, today, author, insist)
    finally:
        if site != before and (written is None or not written.stored):
            folder.keep_site(before)
    return written.stored, [] if written.stored else asked_of(written, site.words)


def _written(
    folder: GardenFolder, changes: Sequence[Change], today: date, author: str, insist: bool
) -> Written:
    acts = [change.act for change in changes]
    written = write_acts(folder, acts, today=today, author=author, insist=insist)
    # Beds were held against each other as the plan has them in the end, so what is only so on the way there,
    # while one is moved and its neighbour not yet, does not hold them up; nor does what was asked already.
    settled = all(
        isinstance(acts[place].payload, (BedSet, BedGone)) and question.may_insist
        for place, question in written.questions
    )
    if not written.stored and settled:
        written = write_acts(folder, acts, today=today, author=author, insist=True)
    return written


def _said(change: Change) -> ChangeSaid:
    return ChangeSaid(
        what=change.what, part=change.part, name=change.name, says=change.says, asks=change.asks
    )


def _site_changes(before: Site, after: Site) -> list[ChangeSaid]:
    return [
        ChangeSaid(
            what="changed",
            part="site",
            name=each.name.rsplit("_", 1)[0].replace("lat", "latitude").replace("lon", "longitude"),
            says=f"{getattr(before, each.name)} → {getattr(after, each.name)}",
            asks="",
        )
        for each in fields(Site)
        if getattr(before, each.name) != getattr(after, each.name)
    ]
