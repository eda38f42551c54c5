"""Frost: on which dates it comes, and how cold a leaf gets under the sky of a frost night."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Bools, Floats, Ints

SURFACE_OFFSET_C = -2.05
WITHIN_SITE_SD_C = 1.55
BETWEEN_SITES_SD_C = 1.28
"""Surface minimum less shelter minimum on spring and autumn nights: mean, spread from night to night at one
site, spread between sites [degC]. Source: measured (USCRN 2020, infrared surface of
short grass)."""

DRY_NIGHT_OFFSET_C = -3.3
MIDDLING_NIGHT_OFFSET_C = -2.1
HUMID_NIGHT_OFFSET_C = -1.6
"""The same by the day's highest humidity: below 70, 70 to 90, above 90 percent [degC]. Source: measured."""

STIRRED_NIGHT_OFFSET_C = -0.5
"""The same under cloud, or with wind over 3 m/s [degC]. Source: memory."""

MISSING_DAYS_ALLOWED = 15
"""A year with more missing minima than this says nothing about its frost dates. Source: common-practice."""


class SurfaceOffset(NamedTuple):
    """How far the plant's surface lies from the shelter's minimum: mean and the two spreads [degC]."""

    mean_c: Floats
    within_sd_c: float
    between_sd_c: float


def plant_surface_offset(rh_max_pct: ArrayLike | None = None, stirred: ArrayLike = False) -> SurfaceOffset:
    """Offset of a grass or leaf surface from the shelter minimum, by what is known of the night.

    Parameters
    ----------
    rh_max_pct : array, optional, shape (..., day)  [percent]
        Highest relative humidity of the day. NaN, or none at all, gives the mean over all nights.
    stirred : array of bool, shape (..., day)
        Cloud, or wind over 3 m/s, is known or forecast.

    Returns
    -------
    SurfaceOffset
        mean_c broadcast from the inputs; the spreads are one number each.

    Notes
    -----
    A grass surface seen by an infrared thermometer, not a leaf at 30 cm, which stays nearer to the air.

    Source
    ------
    USCRN (measured; stirred nights memory).
    Checked: tests/published/soil_stations/test_frost_surface.py
    """
    if rh_max_pct is None:
        by_humidity = np.asarray(SURFACE_OFFSET_C)
    else:
        humid = np.asarray(rh_max_pct, dtype=np.float64)
        by_humidity = np.where(
            humid < 70.0,
            DRY_NIGHT_OFFSET_C,
            np.where(humid <= 90.0, MIDDLING_NIGHT_OFFSET_C, HUMID_NIGHT_OFFSET_C),
        )
        by_humidity = np.where(np.isnan(humid), SURFACE_OFFSET_C, by_humidity)
    mean = np.where(np.asarray(stirred), STIRRED_NIGHT_OFFSET_C, by_humidity)
    return SurfaceOffset(mean, WITHIN_SITE_SD_C, BETWEEN_SITES_SD_C)


def chance_surface_below(
    tmin_c: ArrayLike,
    threshold_c: ArrayLike,
    site_offset_c: ArrayLike = 0.0,
    *,
    offset_mean_c: ArrayLike = SURFACE_OFFSET_C,
    within_sd_c: float = WITHIN_SITE_SD_C,
    between_sd_c: float = BETWEEN_SITES_SD_C,
    cover_gain_c: ArrayLike = 0.0,
    cover_gain_sd_c: float = 0.0,
) -> Floats:
    """Chance that a plant's surface falls to or below a temperature in a night.

    Parameters
    ----------
    tmin_c : array, shape (..., day)  [degC]
        Shelter minimum. NaN gives NaN.
    threshold_c : array  [degC]
        Surface temperature that matters. Broadcasts.
    site_offset_c : array  [degC]
        This bed's own lasting offset: frost pockets below zero, beside a wall above.
    offset_mean_c : array, shape (..., day)  [degC]
        Mean of the night's offset, from `plant_surface_offset`.
    within_sd_c : float  [degC]
        Spread from night to night.
    between_sd_c : float  [degC]
        What is not known of the bed's own offset; near 0 once a minimum thermometer has stood there.
    cover_gain_c, cover_gain_sd_c : array, float  [degC]
        Mean and spread of what a cover adds at plant height.

    Returns
    -------
    array, shape (..., day)  [-]
        0 to 1. Chances of successive nights at one bed are not independent: the bed's own offset is shared.

    Raises
    ------
    ParameterError
        If a spread is below zero or all are zero.

    Notes
    -----
    Against 9,315 measured nights with shelter minima of -4 to 8 degC the largest miss over whole-degree
    classes is 0.07 (at or below -2 degC from a shelter minimum of 0 to 1: 0.42 given, 0.35 seen). Under
    film a single clear night can be colder than outside; the normal spread allows for that only in part.
    Records of towns, airports and gridded archives run warm against a hollow by a degree or more.

    Source
    ------
    USCRN (measured). Checked: tests/published/soil_stations/test_frost_surface.py
    """
    from scipy.special import ndtr

    if min(within_sd_c, between_sd_c, cover_gain_sd_c) < 0.0:
        raise ParameterError("A spread is below zero.", "Use 0 degC or more.")
    spread = float(np.sqrt(within_sd_c**2 + between_sd_c**2 + cover_gain_sd_c**2))
    if spread == 0.0:
        raise ParameterError(
            "Without any spread there is no chance to give.", "Give at least one spread above 0."
        )
    expected = (
        np.asarray(tmin_c, dtype=np.float64)
        + np.asarray(offset_mean_c, dtype=np.float64)
        + np.asarray(site_offset_c, dtype=np.float64)
        + np.asarray(cover_gain_c, dtype=np.float64)
    )
    chance: Floats = ndtr((np.asarray(threshold_c, dtype=np.float64) - expected) / spread)
    return chance


