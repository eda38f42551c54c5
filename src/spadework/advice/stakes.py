"""What a trouble that may come has at stake in one bed, and when the next look is due there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from spadework.advice.guarding import named
from spadework.advice.scene import Plot, Scene
from spadework.advice.sightings import Sighting, last_looked, last_seen
from spadework.advice.waiting import never_falling
from spadework.advice.watching import Coming
from spadework.garden.records import Bed
from spadework.types import Floats

HARM_DAYS: Final = 30.0
"""Days over which the harm of a usual season begins, where it comes at all. Our own rule."""

USUAL_DAYS: Final[Mapping[str, float]] = MappingProxyType(
    {
        "late-blight": 3.0,
        "leaf-spot-severity": 10.0,
        "onion-downy-mildew": 5.0,
        "cucurbit-downy-mildew": 8.0,
        "lettuce-downy-mildew": 5.0,
        "powdery-mildew": 20.0,
        "grey-mould": 6.0,
        "white-mould": 3.0,
        "damping-off": 5.0,
        "beet-leaf-spot": 6.0,
    }
)
"""Days of infection weather by rule that make a disease as likely as in a usual season. Our own rule."""

MOST_SEASONS: Final = 3.0
"""Infection weather beyond that of so many usual seasons makes a disease no likelier. Our own rule."""

LATENT_DAYS: Final[Mapping[str, int]] = MappingProxyType(
    {
        "late-blight": 5,
        "leaf-spot-severity": 7,
        "onion-downy-mildew": 10,
        "cucurbit-downy-mildew": 5,
        "lettuce-downy-mildew": 7,
        "powdery-mildew": 5,
        "grey-mould": 4,
        "white-mould": 7,
        "damping-off": 2,
        "beet-leaf-spot": 7,
    }
)
"""Days from infection until it shows. Source: onion 10 to 16 (HILDEBRAND-1982), lettuce 7 to 14 (SCHERM-1994)
and powdery mildew 3 to 7 (CORNELL-CPM) published; the others memory."""

UNSEEN_COST: Final = 0.03
"""Share of the planting's worth that each day of not seeing it costs, as for the daily look. Source:
memory."""

SEEN_FACTOR: Final = 3.0
"""How much likelier harm is where it was found lately. Source: memory."""

LATELY_DAYS: Final = 21
"""What was found so lately is taken to be about. Our own rule."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Stake:
    """One trouble in one bed.

    Parameters
    ----------
    coming : Coming
    bed : Bed
    plots : tuple of Plot
    meets : array, shape (year, AHEAD_DAYS + 1)
        Share in which it can harm any of them on a day.
    loss : array, shape (year, AHEAD_DAYS + 1)
        Share of their worth lost by a first look so many days from today.
    due_in : int  [d]
        Days until the next look is due; 0 where none was made, or it is.
    seen_ago : int or None  [d]
        Days since it was last found here.
    """

    coming: Coming
    bed: Bed
    plots: tuple[Plot, ...]
    meets: Floats
    loss: Floats
    due_in: int
    seen_ago: int | None

    @property
    def worth(self) -> float:
        """What they are worth together, in kilograms of carrots."""
        return sum(plot.worth.value for plot in self.plots)

    @property
    def at_stake(self) -> float:
        """What a week of not looking costs."""
        return self.worth * float(self.loss[:, 7].mean())

    @property
    def crops(self) -> str:
        """The plantings in words: "cabbages and kale"."""
        return named([plot.name for plot in self.plots])

    @property
    def planting(self) -> str:
        """Key of the planting, where it is one."""
        return self.plots[0].key if len(self.plots) == 1 else ""

    @property
    def crop(self) -> str:
        """Key of the crop, where it is one."""
        keys = {plot.sheet.key for plot in self.plots}
        return keys.pop() if len(keys) == 1 else ""

    def years_by(self, days: int) -> float:
        """Mean share of years in which it can harm them within so many days."""
        return float(self.meets[:, : days + 1].max(axis=1).mean())


def stakes(scene: Scene, found: tuple[Coming, ...], seen: tuple[Sighting, ...]) -> Iterator[Stake]:
    """Every trouble in every bed in which it can harm something within the days looked ahead."""
    for each in found:
        if each.trouble.kind not in ("insect", "disease"):
            continue
        by_bed: dict[str, list[Plot]] = {}
        for plot in each.plots:
            by_bed.setdefault(plot.bed_key, []).append(plot)
        for key, plots in by_bed.items():
            bed = scene.beds.get(key)
            if bed is not None:
                yield _stake(scene, each, bed, tuple(plots), seen)


def _stake(
    scene: Scene, each: Coming, bed: Bed, plots: tuple[Plot, ...], seen: tuple[Sighting, ...]
) -> Stake:
    meets = np.max(np.stack([each.meets[plot.key] for plot in plots]), axis=0)
    last = last_seen(seen, each.trouble.key, bed.key)
    ago = None if last is None else (scene.today - last).days
    looked = last_looked(seen, each.trouble.key, bed.key)
    every = round(each.trouble.scout.every_days.value)
    due = 0 if looked is None else max(every - (scene.today - looked).days, 0)
    daily = _begins(scene, each, meets)
    if ago is not None and ago <= LATELY_DAYS:
        daily = daily * SEEN_FACTOR
    daily[:, :due] = 0.0  # what a look has just settled
    begun = np.cumsum(daily, axis=-1)
    lost = np.cumsum(begun * UNSEEN_COST, axis=-1)
    loss = never_falling(np.minimum(lost - lost[:, :1], 1.0))
    return Stake(coming=each, bed=bed, plots=plots, meets=meets, loss=loss, due_in=due, seen_ago=ago)


def _begins(scene: Scene, each: Coming, meets: Floats) -> Floats:
    """Chance that harm begins to show on each of the coming days, [year, day]."""
    usual, rule = each.trouble.usual.value, each.trouble.rule
    if each.trouble.kind == "insect" or rule not in USUAL_DAYS:
        return usual * meets / HARM_DAYS
    # what infected on a day shows when its time is up
    latent, days = LATENT_DAYS[rule], meets.shape[1]
    shows = np.zeros((meets.shape[0], days))
    for alert in each.alerts:
        first = latent - (scene.today - alert).days
        if first < days:
            shows[:, max(first, 0)] += 1.0
    if latent < days:
        shows[:, latent:] += meets[:, : days - latent]
    harmed = (meets > 0.0).any(axis=1, keepdims=True) | bool(each.alerts)
    found: Floats = usual * shows * harmed / USUAL_DAYS[rule]
    return found


def chance_by_weather(each: Coming) -> float:
    """Chance that a disease has come by the infection weather of the last fortnight."""
    usual = min(each.trouble.usual.value, 0.99)
    days = USUAL_DAYS.get(each.trouble.rule, 5.0)
    return float(-np.expm1(np.log1p(-usual) * min(len(each.alerts) / days, MOST_SEASONS)))


def after_clean_look(chance: float, plants: float, *, showing: float = 0.2) -> float:
    """What a clean look at so many plants leaves of a chance.

    Parameters
    ----------
    chance : float
    plants : float
        Looked at.
    showing : float
        Share of plants that show it where it is there and has had its time. Source: memory.
    """
    missed = (1.0 - showing) ** plants
    left: float = chance * missed / (chance * missed + 1.0 - chance)
    return left
