"""What each hour of today is like for work outside, and which hours suit a job."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.advice.job import Condition
from spadework.advice.scene import Scene
from spadework.garden.records import Bed
from spadework.garden.state import Garden
from spadework.garden.told import SkyHours
from spadework.science import comfort, radiation, sun
from spadework.science.air import hourly_temperature_c
from spadework.types import Bools, Floats

HOT_C: Final = 27.0
"""Air from which tender plants are not handled and people slow down. Source: common-practice."""

FREEZING_C: Final = 1.0
"""Air up to which water may freeze on leaves and in cans, and the ground is hard. Source: common-practice."""

DEW_HOURS: Final = 2.5
"""Hours after sunrise until leaves are usually dry of dew; a windy night brings none. Source: memory."""

WET_RAIN_MM: Final = 1.0
"""Rain in a day from which leaves and the soil's top stay wet. Our own rule."""

SNOW_C: Final = 2.0
"""Air all day below which what falls may be snow. Source: common-practice."""

SOAKED_MM: Final = 10.0
"""Rain of yesterday and today from which soil is too wet to be dug or trodden. Our own rule; the squeeze of a
handful decides."""

CALM_M_S: Final = 4.0
"""Mean wind of a day up to which light covers are laid at any hour. Source: common-practice."""

STRONG_WIND_M_S: Final = 8.0
"""Mean wind of a day that is spoken of. Source: common-practice."""

STRONG_SUN: Final = 0.5
"""Sunlight, as the sine of the sun's height under a clear sky, that scorches what was moved. Our own rule."""

SUN_HIGH_SINE: Final = 0.8
"""Sine of the sun's height from which a clear sky adds the most to the heat felt. Our own rule."""

AFTER_THUNDER_H: Final = 0.5
"""Hours under a roof after the last thunder. Source: memory of the United States National Weather Service."""

SLOW_BAND: Final = comfort.HEAT_BANDS.index("extreme caution")
"""Heat felt in the sun from which heavy work waits for a cooler hour. Source: ROTHFUSZ1990 and the bands of
the National Weather Service, memory; what is done at them is our own rule."""

STOP_BAND: Final = comfort.HEAT_BANDS.index("danger")
"""Heat index in the shade from which nobody is sent out. As above."""

UV_COVER: Final = comfort.UV_BANDS_FROM[0]
"""UV index from which skin and eyes are covered. Source: WHO2002, published."""

UV_SHADE: Final = comfort.UV_BANDS_FROM[2]
"""UV index from which who should not be in strong sun stays in. Source: WHO2002, published, very high."""

FOR_RAIN: Final[tuple[Condition, ...]] = ("dry leaves", "dry soil surface", "soil not wet")
"""Conditions that rain decides; under a roof they hold."""

