"""May I sow this now, or on which day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Literal

import msgspec
import numpy as np

from spadework.advice.autumn import AutumnWindow, autumn_window, open_day
from spadework.advice.cautions import cautions_of
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
from spadework.advice.ready_odds import lost_first, median_emergence_chance
from spadework.advice.risks import Risk, sowing_risks
from spadework.advice.sow_ways import HOT_FROM, SowWay, sow_ways
from spadework.advice.stand import FULL_SHARE, UP_WITHIN_DAYS, full_stand_chance
from spadework.clock.course import Course, set_out, sow
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing, sprout
from spadework.crops.sheet import Sheet
from spadework.types import Floats

SLACK = 0.1
"""A later day must better today's odds by this much, three years of thirty, to be waited for. Our rule."""

POOR = 0.35
"""Below these odds a sowing is not worth its seed, space and weeks. Our own rule."""

Verdict = Literal["sow", "wait", "do not sow"]


class SowOption(msgspec.Struct, frozen=True, kw_only=True):
    """One sowing day."""

    day: date
    full_stand: Odds
    ready_before_loss: Odds
    overall: Odds
    by_year: list[float]
    emergence: DateOdds | None
    ready: DateOdds
    lost_to_frost: Odds
    lost_to_heat: Odds
    bolted: Odds
    soil_c: float
    risks: list[Risk]


class SowAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """Sowing days set side by side."""

    question: str
    crop: str
    today: date
    way: str
    verdict: Verdict
    best_day: date
    last_good_day: date | None
    reason: str
    options: list[SowOption]
    ways: list[SowWay]
    autumn: AutumnWindow | None
    facts: list[Fact]
    assumptions: list[str]
    cautions: list[Caution]
    note: str


def sow_course(sheet: Sheet, ground: Ground, day: int, way: str, sowing: Sowing) -> Course:
    """Course of a sowing in place, or of plants raised from it and set out when they are of an age."""
    if way == "planted":
        return set_out(sheet, ground, day)
    if way == "raised":
        weeks = sheet.sowing.weeks_to_set_out
        return set_out(sheet, ground, day + round(7 * (6.0 if weeks is None else weeks.value)))
    return sow(sheet, ground, sowing)


def weigh_day(sheet: Sheet, ground: Ground, day: int, way: str, sowing: Sowing) -> tuple[SowOption, Floats]:
    """One sowing day: its odds, and each year's own chance of the whole."""
    course = sow_course(sheet, ground, day, way, sowing)
    made = ground.years.made
    if course.sprout is None:
        stand = np.ones(made.size)
        risks: list[Risk] = []
        emergence = None
    else:
        stand = full_stand_chance(sheet, course.sprout, day, sowing.germination)
        risks = sowing_risks(sheet, ground, course.sprout, day, watered=sowing.watered)
        emergence = date_odds(median_emergence_chance(course), ground.dates, made)
    picked = course.picked[:, -1]
    overall = stand * picked
    week = ground.soil_mean_c[:, max(day - 3, 0) : day + 4]
    option = SowOption(
        day=as_date(ground.dates[day]),
        full_stand=odds_of(stand, made),
        ready_before_loss=odds_of(picked, made),
        overall=odds_of(overall, made),
        by_year=[round(float(chance), 3) for chance in overall],
        emergence=emergence,
        ready=date_odds(course.ready, ground.dates, made),
        lost_to_frost=odds_of(lost_first(course, course.lost_frost), made),
        lost_to_heat=odds_of(lost_first(course, course.lost_heat), made),
        bolted=odds_of(lost_first(course, course.bolted), made),
        soil_c=round(float(week.mean()), 1),
        risks=risks,
    )
    return option, overall


