"""How much of what a planting takes: its room in the bed, its plants, its seed, its weeks on the shelf."""

from __future__ import annotations

import math
from datetime import date, timedelta
from functools import cache
from typing import Final

from spadework.crops.forms import with_form
from spadework.crops.loader import load_sheet
from spadework.crops.names import find
from spadework.crops.sheet import Sheet
from spadework.garden.entries import Block
from spadework.garden.geometry import plants_at_spacing
from spadework.usecases.demo.script import Perennial, Row

BED_WIDTH_M: Final = 1.2
TUB_WIDTH_M: Final = 0.6


@cache
def sheet_of(crop: str, variety: str) -> Sheet:
    """The sheet of a crop, or of one of its forms."""
    sheet = load_sheet(find(crop))
    return with_form(sheet, "variety", variety) if variety in sheet.varieties else sheet


def tray_day(row: Row, year: int) -> date:
    """The first day a raised planting may be sown on the shelf."""
    weeks = sheet_of(row.crop, row.variety).sowing.weeks_to_set_out
    assert weeks is not None, row.id
    return row.first_day(year) - timedelta(days=round(7 * weeks.value))


def spacing_of(row: Row) -> float:
    """Between plants in the row, in the end.  [cm]"""
    return row.spacing_cm or row.thin_cm or sheet_of(row.crop, row.variety).sowing.in_row_cm.value


def seeds_of(row: Row) -> int:
    """Seeds, sets or tubers that go in."""
    sheet = sheet_of(row.crop, row.variety)
    plants = fit(row, spacing_of(row))
    if row.raised:
        return max(4, math.ceil(plants * 1.7))
    return row.seeds or math.ceil(plants * (4.0 if row.thin_cm else 1.5 if _seeded(sheet) else 1.0))


def _seeded(sheet: Sheet) -> bool:
    return sheet.sowing.seeds_per_gram is not None and sheet.sowing.seed_size == "small"


def fit(row: Row, spacing_cm: float) -> int:
    """Plants that fit its block."""
    return plants_at_spacing(
        1.0, row.length_m, row_cm=row.row_cm, spacing_cm=spacing_cm, rows=row.rows
    ).plants


def block_of(row: Row | Perennial) -> Block:
    """Where in its bed it stands: across the whole width, from metre to metre along it."""
    width_m = TUB_WIDTH_M if row.bed.startswith("tub") else BED_WIDTH_M
    return Block(along_m=round(row.along[0], 2), width_m=width_m, length_m=round(row.length_m, 2))


def area_m2(row: Row | Perennial) -> float:
    """The ground of its block.  [m2]"""
    block = block_of(row)
    return round(block.width_m * block.length_m, 3)


def hoops_for(row: Row) -> int:
    """Hoops that hold its mesh up, one every three quarters of a metre; fleece lies on the plants."""
    return round(row.length_m / 0.75) + 1 if row.cover == "insect mesh" else 0
