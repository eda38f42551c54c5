"""Sun and day length from latitude and day of the year, in solar time.

Two day lengths exist side by side and are never mixed: the geometric one (centre of the sun on a flat
horizon), which radiation and evapotranspiration need, and the one from sunrise to sunset (upper limb, with
refraction), which a plant's day-length threshold needs. Polar day and night follow from clipping: 24 h and
0 h.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats

SOLAR_CONSTANT_MJ_MIN = 0.0820
"""Solar constant [MJ m-2 min-1]. Source: FAO56, eq. 21, published."""

SUNRISE_DEPRESSION_DEG = 0.8333
"""Sun's centre below the horizon at sunrise: refraction and half the disc. Source: common-practice (almanac
value)."""

CIVIL_TWILIGHT_DEPRESSION_DEG = 6.0
"""Sun's centre below the horizon at the edge of civil twilight. Source: common-practice (definition)."""


def _latitude_rad(lat_deg: ArrayLike) -> Floats:
    lat = np.asarray(lat_deg, dtype=np.float64)
    outside = np.abs(lat) > 90.0
    if np.any(outside):
        found = lat[outside].flat[0] if lat.ndim else lat
        raise ParameterError(
            f"Latitude {found:g} lies off the globe.", "Use -90 (south pole) to 90 (north pole) degrees."
        )
    return np.radians(lat)


def _day_of_year(doy: ArrayLike) -> Floats:
    day = np.asarray(doy, dtype=np.float64)
    outside = (day < 1.0) | (day > 366.0)
    if np.any(outside):
        found = day[outside].flat[0] if day.ndim else day
        raise ParameterError(f"Day of the year {found:g} does not exist.", "Use 1 to 366.")
    return day


def inverse_relative_distance(doy: ArrayLike) -> Floats:
    """Inverse relative distance between earth and sun, squared as radiation needs it.

    Parameters
    ----------
    doy : array, shape (..., day)  [-]
        Day of the year, 1 to 366. NaN gives NaN.

    Returns
    -------
    array, shape (..., day)  [-]
        0.967 to 1.033.

    Raises
    ------
    ParameterError
        If a day lies outside 1 to 366.

    Source
    ------
    FAO56, eq. 23 (Allen, Pereira, Raes and Smith 1998, Crop evapotranspiration; published).
    Checked: tests/published/fao56/test_fao56.py
    """
    return 1.0 + 0.033 * np.cos(2.0 * np.pi / 365.0 * _day_of_year(doy))


def declination_rad(doy: ArrayLike) -> Floats:
    """Declination of the sun.

    Parameters
    ----------
    doy : array, shape (..., day)  [-]
        Day of the year, 1 to 366.

    Returns
    -------
    array, shape (..., day)  [rad]
        Positive when the sun stands north of the equator.

    Raises
    ------
    ParameterError
        If a day lies outside 1 to 366.

    Notes
    -----
    One sine; up to 0.026 rad off a fuller series near the equinoxes (measured). Leap years are not
    corrected for.

    Source
    ------
    FAO56, eq. 24 (published). Checked: tests/published/fao56/test_fao56.py
    """
    return 0.409 * np.sin(2.0 * np.pi / 365.0 * _day_of_year(doy) - 1.39)


def sunset_hour_angle_rad(lat_deg: ArrayLike, doy: ArrayLike) -> Floats:
    """Hour angle of sunset: half of the geometric day.

    Parameters
    ----------
    lat_deg : array  [deg]
        Latitude, north positive. Broadcasts with doy.
    doy : array, shape (..., day)  [-]
        Day of the year, 1 to 366.

    Returns
    -------
    array, shape (..., day)  [rad]
        0 in polar night, pi in polar day.

    Raises
    ------
    ParameterError
        If a latitude or day does not exist.

    Source
    ------
    FAO56, eq. 25 (published). Checked: tests/published/fao56/test_fao56.py
    """
    cosine = -np.tan(_latitude_rad(lat_deg)) * np.tan(declination_rad(doy))
    angle: Floats = np.arccos(np.clip(cosine, -1.0, 1.0))
    return angle


def day_length_geometric_h(lat_deg: ArrayLike, doy: ArrayLike) -> Floats:
    """Geometric daylight hours N: sun's centre on a flat horizon, no refraction.

    Parameters
    ----------
    lat_deg : array  [deg]
        Latitude, north positive.
    doy : array, shape (..., day)  [-]
        Day of the year, 1 to 366.

    Returns
    -------
    array, shape (..., day)  [h]
        0 to 24.

    Raises
    ------
    ParameterError
        If a latitude or day does not exist.

    Notes
    -----
    The N of the FAO-56 radiation equations. Shorter than sunrise to sunset by 11 min at 35 and 23 min at 60
    degrees on the mean of the year (measured against a solar position algorithm), so not for photoperiod.

    Source
    ------
    FAO56, eq. 34 (published). Checked: tests/published/fao56/test_fao56.py
    """
    return 24.0 / np.pi * sunset_hour_angle_rad(lat_deg, doy)


