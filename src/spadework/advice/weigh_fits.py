"""What still fits a free place: each crop with its odds, and the last day it can still be sown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import msgspec
import numpy as np

from spadework.advice.last_day import last_day_at
from spadework.advice.odds import DateOdds, Odds, as_date, date_odds, joined, odds_of
from spadework.advice.ready_odds import lost_first, usual_way
from spadework.advice.stand import full_stand_chance
from spadework.advice.weigh_sow import sow_course
from spadework.clock.course import Course
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing
from spadework.crops.sheet import Sheet
from spadework.types import Floats

SEARCH_DAYS = 182
"""How far ahead the last sowing day is looked for [d]."""


class Fit(msgspec.Struct, frozen=True, kw_only=True):
    """One crop for the free place.

    Parameters
    ----------
    overall : Odds
        A full stand that is ready before anything takes it, and before the place is wanted.
    last_day : date or None
        Last sowing day at the accepted odds; None where no day looked at reaches them.
    ends_by : str
        What closes the window: frost, heat, running to seed, a season too short; empty where nothing does.
    stands_to : date or None
        Middle of the years: the day until which it stands ready in the open, unpicked.
    """

    crop: str
    key: str
    way: str
    overall: Odds
    last_day: date | None
    emergence: DateOdds | None
    ready: DateOdds
    ends_by: str
    stands_to: date | None


class FitsAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """What still fits, best first."""

    question: str
    today: date
    on: date
    accepted: float
    clear_by: date | None
    crops: list[Fit]
    too_late: list[str]
    assumptions: list[str]
    note: str


@dataclass(frozen=True)
class Place:
    """A free place.

    Parameters
    ----------
    ground : Ground
    on : int
        Column from which it is free.
    clear_by : int or None
        Column by which it must be cleared.
    accepted : float
        Odds the person accepts, 0 to 1.
    watered : bool
    """

    ground: Ground
    on: int
    clear_by: int | None
    accepted: float
    watered: bool


def chance_on(sheet: Sheet, place: Place, day: int) -> tuple[Course, Floats]:
    """Course of a sowing on a day, and by year its chance of a full stand that is ready in time."""
    ground = place.ground
    sowing = Sowing(day, watered=place.watered)
    course = sow_course(sheet, ground, day, usual_way(sheet), sowing)
    stand = (
        np.ones(ground.years.made.size)
        if course.sprout is None
        else full_stand_chance(sheet, course.sprout, day, None)
    )
    end = ground.dates.size - 1 if place.clear_by is None else place.clear_by
    return course, stand * course.picked[:, end]


def fit_of(sheet: Sheet, place: Place, crop: str) -> Fit:
    """How one crop fits the place."""
    ground = place.ground
    course, chance = chance_on(sheet, place, place.on)
    made = ground.years.made
    last = place.on + SEARCH_DAYS
    found = last_day_at(
        lambda day: float(chance_on(sheet, place, day)[1].mean()), place.on, last, place.accepted, 28
    )
    closing = None if found is None or found == last else chance_on(sheet, place, found + 7)[0]
    return Fit(
        crop=crop,
        key=sheet.key,
        way=usual_way(sheet),
        overall=odds_of(chance, made),
        last_day=None if found is None else as_date(ground.dates[found]),
        emergence=None if course.sprout is None else _emergence(course),
        ready=date_odds(course.ready, ground.dates, made),
        ends_by="" if closing is None else _cause(closing),
        stands_to=_stands_to(course),
    )


def _emergence(course: Course) -> DateOdds:
    from spadework.advice.ready_odds import median_emergence_chance

    return date_odds(median_emergence_chance(course), course.ground.dates, course.ground.years.made)


def _cause(course: Course) -> str:
    """What takes a sowing that comes a week too late."""
    shares = {
        "frost": float(lost_first(course, course.lost_frost).mean()),
        "heat": float(lost_first(course, course.lost_heat).mean()),
        "running to seed": float(lost_first(course, course.bolted).mean()),
        "a season too short": float(1.0 - course.ready[:, -1].mean()),
    }
    return max(shares, key=lambda cause: shares[cause])


def _stands_to(course: Course) -> date | None:
    """Middle of the years: day until which the ready crop stands in the open, unpicked."""
    dates = course.ground.dates
    ready = course.ready.mean(axis=0)
    if ready[-1] < 0.5:
        return None
    first = int(np.argmax(ready >= 0.5))
    keeps = min(first + round(course.sheet.harvest.days.value), dates.size - 1)
    gone = 1.0 - (1.0 - course.lost_frost) * (1.0 - course.bolted)
    lost = np.flatnonzero(gone.mean(axis=0) >= 0.5)
    return as_date(dates[min(keeps, int(lost[0])) if lost.size else keeps])


def weigh_fits(
    place: Place,
    sheets: Sequence[tuple[str, Sheet]],
    *,
    today: date,
    assumptions: list[str],
    notes: list[str],
) -> FitsAnswer:
    """Which crops still fit a free place.

    Parameters
    ----------
    place : Place
    sheets : sequence of (str, Sheet)
        Name in the garden's words, and sheet.
    today : date
    assumptions, notes : list of str
    """
    fits = [fit_of(sheet, place, name) for name, sheet in sheets]
    good = [fit for fit in fits if fit.overall.chance >= place.accepted]
    good.sort(key=lambda fit: (-fit.overall.chance, fit.crop))
    waiting = [fit for fit in fits if fit.overall.chance < place.accepted and fit.last_day is not None]
    waiting.sort(key=lambda fit: (-fit.overall.chance, fit.crop))
    dates = place.ground.dates
    return FitsAnswer(
        question="fits",
        today=today,
        on=as_date(dates[place.on]),
        accepted=place.accepted,
        clear_by=None if place.clear_by is None else as_date(dates[place.clear_by]),
        crops=[*good, *waiting],
        too_late=sorted(
            fit.crop for fit in fits if fit.overall.chance < place.accepted and fit.last_day is None
        ),
        assumptions=assumptions,
        note=joined([*notes]),
    )
