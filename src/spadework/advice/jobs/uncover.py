"""Covers that lie on: off for the day, off for good for bees or heat, or left on; one state for each bed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.odds import Fact
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import ahead, never_falling, window_of
from spadework.clock.cover import Cover
from spadework.clock.cover_kinds import cover_of
from spadework.clock.fate import YOUNG_UNTIL
from spadework.garden.entries import Moved
from spadework.garden.records import Bed, KitItem, Placed
from spadework.science.cover import chance_harmed
from spadework.types import Floats

State = Literal["on", "opened", "off"]

HOT_UNDER_C: Final = 30.0
"""Air under a cover that checks or scorches most young plants. Source: common-practice."""

HOT_SPREAD_C: Final = 3.0
HEAT_LOSS_A_DAY: Final = 0.04
"""Share of the worth lost by a day above that. Source: memory."""

BEES_LOSS_A_DAY: Final = 0.03
"""Share of the worth lost by a day in flower without bees. Source: memory."""

PESTS_LOSS_A_DAY: Final = 0.01
"""Share of the worth lost by a day without mesh while what it keeps out may fly. Source: memory; a look for
each pest is better."""

LEAST_CAUSE: Final = 0.2
"""Chance of heat or of open flowers from which a cover is in question at all. Our own rule."""

SPARES_BEES: Final = ("none", "self", "wind")
SEES_AHEAD_DAYS: Final = 3


@dataclass(frozen=True, kw_only=True)
class Standing:
    """A cover on a bed."""

    bed: Bed
    placed: Placed
    item: KitItem
    cover: Cover


def jobs(scene: Scene) -> Iterator[Job]:
    """Beds whose cover costs more than it saves today."""
    done: set[str] = set()
    for key, bed in scene.beds.items():
        plots = [plot for plot in scene.in_bed(key) if not plot.indoors]
        for placed in scene.garden.covers(bed=key):
            item = scene.garden.kit.get(placed.item)
            kind = None if item is None else cover_of(item.sort, item.grade, item.item)
            if item is None or kind is None or placed.opened or not plots or key in done:
                continue
            found = _uncover(scene, plots, Standing(bed=bed, placed=placed, item=item, cover=kind))
            if found is not None:
                done.add(key)
                yield found


def costs(scene: Scene, plots: list[Plot], cover: Cover) -> dict[State, Floats]:
    """What each state loses by each coming day, [year, AHEAD_DAYS + 1], as shares of the bed's worth."""
    worth = sum(plot.worth.value for plot in plots) or 1.0
    shape = (scene.years, AHEAD_DAYS + 1)
    heat, bees, frost = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    for plot in plots:
        share = plot.worth.value / worth
        heat += share * HEAT_LOSS_A_DAY * _hot(scene, cover)
        bees += share * BEES_LOSS_A_DAY * _in_flower(plot)
        frost += share * _frost_saved(scene, plot, cover)

    def summed(by_day: Floats) -> Floats:
        return np.cumsum(by_day, axis=-1)

    meshed = PESTS_LOSS_A_DAY if cover.night_c <= 0.5 else 0.0
    # opened for the day it keeps the nights' gain; off for good costs frost and the pests it kept out
    return {
        "on": summed(heat + bees),
        "opened": summed(0.2 * bees + 0.5 * meshed),
        "off": summed(frost + meshed),
    }


def _hot(scene: Scene, cover: Cover) -> Floats:
    from scipy.special import ndtr

    sun = ahead(scene.ground.solar_mj, scene.column)
    usual = max(float(np.nanmean(sun)), 1.0)
    inside = ahead(scene.ground.years.tmax_c, scene.column) + max(cover.day_c, 0.0) * sun / usual
    found: Floats = ndtr((inside - HOT_UNDER_C) / HOT_SPREAD_C)
    return found


