"""A board or sacking over slow seed: laid after sowing, looked under daily, off at the first seedling."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.jobs.keep_damp import LID_SHELTER, lid_on, near_surface
from spadework.advice.odds import Fact, date_odds
from spadework.advice.ready_odds import median_emergence_chance
from spadework.advice.scene import Plot, Scene
from spadework.advice.seedbed import drying, lost_by_drying, net_of_sowing_again, still_to_come, uncounted
from spadework.advice.waiting import never_falling, ramp, window_of
from spadework.clock.sprout import first_reaching
from spadework.garden.entries import KitSet, Moved, Stage
from spadework.types import Floats

LID: Final = "board or sacking"
"""What a lid is called in the kit."""

SLOW_DAYS: Final = 12
"""Days to half up from which a lid pays: a row is watered well for a week, and forgotten in the second.
Source: common-practice."""

FORGOTTEN: Final = 0.3
"""Share of dry days on which nobody comes to water. Source: memory; a lid saves what they would kill."""

FIRST_UP: Final = 0.65
"""Share of the way to half up at which the first seedlings show. Computed: two spreads of 0.2 within a sowing
before its middle, by which 2 in 100 are up."""

LAY_UNTIL: Final = 0.4
"""Share of the way to half up after which a lid is no longer laid. Our own rule."""

DARK_DAYS: Final = 6.0
"""Days in the dark in which seedlings that are up are lost. Source: memory."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Lids to lay, to look under and to take off."""
    for plot in uncounted(scene):
        sheet = plot.sheet
        if plot.bed is None or plot.indoors or sheet.sowing.seed_size != "small" or not near_surface(plot):
            continue
        assert plot.course.sprout is not None
        if lid_on(plot):
            if "up" in plot.planting.stages or not _looked(scene, plot):
                yield _look(scene, plot)
            continue
        days = float(np.median(plot.course.sprout.median_day)) - plot.course.start_day
        begun = float(plot.course.sprout.progress[:, plot.column].mean())
        if days >= SLOW_DAYS and begun < LAY_UNTIL and "up" not in plot.planting.stages and not plot.covers:
            yield _lay(scene, plot, days)


def _first_up(plot: Plot) -> Floats:
    """Days from today until the first seedlings show, [year]; below zero where they have."""
    assert plot.course.sprout is not None
    found: Floats = first_reaching(plot.course.sprout.progress, FIRST_UP).astype(np.float64) - plot.column
    return found


def _lay(scene: Scene, plot: Plot, days: float) -> Job:
    bare, under = drying(scene, plot), drying(scene, plot, LID_SHELTER)
    saved = np.maximum(bare.times - under.times, 0.0)
    lost = FORGOTTEN * lost_by_drying(plot, saved)
    loss = net_of_sowing_again(scene, plot, lost)
    may = np.arange(AHEAD_DAYS + 1)[None, :] < _first_up(plot)[:, None]
    usual, less = float(bare.times[:, :7].mean()), float(under.times[:, :7].mean())
    return Job(
        id=f"lid-{plot.key}",
        kind="lid",
        act=f"Lay a board or sacking over the {plot.name} in {plot.where}",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("lid", plot.planting.rows or 1),
        worth=plot.worth.value,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=(
            f"It takes about {days:.0f} days to come up; bare it wants water {usual:.1f} times a day now, "
            f"under a lid {less:.1f} times."
        ),
        facts=(
            Fact(
                name="days from sowing to half up, at the middle of the years",
                value=round(days),
                unit="d",
                law="emergence by soil warmth",
                source=plot.sheet.emergence.sum_cd.receipt,
            ),
            Fact(name="drying under a lid over that of bare soil", value=LID_SHELTER, source="memory"),
        ),
        strains=("stooping",),
        take=(Take(what="board or sacking, as long as the rows"),),
        test="Water first; look under it every day.",
        done=(*_owned(scene), Moved(act="on", item=LID)),
        settles=f"lid:{plot.key}",
    )


def _look(scene: Scene, plot: Plot) -> Job:
    first = _first_up(plot)
    seen = plot.planting.stages.get("up")
    out = first <= 0.0
    chance = 1.0 if seen is not None else float(out.mean())
    due = seen is not None or chance >= 0.5
    start = np.zeros_like(first) if seen is not None else np.maximum(first, 0.0)
    # seedlings found a day late have stood a day in the dark; those not up yet lose nothing
    lost = never_falling(ramp(start, DARK_DAYS, np.clip(1.0 - still_to_come(plot)[:, -1], 0.0, 1.0)))
    loss = net_of_sowing_again(scene, plot, lost)
    years, odds = scene.years, _odds(plot)
    if seen is not None:
        reason = "Seedlings are up under it, and grow long and weak in the dark."
    else:
        reason = f"The first are up by today in {round(chance * years)} of {years} years."
    act = (
        f"Take the lid off the {plot.name} in {plot.where}"
        if seen is not None
        else f"Look under the lid of the {plot.name} in {plot.where}"
        + (", and take it off at the first seedling" if due else "")
    )
    done = (Moved(act="off", item=_item(plot)),) if seen is not None else (Stage(what="up", reached=False),)
    may = np.ones_like(loss, dtype=np.bool_)
    return Job(
        id=f"lid-{plot.key}" + ("-off" if seen is not None else "-look"),
        kind="lid",
        act=act,
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("count", 0.5),
        worth=plot.worth.value,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=reason,
        facts=(
            Fact(
                name="first seedlings up by today, share of years",
                value=round(chance, 2),
                law="emergence by soil warmth",
                source=plot.sheet.emergence.sum_cd.receipt,
            ),
            Fact(
                name="half of it up by, at the middle of the years",
                value=odds,
                law="emergence by soil warmth",
                source=plot.sheet.emergence.sum_cd.receipt,
            ),
        ),
        strains=("stooping",),
        test="A white loop at the surface is a seedling: the lid comes off for good, in the evening.",
        done=done,
        settles=f"lid:{plot.key}",
    )


def _owned(scene: Scene) -> tuple[KitSet, ...]:
    """Every garden has a board somewhere: it is put into the kit where nobody has."""
    return () if LID in scene.garden.kit else (KitSet(item=LID, sort="other"),)


def _looked(scene: Scene, plot: Plot) -> bool:
    """Whether somebody looked today."""
    return any(
        entry.happened_on == scene.today and isinstance(entry.act, Stage) for entry in plot.planting.history
    )


def _item(plot: Plot) -> str:
    return next(
        (p.item for p in plot.covers if any(w in p.item.casefold() for w in ("board", "sack", "lid"))), ""
    )


def _odds(plot: Plot) -> str | None:
    course = plot.course
    found = date_odds(median_emergence_chance(course), course.ground.dates, course.ground.years.made)
    return None if found.q50 is None else found.q50.isoformat()
