"""A told table of frost dates: night minima are moved and spread until the years' dates meet it.

For each half of the year two numbers are found: an offset of the nights from their seasonal course, and a
factor on their scatter about it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from spadework.clock.applied import Applied, AppliedFact
from spadework.garden.phrases import day_text, degrees_text, temp_text
from spadework.garden.told import FrostTable, Season, Told
from spadework.science import frost
from spadework.types import Floats, Ints
from spadework.weather.calendar_years import CalendarYears, column_of_day
from spadework.weather.years import Years

SPRING_DAYS = 196
"""Columns of the half year in which a last frost is looked for; the rest is autumn. Convention."""

TABLE_CHANCES = ((0.1, -1.281552), (0.5, 0.0), (0.9, 1.281552))
"""Chances at which a told median and spread are met, with their standard normal deviates. Computed."""

MOST_OFFSET_C = 6.0
SPREAD_FACTORS = (0.5, 1.8)
"""Bounds of the two numbers. Source: common-practice."""

EASY_OFFSET_C, EASY_LOG_FACTOR = 2.0, 0.15
"""A change of this size counts as much as missing one date by a day: where few dates are told, the smallest
change that meets them is taken. Our own rule."""

BLEND_DAYS = 15
"""Days on either side of midsummer and midwinter over which one half's numbers pass into the other's."""

_WAVES = 3
_ROUNDS = 4


@dataclass(frozen=True)
class HalfFit:
    """One half of the year.

    Parameters
    ----------
    offset_c : float  [degC]
        Added to the nights' seasonal course.
    factor : float
        On the nights' scatter about it.
    miss_days : float  [d]
        Root mean square of what the dates still miss.
    """

    offset_c: float = 0.0
    factor: float = 1.0
    miss_days: float = 0.0


@dataclass(frozen=True, eq=False)
class NightFit:
    """What a frost table makes of the nights of one place.

    Parameters
    ----------
    course_c : array, shape (365,)  [degC]
        Smooth seasonal course of the minimum over the calendar of `CalendarYears`.
    spring, autumn : HalfFit
    applied : tuple of Applied
    """

    course_c: Floats
    spring: HalfFit
    autumn: HalfFit
    applied: tuple[Applied, ...]

    def nights_c(self, tmin_c: Floats, columns: Ints) -> Floats:
        """Minima [..., day] on calendar columns, as the table would have them [degC]."""
        offset, factor = self._by_column()
        course = self.course_c[columns]
        found: Floats = course + offset[columns] + factor[columns] * (tmin_c - course)
        return found

    def _by_column(self) -> tuple[Floats, Floats]:
        column = np.arange(365.0)
        # 1 in spring, 0 in autumn, even passages round midsummer and round the turn of the calendar
        summer = np.clip((SPRING_DAYS + BLEND_DAYS - column) / (2.0 * BLEND_DAYS), 0.0, 1.0)
        turn = np.where(column < SPRING_DAYS, column, column - 365.0)
        winter = np.clip((turn + BLEND_DAYS) / (2.0 * BLEND_DAYS), 0.0, 1.0)
        spring = np.where(column < 100, winter, np.where(column > 300, winter, summer))
        offset = spring * self.spring.offset_c + (1.0 - spring) * self.autumn.offset_c
        factor = spring * self.spring.factor + (1.0 - spring) * self.autumn.factor
        return offset, factor


def table_points(fact: FrostTable, south: bool) -> list[tuple[float, float]]:
    """Chances and calendar columns of a told table; a median and spread give three of them."""
    if fact.dates:
        return [(chance, float(column_of_day(day, south=south))) for chance, day in fact.dates]
    assert fact.median is not None
    assert fact.spread_days is not None
    sign = -1.0 if fact.season == "spring" else 1.0
    middle = column_of_day(fact.median, south=south)
    return [(chance, middle + sign * deviate * fact.spread_days) for chance, deviate in TABLE_CHANCES]


def frost_days(tmin_c: Floats, below_c: float, season: Season, chances: Sequence[float]) -> Floats:
    """Calendar columns at which the years have the told chances of frost beyond them.

    Parameters
    ----------
    tmin_c : array, shape (year, 365)  [degC]
    below_c : float  [degC]
    season : "spring" or "autumn"
    chances : sequence of float
        In spring of a frost on or after the day, in autumn on or before it.
    """
    if season == "spring":
        last = frost.last_day_at_or_below(tmin_c[:, :SPRING_DAYS], below_c)
        return frost.weibull_quantiles(last.astype(np.float64), 1.0 - np.asarray(chances))
    first = frost.first_day_at_or_below(tmin_c[:, SPRING_DAYS:], below_c)
    first = np.where(first < 0, 365 - SPRING_DAYS, first) + SPRING_DAYS
    return frost.weibull_quantiles(first.astype(np.float64), np.asarray(chances))


def fit_nights(whole: CalendarYears, told: Sequence[Told], today: date) -> NightFit | None:
    """Fit both halves of the year to the told tables; None where there is none.

    Parameters
    ----------
    whole : CalendarYears
        The years whose dates are to meet the tables.
    told : sequence of Told
    today : date
        Tables told later are not known yet.
    """
    tables = [e.fact for e in told if isinstance(e.fact, FrostTable) and e.told_on <= today]
    if not tables:
        return None
    course = _course(whole.tmin_c)
    halves = {}
    applied = []
    for season in ("spring", "autumn"):
        own = [fact for fact in tables if fact.season == season]
        halves[season] = _fit_half(whole, course, own) if own else HalfFit()
        if own:
            applied.append(_applied(whole, own, halves[season]))
    return NightFit(course, halves["spring"], halves["autumn"], tuple(applied))


def with_nights(years: Years, fit: NightFit, south: bool) -> Years:
    """Running years with the nights that were not seen as the table would have them."""
    columns = np.array([column_of_day(day, south=south) for day in years.dates[years.seen_days :]], dtype=int)
    tmin, tmax = years.tmin_c.copy(), years.tmax_c.copy()
    tmin[:, years.seen_days :] = fit.nights_c(tmin[:, years.seen_days :], columns)
    return replace(years, tmin_c=tmin, tmax_c=np.maximum(tmax, tmin))


def _course(tmin_c: Floats) -> Floats:
    angle = 2.0 * np.pi * np.arange(365) / 365.0
    terms = [np.ones(365)]
    for wave in range(1, _WAVES + 1):
        terms += [np.cos(wave * angle), np.sin(wave * angle)]
    waves = np.stack(terms, axis=1)
    fit, *_ = np.linalg.lstsq(waves, tmin_c.mean(axis=0), rcond=None)
    return np.asarray(waves @ fit, dtype=np.float64)


def _fit_half(whole: CalendarYears, course_c: Floats, tables: list[FrostTable]) -> HalfFit:
    """Least squares on a grid that is narrowed round its best cell: the dates move in whole days."""
    points = [(fact, table_points(fact, whole.south)) for fact in tables]
    scatter = whole.tmin_c - course_c

    def miss(offset_c: float, factor: float) -> Floats:
        nights = course_c + offset_c + factor * scatter
        return np.concatenate(
            [
                frost_days(nights, fact.below_c, fact.season, [chance for chance, _ in told])
                - np.array([column for _, column in told])
                for fact, told in points
            ]
        )

    def cost(offset_c: float, factor: float) -> float:
        easy = (offset_c / EASY_OFFSET_C) ** 2 + (np.log(factor) / EASY_LOG_FACTOR) ** 2
        return float(np.sum(miss(offset_c, factor) ** 2) + easy)

    low, high = np.log(SPREAD_FACTORS[0]), np.log(SPREAD_FACTORS[1])
    best = (0.0, 0.0)
    reach = (MOST_OFFSET_C, high)
    for _ in range(_ROUNDS):
        offsets = np.clip(best[0] + np.linspace(-1, 1, 13) * reach[0], -MOST_OFFSET_C, MOST_OFFSET_C)
        logs = np.clip(best[1] + np.linspace(-1, 1, 9) * reach[1], low, high)
        grid = [(cost(float(o), float(np.exp(f))), float(o), float(f)) for o in offsets for f in logs]
        _, *found = min(grid)
        best = (found[0], found[1])
        reach = (reach[0] / 4.0, reach[1] / 3.0)
    factor = float(np.exp(best[1]))
    return HalfFit(best[0], factor, float(np.sqrt(np.mean(miss(best[0], factor) ** 2))))


def _applied(whole: CalendarYears, tables: list[FrostTable], fit: HalfFit) -> Applied:
    season = tables[0].season
    which = "last frosts of spring" if season == "spring" else "first frosts of autumn"
    parts = []
    for fact in tables:
        chance, column = min(table_points(fact, whole.south), key=lambda point: abs(point[0] - 0.5))
        own = float(frost_days(whole.tmin_c, fact.below_c, season, [chance])[0])
        side = "on or after" if season == "spring" else "on or before"
        parts.append(
            f"{temp_text(fact.below_c, 0)} {side} {_day_of(whole, column)} in {chance * 10:.0f} of 10 years, "
            f"where the years alone have {_day_of(whole, own)}"
        )
    text = (
        f"Told {which}: {'; '.join(parts)}. Nights to come in that half of the year are taken "
        f"{degrees_text(fit.offset_c)} and their scatter {fit.factor:.2f} times as wide, which meets the "
        f"told dates to within {fit.miss_days:.1f} days."
    )
    return Applied(
        text,
        "frost-table",
        (
            AppliedFact(f"frost table, {season}: offset of the nights", round(fit.offset_c, 3), "degC"),
            AppliedFact(f"frost table, {season}: factor on their scatter", round(fit.factor, 3), "1"),
            AppliedFact(f"frost table, {season}: dates missed by", round(fit.miss_days, 2), "d"),
        ),
    )


def _day_of(whole: CalendarYears, column: float) -> str:
    day = whole.day(int(np.clip(round(column), 0, 364))).astype("datetime64[D]").item()
    return day_text(day)
