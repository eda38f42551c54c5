"""Guard tender plants and ripe crops: put up, check and move what keeps birds and animals off."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.odds import Caution, Fact
from spadework.advice.room import metres
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import ahead, net_of, never_falling, window_of
from spadework.crops.care_fields import EATERS
from spadework.garden.entries import Moved, Payload, Seen, Tended
from spadework.garden.records import KitItem, Placed
from spadework.types import Floats

CRAWLERS: Final = ("slugs", "cutworms", "flea beetles", "mice", "voles", "gophers")
"""Eaters that a net or a screen does not keep off."""

WALKERS: Final = ("quail", "pheasants", "larks", "crows", "blackbirds", "starlings")
"""Birds that come on foot. Source: common-practice."""

BEASTS: Final = ("rabbits", "deer", "groundhogs", "squirrels", "raccoons")

KEEPS_OFF: Final = ("netting", "mesh", "fleece", "film", "screen")
SHEETS: Final = ("netting", "mesh", "fleece")
"""Kit that shuts eaters out, and what of it is laid over a row."""

FIRST_CHOICE: Final = ("netting", "mesh", "screen", "fleece", "scare")

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

RIPE_CHANCE: Final = 0.3
"""Chance to be ready within a week from which a crop is guarded as ripe. Our own rule."""

SCARE_DAYS: Final = 4
"""Days after which a scare device that stands still is no longer feared. Source: common-practice."""

SCARE_WORKS: Final = 0.5
"""Share of visits a scare device keeps away while it is new. Source: memory."""

LEAST_DAYS: Final = 3
"""What is tender for less long is not guarded any more. Our own rule."""

CHECK_DAYS: Final = 3
GAP: Final = 0.02
"""Days after which a net or screen is looked at again, and the chance a day that wind or an animal has opened
it. Source: memory."""

NET_CAUTION = Caution(
    "Pull netting taut, peg it all round and look at it daily: loose netting traps birds, "
    "hedgehogs and snakes.",
    "common-practice",
)


def jobs(scene: Scene) -> Iterator[Job]:
    """Plantings to guard, and guards to look at or move."""
    seen = _seen(scene)
    for plot in scene.plots:
        if plot.bed is None or plot.indoors or plot.bed.shape in ("tunnel", "frame") or plot.bed.inside:
            continue
        job = _guard(scene, plot, seen)
        if job is not None:
            yield job


def _seen(scene: Scene) -> frozenset[str]:
    """Eaters whose damage was seen lately."""
    told = " ".join(
        entry.act.what.casefold()
        for entry in scene.garden.entries
        if isinstance(entry.act, Seen) and 0 <= (scene.today - entry.happened_on).days <= SEEN_DAYS
    )
    birds = "bird" in told
    return frozenset(
        each
        for each in EATERS
        if each in told or each.rstrip("s") in told or (birds and each not in (*CRAWLERS, *BEASTS))
    )


def tender(plot: Plot) -> Floats:
    """Whether it is up and not yet outgrown what eats it, on each of the coming days, [year, day]."""
    section = plot.sheet.guard
    age = plot.column + np.arange(AHEAD_DAYS + 1)[None, :] - plot.course.begin_day[:, None]
    young = (age >= 0) & (age <= section.tender_days.value)
    if section.until_leaves is not None:
        young &= ahead(plot.course.leaves, plot.column) < section.until_leaves.value
    eaters = [each for each in section.eaten_by if each not in CRAWLERS]
    if eaters and all(each in WALKERS for each in eaters):
        young &= age <= TOUGH_DAYS
    found: Floats = young.astype(np.float64)
    return found


def _guard(scene: Scene, plot: Plot, seen: frozenset[str]) -> Job | None:
    section = plot.sheet.guard
    young = tender(plot)
    eaters = [each for each in section.eaten_by if each not in CRAWLERS]
    ripe = False
    left = np.median(young.sum(axis=1))
    if not eaters or left < LEAST_DAYS or float(young[:, :4].max(axis=1).mean()) < 0.5:
        takers = [each for each in section.ripe_by if each not in CRAWLERS]
        ready = ahead(plot.course.ready, plot.column)
        if not takers or float(ready[:, 7].mean()) < RIPE_CHANCE or plot.planting.picking_over:
            return None
        eaters, ripe = takers, True
        exposed = ready
    else:
        exposed = young
    known = [each for each in eaters if each in seen]
    chance = VISIT * (SEEN_FACTOR if known else 1.0)
    # the share a visit takes, times the chance that one came on a day before
    by_day = np.cumsum(exposed * chance, axis=-1) - exposed * chance
    come = -np.expm1(-by_day)
    lost = TAKEN * come
    loss = lost if ripe else net_of(lost, scene.start_anew(plot.sheet))
    on = [placed for placed in plot.covers if scene.garden.kit[placed.item].sort in (*KEEPS_OFF, "scare")]
    shut = [each for each in on if scene.garden.kit[each.item].sort in KEEPS_OFF and not each.opened]
    if shut:
        return _check(scene, plot, shut[0], loss, exposed, eaters)
    scare = next((each for each in on if scene.garden.kit[each.item].sort == "scare"), None)
    if scare is not None and not known:
        return _move(scene, plot, scare, loss, exposed, eaters)
    return _put_up(scene, plot, loss, exposed, eaters, known, ripe, chance)


def _named(eaters: list[str], known: list[str] | None = None) -> str:
    first = known or eaters
    return " and ".join(first[:2])


def _facts(plot: Plot, exposed: Floats, chance: float, ripe: bool) -> tuple[Fact, ...]:
    section = plot.sheet.guard
    left = float(np.median(exposed.sum(axis=1)))
    return (
        Fact(
            name="ripe days ahead" if ripe else "tender days ahead",
            value=round(left),
            unit="day",
            law="course and the sheet's tender days",
            source=section.tender_days.receipt,
        ),
        Fact(name="chance of a visit a day", value=round(chance, 3), source="memory"),
    )


def _length(plot: Plot) -> float:
    """Metres of net for a planting: one bed's length, or its row."""
    if plot.bed is not None and plot.bed.outline is not None:
        area, whole = plot.planting.area_m2, plot.bed.area_m2
        share = 1.0 if area is None or not whole else min(area / whole, 1.0)
        return round(max(plot.bed.outline.length_m * share, 0.5), 1)
    return metres(plot) or 1.0


