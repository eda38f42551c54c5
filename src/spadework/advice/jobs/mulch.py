"""Mulch: over damp soil once it is warm and plants stand clear, where drought is likely to cost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.odds import Caution, Fact, odds_of
from spadework.advice.scene import Scene
from spadework.advice.waiting import ahead, never_falling, window_of
from spadework.garden.entries import Tended
from spadework.garden.records import Bed

WARM_SOIL_C: Final = 15.0
"""Soil warmth from which a mulch no longer holds a bed back. Source: common-practice."""

CLEAR_CM: Final = 10.0
"""Plants stand clear of a mulch from this height. Source: common-practice."""

DEPTH_CM: Final = 5.0
"""Laid so deep. Source: common-practice."""

SAVES: Final = 0.35
"""Share of a bed's dry days that a mulch takes away: it halves what bare soil loses, and leaves take the
rest. Source: memory."""

DRY_DAY_LOSS: Final = 0.01
"""Share of the crop a day of drought costs where nobody comes to water. Source: memory."""

UNWATERED: Final = 0.5
"""Share of dry days on which nobody does. Source: memory."""

GROWN: Final = 0.8
"""Share of the way to ready from which a mulch is left until the next crop. Our own rule."""

MULCH = Caution(
    "Use clean stuff only: no clippings, straw, hay or manure from ground treated with lasting "
    "weedkiller, and wear a mask where it is dusty or mouldy.",
    "common-practice",
)


def jobs(scene: Scene) -> Iterator[Job]:
    """Beds to mulch, one job for each."""
    for bed in scene.beds.values():
        if bed.area_m2 is None or bed.gone_on is not None or bed.mulch or bed.shape == "shelf":
            continue
        job = _mulch(scene, bed, bed.area_m2)
        if job is not None:
            yield job


def _mulch(scene: Scene, bed: Bed, area_m2: float) -> Job | None:
    plots = [plot for plot in scene.in_bed(bed.key) if float(plot.course.way[:, plot.column].mean()) < GROWN]
    water = scene.water_of(bed.key)
    if not plots or water is None or len(plots) < len(scene.in_bed(bed.key)):
        return None
    heights = np.stack([ahead(plot.course.height_cm, plot.column) for plot in plots])
    soil = ahead(scene.ground.soil_mean_c, scene.column)
    may = (np.min(heights, axis=0) >= CLEAR_CM) & (soil >= WARM_SOIL_C)
    if not float(np.mean(may[:, :8].any(axis=1))) >= 0.5:
        return None
    depletion, readily = ahead(water.depletion_mm, scene.column), ahead(water.readily_mm, scene.column)
    dry = np.nan_to_num(depletion) > np.nan_to_num(readily, nan=np.inf)
    # laid on a later day it can only save the dry days after that
    lost = np.concatenate([np.zeros((dry.shape[0], 1)), np.cumsum(dry, axis=-1)[:, :-1]], axis=1)
    loss = never_falling(lost * SAVES * DRY_DAY_LOSS * UNWATERED)
    worth = sum(plot.worth.value for plot in plots)
    dry_days = dry[:, 1:].sum(axis=1)
    litres = area_m2 * DEPTH_CM * 10.0
    warm = float(np.median(soil[:, 0]))
    some = odds_of((dry_days >= 3).astype(np.float64), scene.made)
    return Job(
        id=f"mulch-{bed.key}",
        kind="mulch",
        act=f"Mulch {bed.name} with straw",
        bed=bed.key,
        minutes=scene.pace.minutes("mulch", area_m2),
        worth=worth,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=(
            f"Without water it is short on three or more of the next {AHEAD_DAYS} days in "
            f"{some.years_yes} of {some.years} years, and its soil is at {warm:.0f} °C. Weed first, "
            f"water if it is dry, then lay "
            f"{DEPTH_CM:.0f} cm, about {litres:.0f} l, clear of the stems."
        ),
        facts=(
            Fact(
                name="days short of water in the next three weeks, at the middle of the years",
                value=float(np.median(dry_days)),
                unit="day",
                law="water of the root zone",
                source="computed",
            ),
            Fact(
                name="soil at 5 cm today",
                value=round(warm, 1),
                unit="degC",
                law="soil warmth",
                source="computed",
            ),
            Fact(name="dry days a mulch takes away, share", value=SAVES, source="memory"),
        ),
        cautions=(MULCH,),
        needs=("daylight",),
        strains=("stooping", "lifting"),
        load_kg=8.0,
        take=(Take(what="straw, or leaf mould or compost", litres=round(litres)),),
        test="Push a finger in: mulch only where it comes out damp.",
        done=(Tended(act="mulched", material="straw", depth_cm=DEPTH_CM),),
        settles=f"mulch:{bed.key}",
    )
