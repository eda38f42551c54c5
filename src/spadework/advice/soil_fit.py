"""Whether a bed can be worked: how much water still has to drain or dry, and what a squeezed handful said."""

from __future__ import annotations

from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS
from spadework.advice.scene import Scene
from spadework.clock.bed_ground import bed_ground
from spadework.garden.entries import SoilFelt
from spadework.garden.records import Bed
from spadework.types import Bools, Floats

DRAINS_MM_DAY: Final = {"sand": 20.0, "loam": 10.0, "clay": 5.0}
"""Water a bed's top sheds downward in a day  [mm d-1]. Source: memory; a raised bed of good structure does it
quicker, a trodden one slower, and a squeezed handful settles it."""

SPARE_MM: Final = 1.0
"""Water above what drains at which soil still crumbles. Our own rule."""

BACK_DAYS: Final = 30
"""Days before today that are looked at."""

FROZEN_C: Final = 0.5
"""Soil below this is not worked. Our own rule."""

SQUEEZE: Final = "Squeeze a handful and poke it: it should crumble; if it smears or stays a ball, wait."
"""The test in the hand."""


def to_drain_mm(scene: Scene, bed: Bed) -> Floats:
    """Water that has yet to drain or dry before a bed is fit, [year, AHEAD_DAYS + 1]  [mm]."""
    ground, column = scene.ground, scene.column
    days = ground.dates.size
    own = bed_ground(scene.garden, bed, ground, column, ())
    falling = np.broadcast_to(np.asarray(own.rain_share, dtype=np.float64), (days,))
    first, last = max(column - BACK_DAYS, 0), min(column + AHEAD_DAYS + 1, days)
    span = slice(first, last)
    rain = np.nan_to_num(ground.years.rain_mm[:, span]) * falling[span]
    gone = drains_mm_day(bed.soil) + np.nan_to_num(ground.et0_mm[:, span])
    running = np.cumsum(rain - gone, axis=-1)
    # what stays of a store that fills and empties but never falls below nothing
    lowest = np.minimum(np.minimum.accumulate(running, axis=-1), 0.0)
    store = running - lowest
    columns = np.minimum(column - first + np.arange(AHEAD_DAYS + 1), store.shape[1] - 1)
    found: Floats = store[:, columns]
    return found


def drains_mm_day(soil: str) -> float:
    """How quickly a soil sheds water, by its name."""
    words = soil.casefold()
    return DRAINS_MM_DAY["clay" if "clay" in words else "sand" if "sand" in words else "loam"]


def fit_days(scene: Scene, bed: Bed) -> Bools:
    """Days on which a bed can be worked, [year, AHEAD_DAYS + 1]; what was felt today goes before all."""
    columns = np.minimum(scene.column + np.arange(AHEAD_DAYS + 1), scene.ground.dates.size - 1)
    fit: Bools = (to_drain_mm(scene, bed) <= SPARE_MM) & (scene.ground.soil_mean_c[:, columns] > FROZEN_C)
    felt = squeezed_today(scene, bed)
    if felt:
        fit[:, 0] = felt == "crumbles"
    return fit


def squeezed_today(scene: Scene, bed: Bed) -> str:
    """What a handful did today: crumbles, holds or smears; empty where nobody squeezed one."""
    return next(
        (
            entry.act.squeeze
            for entry in reversed(bed.history)
            if entry.happened_on == scene.today and isinstance(entry.act, SoilFelt) and entry.act.squeeze
        ),
        "",
    )


def first_fit(fit: Bools) -> Floats:
    """Day from each day on which a bed is first fit, [year, day]; one past the last where it is not again."""
    days = np.arange(fit.shape[1], dtype=np.float64)[None, :]
    at = np.where(fit, days, float(fit.shape[1]))
    found: Floats = np.minimum.accumulate(at[:, ::-1], axis=-1)[:, ::-1]
    return found
