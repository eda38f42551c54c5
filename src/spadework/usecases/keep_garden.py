"""Make a garden folder, add weather to it, and say what it holds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Final, Literal

import msgspec

from spadework.advice.odds import as_date
from spadework.errors import GardenError, ParameterError
from spadework.garden.entries import PersonSet
from spadework.garden.lay_out import lay_out
from spadework.garden.lay_out_plot import bed_key
from spadework.garden.site import Site
from spadework.store.garden_folder import GARDEN_FILE, GardenFolder, create, open_garden
from spadework.store.new_folder import create_filled
from spadework.usecases.keep_book import NOBODY_KNOWN, Act, write_acts
from spadework.usecases.plan_picture import PlanPicture, draw_plan
from spadework.weather.read.detect import read_weather

LONGEST_NAME: Final = 60
_LAYOUTS: dict[str, str] = {
    "ghcn-dly": "NOAA GHCN-Daily, fixed width",
    "ghcn-long": "NOAA GHCN-Daily, one value a line",
    "ghcn-wide": "NOAA GHCN-Daily, by-station CSV",
    "daily-csv": "a garden's own daily record",
    "table": "plain table",
}


class GardenMade(msgspec.Struct, frozen=True, kw_only=True):
    """The new garden.

    Parameters
    ----------
    beds, people : int
        How many were written into its book.
    took : tuple of str
        What was taken for granted about the beds.
    """

    name: str
    folder: str
    lat_deg: float
    lon_deg: float
    elevation_m: float
    units: str = "metric"
    words: str = "british"
    zone: str = ""
    beds: int = 0
    people: int = 0
    took: tuple[str, ...] = ()
    picture: PlanPicture | None = None


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
    zone: str = "",
    bed_lines: Sequence[str] = (),
    keepers: Sequence[str] = (),
    helpers: Sequence[str] = (),
    today: date | None = None,
) -> GardenMade:
    """Make a garden folder, with its beds and people in the book where they are told.

    Parameters
    ----------
    zone : str
        As for `garden.site.Site`.
    bed_lines : sequence of str
        As for `garden.lay_out.lay_out`.
    keepers, helpers : sequence of str
        Names.
    today : date or None
        The day the beds and people are written for; None for the real one.

    Raises
    ------
    ParameterError
        When a coordinate is out of range, or a name cannot be.
    InputFileError
        When the lines about beds cannot be meant; every problem is named and nothing is made.
    GardenError
        When the folder already holds a garden.
    """
    site = Site(
        name=name,
        lat_deg=lat_deg,
        lon_deg=lon_deg,
        elevation_m=elevation_m,
        units=units,
        words=words,
        zone=zone,
    )
    laid = lay_out(bed_lines, units=units)
    people = people_of(keepers, helpers)
    day = today or date.today()
    acts = [Act(payload=person, on=day) for person in people]
    acts += [Act(payload=bed, on=day, bed=key) for key, bed in laid.beds.items()]
    author = people[0].person if people else NOBODY_KNOWN

    def fill(made: GardenFolder) -> None:
        written = write_acts(made, acts, today=day, author=author)
        if not written.stored:
            raise GardenError(str(written.questions[0][1]), "Say it otherwise; nothing was made.")

    if acts:
        create_filled(folder, site, fill)
    else:
        create(folder, site)
    return GardenMade(
        name=name,
        folder=str(folder),
        lat_deg=lat_deg,
        lon_deg=lon_deg,
        elevation_m=elevation_m,
        units=units,
        words=words,
        zone=zone,
        beds=len(laid.beds),
        people=len(people),
        took=laid.took,
        picture=draw_plan(laid.beds, units) if laid.beds else None,
    )


def check_site(name: str, lat_deg: float, lon_deg: float, elevation_m: float) -> Site:
    """A site, to see whether it can be.

    Raises
    ------
    ParameterError
    """
    return Site(name=name, lat_deg=lat_deg, lon_deg=lon_deg, elevation_m=elevation_m)


def folder_for(name: str) -> str:
    """A folder name for a garden of this name."""
    return bed_key(name) or "garden"


def check_folder(folder: Path) -> Path:
    """A folder that holds no garden yet.

    Raises
    ------
    GardenError
    """
    if (folder / GARDEN_FILE).exists():
        raise GardenError(f"There is a garden in {folder} already.", "Choose another folder.")
    if folder.exists() and not folder.is_dir():
        raise GardenError(f"{folder} is a file.", "Name a folder.")
    return folder


def people_of(keepers: Sequence[str], helpers: Sequence[str]) -> list[PersonSet]:
    """People by name, keepers first.

    Raises
    ------
    ParameterError
        If a name is empty or named twice.
    """
    found: dict[str, PersonSet] = {}
    for role, names in (("keeper", keepers), ("helper", helpers)):
        for name in names:
            key = bed_key(name)
            if not key or not name.isprintable() or len(name) > LONGEST_NAME:
                raise ParameterError(f"{name!r} is no name.", f"Use 1 to {LONGEST_NAME} letters.")
            if key in found:
                raise ParameterError(f"{name} is named twice.", "Call one of them otherwise.")
            found[key] = PersonSet(
                person=key, name=name.strip(), role="keeper" if role == "keeper" else "helper"
            )
    return list(found.values())


def add_weather(garden: Path, file: Path, hints: Mapping[str, str]) -> WeatherAdded:
    """Read a weather file and merge it into the garden's record.

    Raises
    ------
    InputFileError
        When the file is refused; nothing is changed.
    GardenError
        When the file or the garden cannot be read.
    """
    open_garden(garden)
    try:
        content = file.read_bytes()
    except OSError as error:
        raise GardenError(
            f"{file} cannot be read ({error.strerror}).", "Give the path of a weather file."
        ) from None
    return add_weather_content(garden, content, file.name, hints)


def add_weather_content(garden: Path, content: bytes, name: str, hints: Mapping[str, str]) -> WeatherAdded:
    """The same for a file that came as bytes, under its name.

    Raises
    ------
    InputFileError
        When it is refused; nothing is changed.
    GardenError
    """
    folder = open_garden(garden)
    result = read_weather(content, name, **hints)
    added = folder.add_weather(result)
    series = result.series
    return WeatherAdded(
        file=name,
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
