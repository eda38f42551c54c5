"""Ground for the plants that wait in trays: they go before anything that is only seed."""

from __future__ import annotations

from typing import Final
from weakref import WeakKeyDictionary

import numpy as np

from spadework.advice.free_places import Place, cut_from, free_places
from spadework.advice.raising import days_until, out_size_days, raised, standing_plants
from spadework.advice.scene import Plot, Scene

KEPT_DAYS: Final = 21
"""Ground is kept for plants that are fit to go out within these days. Our own rule."""

_FOUND: WeakKeyDictionary[Scene, tuple[dict[str, Place], tuple[Place, ...]]] = WeakKeyDictionary()


def tray_places(scene: Scene) -> tuple[dict[str, Place], tuple[Place, ...]]:
    """Ground by the tray's planting, and what is left free."""
    found = _FOUND.get(scene)
    if found is None:
        found = _FOUND[scene] = _find(scene)
    return found


def _find(scene: Scene) -> tuple[dict[str, Place], tuple[Place, ...]]:
    left = list(free_places(scene))
    waiting = []
    for plot in raised(scene):
        size = out_size_days(plot.sheet)
        if size is not None and plot.bed is not None:
            days = float(np.median(days_until(plot, size)))
            if days <= KEPT_DAYS:
                waiting.append((days, plot.key, plot))
    kept: dict[str, Place] = {}
    for _, key, plot in sorted(waiting, key=lambda each: each[:2]):
        try:
            place, left = cut_from(
                left, plot.sheet, _ground_m2(plot), scene.today, prefer_inside=plot.sheet.season == "warm"
            )
        except LookupError:
            continue
        kept[key] = place
    return kept, tuple(left)


def _ground_m2(plot: Plot) -> float:
    sowing = plot.sheet.sowing
    each = sowing.row_cm.value * (plot.planting.spacing_cm or sowing.in_row_cm.value) / 1e4
    return max(standing_plants(plot), 1) * each
