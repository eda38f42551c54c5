"""Try a sowing: how it would go in a bed if it went in on a day, written nowhere."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from datetime import date, timedelta
from pathlib import Path
from typing import Final
from weakref import WeakKeyDictionary

import msgspec
import numpy as np

from spadework.advice.odds import DateOdds, Odds, date_odds, odds_of
from spadework.advice.ready_odds import later_years, usual_way
from spadework.advice.reeds import Reeds, course_reeds
from spadework.advice.scene import Scene
from spadework.advice.stand import full_stand_chance
from spadework.clock.course import Course, set_out, sow
from spadework.clock.cover import TUNNEL, indoors, under_cover
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing
from spadework.crops.names import find
from spadework.errors import ParameterError
from spadework.types import Floats
from spadework.usecases.ask_ready import RUN_DAYS
from spadework.usecases.bed_names import bed_called
from spadework.usecases.jobs_today import Day, open_day
from spadework.usecases.lock_lines import LockLine, lines_about
from spadework.usecases.plant_ground import free_beds
from spadework.usecases.setting import check_ahead, column_of
from spadework.usecases.show_season import SeasonBar, bar_opens, stands_until, year_of

MIDSUMMER: Final = ((7, 15), (1, 15))
"""From when a frost is the coming autumn's, north and south (month, day). Our own rule."""

MOST_DAYS: Final = 30
WEEKS: Final = 8
"""So many days are tried at once, and so many weeks where none is named. Our own rule."""

_GROUNDS: WeakKeyDictionary[Scene, dict[Hashable, Ground]] = WeakKeyDictionary()


class Trial(msgspec.Struct, frozen=True, kw_only=True):
    """A sowing tried out.

    Parameters
    ----------
    crop, bed : str
        Keys.
    on : date
        The day it goes into the bed: seed, or plants raised before.
    set_out : bool
        Plants go in, not seed.
    raised_from : date or None
        The day plants of that age are sown under cover.
    latest : date
        The last day it can be tried on this year.
    bar : SeasonBar
        As it is drawn among the others.
    overall : Odds
        A full stand that is ready before anything takes it.
    by_year : list of float
        The same in each year.
    before_frost : Odds
        A full stand that is ready before the first frost of autumn at the thermometer.
    until_there : list of (str, date)
        What stands in the bed then, and until about when.
    locks : list of LockLine
        What may not be planted there.
    """

    question: str
    today: date
    crop: str
    name: str
    bed: str
    bed_name: str
    on: date
    set_out: bool
    raised_from: date | None
    latest: date
    bar: SeasonBar
    ready: DateOdds
    overall: Odds
    by_year: list[float]
    before_frost: Odds
    until_there: list[tuple[str, date]]
    locks: list[LockLine]
    assumptions: list[str]
    note: str


class Trials(msgspec.Struct, frozen=True, kw_only=True):
    """One sowing tried on several days, in their order."""

    question: str
    today: date
    trials: list[Trial]


def try_days(garden: Path, today: date, crop: str, bed: str, days: Sequence[date] = ()) -> Trials:
    """Run a sowing through the years on each of some days; `try_sowing` on each.

    Parameters
    ----------
    days : sequence of date
        Empty for every week from today while this season lasts, eight at most.

    Raises
    ------
    ParameterError
        For a day that is past or not of this season, or too many days.
    UnknownName, GardenError, RecordError, StoreError
    """
    if len(days) > MOST_DAYS:
        raise ParameterError(f"{len(days)} days are many at once.", f"Give at most {MOST_DAYS}.")
    chosen = sorted(set(days))
    if not chosen:
        first = try_sowing(garden, today, crop, bed, today)
        chosen = [today + timedelta(weeks=week) for week in range(WEEKS)]
        chosen = [day for day in chosen if day <= first.latest]
    return Trials(
        question="weigh try",
        today=today,
        trials=[try_sowing(garden, today, crop, bed, day) for day in chosen],
    )


