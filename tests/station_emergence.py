"""The day half of a sowing is up on measured soil: air for soil, the soil model, and one reading."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np

from measured_stations import Station, uscrn_stations
from spadework.clock.conditioning_soil import soil_offset
from spadework.clock.ground import Ground
from spadework.clock.normal import log_normal_share
from spadework.clock.soil_offset import SoilReading, offset_from_readings
from spadework.clock.sprout import Sowing, sprout
from spadework.crops.loader import load_sheet
from spadework.garden.site import Site
from spadework.garden.told import SoilWarmth, Told
from spadework.record.hindcast import arrival
from spadework.science.soil import SURFACES, seed_zone_mean_c
from spadework.science.thermometer import thermometer_offset, wave_at_hour
from spadework.weather.years import Years

SOIL_LAWS = {"carrot": (2.1, 132.0), "tomato": (7.5, 103.0), "pea": (-0.1, 151.0)}
"""Base and degree-days from sowing to half up on the measured soils (fitted to UCSC_KNOTT97, computed)."""

SHEETS = ("carrot", "tomato", "pea")
SOWN_DAYS = range(75, 182, 7)
AHEAD = 60
LOGGER_SD_C, SPOT_SD_C = 0.7, 1.5
FIRST = date(2020, 1, 1)
MORNING_H = 9.5


@dataclass(frozen=True)
class Miss:
    """Mean miss of the day half is up [d], by what is known of the soil."""

    crop: str
    sowings: int
    by: dict[str, float]
    held: dict[str, float]


def _sowings(station: Station) -> list[int]:
    """Weekly from mid-March to the end of June, where the soil was measured for 60 days on."""
    return [
        day
        for day in SOWN_DAYS
        if station.growing[day] and not np.isnan(station.soil_c[day : day + AHEAD]).any()
    ]


def plain_laws() -> list[Miss]:
    """Degree-days above a base alone, daily means; readings without and with an error drawn."""
    rng = np.random.default_rng(1)
    rows: dict[str, list[list[float]]] = {crop: [] for crop in SOIL_LAWS}
    for station in uscrn_stations("test"):
        air = (station.tmin_c + station.tmax_c) / 2.0
        model = seed_zone_mean_c(air, station.solar_mj, SURFACES["grass"])
        for sown in _sowings(station):
            ahead = slice(sown, sown + AHEAD)
            days = np.arange(sown, sown + AHEAD)
            soils = [station.soil_c[ahead], air[ahead], model[ahead]]
            for error, sd in ((0.0, LOGGER_SD_C), (LOGGER_SD_C, LOGGER_SD_C), (SPOT_SD_C, SPOT_SD_C)):
                residual = station.soil_c[sown] - model[sown] + rng.normal(0.0, 1.0) * error
                offset = thermometer_offset([sown], [residual], days, reading_sd_c=sd)
                soils.append(model[ahead] + offset.mean_c)
            for crop, (base, need) in SOIL_LAWS.items():
                way = np.cumsum(np.maximum(np.array(soils) - base, 0.0), axis=1) / need
                up = arrival(way)
                if up.max() < AHEAD:
                    rows[crop].append((up[1:] - up[0]).tolist())
    return [_miss(crop, found, ()) for crop, found in rows.items()]


NAMES = ("air", "model", "logger", "logger with error", "spot with error")


def _miss(crop: str, rows: list[list[float]], held: Sequence[tuple[bool, ...]]) -> Miss:
    by = dict(zip(NAMES, np.abs(rows).mean(axis=0).tolist(), strict=True))
    shares = np.mean(held, axis=0).tolist() if len(held) else []
    return Miss(crop, len(rows), by, dict(zip(NAMES, shares, strict=False)))


def sheets() -> list[Miss]:
    """The program's own sheets, sprout and told readings: daily wave, depth, ceiling and all.

    The wave of the measured soil is not in the daily records; it is the model's in every case, so that the
    truth differs by its daily means alone. A spot reading is taken at half past nine by the sun.
    """
    rng = np.random.default_rng(2)
    rows: dict[str, list[list[float]]] = {crop: [] for crop in SHEETS}
    held: dict[str, list[tuple[bool, ...]]] = {crop: [] for crop in SHEETS}
    for station in uscrn_stations("test"):
        plain = _ground(station)
        air = (station.tmin_c + station.tmax_c)[None] / 2.0
        truth = _shifted(plain, station.soil_c[None])
        as_air = _shifted(plain, air)
        for sown in _sowings(station):
            grounds = [as_air, plain]
            on = FIRST + timedelta(days=sown)
            soil = float(station.soil_c[sown])
            wave = float(plain.soil_half_c(5.0)[0, sown] * wave_at_hour(MORNING_H))
            for reading, hour in (
                (soil, None),
                (soil + LOGGER_SD_C * rng.normal(), None),
                (soil + wave + SPOT_SD_C * rng.normal(), MORNING_H),
            ):
                warmth = SoilWarmth(temp_c=reading, depth_cm=5.0, first=on, last=on, hour=hour)
                told = [Told(key="1", told_on=on, source="own reading", fact=warmth)]
                offset = soil_offset(plain, told, on)
                grounds.append(Ground(plain.site, plain.years, plain.surface, offset))
            for crop in SHEETS:
                sheet = load_sheet(crop)
                found = [sprout(sheet, ground, Sowing(sown)) for ground in (truth, *grounds)]
                # the sowing's own column is the first that counts
                up = np.array([arrival(one.progress)[0] for one in found])
                if np.isnan(found[0].progress[0, sown : sown + AHEAD]).any() or up.max() >= sown + AHEAD:
                    continue
                rows[crop].append((up[1:] - up[0]).tolist())
                day = int(up[0])
                chances = [float(log_normal_share(one.progress, 1.0, one.tau)[0, day]) for one in found[1:]]
                held[crop].append(tuple(0.1 <= chance <= 0.9 for chance in chances))
    return [_miss(crop, found, held[crop]) for crop, found in rows.items()]


def _ground(station: Station) -> Ground:
    years = Years(
        first_day=np.datetime64(FIRST, "D"),
        tmin_c=station.tmin_c[None],
        tmax_c=station.tmax_c[None],
        rain_mm=np.zeros((1, station.tmin_c.size)),
        solar_mj=station.solar_mj[None],
        wind_m_s=None,
        labels=(2020,),
        made=np.zeros(1, dtype=np.bool_),
        seen_days=station.tmin_c.size,
        filled_share=0.0,
        note="",
    )
    return Ground(Site("Station", station.lat_deg, 0.0, 0.0), years, "grass")


def _shifted(plain: Ground, soil_c: np.ndarray) -> Ground:
    """The same place with another soil: the difference stands where a thermometer's offset would."""
    offset = np.where(np.isnan(soil_c), 0.0, soil_c - plain.soil_mean_c)
    deaf = SoilReading(0, 0, np.zeros(1), 1e6)
    model = offset_from_readings(plain.soil_mean_c, (deaf,), SURFACES["grass"].offset_sd_c)
    known = replace(model, offset_c=offset, soil_c=plain.soil_mean_c + offset)
    return Ground(plain.site, plain.years, plain.surface, known)
