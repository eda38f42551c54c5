"""What a grower's soil thermometer says about one bed.

A reading taken at some hour is first brought to the mean of its day, then its difference from the soil
model moves the model for that bed: fully on the day, less and less as days pass, but never back to nothing,
because part of the difference belongs to the bed.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science import soil
from spadework.types import Floats

BETWEEN_BEDS_SD_C = 1.55
WITHIN_BED_SD_C = 1.5
DAILY_CORRELATION = 0.93
"""Prior of the bed's offset: lasting part [degC], drifting part [degC] and the drift's correlation from one
day to the next [-]. Source: measured (USCRN 2020, 13,902 days)."""

SPOT_READING_SD_C = 1.0
"""Error of one spot reading brought to its daily mean [degC]; 0.7 for a logger's daily mean.
Source: memory."""

_HOURS_BEHIND_SUN = 0.33
"""Station standard time behind solar time where the wave was measured [h]: about 115.1 degrees west on a
meridian of 120. Source: memory."""

_WAVE_AT_5_CM = np.array(
    [-0.45, -0.53, -0.60, -0.67, -0.72, -0.78, -0.80, -0.68, -0.46, -0.17, 0.24, 0.57,
     0.88, 1.06, 1.12, 1.05, 0.89, 0.64, 0.36, 0.11, -0.07, -0.21, -0.33, -0.43]
)  # fmt: skip
"""Mean of (temperature - day's mean)/half-range at 5 cm at each full hour of standard time, March to October.
Source: measured (SCAN station 2184, 2015)."""


class Offset(NamedTuple):
    """How far a bed's soil lies above the model, and how sure that is."""

    mean_c: Floats
    sd_c: Floats


def wave_at_hour(
    solar_hour: ArrayLike,
    depth_cm: float = soil.REFERENCE_DEPTH_CM,
    damping_cm: float = soil.DAMPING_DEPTH_CM,
) -> Floats:
    """Where the soil stands within its daily wave, as a share of the half-range.

    Parameters
    ----------
    solar_hour : array  [h, solar time]
        Hour of the day; any real number, read on the clock face. NaN gives NaN.
    depth_cm : float  [cm]
        Depth of the reading.
    damping_cm : float  [cm]
        Sets how much later the wave arrives below 5 cm, and earlier above.

    Returns
    -------
    array  [-]
        About -0.8 before sunrise to 1.1 in the early afternoon: the wave is not a pure sine.

    Raises
    ------
    ParameterError
        If the depth is below zero or the damping depth is not above zero.

    Notes
    -----
    Measured on bare desert ground. Near zero at about 9:30 and 20 h at 5 cm: the hours to read at. At noon
    a reading is off by nearly the whole half-range.

    Source
    ------
    SCAN (measured). Checked: tests/published/soil_stations/test_soil_wave.py
    """
    later = soil.wave_lag_h(depth_cm, damping_cm) - soil.wave_lag_h(soil.REFERENCE_DEPTH_CM, damping_cm)
    hour = np.asarray(solar_hour, dtype=np.float64) - later
    nodes = np.arange(24.0) + _HOURS_BEHIND_SUN
    share: Floats = np.asarray(np.interp(hour, nodes, _WAVE_AT_5_CM, period=24.0), dtype=np.float64)
    return share


def daily_mean_from_reading_c(
    reading_c: ArrayLike,
    solar_hour: ArrayLike,
    half_range_c: ArrayLike,
    depth_cm: float = soil.REFERENCE_DEPTH_CM,
    damping_cm: float = soil.DAMPING_DEPTH_CM,
) -> Floats:
    """Bring a spot reading to the mean of its day.

    Parameters
    ----------
    reading_c : array  [degC]
        Thermometer reading.
    solar_hour : array  [h, solar time]
        When it was read.
    half_range_c : array  [degC]
        Half-range of that day's wave at that depth, from `soil.daily_amplitude_c`.
    depth_cm : float  [cm]
        Depth of the bulb.
    damping_cm : float  [cm]
        As for the half-range.

    Returns
    -------
    array  [degC]

    Raises
    ------
    ParameterError
        If the depth is below zero or the damping depth is not above zero.

    Source
    ------
    SCAN (measured). Checked: tests/published/soil_stations/test_soil_wave.py
    """
    wave = np.asarray(half_range_c, dtype=np.float64) * wave_at_hour(solar_hour, depth_cm, damping_cm)
    return np.asarray(reading_c, dtype=np.float64) - wave


def thermometer_offset(
    reading_days: ArrayLike,
    residuals_c: ArrayLike,
    target_days: ArrayLike,
    *,
    between_sd_c: float = BETWEEN_BEDS_SD_C,
    within_sd_c: float = WITHIN_BED_SD_C,
    daily_correlation: float = DAILY_CORRELATION,
    reading_sd_c: ArrayLike = SPOT_READING_SD_C,
) -> Offset:
    """Offset of a bed's soil from the model on given days, learned from readings.

    Parameters
    ----------
    reading_days : array, shape (reading,)  [d]
        Days of the readings, on any count of days.
    residuals_c : array, shape (reading,)  [degC]
        Reading, brought to its daily mean, minus model.
    target_days : array, shape (target,)  [d]
        Days asked about, on the same count.
    between_sd_c, within_sd_c : float  [degC]
        Prior spread of the lasting and of the drifting part; `Surface.offset_sd_c` gives the first.
    daily_correlation : float  [-]
        Of the drifting part from day to day, 0 to 1.
    reading_sd_c : float or array, shape (reading,)  [degC]
        Error of a reading, above zero.

    Returns
    -------
    Offset
        Mean and standard deviation, shape (target,). Without readings zero and the prior's spread.

    Raises
    ------
    ParameterError
        If days and residuals differ in number, a value is missing, or a spread is out of range.

    Notes
    -----
    After one reading the RMSE of the next 14 days fell from 2.53 to 1.36 (logger) or 1.67 degC (spot); the
    80 % interval held 0.78 to 0.82 (measured on 50 stations). A misread thermometer is believed like any
    other.

    Source
    ------
    A Gaussian process, its spreads measured on USCRN. Checked:
    tests/published/soil_stations/test_thermometer.py
    """
    days = np.atleast_1d(np.asarray(reading_days, dtype=np.float64))
    residuals = np.atleast_1d(np.asarray(residuals_c, dtype=np.float64))
    targets = np.atleast_1d(np.asarray(target_days, dtype=np.float64))
    noise = np.asarray(reading_sd_c, dtype=np.float64)
    if days.ndim != 1 or days.shape != residuals.shape or noise.shape not in ((), days.shape):
        raise ParameterError(
            f"{days.size} reading days, {residuals.size} readings and {noise.size} errors do not match.",
            "Give one of each per reading.",
        )
    if np.any(np.isnan(days)) or np.any(np.isnan(residuals)):
        raise ParameterError("A reading is missing its day or its value.", "Leave that reading out.")
    if not (between_sd_c >= 0.0 and within_sd_c >= 0.0 and 0.0 <= daily_correlation <= 1.0):
        raise ParameterError(
            f"Spreads {between_sd_c:g}, {within_sd_c:g} and correlation {daily_correlation:g} are no prior.",
            "Use spreads of 0 or more and a correlation from 0 to 1.",
        )
    if not np.all(noise > 0.0):
        raise ParameterError("A reading without error does not exist.", "Use a reading error above 0 degC.")

    def covariance(one: Floats, other: Floats) -> Floats:
        apart = np.abs(one[:, None] - other[None, :])
        return between_sd_c**2 + within_sd_c**2 * daily_correlation**apart

    among = covariance(days, days) + np.eye(days.size) * noise**2
    towards = covariance(targets, days)
    gain = np.linalg.solve(among, towards.T).T
    variance = between_sd_c**2 + within_sd_c**2 - np.sum(gain * towards, axis=-1)
    return Offset(gain @ residuals, np.sqrt(np.maximum(variance, 0.0)))
