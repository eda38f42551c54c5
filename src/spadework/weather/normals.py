"""Monthly normals: of a record, or as told, with what made years need besides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.errors import ParameterError
from spadework.types import Bools, Floats
from spadework.weather.climates import CLIMATES, WET_DAY_MM, climate_kind, daily_spread
from spadework.weather.series import Series

MONTH_DAYS: Final = np.array([31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
MONTH_MIDDLE: Final = np.array([15.5, 45, 74.5, 105, 135.5, 166, 196.5, 227.5, 258, 288.5, 319, 349.5])
"""Days from the start of the year to the middle of each month."""

MEAN_WAVES: Final = 3
SD_WAVES: Final = 3
RAIN_WAVES: Final = 2
"""Yearly waves through twelve monthly means, spreads and shares of wet days."""

CARRY_OVER: Final = np.array([[0.567, 0.086], [0.253, 0.504]])
INNOVATION: Final = np.array([[0.781, 0.0], [0.328, 0.637]])
"""Day-to-day matrices of standardised (maximum, minimum). Source: RICHARDSON1984. Class: published."""

WET_DAY_COOLER_C: Final = 3.0
"""Maximum of a wet day below that of a dry one. Class: memory."""

WET_NIGHT_WARMER_C: Final = 1.0
"""Minimum of a wet day above that of a dry one, whose nights are clearer. Class: measured: 0.6 to 1.7 in
England, 0.8 Brussels, 1.0 Champion, 1.7 Seattle, 2.1 Cordoba; -0.1 Tunis, -0.5 Hyderabad."""

WET_MM: Final = 0.25
"""A day with at least this is wet. Class: common-practice."""

_ROWS = ("tmin_c", "tmax_c", "tmin_sd_c", "tmax_sd_c", "rain_mm", "wet_days")
_FEWEST_WET_DAYS = 10
_FEWEST_PAIRS = 730
_CLOSEST = 0.99
_NONE = field(default_factory=lambda: np.zeros(12))


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
        Standard deviation of the daily values about the season's course, over all years. Not in most
        published normals; without it odds of frost can be more than a week wrong.
    rain_mm : array, shape (12,)  [mm]
        Total of the month.
    wet_days : array, shape (12,)  [d]
        Days of the month with rain.
    tmin_shift_c : array, shape (12,)  [degC]
        Added to made minima so that they meet told frost dates; zero where there are none.
    carry_over, innovation : array, shape (2, 2)
        How the standardised (maximum, minimum) of a day follows from the day before.
    wet_day_cooler_c : float  [degC]
        Maximum of a wet day below that of a dry one.
    wet_night_warmer_c : float  [degC]
        Minimum of a wet day above that of a dry one.
    basis : str
        In a few words, what made years of these stand on: "told monthly normals".

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
    tmin_shift_c: Floats = _NONE
    carry_over: Floats = field(default_factory=lambda: CARRY_OVER)
    innovation: Floats = field(default_factory=lambda: INNOVATION)
    wet_day_cooler_c: float = WET_DAY_COOLER_C
    wet_night_warmer_c: float = WET_NIGHT_WARMER_C
    basis: str = "monthly normals"

    def __post_init__(self) -> None:
        for name in (*_ROWS, "tmin_shift_c"):
            values = np.array(getattr(self, name), dtype=np.float64)
            if values.shape != (12,) or not np.isfinite(values).all():
                raise ParameterError(
                    f"{name} of {self.name} is not twelve numbers.", "Give January to December."
                )
            values.setflags(write=False)
            object.__setattr__(self, name, values)
        if (self.tmin_c >= self.tmax_c).any():
            month = int(np.argmax(self.tmin_c >= self.tmax_c)) + 1
            raise ParameterError(f"In month {month} of {self.name} the minimum is not below the maximum.")
        if (self.tmin_sd_c <= 0).any() or (self.tmax_sd_c <= 0).any():
            raise ParameterError(f"A spread of {self.name} is not above zero.")
        if (self.rain_mm < 0).any() or (self.wet_days < 0).any() or (self.wet_days > MONTH_DAYS).any():
            raise ParameterError(f"Rain or wet days of {self.name} are out of range.")
        if ((self.rain_mm > 0) != (self.wet_days > 0)).any():
            raise ParameterError(f"{self.name} has rain without wet days, or wet days without rain.")

    @property
    def content(self) -> bytes:
        """The numbers as bytes: what made years depend on."""
        numbers = [getattr(self, name) for name in (*_ROWS, "tmin_shift_c", "carry_over", "innovation")]
        numbers.append(np.array([self.wet_day_cooler_c, self.wet_night_warmer_c]))
        return b"".join(row.tobytes() for row in numbers)


def normals_of(series: Series, name: str, *, wet_mm: float = WET_MM, basis: str = "") -> Normals:
    """Monthly normals of a record, with the daily spread and how one day follows from another.

    Parameters
    ----------
    series : Series
        Whole years. Without any rain the made years have none either.
    name : str
        What to call them.
    wet_mm : float  [mm]
        A day with at least this is wet.
    basis : str
        What made years will say they stand on; by default the record's name.

    Returns
    -------
    Normals

    Notes
    -----
    Source: follows from the definition of a mean; the spread is taken about three yearly waves, so that the
    season's march within a month does not count as spread, and the day-to-day matrices from correlations
    at no lag and at a lag of one day (RICHARDSON1984). Class: computed.
    """
    month = month_of(series.dates)
    wet = np.where(np.isnan(series.rain_mm), np.nan, (series.rain_mm >= wet_mm).astype(np.float64))

    def of(values: Floats, rule: str) -> Floats:
        return np.array([getattr(np, rule)(values[month == m]) for m in range(12)])

    dry = bool(np.isnan(wet).all())
    share = np.zeros(12) if dry else np.nan_to_num(of(wet, "nanmean"))
    rain = np.zeros(12) if dry else np.nan_to_num(of(series.rain_mm, "nanmean")) * MONTH_DAYS
    low, high = _about_course(series, series.tmin_c), _about_course(series, series.tmax_c)
    low_sd, high_sd = of(low, "nanstd"), of(high, "nanstd")
    cooler = _dry_less_wet(high, wet, month)
    warmer = _dry_less_wet(low, wet, month)
    carry_over, innovation = _day_to_day(np.stack([high / high_sd[month], low / low_sd[month]]))
    return Normals(
        name,
        of(series.tmin_c, "nanmean"),
        of(series.tmax_c, "nanmean"),
        low_sd,
        high_sd,
        np.where(share > 0, rain, 0.0),
        share * MONTH_DAYS,
        carry_over=carry_over,
        innovation=innovation,
        wet_day_cooler_c=WET_DAY_COOLER_C if cooler is None else cooler,
        wet_night_warmer_c=WET_NIGHT_WARMER_C if warmer is None else -warmer,
        basis=basis or name,
    )


def _dry_less_wet(values: Floats, wet: Floats, month: NDArray[np.int64]) -> float | None:
    """Mean over the months of dry less wet days; months with few of either do not count."""
    apart = []
    for m in range(12):
        dry_days, wet_days = (values[(month == m) & (wet == flag) & ~np.isnan(values)] for flag in (0, 1))
        if min(dry_days.size, wet_days.size) >= _FEWEST_WET_DAYS:
            apart.append(float(dry_days.mean() - wet_days.mean()))
    return float(np.mean(apart)) if apart else None


def _day_to_day(both: Floats) -> tuple[Floats, Floats]:
    """Matrices of the first-order process from standardised (maximum, minimum), shape (2, day)."""
    known: Bools = ~np.isnan(both[0] + both[1])
    pairs = known[:-1] & known[1:]
    if pairs.sum() < _FEWEST_PAIRS:
        return CARRY_OVER, INNOVATION
    together: Floats = np.asarray(np.corrcoef(both[:, known]), dtype=np.float64)
    if abs(together[0, 1]) > _CLOSEST:
        return CARRY_OVER, INNOVATION
    earlier, later = both[:, :-1][:, pairs], both[:, 1:][:, pairs]
    lagged = later @ earlier.T / pairs.sum()
    carry = lagged @ np.linalg.inv(together)
    left = together - carry @ lagged.T
    if np.abs(np.linalg.eigvals(carry)).max() >= 1.0 or np.linalg.eigvalsh(left).min() <= 1e-6:
        return CARRY_OVER, INNOVATION
    return carry, np.linalg.cholesky(left)


def told_normals(
    name: str,
    tmin_c: Sequence[float],
    tmax_c: Sequence[float],
    rain_mm: Sequence[float],
    wet_days: Sequence[float] | None = None,
    climate: str = "",
    *,
    south: bool = False,
) -> Normals:
    """Normals as a person tells them, completed by what the kind of climate lends.

    Parameters
    ----------
    name : str
        Of what place.
    tmin_c, tmax_c : 12 numbers  [degC]
    rain_mm : 12 numbers  [mm]
    wet_days : 12 numbers or None  [d]
        Days with 1 mm or more; None takes the climate's usual rain of a wet day.
    climate : str
        One of `CLIMATES`; empty lets the normals decide.
    south : bool
        South of the equator.

    Raises
    ------
    ParameterError
        If the numbers are not possible or the climate is not known.
    """
    rows = [np.asarray(row, dtype=np.float64) for row in (tmin_c, tmax_c, rain_mm)]
    if any(row.shape != (12,) for row in rows):
        raise ParameterError(
            f"The normals have {', '.join(str(row.size) for row in rows)} numbers.", "Give twelve of each."
        )
    if climate and climate not in CLIMATES:
        raise ParameterError(f"Climate {climate!r} is not known.", f"Known: {', '.join(CLIMATES)}.")
    low, high, rain = rows
    kind = climate or climate_kind(low, high, rain)
    tmin_sd, tmax_sd = daily_spread(kind, south=south)
    usual = np.clip(rain / WET_DAY_MM[kind], 0.3, 0.9 * MONTH_DAYS)
    wet = np.where(rain > 0, usual, 0.0) if wet_days is None else np.asarray(wet_days, dtype=np.float64)
    basis = f"told monthly normals and the usual spread of days in a {kind} climate"
    return Normals(name, low, high, tmin_sd, tmax_sd, rain, wet, basis=basis)


def month_of(dates: NDArray[np.datetime64]) -> NDArray[np.int64]:
    """Month of each day, January 0."""
    months: NDArray[np.int64] = dates.astype("datetime64[M]").astype(np.int64) % 12
    return months


def yearly_course(monthly: Floats, year_day: Floats, waves: int) -> Floats:
    """A smooth yearly course through twelve monthly values, least squares with a few waves."""
    fit, *_ = np.linalg.lstsq(_waves(MONTH_MIDDLE, waves), monthly, rcond=None)
    return np.asarray(_waves(year_day, waves) @ fit, dtype=np.float64)


def _about_course(series: Series, values: Floats) -> Floats:
    """Daily values less the season's course."""
    year_day = (series.dates - series.dates.astype("datetime64[Y]").astype("datetime64[D]")).astype(
        np.float64
    )
    waves = _waves(year_day, MEAN_WAVES)
    known = ~np.isnan(values)
    fit, *_ = np.linalg.lstsq(waves[known], values[known], rcond=None)
    return np.asarray(values - waves @ fit, dtype=np.float64)


def _waves(day: Floats, waves: int) -> Floats:
    angle = 2 * np.pi * np.asarray(day) / 365.25
    columns = [np.ones_like(angle)]
    for number in range(1, waves + 1):
        columns += [np.cos(number * angle), np.sin(number * angle)]
    return np.stack(columns, axis=-1)
