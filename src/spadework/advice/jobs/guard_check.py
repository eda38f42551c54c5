"""Look at guards that stand: every few days, and on the morning after wind."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

import numpy as np

from spadework.advice.guarding import Threat, named, shared_loss, who_eats
from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.jobs.support import GUST_FACTOR
from spadework.advice.odds import Caution, Fact
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import never_falling, window_of
from spadework.garden.entries import Note, Seen, Tended
from spadework.garden.records import Bed, Placed
from spadework.types import Bools

CHECK_DAYS: Final = 3
GAP: Final = 0.02
"""Days after which a net or screen is looked at again, and the chance a day that wind or an animal has opened
it. Source: memory."""

WINDY_M_S: Final = 12.0
BLOWN_OPEN: Final = 0.3
"""Gust that pulls at pegs and edges [m s-1], and the chance that it opens them. Source: memory."""

GREW_CM: Final = 10.0
"""Growth under a net from which it is looked whether leaves touch it. Our own rule."""

NET_CAUTION = Caution(
    "Pull netting taut, peg it all round and look at it daily: loose netting traps birds, "
    "hedgehogs and snakes.",
    "common-practice",
)


def check(scene: Scene, bed: Bed, threats: Sequence[Threat], placed: Sequence[Placed]) -> Job | None:
    """The look at the guards of a bed, where it is due.

    Parameters
    ----------
    scene : Scene
    bed : Bed
    threats : sequence of Threat
    placed : sequence of Placed
        What lies over each of them.
    """
    looked = _looked_on(scene, bed, placed)
    since = min(max(each.since, looked or each.since) for each in placed)
    ago = (scene.today - since).days
    gust = _gust_since(scene, ago)
    windy = gust >= WINDY_M_S
    if ago < (1 if windy else CHECK_DAYS):
        return None
    # only a gap lets anything in, and gaps become likelier the longer nobody looked
    days = ago + np.arange(AHEAD_DAYS + 1)
    gap = 1.0 - np.exp(-GAP * days) * (1.0 - BLOWN_OPEN * windy)
    loss = never_falling(shared_loss(threats) * gap[None, :])
    names = named([each.plot.name for each in threats])
    sheet = any(scene.garden.kit[each.item].sort != "screen" for each in placed)
    items = named([each.item for each in placed])
    grew = max(_grew_cm(scene, each.plot, over) for each, over in zip(threats, placed, strict=True))
    touches = f" They grew about {grew:.0f} cm under it: lift it clear of the leaves."
    blew = f"Gusts of about {gust:.0f} m/s pulled at it" if windy else ""
    nobody = f"nobody is known to have looked at it for {ago} day{'' if ago == 1 else 's'}"
    why = f"{blew}, and {nobody}" if windy else f"{nobody[0].upper()}{nobody[1:]}"
    one = threats[0].plot if len(threats) == 1 else None
    exposed: Bools = np.any([each.exposed > 0.0 for each in threats], axis=0)
    return Job(
        id=f"guard-{bed.key}-check",
        kind="guard",
        act=f"Look at the {items} {'over' if sheet else 'round'} the {names} in {bed.name}, and "
        f"{'peg down' if sheet else 'mend'} its gaps",
        bed=bed.key,
        planting="" if one is None else one.key,
        crop="" if one is None else one.sheet.key,
        minutes=scene.pace.minutes("guard check", 1.0),
        worth=sum(each.plot.worth.value for each in threats),
        loss=loss,
        window=window_of(loss, exposed, scene.today, scene.made),
        reason=f"{why}; {who_eats(threats)} use every gap.{touches if grew >= GREW_CM else ''}",
        facts=(
            Fact(name="days since it was looked at", value=float(ago), unit="day", source="the book"),
            Fact(
                name="chance that it is open somewhere by now",
                value=round(float(gap[0]), 2),
                source="memory",
            ),
        ),
        cautions=(NET_CAUTION,) if sheet else (),
        strains=("stooping",),
        done=(Tended(act="looked over"),),
        settles=f"guard-on:{bed.key}",
    )


def _looked_on(scene: Scene, bed: Bed, placed: Sequence[Placed]) -> date | None:
    """Last day somebody looked there: said so, saw something, or noted what was found under it."""
    words = {word for each in placed for word in each.item.casefold().split()}
    days = [
        entry.happened_on
        for entry in bed.history
        if isinstance(entry.act, Seen)
        or (
            isinstance(entry.act, Note)
            and entry.act.text.casefold().startswith("looked")
            and words & set(entry.act.text.casefold().replace(":", " ").replace(",", " ").split())
        )
    ]
    done = scene.garden.last_done("looked over", bed=bed.key)
    return max([*days, *([] if done is None else [done])], default=None)


def _gust_since(scene: Scene, ago: int) -> float:
    """Strongest gust of the days since, yesterday's the last; 0 where no wind is known  [m s-1]."""
    wind = scene.ground.years.wind_m_s
    if wind is None or ago < 1:
        return 0.0
    days = np.nan_to_num(wind[0, max(scene.column - ago, 0) : scene.column])
    return GUST_FACTOR * float(days.max()) if days.size else 0.0


def _grew_cm(scene: Scene, plot: Plot, placed: Placed) -> float:
    height = np.median(plot.course.height_cm, axis=0)
    then = max(plot.column - (scene.today - placed.since).days, 0)
    return float(max(height[plot.column] - height[then], 0.0))
