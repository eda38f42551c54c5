"""What birds and animals may take of a planting in the coming days, while it is tender or hangs ripe."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS
from spadework.advice.odds import Fact
from spadework.advice.ripe import lost_by
from spadework.advice.scene import Plot, Scene
from spadework.advice.seedbed import sown_again_share
from spadework.advice.waiting import ahead, net_of
from spadework.crops.care_fields import EATERS
from spadework.garden.entries import Seen
from spadework.types import Floats

CRAWLERS: Final = ("slugs", "cutworms", "flea beetles", "mice", "voles", "gophers")
"""Eaters that a net or a screen does not keep off."""

WALKERS: Final = ("quail", "pheasants", "larks", "crows", "blackbirds", "starlings")
"""Birds that come on foot. Source: common-practice."""

BEASTS: Final = ("rabbits", "deer", "groundhogs", "squirrels", "raccoons")

KEEPS_OFF: Final = ("netting", "mesh", "fleece", "film", "screen")
"""Kit that shuts eaters out."""

VISIT: Final = 0.03
"""Chance of a visit to unguarded tender plants, by day. Source: memory."""

SEEN_FACTOR: Final = 3.0
SEEN_DAYS: Final = 30
"""How much likelier visits are where such damage was seen in the garden so lately. Source: memory."""

TAKEN: Final = 0.6
"""Share of the young plants a visit takes, or of the ripe crop over a week. Source: memory."""

TOUGH_DAYS: Final = 21
"""Days after emergence from which walking birds leave seedlings alone. Source: common-practice: they toughen
within two to three weeks."""

SHOOTS: Final = 0.02
"""Share of the way to ready from which a plant that stands for years has young leaves again. Our own rule."""

RIPE_CHANCE: Final = 0.3
"""Chance to be ready within a week from which a crop is guarded as ripe. Our own rule."""

LEAST_DAYS: Final = 3
"""What is tender for less long is not guarded any more. Our own rule."""

GONE: Final = 0.5
"""Chance that nothing is left of it from which nothing is guarded. Our own rule."""

FLOWERS: Final = 0.5
"""Chance to flower from which what shuts bees out is not laid. Our own rule."""

STAYS_DAYS: Final = 14
"""A guard stays where the crop is ripe within so many days. Our own rule."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Threat:
    """What may be taken of one planting.

    Parameters
    ----------
    plot : Plot
    eaters : tuple of str
        Those a guard keeps off.
    known : tuple of str
        Those of them whose damage was seen lately.
    ripe : bool
        Its crop is at stake, not its young plants.
    exposed : array, shape (year, AHEAD_DAYS + 1)
        Whether it stands to be eaten on a day.
    loss : array, shape (year, AHEAD_DAYS + 1)
        Share of its worth taken by a day if nothing guards it, net of starting anew.
    """

    plot: Plot
    eaters: tuple[str, ...]
    known: tuple[str, ...]
    ripe: bool
    exposed: Floats
    loss: Floats

    @property
    def days(self) -> int:
        """Days it is exposed of those looked ahead, at the middle of the years."""
        return int(np.median(self.exposed.sum(axis=1)))

    @property
    def fact(self) -> Fact:
        """How long, with where it comes from."""
        return Fact(
            name=f"{'ripe' if self.ripe else 'tender'} days ahead, {self.plot.name}",
            value=self.days,
            unit="day",
            law="course and the sheet's tender days",
            source=self.plot.sheet.guard.tender_days.receipt,
        )


def visits(known: Sequence[str]) -> float:
    """Chance of a visit by day."""
    return VISIT * (SEEN_FACTOR if known else 1.0)


def seen_lately(scene: Scene) -> frozenset[str]:
    """Eaters whose damage was seen lately."""
    told = " ".join(
        entry.act.what.casefold()
        for entry in scene.garden.entries
        if isinstance(entry.act, Seen)
        and entry.act.plants != 0
        and 0 <= (scene.today - entry.happened_on).days <= SEEN_DAYS
    )
    birds = "bird" in told
    return frozenset(
        each
        for each in EATERS
        if each in told or each.rstrip("s") in told or (birds and each not in (*CRAWLERS, *BEASTS))
    )


