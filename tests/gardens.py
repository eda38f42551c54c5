"""Gardens in a folder, with a real station's record in the network's own format."""

from __future__ import annotations

from pathlib import Path

from ghcn_fixture import CHAMPION, CORDOBA, champion_series, cordoba_series, dly_text
from spadework.garden.site import Site
from spadework.store.garden_folder import create
from spadework.usecases.keep_garden import add_weather

SITES = {
    "north": Site("Champion", 40.4, -101.7, 1000.0),
    "south": Site("Cordoba", -31.4, -64.2, 480.0, words="british"),
    "us": Site("Dundy", 40.4, -101.7, 1000.0, units="us", words="american"),
}


def station_file(folder: Path, place: str) -> Path:
    """The place's record as a .dly file."""
    south = place == "south"
    path = folder / f"{place}.dly"
    series = cordoba_series() if south else champion_series()
    path.write_text(dly_text(CORDOBA if south else CHAMPION, series), encoding="ascii")
    return path


def make_garden(folder: Path, place: str) -> Path:
    """A garden with its record; gives its folder."""
    garden = folder / place
    create(garden, SITES[place])
    add_weather(garden, station_file(folder, place), {})
    return garden
