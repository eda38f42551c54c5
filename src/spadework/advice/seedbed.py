"""A sowing on its way up: how fast its row dries, and what is lost where it does."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.advice.again_belief import SEED_AND_HOUR_COST
from spadework.advice.job import AHEAD_DAYS
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import ahead, net_of, never_falling, or_start_anew
from spadework.advice.weigh_again import LATE_COST_PER_DAY
from spadework.clock.bed_ground import bed_ground
from spadework.clock.dose import seed_row
from spadework.crops.sheet import Sheet
from spadework.science import root_zone, watering
from spadework.types import Floats

LONGEST_DAYS: Final = 60
"""Days after sowing from which nobody waits for seedlings any more. Our own rule."""

DRY_DAY: Final = 0.15
"""Share of the seed on its way that a day of dryness kills. Source: memory; seed that has not begun to sprout
only waits."""

BEGUN: Final = (0.2, 0.5)
"""Shares of the way to half up between which a seed loses the gift of waiting. Source: memory."""

FOUND_OUT_DAYS: Final = 5
"""Days after a row should be up until it is held to have failed. Our own rule."""

FEW_LEFT: Final = 0.1
"""Share still to come below which a row is no longer looked after as a seed row. Our own rule."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Drying:
    """How a row's top dries in the coming days.

    Parameters
    ----------
    hours : array, shape (year,)  [h]
        From a watering today until it is too dry; infinite where it lasts until tomorrow.
    times : array, shape (year, AHEAD_DAYS + 1)
        Waterings wanted on each day; 0 where rain does it.
    store_mm : float  [mm]
        What the top holds for the seed.
    """

    hours: Floats
    times: Floats
    store_mm: float


def uncounted(scene: Scene) -> Iterator[Plot]:
    """Sowings that nobody has counted yet, in beds and on the shelf."""
    for plot in scene.plots:
        planting = plot.planting
        if (
            plot.course.sprout is not None
            and planting.set_out_on is None
            and planting.sown_on is not None
            and planting.plants.basis in ("", "seeds")
            and "ready" not in planting.stages
            and (scene.today - planting.grows_since).days <= LONGEST_DAYS
        ):
            yield plot


def still_to_come(plot: Plot) -> Floats:
    """Share of the seed able to come up that is not up yet, on each of the coming days, [year, day]."""
    assert plot.course.sprout is not None
    able = np.maximum(plot.course.sprout.able, 1e-6)[:, None]
    found: Floats = 1.0 - np.clip(ahead(plot.course.emerged, plot.column) / able, 0.0, 1.0)
    return found


def drying(scene: Scene, plot: Plot, shelter: float = 1.0) -> Drying:
    """How a row dries.

    Parameters
    ----------
    scene : Scene
    plot : Plot
        In a bed.
    shelter : float
        Loss under a lid over that in the open.
    """
    assert plot.bed is not None
    ground, column = scene.ground, scene.column
    water = scene.water_of(plot.bed_key)
    bed = bed_ground(scene.garden, plot.bed, ground, column, ())
    store = float(watering.seed_zone_store_mm(bed.soil.full.middle, bed.soil.wilting.middle))
    days = ground.dates.size
    columns = np.minimum(column + np.arange(AHEAD_DAYS + 1), days - 1)
    et0_share = np.broadcast_to(np.asarray(bed.et0_share, dtype=np.float64), (days,))[columns]
    falling = np.broadcast_to(np.asarray(bed.rain_share, dtype=np.float64), (days,))[columns]
    rain = np.nan_to_num(ground.years.rain_mm[:, columns]) * falling
    below: Floats | float = 0.0
    if water is not None:
        before = np.maximum(columns - 1, 0)
        below = np.nan_to_num(
            1.0 - np.clip(water.depletion_mm[:, before] / water.readily_mm[:, before], 0.0, 1.0)
        )
    times = watering.waterings_a_day(
        store,
        np.nan_to_num(ground.et0_mm[:, columns]),
        damp_below_share=below,
        shelter_factor=et0_share * root_zone.MULCH_FACTORS[bed.mulch] * shelter,
    )
    # water given or rain fallen yesterday evening is gone with the day: only today's rain saves a watering
    times = np.where(rain >= root_zone.SOAKING_RAIN_MM, 0.0, times)
    return Drying(hours=seed_row(ground, bed, water, column).hours / shelter, times=times, store_mm=store)


def lost_by_drying(plot: Plot, times: Floats) -> Floats:
    """Share of the row lost if nobody waters it before a day, [year, AHEAD_DAYS + 1]."""
    assert plot.course.sprout is not None
    low, high = BEGUN
    begun = np.clip((ahead(plot.course.sprout.progress, plot.column) - low) / (high - low), 0.0, 1.0)
    killed = DRY_DAY * (times > 0.0) * begun * still_to_come(plot)
    total = np.cumsum(killed, axis=-1) - killed
    found: Floats = np.minimum(total, still_to_come(plot)[:, :1])
    return found


def sown_again_share(scene: Scene, sheet: Sheet, behind_days: float, found_days: float = 0.0) -> Floats:
    """Share of a full crop that sowing again would still bring, [year, AHEAD_DAYS + 1].

    Parameters
    ----------
    scene : Scene
    sheet : Sheet
    behind_days : float  [d]
        Days by which it would come later than what is lost.
    found_days : float  [d]
        Days until the loss is seen and the row sown again.
    """
    anew = scene.start_anew(sheet)
    columns = np.minimum(np.arange(AHEAD_DAYS + 1) + round(max(found_days, 0.0)), AHEAD_DAYS)
    cost = SEED_AND_HOUR_COST + LATE_COST_PER_DAY * max(behind_days, 0.0)
    found: Floats = np.clip(anew[:, columns] * (1.0 - cost), 0.0, 1.0)
    return found


def net_of_giving_up(scene: Scene, plot: Plot, lost: Floats) -> Floats:
    """A loss of size less what giving the planting up and starting anew would save of it, [year, day]."""
    behind = (scene.today - plot.planting.started_on).days + np.arange(AHEAD_DAYS + 1)
    cost = np.minimum(SEED_AND_HOUR_COST + LATE_COST_PER_DAY * behind, 1.0)
    anew = scene.start_anew(plot.sheet) * (1.0 - cost)[None, :]
    return never_falling(or_start_anew(lost, anew))


def net_of_sowing_again(scene: Scene, plot: Plot, lost: Floats) -> Floats:
    """A row's loss less what sowing it again would still bring once the loss is seen."""
    assert plot.course.sprout is not None
    assert plot.planting.sown_on is not None
    remaining = max(float(np.median(plot.course.sprout.median_day)) - plot.column, 0.0)
    found = remaining + FOUND_OUT_DAYS
    behind = (scene.today - plot.planting.sown_on).days + found
    return never_falling(net_of(lost, sown_again_share(scene, plot.sheet, behind, found)))