def tender(plot: Plot, *, at_the_longest: bool = False) -> Floats:
    """Whether it is up and not yet outgrown what eats it, on each of the coming days, [year, day].

    Parameters
    ----------
    plot : Plot
    at_the_longest : bool
        By the long end of the sheet's days, whatever its leaves: a net is in no hurry to come off.
    """
    section = plot.sheet.guard
    days = section.tender_days
    longest = days.value if not at_the_longest or days.high is None else days.high
    begins = plot.course.begin_day
    if plot.planting.perennial:
        shoots = plot.course.way >= SHOOTS
        begins = np.where(shoots.any(axis=1), shoots.argmax(axis=1), shoots.shape[1] + AHEAD_DAYS)
    age = plot.column + np.arange(AHEAD_DAYS + 1)[None, :] - begins[:, None]
    young = (age >= 0) & (age <= longest)
    # set out they have leaves, and are soft and new to the place all the same
    if section.until_leaves is not None and plot.course.sprout is not None and not at_the_longest:
        young &= ahead(plot.course.leaves, plot.column) < section.until_leaves.value
    eaters = _kept_off(section.eaten_by)
    if eaters and all(each in WALKERS for each in eaters) and not at_the_longest:
        young &= age <= TOUGH_DAYS
    found: Floats = young.astype(np.float64)
    return found


def threat(scene: Scene, plot: Plot, seen: frozenset[str]) -> Threat | None:
    """What may be taken of a planting; None where nothing is tender or ripe, or nothing is left of it.

    Parameters
    ----------
    scene : Scene
    plot : Plot
    seen : frozenset of str
        From `seen_lately`.
    """
    section = plot.sheet.guard
    if any(float(chance.mean()) >= GONE for chance in lost_by(plot, plot.column).values()):
        return None
    eaters, exposed, ripe = _kept_off(section.eaten_by), tender(plot), False
    soon = float(exposed[:, :4].max(axis=1).mean())
    if not eaters or soon < 0.5 or np.median(exposed.sum(axis=1)) < LEAST_DAYS:
        eaters, exposed, ripe = _kept_off(section.ripe_by), ahead(plot.course.ready, plot.column), True
        if not eaters or float(exposed[:, 7].mean()) < RIPE_CHANCE or plot.planting.picking_over:
            return None
    known = tuple(each for each in eaters if each in seen)
    # the share a visit takes, times the chance that one came on a day before
    by_day = np.cumsum(exposed * visits(known), axis=-1) - exposed * visits(known)
    lost = TAKEN * -np.expm1(-by_day)
    return Threat(
        plot=plot,
        eaters=eaters,
        known=known,
        ripe=ripe,
        exposed=exposed,
        loss=lost if ripe else _net(scene, plot, lost),
    )


def _net(scene: Scene, plot: Plot, lost: Floats) -> Floats:
    """What eaters take of young plants, less what starting anew would still bring: later, with new seed."""
    behind = float((scene.today - plot.planting.grows_since).days)
    return net_of(lost, sown_again_share(scene, plot.sheet, behind))


def idle(plot: Plot) -> bool:
    """Whether a guard serves it no more: it has outgrown its eaters, and nothing for them ripens soon."""
    section = plot.sheet.guard
    young = tender(plot, at_the_longest=True)
    if _kept_off(section.eaten_by) and np.median(young.sum(axis=1)) >= LEAST_DAYS:
        return False
    if not _kept_off(section.ripe_by) or plot.planting.picking_over:
        return True
    ready = ahead(plot.course.ready, plot.column)
    return float(ready[:, STAYS_DAYS].mean()) < RIPE_CHANCE


def no_bees(plot: Plot) -> Floats:
    """Chance that it flowers and hangs on visits by bees, on each of the coming days, [year, day]."""
    if plot.sheet.bees.uncover != "yes":
        return np.zeros((plot.course.way.shape[0], AHEAD_DAYS + 1))
    found: Floats = np.nan_to_num(ahead(plot.course.flowering, plot.column))
    return found


def shared_loss(threats: Sequence[Threat]) -> Floats:
    """Share lost of the worth of several together, [year, day]."""
    worths = np.array([max(each.plot.worth.value, 1e-9) for each in threats])
    weights = (worths / worths.sum())[:, None, None]
    found: Floats = (weights * np.stack([each.loss for each in threats])).sum(axis=0)
    return found


def named(names: Sequence[str]) -> str:
    """Names in a row: "peas, spinach and lettuce"."""
    once = list(dict.fromkeys(names))
    return once[0] if len(once) == 1 else f"{', '.join(once[:-1])} and {once[-1]}"


def who_eats(threats: Sequence[Threat]) -> str:
    """The eaters in words, those seen here first."""
    known = [name for each in threats for name in each.known]
    eaters = [name for each in threats for name in each.eaters]
    return named(list(dict.fromkeys(known or eaters))[:2])


def _kept_off(eaters: Sequence[str]) -> tuple[str, ...]:
    return tuple(each for each in eaters if each not in CRAWLERS)