def try_sowing(garden: Path, today: date, crop: str, bed: str, on: date) -> Trial:
    """Run a sowing that nobody has made through the years.

    Parameters
    ----------
    garden : Path
    today : date
    crop, bed : str
        By any of their names.
    on : date
        The day it goes into the bed.

    Raises
    ------
    ParameterError
        For a day that is past or not of this season.
    UnknownName, GardenError, RecordError, StoreError
    """
    day = open_day(garden, today)
    scene = day.scene
    place = bed_called(scene.garden, bed)
    _, last = year_of(scene.site, today)
    if on < today:
        raise ParameterError(f"{on.isoformat()} is past.", "Try a day from today on.")
    check_ahead(on, today, "The day")
    sheet = day.setting.sheet(find(crop), bed=place.key)
    ground = _ground(day, place.key)
    column = column_of(ground, on)
    plants = usual_way(sheet) != "sown"
    course = set_out(sheet, ground, column) if plants else sow(sheet, ground, Sowing(column))
    made = ground.years.made
    stand: Floats = (
        np.ones(made.size) if course.sprout is None else full_stand_chance(sheet, course.sprout, column, None)
    )
    ready = date_odds(course.picked, ground.dates, made)
    overall = stand * course.picked[:, -1]
    until = stands_until(course, last)
    weeks = sheet.sowing.weeks_to_set_out
    age = timedelta(days=round(7 * (6.0 if weeks is None else weeks.value)))
    assumed = ["Plants are hardened off first." if plants else "The row is kept damp until it is up."]
    assumed += ["No cover on frosty nights."] + [said for said in (later_years(sheet),) if said]
    standing = [
        (plot.name, stands_until(plot.course, last))
        for plot in scene.in_bed(place.key)
        if not plot.planting.perennial
    ]
    return Trial(
        question="try sowing",
        today=today,
        crop=sheet.key,
        name=scene.name_of(sheet.key),
        bed=place.key,
        bed_name=place.name,
        on=on,
        set_out=plants,
        raised_from=on - age if usual_way(sheet) == "raised" else None,
        latest=max(last, on),
        bar=SeasonBar(
            planting="",
            name=scene.name_of(sheet.key),
            opens=bar_opens(course, on, until) or [(on, 0.1)],
            ready=ready,
            ends=max(until, on + timedelta(days=1)),
            over=False,
        ),
        ready=ready,
        overall=odds_of(overall, made),
        by_year=[round(float(chance), 3) for chance in overall],
        before_frost=odds_of(stand * _by_frost(course, on, south=scene.site.south), made),
        until_there=[(name, until) for name, until in standing if until > on],
        locks=lines_about(
            scene.garden, today, bed=place.key, crop=sheet.key, placing=True, words=scene.site.words
        ),
        assumptions=assumed,
        note=ground.years.note,
    )


def worth_trying(garden: Path, today: date) -> tuple[str, str]:
    """Crop and bed, by key, that a trial best begins with: in season now, and a bed with room for it.

    What the garden is advised to sow, where it is advised to; else the bed with most free ground.

    Raises
    ------
    GardenError, RecordError, StoreError
    """
    day = open_day(garden, today)
    sown = [job for job in day.jobs if job.kind == "sow" and job.bed]
    if sown:
        return sown[0].crop, sown[0].bed
    free = free_beds(day.garden, today)
    other = [job.crop for job in day.jobs if job.kind in ("sow", "start indoors") and job.crop]
    return (other or ["carrot"])[0], free[0][0] if free else ""


def _ground(day: Day, bed: str) -> Ground:
    """The ground of a bed, or the usual one, until what is tried last is ready; kept with the scene."""
    kept = _GROUNDS.setdefault(day.scene, {})

    def of(name: Hashable, make: Callable[[], Ground]) -> Ground:
        if name not in kept:
            kept[name] = make()
        return kept[name]

    there = day.scene.beds.get(bed)
    holder = None if there is None else day.scene.beds.get(there.inside or "")
    shape = holder.shape if holder is not None else "" if there is None else there.shape
    _, last = year_of(day.scene.site, day.scene.today)
    days = (last - day.scene.today).days + RUN_DAYS
    own = bed if day.setting.bed_offset_c(bed) else ""
    base = of(own, lambda: day.setting.ground(day.scene.today, days, bed=own)[0])
    if shape == "shelf":
        return of((own, "shelf"), lambda: indoors(base))
    if shape in ("tunnel", "frame"):
        return of((own, "tunnel"), lambda: under_cover(base, TUNNEL, 0, base.dates.size))
    return base


def reeds_of_sowing(garden: Path, today: date, crop: str, on: date, *, plants: bool | None = None) -> Reeds:
    """A sowing, or plants set out, as a line for each year; in the usual ground.

    Parameters
    ----------
    garden : Path
    today : date
    crop : str
        By any name.
    on : date
        The day it goes in, from today on.
    plants : bool or None
        Set out rather than sown; the crop's usual way where None.

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    day = open_day(garden, today)
    sheet = day.setting.sheet(find(crop))
    ground = _ground(day, "")
    column = column_of(ground, on)
    if usual_way(sheet) != "sown" if plants is None else plants:
        return course_reeds(set_out(sheet, ground, column))
    course = sow(sheet, ground, Sowing(column))
    assert course.sprout is not None
    return course_reeds(course, stand=full_stand_chance(sheet, course.sprout, column, None))


def reeds_of_planting(garden: Path, today: date, name: str) -> Reeds | None:
    """What stands, by the key of its planting or of its crop, as a line for each year; None for no other."""
    scene = open_day(garden, today).scene
    plot = next((plot for plot in scene.plots if name in (plot.key, plot.planting.crop)), None)
    return None if plot is None else course_reeds(plot.course, least_column=plot.column + 7)


def _by_frost(course: Course, on: date, *, south: bool) -> Floats:
    """Chance in each year that it is ready before the first frost of the autumn that follows, [year]."""
    month, day = MIDSUMMER[south]
    turn = date(on.year + (south and on.month >= 7), month, day)
    years = course.ground.years
    first = max(column_of(course.ground, max(turn, on)), 0)
    frosty = years.tmin_c[:, first:] <= 0.0
    column = np.where(frosty.any(axis=1), first + frosty.argmax(axis=1), years.tmin_c.shape[1])
    before: Floats = course.picked[np.arange(years.count), np.maximum(column - 1, 0)]
    return before
