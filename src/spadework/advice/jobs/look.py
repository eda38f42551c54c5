"""The daily look: what is seen a day sooner costs less."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.odds import Fact
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import ahead, never_falling, window_of
from spadework.garden.entries import Tended
from spadework.types import Floats

TROUBLE: Final = 0.004
"""Chance a day that something begins on a planting at 20 degC which a look would catch: slugs, flies, mildew,
a loose cover. Source: memory."""

COST: Final = 0.03
"""Share of the planting's worth that each day of not seeing it costs. Source: memory."""

TENDER: Final = 3.0
"""Trouble comes so many times as often while plants are tender or ready. Source: memory."""

USUAL_C: Final = 20.0


def jobs(scene: Scene) -> Iterator[Job]:
    """The look of the day, unless somebody has looked."""
    plots = [plot for plot in scene.plots if plot.bed is not None]
    looked = any(
        isinstance(entry.act, Tended)
        and entry.act.act == "looked over"
        and entry.happened_on == scene.today
        and not entry.bed
        for entry in reversed(scene.garden.entries)
    )
    if not plots or looked:
        return
    worth = sum(plot.worth.value for plot in plots)
    daily = sum((_daily(scene, plot) * plot.worth.value for plot in plots), np.zeros((scene.years, 1)))
    # what begins on each day left unseen costs more the longer it goes on
    begun = np.cumsum(daily / max(worth, 1e-9), axis=-1)
    lost = np.cumsum(begun * COST, axis=-1)
    loss = never_falling(np.minimum(lost - lost[:, :1], 1.0))
    beds = {plot.bed_key for plot in plots}
    tender = sum(1 for plot in plots if _exposed(plot)[:, 0].mean() >= 0.5)
    warm = float(scene.ground.air_mean_c[:, scene.column].mean())
    yield Job(
        id="look",
        kind="look",
        act="Walk round and look at everything once",
        minutes=scene.pace.minutes("look", float(len(beds))),
        worth=worth,
        loss=loss,
        window=window_of(loss, np.ones_like(loss, dtype=np.bool_), scene.today, scene.made),
        reason=(
            f"{len(plots)} planting{'' if len(plots) == 1 else 's'} stand, {tender} of them tender or ready, "
            f"on a day of about {warm:.0f} °C."
        ),
        facts=(
            Fact(name="plantings tender or ready", value=float(tender), law="courses", source="computed"),
            Fact(name="mean of the day", value=round(warm, 1), unit="degC", source="the years"),
            Fact(name="plantings that stand", value=float(len(plots)), law="the book", source="computed"),
        ),
        test="Turn over a leaf or two of each, and tug at the covers.",
        done=(Tended(act="looked over"),),
    )


def _exposed(plot: Plot) -> Floats:
    """Whether it is up and tender, or ready, on each of the coming days, [year, day]."""
    guard = plot.sheet.guard
    age = plot.column + np.arange(AHEAD_DAYS + 1)[None, :] - plot.course.begin_day[:, None]
    young = (age >= 0) & (age <= guard.tender_days.value)
    ready = ahead(plot.course.ready, plot.column) >= 0.5
    found: Floats = (young | ready).astype(np.float64)
    return found


def _daily(scene: Scene, plot: Plot) -> Floats:
    """Chance of something beginning on each of the coming days, [year, day]."""
    warm = np.clip(ahead(scene.ground.air_mean_c, scene.column) / USUAL_C, 0.0, 1.5)
    up = ahead(plot.course.emerged, plot.column) >= 0.1
    found: Floats = TROUBLE * warm * np.where(up, 1.0 + (TENDER - 1.0) * _exposed(plot), 0.3)
    return found
