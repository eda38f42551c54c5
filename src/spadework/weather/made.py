"""Made weather: daily years drawn from twelve monthly normals, for places and demonstrations without a
record."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.errors import ParameterError
from spadework.types import Floats
from spadework.weather.series import MADE_SOURCE, Series, as_day

CARRY_OVER: Final = np.array([[0.567, 0.086], [0.253, 0.504]])
INNOVATION: Final = np.array([[0.781, 0.0], [0.328, 0.637]])
"""Day-to-day matrices of standardised (maximum, minimum). Source: RICHARDSON1984. Class: published."""

WET_DAY_COOLER_C: Final = 3.0
"""Maximum of a wet day below that of a dry one. Class: memory."""

YEAR_SD_C: Final = 0.5
"""Spread of whole years about the normal. Class: memory."""

GAMMA_SCALE_MM: Final = (-2.16, 1.83)
"""Scale of daily rain amounts from the mean of a wet day. Source: S-HIJMANS. Class: published."""

_SMALLEST_SCALE_MM = 0.3
_LARGEST_SHAPE = 0.998
_WET_AFTER_WET_EXTRA = 0.25
_WET_AFTER_DRY_SHARE = 0.75
_MEAN_WAVES = 3
_SD_WAVES = 2
_SETTLE_DAYS = 60
_MONTH_MIDDLE = np.array([15.5, 45, 74.5, 105, 135.5, 166, 196.5, 227.5, 258, 288.5, 319, 349.5])
_MONTH_DAYS = np.array([31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])


@dataclass(frozen=True, eq=False)
class Normals:
    """Twelve monthly normals, January first.

    Parameters
    ----------
    name : str
        Of what place, and whether invented.
    tmin_c, tmax_c : array, shape (12,)  [degC]
        Mean daily minimum and maximum.
    tmin_sd_c, tmax_sd_c : array, shape (12,)  [degC]
        Standard deviation of the daily values within the month, over all years. Not in most published
        normals; without it odds of frost can be more than a week wrong.
    rain_mm : array, shape (12,)  [mm]
        Total of the month.
    wet_days : array, shape (12,)  [d]
        Days of the month with rain.

    Raises
    ------
    ParameterError
        If a row is not twelve numbers, a minimum is not below its maximum, a spread is not above zero, or wet
        days and rain do not fit each other.
    """

    name: str
    tmin_c: Floats
    tmax_c: Floats
    tmin_sd_c: Floats
    tmax_sd_c: Floats
    rain_mm: Floats
    wet_days: Floats

    def __post_init__(self) -> None:
        for field in ("tmin_c", "tmax_c", "tmin_sd_c", "tmax_sd_c", "rain_mm", "wet_days"):
            values = np.asarray(getattr(self, field), dtype=np.float64)
            if values.shape != (12,) or not np.isfinite(values).all():
                raise ParameterError(
                    f"{field} of {self.name} is not twelve numbers.", "Give January to December."
                )
            object.__setattr__(self, field, values)
        if (self.tmin_c >= self.tmax_c).any():
            month = int(np.argmax(self.tmin_c >= self.tmax_c)) + 1
            raise ParameterError(f"In month {month} of {self.name} the minimum is not below the maximum.")
        if (self.tmin_sd_c <= 0).any() or (self.tmax_sd_c <= 0).any():
            raise ParameterError(f"A spread of {self.name} is not above zero.")
        if (self.rain_mm < 0).any() or (self.wet_days < 0).any() or (self.wet_days > _MONTH_DAYS).any():
            raise ParameterError(f"Rain or wet days of {self.name} are out of range.")
        if ((self.rain_mm > 0) != (self.wet_days > 0)).any():
            raise ParameterError(f"{self.name} has rain without wet days, or wet days without rain.")


def normals_of(series: Series, name: str, *, wet_mm: float = 0.25) -> Normals:
    """Monthly normals of a record, with the daily spread.

    Parameters
    ----------
    series : Series
        Whole years.
    name : str
        What to call them.
    wet_mm : float  [mm]
        A day with at least this is wet.

    Returns
    -------
    Normals

    Notes
    -----
    Source: follows from the definition of a mean. Class: computed.
    """
    month = (series.dates.astype("datetime64[M]").astype(np.int64)) % 12
    wet = np.where(np.isnan(series.rain_mm), np.nan, (series.rain_mm >= wet_mm).astype(np.float64))

    def of(values: Floats, rule: str) -> Floats:
        return np.array([getattr(np, rule)(values[month == m]) for m in range(12)])

    share = of(wet, "nanmean")
    rain = of(series.rain_mm, "nanmean") * _MONTH_DAYS
    return Normals(
        name,
        of(series.tmin_c, "nanmean"),
        of(series.tmax_c, "nanmean"),
        of(series.tmin_c, "nanstd"),
        of(series.tmax_c, "nanstd"),
        np.where(share > 0, rain, 0.0),
        share * _MONTH_DAYS,
    )


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
    month = dates.astype("datetime64[M]").astype(np.int64) % 12
    year_day = (dates - dates.astype("datetime64[Y]").astype("datetime64[D]")).astype(np.int64) + 0.5
    random = np.random.default_rng(seed)

    share = normals.wet_days / _MONTH_DAYS
    after_dry = _WET_AFTER_DRY_SHARE * share
    after_wet = np.minimum(after_dry + _WET_AFTER_WET_EXTRA, 1.0)
    wet = _chain(after_dry[month], after_wet[month], random.random(total))
    rain = _amounts(normals, month, wet, random)

    # Spread within wet and dry days: the given spread less what the two means and the years make.
    between = WET_DAY_COOLER_C**2 * share * (1 - share)
    tmax_sd = np.sqrt(np.maximum(normals.tmax_sd_c**2 - between - YEAR_SD_C**2, 0.25))
    tmin_sd = np.sqrt(np.maximum(normals.tmin_sd_c**2 - YEAR_SD_C**2, 0.25))
    noise = _carry(random.standard_normal((total, 2)) @ INNOVATION.T)
    whole_year = dates.astype("datetime64[Y]").astype(np.int64)
    year_shift = random.normal(0.0, YEAR_SD_C, int(np.ptp(whole_year)) + 1)[whole_year - whole_year.min()]
    wet_share = _daily(share, year_day, _SD_WAVES)
    tmax = (
        _daily(normals.tmax_c, year_day, _MEAN_WAVES)
        - WET_DAY_COOLER_C * (wet - wet_share)
        + _daily(tmax_sd, year_day, _SD_WAVES) * noise[:, 0]
        + year_shift
    )
    tmin = (
        _daily(normals.tmin_c, year_day, _MEAN_WAVES)
        + _daily(tmin_sd, year_day, _SD_WAVES) * noise[:, 1]
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


def _carry(shocks: Floats) -> Floats:
    """First-order process: each day is CARRY_OVER times the day before plus its shock."""
    (a, b), (c, d) = CARRY_OVER.tolist()
    out = []
    x = y = 0.0
    for shock_x, shock_y in shocks.tolist():
        x, y = a * x + b * y + shock_x, c * x + d * y + shock_y
        out.append((x, y))
    return np.array(out, dtype=np.float64)


def _daily(monthly: Floats, year_day: Floats, waves: int) -> Floats:
    """A smooth yearly course through twelve monthly values, least squares with a few harmonics."""
    fit, *_ = np.linalg.lstsq(_waves(_MONTH_MIDDLE, waves), monthly, rcond=None)
    return np.asarray(_waves(year_day, waves) @ fit, dtype=np.float64)


def _waves(day: Floats, waves: int) -> Floats:
    angle = 2 * np.pi * np.asarray(day) / 365.25
    columns = [np.ones_like(angle)]
    for number in range(1, waves + 1):
        columns += [np.cos(number * angle), np.sin(number * angle)]
    return np.stack(columns, axis=-1)
