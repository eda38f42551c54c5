"""The beds: all of them, or one with everything the book knows of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Final

import msgspec

from spadework.advice.allowance import allowance_of
from spadework.crops.loader import load_sheet
from spadework.crops.names import keys
from spadework.garden.records import Bed, Placed
from spadework.garden.state import Garden
from spadework.usecases.bed_names import bed_called
from spadework.usecases.crop_words import crop_word
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.look import Look, look_at
from spadework.usecases.show_book import BookLine, book_lines
from spadework.usecases.show_plantings import PlantingShown, planting_name, planting_shown

USUAL_ENTRIES: Final = 10
"""Entries of a bed's book shown where nobody says how many."""


class CoverShown(msgspec.Struct, frozen=True, kw_only=True):
    """A piece of kit on a bed."""

    item: str
    planting: str
    length_m: float | None
    pieces: int | None
    assumed: bool
    since: date
    opened: bool


class WateredShown(msgspec.Struct, frozen=True, kw_only=True):
    """The last watering, in litres and as a depth where those can be known."""

    on: date
    litres: float | None
    depth_mm: float | None


class StoodShown(msgspec.Struct, frozen=True, kw_only=True):
    """What stood in a bed in a year."""

    year: int
    crop: str
    name: str
    family: str
    planting: str


class BedRow(msgspec.Struct, frozen=True, kw_only=True):
    """One bed in the list."""

    key: str
    name: str
    shape: str
    width_m: float | None
    length_m: float | None
    area_m2: float | None
    soil: str
    inside: str
    gone_on: date | None
    standing: list[str]
    covers: list[str]
    watered_on: date | None
    locks: list[LockLine]


class BedList(msgspec.Struct, frozen=True, kw_only=True):
    """All beds."""

    question: str
    today: date
    on: date
    known_on: date | None
    beds: list[BedRow]
    damage: str = ""


class BedShown(msgspec.Struct, frozen=True, kw_only=True):
    """One bed on a day.

    Parameters
    ----------
    flow_l_min : float or None  [l min-1]
        Water it gets.
    flow_known : {"measured", "rated", "by its emitters", ""}
    week_allowance_l, week_left_l : float or None  [l]
        Water it may get in seven days, and what is left of it on that day; None where it has no allowance.
    allowance : str
        The same in words.
    stood : list of StoodShown
        Earlier plantings, newest year first, and those told of the time before the book.
    last : mapping of str to date
        Last day of each kind of act.
    entries : list of BookLine
        The last of its book, newest last.
    earlier : int
        Entries before those.
    """

    question: str
    today: date
    on: date
    known_on: date | None
    key: str
    name: str
    described: bool
    shape: str
    x_m: float | None
    y_m: float | None
    width_m: float | None
    length_m: float | None
    turn_deg: float | None
    area_m2: float | None
    height_m: float
    depth_m: float | None
    soil: str
    mulch: str
    inside: str
    shaded_by: list[str]
    flow_l_min: float | None
    flow_known: str
    rated_l_min: float | None
    week_allowance_l: float | None
    week_left_l: float | None
    allowance: str
    made_on: date | None
    gone_on: date | None
    gone_why: str
    opened: bool | None
    batches: dict[str, date]
    minutes: float
    locks: list[LockLine]
    standing: list[PlantingShown]
    stood: list[StoodShown]
    covers: list[CoverShown]
    watered: WateredShown | None
    last: dict[str, date]
    entries: list[BookLine]
    earlier: int
    damage: str = ""


def list_beds(path: Path, today: date, *, on: date | None = None, known_on: date | None = None) -> BedList:
    """All beds on a day, in the order they were told; those taken up before it are left out.

    Raises
    ------
    GardenError, StoreError
    """
    look = look_at(path, on or today, known_on=known_on)
    garden = look.garden
    return BedList(
        question="bed",
        today=today,
        on=look.day,
        known_on=known_on,
        beds=[_row(look, bed) for bed in garden.beds.values() if bed.gone_on is None],
        damage=look.damage,
    )


