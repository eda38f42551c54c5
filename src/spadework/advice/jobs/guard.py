"""Guard tender plants and ripe crops: put up and move what keeps birds and animals off."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from spadework.advice.guarding import (
    BEASTS,
    FLOWERS,
    KEEPS_OFF,
    WALKERS,
    Threat,
    named,
    no_bees,
    seen_lately,
    shared_loss,
    threat,
    visits,
    who_eats,
)
from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.jobs import guard_off
from spadework.advice.jobs.guard_check import NET_CAUTION, check
from spadework.advice.odds import Fact
from spadework.advice.room import metres
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import never_falling, window_of
from spadework.garden.entries import KitSet, Moved, Payload
from spadework.garden.records import Bed, KitItem, Placed
from spadework.types import Bools, Floats

SHEETS: Final = ("netting", "mesh")
"""What is laid over a row."""

FIRST_CHOICE: Final = ("netting", "mesh", "screen", "scare")
"""What is put up, the best first; fleece is for warmth, and hot by day."""

SCREEN: Final = "screen of sticks and sacking"
STRIPS: Final = "string with fluttering strips"
"""What is made where nothing is owned, against those on foot and those that fly; from then on it is kit.
Source: common-practice."""

ON_FOOT: Final = (*WALKERS, "rabbits")
"""Whom a screen of about 60 cm keeps off. Source: common-practice."""

SCARE_DAYS: Final = 4
"""Days after which a scare device that stands still is no longer feared. Source: common-practice."""

SCARE_WORKS: Final = 0.5
"""Share of visits a scare device keeps away while it is new. Source: memory."""

WHOLE_M: Final = 0.3
"""A net that leaves less of a bed bare covers it whole. Our own rule."""


@dataclass(frozen=True, kw_only=True, eq=False)
class _Need:
    """Plantings of one bed that stand bare, for one net."""

    bed: Bed
    threats: tuple[Threat, ...]
    length_m: float
    loss: Floats

    @property
    def worth(self) -> float:
        return sum(each.plot.worth.value for each in self.threats)

    @property
    def planting(self) -> str:
        """The planting, where it is only one."""
        return self.threats[0].plot.key if len(self.threats) == 1 else ""

    @property
    def crop(self) -> str:
        crops = {each.plot.sheet.key for each in self.threats}
        return crops.pop() if len(crops) == 1 else ""

    @property
    def where(self) -> str:
        return f"{named([each.plot.name for each in self.threats])} in {self.bed.name}"

    @property
    def exposed(self) -> Bools:
        found: Bools = np.any([each.exposed > (0.0 if each.ripe else 0.1) for each in self.threats], axis=0)
        return found

    @property
    def saves_a_metre(self) -> float:
        return self.worth * float(self.loss[:, -1].mean()) / self.length_m


def jobs(scene: Scene) -> Iterator[Job]:
    """Beds to guard, one net for each, and guards to look at, move or take off."""
    seen = seen_lately(scene)
    needs: list[_Need] = []
    for bed in scene.beds.values():
        if bed.shape in ("tunnel", "frame", "shelf") or bed.inside or bed.gone_on is not None:
            continue
        plots = [plot for plot in scene.in_bed(bed.key) if not plot.indoors]
        found = [each for plot in plots if (each := threat(scene, plot, seen)) is not None]
        shut = [(each, placed) for each in found if (placed := _guard_over(scene, bed, each.plot))]
        if shut:
            job = check(scene, bed, [each for each, _ in shut], [placed for _, placed in shut])
            if job is not None:
                yield job
        bare = [each for each in found if _guard_over(scene, bed, each.plot) is None]
        scare = next(
            (placed for each in bare for placed in each.plot.covers if _sort(scene, placed) == "scare"), None
        )
        # where they came all the same, moving it on is not enough
        if bare and scare is not None and not any(each.known for each in bare):
            moved = _move(scene, _need(scene, bed, bare), scare)
            if moved is not None:
                yield moved
        elif bare:
            needs.append(_need(scene, bed, bare))
    short: list[guard_off.Wanted] = []
    for need, item in _shared(scene, needs):
        if item is None or item.sort == "scare":
            scared = item is None and "scare" not in _not_of(need)
            short.append(
                guard_off.Wanted(where=need.where, worth=need.worth, loss=need.loss, by_scare=scared)
            )
        yield _put_up(scene, need, item)
    yield from guard_off.jobs(scene, short)


def _sort(scene: Scene, placed: Placed) -> str:
    return scene.garden.kit[placed.item].sort


def _guard_over(scene: Scene, bed: Bed, plot: Plot) -> Placed | None:
    """What lies shut over a planting; a net shorter than its bed does not reach what came after it."""
    for placed in plot.covers:
        if _sort(scene, placed) not in KEEPS_OFF or placed.opened:
            continue
        short = (
            not placed.planting
            and placed.length_m is not None
            and bed.outline is not None
            and placed.length_m < bed.outline.length_m - WHOLE_M
        )
        if not (short and plot.planting.started_on > placed.since):
            return placed
    return None


def _need(scene: Scene, bed: Bed, threats: Sequence[Threat]) -> _Need:
    return _Need(
        bed=bed, threats=tuple(threats), length_m=_length_m(scene, bed, threats), loss=shared_loss(threats)
    )


def _length_m(scene: Scene, bed: Bed, threats: Sequence[Threat]) -> float:
    """Metres of bed from the first of them to the last, as they are known or assumed to stand."""
    keys = {each.plot.key for each in threats}
    laid = [each for each in scene.garden.laid_out(bed.key, scene.today) if each.planting in keys]
    ends = [(block.along_m, block.along_m + block.length_m) for each in laid for block in each.blocks]
    ends += [(along, along + 0.5) for each in laid for _, along in each.spots]
    if bed.outline is None:
        return max(sum(metres(each.plot) or 1.0 for each in threats), 0.5)
    whole = bed.outline.length_m
    if not ends or len({each.planting for each in laid if each.blocks or each.spots}) < len(keys):
        return round(whole, 1)
    reach = max(end for _, end in ends) - min(begin for begin, _ in ends)
    return round(whole if reach > whole - WHOLE_M else max(reach, 0.5), 1)


def _shared(scene: Scene, needs: Sequence[_Need]) -> Iterator[tuple[_Need, KitItem | None]]:
    """What the garden owns and has free, given where a metre saves most; None where nothing is left."""
    free_m = {item.item: item.free_m for item in scene.garden.kit.values()}
    pieces = {item.item: item.free_pieces for item in scene.garden.kit.values()}
    for need in sorted(needs, key=lambda each: (-each.saves_a_metre, each.bed.key)):
        not_of = _not_of(need)
        best: KitItem | None = None
        for sort in FIRST_CHOICE:
            if best is not None or sort in not_of:
                continue
            for item in scene.garden.kit.values():
                left_m, left = free_m[item.item], pieces[item.item]
                enough = (left_m is None or left_m >= need.length_m) and (left is None or left >= 1)
                if item.sort == sort and enough:
                    best = item
                    break
        if best is not None:
            left_m, left = free_m[best.item], pieces[best.item]
            free_m[best.item] = None if left_m is None else left_m - need.length_m
            pieces[best.item] = None if left is None else left - 1
        yield need, best


def _not_of(need: _Need) -> tuple[str, ...]:
    """Sorts that do not serve: what beasts do not fear, and what shuts bees out of flowers."""
    beasts = any(name in BEASTS for each in need.threats for name in each.eaters)
    flowers = any(float(no_bees(each.plot)[:, 0].mean()) >= FLOWERS for each in need.threats)
    return (
        *(("scare",) if beasts else ()),
        *(("mesh",) if flowers else ()),
        *(() if _on_foot(need) else ("screen",)),
    )


def _on_foot(need: _Need) -> float:
    """Share of the kinds that eat there which come on foot."""
    eaters = {name for each in need.threats for name in each.eaters}
    return len(eaters & set(ON_FOOT)) / len(eaters)


def _works(need: _Need, sort: str) -> float:
    """Share of the visits that a sort of guard keeps away."""
    if sort == "scare":
        return SCARE_WORKS
    return _on_foot(need) if sort == "screen" else 1.0


def _put_up(scene: Scene, need: _Need, item: KitItem | None) -> Job:
    made: Literal["screen", "scare"] = "screen" if _on_foot(need) else "scare"
    sort = made if item is None else item.sort
    if item is None:
        what = f"a {SCREEN} about 60 cm high round" if made == "screen" else f"a {STRIPS} over"
    elif sort == "scare":
        what = f"the {item.item} by"
    else:
        metric = "" if item.length_m is None else f"{need.length_m:g} m of "
        what = f"{metric}{item.item} {'over' if sort in SHEETS else 'round'}"
    loss = never_falling(need.loss * _works(need, sort))
    known = [name for each in need.threats for name in each.known]
    return Job(
        id=f"guard-{need.bed.key}-up",
        kind="guard",
        act=f"Put {what} the {need.where}",
        bed=need.bed.key,
        planting=need.planting,
        crop=need.crop,
        minutes=scene.pace.minutes("guard", need.length_m),
        worth=need.worth,
        loss=loss,
        window=window_of(loss, need.exposed, scene.today, scene.made),
        reason=_reason(need, sort),
        facts=(
            *(each.fact for each in need.threats),
            Fact(name="chance of a visit a day", value=round(visits(known), 3), source="memory"),
        ),
        cautions=(NET_CAUTION,) if sort in SHEETS else (),
        strains=("stooping",),
        take=()
        if item is None
        else (Take(what=item.item, length_m=None if item.length_m is None else need.length_m, pieces=None),),
        done=_on(need, item, made),
        settles=f"guard:{need.bed.key}",
    )


def _on(need: _Need, item: KitItem | None, made: Literal["screen", "scare"]) -> tuple[Payload, ...]:
    if item is None:
        name = SCREEN if made == "screen" else STRIPS
        return (KitSet(item=name, sort=made), Moved(act="on", item=name))
    counted = item.length_m is None
    pieces = 1 if counted and item.pieces is not None else None
    return (Moved(act="on", item=item.item, length_m=None if counted else need.length_m, pieces=pieces),)


def _reason(need: _Need, sort: str) -> str:
    young = [each for each in need.threats if not each.ripe]
    ripe = [each.plot.name for each in need.threats if each.ripe]
    parts = []
    if young:
        low, high = min(each.days for each in young), max(each.days for each in young)
        span = f"{low}" if low == high else f"{low} to {high}"
        more = "" if high <= AHEAD_DAYS else " or more"
        which = f"The {named([each.plot.name for each in young])} are" if ripe else "They are"
        parts.append(f"{which} tender for about {span} days{more}")
    if ripe:
        parts.append(f"the {named(ripe)} are ripe or nearly" if young else "They are ripe or nearly")
    known = any(each.known for each in need.threats)
    seen = ", and were seen here this month" if known else " where they can reach them"
    how = ""
    if sort == "screen" and all(name in WALKERS for each in need.threats for name in each.eaters):
        how = " Birds that walk do not go in where they cannot see the plants."
    elif sort == "scare":
        how = f" Move it every {SCARE_DAYS} days, or it is no longer feared."
    return f"{'; '.join(parts)}: {who_eats(need.threats)} take them{seen}.{how}"


def _move(scene: Scene, need: _Need, placed: Placed) -> Job | None:
    moved = [
        entry.happened_on
        for entry in need.bed.history
        if isinstance(entry.act, Moved) and entry.act.item == placed.item
    ]
    since = max([placed.since, *moved])
    ago = (scene.today - since).days
    if ago < SCARE_DAYS - 1:
        return None
    feared = np.clip((ago + np.arange(AHEAD_DAYS + 1) - SCARE_DAYS + 1.0) / SCARE_DAYS, 0.0, 1.0)[None, :]
    lost = never_falling(need.loss * SCARE_WORKS * feared)
    return Job(
        id=f"guard-{need.bed.key}-move",
        kind="guard",
        act=f"Move the {placed.item} by the {need.where}",
        bed=need.bed.key,
        planting=placed.planting,
        crop=need.crop,
        minutes=scene.pace.minutes("guard check", 1.0),
        worth=need.worth,
        loss=lost,
        window=window_of(lost, need.exposed, scene.today, scene.made),
        reason=(
            f"It has stood there for {ago} days, and {who_eats(need.threats)} stop fearing what does not "
            f"move after about {SCARE_DAYS}."
        ),
        facts=(
            Fact(name="days in one place", value=float(ago), unit="day", source="the book"),
            Fact(name="days it is feared", value=float(SCARE_DAYS), unit="day", source="common-practice"),
        ),
        done=(
            Moved(act="off", item=placed.item, length_m=placed.length_m, pieces=placed.pieces),
            Moved(act="on", item=placed.item, length_m=placed.length_m, pieces=placed.pieces),
        ),
        settles=f"guard:{need.bed.key}",
    )
