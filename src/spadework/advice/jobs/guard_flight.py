"""Cover before a flight: fine net on before an insect lays, and never over one that is in the soil."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.advice.coming_words import event_text
from spadework.advice.flying_in import HARM, left_in_soil
from spadework.advice.guarding import FLOWERS, named, no_bees
from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.keeps_out import may_keep_out
from spadework.advice.odds import Caution, Fact
from spadework.advice.room import metres
from spadework.advice.scene import Scene
from spadework.advice.stakes import Stake, stakes
from spadework.advice.waiting import never_falling, window_of
from spadework.advice.watching import coming, seen_this_season
from spadework.garden.entries import Moved
from spadework.garden.records import Bed, KitItem
from spadework.types import Floats

FIRST_CHOICE: Final = ("mesh", "fleece")
"""Fabric that keeps flying insects out; fleece is hotter by day. Source: common-practice."""

SOON_DAYS: Final = 10
LIKELY: Final = 0.3
"""A cover goes on where the flight comes within so many days in so many of the years. Our own rule."""

KEEPS_AWAY: Final = 0.8
"""Share of the harm a cover keeps away that is on before the flight, edges held down. Source: memory."""

CAUTION: Final = Caution(
    "Bury or weigh down every edge, and look under it each week: what is shut in has no enemies there.",
    "common-practice",
)


@dataclass(frozen=True, kw_only=True, eq=False)
class _Need:
    bed: Bed
    stakes: tuple[Stake, ...]

    @property
    def most(self) -> Stake:
        """The one with most at stake, whose flight is spoken of."""
        return max(self.stakes, key=lambda each: each.at_stake)

    @property
    def worth(self) -> float:
        plots = {plot.key: plot for each in self.stakes for plot in each.plots}
        return sum(plot.worth.value for plot in plots.values())


def jobs(scene: Scene) -> Iterator[Job]:
    """Beds to cover before a flight, with what the garden owns and has free."""
    seen = seen_this_season(scene)
    by_bed: dict[str, list[Stake]] = {}
    for stake in stakes(scene, coming(scene, AHEAD_DAYS), seen):
        if may_cover(scene, stake):
            by_bed.setdefault(stake.bed.key, []).append(stake)
    needs = [_Need(bed=each[0].bed, stakes=tuple(each)) for each in by_bed.values()]
    free_m = {item.item: item.free_m for item in scene.garden.kit.values()}
    for need in sorted(needs, key=lambda each: (-each.most.at_stake, each.bed.key)):
        length = _length_m(need)
        item = _free(scene, free_m, length, need)
        if item is not None:
            left = free_m[item.item]
            free_m[item.item] = None if left is None else left - length
            yield _cover(scene, need, item, length)


def may_cover(scene: Scene, stake: Stake) -> bool:
    """Whether a cover would keep it out: it flies in, soon, and no earlier host left it in this bed."""
    trouble = stake.coming.trouble
    if trouble.kind != "insect" or trouble.mesh_mm is None or stake.bed.shape in ("tunnel", "frame", "shelf"):
        return False
    if stake.seen_ago is not None or stake.years_by(0) >= LIKELY:
        return False  # it is about already
    if float(stake.coming.flies_within(SOON_DAYS).mean()) < LIKELY:
        return False
    if any(float(no_bees(plot)[:, :SOON_DAYS].max(axis=1).mean()) >= FLOWERS for plot in stake.plots):
        return False
    if any(plot.covers for plot in stake.plots):
        return False
    return not left_in_soil(scene, trouble, stake.bed, {plot.key for plot in stake.plots})


def _length_m(need: _Need) -> float:
    plots = {plot.key: plot for each in need.stakes for plot in each.plots}
    whole = None if need.bed.outline is None else need.bed.outline.length_m
    own = max((metres(plot) or 1.0 for plot in plots.values()), default=1.0)
    return round(own if whole is None else min(own, whole), 1)


def _free(scene: Scene, free_m: dict[str, float | None], length_m: float, need: _Need) -> KitItem | None:
    for sort in FIRST_CHOICE:
        for item in scene.garden.kit.values():
            left, pieces = free_m[item.item], item.free_pieces
            if item.sort != sort or (left is not None and left < length_m):
                continue
            if not may_keep_out(item, need.most.coming.trouble):
                continue
            if left is not None or pieces is None or pieces >= 1:
                return item
    return None


def _cover(scene: Scene, need: _Need, item: KitItem, length_m: float) -> Job:
    stake, trouble = need.most, need.most.coming.trouble
    comes = np.maximum.accumulate(stake.meets, axis=1)
    # what flies in before the cover lies stays under it
    before = np.concatenate((np.zeros((comes.shape[0], 1)), comes[:, :-1]), axis=1)
    loss: Floats = never_falling(trouble.usual.value * HARM * KEEPS_AWAY * before)
    counted = item.length_m is None
    names = named([each.coming.trouble.name for each in need.stakes])
    clear = " No host before it left any in this bed's soil." if trouble.stays_in_soil else ""
    metric = "" if counted else f"{length_m:g} m of "
    return Job(
        id=f"guard-{need.bed.key}-flight",
        kind="guard",
        act=f"Put {metric}{item.item} over the {stake.crops} in {need.bed.name}, ahead of {names}",
        bed=need.bed.key,
        planting=stake.planting,
        crop=stake.crop,
        minutes=scene.pace.minutes("cover", length_m),
        worth=need.worth,
        loss=loss,
        window=window_of(loss, np.ones_like(loss, dtype=np.bool_), scene.today, scene.made),
        reason=f"{event_text(scene, stake.coming)}{clear}".strip(),
        facts=(
            Fact(
                name="chance that it comes within ten days",
                value=round(float(stake.coming.flies_within(SOON_DAYS).mean()), 2),
                law="the clock of its sheet, through the years",
                source="computed",
            ),
            Fact(name="share of the harm a cover keeps away", value=KEEPS_AWAY, source="memory"),
        ),
        cautions=(CAUTION,),
        strains=("stooping",),
        take=(Take(what=item.item, length_m=None if counted else length_m),),
        done=(
            Moved(
                act="on",
                item=item.item,
                length_m=None if counted else length_m,
                pieces=1 if counted and item.pieces is not None else None,
            ),
        ),
        settles=f"guard:{need.bed.key}",
    )
