"""One planting through 40 years of 300 days, the ground and the response tables at hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import partial

import numpy as np

from bench.champion import ELEVATION_M, LAT_DEG, LON_DEG, Champion
from bench.figures import Figure, best_seconds
from spadework.clock.course import sow
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing
from spadework.crops.loader import load_sheet
from spadework.crops.sheet import Sheet
from spadework.garden.site import Site
from spadework.weather.series import Series
from spadework.weather.years import Years, build_years

ROWS, DAYS = 40, 300
SOWN_DAY = 50
CROPS = ("carrot", "lettuce", "tomato")
OUTCOMES = ("emerged", "leaves", "height_cm", "stage", "flowering", "ready", "picked", "checked_days")


def measure(weather: Champion) -> list[Figure]:
    """Time of a course asked for everything it can say, and of one asked only when it is ready."""
    ground = _ground(weather)
    figures = []
    for crop in CROPS:
        sheet = load_sheet(crop)

        ready_s = best_seconds(partial(_outcomes, sheet, ground, ("ready",)), repeats=30)
        all_s = best_seconds(partial(_outcomes, sheet, ground, OUTCOMES), repeats=30)
        figures += [
            Figure(f"one course, {crop}: when ready", ready_s * 1e3, "ms"),
            Figure(f"one course, {crop}: everything it can say", all_s * 1e3, "ms", budget=1.0),
        ]
    return figures


def _outcomes(sheet: Sheet, ground: Ground, outcomes: tuple[str, ...]) -> list[object]:
    course = sow(sheet, ground, Sowing(day=SOWN_DAY))
    return [getattr(course, outcome) for outcome in outcomes]


def _ground(weather: Champion) -> Ground:
    series = Series(
        start=weather.dates[0], tmin_c=weather.tmin_c, tmax_c=weather.tmax_c, rain_mm=weather.rain_mm
    )
    first = date(2018, 3, 1)
    years = _forty(build_years(series, first, DAYS, first))
    return Ground(Site("Champion", LAT_DEG, LON_DEG, ELEVATION_M), years, "bare-moist")


def _forty(years: Years) -> Years:
    """The same years repeated up to 40 rows: for the time it takes, not for its meaning."""
    pick = np.arange(ROWS) % years.tmin_c.shape[0]
    return replace(
        years,
        tmin_c=years.tmin_c[pick],
        tmax_c=years.tmax_c[pick],
        rain_mm=years.rain_mm[pick],
        labels=tuple(years.labels[row] for row in pick),
        made=years.made[pick],
    )
