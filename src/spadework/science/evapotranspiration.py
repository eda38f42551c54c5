"""Reference evapotranspiration: the thirst of a short, green, well-watered grass under a day's weather.

Length: the equation and each of its terms stand together, as in the paper.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science import radiation
from spadework.science.air import require_ordered
from spadework.types import Floats

HumiditySource = Literal["rh-max-min", "rh-mean", "dew-point", "minimum-temperature"]
"""What an actual vapour pressure was worked out from."""

WATER_MM_PER_MJ = 0.408
"""Depth of water a MJ m-2 evaporates [mm MJ-1 m2]. Source: FAO56, eq. 20, published."""

WIND_WHEN_UNKNOWN_M_S = 2.0
"""Wind at 2 m where none is recorded: the mean of over 2000 stations [m s-1]. Source: FAO56, ch. 3,
memory."""

DRY_PLACE_DEPRESSION_CDELTA = 2.0
"""How far the dew point lies below the minimum in dry places [degC]. Source: FAO56, annex 6, memory."""


class VapourPressure(NamedTuple):
    """Actual vapour pressure and what it rests on."""

    kpa: Floats
    source: HumiditySource


def saturation_vapour_pressure_kpa(temp_c: ArrayLike) -> Floats:
    """Vapour pressure of saturated air.

    Parameters
    ----------
    temp_c : array  [degC]
        Air temperature, above -237.3. NaN gives NaN.

    Returns
    -------
    array  [kPa]

    Notes
    -----
    Over water; below freezing the true value over ice is up to a fifth lower at -20 degC.

    Source
    ------
    FAO56, eq. 11 (published). Checked: tests/published/fao56/test_fao56.py
    """
    temp = np.asarray(temp_c, dtype=np.float64)
    return 0.6108 * np.exp(17.27 * temp / (temp + 237.3))


def mean_saturation_vapour_pressure_kpa(tmin_c: ArrayLike, tmax_c: ArrayLike) -> Floats:
    """Mean saturation vapour pressure of a day, from its extremes.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes.

    Returns
    -------
    array, shape (..., day)  [kPa]

    Source
    ------
    FAO56, eq. 12 (published). Checked: tests/published/fao56/test_fao56.py
    """
    return (saturation_vapour_pressure_kpa(tmin_c) + saturation_vapour_pressure_kpa(tmax_c)) / 2.0


def vapour_pressure_slope_kpa_per_c(temp_c: ArrayLike) -> Floats:
    """Slope of the saturation curve.

    Parameters
    ----------
    temp_c : array  [degC]
        Air temperature.

    Returns
    -------
    array  [kPa degC-1]

    Source
    ------
    FAO56, eq. 13 (published). Checked: tests/published/fao56/test_fao56.py
    """
    temp = np.asarray(temp_c, dtype=np.float64)
    return 4098.0 * saturation_vapour_pressure_kpa(temp) / (temp + 237.3) ** 2


def pressure_kpa(elevation_m: ArrayLike) -> Floats:
    """Mean air pressure at an elevation.

    Parameters
    ----------
    elevation_m : array  [m]
        Above sea level.

    Returns
    -------
    array  [kPa]

    Source
    ------
    FAO56, eq. 7 (published). Checked: tests/published/fao56/test_fao56.py
    """
    height = np.asarray(elevation_m, dtype=np.float64)
    return 101.3 * ((293.0 - 0.0065 * height) / 293.0) ** 5.26


def psychrometric_constant_kpa_per_c(pressure_kpa: ArrayLike) -> Floats:
    """Psychrometric constant.

    Parameters
    ----------
    pressure_kpa : array  [kPa]
        Air pressure.

    Returns
    -------
    array  [kPa degC-1]

    Source
    ------
    FAO56, eq. 8 (published). Checked: tests/published/fao56/test_fao56.py
    """
    return 0.000665 * np.asarray(pressure_kpa, dtype=np.float64)


def wind_at_2m_m_s(wind_m_s: ArrayLike, height_m: float) -> Floats:
    """Wind at 2 m from wind at another height, over short grass.

    Parameters
    ----------
    wind_m_s : array  [m s-1]
        Measured wind.
    height_m : float  [m]
        Height of the instrument, at least 0.5.

    Returns
    -------
    array  [m s-1]

    Raises
    ------
    ParameterError
        If wind is below zero or the instrument stands below 0.5 m.

    Notes
    -----
    A town, hedge or wall between instrument and garden breaks the profile.

    Source
    ------
    FAO56, eq. 47 (published). Checked: tests/published/fao56/test_fao56.py
    """
    wind = np.asarray(wind_m_s, dtype=np.float64)
    if np.any(wind < 0.0):
        raise ParameterError(f"A wind of {np.nanmin(wind):g} m/s is below zero.", "Use 0 or more.")
    if not height_m >= 0.5:
        raise ParameterError(f"A wind gauge at {height_m:g} m stands in the grass.", "Use 0.5 m or more.")
    factor = 4.87 / float(np.log(67.8 * height_m - 5.42))
    return wind * factor


def _share(percent: ArrayLike, name: str) -> Floats:
    value = np.asarray(percent, dtype=np.float64)
    wrong = (value < 0.0) | (value > 105.0)
    if np.any(wrong):
        found = value[wrong].flat[0] if value.ndim else value
        raise ParameterError(f"A {name} of {found:g} % does not exist.", "Use 0 to 100 %.")
    share: Floats = np.minimum(value, 100.0) / 100.0
    return share


def actual_vapour_pressure_kpa(
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    *,
    rh_max_pct: ArrayLike | None = None,
    rh_min_pct: ArrayLike | None = None,
    rh_mean_pct: ArrayLike | None = None,
    tdew_c: ArrayLike | None = None,
    dry_place: bool = False,
) -> VapourPressure:
    """Actual vapour pressure from the best humidity there is, and which that was.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes.
    rh_max_pct, rh_min_pct : array, optional  [percent]
        Used when both are given.
    rh_mean_pct : array, optional  [percent]
        Used next.
    tdew_c : array, optional  [degC]
        Dew point; used next.
    dry_place : bool
        With no humidity at all the minimum stands in for the dew point; in dry places 2 degC below it.

    Returns
    -------
    VapourPressure
        kpa, shape (..., day), and the source used. A missing day within the source used stays NaN: no day
        is filled from a poorer source.

    Raises
    ------
    ParameterError
        If a minimum is above its maximum, a humidity lies outside 0 to 105 percent (hygrometers read a little
        high in fog: 100 to 105 counts as 100), or a dew point lies above the maximum by more than 0.5 degC.

    Source
    ------
    FAO56, eq. 14, 17, 19 and 48 (published); the order of preference is ours (common-practice).
    Checked: tests/published/fao56/test_fao56.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    require_ordered(low, high)
    at_low, at_high = saturation_vapour_pressure_kpa(low), saturation_vapour_pressure_kpa(high)
    if rh_max_pct is not None and rh_min_pct is not None:
        moist, dry = _share(rh_max_pct, "highest humidity"), _share(rh_min_pct, "lowest humidity")
        return VapourPressure((at_low * moist + at_high * dry) / 2.0, "rh-max-min")
    if rh_mean_pct is not None:
        return VapourPressure(_share(rh_mean_pct, "mean humidity") * (at_low + at_high) / 2.0, "rh-mean")
    if tdew_c is not None:
        dew = np.asarray(tdew_c, dtype=np.float64)
        if np.any(dew > high + 0.5):
            raise ParameterError(
                f"Dew point {np.nanmax(dew):g} is above the day's maximum.",
                "Check the units of the dew point.",
            )
        return VapourPressure(saturation_vapour_pressure_kpa(dew) + 0.0 * high, "dew-point")
    depression = DRY_PLACE_DEPRESSION_CDELTA if dry_place else 0.0
    return VapourPressure(
        saturation_vapour_pressure_kpa(low - depression) + 0.0 * high, "minimum-temperature"
    )