def _free(scene: Scene, length: float, eaters: list[str]) -> KitItem | None:
    """What the garden owns and has free that serves, the best first."""
    beasts = any(each in BEASTS for each in eaters)
    for sort in FIRST_CHOICE:
        if beasts and sort == "scare":
            continue
        for item in scene.garden.kit.values():
            if item.sort != sort:
                continue
            if item.free_m is not None and item.free_m < length:
                continue
            if item.free_pieces is not None and item.free_pieces < 1:
                continue
            return item
    return None


def _put_up(
    scene: Scene,
    plot: Plot,
    loss: Floats,
    exposed: Floats,
    eaters: list[str],
    known: list[str],
    ripe: bool,
    chance: float,
) -> Job:
    length = _length(plot)
    item = _free(scene, length, eaters)
    sort = "" if item is None else item.sort
    if item is None:
        what = "a screen of sticks and sacking about 60 cm high round"
    elif sort == "scare":
        what = f"{item.item} by"
    else:
        what = f"{item.item} over" if sort in SHEETS else f"{item.item} round"
    spread = never_falling(loss * (SCARE_WORKS if sort == "scare" else 1.0))
    days = int(np.median(exposed.sum(axis=1)))
    more = "" if days <= AHEAD_DAYS else " or more"
    stands = "They are ripe or nearly" if ripe else f"They are tender for about {days} days{more}"
    why = f"{_named(eaters, known)} take them" + (
        ", and were seen here this month" if known else " where they can reach them"
    )
    how = ""
    if item is None and all(each in WALKERS for each in eaters):
        how = " Birds that walk do not go in where they cannot see the plants."
    elif sort == "scare":
        how = f" Move it every {SCARE_DAYS} days, or it is no longer feared."
    moved: tuple[Payload, ...] = ()
    if item is not None:
        counted = item.length_m is None
        moved = (
            Moved(
                act="on",
                item=item.item,
                length_m=None if counted else length,
                pieces=1 if counted and item.pieces is not None else None,
            ),
        )
    else:
        moved = (Tended(act="supported", material="screen"),)
    return Job(
        id=f"guard-{plot.key}-up" if not ripe else f"guard-{plot.key}-ripe",
        kind="guard",
        act=f"Put {what} {plot.name} in {plot.where}",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("guard", length, kind="guard"),
        worth=plot.worth.value,
        loss=spread,
        window=window_of(spread, exposed > (0.1 if ripe else 0.0), scene.today, scene.made),
        reason=f"{stands}: {why}.{how}",
        facts=_facts(plot, exposed, chance, ripe),
        cautions=(NET_CAUTION,) if sort in ("netting", "mesh") else (),
        strains=("stooping",),
        take=()
        if item is None
        else (Take(what=item.item, length_m=None if item.length_m is None else length, pieces=None),),
        done=moved,
        settles=f"guard:{plot.key}",
    )


