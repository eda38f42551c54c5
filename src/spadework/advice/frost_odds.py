"""When frost ends, when it comes back, and what a night at the thermometer means at the leaf."""

from __future__ import annotations

from datetime import date
from typing import Literal

import msgspec
import numpy as np

from spadework.advice.odds import DateOdds, Fact, Odds, as_date, date_odds, joined, odds_of
from spadework.clock.normal import hermite, normal_share
from spadework.science import frost
from spadework.types import Bools, Days, Floats

SPRING_DAYS = 196
"""Days of the year in which a last spring frost is looked for; the rest is autumn. Convention."""

PROBS = (0.1, 0.5, 0.9)

Place = Literal["shelter", "leaf"]


class FrostDates(msgspec.Struct, frozen=True, kw_only=True):
    """Frost dates at one height."""

    place: Place
    below_c: float
    last_spring: DateOdds
    first_autumn: DateOdds
    frost_free_days: dict[str, float | None]
    last_spring_q90_range: list[date]


class FrostByDate(msgspec.Struct, frozen=True, kw_only=True):
    """Chance of frost on the far side of a date: after it in spring, up to it in autumn."""

    place: Place
    on: date
    side: Literal["on or after", "on or before"]
    frost: Odds


class FrostAtOdds(msgspec.Struct, frozen=True, kw_only=True):
    """Day past which frost comes no oftener than the odds asked for."""

    place: Place
    odds: str
    chance: float
    spring_after: date | None
    autumn_before: date | None


class FrostAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """All that was asked about frost here."""

    question: str
    today: date
    below_c: float
    years: int
    made_years: int
    first_year: int | None
    last_year: int | None
    dates: list[FrostDates]
    by: list[FrostByDate]
    at_odds: list[FrostAtOdds]
    facts: list[Fact]
    note: str


class FrostYears(msgspec.Struct, frozen=True):
    """Whole years of night minima, starting in midwinter.

    Parameters
    ----------
    tmin_c : array, shape (year, 365)  [degC]
        NaN-free.
    dates : array of datetime64[D], shape (day,)
        Calendar of the coming year, for showing columns as dates.
    labels : tuple of int
        Calendar year in which each row begins.
    made : array of bool, shape (year,)
    leaf_offset_c, leaf_sd_c : float  [degC]
        This site's own lasting offset of the leaf surface, and what is not known of it.
    """

    tmin_c: Floats
    dates: Days
    labels: tuple[int, ...]
    made: Bools
    leaf_offset_c: float = 0.0
    leaf_sd_c: float = frost.BETWEEN_SITES_SD_C


def last_and_first_chance(
    tmin_c: Floats,
    below_c: float,
    place: Place,
    *,
    leaf_offset_c: float = 0.0,
    leaf_sd_c: float = frost.BETWEEN_SITES_SD_C,
) -> tuple[Floats, Floats]:
    """Chance that the last spring frost is past, and that the first autumn frost has come, by each day.

    Parameters
    ----------
    tmin_c : array, shape (year, day)  [degC]
        Night minima at shelter height from midwinter to midwinter.
    below_c : float  [degC]
        Limit; a night at or below it counts.
    place : "shelter" or "leaf"
        At the thermometer a night counts or does not; at the leaf it counts with a chance.
    leaf_offset_c, leaf_sd_c : float  [degC]
        The site's own offset at the leaf, and what is not known of it.

    Returns
    -------
    past, come : array, shape (year, day)
        `past` is defined to the end of spring and 1 after it; `come` is 0 until then.
    """
    if place == "shelter":
        free = np.where(tmin_c <= below_c, 0.0, 1.0)[None]
        weights = np.ones(1)
    else:
        deviates, weights = hermite(5)
        margin = tmin_c + frost.SURFACE_OFFSET_C + leaf_offset_c - below_c
        spread = deviates[:, None, None] * leaf_sd_c
        free = 1.0 - normal_share(-(margin + spread) / frost.WITHIN_SITE_SD_C)
    spring, autumn = free[..., :SPRING_DAYS], free[..., SPRING_DAYS:]
    after = np.flip(np.cumprod(np.flip(spring, axis=-1), axis=-1), axis=-1)
    past = np.ones_like(tmin_c)
    # past by day d: no frost on any later day of the half year
    past[:, : SPRING_DAYS - 1] = np.tensordot(weights, after[..., 1:], axes=1)
    come = np.zeros_like(tmin_c)
    come[:, SPRING_DAYS:] = 1.0 - np.tensordot(weights, np.cumprod(autumn, axis=-1), axes=1)
    return past, come