def day_length_sunrise_to_sunset_h(
    lat_deg: ArrayLike, doy: ArrayLike, depression_deg: float = SUNRISE_DEPRESSION_DEG
) -> Floats:
    """Hours from sunrise to sunset: what a clock beside an open horizon would show.

    Parameters
    ----------
    lat_deg : array  [deg]
        Latitude, north positive.
    doy : array, shape (..., day)  [-]
        Day of the year, 1 to 366.
    depression_deg : float  [deg]
        Depth of the sun's centre below the horizon at which the day begins: 0.8333 for the upper limb with
        refraction, 6 for civil twilight.

    Returns
    -------
    array, shape (..., day)  [h]
        0 to 24.

    Raises
    ------
    ParameterError
        If a latitude or day does not exist, or the depression lies outside -18 to 18 degrees.

    Notes
    -----
    Within 0.035 h at 35, 0.048 at 45, 0.068 at 55 and 0.083 h at 60 degrees north of a solar position
    algorithm (measured). Hills, trees and houses shorten the day a plant sees; beyond the polar circles the
    days of transition can be wrong by hours.

    Source
    ------
    The CBM day-length model (Forsythe, Rykiel, Stahl, Wu and Schoolfield 1995, A model
    comparison for daylength as a function of latitude and day of year; memory).
    Checked: tests/published/sun/test_day_length.py
    """
    if not -18.0 <= depression_deg <= 18.0:
        raise ParameterError(
            f"A sun {depression_deg:g} degrees below the horizon is not a sunrise.", "Use -18 to 18 degrees."
        )
    lat = _latitude_rad(lat_deg)
    turn = 0.2163108 + 2.0 * np.arctan(0.9671396 * np.tan(0.00860 * (_day_of_year(doy) - 186.0)))
    declination = np.arcsin(0.39795 * np.cos(turn))
    depression = np.sin(np.radians(depression_deg))
    cosine = (depression + np.sin(lat) * np.sin(declination)) / (np.cos(lat) * np.cos(declination))
    night: Floats = 24.0 / np.pi * np.arccos(np.clip(cosine, -1.0, 1.0))
    return 24.0 - night


def sunrise_sunset_solar_h(
    lat_deg: ArrayLike, doy: ArrayLike, depression_deg: float = SUNRISE_DEPRESSION_DEG
) -> tuple[Floats, Floats]:
    """Sunrise and sunset in solar time: noon is 12.

    Parameters
    ----------
    lat_deg : array  [deg]
        Latitude, north positive.
    doy : array, shape (..., day)  [-]
        Day of the year, 1 to 366.
    depression_deg : float  [deg]
        As in `day_length_sunrise_to_sunset_h`, whose day length this splits about noon.

    Returns
    -------
    sunrise, sunset : array, shape (..., day)  [h, solar time]
        Polar day: 0 and 24. Polar night: 12 and 12.

    Raises
    ------
    ParameterError
        If a latitude or day does not exist.

    Notes
    -----
    Solar time, not clock time: longitude within the zone, the equation of time (up to 16 min) and summer time
    are the caller's to add.

    Source
    ------
    computed, from `day_length_sunrise_to_sunset_h`. Checked: tests/published/sun/test_day_length.py
    """
    half = day_length_sunrise_to_sunset_h(lat_deg, doy, depression_deg) / 2.0
    return 12.0 - half, 12.0 + half


def noon_elevation_sine(lat_deg: ArrayLike, doy: ArrayLike) -> Floats:
    """Sine of the sun's elevation at solar noon; negative when the sun stays below the horizon.

    Parameters
    ----------
    lat_deg : array  [deg]
        Latitude, north positive.
    doy : array, shape (..., day)  [-]
        Day of the year, 1 to 366.

    Returns
    -------
    array, shape (..., day)  [-]
        -1 to 1.

    Raises
    ------
    ParameterError
        If a latitude or day does not exist.

    Source
    ------
    computed: spherical geometry at hour angle zero. Checked: tests/unit/science/test_sun.py
    """
    return np.cos(_latitude_rad(lat_deg) - declination_rad(doy))


def elevation_sine(lat_deg: ArrayLike, doy: ArrayLike, hours: ArrayLike) -> Floats:
    """Sine of the sun's elevation at hours of the day; negative below the horizon.

    Parameters
    ----------
    lat_deg : array  [deg]
        Latitude, north positive.
    doy : array, shape (..., day)  [-]
        Day of the year, 1 to 366.
    hours : array, shape (hour,)  [h, solar time]

    Returns
    -------
    array, shape (..., day, hour)  [-]

    Raises
    ------
    ParameterError
        If a latitude or day does not exist.

    Source
    ------
    FAO56, eq. 46 without the upper limb (published). Checked: tests/published/comfort/test_comfort.py
    """
    lat, tilt = _latitude_rad(lat_deg), declination_rad(doy)
    angle = np.pi / 12.0 * (np.asarray(hours, dtype=np.float64) - 12.0)
    level: Floats = np.sin(lat) * np.sin(tilt)
    upright: Floats = np.cos(lat) * np.cos(tilt)
    return np.asarray(level)[..., None] + np.asarray(upright)[..., None] * np.cos(angle)


def extraterrestrial_radiation_mj(lat_deg: ArrayLike, doy: ArrayLike) -> Floats:
    """Radiation on a level plane above the atmosphere, whole day.

    Parameters
    ----------
    lat_deg : array  [deg]
        Latitude, north positive.
    doy : array, shape (..., day)  [-]
        Day of the year, 1 to 366.

    Returns
    -------
    array, shape (..., day)  [MJ m-2 d-1]
        Zero in polar night.

    Raises
    ------
    ParameterError
        If a latitude or day does not exist.

    Source
    ------
    FAO56, eq. 21 (published). Checked: tests/published/fao56/test_fao56.py
    """
    lat = _latitude_rad(lat_deg)
    declination = declination_rad(doy)
    sunset = sunset_hour_angle_rad(lat_deg, doy)
    upright = sunset * np.sin(lat) * np.sin(declination)
    slanting = np.cos(lat) * np.cos(declination) * np.sin(sunset)
    flux = 24.0 * 60.0 / np.pi * SOLAR_CONSTANT_MJ_MIN * inverse_relative_distance(doy)
    # The last decimals of acos can leave a polar night a hair below zero.
    ra: Floats = np.maximum(flux * (upright + slanting), 0.0)
    return ra
