"""The hindcasts of docs/accuracy.md: what is asked of which record, through the program's own clock."""

from __future__ import annotations

import numpy as np

import seasons
from measured_stations import uscrn_stations
from spadework.clock.course import set_out, sow
from spadework.clock.sprout import Sowing
from spadework.crops.loader import load_sheet
from spadework.record.hindcast import Stage, ready_hindcast
from spadework.record.scores import Score, leave_one_out, packet_miss
from spadework.science.degree_days import degree_days
from spadework.science.frost import first_day_at_or_below, last_day_at_or_below
from spadework.science.soil import SURFACES, seed_zone_mean_c
from spadework.science.thermometer import thermometer_offset

SUMS = {
    "Champion, base 10, 700 degC d from 15 May": ("champion", 10.0, 700.0, (5, 15)),
    "Champion, base 10, 1000 degC d from 20 May": ("champion", 10.0, 1000.0, (5, 20)),
    "Champion, base 4.4, 1100 degC d from 20 April": ("champion", 4.4, 1100.0, (4, 20)),
    "Clemson, base 10, 800 degC d from 15 April": ("clemson", 10.0, 800.0, (4, 15)),
    "Clemson, base 4.4, 1100 degC d from 11 March": ("clemson", 4.4, 1100.0, (3, 11)),
    "Norfolk, base 4.4, 1100 degC d from 10 April": ("norfolk", 4.4, 1100.0, (4, 10)),
    "Brussels, base 4.4, 1100 degC d from 10 April": ("brussels", 4.4, 1100.0, (4, 10)),
    "Cordoba, base 10, 700 degC d from 1 October": ("cordoba", 10.0, 700.0, (10, 1)),
    "Seattle, 4 years, base 4.4, 1100 degC d from 10 April": ("seattle", 4.4, 1100.0, (4, 10)),
}
"""Crop-like requirements: place, base, degree-days, first day."""

CROPS = (
    ("champion", "carrot"),
    ("champion", "bush-bean"),
    ("champion", "lettuce"),
    ("champion", "tomato"),
    ("norfolk", "carrot"),
    ("brussels", "carrot"),
    ("brussels", "bush-bean"),
    ("clemson", "carrot"),
    ("cordoba", "bush-bean"),
    ("seattle", "carrot"),
)
SOWN = {
    ("champion", "carrot"): (4, 20),
    ("champion", "bush-bean"): (5, 20),
    ("champion", "lettuce"): (4, 20),
    ("champion", "tomato"): (5, 28),
    ("norfolk", "carrot"): (4, 10),
    ("brussels", "carrot"): (4, 10),
    ("brussels", "bush-bean"): (5, 20),
    ("clemson", "carrot"): (3, 10),
    ("cordoba", "bush-bean"): (10, 1),
    ("seattle", "carrot"): (4, 10),
}

FROSTS = ("champion", "clemson", "norfolk", "brussels", "cordoba")
SPRING_DAYS = 196

SOIL_LAWS = {"carrot": (2.1, 132.0), "tomato": (7.5, 103.0), "pea": (-0.1, 151.0)}
"""Base and degree-days from sowing to half up on the measured soils (fitted to UCSC_KNOTT97, computed)."""


def sum_hindcast(name: str) -> list[Stage]:
    """A crop-like requirement on one record, at sowing and on the way."""
    place, base, need, (month, day) = SUMS[name]
    found = seasons.rows(place)
    rates = degree_days(found.tmin_c, found.tmax_c, base, 32.0, "single-sine", "horizontal")
    return ready_hindcast(rates, seasons.column(place, month, day), need)


def crop_hindcast(place: str, crop: str) -> list[tuple[str, float, Score]]:
    """Days to half up and to ready of a real sheet, weather alone; years that fall short are left out."""
    sheet, ground = load_sheet(crop), seasons.ground(place)
    start = seasons.column(place, *SOWN[place, crop])
    raised = "direct" not in sheet.propagation
    course = set_out(sheet, ground, start) if raised else sow(sheet, ground, Sowing(start))
    found = []
    if course.sprout is not None:
        up = (course.sprout.median_day - start).astype(np.float64)
        found.append(("half up", packet_miss(up), leave_one_out(up)))
    done = np.count_nonzero(course.way < 1.0, axis=1)
    ready = (done[done < course.way.shape[1]] - start).astype(np.float64)
    found.append(("ready", packet_miss(ready), leave_one_out(ready)))
    return found


def frost_hindcast(place: str) -> list[tuple[str, Score, float]]:
    """Last spring and first autumn freeze at the thermometer; with it how often linear quantiles held."""
    low = seasons.rows(place).tmin_c
    last = last_day_at_or_below(low[:, :SPRING_DAYS], 0.0)
    first = first_day_at_or_below(low[:, SPRING_DAYS:], 0.0)
    found = []
    for what, days in (("last in spring", last), ("first in autumn", first)):
        values = days[days >= 0].astype(np.float64)
        held = []
        for year in range(values.size):
            lower, upper = np.quantile(np.delete(values, year), [0.1, 0.9])
            held.append(lower <= values[year] <= upper)
        found.append((what, leave_one_out(values), float(np.mean(held))))
    return found


def emergence_on_stations() -> list[tuple[str, int, float, float, float]]:
    """Mean miss of the day half of a sowing is up on measured soil: air, model, model and a reading [d]."""
    rows: dict[str, list[tuple[float, float, float]]] = {crop: [] for crop in SOIL_LAWS}
    for station in uscrn_stations("test"):
        air = (station.tmin_c + station.tmax_c) / 2.0
        model = seed_zone_mean_c(air, station.solar_mj, SURFACES["grass"])
        soil = station.soil_c
        for sown in range(75, 182, 7):
            ahead = slice(sown, sown + 60)
            if not station.growing[sown] or np.isnan(soil[ahead]).any():
                continue
            offset = thermometer_offset(
                [sown], [soil[sown] - model[sown]], np.arange(sown, sown + 60), reading_sd_c=0.7
            )
            for crop, (base, need) in SOIL_LAWS.items():
                truth = _days(soil[ahead], base, need)
                if truth is None:
                    continue
                told = [
                    _days(warmth, base, need)
                    for warmth in (air[ahead], model[ahead], model[ahead] + offset.mean_c)
                ]
                if any(day is None for day in told):
                    continue
                rows[crop].append(tuple(abs(day - truth) for day in told))  # type: ignore[arg-type,operator]
    return [
        (crop, len(found), *(float(miss) for miss in np.mean(found, axis=0)))  # type: ignore[misc]
        for crop, found in rows.items()
    ]


def _days(soil_c: np.ndarray, base: float, need: float) -> float | None:
    running = np.cumsum(np.maximum(soil_c - base, 0.0))
    if running[-1] < need:
        return None
    day = int(np.argmax(running >= need))
    before = running[day - 1] if day else 0.0
    return day + (need - before) / (running[day] - before)