def odds_frost(
    record: FrostYears,
    *,
    today: date,
    below_c: float,
    by: tuple[date, int] | None,
    at_odds: tuple[str, float] | None,
    notes: list[str],
) -> FrostAnswer:
    """Answer a question about frost from whole past years.

    Parameters
    ----------
    record : FrostYears
        Whole years of minima.
    today : date
        Day of asking.
    below_c : float  [degC]
        Limit.
    by : (date, int) or None
        A day to give the odds at, and its column.
    at_odds : (str, float) or None
        Odds as spoken and as a chance, to give the days at.
    notes : list of str
        What is to be said about the record.
    """
    places: tuple[Place, ...] = ("shelter", "leaf")
    dates: list[FrostDates] = []
    by_date: list[FrostByDate] = []
    at: list[FrostAtOdds] = []
    for place in places:
        past, come = last_and_first_chance(
            record.tmin_c,
            below_c,
            place,
            leaf_offset_c=record.leaf_offset_c,
            leaf_sd_c=record.leaf_sd_c,
        )
        dates.append(_dates(record, past, come, below_c, place))
        if by is not None:
            by_date.append(_by(record, past, come, *by, place))
        if at_odds is not None:
            words, chance = at_odds
            after = np.flatnonzero(1.0 - past.mean(axis=0) <= chance)
            before = np.flatnonzero(come.mean(axis=0) > chance)
            at.append(
                FrostAtOdds(
                    place=place,
                    odds=words,
                    chance=chance,
                    spring_after=as_date(record.dates[after[0]]) if after.size else None,
                    autumn_before=as_date(record.dates[before[0]]) if before.size else None,
                )
            )
    years = len(record.labels)
    # A year made with no calendar year to it has no label to show.
    measured = [label for label in record.labels if label]
    return FrostAnswer(
        question="frost",
        today=today,
        below_c=below_c,
        years=years,
        made_years=int(np.count_nonzero(record.made)),
        first_year=min(measured, default=None),
        last_year=max(measured, default=None),
        dates=dates,
        by=by_date,
        at_odds=at,
        facts=[
            Fact(
                name="leaf surface below the shelter thermometer on frosty nights",
                value=round(frost.SURFACE_OFFSET_C + record.leaf_offset_c, 2),
                unit="degC",
                law="frost by plant-surface temperature",
                source="measured USCRN",
            ),
        ],
        note=joined([*notes]),
    )


def _dates(record: FrostYears, past: Floats, come: Floats, below_c: float, place: Place) -> FrostDates:
    free = _frost_free(record, below_c) if place == "shelter" else {}
    spread = _range_of_q90(record, below_c) if place == "shelter" else []
    return FrostDates(
        place=place,
        below_c=below_c,
        last_spring=_spring_dates(record, past),
        first_autumn=date_odds(come, record.dates, record.made),
        frost_free_days=free,
        last_spring_q90_range=spread,
    )


def _spring_dates(record: FrostYears, past: Floats) -> DateOdds:
    found = date_odds(past[:, :SPRING_DAYS], record.dates, record.made)
    return msgspec.structs.replace(found, never=round(float(past[:, 0].mean()), 4))


def _frost_free(record: FrostYears, below_c: float) -> dict[str, float | None]:
    last = frost.last_day_at_or_below(record.tmin_c[:, :SPRING_DAYS], below_c)
    first = frost.first_day_at_or_below(record.tmin_c[:, SPRING_DAYS:], below_c)
    last = np.where(last < 0, 0, last)
    first = np.where(first < 0, record.tmin_c.shape[1] - SPRING_DAYS, first) + SPRING_DAYS
    spread = frost.weibull_quantiles((first - last - 1).astype(np.float64), np.asarray(PROBS))
    return {"q10": float(spread[0]), "q50": float(spread[1]), "q90": float(spread[2])}


def _range_of_q90(record: FrostYears, below_c: float) -> list[date]:
    last = frost.last_day_at_or_below(record.tmin_c[:, :SPRING_DAYS], below_c)
    known = last[last >= 0].astype(np.float64)
    if known.size < 8:
        return []
    low, high = frost.bootstrap_quantile_interval(known, 0.9, np.random.default_rng(1), level=0.9)
    return [as_date(record.dates[round(low)]), as_date(record.dates[round(high)])]


def _by(record: FrostYears, past: Floats, come: Floats, by: date, column: int, place: Place) -> FrostByDate:
    if column < SPRING_DAYS:
        # a frost on the day itself counts: not past by the day before
        chance = 1.0 - (past[:, column - 1] if column > 0 else np.zeros(past.shape[0]))
        return FrostByDate(place=place, on=by, side="on or after", frost=odds_of(chance, record.made))
    return FrostByDate(place=place, on=by, side="on or before", frost=odds_of(come[:, column], record.made))