def _in_flower(plot: Plot) -> Floats:
    bees = plot.sheet.bees
    if bees.needs in SPARES_BEES or bees.uncover == "no":
        return np.zeros((plot.course.way.shape[0], AHEAD_DAYS + 1))
    flowering = ahead(plot.course.flowering, plot.column)
    if "first flower" in plot.planting.stages or "first female flower" in plot.planting.stages:
        return np.ones_like(flowering)
    return flowering


def _frost_saved(scene: Scene, plot: Plot, cover: Cover) -> Floats:
    if cover.night_c <= 0.0:
        return np.zeros((scene.years, AHEAD_DAYS + 1))
    nights = ahead(scene.ground.years.tmin_c, scene.column + 1)
    young = float(plot.course.way[:, plot.column].mean()) < YOUNG_UNTIL
    limit = (plot.sheet.frost.young_kill_c if young else plot.sheet.frost.kill_c).value
    bare, kept = (chance_harmed(nights, limit, night_gain_c=gain) for gain in (None, cover.night_c))
    anew = np.clip(scene.start_anew(plot.sheet), 0.0, 1.0)
    found: Floats = np.maximum(bare - kept, 0.0) * (1.0 - anew)
    return found


def _uncover(scene: Scene, plots: list[Plot], on: Standing) -> Job | None:
    by_state = costs(scene, plots, on.cover)
    sums = {state: float(loss[:, SEES_AHEAD_DAYS].mean()) for state, loss in by_state.items()}
    ranked = sorted(sums, key=lambda state: (sums[state], state))
    best, second = ranked[0], ranked[1]
    if best == "on" or sums["on"] - sums[best] < 0.005:
        return None
    saved = np.maximum(by_state["on"] - by_state[best], 0.0)
    loss = never_falling(np.concatenate([np.zeros((saved.shape[0], 1)), saved[:, :-1]], axis=1))
    plot = max(plots, key=lambda each: each.worth.value)
    hot = float(_hot(scene, on.cover)[:, : SEES_AHEAD_DAYS + 1].max(axis=1).mean())
    flower = float(max(_in_flower(each)[:, 0].mean() for each in plots))
    if max(hot, flower) < LEAST_CAUSE:
        return None
    years = scene.years
    why = (
        f"it is in flower and wants bees in {round(flower * years)} of {years} years"
        if flower * BEES_LOSS_A_DAY >= hot * HEAT_LOSS_A_DAY
        else f"under it the air passes {HOT_UNDER_C:.0f} °C within three days in {round(hot * years)} of "
        f"{years} years"
    )
    if best == "off":
        act, entry = (
            f"Take the {on.item.item} off {on.bed.name} for good",
            Moved(act="off", item=on.item.item),
        )
    else:
        act = f"Open the {on.item.item} on {on.bed.name} for the day, and close it before sunset"
        entry = Moved(act="opened", item=on.item.item)
    by_hand = " or pollinate by hand" if plot.sheet.bees.hand == "yes" and flower > 0.5 else ""
    return Job(
        id=f"uncover-{on.bed.key}",
        kind="uncover",
        act=act,
        bed=on.bed.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("cover", on.placed.length_m or 2.4, kind="uncover"),
        worth=sum(each.worth.value for each in plots),
        loss=loss,
        window=window_of(loss, loss >= 0.0, scene.today, scene.made),
        reason=f"{why[0].upper()}{why[1:]}; {_words(second)}{by_hand} comes next.",
        facts=(
            Fact(
                name="lost in three days with it on",
                value=round(sums["on"], 3),
                law="heat, bees",
                source="memory",
            ),
            Fact(name="with it opened by day", value=round(sums["opened"], 3), law="bees", source="memory"),
            Fact(name="with it off", value=round(sums["off"], 3), law="frost by plant-surface temperature"),
        ),
        needs=("daylight",) if best == "off" else ("morning",),
        strains=("stooping",),
        done=(entry,),
        settles=f"cover:{on.bed.key}",
    )


def _words(state: State) -> str:
    return {"on": "leaving it on", "opened": "opening it by day", "off": "taking it off"}[state]
