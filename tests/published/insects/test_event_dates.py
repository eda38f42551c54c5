"""Dates of insects' events on three real records, beside calendar windows of services in such climates.

What is missed stands in the table with its size, as docs/accuracy.md prints it: earlier is below zero. The
middle of the years and the days with one year of ten before and after them are held to a day or two.
"""

from __future__ import annotations

import csv
from datetime import date, timedelta
from functools import cache
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from grounds import years_of
from long_records import by_year, climate, package_folder
from spadework.clock.ground import Ground
from spadework.clock.insects import run_events
from spadework.crops.troubles import trouble
from spadework.garden.site import Site

with (Path(__file__).parent / "event_windows.csv").open(newline="", encoding="utf-8") as _file:
    ROWS = list(csv.DictReader(_file))

SITES = {
    "Champion": Site("Champion", 40.4, -101.7, 1000.0),
    "Norfolk": Site("Norfolk", 52.6, 1.0, 30.0),
    "Seattle": Site("Seattle", 47.6, -122.3, 50.0),
}


@cache
def ground(place: str) -> Ground:
    """Whole calendar years of a record, leap days left out."""
    if place == "Seattle":
        table = pd.read_csv(package_folder("vega_datasets") / "_data" / "seattle-weather.csv")
        days = pd.to_datetime(table["date"])
        table = table[~((days.dt.month == 2) & (days.dt.day == 29))]
        low, high, rain = (
            table[name].to_numpy(dtype=float).reshape(-1, 365)
            for name in ("temp_min", "temp_max", "precipitation")
        )
    else:
        record = climate(place.lower())
        low, high, rain = (by_year(record, name) for name in ("tmin_c", "tmax_c", "rain_mm"))
    years = years_of(low, high, rain_mm=rain, first_day="2021-01-01")
    return Ground(SITES[place], years, "bare-moist")


def day(text: str) -> int:
    """Day of the year from 0, as columns are counted."""
    return (date.fromisoformat(f"2021-{text}") - date(2021, 1, 1)).days


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['trouble']}-{row['event']}-{row['place']}")
def test_event_beside_its_window(row: dict[str, str]) -> None:
    opens = run_events(trouble(row["trouble"]), ground(row["place"]), south=False)[row["event"]].opens
    early, middle, late = np.percentile(opens, [10, 50, 90])
    assert middle == pytest.approx(day(row["median"]), abs=1.0), date(2021, 1, 1) + timedelta(float(middle))
    assert early == pytest.approx(day(row["early"]), abs=2.0)
    assert late == pytest.approx(day(row["late"]), abs=2.0)
    first, last = day(row["window_first"]), day(row["window_last"])
    miss = min(middle - first, 0.0) + max(middle - last, 0.0)
    assert miss == pytest.approx(float(row["miss_days"]), abs=1.0)


def test_most_events_fall_into_their_windows() -> None:
    assert sum(row["miss_days"] == "0" for row in ROWS) >= len(ROWS) / 2
