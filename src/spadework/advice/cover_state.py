"""One state for a cover on a day: shut, open by day, or off; whichever costs the plants least."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

import numpy as np

from spadework.advice.flying_in import flown_in
from spadework.advice.guarding import no_bees, seen_lately, threat
from spadework.advice.job import MINUTE_KG
from spadework.advice.scene import Plot, Scene
from spadework.advice.tonight import killed_bare_soon
from spadework.clock.cover import Cover
from spadework.garden.records import KitItem
from spadework.types import Floats

State: TypeAlias = Literal["shut", "open by day", "off"]

HOT_C: Final = 30.0
"""Air under a cover from which most crops suffer, where a sheet gives no limit [degC]. Source:
common-practice."""

HEAT_LOSS: Final = 0.01
"""Share of a crop lost for each degree above its limit in a day. Source: memory."""

BEES_LOSS: Final = 0.03
"""Share of a crop lost for each day on which bees cannot reach its flowers. Source: memory."""

SHADE_LOSS: Final = 0.001
"""Share of a crop lost for each day under a cover it no longer needs. Our own rule; it settles ties."""

WORDS: Final[dict[State, str]] = {
    "shut": "leaving it shut",
    "open by day": "opening it by day",
    "off": "taking it off",
}

HAND_MIN: Final = 0.5
"""Minutes a morning for setting the flowers of a plant by hand. Source: common-practice."""

ALSO_GUARD: Final = ("netting", "mesh", "screen")
"""Kit that keeps eaters off whether a warm cover lies or not."""

CARRY_LOSS: Final = 0.002
"""What opening and shutting again on a day is held to cost. Our own rule."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Settled:
    """What is best for one bed's cover today.

    Parameters
    ----------
    state, second : State
        The winner and the runner-up.
    cost : dict of State to array, shape (year,)
        Share of the bed's worth each costs.
    under_c : float  [degC]
        Warmest it gets under it today, shut, at the middle of the years.
    limit_c : float  [degC]
        Of the crop that minds heat most.
    hot : float
        Share of the years in which it gets hotter than that under it today, shut.
    heat, bees, frost, eaten, flown : float
        Share of the worth that heat and want of bees cost under it today; that frost takes without it in a
        week, birds and animals in a day, and insects that fly in on a day.
    insects : tuple of str
        Those that fly now and would, the worst first.
    """

    state: State
    second: State
    cost: dict[State, Floats]
    under_c: float
    limit_c: float
    hot: float
    heat: float
    bees: float
    frost: float
    eaten: float
    flown: float = 0.0
    insects: tuple[str, ...] = ()


def settle(
    scene: Scene, plots: tuple[Plot, ...], cover: Cover, *, lies: bool, item: KitItem | None = None
) -> Settled:
    """The one state a bed's cover should be in.

    Parameters
    ----------
    scene : Scene
    plots : tuple of Plot
        What stands under it; at least one.
    cover : Cover
    lies : bool
        Whether the plots' own weather has the cover in it already: it lies shut.
    item : KitItem or None
        The piece it is, which may keep insects out.
    """
    worths = np.array([max(plot.worth.value, 1e-9) for plot in plots])
    share = (worths / worths.sum())[:, None]
    under = scene.ground.years.tmax_c[:, scene.column] + cover.day_c
    limits = [HOT_C if plot.sheet.heat.limit_c is None else plot.sheet.heat.limit_c.value for plot in plots]
    limits = [min(limit, HOT_C) for limit in limits]
    heat = (share * np.stack([HEAT_LOSS * np.maximum(under - limit, 0.0) for limit in limits])).sum(axis=0)
    bees = (share * np.stack([BEES_LOSS * no_bees(plot)[:, 0] for plot in plots])).sum(axis=0)
    frost = (share * np.stack([killed_bare_soon(plot, lies=lies) for plot in plots])).sum(axis=0)
    seen = seen_lately(scene)
    eaten = (share * np.stack([_eaten(scene, plot, seen) for plot in plots])).sum(axis=0)
    flights = [flown_in(scene, plot, item) for plot in plots] if item is not None else []
    flown = (share * np.stack([lost for lost, _ in flights])).sum(axis=0) if flights else np.zeros_like(eaten)
    cost: dict[State, Floats] = {
        "shut": heat + bees + SHADE_LOSS,
        "open by day": CARRY_LOSS + eaten + flown,
        "off": frost + eaten + flown,
    }
    order = sorted(cost, key=lambda state: float(cost[state].mean()))
    return Settled(
        state=order[0],
        second=order[1],
        cost=cost,
        under_c=float(np.median(under)),
        limit_c=min(limits),
        hot=float((under > min(limits)).mean()),
        heat=float(heat.mean()),
        bees=float(bees.mean()),
        frost=float(frost.mean()),
        eaten=float(eaten.mean()),
        flown=float(flown.mean()),
        insects=tuple(dict.fromkeys(name for _, names in flights for name in names)),
    )