def show_bed(
    path: Path,
    today: date,
    name: str,
    *,
    on: date | None = None,
    known_on: date | None = None,
    most: int | None = USUAL_ENTRIES,
) -> BedShown:
    """One bed by key or name.

    Parameters
    ----------
    path : Path
    today : date
    name : str
    on, known_on : date or None
        The day it is shown on, and what was known then.
    most : int or None
        Entries of its book, the newest; None for all.

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    look = look_at(path, on or today, known_on=known_on)
    garden, day = look.garden, look.day
    bed = bed_called(garden, name)
    outline = bed.outline
    standing = garden.standing(day, bed=bed.key)
    here = {each.key for each in standing}
    history = bed.history if most is None else bed.history[max(0, len(bed.history) - most) :]
    flow_known = ""
    if bed.flow_l_min is not None:
        rated = "by its emitters" if bed.rated_l_min is None else "rated"
        flow_known = rated if bed.measured_l_min is None else "measured"
    allowed = allowance_of(garden, bed, day)
    return BedShown(
        question="bed",
        today=today,
        on=day,
        known_on=known_on,
        key=bed.key,
        name=bed.name,
        described=bed.described,
        shape=bed.shape,
        x_m=None if outline is None else outline.x_m,
        y_m=None if outline is None else outline.y_m,
        width_m=None if outline is None else outline.width_m,
        length_m=None if outline is None else outline.length_m,
        turn_deg=None if outline is None else outline.turn_deg,
        area_m2=bed.area_m2,
        height_m=bed.height_m,
        depth_m=bed.depth_m,
        soil=bed.soil,
        mulch=bed.mulch,
        inside=_name(garden, bed.inside),
        shaded_by=[_name(garden, each) for each in bed.shaded_by],
        flow_l_min=bed.flow_l_min,
        flow_known=flow_known,
        rated_l_min=bed.rated_l_min,
        week_allowance_l=bed.week_allowance_l,
        week_left_l=None if allowed is None else round(allowed.left_l(), 1),
        allowance="" if allowed is None else allowed.words(),
        made_on=bed.made_on,
        gone_on=bed.gone_on,
        gone_why=bed.gone_why,
        opened=bed.opened,
        batches=dict(bed.batches),
        minutes=bed.minutes,
        locks=lock_lines(garden, day, bed=bed.key, words=look.words),
        standing=[planting_shown(look, each) for each in standing],
        stood=_stood(look, bed.key, here),
        covers=[_cover(each) for each in garden.covers(bed=bed.key)],
        watered=_watered(garden, bed.key),
        last=dict(bed.last),
        entries=book_lines(look, list(history)),
        earlier=len(bed.history) - len(history),
        damage=look.damage,
    )


def _row(look: Look, bed: Bed) -> BedRow:
    garden, day = look.garden, look.day
    outline = bed.outline
    return BedRow(
        key=bed.key,
        name=bed.name,
        shape=bed.shape,
        width_m=None if outline is None else outline.width_m,
        length_m=None if outline is None else outline.length_m,
        area_m2=bed.area_m2,
        soil=bed.soil,
        inside=_name(garden, bed.inside),
        gone_on=bed.gone_on,
        standing=_together(planting_name(each, look.words) for each in garden.standing(day, bed=bed.key)),
        covers=[each.item for each in garden.covers(bed=bed.key)],
        watered_on=bed.last.get("watered"),
        locks=lock_lines(garden, day, bed=bed.key, words=look.words),
    )


def _together(names: Iterable[str]) -> list[str]:
    """Names, those there more than once with their number: "peas ×2"."""
    return [name if count == 1 else f"{name} ×{count}" for name, count in Counter(names).items()]


def _name(garden: Garden, key: str) -> str:
    return garden.beds[key].name if key in garden.beds else key


def _cover(placed: Placed) -> CoverShown:
    return CoverShown(
        item=placed.item,
        planting=placed.planting,
        length_m=placed.length_m,
        pieces=placed.pieces,
        assumed=placed.assumed,
        since=placed.since,
        opened=placed.opened,
    )


def _watered(garden: Garden, bed: str) -> WateredShown | None:
    found = garden.waterings(bed)
    if not found:
        return None
    return WateredShown(on=found[-1].on, litres=found[-1].litres, depth_mm=found[-1].depth_mm)


def _stood(look: Look, bed: str, here: set[str]) -> list[StoodShown]:
    """What stood there and stands no more, by year; what stands over years shows in its earlier years."""
    garden = look.garden
    families = {
        crop: load_sheet(crop).family
        for crop in {each.crop for each in garden.plantings.values()}
        | {each.crop for each in garden.told_before}
        if crop in keys()
    }
    return [
        StoodShown(
            year=each.year,
            crop=each.crop,
            name=crop_word(each.crop, look.words, many=True),
            family=each.family,
            planting=each.planting,
        )
        for each in garden.before(bed, families)
        if each.planting not in here or each.year < look.day.year
    ]
