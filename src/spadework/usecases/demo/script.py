"""The script of a garden year, read from its tables: beds, people, kit and what is planted where."""

from __future__ import annotations

import tomllib
from datetime import date
from functools import cache
from importlib.resources import files
from typing import Final, Literal

import msgspec

BLOCKS: Final = ("lake", "gate", "shed", "hill")
ROTATION: Final = "LBRP"
"""Legumes, brassicas, roots and onions, potatoes and fruit: the order in which a block of beds bears them."""

Take = Literal["lift", "pull", "heads", "pick", "flowers"]
Shape = Literal["framed", "ground", "tub", "tunnel", "frame", "shelf"]
Sort = Literal["fleece", "netting", "mesh", "film", "hoops", "screen", "scare", "tray", "tool", "other"]


class BedRow(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A bed, or `many` of them side by side; lengths in metres."""

    key: str
    name: str
    at: tuple[float, float]
    size: tuple[float, float]
    soil: str
    many: int = 1
    step: float = 0.0
    step_y: float = 0.0
    shape: Shape = "framed"
    inside: str = ""
    mulch: str = ""
    height_m: float = 0.2
    depth_m: float = 0.3
    emitters: int | None = None
    emitter_l_h: float | None = None
    flow_l_min: float | None = None
    measured_l_min: float | None = None


class PersonRow(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Someone who works here."""

    key: str
    name: str
    role: Literal["keeper", "helper", "reader"] = "helper"
    not_for: tuple[str, ...] = ()


class KitRow(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A piece of kit owned."""

    item: str
    sort: Sort
    length_m: float | None = None
    width_m: float | None = None
    pieces: int | None = None
    grade: str = ""


class Place(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """The garden without its plants."""

    beds: tuple[BedRow, ...]
    people: tuple[PersonRow, ...]
    kit: tuple[KitRow, ...]
    shade: tuple[tuple[str, str], ...]


class Row(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One planting of the year; the heading of plantings.toml says what each word means."""

    id: str
    crop: str
    bed: str
    along: tuple[float, float]
    on: str
    until: str = ""
    variety: str = ""
    method: str = ""
    raised: bool = False
    next: bool = False
    soil_c: float | None = None
    nights_c: float | None = None
    rows: int
    row_cm: float
    spacing_cm: float | None = None
    thin_cm: float | None = None
    seeds: int | None = None
    take: Take
    every: int = 6
    hold: bool = False
    shelter_c: float = 0.0
    keep: str = ""
    stands: bool = False
    store: str = ""
    cure: bool = False
    cover: str = ""
    cover_left: bool = False
    mulch: str = ""
    jobs: tuple[Literal["earthed up", "supported", "pruned"], ...] = ()
    fails: str = ""
    signs: str = ""

    @property
    def length_m(self) -> float:
        """Metres along the bed.  [m]"""
        return self.along[1] - self.along[0]

    def first_day(self, year: int) -> date:
        """The first day it may be sown or set out in a calendar year."""
        return _day(self.on, year)

    def last_day(self, year: int) -> date:
        """The day its place is needed, for one begun in a calendar year."""
        return _day(self.until, year + (self.until < self.on))

    def kept_until(self, year: int) -> date:
        """The day before which none of it is taken, for one ready in a calendar year."""
        return _day(self.keep, year) if self.keep else date.min

    def bed_in(self, year: int) -> str:
        """Key of its bed, for one begun in a calendar year."""
        if len(self.bed) != 2 or self.bed[0] not in ROTATION:
            return self.bed
        season = year + self.next
        block = (ROTATION.index(self.bed[0]) - season) % len(BLOCKS)
        return f"{BLOCKS[block]}-{self.bed[1]}"


class Perennial(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What stands for years: planted `years` before this season, picked for `days` each spring.

    `fleece` are the days a fleece goes over its flowers on a cold evening and is noticed again.
    """

    id: str
    crop: str
    bed: str
    along: tuple[float, float]
    on: str
    years: int
    rows: int
    row_cm: float
    spacing_cm: float
    every: int
    days: int
    cover: str = ""
    fleece: tuple[str, ...] = ()

    @property
    def length_m(self) -> float:
        """Metres along the bed.  [m]"""
        return self.along[1] - self.along[0]

    def fleeced(self, year: int) -> list[date]:
        """The days on which its fleece goes on and off."""
        return [_day(each, year) for each in self.fleece]

    def planted_on(self, season: int) -> date:
        """The day it was planted, as the garden of a season has it."""
        return _day(self.on, season - self.years)


class Plan(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What is grown."""

    plantings: tuple[Row, ...]
    perennials: tuple[Perennial, ...]


@cache
def place() -> Place:
    """The garden's beds, people and kit."""
    return msgspec.convert(_table("place.toml"), Place)


@cache
def plan() -> Plan:
    """What it grows in a year, and what stands for years."""
    return msgspec.convert(_table("plantings.toml"), Plan)


def _table(name: str) -> object:
    return tomllib.loads(files(__package__).joinpath(name).read_text(encoding="utf-8"))


def _day(text: str, year: int) -> date:
    month, day = text.split("-")
    return date(year, int(month), int(day))
