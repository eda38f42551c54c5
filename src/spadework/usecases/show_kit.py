"""The kit: what is owned, where each piece is, what is free."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.garden.records import KitItem
from spadework.garden.state import Garden
from spadework.usecases.look import look_at
from spadework.usecases.show_plantings import planting_name


class PlaceShown(msgspec.Struct, frozen=True, kw_only=True):
    """Where some of a piece of kit is."""

    bed: str
    bed_name: str
    planting: str
    length_m: float | None
    pieces: int | None
    assumed: bool
    since: date
    opened: bool


class KitShown(msgspec.Struct, frozen=True, kw_only=True):
    """One piece of kit.

    Parameters
    ----------
    free_m, free_pieces : number or None
        Below zero where more is out than there is.
    holds : list of str
        What stands in it, of a tray.
    """

    item: str
    described: bool
    sort: str
    grade: str
    length_m: float | None
    width_m: float | None
    pieces: int | None
    free_m: float | None
    free_pieces: int | None
    places: list[PlaceShown]
    holds: list[str]


class KitList(msgspec.Struct, frozen=True, kw_only=True):
    """All kit."""

    question: str
    today: date
    on: date
    known_on: date | None
    kit: list[KitShown]
    damage: str = ""


def list_kit(
    path: Path,
    today: date,
    *,
    item: str = "",
    on: date | None = None,
    known_on: date | None = None,
) -> KitList:
    """All kit on a day, or one piece by name.

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    look = look_at(path, on or today, known_on=known_on)
    garden = look.garden
    found = [garden.item(item)] if item else list(garden.kit.values())
    shown = [
        _shown(garden, each, [planting_name(garden.plantings[key], look.words) for key in each.holds])
        for each in found
    ]
    return KitList(
        question="kit",
        today=today,
        on=look.day,
        known_on=known_on,
        kit=shown,
        damage=look.damage,
    )


def by_bed(found: KitList) -> KitList:
    """The same with what lies on several plantings of one bed told once, of the bed."""
    return msgspec.structs.replace(found, kit=[_together(each) for each in found.kit])


def _together(item: KitShown) -> KitShown:
    """With each bed named once, and all that lies on it summed."""
    beds: dict[str, PlaceShown] = {}
    for each in item.places:
        there = beds.get(each.bed)
        if there is None:
            beds[each.bed] = msgspec.structs.replace(each, planting="")
            continue
        beds[each.bed] = msgspec.structs.replace(
            there,
            length_m=_sum(there.length_m, each.length_m),
            pieces=None if there.pieces is None or each.pieces is None else there.pieces + each.pieces,
            assumed=there.assumed or each.assumed,
            since=min(there.since, each.since),
            opened=there.opened or each.opened,
        )
    return msgspec.structs.replace(item, places=list(beds.values()))


def _sum(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else round(one + other, 6)


def _shown(garden: Garden, item: KitItem, holds: list[str]) -> KitShown:
    free_m = item.free_m
    return KitShown(
        item=item.item,
        described=item.described,
        sort=item.sort,
        grade=item.grade,
        length_m=item.length_m,
        width_m=item.width_m,
        pieces=item.pieces,
        free_m=None if free_m is None else round(free_m, 6),
        free_pieces=item.free_pieces,
        places=[
            PlaceShown(
                bed=each.bed,
                bed_name=garden.beds[each.bed].name if each.bed in garden.beds else each.bed,
                planting=each.planting,
                length_m=None if each.length_m is None else round(each.length_m, 6),
                pieces=each.pieces,
                assumed=each.assumed,
                since=each.since,
                opened=each.opened,
            )
            for each in item.placed
        ],
        holds=holds,
    )
