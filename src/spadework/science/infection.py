"""Weather that lets diseases of leaves, roots and fruit infect: one law for each rule, on days or on wet
spells.

A law says what the weather allows, not that the disease is there: spores must be near and a host must stand.
Limits are those of the publications; the ends of a band are counted in, and a whole degree or hour between
two bands goes to the nearer one."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from spadework.types import Bools, Floats, Ints

NEVER: Final = 99.0

LEAF_SPOT_ROWS: Final = (
    (13.0, 17.0, (7.0, 16.0, 21.0, NEVER)),
    (18.0, 20.0, (4.0, 9.0, 16.0, 23.0)),
    (21.0, 25.0, (3.0, 6.0, 13.0, 21.0)),
    (26.0, 29.0, (4.0, 9.0, 16.0, 23.0)),
)
"""Mean warmth of the wet hours, and the wet hours in a day from which severity is 1, 2, 3, 4. Source:
MADDEN-1978, memory; the limits 13 and 29 degC are published in NIBIO-MADDEN."""

LATE_BLIGHT_ROWS: Final = (
    (7.2, 11.65, (16.0, 19.0, 22.0, 25.0)),
    (11.65, 15.05, (13.0, 16.0, 19.0, 22.0)),
    (15.05, 26.6, (10.0, 13.0, 16.0, 19.0)),
)
"""Mean warmth of a humid spell, and its hours from which severity is 1, 2, 3, 4. Source: MSU-WALLIN,
published hour bands; the limits in degC and 90 percent humidity: KRAUSE-1975, memory."""

TWO_DAYS_MIN_C: Final = 10.0
TWO_DAYS_HUMID_H: Final = 6.0
"""Minimum and humid hours of each of two days in a row. Source: AHDB-2017, published."""

TWO_DAYS_OLDER_HUMID_H: Final = 11.0
"""The same in the older rule. Source: SMITH-1956, memory."""

RAIN_DAYS_FIRST: Final = 10
SEVERITY_FIRST: Final = 18.0
"""Rain-favourable days, or severity summed, after which late blight is looked for. Source: UW-VEG2020,
published."""

SPOTS_FIRST: Final = 35.0
SPOTS_NEXT: Final = 15.0
"""Leaf-spot severity summed since setting out at which to act first, and again. Source: PITBLADO-1992,
memory."""


def leaf_spot_severity(wet_h: ArrayLike, temp_c: ArrayLike) -> Ints:
    """Severity of a day for the leaf spots of tomato, potato, carrot and celery.

    Parameters
    ----------
    wet_h : array  [h]
        Hours of wet leaves in a day; rounded to whole hours. NaN counts as 0.
    temp_c : array  [degC]
        Mean air temperature of those hours; rounded to whole degrees. NaN counts as out of range.

    Returns
    -------
    array of int
        0 to 4.

    Source
    ------
    MADDEN-1978 (memory), NIBIO-MADDEN (published limits). Checked:
    tests/published/infection/test_severity_cells.py
    """
    return _severity(np.round(known(wet_h)), np.round(known(temp_c, -NEVER)), LEAF_SPOT_ROWS)


def late_blight_severity(humid_h: ArrayLike, temp_c: ArrayLike) -> Ints:
    """Severity of one humid spell for late blight.

    Parameters
    ----------
    humid_h : array  [h]
        Hours in a row at 90 percent humidity or more; rounded. NaN counts as 0.
    temp_c : array  [degC]
        Mean air temperature of those hours. NaN counts as out of range.

    Returns
    -------
    array of int
        0 to 4.

    Source
    ------
    MSU-WALLIN (published), KRAUSE-1975 (memory). Checked: tests/published/infection/test_severity_cells.py
    """
    return _severity(np.round(known(humid_h)), known(temp_c, -NEVER), LATE_BLIGHT_ROWS)


def late_blight_two_days(
    tmin_c: ArrayLike, humid_h: ArrayLike, least_humid_h: float = TWO_DAYS_HUMID_H
) -> Bools:
    """Whether a day is the second of two in a row on each of which late blight could infect.

    Parameters
    ----------
    tmin_c : array, shape (..., day)  [degC]
    humid_h : array, shape (..., day)  [h]
        Hours at 90 percent humidity or more.
    least_humid_h : float  [h]
        6, or 11 for the older rule.

    Notes
    -----
    Checked by its makers against more than 2000 outbreaks in Great Britain. It does not know the variety or a
    cover.

    Source
    ------
    AHDB-2017 (published); SMITH-1956 (memory) with 11 h. Checked:
    tests/published/infection/test_rule_cases.py
    """
    day = (np.asarray(tmin_c) >= TWO_DAYS_MIN_C) & (np.asarray(humid_h) >= least_humid_h)
    before = np.zeros_like(day)
    before[..., 1:] = day[..., :-1]
    both: Bools = day & before
    return both


def rain_favourable(tmin_c: ArrayLike, tmax_c: ArrayLike, rain_mm: ArrayLike) -> Bools:
    """Whether a day favours late blight by warmth and rain alone.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
    rain_mm : array, shape (..., day)  [mm]
        NaN counts as none.

    Notes
    -----
    Mean of five days below 25.5 degC and at least 30 mm of rain in ten; a day with a minimum below 7.2 degC
    does not count. Before the tenth day less rain has been summed than the rule asks about.

    Source
    ------
    HYRE-1954 (published). Checked: tests/published/infection/test_rule_cases.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    warm = trailing((low + high) / 2.0, 5) / np.minimum(np.arange(1, low.shape[-1] + 1), 5)
    found: Bools = (warm < 25.5) & (trailing(known(rain_mm), 10) >= 30.0) & (low >= 7.2)
    return found