HOURS: Final = np.arange(24, dtype=np.float64) + 0.5
"""Middles of the hours of the day."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Conditions:
    """Today's hours, by the clock.

    Parameters
    ----------
    temp_c : array, shape (24,)  [degC]
        Air at the middle of each hour, mean of the years.
    heat_index_c : array, shape (24,)  [degC]
        How hot that feels in the shade.
    sun_heat_c : array, shape (24,)  [degC]
        How hot it feels in the sun there probably is.
    uv : array, shape (24,)
        UV index.
    rain_chance : float
        Chance of a wet day, 0 to 1.
    sunrise_h, sunset_h : float  [h]
        By the clock.
    suits : mapping of Condition to array of bool, shape (24,)
        Whether the hour is so.
    shut : array of bool, shape (24,)
        Hours in which nobody is sent outside: thunder, smoke, or dangerous heat.
    heavy_shut : array of bool, shape (24,)
        Hours too hot for heavy work.
    said : tuple of str
        What a person should know before going out.
    """

    temp_c: Floats
    heat_index_c: Floats
    sun_heat_c: Floats
    uv: Floats
    rain_chance: float
    sunrise_h: float
    sunset_h: float
    suits: dict[Condition, Bools]
    shut: Bools
    heavy_shut: Bools
    said: tuple[str, ...]


def conditions_of(scene: Scene, sky: Sequence[SkyHours] = ()) -> Conditions:
    """Today's hours.

    Parameters
    ----------
    scene : Scene
    sky : sequence of SkyHours
        Thunder and smoke as told; those of other days are left out.
    """
    years, column = scene.ground.years, scene.column
    doy = scene.ground.day_of_year[column : column + 1]
    rise, down = (float(hour[0]) for hour in sun.sunrise_sunset_solar_h(scene.site.lat_deg, doy))
    offset = scene.site.clock_offset_h(scene.today)
    solar_hours = (HOURS - offset) % 24.0
    span = slice(max(column - 1, 0), column + 2)
    by_year = hourly_temperature_c(
        years.tmin_c[:, span],
        years.tmax_c[:, span],
        sunrise_h=rise,
        sunset_h=down,
        hours=solar_hours,
    )[:, min(column, 1)]
    dew = comfort.dew_point_guess_c(years.tmin_c[:, column])[:, None]
    felt = comfort.heat_index_c(by_year, comfort.relative_humidity_pct(by_year, np.minimum(dew, by_year)))
    temp, index = by_year.mean(axis=0), felt.mean(axis=0)
    sine = np.maximum(sun.elevation_sine(scene.site.lat_deg, doy, solar_hours)[0], 0.0)
    clear = _clear_share(scene)
    uv = comfort.uv_index(sine, elevation_m=scene.site.elevation_m, clear_share=clear)
    in_sun = index + comfort.FULL_SUN_HEAT_CDELTA * clear * np.minimum(sine / SUN_HIGH_SINE, 1.0)
    rain = years.rain_mm[:, column]
    wet = 0.0 if np.isnan(rain).all() else float(np.nanmean(rain >= WET_RAIN_MM))
    sunrise, sunset = rise + offset, down + offset
    light = (sunrise <= HOURS) & (sunset >= HOURS)
    wind = _wind_m_s(scene)
    dewy = (wind is None or wind < CALM_M_S) & (sunrise + DEW_HOURS > HOURS)
    dry = light & ~dewy & np.full(24, wet < 0.5)
    lately = _lately_mm(scene)
    anytime = np.ones(24, dtype=np.bool_)
    thunder, smoke = _told(sky, scene, "thunder", AFTER_THUNDER_H), _told(sky, scene, "smoke", 0.0)
    edge = light & ((sunrise + 2.0 >= HOURS) | (sunset - 2.0 <= HOURS))
    suits: dict[Condition, Bools] = {
        "daylight": light,
        "dawn": (sunrise - 1.0 <= HOURS) & (sunrise + 2.0 >= HOURS),
        "morning": light & (HOURS < 11.0),
        "evening": (sunset - 3.0 <= HOURS) & (sunset + 0.5 >= HOURS),
        "before sunset": light & (sunset - 4.0 <= HOURS),
        "dry leaves": dry,
        "dry soil surface": dry & np.full(24, _surface_mm(scene) < WET_RAIN_MM),
        "soil not wet": anytime & np.full(24, lately < SOAKED_MM),
        "not in heat": temp < HOT_C,
        "not in strong sun": (sine * clear < STRONG_SUN) | (temp < 20.0),
        "not freezing": temp > FREEZING_C,
        "no thunder": ~thunder,
        "still air": anytime if wind is None or wind < CALM_M_S else edge,
    }
    hot = comfort.heat_band(index) >= STOP_BAND
    heavy = comfort.heat_band(in_sun) >= SLOW_BAND
    said = [
        *_heat_said(hot, heavy & light, temp),
        *_uv_said(uv),
        *(
            [f"Thunder told {_spans(thunder)}: stay under a roof then, half an hour after the last included."]
            if thunder.any()
            else []
        ),
        *(
            [f"Smoke told {_spans(smoke)}: no work outside then; heed local air warnings."]
            if smoke.any()
            else []
        ),
        *(
            [f"Wind of {wind:.0f} m/s on average: lay no light covers but early or late."]
            if wind is not None and wind >= STRONG_WIND_M_S
            else []
        ),
    ]
    if wet >= 0.5:
        often = "" if wet == 1.0 else f" in {round(wet * scene.years)} of {scene.years} years"
        falls = "Rain" if temp.max() > SNOW_C else "Snow or rain"
        said.append(f"{falls} today{often}: leaves stay wet.")
    return Conditions(
        temp_c=temp,
        heat_index_c=index,
        sun_heat_c=in_sun,
        uv=uv,
        rain_chance=wet,
        sunrise_h=sunrise,
        sunset_h=sunset,
        suits=suits,
        shut=thunder | smoke | hot,
        heavy_shut=heavy,
        said=tuple(said),
    )


def under_roof(garden: Garden, bed: Bed | None) -> bool:
    """Whether no rain falls on a bed: it is a tunnel or frame, or stands in one."""
    if bed is None:
        return False
    holder = garden.beds.get(bed.inside)
    return any(place is not None and place.shape in ("tunnel", "frame") for place in (bed, holder))


def hours_for(
    conditions: Conditions, needs: Sequence[Condition], *, heavy: bool = False, indoors: bool = False
) -> tuple[tuple[float, float], ...]:
    """Stretches of the day in which all of some conditions hold, by the clock  [h].

    Parameters
    ----------
    conditions : Conditions
    needs : sequence of Condition
    heavy : bool
        Work that makes hot: not in hours too hot for it.
    indoors : bool
        Under a roof: thunder, smoke and heat outside do not stop it.
    """
    good = np.ones(24, dtype=np.bool_)
    for need in needs:
        good &= conditions.suits[need]
    if not indoors:
        good &= ~conditions.shut
        if heavy:
            good &= ~conditions.heavy_shut
    return _stretches(good)


def _stretches(good: Bools) -> tuple[tuple[float, float], ...]:
    edges = np.flatnonzero(np.diff(np.concatenate(([False], good, [False])).astype(np.int8)))
    return tuple((float(first), float(last)) for first, last in edges.reshape(-1, 2))


def _clear_share(scene: Scene) -> float:
    """Sunlight of today over that of a clear sky, over the years."""
    doy = scene.ground.day_of_year[scene.column : scene.column + 1]
    outside = sun.extraterrestrial_radiation_mj(scene.site.lat_deg, doy)
    clear = radiation.clear_sky_mj(outside, scene.site.elevation_m)
    share = scene.ground.solar_mj[:, scene.column] / np.maximum(clear, 1e-6)
    return float(np.clip(np.nanmean(share), 0.0, 1.0))


def _lately_mm(scene: Scene) -> float:
    """Rain of yesterday and today, at the middle of the years  [mm]."""
    rain = np.nan_to_num(scene.ground.years.rain_mm[:, max(scene.column - 1, 0) : scene.column + 1])
    return float(np.median(rain.sum(axis=1)))


def _surface_mm(scene: Scene) -> float:
    """Rain on the surface: of today, and what sun and wind leave of yesterday's  [mm]."""
    column = scene.column
    rain = np.nan_to_num(scene.ground.years.rain_mm)
    left = np.maximum(rain[:, max(column - 1, 0)] - np.nan_to_num(scene.ground.et0_mm[:, column]), 0.0)
    return float(np.median(rain[:, column] + left))