def hands_said(plots: tuple[Plot, ...], found: Settled) -> str:
    """Whether flowers set by hand under a cover that stays shut would be better, and why it is no job.

    Parameters
    ----------
    plots, found
        As for `set_by_hand`.

    Returns
    -------
    str
        A sentence without its stop; empty where there is nothing to set, or it cannot be done by hand.
    """
    cost = set_by_hand(plots, found)
    if cost is None:
        return ""
    bees = [(plot, float(no_bees(plot)[:, 0].mean())) for plot in plots]
    minutes = sum(HAND_MIN * (plot.plants or 1.0) * share for plot, share in bees)
    names = " and ".join(dict.fromkeys(plot.name for plot, share in bees if share > 0.0))
    best = WORDS[found.state]
    takes = (
        f"setting the flowers of the {names} by hand and leaving it shut takes {max(minutes, 1.0):.0f} min"
    )
    less = float(found.cost[found.state].mean()) - float(cost.mean())
    if less <= 0.0:
        return f"{takes} each morning and costs more than {best}"
    return (
        f"{takes} each morning and costs {100 * less:.1f} in 100 of the bed's worth less than {best}, "
        "as long as no morning is missed: that is yours to choose"
    )


def set_by_hand(plots: tuple[Plot, ...], found: Settled) -> Floats | None:
    """What it costs shut where the flowers are set by hand each morning, [year].

    Parameters
    ----------
    plots : tuple of Plot
        What stands under it.
    found : Settled
        Of the same plots.

    Returns
    -------
    array or None
        Share of the bed's worth, the minutes' worth in it; None where nothing flowers for bees, or something
        that does cannot be set by hand.
    """
    wanting = [plot for plot in plots if float(no_bees(plot)[:, 0].mean()) > 0.0]
    if not wanting or any(plot.sheet.bees.hand != "yes" for plot in wanting):
        return None
    worth = sum(max(plot.worth.value, 1e-9) for plot in plots)
    saved = np.stack([BEES_LOSS * no_bees(plot)[:, 0] * max(plot.worth.value, 1e-9) for plot in wanting])
    minutes = np.stack([HAND_MIN * (plot.plants or 1.0) * no_bees(plot)[:, 0] for plot in wanting])
    cost: Floats = found.cost["shut"] + (MINUTE_KG * minutes.sum(axis=0) - saved.sum(axis=0)) / worth
    return cost


def _eaten(scene: Scene, plot: Plot, seen: frozenset[str]) -> Floats:
    """Share birds and animals take within a day where nothing else guards it, [year]."""
    found = threat(scene, plot, seen)
    others = [each for each in plot.covers if scene.garden.kit[each.item].sort in ALSO_GUARD]
    if found is None or any(not each.opened for each in others):
        return np.zeros(plot.course.way.shape[0])
    lost: Floats = found.loss[:, 1]
    return lost
