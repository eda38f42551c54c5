"""Plants are ready in their pots: out now, out under cover, or hold them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Literal

import msgspec
import numpy as np

from spadework.advice.cautions import cautions_of
from spadework.advice.last_day import last_day_at
from spadework.advice.odds import (
    Caution,
    DateOdds,
    Fact,
    Odds,
    as_date,
    date_odds,
    joined,
    odds_of,
)
from spadework.clock.course import Course, set_out
from spadework.clock.cover import FLEECE, under_cover
from spadework.clock.ground import Ground
from spadework.crops.sheet import Sheet
from spadework.garden.phrases import day_text
from spadework.types import Floats

COVER_DAYS = 28
"""How long a cover lies over young plants [d]. Source: common-practice."""

LATE_COST_PER_DAY = 0.004
"""Share of the crop's worth lost a day by picking later. Our own rule: a month late costs an eighth."""

HELD_COST_PER_DAY = 0.003
"""Share of the crop's worth a day that a plant loses in its pot past its time. Source: memory."""

COVER_COST = 0.02
"""Share of the crop's worth that laying and lifting a cover take. Our own rule."""

STANDING_DAYS = 42
"""Days after setting out over which plants killed are counted as killed by setting them out so early."""

PlantVerdict = Literal["go", "under cover", "hold", "too late"]


class PlantOption(msgspec.Struct, frozen=True, kw_only=True):
    """One way and day of setting out."""

    act: PlantVerdict
    day: date
    killed_young: Odds
    overall: Odds
    by_year: list[float]
    checked_days: float
    ready: DateOdds
    coldest_night: list[float]
    worth: float


class PlantAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """Setting out now, later, or under cover, side by side."""

    question: str
    crop: str
    today: date
    verdict: PlantVerdict
    day: date
    reason: str
    options: list[PlantOption]
    accepted: float
    last_day_that_pays: date | None
    facts: list[Fact]
    assumptions: list[str]
    cautions: list[Caution]
    note: str


def weigh_plant_out(
    sheet: Sheet,
    ground: Ground,
    days: Sequence[int],
    *,
    crop: str,
    today: date,
    accepted: float,
    site_offset_c: float,
    assumptions: list[str],
    notes: list[str],
) -> PlantAnswer:
    """Set out now, under cover, or hold.

    Parameters
    ----------
    sheet : Sheet
    ground : Ground
        From well before the first day to ready.
    days : sequence of int
        Columns to compare; the first is the day asked about.
    crop : str
    today : date
    accepted : float
        Odds at which a bought plant still pays.
    site_offset_c : float  [degC]
    assumptions, notes : list of str
    """
    options = [_option(sheet, ground, days[0], days[0], "go", site_offset_c)]
    covered = under_cover(ground, FLEECE, days[0], COVER_DAYS)
    options.append(_option(sheet, covered, days[0], days[0], "under cover", site_offset_c))
    options += [_option(sheet, ground, day, days[0], "hold", site_offset_c) for day in days[1:]]
    best = max(options, key=lambda option: option.worth)
    verdict: PlantVerdict = best.act if best.overall.chance >= accepted else "too late"
    last = last_day_at(
        lambda day: float(set_out(sheet, ground, day, site_offset_c=site_offset_c).picked[:, -1].mean()),
        days[0],
        days[0] + 150,
        accepted,
    )
    return PlantAnswer(
        question="plant out",
        crop=crop,
        today=today,
        verdict=verdict,
        day=best.day,
        reason=_reason(options[0], best, verdict),
        options=options,
        accepted=accepted,
        last_day_that_pays=None if last is None or verdict == "too late" else as_date(ground.dates[last]),
        facts=_facts(sheet),
        assumptions=assumptions,
        cautions=cautions_of(sheet),
        note=joined([*notes]),
    )


def _option(
    sheet: Sheet, ground: Ground, day: int, first: int, act: PlantVerdict, site_offset_c: float
) -> PlantOption:
    course = set_out(sheet, ground, day, site_offset_c=site_offset_c)
    made = ground.years.made
    picked = course.picked[:, -1]
    young = course.lost_frost[:, min(day + STANDING_DAYS, ground.dates.size - 1)]
    ready = date_odds(course.ready, ground.dates, made)
    nights = ground.years.tmin_c[:, day : day + 14].min(axis=1)
    worth = float(picked.mean()) * (1.0 - LATE_COST_PER_DAY * _later(course)) - HELD_COST_PER_DAY * (
        day - first
    )
    return PlantOption(
        act=act,
        day=as_date(ground.dates[day]),
        killed_young=odds_of(young, made),
        overall=odds_of(picked, made),
        by_year=[round(float(chance), 3) for chance in picked],
        checked_days=round(_checked(course), 1),
        ready=ready,
        coldest_night=[round(float(value), 1) for value in np.quantile(nights, (0.1, 0.5, 0.9))],
        worth=round(worth - (COVER_COST if act == "under cover" else 0.0), 4),
    )


def _later(course: Course) -> float:
    """Days from setting out to ready at the middle of the years, less what the crop needs at its best."""
    ready = course.ready.mean(axis=0)
    if ready[-1] < 0.5:
        return 60.0
    return max(float(np.argmax(ready >= 0.5)) - course.start_day - course.ready_days, 0.0)


def _checked(course: Course) -> float:
    """Days of growth lost by the day it is ready, mean of the years."""
    days: Floats = course.checked_days[:, -1]
    return float(days.mean())


def _reason(now: PlantOption, best: PlantOption, verdict: PlantVerdict) -> str:
    """The one or two numbers that decide."""
    years = now.killed_young.years
    killed = now.killed_young.years_yes
    cold = f"set out in the open now, frost kills it young in {killed} of {years} years"
    if verdict == "too late":
        return f"{cold}; no day ahead gets it ready often enough."
    if verdict == "go":
        return f"{cold}, and waiting gains nothing."
    how = "covered" if verdict == "under cover" else "held"
    if best.killed_young.years_yes < killed:
        return f"{cold}; {how} in {best.killed_young.years_yes}."
    gets = f"it gets there in {best.overall.years_yes} of {years}, in the open in {now.overall.years_yes}"
    if best.ready.q50 is not None and now.ready.q50 is not None and best.ready.q50 < now.ready.q50:
        gets += f", and is ready about {day_text(best.ready.q50)}, not {day_text(now.ready.q50)}"
    return f"{cold}, and no less often {how}; but {how} {gets}."


def _facts(sheet: Sheet) -> list[Fact]:
    frost, chill = sheet.frost, sheet.chill
    facts = [
        Fact(
            name=f"temperature that kills most young plants, at the {frost.measured_at}",
            value=frost.young_kill_c.value,
            unit="degC",
            law="frost by plant-surface temperature",
            source=f"{frost.young_kill_c.provenance} {frost.young_kill_c.source}".strip(),
        ),
        Fact(
            name="gain of the night under fleece",
            value=FLEECE.night_c,
            unit="degC",
            source=f"{FLEECE.provenance} {FLEECE.source}",
        ),
    ]
    if chill.limit_c is not None:
        facts.append(
            Fact(
                name="growth is checked below",
                value=chill.limit_c.value,
                unit="degC",
                source=f"{chill.limit_c.provenance} {chill.limit_c.source}".strip(),
            )
        )
    return facts