def complete_years(tmin_c: ArrayLike, missing_allowed: int = MISSING_DAYS_ALLOWED) -> Bools:
    """Which rows have minima enough to speak of their frost dates.

    Parameters
    ----------
    tmin_c : array, shape (..., day)  [degC]
        Minima of the whole window asked about.
    missing_allowed : int
        NaN days a row may have.

    Returns
    -------
    array of bool, shape (...)

    Source
    ------
    common-practice. Checked: tests/published/frost_dates/test_frost_dates.py
    """
    missing = np.isnan(np.asarray(tmin_c, dtype=np.float64)).sum(axis=-1)
    return np.asarray(missing <= missing_allowed)


def last_day_at_or_below(tmin_c: ArrayLike, threshold_c: float) -> Ints:
    """Position of the last day of each row with a minimum at or below a threshold.

    Parameters
    ----------
    tmin_c : array, shape (..., day)  [degC]
        Minima of the window searched, such as midwinter to midsummer. NaN days count as frost-free: leave
        out rows that fail `complete_years`.
    threshold_c : float  [degC]
        Shelter minimum that counts.

    Returns
    -------
    array of int, shape (...)
        0-based position, or -1 when there was none.

    Source
    ------
    computed. Checked: tests/published/frost_dates/test_frost_dates.py
    """
    cold = np.asarray(tmin_c, dtype=np.float64) <= threshold_c
    from_the_end = np.argmax(cold[..., ::-1], axis=-1)
    return np.where(cold.any(axis=-1), cold.shape[-1] - 1 - from_the_end, -1).astype(np.int64)


def first_day_at_or_below(tmin_c: ArrayLike, threshold_c: float) -> Ints:
    """Position of the first day of each row with a minimum at or below a threshold.

    Parameters
    ----------
    tmin_c : array, shape (..., day)  [degC]
        Minima of the window searched, such as midsummer to midwinter. NaN as in `last_day_at_or_below`.
    threshold_c : float  [degC]
        Shelter minimum that counts.

    Returns
    -------
    array of int, shape (...)
        0-based position, or -1 when there was none.

    Source
    ------
    computed. Checked: tests/published/frost_dates/test_frost_dates.py
    """
    cold = np.asarray(tmin_c, dtype=np.float64) <= threshold_c
    return np.where(cold.any(axis=-1), np.argmax(cold, axis=-1), -1).astype(np.int64)


