"""What a planting is worth to a kitchen when all goes well, in kilograms of carrots."""

from __future__ import annotations

from typing import Final

from spadework.advice.scene import Worth
from spadework.crops.sheet import Sheet
from spadework.garden.planting import Planting
from spadework.garden.records import Bed

DEFAULT_AREA_M2: Final = 1.0
"""Room of a planting nobody gave a size, in a bed nobody described. Our own rule."""


def worth_of(sheet: Sheet, planting: Planting, bed: Bed | None) -> Worth:
    """The worth of a planting: its metres of row, what a metre gives, and what a kilogram is worth.

    Parameters
    ----------
    sheet : Sheet
        With the garden's own numbers: `harvest.yield_kg_m` and `use.worth_kg` can both be set.
    planting : Planting
        Its area, or its rows and their length, decide.
    bed : Bed or None
        Its whole area counts where the planting's is not known.

    Returns
    -------
    Worth
        With the class and source of the yield, or `grower` where either number is the garden's own.
    """
    usual, worth = sheet.harvest.yield_kg_m, sheet.use.worth_kg
    kg = _row_m(sheet, planting, bed) * usual.value
    own = next((value for value in (worth, usual) if value.provenance == "grower"), usual)
    return Worth(value=kg * worth.value, kg=kg, provenance=own.provenance, source=own.source)


def value_kg_m2(sheet: Sheet) -> float:
    """Worth of a square metre of a crop that goes well, in kilograms of carrots  [m-2]."""
    row_m = 100.0 / sheet.sowing.row_cm.value
    return row_m * sheet.harvest.yield_kg_m.value * sheet.use.worth_kg.value


def area_of(planting: Planting, bed: Bed | None) -> float:
    """Room a planting takes  [m2]."""
    if planting.area_m2 is not None:
        return planting.area_m2
    return DEFAULT_AREA_M2 if bed is None or bed.area_m2 is None else bed.area_m2


def _row_m(sheet: Sheet, planting: Planting, bed: Bed | None) -> float:
    """Metres of row; rows wider apart than the sheet's give no more than their own length."""
    if planting.rows and planting.row_length_m:
        return planting.rows * planting.row_length_m
    return area_of(planting, bed) / (sheet.sowing.row_cm.value / 100.0)
