"""Made weather: daily years drawn from twelve monthly normals, for places without a long record and for
demonstrations."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.errors import ParameterError
from spadework.types import Floats
from spadework.weather.normals import (
    MEAN_WAVES,
    MONTH_DAYS,
    RAIN_WAVES,
    SD_WAVES,
    Normals,
    month_of,
    normals_of,
    told_normals,
    yearly_course,
)
from spadework.weather.series import MADE_SOURCE, Series, as_day

__all__ = ["MadeDays", "Normals", "made_days", "made_record", "normals_of", "told_normals"]

YEAR_SD_C: Final = 0.35
"""Spread of whole years about the normal, beyond what days following from days make.

Class: measured. With it the mean temperature of made years has a standard deviation of 0.63 at Champion
(record 0.76), 0.48 in Norfolk (0.48), 0.50 at Cordoba (0.51), 0.63 at Brussels (0.70, with a warming trend).
"""

GAMMA_SCALE_MM: Final = (-2.16, 1.83)
"""Scale of daily rain amounts from the mean of a wet day. Source: S-HIJMANS. Class: published."""

_SMALLEST_SCALE_MM = 0.3
_LARGEST_SHAPE = 0.998
_WET_AFTER_WET_EXTRA = 0.25
_WET_AFTER_DRY_SHARE = 0.75
_SETTLE_DAYS = 60
_YEAR_DAYS = 365


@dataclass(frozen=True, eq=False)
class MadeDays:
    """Made weather on a calendar of 365 days, each row its own; arrays [row, day], day 0 is 1 January."""

    tmin_c: Floats
    tmax_c: Floats
    rain_mm: Floats


@dataclass(frozen=True)
class _Daily:
    """What the normals say of each day on an axis."""

    after_dry: Floats
    after_wet: Floats
    wet_share: Floats
    tmin_c: Floats
    tmax_c: Floats
    tmin_sd_c: Floats
    tmax_sd_c: Floats


def made_days(normals: Normals, rows: int, seed: int, *, years: int = 1) -> MadeDays:
    """Rows of daily weather that never was, with the normals' means, spread and rain.

    Parameters
    ----------
    normals : Normals
        Of the place.
    rows : int
        How many, each independent of the others.
    seed : int
        The same seed gives the same weather.
    years : int
        How many calendar years each row runs on for.

    Returns
    -------
    MadeDays
        Read-only arrays [row, 365 years].

    Raises
    ------
    ParameterError
        If `rows` or `years` is out of range.

    Notes
    -----
    The same process as `made_record`, all rows at once.

    Source
    ------
    As `made_record`.
    """
    if not (1 <= rows <= 2000 and 1 <= years <= 10):
        raise ParameterError(f"{rows} made rows of {years} years were asked for.", "Allowed: 2000 of 10.")
    # A stream for each thing drawn, so that asking for more years leaves the first ones as they were.
    chain, days, amounts, whole = (
        np.random.default_rng(part) for part in np.random.SeedSequence(seed).spawn(4)
    )
    total = _SETTLE_DAYS + years * _YEAR_DAYS
    of_year = (np.arange(total) - _SETTLE_DAYS) % _YEAR_DAYS
    month = month_of(np.datetime64("2001-01-01", "D") + of_year)
    daily = _daily_of(normals, month, of_year.astype(np.float64) + 0.5)

    draw = chain.random((total, rows))
    shock = days.standard_normal((total, 2, rows))
    wet = np.empty((total, rows), dtype=np.bool_)
    state = np.zeros(rows, dtype=np.bool_)
    noise = np.empty((total, 2, rows))
    now = np.zeros((2, rows))
    for day in range(total):
        state = draw[day] < np.where(state, daily.after_wet[day], daily.after_dry[day])
        wet[day] = state
        now = normals.carry_over @ now + normals.innovation @ shock[day]
        noise[day] = now
    keep = slice(_SETTLE_DAYS, None)
    rain = _amounts(normals, month[keep, None], wet[keep], amounts)
    shift = np.repeat(whole.normal(0.0, YEAR_SD_C, (years, rows)), _YEAR_DAYS, axis=0)
    tmax = (
        daily.tmax_c[keep, None]
        - normals.wet_day_cooler_c * (wet[keep] - daily.wet_share[keep, None])
        + daily.tmax_sd_c[keep, None] * noise[keep, 0]
        + shift
    )
    tmin = (
        daily.tmin_c[keep, None]
        + normals.wet_night_warmer_c * (wet[keep] - daily.wet_share[keep, None])
        + daily.tmin_sd_c[keep, None] * noise[keep, 1]
        + shift
    )
    low, high = np.minimum(tmin, tmax), np.maximum(tmin, tmax)
    return MadeDays(*(_by_row(values) for values in (low, high, rain)))


def _by_row(values: Floats) -> Floats:
    out = np.ascontiguousarray(np.round(values, 1).T)
    out.setflags(write=False)
    return out


def made_record(normals: Normals, years: int, seed: int, *, last_day: date | np.datetime64) -> Series:
    """Daily weather that never was, with the normals' means, spread and rain.

    Parameters
    ----------
    normals : Normals
        Of the place.
    years : int
        Length; the record ends on `last_day`.
    seed : int
        The same seed gives the same record.
    last_day : date
        Its last day.

    Returns
    -------
    Series
        Marked as made: every answer drawn from it says so.

    Raises
    ------
    ParameterError
        If `years` is not 1 to 200.

    Notes
    -----
    Chain of wet and dry days, gamma amounts, and a first-order process of standardised maximum and minimum
    about means that differ between wet and dry days; each year is warmer or colder as a whole. The part of
    the maximum's spread that wet and dry days make is taken out of the given spread first. A crossed pair
    is exchanged. Years are independent apart from that: no drought of several years, no wind, no humidity,
    no storm tails; where a month has under two wet days the rain rule is poor.

    Source
    ------
    RICHARDSON1984 (matrices), S-HIJMANS (rain amounts); transition chances: memory. Checked against a
    measured record in tests/unit/weather/test_made_weather.py.
    """
    if not 1 <= years <= 200:
        raise ParameterError(f"{years} made years were asked for.", "Allowed: 1 to 200.")
    end = as_day(last_day)
    days = round(years * 365.25)
    total = days + _SETTLE_DAYS
    dates = end - np.arange(total - 1, -1, -1)
    month = month_of(dates)
    year_day = (dates - dates.astype("datetime64[Y]").astype("datetime64[D]")).astype(np.int64) + 0.5
    random = np.random.default_rng(seed)

    daily = _daily_of(normals, month, year_day)
    wet = _chain(daily.after_dry, daily.after_wet, random.random(total))
    rain = _amounts(normals, month, wet, random)

    noise = _carry(random.standard_normal((total, 2)) @ normals.innovation.T, normals.carry_over)
    whole_year = dates.astype("datetime64[Y]").astype(np.int64)
    year_shift = random.normal(0.0, YEAR_SD_C, int(np.ptp(whole_year)) + 1)[whole_year - whole_year.min()]
    tmax = (
        daily.tmax_c
        - normals.wet_day_cooler_c * (wet - daily.wet_share)
        + daily.tmax_sd_c * noise[:, 0]
        + year_shift
    )
    tmin = (
        daily.tmin_c
        + normals.wet_night_warmer_c * (wet - daily.wet_share)
        + daily.tmin_sd_c * noise[:, 1]
        + year_shift
    )
    low, high = np.minimum(tmin, tmax), np.maximum(tmin, tmax)
    keep = slice(_SETTLE_DAYS, None)
    return Series(
        start=dates[_SETTLE_DAYS],
        tmin_c=np.round(low[keep], 1),
        tmax_c=np.round(high[keep], 1),
        rain_mm=np.round(rain[keep], 1),
        source=f"{MADE_SOURCE} {normals.name}, seed {seed}",
    )


def _daily_of(normals: Normals, month: NDArray[np.int64], year_day: Floats) -> _Daily:
    """Spread within wet and dry days is the given spread less what the two means and the years make."""
    share = normals.wet_days / MONTH_DAYS
    after_dry = _WET_AFTER_DRY_SHARE * share
    after_wet = np.minimum(after_dry + _WET_AFTER_WET_EXTRA, 1.0)
    mixed = share * (1 - share)
    tmax_sd = np.sqrt(
        np.maximum(normals.tmax_sd_c**2 - normals.wet_day_cooler_c**2 * mixed - YEAR_SD_C**2, 0.25)
    )
    tmin_sd = np.sqrt(
        np.maximum(normals.tmin_sd_c**2 - normals.wet_night_warmer_c**2 * mixed - YEAR_SD_C**2, 0.25)
    )
    return _Daily(
        after_dry=after_dry[month],
        after_wet=after_wet[month],
        wet_share=yearly_course(share, year_day, RAIN_WAVES),
        tmin_c=yearly_course(normals.tmin_c + normals.tmin_shift_c, year_day, MEAN_WAVES),
        tmax_c=yearly_course(normals.tmax_c, year_day, MEAN_WAVES),
        tmin_sd_c=yearly_course(tmin_sd, year_day, SD_WAVES),
        tmax_sd_c=yearly_course(tmax_sd, year_day, SD_WAVES),
    )


def _chain(after_dry: Floats, after_wet: Floats, draw: Floats) -> NDArray[np.bool_]:
    """Wet days, each depending on the day before."""
    out = []
    state = False
    for dry, wet, number in zip(after_dry.tolist(), after_wet.tolist(), draw.tolist(), strict=True):
        state = number < (wet if state else dry)
        out.append(state)
    return np.array(out, dtype=np.bool_)


def _amounts(
    normals: Normals, month: NDArray[np.int64], wet: NDArray[np.bool_], random: np.random.Generator
) -> Floats:
    """Gamma amounts on wet days; the shape is capped and the scale then keeps the mean."""
    days = np.where(normals.wet_days > 0, normals.wet_days, 1.0)
    mean = np.maximum(normals.rain_mm / days, 1e-6)
    scale = np.maximum(_SMALLEST_SCALE_MM, GAMMA_SCALE_MM[0] + GAMMA_SCALE_MM[1] * mean)
    shape = np.minimum(mean / scale, _LARGEST_SHAPE)
    scale = mean / shape
    return np.where(wet, random.gamma(shape[month], scale[month]), 0.0)


def _carry(shocks: Floats, carry_over: Floats) -> Floats:
    """First-order process: each day is `carry_over` times the day before plus its shock."""
    (a, b), (c, d) = carry_over.tolist()
    out = []
    x = y = 0.0
    for shock_x, shock_y in shocks.tolist():
        x, y = a * x + b * y + shock_x, c * x + d * y + shock_y
        out.append((x, y))
    return np.array(out, dtype=np.float64)
