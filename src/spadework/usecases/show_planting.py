"""One planting opened up: what it is, how it stands, its course through the years, its jobs, its book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Final, Literal, TypeAlias

import msgspec

from spadework.advice.odds import Caution, DateOdds, Fact, Odds
from spadework.advice.ready_odds import ReadyAnswer, odds_ready
from spadework.advice.reeds import Reeds, course_reeds
from spadework.advice.scene import Plot
from spadework.crops.names import find
from spadework.errors import RecordError, UnknownName
from spadework.garden.entries import (
    Amended,
    Entry,
    Fed,
    Lifted,
    Moved,
    Picked,
    Stage,
    Tended,
    Treated,
    Watered,
)
from spadework.garden.lookup import key_of
from spadework.garden.planting import Planting
from spadework.usecases.jobs_today import Day, JobView, open_day, view
from spadework.usecases.look import Look, look_at
from spadework.usecases.show_book import BookLine, book_lines
from spadework.usecases.show_plantings import PlantingShown, planting_name, planting_shown

StepName: TypeAlias = Literal["up", "in flower", "ready"]

_TOLD_LOST: Final = 0.03
"""A cause that takes it first with less chance than this is not spoken of. Our own rule."""

SEASON_DAYS: Final = 250
"""What was seen or picked longer ago than this was another season's. Class: common-practice."""

_OF_A_BED: Final = (Tended, Moved, Watered, Fed, Amended, Treated)
"""Acts that, told of a bed, were done to all that stands in it."""

_SEEN: Final[Mapping[StepName, str]] = {"up": "up", "in flower": "first flower", "ready": "ready"}


class CourseStep(msgspec.Struct, frozen=True, kw_only=True):
    """One step of its course.

    Parameters
    ----------
    seen_on : date or None
        The day somebody saw it; `odds` then is None.
    odds : DateOdds or None
        When half of it is so far.
    """

    name: StepName
    seen_on: date | None
    odds: DateOdds | None


class Loss(msgspec.Struct, frozen=True, kw_only=True):
    """What may take it before it is ready."""

    cause: str
    odds: Odds


class PlantingPage(msgspec.Struct, frozen=True, kw_only=True):
    """A planting on a day.

    Parameters
    ----------
    planting : PlantingShown
    began : {"sown", "planted"}
    stands : bool
    steps : list of CourseStep
        Empty for one that is over, or whose crop has no sheet.
    reaches : Odds or None
        That it is ready before anything takes it.
    losses : list of Loss
    reeds : Reeds or None
        None where it was picked already, or is over.
    jobs : list of JobView
    facts : list of Fact
    cautions : list of Caution
    entries : list of BookLine
        Its book, newest last, with what was done to the whole of its bed while it stood there.
    of_bed : list of str
        Keys of those of the whole bed.
    came_from, went_to : list of (str, str)
        Key and name of the planting it was set out from, and of those set out from it.
    why_no_course : str
        Why nothing is said of its course; empty where something is.
    note : str
        What is to be said of the years.
    """

    question: str
    today: date
    planting: PlantingShown
    began: Literal["sown", "planted"]
    stands: bool
    steps: list[CourseStep]
    reaches: Odds | None
    losses: list[Loss]
    reeds: Reeds | None
    jobs: list[JobView]
    facts: list[Fact]
    cautions: list[Caution]
    entries: list[BookLine]
    of_bed: list[str]
    came_from: list[tuple[str, str]]
    went_to: list[tuple[str, str]]
    why_no_course: str
    note: str
    damage: str = ""


