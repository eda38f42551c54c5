"""Take guards off again: when nothing under them is tender, when flowers want bees, or for another bed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.advice.cover_state import BEES_LOSS
from spadework.advice.guarding import FLOWERS, idle, named, no_bees, seen_lately, threat
from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.jobs.uncover import OFF_M_MIN, OFF_START_MIN
from spadework.advice.odds import Fact
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import ahead, never_falling, window_of
from spadework.garden.entries import Moved
from spadework.garden.records import Bed, Placed
from spadework.types import Bools, Floats

GUARDS: Final = ("netting", "mesh", "screen", "scare")
"""Kit that only guards; what warms as well is settled with the frost."""

GROWN_IN: Final = 0.003
GROWN_IN_CM: Final = 10.0
"""Share of a crop torn for each day netting stays on plants of such height that it no longer serves: shoots
grow through it. Source: memory."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Wanted:
    """What stands in a bed for which no net is left.

    Parameters
    ----------
    where : str
    worth : float
    loss : array, shape (year, AHEAD_DAYS + 1)
    by_scare : bool
        Whether not even a scare device is left for it, and one would help.
    """

    where: str
    worth: float
    loss: Floats
    by_scare: bool


def jobs(scene: Scene, wanted: Sequence[Wanted]) -> Iterator[Job]:
    """Guards that serve no more.

    Parameters
    ----------
    scene : Scene
    wanted : sequence of Wanted
        Beds that have to do without a net, what is at stake most first.
    """
    seen = seen_lately(scene)
    for bed in scene.beds.values():
        by_item: dict[str, list[Placed]] = {}
        for placed in scene.garden.covers(bed=bed.key):
            if scene.garden.kit[placed.item].sort in GUARDS and not placed.opened:
                by_item.setdefault(placed.item, []).append(placed)
        for item, there in by_item.items():
            under = [_under(scene, bed, placed) for placed in there]
            spare = [
                placed
                for placed, plots in zip(there, under, strict=True)
                if placed.since < scene.today
                and (_served(scene, item, plots) or _for_bees(scene, item, plots, seen))
            ]
            if len(spare) == len(there) and spare:
                plots = tuple(dict.fromkeys(plot for each in under for plot in each))
                job = _off(scene, bed, item, "", plots, spare, wanted)
            elif spare:
                job = _off(
                    scene, bed, item, spare[0].planting, _under(scene, bed, spare[0]), spare[:1], wanted
                )
            else:
                continue
            if job is not None:
                yield job


def _under(scene: Scene, bed: Bed, placed: Placed) -> tuple[Plot, ...]:
    return tuple(
        plot for plot in scene.in_bed(bed.key) if not plot.indoors and (placed.planting in ("", plot.key))
    )


def _served(scene: Scene, item: str, plots: Sequence[Plot]) -> bool:
    """Whether it guards nothing any more; mesh keeps flies off as well, for as long as anything stands."""
    if scene.garden.kit[item].sort == "mesh":
        return not plots
    return all(idle(plot) for plot in plots)


def _shut_off(scene: Scene, item: str, plot: Plot) -> Floats:
    """Chance that bees cannot reach its flowers on each of the coming days, [year, day]."""
    return no_bees(plot) * (scene.garden.kit[item].sort == "mesh")


def _for_bees(scene: Scene, item: str, plots: Sequence[Plot], seen: frozenset[str]) -> bool:
    """Whether a week without bees costs more than a week without the guard."""
    bees = eaten = 0.0
    for plot in plots:
        bees += plot.worth.value * BEES_LOSS * float(_shut_off(scene, item, plot)[:, :7].sum(axis=1).mean())
        at_stake = threat(scene, plot, seen)
        if at_stake is not None:
            eaten += plot.worth.value * float(at_stake.loss[:, 7].mean())
    return bees > eaten


def _off(
    scene: Scene,
    bed: Bed,
    item: str,
    planting: str,
    plots: Sequence[Plot],
    placed: Sequence[Placed],
    wanted: Sequence[Wanted],
) -> Job | None:
    sort = scene.garden.kit[item].sort
    other = next((each for each in wanted if sort != "scare" or each.by_scare), None)
    parts = [_torn_or_barren(scene, item, plot) for plot in plots]
    worths = [plot.worth.value for plot in plots]
    if other is not None:
        parts.append(other.loss)
        worths.append(other.worth)
    worth = sum(worths)
    if worth <= 0.0:
        return None
    loss = never_falling(np.average(parts, axis=0, weights=worths))
    flowers = [plot.name for plot in plots if float(_shut_off(scene, item, plot)[:, 0].mean()) >= FLOWERS]
    names = named([plot.name for plot in plots]) if plots else ""
    if flowers:
        why = f"The {named(flowers)} flower{'' if names else 's'}, and bees cannot reach them"
    elif plots:
        why = f"The {names} are tender no more{', and grow through it' if sort == 'netting' else ''}"
    else:
        why = "Nothing stands under it"
    if other is not None:
        why += f"; no other is left for the {other.where}"
    metres = sum(each.length_m or 1.0 for each in placed)
    bring = "away" if sort == "scare" else "off"
    may: Bools = np.ones(loss.shape, dtype=np.bool_)
    over = f"the {names} in {bed.name}" if names else bed.name
    return Job(
        id=f"guard-{planting or bed.key}-off",
        kind="guard",
        act=f"Take the {item} {bring} {'from ' if sort == 'scare' else ''}{over}",
        bed=bed.key,
        planting=planting,
        minutes=OFF_START_MIN + OFF_M_MIN * metres,
        worth=worth,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=f"{why}.",
        facts=(
            Fact(
                name="share torn for each day it stays on plants that grow through it",
                value=GROWN_IN,
                source="memory",
            ),
            Fact(name="share lost for each day without bees", value=BEES_LOSS, source="memory"),
        ),
        strains=("stooping",),
        test="Look for birds and small animals caught in it first, and fold it dry.",
        done=(Moved(act="off", item=item),),
        settles=f"guard-on:{bed.key}",
    )


def _torn_or_barren(scene: Scene, item: str, plot: Plot) -> Floats:
    """Share lost by a day while the guard stays on, [year, day]."""
    torn = np.zeros((scene.years, AHEAD_DAYS + 1))
    if scene.garden.kit[item].sort == "netting":
        torn = GROWN_IN * (ahead(plot.course.height_cm, plot.column) >= GROWN_IN_CM).astype(np.float64)
    daily = torn + BEES_LOSS * _shut_off(scene, item, plot)
    found: Floats = np.clip(np.cumsum(daily, axis=1) - daily, 0.0, 1.0)
    return found
