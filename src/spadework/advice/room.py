"""Room in a sown row: how many stand, how many are to stay, and when they begin to crowd each other."""

from __future__ import annotations

from typing import Final

import numpy as np

from spadework.advice.scene import Plot
from spadework.advice.stand_wanted import row_m
from spadework.crops.sheet import Sheet
from spadework.garden.entries import Sown
from spadework.garden.planting import Planting
from spadework.science import crowding
from spadework.types import Floats

LEAFY: Final = ("leaf", "head", "herb", "stem", "flower", "fruit", "pod", "grain")
"""Kinds whose thinning bears with more delay than that of roots and bulbs."""

GAIN: Final = {"root": 0.7, "bulb": 0.6, "head": 0.7, "leaf": 0.35, "herb": 0.3}
GAIN_OTHER: Final = 0.5
"""Share of the crop lost in a row never thinned that stands very much too thick. Source: memory, of unthinned
roots that stay thin and heads that never close."""


def final_cm(sheet: Sheet, planting: Planting) -> float:
    """Distance wanted in the end [cm]: as told with the sowing, else the usual one, within its range."""
    section = sheet.thin
    assert section.in_row_small_cm is not None
    assert section.in_row_large_cm is not None
    small, large = section.in_row_small_cm.value, section.in_row_large_cm.value
    # the distance of an earlier pass goes before that of the sowing in the planting itself
    sown = (entry.act.spacing_cm for entry in planting.history if isinstance(entry.act, Sown))
    told = next((cm for cm in sown if cm is not None), None)
    wanted = told if told is not None and told >= small else sheet.sowing.in_row_cm.value
    return min(max(wanted, small), large)


def metres(plot: Plot) -> float | None:
    """Metres of row; None where nobody knows."""
    return row_m(plot.planting, plot.sheet)


def per_m(plot: Plot) -> float | None:
    """Plants that stand on a metre of row; None where nobody knows."""
    length = metres(plot)
    if plot.plants is None or not length:
        return None
    return plot.plants / length


def crowded_from(plot: Plot, standing_per_m: float) -> Floats:
    """Days from today until neighbours begin to take from each other, below zero where they do, [year].

    Notes
    -----
    Leaves of plants scattered along the row fill half of the strip a full-grown plant covers.
    """
    spread = plot.sheet.room.spread_cm.value
    cover_from = plot.sheet.room.cover_from
    full = 0.5 if cover_from is None else cover_from.value
    width = crowding.spread_on_way_cm(plot.course.way, spread, full)
    strip_m2 = standing_per_m / (spread / 100.0)
    cover = crowding.leaf_cover_share(np.nan_to_num(width), strip_m2, scattered=True)
    over = np.maximum.accumulate(cover >= crowding.CROWDED_FROM_SHARE, axis=-1)
    first = np.where(over.any(axis=-1), np.argmax(over, axis=-1), cover.shape[1])
    found: Floats = first.astype(np.float64) - plot.column
    return found


def slack_days(sheet: Sheet) -> float:
    """How long past crowding thinning still gains much [d]."""
    return crowding.LEAF_THINNING_DAYS if sheet.kind in LEAFY else crowding.ROOT_THINNING_DAYS


def gain_share(sheet: Sheet, standing_per_m: float, wanted_per_m: float) -> float:
    """Share of the crop that never thinning a row would cost, 0 where no more stand than are wanted."""
    if standing_per_m <= wanted_per_m:
        return 0.0
    return GAIN.get(sheet.kind, GAIN_OTHER) * (1.0 - wanted_per_m / standing_per_m)