def monthly_ground_flux_mj(tmean_c: ArrayLike, tmean_before_c: ArrayLike) -> Floats:
    """Heat taken up by the ground over a month, from the month's mean and that of the month before.

    Parameters
    ----------
    tmean_c, tmean_before_c : array  [degC]
        Monthly means.

    Returns
    -------
    array  [MJ m-2 d-1]

    Source
    ------
    FAO56, eq. 44 (published). Checked: tests/published/fao56/test_fao56.py
    """
    return 0.14 * (np.asarray(tmean_c, dtype=np.float64) - np.asarray(tmean_before_c, dtype=np.float64))


def et0_penman_monteith_mm(
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    *,
    ra_mj: ArrayLike,
    elevation_m: ArrayLike,
    actual_vapour_pressure_kpa: ArrayLike,
    solar_mj: ArrayLike,
    wind_2m_m_s: ArrayLike = WIND_WHEN_UNKNOWN_M_S,
    ground_flux_mj: ArrayLike = 0.0,
) -> Floats:
    """Reference evapotranspiration by Penman-Monteith, one day.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes. NaN in any input gives NaN.
    ra_mj : array, shape (..., day)  [MJ m-2 d-1]
        Extraterrestrial radiation.
    elevation_m : array  [m]
        Of the place.
    actual_vapour_pressure_kpa : array, shape (..., day)  [kPa]
        From `actual_vapour_pressure_kpa`.
    solar_mj : array, shape (..., day)  [MJ m-2 d-1]
        Global radiation, measured or estimated.
    wind_2m_m_s : array, shape (..., day)  [m s-1]
        Wind at 2 m.
    ground_flux_mj : array  [MJ m-2 d-1]
        Zero for single days; `monthly_ground_flux_mj` for months.

    Returns
    -------
    array, shape (..., day)  [mm d-1]
        Zero or more: a day of dew asks for no water.

    Raises
    ------
    ParameterError
        If a minimum is above its maximum, an elevation does not exist, or wind or vapour pressure is below
        zero.

    Notes
    -----
    Air above the reference grass is never drier than the vapour pressure given; where that lies above
    saturation the deficit is taken as zero. Sensitivity, Lyon in July: wind of 1 or 3 in place of 2 m/s moves
    4.56 to 4.23 or 4.84 mm (computed). With guessed humidity, wind and radiation expect a bias of 15 % by
    site.

    Source
    ------
    FAO56, eq. 6 (published). Checked: tests/published/fao56/test_fao56.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    vapour = np.asarray(actual_vapour_pressure_kpa, dtype=np.float64)
    clear = radiation.clear_sky_mj(ra_mj, elevation_m)
    longwave = radiation.net_longwave_mj(low, high, vapour, radiation.clear_sky_ratio(solar_mj, clear))
    net = radiation.net_radiation_mj(solar_mj, longwave) - np.asarray(ground_flux_mj, dtype=np.float64)
    mean = (low + high) / 2.0
    return _combined(
        net, mean, mean_saturation_vapour_pressure_kpa(low, high), vapour, wind_2m_m_s, elevation_m, 900.0
    )


def _combined(
    net_mj: Floats,
    temp_c: Floats,
    saturation_kpa: Floats,
    vapour_kpa: Floats,
    wind_2m_m_s: ArrayLike,
    elevation_m: ArrayLike,
    numerator: float,
) -> Floats:
    """Radiation and aerodynamic terms together; the numerator is 900 for a day and 37 for an hour."""
    wind = np.asarray(wind_2m_m_s, dtype=np.float64)
    if np.any(wind < 0.0):
        raise ParameterError(f"A wind of {np.nanmin(wind):g} m/s is below zero.", "Use 0 or more.")
    slope = vapour_pressure_slope_kpa_per_c(temp_c)
    gamma = psychrometric_constant_kpa_per_c(pressure_kpa(elevation_m))
    deficit = np.maximum(saturation_kpa - vapour_kpa, 0.0)
    by_sun = WATER_MM_PER_MJ * slope * net_mj
    by_wind = gamma * numerator / (temp_c + 273.0) * wind * deficit
    return np.maximum((by_sun + by_wind) / (slope + gamma * (1.0 + 0.34 * wind)), 0.0)


def et0_penman_monteith_hourly_mm(
    temp_c: ArrayLike,
    *,
    elevation_m: ArrayLike,
    actual_vapour_pressure_kpa: ArrayLike,
    solar_mj: ArrayLike,
    clear_sky_ratio: ArrayLike,
    wind_2m_m_s: ArrayLike = WIND_WHEN_UNKNOWN_M_S,
) -> Floats:
    """Reference evapotranspiration by Penman-Monteith, one hour.

    Parameters
    ----------
    temp_c : array, shape (..., hour)  [degC]
        Mean of the hour.
    elevation_m : array  [m]
        Of the place.
    actual_vapour_pressure_kpa : array, shape (..., hour)  [kPa]
        Humidity of the hour.
    solar_mj : array, shape (..., hour)  [MJ m-2 h-1]
        Global radiation of the hour; zero means night.
    clear_sky_ratio : array, shape (..., hour)  [-]
        Rs/Rso of the hour; by night that of the late afternoon before.
    wind_2m_m_s : array, shape (..., hour)  [m s-1]
        Wind at 2 m.

    Returns
    -------
    array, shape (..., hour)  [mm h-1]
        Zero or more.

    Raises
    ------
    ParameterError
        If wind or vapour pressure is below zero or an elevation does not exist.

    Notes
    -----
    The ground takes a tenth of net radiation by day and half by night. The 1998 form uses one surface
    resistance all day; the later hourly standard with two is another equation.

    Source
    ------
    FAO56, eq. 45, 46 and 53 (published). Checked: tests/published/fao56/test_fao56.py
    """
    temp, solar = np.asarray(temp_c, dtype=np.float64), np.asarray(solar_mj, dtype=np.float64)
    vapour = np.asarray(actual_vapour_pressure_kpa, dtype=np.float64)
    longwave = radiation.net_longwave_mj(temp, temp, vapour, clear_sky_ratio) / 24.0
    net = radiation.net_radiation_mj(solar, longwave)
    available = net * np.where(solar > 0.0, 0.9, 0.5)
    return _combined(
        available, temp, saturation_vapour_pressure_kpa(temp), vapour, wind_2m_m_s, elevation_m, 37.0
    )


def et0_hargreaves_mm(tmin_c: ArrayLike, tmax_c: ArrayLike, ra_mj: ArrayLike) -> Floats:
    """Reference evapotranspiration from temperature alone (Hargreaves).

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes. NaN in either gives NaN.
    ra_mj : array, shape (..., day)  [MJ m-2 d-1]
        Extraterrestrial radiation.

    Returns
    -------
    array, shape (..., day)  [mm d-1]
        Zero or more; zero on days with a mean below -17.8 degC.

    Raises
    ------
    ParameterError
        If a minimum is above its maximum.

    Notes
    -----
    Against reference values of six sites: RMSE 0.36 to 1.03 mm/d, ratio 0.87 to 1.14 (measured). Too low
    where it is windy and dry, too high where it is humid.

    Source
    ------
    FAO56, eq. 52 (published). Checked: tests/published/fao56/test_fao56.py,
    tests/published/fao56/test_temperature_only.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    require_ordered(low, high)
    mean = (low + high) / 2.0
    ra_mm = WATER_MM_PER_MJ * np.asarray(ra_mj, dtype=np.float64)
    return 0.0023 * np.maximum(mean + 17.8, 0.0) * np.sqrt(high - low) * ra_mm
