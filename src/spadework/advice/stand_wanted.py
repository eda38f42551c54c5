"""How many plants make a full stand, and how much seed that takes."""

from __future__ import annotations

import math
from typing import Final

from spadework.advice.again_belief import wanted_by_default
from spadework.clock.sprout import able_share
from spadework.crops.sheet import Sheet
from spadework.garden.planting import Planting
from spadework.garden.records import SeedLot

SPARE: Final = 1.3
"""Seeds sown for each that is needed to come up. Source: common-practice: some always go to slugs, birds and
a foot."""


def germination_of(lot: SeedLot | None) -> float | None:
    """Share of a lot that germinates, as tested; None where it was not."""
    return None if lot is None or lot.germination is None else lot.germination.share


def row_m(planting: Planting, sheet: Sheet) -> float | None:
    """Metres of row of a planting, as said or by its ground; None where neither is known."""
    if planting.rows is not None and planting.row_length_m is not None:
        return planting.rows * planting.row_length_m
    if planting.area_m2 is not None:
        return planting.area_m2 / ((planting.row_cm or sheet.sowing.row_cm.value) / 100.0)
    return None


def plants_wanted(planting: Planting, sheet: Sheet, germination: float | None) -> int | None:
    """Plants that make a full stand: by the room they want, and no more than the seed could give.

    Parameters
    ----------
    planting : Planting
    sheet : Sheet
    germination : float or None
        Of the lot, 0 to 1.
    """
    metres, seeds = row_m(planting, sheet), planting.seeds
    by_room = (
        None if metres is None else metres * 100.0 / (planting.spacing_cm or sheet.sowing.in_row_cm.value)
    )
    by_seed = None if not seeds else wanted_by_default(sheet, seeds, germination)
    both = [each for each in (by_room, by_seed) if each is not None]
    return max(round(min(both)), 1) if both else None


def seeds_per_m(sheet: Sheet, germination: float | None = None, *, spacing_cm: float | None = None) -> float:
    """Seeds for a metre of row, so that enough come up to choose from.

    Parameters
    ----------
    sheet : Sheet
    germination : float or None
        Of the lot, 0 to 1; None for the sheet's usual lot.
    spacing_cm : float or None  [cm]
        Between the plants that are to stand; None for the sheet's.
    """
    return 100.0 / (spacing_cm or sheet.sowing.in_row_cm.value) / able_share(sheet, germination) * SPARE


def whole_seeds(number: float) -> int:
    """A number of seeds a person would count out: by ones, fives or tens."""
    step = 1 if number < 20 else 5 if number < 100 else 10
    return max(step * math.ceil(number / step - 1e-9), 1)
