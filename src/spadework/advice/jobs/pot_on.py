"""Pot on: plants go into a larger pot by their own growth; a small plant in much wet soil rots."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.odds import Fact
from spadework.advice.raising import (
    days_until,
    net_of_buying,
    out_size_days,
    own_days,
    raised,
    standing_plants,
    tray_worth,
)
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import fading, window_of
from spadework.garden.entries import PrickedOut, Tended

GRACE_DAYS: Final = 5.0
"""Days a plant may stand in its small pot when its time has come. Our own rule."""

STARVED: Final = (14.0, 0.2)
"""Days in which a plant that has outgrown its pot loses most of what it can, and that share. Source:
memory."""

SOON_DAYS: Final = 7
"""A plant that comes to it later is not spoken of yet. Our own rule."""

STRAIGHT_OUT_DAYS: Final = 5.0
"""Plants that are fit to go out so soon are not potted on. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Plants that have outgrown their cells."""
    for plot in raised(scene):
        weeks, size = plot.sheet.start.pot_on_weeks, out_size_days(plot.sheet)
        if weeks is None or size is None or standing_plants(plot) < 1 or _potted(scene, plot):
            continue
        grown = own_days(weeks.value)
        if float(np.median(days_until(plot, size))) <= STRAIGHT_OUT_DAYS:
            continue
        if float(np.median(days_until(plot, grown))) <= SOON_DAYS:
            yield _pot(scene, plot, grown)


def _potted(scene: Scene, plot: Plot) -> bool:
    """Potted on, or pricked out into pots."""
    into = [entry.act.into for entry in plot.planting.history if isinstance(entry.act, PrickedOut)]
    return scene.garden.last_done("potted on", planting=plot.key) is not None or any(
        "pot" in word.casefold() for word in into
    )


def _pot(scene: Scene, plot: Plot, grown: float) -> Job:
    weeks = plot.sheet.start.pot_on_weeks
    assert weeks is not None
    due = days_until(plot, grown)
    days, most = STARVED
    loss = net_of_buying(scene, plot, fading(due + GRACE_DAYS, days, most))
    may = np.arange(AHEAD_DAYS + 1)[None, :] >= due[:, None]
    now = float(plot.course.grown_days[:, plot.column].mean())
    plants = standing_plants(plot)
    share = min(max(now / grown, 0.0), 9.9)
    state = (
        "have outgrown their cells"
        if share >= 1.0
        else f"are {share * 10:.0f} tenths of the way to a larger pot"
    )
    pots = next(
        (item for item in scene.garden.kit.values() if item.sort == "tray" and "pot" in item.item), None
    )
    return Job(
        id=f"pot-on-{plot.key}",
        kind="pot on",
        act=f"Pot on the {plot.name} in {plot.where}: {plants} plants",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("pot", plants),
        worth=tray_worth(plot),
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=(
            f"By their own warmth they {state}; earlier they would sit in cold wet soil, later they starve."
        ),
        facts=(
            Fact(
                name="days of best growth behind it",
                value=round(now, 1),
                unit="d",
                law="development by warmth",
            ),
            Fact(
                name="days of best growth at potting on",
                value=round(grown, 1),
                unit="d",
                source=weeks.receipt,
            ),
        ),
        needs=("daylight",),
        take=(Take(what="larger pots" if pots is None else pots.item, pieces=plants),),
        test="Tip one out: roots should hold the ball together and not yet run round it.",
        done=(Tended(act="potted on"),),
        settles=f"tray:{plot.key}",
    )