def potato_days(tmin_c: ArrayLike, tmax_c: ArrayLike) -> Floats:
    """Physiological days of a potato, 0 to 10 a day: early blight is looked for from a sum of 300.

    Parameters
    ----------
    tmin_c, tmax_c : array  [degC]

    Source
    ------
    PSCHEIDT-1988 (memory; the last term at the maximum), UW-PDAYS (published curve). Checked:
    tests/published/infection/test_severity_cells.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    first, second = (2.0 * low + high) / 3.0, (low + 2.0 * high) / 3.0
    day: Floats = (5.0 * _vigour(low) + 8.0 * (_vigour(first) + _vigour(second)) + 3.0 * _vigour(high)) / 24.0
    return day


def _severity(hours: Floats, temp: Floats, rows: tuple[tuple[float, float, tuple[float, ...]], ...]) -> Ints:
    hours, temp = np.broadcast_arrays(hours, temp)
    found: NDArray[np.int64] = np.zeros(hours.shape, dtype=np.int64)
    for low, high, from_hours in rows:
        value = np.searchsorted(np.asarray(from_hours), hours, side="right")
        found = np.where((temp >= low) & (temp <= high), value, found)
    return found


def _vigour(temp: Floats) -> Floats:
    wide = np.where(temp <= 21.0, 14.0, 9.0)
    fit: Floats = np.where((temp < 7.0) | (temp > 30.0), 0.0, 10.0 * (1.0 - ((temp - 21.0) / wide) ** 2))
    return fit


def trailing(values: Floats, days: int) -> Floats:
    """Sum of each day and those before it, so many in all.

    Source
    ------
    computed: a sum.
    """
    total = np.cumsum(values, axis=-1)
    total[..., days:] -= total[..., :-days].copy()
    return total


def known(values: ArrayLike, instead: ArrayLike = 0.0) -> Floats:
    """The values, another number where they are NaN.

    Source
    ------
    computed: nothing of nature.
    """
    given = np.asarray(values, dtype=np.float64)
    return np.where(np.isnan(given), instead, given)