def show_planting(path: Path, today: date, name: str) -> PlantingPage:
    """One planting, by its key.

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    look = look_at(path, today)
    planting = planting_called(look, name)
    stands = planting.stands(today)
    day, why = _day(path, today) if stands else (None, "It stands no more.")
    plot = None if day is None else next((each for each in day.scene.plots if each.key == planting.key), None)
    if plot is None and not why:
        why = "There is no sheet of this crop, so nothing is known of its course."
    found = None if plot is None else _ready(plot, today)
    own, of_bed = _entries(look, planting), _bed_entries(look, planting)
    picked = _this_season(planting.last_picked_on, today) or not stands
    return PlantingPage(
        question="planting",
        today=today,
        planting=planting_shown(look, planting),
        began="planted" if planting.sown_on is None else "sown",
        stands=stands,
        steps=[] if found is None else list(_steps(found, planting, today)),
        reaches=None if found is None or picked else found.ready_before_loss,
        losses=[] if found is None or picked else _losses(found),
        reeds=None if plot is None or picked else course_reeds(plot.course, least_column=plot.column + 7),
        jobs=[]
        if day is None
        else [view(job, day.scene) for job in day.jobs if job.planting == planting.key],
        facts=[] if found is None else found.facts,
        cautions=[] if found is None else found.cautions,
        entries=book_lines(look, sorted([*own, *of_bed], key=lambda each: each.happened_on)),
        of_bed=[each.key for each in of_bed],
        came_from=_named(look, [planting.from_planting]),
        went_to=_named(
            look, [each.key for each in look.garden.plantings.values() if each.from_planting == planting.key]
        ),
        why_no_course=why,
        note="" if day is None else day.scene.ground.years.note,
        damage=look.damage,
    )


def planting_called(look: Look, name: str) -> Planting:
    """A planting by its key, or by its crop where one planting of that stands.

    Raises
    ------
    UnknownName
    """
    plantings = look.garden.plantings
    if name not in plantings:
        try:
            crop = find(name)
        except UnknownName:
            crop = ""
        there = [each for each in look.garden.standing(look.day) if crop and each.crop == crop]
        if len(there) == 1:
            return there[0]
        if there:
            raise UnknownName(
                f"{len(there)} plantings of {name} stand.",
                f"Say which: {', '.join(each.key for each in there)}.",
            )
        try:
            name = key_of(name, {key: key for key in plantings}, "planting")
        except UnknownName as error:
            raise UnknownName(
                "No planting in this garden's book answers to that label.", error.hint
            ) from None
    return plantings[name]


def _day(path: Path, today: date) -> tuple[Day | None, str]:
    try:
        return open_day(path, today), ""
    except RecordError:
        return None, "There is no weather to run it through; give the garden its weather first."


def _entries(look: Look, planting: Planting) -> list[Entry]:
    """All that names it, undone and corrected entries too."""
    return [
        each
        for each in look.entries
        if each.happened_on <= look.day and planting.key in (each.planting, getattr(each.act, "planting", ""))
    ]


def _bed_entries(look: Look, planting: Planting) -> list[Entry]:
    """What was done to the whole of a bed it stood in, or of what holds that, while it stood there."""
    beds = look.garden.beds
    found = []
    for each in look.entries:
        if (
            not isinstance(each.act, _OF_A_BED)
            or each.planting
            or not each.bed
            or each.happened_on > look.day
        ):
            continue
        stay = planting.stay_on(each.happened_on)
        place = "" if stay is None else stay.bed
        if each.bed and place and each.bed in (place, beds[place].inside if place in beds else ""):
            found.append(each)
    return found


def _named(look: Look, keys: Sequence[str]) -> list[tuple[str, str]]:
    plantings = look.garden.plantings
    return [(key, planting_name(plantings[key], look.words)) for key in keys if key in plantings]


def _ready(plot: Plot, today: date) -> ReadyAnswer:
    return odds_ready(plot.course, crop=plot.name, today=today, by=None, assumptions=[], notes=[])


def _steps(found: ReadyAnswer, planting: Planting, today: date) -> Iterator[CourseStep]:
    picked = _this_season(planting.last_picked_on, today)
    foreseen: list[tuple[StepName, DateOdds | None]] = [
        ("up", found.emergence),
        ("in flower", found.flowering),
        ("ready", found.ready),
    ]
    for name, odds in foreseen:
        seen = _seen(planting, _SEEN[name], today)
        if seen is None and name == "ready" and picked:
            seen = min(
                entry.happened_on
                for entry in planting.history
                if isinstance(entry.act, (Picked, Lifted)) and _this_season(entry.happened_on, today)
            )
        if seen is not None or (odds is not None and odds.never < 1.0 and not picked):
            yield CourseStep(name=name, seen_on=seen, odds=None if seen is not None else odds)


def _this_season(day: date | None, today: date) -> bool:
    return day is not None and (today - day).days < SEASON_DAYS


def _seen(planting: Planting, what: str, today: date) -> date | None:
    """The first day of this season on which a stage was seen."""
    days = [
        entry.happened_on
        for entry in planting.history
        if isinstance(entry.act, Stage)
        and entry.act.reached
        and entry.act.what == what
        and (not planting.perennial or _this_season(entry.happened_on, today))
    ]
    return min(days, default=None)


def _losses(found: ReadyAnswer) -> list[Loss]:
    causes = (
        ("frost", found.lost_to_frost_first),
        ("heat", found.lost_to_heat_first),
        ("running to seed", found.bolted_first),
    )
    return [Loss(cause=cause, odds=odds) for cause, odds in causes if odds.chance >= _TOLD_LOST]
