"""Keep a sowing damp: the top 2 cm dries in hours, and seed that has begun to sprout cannot wait."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import Condition, Job, Take
from spadework.advice.odds import Fact
from spadework.advice.raising import in_tray, net_of_buying
from spadework.advice.scene import Plot, Scene
from spadework.advice.seedbed import (
    DRY_DAY,
    FEW_LEFT,
    Drying,
    drying,
    lost_by_drying,
    net_of_sowing_again,
    still_to_come,
    uncounted,
)
from spadework.advice.waiting import window_of
from spadework.clock.dose import CAN_L, dose
from spadework.garden.entries import Watered

DRINK_MM: Final = 2.0
"""Water for a seed row at a time [mm]: wets the top 2 cm through without a crust. Source: common-practice."""

DEEPEST_MM: Final = 25.0
"""Seed below this lies under the layer that dries in a day [mm]. Our own rule."""

LID_SHELTER: Final = 0.35
"""Drying under a board or sacking over that of bare soil. Source: memory."""

INDOORS_SHELTER: Final = 0.35
"""Drying of a tray in a room over that under film outside: no sun and no wind. Source: memory."""

CELL_M2: Final = 0.0025
"""Ground of a seed sown in a tray [m2]: a cell of 5 cm. Source: common-practice."""

LID_WORDS: Final = ("board", "sacking", "lid")
"""What a lid over seed is called in the book."""

MOST_TIMES: Final = 3
"""Nobody waters a row more often in a day. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Sowings in beds that are to be kept damp today."""
    for plot in uncounted(scene):
        if plot.bed is None or plot.bed.area_m2 is None or not near_surface(plot):
            continue
        if float(still_to_come(plot)[:, 0].mean()) < FEW_LEFT:
            continue
        shelter = INDOORS_SHELTER if plot.indoors else LID_SHELTER if lid_on(plot) else 1.0
        found = drying(scene, plot, shelter)
        wanted = min(int(np.ceil(np.median(found.times[:, 0]))), MOST_TIMES)
        given = len(
            [
                each
                for each in scene.garden.waterings(plot.bed_key, since=scene.today)
                if each.planting in ("", plot.key)
            ]
        )
        if wanted > given:
            yield _damp(scene, plot, found, wanted, given)


def near_surface(plot: Plot) -> bool:
    """Whether it is seed that lies where the top dries: no tubers and sets, and nothing sown deep."""
    planting = plot.planting
    depth = plot.sheet.sowing.depth_mm.value if planting.depth_mm is None else planting.depth_mm
    method = planting.method or plot.sheet.propagation[0]
    return depth <= DEEPEST_MM and method not in ("sets", "tubers", "cloves", "crowns", "slips")


def lid_on(plot: Plot) -> bool:
    """Whether a board or sacking lies over it."""
    return any(any(word in placed.item.casefold() for word in LID_WORDS) for placed in plot.covers)


def _hours(*, inside: bool, once: bool) -> tuple[Condition, ...]:
    """What an hour must be like: once a day not in strong sun, and outside never in frost."""
    found: tuple[Condition, ...] = ("daylight", "not in strong sun") if once else ("daylight",)
    return found if inside else (*found, "not freezing")


def _damp(scene: Scene, plot: Plot, found: Drying, wanted: int, given: int) -> Job:
    assert plot.bed is not None
    lost = lost_by_drying(plot, found.times)
    loss = net_of_buying(scene, plot, lost) if in_tray(plot) else net_of_sowing_again(scene, plot, lost)
    area = min(plot.planting.area_m2 or plot.bed.area_m2 or 1.0, plot.bed.area_m2 or 1.0)
    if plot.indoors and plot.planting.seeds:
        area = min(area, plot.planting.seeds * CELL_M2)
    drink = dose(plot.bed, max(DRINK_MM, found.store_mm), area)
    litres = 0.0 if drink is None else drink.litres
    each_min = scene.pace.minutes("damp", litres)
    left = wanted - given
    hours = float(np.median(found.hours))
    dries = "lasts until tomorrow" if not np.isfinite(hours) else f"dries in about {max(hours, 0.5):.0f} h"
    years = scene.years
    dry = int(np.count_nonzero(found.times[:, 0] > 0.0))
    if dry == years:
        rain = "no rain reaches it" if plot.indoors else "no rain will do it today"
    else:
        rain = f"rain will do it today in {years - dry} of {years} years"
    come = float(still_to_come(plot)[:, 0].mean())
    tenths = max(round(come * 10), 1)
    coming = "none of it is up yet" if tenths >= 10 else f"{tenths} in 10 are still to come"
    amount = f"{litres:.0f} l" if litres >= 1.0 else "a little water"
    often = {1: "", 2: " and again later today", 3: " and twice more today"}[left]
    return Job(
        id=f"keep-damp-{plot.key}" + (f"-{given + 1}" if given else ""),
        kind="keep damp",
        act=f"Keep the {plot.name} in {plot.where} damp: {amount} now{often}",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=each_min * left,
        worth=plot.worth.value,
        loss=loss,
        window=window_of(loss, found.times > 0.0, scene.today, scene.made),
        reason=f"The top 2 cm {dries}, {rain}, and {coming}.",
        facts=(
            Fact(
                name="hours until the top 2 cm is too dry",
                value=None if not np.isfinite(hours) else round(hours, 1),
                unit="h",
                law="drying of a bare seed row",
                source="memory",
            ),
            Fact(
                name="waterings wanted today",
                value=float(wanted),
                law="drying of a bare seed row",
                source="memory",
            ),
            Fact(
                name="share of the seed still to come",
                value=round(come, 2),
                law="emergence by soil warmth",
                source=plot.sheet.emergence.sum_cd.receipt,
            ),
            Fact(name="seed on its way killed by a dry day, share", value=DRY_DAY, source="memory"),
        ),
        needs=_hours(inside=plot.indoors, once=left == 1),
        strains=("lifting",) if litres > CAN_L / 2 else (),
        load_kg=min(litres, CAN_L),
        take=(Take(what="can with a fine rose", litres=round(litres, 1) if litres >= 1.0 else None),),
        test="Scratch the row with a finger: it should be dark a nail's depth down.",
        done=(Watered(litres=round(litres, 2)),),
        settles=f"damp:{plot.key}",
    )
