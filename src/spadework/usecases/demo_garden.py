"""Make the demo garden: an invented place with made weather.

Everything in it is invented: the place, its normals, its weather. Real gardens start with `new`.
"""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

from spadework.garden.site import Site
from spadework.store.garden_folder import create, open_garden
from spadework.weather.demo_normals import demo_record
from spadework.weather.read.result import ReadResult

DEMO_NAME = "Marrow Lane"
DEMO_LAT_DEG, DEMO_LON_DEG, DEMO_ELEVATION_M = 47.2, -93.4, 320.0
DEMO_YEARS = 31


def make_demo(folder: Path, today: date) -> None:
    """Make the demo garden anew, with weather up to `today`."""
    if folder.exists():
        shutil.rmtree(folder)
    create(
        folder,
        Site(name=DEMO_NAME, lat_deg=DEMO_LAT_DEG, lon_deg=DEMO_LON_DEG, elevation_m=DEMO_ELEVATION_M),
    )
    record = demo_record(today, years=DEMO_YEARS)
    open_garden(folder).add_weather(ReadResult(record, "made weather", "daily-csv"))
