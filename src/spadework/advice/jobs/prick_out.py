"""Prick out: seedlings sown together get room of their own while they are still easy to part."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import Job, Take
from spadework.advice.odds import Fact
from spadework.advice.raising import net_of_buying, raised, standing_plants, tray_worth
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import ahead, ramp, window_of
from spadework.garden.entries import PrickedOut

OWN_ROOM: Final = ("cell", "module", "plug", "pot", "block", "root trainer")
"""Words of trays in which every seedling has room of its own from the start."""

EASY_LEAVES: Final = 1.0
"""True leaves past the first time for it at which roots begin to be torn. Source: common-practice."""

CROWDED: Final = (18.0, 0.3)
"""Days until a crowded tray has lost all it can, and that share: drawn, weak, damping off. Source: memory."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Trays of seedlings to be pricked out."""
    for plot in raised(scene):
        planting = plot.planting
        if plot.sheet.start.prick_leaves is None or planting.plants.basis == "pricked out":
            continue
        if any(word in planting.tray.casefold() for word in OWN_ROOM) or standing_plants(plot) < 1:
            continue
        yield _prick(scene, plot)


def _prick(scene: Scene, plot: Plot) -> Job:
    wanted = plot.sheet.start.prick_leaves
    assert wanted is not None
    leaves = ahead(plot.course.leaves, plot.column)
    may = leaves >= wanted.value - 0.25
    late = np.count_nonzero(plot.course.leaves < wanted.value + EASY_LEAVES, axis=-1) - float(plot.column)
    days, most = CROWDED
    loss = net_of_buying(scene, plot, ramp(late, days, most))
    now = plot.planting.leaves if plot.planting.leaves is not None else float(leaves[:, 0].mean())
    plants = standing_plants(plot)
    return Job(
        id=f"prick-out-{plot.key}",
        kind="prick out",
        act=f"Prick out the {plot.name} in {plot.where}: about {plants} seedlings",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("prick", plants),
        worth=tray_worth(plot),
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=(
            f"They have about {now:.1f} true leaves; it is best done at {wanted.value:.0f}, before "
            "their roots grow into each other."
        ),
        facts=(
            Fact(name="true leaves today", value=round(now, 1), law="leaves by warmth"),
            Fact(name="true leaves at pricking out", value=wanted.value, source=wanted.receipt),
        ),
        needs=("daylight", "not in strong sun"),
        take=(Take(what="cells or small pots, and a pencil", pieces=plants),),
        test="Hold a seed leaf, never the stem: a bruised stem rots.",
        done=(PrickedOut(plants=plants, into="cells"),),
        settles=f"tray:{plot.key}",
    )
