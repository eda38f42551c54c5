"""Ground for a planting that is yet to be: its rows, their length, and the free place that holds them."""

from __future__ import annotations

from datetime import date
from typing import Final, TypeAlias

from spadework.crops.loader import load_sheet
from spadework.crops.names import keys
from spadework.garden.blocks import area_m2
from spadework.garden.entries import Block
from spadework.garden.places import Laid, Room, place_for, plant_places
from spadework.garden.planting import Planting, Plants
from spadework.garden.records import Bed
from spadework.garden.state import Garden

Ground: TypeAlias = tuple[int, float, Block | None, bool]
"""Rows, length of a row [m], the ground they take, and whether they run across the bed."""

LEAST_M2: Final = 0.1
"""Less free ground than this is not spoken of. Our own rule."""

_EVEN: Final = 1e-9


def ground_for(
    garden: Garden,
    bed: Bed,
    on: date,
    row_cm: float,
    spacing_cm: float,
    *,
    said_rows: int | None,
    number: int | None,
    length_m: float | None,
    at: tuple[float | None, float | None],
) -> Ground:
    """Rows, their length, the ground they take, and whether they run across the bed.

    Parameters
    ----------
    garden : Garden
    bed : Bed
    on : date
    row_cm, spacing_cm : float  [cm]
    said_rows, number, length_m : number or None
        Rows, plants and length of a row where they were said.
    at : (float or None, float or None)  [m]
        Where it begins, across the bed and along it; None where that was not said.
    """
    outline = bed.outline
    if outline is None:
        return said_rows or 1, length_m or 1.0, None, False
    usual, standing = usual_rooms(garden), garden.standing(on, bed=bed.key)
    free = garden.free_ground(bed.key, on, usual)
    stretch = max(free.stretches, key=area_m2) if free is not None and free.stretches else None
    wide, long = (
        (outline.width_m, outline.length_m) if stretch is None else (stretch.width_m, stretch.length_m)
    )
    nothing: Ground | None = None
    for across in (False, True):
        side, run = (long, wide) if across else (wide, long)
        rows = said_rows or max(1, int(side * 100.0 / row_cm + _EVEN))
        length = length_m or run
        if number is not None and length_m is None:
            if said_rows is None:
                rows = min(rows, number)
            length = min(max(-(-number // rows) * spacing_cm / 100.0, 0.05), max(run, spacing_cm / 100.0))
            if said_rows is None:
                in_row = max(1, int(length * 100.0 / spacing_cm + _EVEN))
                rows = min(rows, -(-number // in_row))
        deep = min(rows * row_cm / 100.0, side if rows == 1 else rows * row_cm / 100.0)
        size = (length, deep) if across else (deep, length)
        if at != (None, None):
            block = Block(
                across_m=at[0] or 0.0,
                along_m=at[1] or 0.0,
                width_m=round(size[0], 3),
                length_m=round(size[1], 3),
            )
            return rows, round(length, 3), block, across
        found = place_for(outline, standing, on, size[0], size[1], usual)
        if found is not None:
            return rows, round(length, 3), _rounded(found), across
        nothing = nothing or (rows, round(length, 3), None, False)
    assert nothing is not None
    return nothing


def _rounded(block: Block) -> Block:
    return Block(
        across_m=round(block.across_m, 3),
        along_m=round(block.along_m, 3),
        width_m=round(block.width_m, 3),
        length_m=round(block.length_m, 3),
    )


def places_in(
    crop: str,
    block: Block | None,
    rows: int,
    row_cm: float,
    spacing_cm: float,
    plants: int,
    *,
    across: bool,
) -> list[tuple[float, float]]:
    """Where each plant would stand in a block, across the bed and along it."""
    if block is None:
        return []
    planting = Planting(
        key=crop,
        crop=crop,
        started_on=date.min,
        rows=rows,
        row_cm=row_cm,
        spacing_cm=spacing_cm,
        rows_run="across" if across else "along",
        plants=Plants(),
        stages={},
        last={},
    )
    spots = plant_places(Laid(planting=crop, blocks=(block,)), planting, count=plants)
    return [(round(a, 3), round(b, 3)) for a, b in spots]


def usual_rooms(garden: Garden) -> dict[str, Room]:
    """Width of a full-grown plant of every crop the garden has, from its sheet, for what nobody said."""
    known = set(keys())
    found: dict[str, Room] = {}
    for crop in {each.crop for each in garden.plantings.values()} & known:
        spread_cm = load_sheet(crop).room.spread_cm.value
        found[crop] = (spread_cm, spread_cm)
    return found


def free_beds(garden: Garden, day: date) -> list[tuple[str, str, float]]:
    """Beds with free ground that no lock keeps: key, name and how much is free [m2], most first."""
    holders = {bed.inside for bed in garden.beds.values() if bed.inside}
    usual = usual_rooms(garden)
    found = []
    for key, bed in garden.beds.items():
        if bed.shape == "shelf" or key in holders or bed.gone_on is not None or not bed.described:
            continue
        free = garden.free_ground(key, day, usual)
        if free is None or free.unsized or garden.locks_on(day, bed=key, stops="planting"):
            continue
        if free.area_m2 >= LEAST_M2:
            found.append((key, bed.name, round(free.area_m2, 2)))
    return sorted(found, key=lambda each: -each[2])
