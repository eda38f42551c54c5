"""When a planting will be up and ready, and whether it gets there."""

from __future__ import annotations

from datetime import date
from typing import Literal

import msgspec
import numpy as np

from spadework.advice.cautions import cautions_of
from spadework.advice.odds import Caution, DateOdds, Fact, Odds, date_odds, joined, odds_of
from spadework.clock.course import Course
from spadework.crops.sheet import Sheet
from spadework.types import Bools, Floats


class StandNow(msgspec.Struct, frozen=True, kw_only=True):
    """How far the median plant is today, by the weather so far."""

    emerged: float
    leaves: float
    height_cm: float
    bbch_stage: int
    way_to_ready: float
    checked_days: float


class ReadyAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """When it comes up, when it is ready, what may take it first."""

    question: str
    crop: str
    today: date
    start: str
    started_on: date
    planted: str
    now: StandNow | None
    emergence: DateOdds | None
    flowering: DateOdds | None
    ready: DateOdds
    ready_before_loss: Odds
    lost_to_frost_first: Odds
    lost_to_heat_first: Odds
    bolted_first: Odds
    checked_days: float
    by: date | None
    ready_by: Odds | None
    facts: list[Fact]
    assumptions: list[str]
    cautions: list[Caution]
    note: str


def median_emergence_chance(course: Course) -> Floats:
    """Chance, by day, that half of the able seed of this sowing is up, [year, day]."""
    from spadework.clock.normal import log_normal_share

    assert course.sprout is not None
    return log_normal_share(course.sprout.progress, 1.0, course.sprout.tau)


def lost_first(course: Course, running_loss: Floats) -> Floats:
    """Chance that one cause has taken the crop before it was ready, [year].

    Parameters
    ----------
    course : Course
    running_loss : array, shape (year, day)
        Chance that the cause has struck by each day.
    """
    gain = np.diff(running_loss, axis=-1, prepend=0.0)
    not_ready = 1.0 - np.concatenate([np.zeros((gain.shape[0], 1)), course.ready[:, :-1]], axis=-1)
    chance: Floats = (gain * not_ready).sum(axis=-1)
    return chance


def odds_ready(
    course: Course, *, crop: str, today: date, by: date | None, assumptions: list[str], notes: list[str]
) -> ReadyAnswer:
    """Answer when a planting is ready.

    Parameters
    ----------
    course : Course
        The planting run through the years.
    crop : str
        Its name in the garden's words.
    today : date
        Day of asking.
    by : date or None
        A day to give the odds at.
    assumptions, notes : list of str
        Said with the answer.
    """
    years = course.ground.years
    dates, made = course.ground.dates, years.made
    column_today = int((np.datetime64(today, "D") - years.first_day).astype(int))
    begun = 0 <= column_today < dates.size and column_today >= course.start_day
    flower = course.sheet.development.flower_share
    return ReadyAnswer(
        question="ready",
        crop=crop,
        today=today,
        start=course.start,
        started_on=_date_at(course, course.start_day),
        planted=planted_word(course.sheet) if course.start == "sown" else "plants",
        now=_stand(course, column_today) if begun else None,
        emergence=None if course.sprout is None else date_odds(median_emergence_chance(course), dates, made),
        flowering=None if flower is None else date_odds(course.flowering, dates, made),
        ready=date_odds(course.ready, dates, made),
        ready_before_loss=odds_of(course.picked[:, -1], made),
        lost_to_frost_first=odds_of(lost_first(course, course.lost_frost), made),
        lost_to_heat_first=odds_of(lost_first(course, course.lost_heat), made),
        bolted_first=odds_of(lost_first(course, course.bolted), made),
        checked_days=round(float(np.mean(course.checked_days[:, -1])), 1),
        by=by,
        ready_by=None if by is None else _ready_by(course, by, made),
        facts=_facts(course, begun, column_today),
        assumptions=assumptions,
        cautions=cautions_of(course.sheet),
        note=joined([*notes]),
    )


def _date_at(course: Course, column: int) -> date:
    from spadework.advice.odds import as_date

    return as_date(course.ground.dates[column])


def _stand(course: Course, column: int) -> StandNow:
    return StandNow(
        emerged=round(float(course.emerged[:, column].mean()), 3),
        leaves=round(float(np.maximum(course.leaves[:, column], 0.0).mean()), 1),
        height_cm=round(float(np.maximum(course.height_cm[:, column], 0.0).mean()), 1),
        bbch_stage=round(float(np.median(course.stage[:, column]))),
        way_to_ready=round(float(np.clip(course.way[:, column], 0.0, None).mean()), 3),
        checked_days=round(float(course.checked_days[:, column].mean()), 1),
    )


def _ready_by(course: Course, by: date, made: Bools) -> Odds:
    column = int((np.datetime64(by, "D") - course.ground.years.first_day).astype(int))
    chance = course.picked[:, int(np.clip(column, 0, course.picked.shape[1] - 1))]
    return odds_of(chance if column >= 0 else np.zeros_like(chance), made)


def _facts(course: Course, begun: bool, column: int) -> list[Fact]:
    sheet, ground = course.sheet, course.ground
    end = min(column + 1, ground.dates.size) if begun else course.start_day + 1
    start = course.start_day if begun else max(course.start_day - 6, 0)
    soil = float(ground.soil_mean_c[:, start:end].mean())
    need = (
        sheet.development.set_out_days
        if course.start == "set-out" and sheet.development.set_out_days is not None
        else sheet.development.ready_days
    )
    return [
        Fact(
            name="soil at 5 cm, mean since it was sown"
            if begun
            else "soil at 5 cm, mean of the week to the start",
            value=round(soil, 1),
            unit="degC",
            law="two-store seed-zone temperature",
            source="measured USCRN",
        ),
        Fact(
            name="days of best warmth from "
            + ("setting out" if course.start == "set-out" else "emergence")
            + " to ready",
            value=need.value,
            unit="d",
            law="thermal requirement",
            source=need.receipt,
        ),
        Fact(
            name="spread of that requirement",
            value=sheet.development.cv.value,
            law="log-normal",
            source=sheet.development.cv.receipt,
        ),
        Fact(
            name="temperature that kills most plants, at the "
            + ("leaf" if sheet.frost.measured_at == "leaf" else "thermometer"),
            value=sheet.frost.kill_c.value,
            unit="degC",
            law="frost by plant-surface temperature",
            source=f"{sheet.frost.kill_c.provenance} {sheet.frost.kill_c.source}".strip(),
        ),
    ]


def planted_word(sheet: Sheet) -> str:
    """What is put into the ground: seed, tubers, sets, cloves or crowns."""
    words = ("tubers", "sets", "cloves", "crowns")
    return next((word for word in words if word in sheet.propagation[:1]), "seed")


Way = Literal["sown", "planted", "raised"]
"""How a crop starts: in its place from seed or the like, as plants or slips, or raised and then set out."""


def usual_way(sheet: Sheet) -> Way:
    """How a crop is usually started."""
    if {"direct", "tubers", "sets", "cloves", "crowns"} & set(sheet.propagation):
        return "sown"
    return "planted" if "slips" in sheet.propagation else "raised"


def later_years(sheet: Sheet) -> str:
    """What to say of a crop that is left unpicked in its first years; empty for others."""
    first = sheet.harvest.first_year
    if first is None or first.value < 2:
        return ""
    return f"It is first picked in year {first.value:.0f}; ready is counted within that year."
