"""What each hour of today is like for work outside, and which hours suit a job."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.advice.job import Condition
from spadework.advice.scene import Scene
from spadework.science import sun
from spadework.science.air import hourly_temperature_c
from spadework.types import Bools, Floats

HOT_C: Final = 27.0
"""Air from which tender plants are not handled and people slow down. Source: common-practice."""

DEW_HOURS: Final = 2.5
"""Hours after sunrise until leaves are usually dry on a fine day. Source: memory."""

WET_RAIN_MM: Final = 1.0
"""Rain in a day from which leaves and the soil's top stay wet. Our own rule."""

HOURS: Final = np.arange(24, dtype=np.float64) + 0.5
"""Middles of the hours of the day."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Conditions:
    """Today's hours, by the clock.

    Parameters
    ----------
    temp_c : array, shape (24,)  [degC]
        Air at the middle of each hour, mean of the years.
    rain_chance : float
        Chance of a wet day, 0 to 1.
    sunrise_h, sunset_h : float  [h]
        By the clock.
    suits : mapping of Condition to array of bool, shape (24,)
        Whether the hour is so.
    said : tuple of str
        What a person should know before going out.
    """

    temp_c: Floats
    rain_chance: float
    sunrise_h: float
    sunset_h: float
    suits: dict[Condition, Bools]
    said: tuple[str, ...]


def clock_offset_h(lon_deg: float) -> float:
    """Clock hour less the hour by the sun, in the standard time of the nearest whole zone."""
    return round(lon_deg / 15.0) - lon_deg / 15.0


def conditions_of(scene: Scene) -> Conditions:
    """Today's hours.

    Parameters
    ----------
    scene : Scene
    """
    years, column = scene.ground.years, scene.column
    doy = scene.ground.day_of_year[column : column + 1]
    rise, down = (float(hour[0]) for hour in sun.sunrise_sunset_solar_h(scene.site.lat_deg, doy))
    offset = clock_offset_h(scene.site.lon_deg)
    span = slice(max(column - 1, 0), column + 2)
    temp = hourly_temperature_c(
        years.tmin_c[:, span],
        years.tmax_c[:, span],
        sunrise_h=rise,
        sunset_h=down,
        hours=(HOURS - offset) % 24.0,
    )[:, min(column, 1)].mean(axis=0)
    rain = years.rain_mm[:, column]
    wet = float(np.nanmean(rain >= WET_RAIN_MM)) if not np.isnan(rain).all() else 0.0
    sunrise, sunset = rise + offset, down + offset
    light = (sunrise <= HOURS) & (sunset >= HOURS)
    dry = light & (sunrise + DEW_HOURS <= HOURS) & np.full(24, wet < 0.5)
    strong = light & (np.abs(HOURS - (sunrise + sunset) / 2.0) < 3.0)
    anytime = np.ones(24, dtype=np.bool_)
    suits: dict[Condition, Bools] = {
        "daylight": light,
        "dawn": (sunrise - 1.0 <= HOURS) & (sunrise + 2.0 >= HOURS),
        "morning": light & (HOURS < 11.0),
        "evening": (sunset - 3.0 <= HOURS) & (sunset + 0.5 >= HOURS),
        "before sunset": light & (sunset - 4.0 <= HOURS),
        "dry leaves": dry,
        "dry soil surface": dry,
        "soil not wet": anytime,
        "not in heat": temp < HOT_C,
        "not in strong sun": ~strong | (temp < 20.0),
        "no thunder": anytime,
        "still air": anytime,
    }
    said = []
    if float(temp.max()) >= HOT_C:
        hot = HOURS[temp >= HOT_C]
        said.append(
            f"Above {HOT_C:.0f} °C from {hot[0] - 0.5:.0f} to {hot[-1] + 0.5:.0f} h: work early or late, "
            "drink, and heed local heat warnings."
        )
    if wet >= 0.5:
        often = "" if wet == 1.0 else f" in {round(wet * scene.years)} of {scene.years} years"
        said.append(f"Rain today{often}: leaves stay wet.")
    return Conditions(
        temp_c=temp, rain_chance=wet, sunrise_h=sunrise, sunset_h=sunset, suits=suits, said=tuple(said)
    )


def hours_for(conditions: Conditions, needs: Sequence[Condition]) -> tuple[tuple[float, float], ...]:
    """Stretches of the day in which all of some conditions hold, by the clock  [h]."""
    good = np.ones(24, dtype=np.bool_)
    for need in needs:
        good &= conditions.suits[need]
    edges = np.flatnonzero(np.diff(np.concatenate(([False], good, [False])).astype(np.int8)))
    return tuple((float(first), float(last)) for first, last in edges.reshape(-1, 2))
