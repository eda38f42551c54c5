"""Look for emergence and count: until a sowing is counted, nobody knows whether it must be sown again."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.odds import Fact, date_odds
from spadework.advice.ready_odds import median_emergence_chance
from spadework.advice.scene import Plot, Scene
from spadework.advice.seedbed import uncounted
from spadework.advice.waiting import ahead, never_falling, window_of
from spadework.advice.weigh_again import LATE_COST_PER_DAY
from spadework.garden.entries import Counted

FIRST_SHARE: Final = 0.25
"""Looking begins when half the seed is up in this share of the years. Our own rule."""

NEXT_SHARE: Final = 0.5
"""The same once somebody looked and saw nothing. Our own rule."""

FAILS: Final = 0.15
"""Share of sowings that come up too thin to keep, for reasons the weather does not know: old seed, slugs, a
crust, a careless depth. Source: memory; the garden's own counts replace it."""

GROWN: Final = 0.35
"""Share of the way to ready from which nobody counts seedlings any more. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Counts to be made of what was sown and not yet counted."""
    for plot in uncounted(scene):
        if float(plot.course.way[:, plot.column].mean()) < GROWN and not _looked(scene, plot):
            yield _count(scene, plot)


def _looked(scene: Scene, plot: Plot) -> bool:
    """Whether somebody looked today, and saw nothing up."""
    return plot.planting.not_yet.get("up") == scene.today


def _count(scene: Scene, plot: Plot) -> Job:
    up = ahead(median_emergence_chance(plot.course), plot.column)
    # A failed row found a day later is started anew a day later: that is all a count can win. It may bring as
    # much, but later, and its room lies idle for as long.
    anew = scene.start_anew(plot.sheet)
    late = LATE_COST_PER_DAY * np.arange(AHEAD_DAYS + 1)[None, :] * anew
    lost = FAILS * up * np.minimum(np.maximum(anew[:, :1] - anew, 0.0) + late, anew[:, :1])
    loss = never_falling(lost)
    may = up >= (NEXT_SHARE if "up" in plot.planting.not_yet else FIRST_SHARE)
    seen_up = "up" in plot.planting.stages
    if seen_up:
        may = np.ones_like(may)
    odds = date_odds(
        median_emergence_chance(plot.course), plot.course.ground.dates, plot.course.ground.years.made
    )
    chance = float(up[:, 0].mean())
    seeds = plot.planting.seeds
    return Job(
        id=f"count-{plot.key}",
        kind="count",
        act=f"Look for {plot.name} in {plot.where}, and count what is up",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("count", plot.planting.rows or 1),
        worth=plot.worth.value,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=_reason(scene, chance, odds.q50, seen_up=seen_up),
        facts=(
            Fact(
                name="half of it up by today, share of years",
                value=round(chance, 2),
                law="emergence by soil warmth",
                source=plot.sheet.emergence.sum_cd.receipt,
            ),
            Fact(
                name="half of it up by, at the middle of the years",
                value=None if odds.q50 is None else odds.q50.isoformat(),
                law="emergence by soil warmth",
                source=plot.sheet.emergence.sum_cd.receipt,
            ),
            *(
                ()
                if seeds is None
                else (Fact(name="seeds sown", value=float(seeds), law="the book", source="sown"),)
            ),
        ),
        strains=("stooping",),
        test="Count a metre of row where the whole row is long, and say so.",
        done=(Counted(standing=0),),
    )


def _reason(scene: Scene, chance: float, middle: date | None, *, seen_up: bool) -> str:
    """What is known of its coming up."""
    if seen_up:
        return "It was seen to be up, and nobody has counted it."
    if chance < FIRST_SHARE:
        when = "" if middle is None else f" about {middle.day} {middle:%b}"
        return f"Half of it is probably up{when}; before that a look tells little."
    often = f"{round(chance * scene.years)} of {scene.years} years"
    return f"By today half of it is up in {often}, and nobody has looked."