def _check(
    scene: Scene, plot: Plot, placed: Placed, loss: Floats, exposed: Floats, eaters: list[str]
) -> Job | None:
    looked = scene.garden.last_done("looked over", bed=plot.bed_key)
    since = max(placed.since, looked or placed.since)
    ago = (scene.today - since).days
    if ago < CHECK_DAYS:
        return None
    # only a gap lets anything in, and gaps become likelier the longer nobody looked
    gap = -np.expm1(-GAP * (ago + np.arange(AHEAD_DAYS + 1)))[None, :]
    open_loss = never_falling(loss * gap)
    return Job(
        id=f"guard-{plot.key}-check",
        kind="guard",
        act=f"Look at the {placed.item} over {plot.name} in {plot.where}, and peg down its gaps",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("guard check", 1.0, kind="guard"),
        worth=plot.worth.value,
        loss=open_loss,
        window=window_of(open_loss, exposed > 0.0, scene.today, scene.made),
        reason=f"Nobody is known to have looked at it for {ago} days, and {_named(eaters)} use every gap.",
        facts=(
            Fact(name="days since it was looked at", value=float(ago), unit="day", source="the book"),
            Fact(name="chance of a gap opening a day", value=GAP, source="memory"),
        ),
        cautions=(NET_CAUTION,),
        strains=("stooping",),
        done=(Tended(act="looked over"),),
    )


def _move(
    scene: Scene, plot: Plot, placed: Placed, loss: Floats, exposed: Floats, eaters: list[str]
) -> Job | None:
    moved = [
        entry.happened_on
        for entry in (*scene.garden.history(plot.key), *(plot.bed.history if plot.bed else ()))
        if isinstance(entry.act, Moved) and entry.act.item == placed.item
    ]
    since = max([placed.since, *moved])
    ago = (scene.today - since).days
    if ago < SCARE_DAYS - 1:
        return None
    feared = np.clip((ago + np.arange(AHEAD_DAYS + 1) - SCARE_DAYS + 1.0) / SCARE_DAYS, 0.0, 1.0)[None, :]
    lost = never_falling(loss * SCARE_WORKS * feared)
    return Job(
        id=f"guard-{plot.key}-move",
        kind="guard",
        act=f"Move the {placed.item} by {plot.name} in {plot.where}",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("guard check", 1.0, kind="guard"),
        worth=plot.worth.value,
        loss=lost,
        window=window_of(lost, exposed > 0.0, scene.today, scene.made),
        reason=(
            f"It has stood there for {ago} days, and {_named(eaters)} stop fearing what does not move after "
            f"about {SCARE_DAYS}."
        ),
        facts=(
            Fact(name="days in one place", value=float(ago), unit="day", source="the book"),
            Fact(name="days it is feared", value=float(SCARE_DAYS), unit="day", source="common-practice"),
        ),
        done=(
            Moved(act="off", item=placed.item, length_m=placed.length_m, pieces=placed.pieces),
            Moved(act="on", item=placed.item, length_m=placed.length_m, pieces=placed.pieces),
        ),
    )
