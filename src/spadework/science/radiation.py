"""Solar and net radiation at the ground, whole days, from what a garden's record holds."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science.air import require_ordered
from spadework.types import Floats

STEFAN_BOLTZMANN_MJ_DAY = 4.903e-9
"""Stefan-Boltzmann constant [MJ K-4 m-2 d-1]. Source: FAO56, eq. 39, published."""

KELVIN_OFFSET = 273.16
"""Zero Celsius as the long-wave equation was published with it. Source: FAO56, eq. 39, published."""

ALBEDO_REFERENCE = 0.23
"""Albedo of the reference grass. Source: FAO56, eq. 38, published."""

KRS_INLAND = 0.16
"""Range coefficient where land masses dominate [degC-0.5]. Source: FAO56, eq. 50, published."""

KRS_COAST = 0.19
"""Range coefficient beside a large water [degC-0.5]. Source: FAO56, eq. 50, published."""

CLEAR_SHARE_SEA_LEVEL = 0.75
"""Share of Ra that reaches sea level under a clear sky. Source: FAO56, eq. 37, published."""

CLEAR_SHARE_PER_M = 2e-5
"""Gain of that share with elevation [m-1]. Source: FAO56, eq. 37, published."""

RATIO_WITHOUT_SUN = 0.5
"""Rs/Rso taken where the sun does not rise: no cloud signal in radiation. Source: FAO56, ch. 3 (0.4 to 0.6
for nights of humid places), memory."""

LOWEST_RATIO = 0.3
"""Rs/Rso below this is a sky fully overcast. Source: ASCE-EWRI 2005, The ASCE standardized reference
evapotranspiration equation, memory."""

SUNSHINE_SLACK_H = 0.6
"""How far a sunshine record may pass the geometric day before it is refused [h]: refraction adds up to 0.53
h at 60 degrees north (measured), and records are rounded to 0.1 h."""


def clear_sky_mj(ra_mj: ArrayLike, elevation_m: ArrayLike) -> Floats:
    """Solar radiation under a clear sky.

    Parameters
    ----------
    ra_mj : array, shape (..., day)  [MJ m-2 d-1]
        Extraterrestrial radiation.
    elevation_m : array  [m]
        Above sea level, -500 to 9000.

    Returns
    -------
    array, shape (..., day)  [MJ m-2 d-1]

    Raises
    ------
    ParameterError
        If an elevation lies outside -500 to 9000 m.

    Notes
    -----
    Overstates a clear winter day at high latitude: a turbidity model gives .86 of it in December at 35, .76
    at 45 and .58 at 55 degrees north (measured); multiply by `low_sun_factor` where that matters.

    Source
    ------
    FAO56, eq. 37 (published). Checked: tests/published/fao56/test_fao56.py
    """
    height = np.asarray(elevation_m, dtype=np.float64)
    if np.any((height < -500.0) | (height > 9000.0)):
        worst = height.flat[int(np.argmax(np.abs(height)))]
        raise ParameterError(f"Elevation {worst:g} m is no place for a garden.", "Use -500 to 9000 m.")
    return (CLEAR_SHARE_SEA_LEVEL + CLEAR_SHARE_PER_M * height) * np.asarray(ra_mj, dtype=np.float64)


def low_sun_factor(noon_elevation_sine: ArrayLike) -> Floats:
    """What a low sun's long way through the air takes from `clear_sky_mj`.

    Parameters
    ----------
    noon_elevation_sine : array, shape (..., day)  [-]
        From `sun.noon_elevation_sine`. At or below zero gives zero.

    Returns
    -------
    array, shape (..., day)  [-]
        0 to 0.972.

    Notes
    -----
    Fitted to a turbidity model (Linke turbidity 3) between 30 and 60 degrees north: rms .015, largest .067.

    Source
    ------
    measured, a fit to the clear-sky model of Ineichen and Perez 2002. Checked:
    tests/published/sun/test_clear_sky.py
    """
    sine = np.maximum(np.asarray(noon_elevation_sine, dtype=np.float64), 0.0)
    return 0.972 * (1.0 - np.exp(-sine / 0.225))


def solar_from_sunshine_mj(
    sunshine_h: ArrayLike, day_length_geometric_h: ArrayLike, ra_mj: ArrayLike
) -> Floats:
    """Solar radiation from hours of bright sunshine.

    Parameters
    ----------
    sunshine_h : array, shape (..., day)  [h]
        Bright sunshine. NaN gives NaN.
    day_length_geometric_h : array, shape (..., day)  [h]
        N of the same day and place.
    ra_mj : array, shape (..., day)  [MJ m-2 d-1]
        Extraterrestrial radiation.

    Returns
    -------
    array, shape (..., day)  [MJ m-2 d-1]

    Raises
    ------
    ParameterError
        If sunshine is below zero or longer than the day by more than 0.6 h.

    Notes
    -----
    The coefficients 0.25 and 0.5 are the paper's defaults; local ones vary by a fifth. Within the 0.6 h that
    refraction and rounding explain, sunshine counts as the whole day.

    Source
    ------
    FAO56, eq. 35 (published). Checked: tests/published/fao56/test_fao56.py
    """
    bright = np.asarray(sunshine_h, dtype=np.float64)
    day = np.asarray(day_length_geometric_h, dtype=np.float64)
    wrong = (bright < 0.0) | (bright > day + SUNSHINE_SLACK_H)
    if np.any(wrong):
        found, longest = (x[wrong].flat[0] for x in np.broadcast_arrays(bright, day))
        raise ParameterError(
            f"{found:g} h of sunshine in a day of {longest:.1f} h.", "Use 0 to the length of the day."
        )
    dark = day <= 0.0
    share = np.where(dark, 0.0 * bright, np.minimum(bright / np.where(dark, 1.0, day), 1.0))
    return (0.25 + 0.5 * share) * np.asarray(ra_mj, dtype=np.float64)


def solar_from_temperature_range_mj(
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    ra_mj: ArrayLike,
    krs: float = KRS_INLAND,
    elevation_m: ArrayLike = 0.0,
) -> Floats:
    """Solar radiation guessed from the day's temperature range: clear days swing more.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes. NaN in either gives NaN.
    ra_mj : array, shape (..., day)  [MJ m-2 d-1]
        Extraterrestrial radiation.
    krs : float  [degC-0.5]
        0.16 inland, 0.19 beside a large water.
    elevation_m : array  [m]
        Of the place; sets the clear-sky cap.

    Returns
    -------
    array, shape (..., day)  [MJ m-2 d-1]
        Never above a clear sky.

    Raises
    ------
    ParameterError
        If a minimum is above its maximum, krs is not above zero or an elevation does not exist.

    Notes
    -----
    Against 36,600 station days with a mean of 15.0: RMSE 4.2, bias +1.0 (measured, USCRN 2020). As an input
    to the soil model as good as measured radiation (RMSE 2.20 either way), but 0.2 degC warmer. Blind to a
    front passing, to fog and to snow.

    Source
    ------
    FAO56, eq. 50 (Hargreaves; published). Checked: tests/published/fao56/test_fao56.py
    """
    if not krs > 0.0:
        raise ParameterError(f"A range coefficient of {krs:g} gives no light.", "Use about 0.16 to 0.19.")
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    require_ordered(low, high)
    ra = np.asarray(ra_mj, dtype=np.float64)
    return np.minimum(krs * np.sqrt(high - low) * ra, clear_sky_mj(ra, elevation_m))


def net_shortwave_mj(solar_mj: ArrayLike, albedo: float = ALBEDO_REFERENCE) -> Floats:
    """Solar radiation kept by the surface.

    Parameters
    ----------
    solar_mj : array, shape (..., day)  [MJ m-2 d-1]
        Global radiation.
    albedo : float  [-]
        Share thrown back, 0 to 1.

    Returns
    -------
    array, shape (..., day)  [MJ m-2 d-1]

    Source
    ------
    FAO56, eq. 38 (published). Checked: tests/published/fao56/test_fao56.py
    """
    return (1.0 - albedo) * np.asarray(solar_mj, dtype=np.float64)


def clear_sky_ratio(solar_mj: ArrayLike, clear_sky_mj: ArrayLike) -> Floats:
    """Rs/Rso, the cloud signal of the long-wave equation, held within 0.3 and 1.

    Parameters
    ----------
    solar_mj, clear_sky_mj : array, shape (..., day)  [MJ m-2 d-1]
        Measured or estimated, and clear-sky radiation. NaN in either gives NaN.

    Returns
    -------
    array, shape (..., day)  [-]
        0.5 where the sun does not rise.

    Source
    ------
    FAO56, eq. 39 (published) for the upper limit; lower limit and polar night as named beside the constants
    (memory). Checked: tests/unit/science/test_radiation.py
    """
    solar, clear = np.asarray(solar_mj, dtype=np.float64), np.asarray(clear_sky_mj, dtype=np.float64)
    dark = clear <= 0.0
    ratio = np.clip(solar / np.where(dark, 1.0, clear), LOWEST_RATIO, 1.0)
    return np.where(dark & ~np.isnan(solar), RATIO_WITHOUT_SUN, ratio)


def net_longwave_mj(
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    actual_vapour_pressure_kpa: ArrayLike,
    clear_sky_ratio: ArrayLike,
) -> Floats:
    """Net long-wave radiation leaving the surface.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes.
    actual_vapour_pressure_kpa : array, shape (..., day)  [kPa]
        Zero or more.
    clear_sky_ratio : array, shape (..., day)  [-]
        From `clear_sky_ratio`.

    Returns
    -------
    array, shape (..., day)  [MJ m-2 d-1]
        Positive when the surface loses.

    Raises
    ------
    ParameterError
        If a minimum is above its maximum or a vapour pressure is below zero.

    Source
    ------
    FAO56, eq. 39 (published). Checked: tests/published/fao56/test_fao56.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    require_ordered(low, high)
    vapour = np.asarray(actual_vapour_pressure_kpa, dtype=np.float64)
    if np.any(vapour < 0.0):
        raise ParameterError(
            f"A vapour pressure of {np.nanmin(vapour):g} kPa is below zero.", "Use 0 or more."
        )
    fourth = ((low + KELVIN_OFFSET) ** 4 + (high + KELVIN_OFFSET) ** 4) / 2.0
    cloud = 1.35 * np.asarray(clear_sky_ratio, dtype=np.float64) - 0.35
    return STEFAN_BOLTZMANN_MJ_DAY * fourth * (0.34 - 0.14 * np.sqrt(vapour)) * cloud


def net_radiation_mj(
    solar_mj: ArrayLike, net_longwave_mj: ArrayLike, albedo: float = ALBEDO_REFERENCE
) -> Floats:
    """Net radiation at the reference surface.

    Parameters
    ----------
    solar_mj : array, shape (..., day)  [MJ m-2 d-1]
        Global radiation.
    net_longwave_mj : array, shape (..., day)  [MJ m-2 d-1]
        From `net_longwave_mj`.
    albedo : float  [-]
        Share of solar_mj thrown back.

    Returns
    -------
    array, shape (..., day)  [MJ m-2 d-1]
        Below zero on short winter days.

    Source
    ------
    FAO56, eq. 40 (published). Checked: tests/published/fao56/test_fao56.py
    """
    return net_shortwave_mj(solar_mj, albedo) - np.asarray(net_longwave_mj, dtype=np.float64)
