"""How far a bed's soil lies from the model, and how sure that is: what readings make of the years.

A Gaussian process: a lasting part of the bed, a part that drifts, and, where this season's weather was not
seen, the difference between each row's weather and the true one.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from spadework.science.thermometer import DAILY_CORRELATION, WITHIN_BED_SD_C
from spadework.types import Floats, Ints

WEATHER_CORRELATION = 0.86
"""Of the modelled soil's difference between years from one day to the next, through lags of 1, 3 and 7 days:
0.90, 0.61, 0.34, means of Champion, Norfolk, Brussels and Cordoba in their spring. Class: measured."""


@dataclass(frozen=True, eq=False)
class SoilReading:
    """One reading brought to a mean over whole days, against the model of the same days.

    Parameters
    ----------
    first, last : int
        Columns of the days it is the mean of.
    residual_c : array, shape (year,)  [degC]
        Reading less model, by row: the same in all rows where the weather was seen.
    error_sd_c : float  [degC]
        Above zero.
    """

    first: int
    last: int
    residual_c: Floats
    error_sd_c: float


@dataclass(frozen=True, eq=False)
class SoilOffset:
    """The offset of a bed through the years.

    Parameters
    ----------
    offset_c : array, shape (year, day)  [degC]
        To be added to the model.
    sd_c : array, shape (year, day)  [degC]
        What is still not known of the bed, beside the spread of the rows.
    soil_c : array, shape (year, day)  [degC]
        Model and offset together.
    readings : tuple of SoilReading
    lasting_sd_c : float  [degC]
        Spread between beds of this surface.
    weather_sd_c : array, shape (day,)  [degC]
        Spread of the model's rows: zero on days whose weather was seen.
    """

    offset_c: Floats
    sd_c: Floats
    soil_c: Floats
    readings: tuple[SoilReading, ...]
    lasting_sd_c: float
    weather_sd_c: Floats

    def mean_sd_c(self, first: int, last: int) -> tuple[float, float]:
        """Spread of the bed's offset as a mean over days: before any reading, and with them [degC].

        Parameters
        ----------
        first, last : int
            Columns, both included.
        """
        days = np.arange(first, last + 1)
        even = np.full(days.size, 1.0 / days.size)
        bed = _bed_covariance(days, days, self.lasting_sd_c)
        before = float(even @ bed @ even)
        among, towards = _of_readings(self.readings, days, self.lasting_sd_c, self.weather_sd_c)
        seen = even @ towards
        whole = float(even @ _covariance(days, days, self.lasting_sd_c, self.weather_sd_c) @ even)
        left = whole - float(seen @ np.linalg.solve(among, seen))
        rows = float(np.var(self.soil_c[:, days].mean(axis=1)))
        return float(np.sqrt(before)), float(np.sqrt(min(max(left - rows, 0.0), before)))


def offset_from_readings(
    model_c: Floats, readings: tuple[SoilReading, ...], lasting_sd_c: float
) -> SoilOffset:
    """Offset of a bed on every day of the years, learned from readings.

    Parameters
    ----------
    model_c : array, shape (year, day)  [degC]
        Daily mean of the seed zone by the model alone.
    readings : tuple of SoilReading
        At least one.
    lasting_sd_c : float  [degC]
        Spread between beds, as `science.soil.Surface.offset_sd_c` gives it.

    Returns
    -------
    SoilOffset

    Notes
    -----
    Where the weather up to a reading was seen, all rows move alike and this is the law of
    `science.thermometer.thermometer_offset`. Where it was not, the rows differ already; each moves by its own
    difference from the reading, and the part that is weather fades as weather does.
    """
    weather = model_c.std(axis=0)
    days = np.arange(model_c.shape[1])
    among, towards = _of_readings(readings, days, lasting_sd_c, weather)
    gain = np.linalg.solve(among, towards.T).T
    residuals = np.stack([reading.residual_c for reading in readings], axis=1)
    offset = residuals @ gain.T
    soil = model_c + offset
    whole = lasting_sd_c**2 + WITHIN_BED_SD_C**2 + weather**2
    left = whole - np.sum(gain * towards, axis=1) - soil.var(axis=0)
    sd = np.sqrt(np.clip(left, 0.0, lasting_sd_c**2 + WITHIN_BED_SD_C**2))
    return SoilOffset(offset, np.broadcast_to(sd, soil.shape), soil, readings, lasting_sd_c, weather)


def _bed_covariance(one: Ints, other: Ints, lasting_sd_c: float) -> Floats:
    apart = np.abs(one[:, None] - other[None, :])
    found: Floats = lasting_sd_c**2 + WITHIN_BED_SD_C**2 * DAILY_CORRELATION**apart
    return found


def _covariance(one: Ints, other: Ints, lasting_sd_c: float, weather_sd_c: Floats) -> Floats:
    apart = np.abs(one[:, None] - other[None, :])
    spread = weather_sd_c[one][:, None] * weather_sd_c[other][None, :]
    found: Floats = _bed_covariance(one, other, lasting_sd_c) + spread * WEATHER_CORRELATION**apart
    return found


def _of_readings(
    readings: tuple[SoilReading, ...], days: Ints, lasting_sd_c: float, weather_sd_c: Floats
) -> tuple[Floats, Floats]:
    """Covariance among readings, errors included, and of the days with each reading."""
    read = np.arange(min(r.first for r in readings), max(r.last for r in readings) + 1)
    weights = np.zeros((len(readings), read.size))
    for row, reading in zip(weights, readings, strict=True):
        row[reading.first - read[0] : reading.last - read[0] + 1] = 1.0 / (reading.last - reading.first + 1)
    errors = np.diag([reading.error_sd_c**2 for reading in readings])
    among = weights @ _covariance(read, read, lasting_sd_c, weather_sd_c) @ weights.T + errors
    towards = _covariance(days, read, lasting_sd_c, weather_sd_c) @ weights.T
    return among, towards