def weibull_quantiles(values: ArrayLike, probs: ArrayLike) -> Floats:
    """Quantiles at Weibull plotting positions: the k-th of n values stands at k/(n+1).

    Parameters
    ----------
    values : array, shape (..., n)
        One value a year, in any unit. A year in which it never happened is -inf where that means "earlier
        than the window" and +inf where it means "later". A NaN makes the row's quantiles NaN.
    probs : array, shape (p,)  [-]
        0 to 1.

    Returns
    -------
    array, shape (..., p)
        Beyond the outermost positions the outermost value; infinite where a quantile touches a year in
        which it never happened.

    Raises
    ------
    ParameterError
        If there are no values or a probability is not 0 to 1.

    Notes
    -----
    Wider than linear quantiles, and right to be: a range meant to hold 90 % of years held 0.89 to 0.90
    against 0.87 (measured, sites of 30-odd years). With n years nothing rarer than 1 in n+1 can be said.

    Source
    ------
    Weibull 1939, A statistical theory of the strength of materials (memory). Checked:
    tests/published/frost_dates/test_frost_dates.py
    """
    ordered = np.sort(np.asarray(values, dtype=np.float64), axis=-1)
    share = np.atleast_1d(np.asarray(probs, dtype=np.float64))
    if ordered.ndim == 0 or ordered.shape[-1] == 0:
        raise ParameterError("No years to take a quantile of.", "Give at least one value.")
    if not np.all((share >= 0.0) & (share <= 1.0)):
        raise ParameterError("A probability lies outside 0 to 1.", "Use shares such as 0.1, 0.5 and 0.9.")
    count = ordered.shape[-1]
    position = np.clip(share * (count + 1) - 1.0, 0.0, count - 1.0)
    below = np.floor(position).astype(np.int64)
    above = np.minimum(below + 1, count - 1)
    weight = position - below
    low, high = ordered[..., below], ordered[..., above]
    # Equal neighbours, or one earlier than all, are taken as they are: between infinities lies only NaN.
    as_is = (low == high) | (weight == 0.0) | np.isneginf(low)
    between = (1.0 - weight) * np.where(as_is, 0.0, low) + weight * np.where(as_is, 0.0, high)
    unknown = np.any(np.isnan(ordered), axis=-1, keepdims=True)
    return np.where(unknown, np.nan, np.where(as_is, low, between))


def bootstrap_quantile_interval(
    values: ArrayLike,
    prob: float,
    rng: np.random.Generator,
    *,
    level: float = 0.9,
    draws: int = 4000,
) -> tuple[float, float]:
    """How well a quantile is known: its interval when years are drawn again.

    Parameters
    ----------
    values : array, shape (n,)
        One value a year, as for `weibull_quantiles`.
    prob : float  [-]
        Which quantile, 0 to 1.
    rng : Generator
        Source of the draws; the same seed gives the same interval.
    level : float  [-]
        Share of draws within the interval, above 0 and below 1.
    draws : int
        Number of drawn records.

    Returns
    -------
    low, high : float
        In the unit of the values.

    Raises
    ------
    ParameterError
        If there are no values, or prob, level or draws is out of range.

    Notes
    -----
    Takes years as independent; a warming record is not, and then the interval is too narrow.

    Source
    ------
    computed. Checked: tests/published/frost_dates/test_frost_dates.py
    """
    record = np.asarray(values, dtype=np.float64)
    if record.ndim != 1 or record.size == 0:
        raise ParameterError("No years to draw from.", "Give one value a year.")
    if not (0.0 < level < 1.0 and draws >= 1):
        raise ParameterError(
            f"An interval of level {level:g} from {draws} draws cannot be made.",
            "Use a level within 0 and 1.",
        )
    drawn = rng.choice(record, size=(draws, record.size), replace=True)
    estimates = weibull_quantiles(drawn, [prob])[:, 0]
    low, high = weibull_quantiles(estimates, [(1.0 - level) / 2.0, (1.0 + level) / 2.0])
    return float(low), float(high)


def share_on_or_after(days: ArrayLike, day: ArrayLike) -> Floats:
    """Share of years in which the day fell on or after a given day.

    Parameters
    ----------
    days : array, shape (n,)
        One position a year; -inf or -1 for years in which it never happened before the window closed.
    day : array  [-]
        Position asked about, on the same count.

    Returns
    -------
    array, shape of day  [-]
        A plain count over the years: 9 of 37 years is 0.243.

    Raises
    ------
    ParameterError
        If there are no years or one is NaN.

    Source
    ------
    computed. Checked: tests/published/frost_dates/test_frost_dates.py
    """
    record = np.asarray(days, dtype=np.float64)
    if record.ndim != 1 or record.size == 0 or np.any(np.isnan(record)):
        raise ParameterError("No complete years to count.", "Leave out years with missing days.")
    asked = np.expand_dims(np.asarray(day, dtype=np.float64), -1)
    return np.asarray(np.mean(record >= asked, axis=-1))