def weigh_sow(
    sheet: Sheet,
    ground: Ground,
    days: Sequence[int],
    *,
    crop: str,
    today: date,
    way: str,
    sowing: Sowing,
    assumptions: list[str],
    notes: list[str],
) -> SowAnswer:
    """Set sowing days side by side.

    Parameters
    ----------
    sheet : Sheet
    ground : Ground
        Long enough to carry the last sowing to ready.
    days : sequence of int
        Columns of the sowing days to compare; the first is today.
    crop : str
        Name in the garden's words.
    today : date
    way : "sown", "planted" or "raised"
        Sown where it grows, set as plants or slips, or raised and set out.
    sowing : Sowing
        Depth, lot and water; its day is replaced by each day in turn.
    assumptions, notes : list of str
    """
    options = [
        weigh_day(sheet, ground, day, way, Sowing(day, sowing.depth_mm, sowing.germination, sowing.watered))[
            0
        ]
        for day in days
    ]
    best = max(option.overall.chance for option in options)
    chosen = options[0]
    verdict: Verdict = "sow"
    if best - options[0].overall.chance > SLACK:
        verdict = "wait"
        chosen = next(option for option in options if option.overall.chance >= best - SLACK / 2.0)
    if best < POOR:
        verdict = "do not sow"
    window = autumn_window(sheet, ground, days[0]) if way == "sown" else None
    if window is not None and options[0].day < open_day(window, options[0].day):
        verdict = "wait"
        chosen = next((option for option in options if option.day >= open_day(window, today)), options[-1])
    worthwhile = [option for option in options if option.overall.chance >= max(POOR, best - 2 * SLACK)]
    return SowAnswer(
        question="sow",
        crop=crop,
        today=today,
        way=way,
        verdict=verdict,
        best_day=chosen.day,
        last_good_day=worthwhile[-1].day if worthwhile and worthwhile[-1] is not options[-1] else None,
        reason=_reason(options[0], verdict, sheet)
        if window is None
        else _autumn_reason(options[0], window, today),
        options=options,
        autumn=window,
        ways=_ways(sheet, ground, days[0], way, sowing, options[0]),
        facts=_facts(sheet, options[0]),
        assumptions=assumptions,
        cautions=cautions_of(sheet),
        note=joined([*notes]),
    )


def _autumn_reason(now: SowOption, window: AutumnWindow, today: date) -> str:
    """Falling soil warmth decides when cloves go in."""
    cool = f"below {window.below_c:.0f} °C cloves root without rushing into leaf"
    if now.day < open_day(window, today):
        return f"the soil is {now.soil_c:.0f} °C; {cool}."
    return f"the soil is {now.soil_c:.0f} °C: cool enough, for {cool}."


def _ways(sheet: Sheet, ground: Ground, day: int, way: str, sowing: Sowing, now: SowOption) -> list[SowWay]:
    """Ways of sowing on the first day, where its soil is likely to be too hot."""
    hot = max((risk.odds.chance for risk in now.risks if risk.name == "hot soil"), default=0.0)
    if way != "sown" or hot < HOT_FROM:
        return []
    depth = sheet.sowing.depth_mm.value if sowing.depth_mm is None else sowing.depth_mm
    run = sprout(sheet, ground, Sowing(day, depth, sowing.germination, sowing.watered))
    return sow_ways(sheet, ground, run, day, depth, sowing.germination)


def _reason(now: SowOption, verdict: Verdict, sheet: Sheet) -> str:
    """The one or two numbers that decide."""
    causes = {
        "frost takes it before it is ready": now.lost_to_frost.chance,
        f"heat spoils it first ({sheet.heat.harm})"
        if sheet.heat.harm
        else "heat spoils it first": now.lost_to_heat.chance,
        "it runs to seed first": now.bolted.chance,
        "the season ends before it is ready": max(
            0.0,
            1.0
            - now.ready_before_loss.chance
            - now.lost_to_frost.chance
            - now.lost_to_heat.chance
            - now.bolted.chance,
        ),
        "it comes up thin": 1.0 - now.full_stand.chance - 0.15,
    }
    cause, share = max(causes.items(), key=lambda item: item[1])
    years = now.overall.years
    count = int(np.floor(share * years + 0.5))
    soil = f"the soil is {now.soil_c:.0f} °C"
    if verdict == "sow":
        if count >= 2:
            return f"{soil}; the chief risk is that {cause}, in {count} of {years} years."
        return f"{soil} and nothing is likely to take it first."
    return f"{soil}; sown today {cause} in {count} of {years} years."


def _facts(sheet: Sheet, now: SowOption) -> list[Fact]:
    return [
        Fact(
            name="soil at 5 cm in the week round today",
            value=now.soil_c,
            unit="degC",
            law="two-store seed-zone temperature",
            source="measured USCRN",
        ),
        Fact(
            name="full stand means this share of what the seed gives in good soil",
            value=FULL_SHARE,
            source="common-practice",
        ),
        Fact(
            name="and half of it up within", value=float(UP_WITHIN_DAYS), unit="d", source="common-practice"
        ),
        Fact(
            name="warmth from sowing to half up, at 13 mm",
            value=sheet.emergence.sum_cd.value,
            unit="degC day",
            law="emergence",
            source=f"{sheet.emergence.sum_cd.provenance} {sheet.emergence.sum_cd.source}".strip(),
        ),
    ]


def usual_days(today: date, horizon_days: int = 98) -> list[date]:
    """Sowing days to compare: today, three days on, then week by week."""
    steps = [0, 3, *range(7, horizon_days + 1, 7)]
    return [today + timedelta(days=step) for step in steps]