def _wind_m_s(scene: Scene) -> float | None:
    wind = scene.ground.years.wind_m_s
    if wind is None or np.isnan(wind[:, scene.column]).all():
        return None
    return float(np.nanmean(wind[:, scene.column]))


def _told(sky: Sequence[SkyHours], scene: Scene, what: str, after_h: float) -> Bools:
    """Hours of today in which something is told of."""
    found = np.zeros(24, dtype=np.bool_)
    begins, ends = HOURS - 0.5, HOURS + 0.5
    for told in sky:
        if told.what == what and told.day == scene.today:
            found |= (ends > told.from_hour) & (begins < min(told.until_hour + after_h, 24.0))
    return found


def _heat_said(hot: Bools, heavy: Bools, temp: Floats) -> list[str]:
    local = "drink often, rest in the shade, and heed local heat warnings."
    if hot.any():
        return [f"Dangerous heat {_spans(hot)}: nobody works outside then; {local}"]
    if heavy.any():
        return [f"Heat {_spans(heavy)}, in the sun: heavy work early or late; {local}"]
    if float(temp.max()) >= HOT_C:
        return [f"Above {HOT_C:.0f} °C {_spans(temp >= HOT_C)}: {local}"]
    return []


def _uv_said(uv: Floats) -> list[str]:
    most = int(np.floor(float(uv.max()) + 0.5))
    if most < UV_COVER:
        return []
    band = comfort.UV_BANDS[int(comfort.uv_band(uv.max()))]
    return [f"UV index up to {most} ({band}): hat, sleeves, sun cream {_spans(uv >= UV_COVER - 0.5)}."]


def _spans(hours: Bools) -> str:
    """Hours in words: "from 10 to 18 h"."""
    return " and ".join(f"from {first:.0f} to {last:.0f} h" for first, last in _stretches(hours))
