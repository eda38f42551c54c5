"""A new garden step by step: its place, told or read from a weather file, and its beds from lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from spadework.advice.odds import as_date
from spadework.errors import InputFileError, ParameterError
from spadework.garden.entries import BedGone, BedSet
from spadework.garden.lay_out import lay_out
from spadework.garden.site import Site, Units
from spadework.garden.state import Garden
from spadework.garden.told import MonthlyNormals
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import Act
from spadework.usecases.plan_beds import names_of
from spadework.usecases.setting import open_setting
from spadework.usecases.show_ground import Ground, bed_as_told
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write
from spadework.weather.read.detect import read_weather


class PlaceRead(msgspec.Struct, frozen=True, kw_only=True):
    """Where a weather file says its station stands; None for what it does not say."""

    station: str
    lat_deg: float | None
    lon_deg: float | None
    elevation_m: float | None


class BedsHeard(msgspec.Struct, frozen=True, kw_only=True):
    """How lines about beds are understood.

    Parameters
    ----------
    ground : Ground or None
        The plan as it would be, with the beds that are there; None where nothing can be drawn.
    count : int
        Beds the lines make or change.
    names : str
    took : list of str
        What was taken for granted.
    wrong : list of str
        What cannot be meant, with its line.
    """

    ground: Ground | None
    count: int
    names: str
    took: list[str]
    wrong: list[str]


class RestsOn(msgspec.Struct, frozen=True, kw_only=True):
    """What answers rest on so far.

    Parameters
    ----------
    days : int
        Days of the record; 0 where there is none.
    first_day, last_day : date or None
    means_from : str
        Who told the monthly means that years may be made from; empty where nobody did.
    """

    days: int
    first_day: date | None
    last_day: date | None
    means_from: str


class BedsLaid(msgspec.Struct, frozen=True, kw_only=True):
    """What came of lines about beds."""

    written: WriteAnswer
    count: int
    took: list[str]


def place_in(content: bytes, name: str) -> PlaceRead:
    """Where the station of a weather file stands.

    Raises
    ------
    InputFileError
        If the file is refused.
    """
    found = read_weather(content, name)
    return PlaceRead(
        station=found.station,
        lat_deg=found.lat_deg,
        lon_deg=found.lon_deg,
        elevation_m=found.elevation_m,
    )


def rests_on(path: Path, today: date) -> RestsOn:
    """What answers of a garden rest on by now.

    Raises
    ------
    GardenError
    """
    setting = open_setting(path, today)
    record = setting.weather()
    means = [entry.source for entry in setting.told if isinstance(entry.fact, MonthlyNormals)]
    return RestsOn(
        days=0 if record is None else record.days,
        first_day=None if record is None else as_date(record.start),
        last_day=None if record is None else as_date(record.end),
        means_from=means[-1] if means else "",
    )


def change_site(path: Path, said: dict[str, Any]) -> Site:
    """Say the place or the settings of a garden anew; what is left out stays.

    Raises
    ------
    ParameterError
        If anything is out of range; nothing is changed then.
    """
    folder = open_garden(path)
    folder.keep_site(replace(folder.site, **said))
    return folder.site


def hear_beds(path: Path, today: date, lines: Sequence[str], *, anew: bool = False) -> BedsHeard:
    """How lines about beds would be understood, with the plan; nothing is written.

    Parameters
    ----------
    path : Path
    today : date
    lines : sequence of str
    anew : bool
        In place of the beds that are there.
    """
    folder, state = open_for_writing(path)
    units = folder.site.units
    there = {} if anew else _there(state.garden)
    wrong: list[str] = []
    told, took, names, count = dict(there), [], "", 0
    if lines:
        try:
            laid = lay_out(lines, units=units, there=there)
        except InputFileError as error:
            wrong = [str(fault) for fault in error.faults]
        except ParameterError as error:
            wrong = [str(error)]
        else:
            told |= laid.beds
            took, names, count = list(laid.took), names_of(laid.beds), len(laid.beds)
    return BedsHeard(
        ground=_ground(folder.site.name, units, today, told) if told else None,
        count=count,
        names=names,
        took=took,
        wrong=wrong,
    )


def lay_beds(path: Path, how: Writing, lines: Sequence[str], *, anew: bool = False) -> BedsLaid:
    """Make beds from lines, as one act.

    Parameters
    ----------
    path : Path
    how : Writing
    lines : sequence of str
    anew : bool
        In place of the beds that are there; those with something in them are asked about.

    Raises
    ------
    InputFileError
        With every line that cannot be meant; nothing is made then.
    ParameterError, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    there = _there(state.garden)
    laid = lay_out(lines, units=folder.site.units, there={} if anew else there)
    acts: list[Act] = []
    if anew:
        goes = BedGone(why="laid out anew")
        hosts = {told.inside for told in there.values()}
        order = sorted(there, key=lambda key: key in hosts)
        acts += [Act(payload=goes, on=how.day, bed=key) for key in order]
    acts += [Act(payload=told, on=how.day, bed=key) for key, told in laid.beds.items()]
    return BedsLaid(
        written=write(folder, state, acts, how, question="bed"), count=len(laid.beds), took=list(laid.took)
    )


def _there(garden: Garden) -> dict[str, BedSet]:
    """The beds that are there, as they were last told."""
    found: dict[str, BedSet] = {}
    for entry in garden.entries:
        if isinstance(entry.act, BedSet) and garden.beds[entry.bed].gone_on is None:
            found[entry.bed] = entry.act
    return found


def _ground(name: str, units: Units, today: date, beds: dict[str, BedSet]) -> Ground:
    return Ground(
        question="ground",
        today=today,
        name=name,
        units=units,
        beds=[bed_as_told(key, told) for key, told in beds.items()],
        indoors=[key for key, told in beds.items() if told.shape == "shelf"],
        last="",
    )
