"""Soil thermometer readings bear on the soil of the years."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import numpy as np

from spadework.clock.applied import Applied, AppliedFact
from spadework.clock.ground import Ground
from spadework.clock.soil_offset import SoilOffset, SoilReading, offset_from_readings
from spadework.garden.phrases import day_text, degrees_text, temp_text
from spadework.garden.told import SoilWarmth, Told
from spadework.science import soil, thermometer
from spadework.types import Floats

LONGEST_USE_DAYS = 120
"""A reading older than this says nothing: the gain of a surface changes with the season. memory."""

MEAN_SD_C = 0.7
"""Error of a daily mean, as a logger gives it [degC]. Source: memory."""

WAVE_SD_C = 1.1
"""Error of the daily wave's size at 5 cm, by which a spot reading is brought to its day's mean [degC].
Source: measured, rounded up (SCAN: RMSE 1.0 to 1.2)."""

OTHER_BED_SD_C = 1.2
"""Spread between beds of one garden, where the reading is from another bed than the one asked about [degC].
Source: memory."""


def soil_offset(ground: Ground, told: Sequence[Told], today: date, bed: str = "") -> SoilOffset | None:
    """Offset of the soil that the told readings ask for; None where none bears.

    Parameters
    ----------
    ground : Ground
        Without an offset of its own.
    told : sequence of Told
    today : date
        Readings after it, or told after it, are not known yet.
    bed : str
        The bed asked about; readings of other beds count for less. Empty for the whole garden.
    """
    readings = tuple(_reading(ground, fact, bed) for fact in bearing_readings(ground, told, today))
    if not readings:
        return None
    surface = soil.SURFACES[ground.surface]
    return offset_from_readings(ground.soil_mean_c, readings, surface.offset_sd_c)


def bearing_readings(ground: Ground, told: Sequence[Told], today: date) -> list[SoilWarmth]:
    """The readings that are known by today, not too old, and within the ground's days."""
    found = []
    for entry in told:
        fact = entry.fact
        if not isinstance(fact, SoilWarmth) or entry.told_on > today or fact.last > today:
            continue
        first, last = _column(ground, fact.first), _column(ground, fact.last)
        if (today - fact.last).days <= LONGEST_USE_DAYS and 0 <= first <= last < ground.dates.size:
            found.append(fact)
    return found


def daily_mean_c(ground: Ground, fact: SoilWarmth) -> Floats:
    """A reading as the mean of its days, [year]: the reduction of a spot reading hangs on the day's range."""
    if fact.hour is None:
        return np.full(ground.years.made.size, fact.temp_c)
    half = ground.soil_half_c(fact.depth_cm)[:, _column(ground, fact.first)]
    return thermometer.daily_mean_from_reading_c(fact.temp_c, fact.hour, half, fact.depth_cm)


def model_mean_c(ground: Ground, fact: SoilWarmth) -> Floats:
    """The ground's soil over the days of a reading, [year]."""
    first, last = _column(ground, fact.first), _column(ground, fact.last)
    mean: Floats = ground.soil_mean_c[:, first : last + 1].mean(axis=1)
    return mean


def error_sd_c(fact: SoilWarmth) -> float:
    """Error of a reading as the mean of its days [degC]: a spot reading's grows with the wave at its hour."""
    if fact.hour is None:
        return MEAN_SD_C
    share = float(thermometer.wave_at_hour(fact.hour, fact.depth_cm))
    fading = float(np.exp((soil.REFERENCE_DEPTH_CM - fact.depth_cm) / soil.DAMPING_DEPTH_CM))
    return float(np.hypot(thermometer.SPOT_READING_SD_C, WAVE_SD_C * share * fading))


def soil_applied(ground: Ground, told: Sequence[Told], today: date, offset: SoilOffset) -> list[Applied]:
    """What the readings did, each with its reduction, and what they come to today."""
    facts = bearing_readings(ground, told, today)
    sentences = [_reading_text(ground, fact) for fact in facts]
    at = min(max(_column(ground, today), 0), ground.dates.size - 1)
    later = min(at + 14, ground.dates.size - 1)
    now, then = float(offset.offset_c[:, at].mean()), float(offset.offset_c[:, later].mean())
    sd = float(offset.sd_c[:, at].mean())
    sentences.append(
        f"The soil is taken as {degrees_text(now)} than the model today, known to within {sd:.1f} degrees, "
        f"and {degrees_text(then)} two weeks on."
    )
    law = "thermometer offset, Gaussian process"
    numbers = (
        AppliedFact(law, round(now, 3), "degC"),
        AppliedFact(law + ", two weeks on", round(then, 3), "degC"),
        AppliedFact(law + ", standard deviation", round(sd, 3), "degC"),
    )
    return [Applied(" ".join(sentences), "soil", numbers)]


def _reading(ground: Ground, fact: SoilWarmth, bed: str) -> SoilReading:
    error = error_sd_c(fact)
    if fact.bed != bed and fact.bed:
        error = float(np.hypot(error, OTHER_BED_SD_C))
    return SoilReading(
        _column(ground, fact.first),
        _column(ground, fact.last),
        daily_mean_c(ground, fact) - model_mean_c(ground, fact),
        error,
    )


def _reading_text(ground: Ground, fact: SoilWarmth) -> str:
    where = f" in {fact.bed}" if fact.bed else ""
    place = f"{temp_text(fact.temp_c)} at {fact.depth_cm:g} cm{where}"
    model = float(model_mean_c(ground, fact).mean())
    if fact.hour is not None:
        mean = float(daily_mean_c(ground, fact).mean())
        what = (
            f"Told soil of {place} at {_hour_text(fact.hour)} on {day_text(fact.first)}: a daily mean of "
            f"{temp_text(mean)}, since that hour stands {degrees_text(fact.temp_c - mean)} than it"
        )
    elif fact.first == fact.last:
        what = f"Told soil of {place} as the mean of {day_text(fact.first)}"
    else:
        what = f"Told soil of {place} as the mean of {day_text(fact.first)} to {day_text(fact.last)}"
    return f"{what}; the model has {temp_text(model)}."


def _hour_text(hour: float) -> str:
    whole, minutes = divmod(round(hour * 60), 60)
    return f"{whole}:{minutes:02d}" if minutes else f"{whole} h"


def _column(ground: Ground, day: date) -> int:
    return int((np.datetime64(day, "D") - ground.years.first_day).astype(int))
