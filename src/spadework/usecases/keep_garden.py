"""Make a garden folder, add weather to it, and say what it holds."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Literal

import msgspec

from spadework.advice.odds import as_date
from spadework.errors import GardenError
from spadework.garden.site import Site
from spadework.store.garden_folder import create, open_garden
from spadework.weather.read.detect import read_weather

_LAYOUTS: dict[str, str] = {
    "ghcn-dly": "NOAA GHCN-Daily, fixed width",
    "ghcn-long": "NOAA GHCN-Daily, one value a line",
    "ghcn-wide": "NOAA GHCN-Daily, by-station CSV",
    "daily-csv": "a garden's own daily record",
    "table": "plain table",
}


class GardenMade(msgspec.Struct, frozen=True, kw_only=True):
    """The new garden."""

    name: str
    folder: str
    lat_deg: float
    lon_deg: float
    elevation_m: float


class WeatherAdded(msgspec.Struct, frozen=True, kw_only=True):
    """What a file brought."""

    file: str
    kind: str
    station: str
    first_day: date
    last_day: date
    days: int
    missing: dict[str, int]
    flagged: dict[str, int]
    findings: list[str]
    notes: list[str]


def make_garden(
    folder: Path,
    name: str,
    lat_deg: float,
    lon_deg: float,
    elevation_m: float,
    *,
    units: Literal["metric", "us"] = "metric",
    words: Literal["british", "american"] = "british",
) -> GardenMade:
    """Make a bare garden folder.

    Raises
    ------
    ParameterError
        When a coordinate is out of range.
    GardenError
        When the folder already holds a garden.
    """
    site = Site(
        name=name, lat_deg=lat_deg, lon_deg=lon_deg, elevation_m=elevation_m, units=units, words=words
    )
    create(folder, site)
    return GardenMade(
        name=name, folder=str(folder), lat_deg=lat_deg, lon_deg=lon_deg, elevation_m=elevation_m
    )


def add_weather(garden: Path, file: Path, hints: Mapping[str, str]) -> WeatherAdded:
    """Read a weather file and merge it into the garden's record.

    Raises
    ------
    InputFileError
        When the file is refused; nothing is changed.
    GardenError
        When the file or the garden cannot be read.
    """
    folder = open_garden(garden)
    try:
        content = file.read_bytes()
    except OSError as error:
        raise GardenError(
            f"{file} cannot be read ({error.strerror}).", "Give the path of a weather file."
        ) from None
    result = read_weather(content, file.name, **hints)
    added = folder.add_weather(result)
    series = result.series
    return WeatherAdded(
        file=file.name,
        kind=_LAYOUTS[result.layout],
        station=result.station,
        first_day=as_date(series.start),
        last_day=as_date(series.end),
        days=series.days,
        missing=dict(result.missing),
        flagged=dict(result.flagged),
        findings=[str(finding) for finding in added.findings],
        notes=[*added.notes, *([] if added.merged is None else [added.merged.text])],
    )
