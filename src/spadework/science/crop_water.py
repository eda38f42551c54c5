"""How much water a crop can use, beside a reference lawn: coefficients on its way from emergence to ready."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats

STAGE_SHARES = (0.15, 0.5, 0.8)
"""Shares of the way from emergence to ready at which leaves begin to count, cover the ground, and begin to
age. Source: memory."""

LEAST_COEFFICIENT_MOVED = 0.45
"""Coefficients below this are not moved by wind and dryness of the air. Source: FAO56, ch. 6, published."""


def climate_adjustment(wind_2m_m_s: ArrayLike, rh_min_pct: ArrayLike, height_m: ArrayLike) -> Floats:
    """What a windy or dry climate adds to the coefficient of a tall crop.

    Parameters
    ----------
    wind_2m_m_s : array  [m s-1]
        Mean wind at 2 m.
    rh_min_pct : array  [percent]
        Mean of the day's lowest humidity.
    height_m : array  [m]
        Height of the crop, zero or more.

    Returns
    -------
    array  [-]
        Zero in the standard climate, 2 m/s and 45 percent.

    Raises
    ------
    ParameterError
        If a height is below zero.

    Source
    ------
    FAO56, eq. 62 (published). Checked: tests/published/fao56/test_root_zone.py
    """
    wind, dry = np.asarray(wind_2m_m_s, dtype=np.float64), np.asarray(rh_min_pct, dtype=np.float64)
    height = np.asarray(height_m, dtype=np.float64)
    if np.any(height < 0.0):
        raise ParameterError("A crop has a height below zero.", "Use 0 m or more.")
    moved: Floats = (0.04 * (wind - 2.0) - 0.004 * (dry - 45.0)) * (height / 3.0) ** 0.3
    return moved


def adjusted_coefficient(
    table: ArrayLike, wind_2m_m_s: ArrayLike, rh_min_pct: ArrayLike, height_m: ArrayLike
) -> Floats:
    """A printed coefficient of the middle or end of the season, moved to the climate of the place.

    Parameters
    ----------
    table : array  [-]
        As printed, for the standard climate.
    wind_2m_m_s, rh_min_pct, height_m : array
        As in `climate_adjustment`, means over the stage.

    Returns
    -------
    array  [-]
        Coefficients below 0.45 stay as they are.

    Source
    ------
    FAO56, eq. 62, 65 and 70 (published). Checked: tests/published/fao56/test_root_zone.py
    """
    printed = np.asarray(table, dtype=np.float64)
    moved = printed + climate_adjustment(wind_2m_m_s, rh_min_pct, height_m)
    return np.where(printed < LEAST_COEFFICIENT_MOVED, printed, moved)


def upper_coefficient(
    basal_kc: ArrayLike,
    wind_2m_m_s: ArrayLike = 2.0,
    rh_min_pct: ArrayLike = 45.0,
    height_m: ArrayLike = 0.3,
) -> Floats:
    """Most that crop and wet ground together can use, over the reference.

    Parameters
    ----------
    basal_kc : array  [-]
        Basal coefficient of the day.
    wind_2m_m_s, rh_min_pct, height_m : array
        As in `climate_adjustment`.

    Returns
    -------
    array  [-]

    Source
    ------
    FAO56, eq. 72 (published). Checked: tests/published/fao56/test_root_zone.py
    """
    wet = 1.2 + climate_adjustment(wind_2m_m_s, rh_min_pct, height_m)
    most: Floats = np.maximum(wet, np.asarray(basal_kc, dtype=np.float64) + 0.05)
    return most


def coefficient_course(
    way: ArrayLike,
    ini_kc: float,
    mid_kc: float,
    end_kc: float,
    stage_shares: tuple[float, float, float] = STAGE_SHARES,
) -> Floats:
    """A crop's coefficient on its way from emergence to ready.

    Parameters
    ----------
    way : array, any shape  [-]
        Share of the way; below zero before emergence. NaN gives NaN.
    ini_kc, mid_kc, end_kc : float  [-]
        Coefficients of the young, the full-grown and the ripe crop.
    stage_shares : tuple of 3 float
        Where leaves begin to count, cover the ground, and begin to age; rising, within 0 to 1. For printed
        stage lengths: the lengths added up over the season's length.

    Returns
    -------
    array, shape of way  [-]
        Zero before emergence; from ready on the last value stays.

    Raises
    ------
    ParameterError
        If the shares do not rise within 0 to 1.

    Source
    ------
    FAO56, eq. 66 (published; by warmth instead of days: memory).
    Checked: tests/published/fao56/test_root_zone.py
    """
    grow, full, age = stage_shares
    if not 0.0 <= grow < full <= age < 1.0:
        raise ParameterError(f"Stages at {grow:g}, {full:g}, {age:g} of the way.", "They must rise, 0 to 1.")
    done = np.asarray(way, dtype=np.float64)
    course = np.interp(done, [0.0, grow, full, age, 1.0], [ini_kc, ini_kc, mid_kc, mid_kc, end_kc])
    return np.where(np.isnan(done), np.nan, np.where(done < 0.0, 0.0, course))


def cover_from_coefficient(basal_kc: ArrayLike, upper_kc: ArrayLike, height_m: ArrayLike = 0.3) -> Floats:
    """Share of the ground under leaves that belongs to a basal coefficient, where nothing better is known.

    Parameters
    ----------
    basal_kc, upper_kc : array  [-]
        As from `coefficient_course` and `upper_coefficient`.
    height_m : array  [m]

    Returns
    -------
    array  [-]
        0 to 0.99.

    Source
    ------
    FAO56, eq. 76 with a dry, bare coefficient of 0.15 (published).
    Checked: tests/published/fao56/test_season_beside_another.py
    """
    kcb, most = np.asarray(basal_kc, dtype=np.float64), np.asarray(upper_kc, dtype=np.float64)
    bare = 0.15
    share = np.maximum(kcb - bare, 0.0) / np.maximum(most - bare, 1e-6)
    return np.clip(share ** (1.0 + 0.5 * np.asarray(height_m, dtype=np.float64)), 0.0, 0.99)
