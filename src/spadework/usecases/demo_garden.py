"""Make the demo garden: an invented place with made weather and two seasons of its book.

Everything in it is invented: the place, its people, its normals, its weather, its book. Real gardens start
with `new`.
"""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path
from typing import Final

import msgspec

from spadework.errors import GardenError
from spadework.garden.fold import fold
from spadework.garden.site import Site
from spadework.store.garden_folder import GARDEN_FILE, create, open_garden
from spadework.store.predictions import keep
from spadework.usecases.demo.tour import Stop, tour
from spadework.usecases.keep_book import picked_whole
from spadework.weather.demo_normals import DEMO_ELEVATION_M, DEMO_LAT_DEG, DEMO_LON_DEG, demo_record
from spadework.weather.read.result import ReadResult

DEMO_NAME: Final = "Marrow Lane"
DEMO_ZONE: Final = "America/Toronto"
DEMO_YEARS: Final = 31
SEASON: Final = ((5, 10), (9, 10))
MID_SEASON: Final = (6, 12)


class DemoMade(msgspec.Struct, frozen=True, kw_only=True):
    """The demo garden as it was made."""

    name: str
    folder: str
    today: date
    first_day: date
    entries: int
    predictions: int
    standing: int
    locks: int
    tour: tuple[Stop, ...]


def season_day(today: date) -> date:
    """A day on which there is something to see: today in the season, else a day in June gone by.

    Notes
    -----
    The demo garden lies in the north, with snow on it for months.
    """
    if SEASON[0] <= (today.month, today.day) <= SEASON[1]:
        return today
    return date(today.year if (today.month, today.day) > SEASON[1] else today.year - 1, *MID_SEASON)


def make_demo(folder: Path, today: date, *, anew: bool = True) -> DemoMade:
    """Make the demo garden, with weather up to `today` and its book up to the evening before.

    Parameters
    ----------
    folder : Path
    today : date
    anew : bool
        Whether a demo garden that is there already is made over. Any other garden is left alone.

    Raises
    ------
    GardenError
        If there is a garden in the folder that is not to be replaced.
    """
    from spadework.usecases.demo.foretell import foretold
    from spadework.usecases.demo.season import book_of

    if (folder / GARDEN_FILE).exists() and anew:
        _clear(folder)
    site = Site(
        name=DEMO_NAME,
        lat_deg=DEMO_LAT_DEG,
        lon_deg=DEMO_LON_DEG,
        elevation_m=DEMO_ELEVATION_M,
        zone=DEMO_ZONE,
    )
    garden = create(folder, site)
    record = demo_record(today, years=DEMO_YEARS)
    garden.add_weather(ReadResult(record, "made weather", "daily-csv"))
    entries = book_of(site, record, today)
    said = foretold(garden, entries, today.year - 1)
    with garden.open_book() as book:
        book.append(entries)
        for prediction, at in said:
            keep(book.database, [prediction], at)
    whole = fold(entries, picked_whole=picked_whole(entry.act for entry in entries))
    return DemoMade(
        name=DEMO_NAME,
        folder=str(folder),
        today=today,
        first_day=min(entry.happened_on for entry in entries),
        entries=len(entries),
        predictions=len(said),
        standing=len(whole.standing(today)),
        locks=len(whole.locks_on(today)),
        tour=tour(whole, today),
    )


def _clear(folder: Path) -> None:
    """Take a demo garden away; a folder that holds anything else is refused."""
    if open_garden(folder).site.name != DEMO_NAME:
        raise GardenError(
            f"There is a garden in {folder} that is not the demo.",
            "Choose another folder; nothing was changed.",
        )
    shutil.rmtree(folder)
