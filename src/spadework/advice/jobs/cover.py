"""Cover for tonight's frost: where the leaf may pass its limit, by the worth each metre of cloth saves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.advice.cloth import Need, share_out
from spadework.advice.job import AHEAD_DAYS, Job, Take, Window
from spadework.advice.odds import Fact, odds_of
from spadework.advice.ripe import left_share
from spadework.advice.scene import Plot, Scene
from spadework.advice.tonight import killed_tonight, killed_under
from spadework.clock.cover import Cover
from spadework.clock.cover_kinds import cover_of
from spadework.garden.entries import Moved
from spadework.garden.records import Bed, Placed
from spadework.types import Floats

LEAST_CHANCE: Final = 0.05
"""Chance that tonight kills something from which a bed is covered: below it a look at sky and thermometer at
dusk settles more than cloth does. Our own rule."""

KG_A_MINUTE: Final = 0.02
"""What a cover must save for each minute of laying it and taking it up again, in kilograms of carrots: as
much as a minute of a person's own chores is held to bring. Our own rule."""

LAY_M_MIN: Final = 0.8
LAY_START_MIN: Final = 2.0
OFF_MIN: Final = 2.0
"""Minutes to lay and peg a metre of cloth, to fetch it, and to take it up next morning. Source:
common-practice."""

SHUT_MIN: Final = 1.0
"""Minutes to close a cover that lies open. Source: common-practice."""

RIPE: Final = 0.5


@dataclass(frozen=True, kw_only=True, eq=False)
class _Bed:
    """A bed that tonight may hurt: what is lost bare, and what under each piece of kit, [year]."""

    bed: Bed
    plots: tuple[Plot, ...]
    length_m: float
    worth: float
    killed: Floats
    bare: Floats
    under: dict[str, Floats]

    def saved(self, item: str) -> Floats:
        found: Floats = np.maximum(self.bare - self.under[item], 0.0)
        return found

    def pays(self, item: str, minutes: float) -> bool:
        """Whether what it saves is worth the minutes."""
        return self.worth * float(self.saved(item).mean()) >= KG_A_MINUTE * (minutes + OFF_MIN)

    @property
    def lay_min(self) -> float:
        return LAY_START_MIN + LAY_M_MIN * self.length_m


def jobs(scene: Scene) -> Iterator[Job]:
    """Beds to cover tonight, what saves most for each metre first."""
    items = {
        item.item: (cover, item.free_m)
        for item in scene.garden.kit.values()
        if item.described
        and (cover := cover_of(item.sort, item.grade, item.item)) is not None
        and cover.night_c > 0.0
    }
    covers = {item: cover for item, (cover, _) in items.items()}
    free = {item: metres for item, (_, metres) in items.items() if metres is not None and metres > 0.0}
    needs: dict[str, _Bed] = {}
    for bed in scene.beds.values():
        plots = scene.in_bed(bed.key)
        if not plots or not _in_the_open(bed):
            continue
        placed = [each for each in scene.garden.covers(bed=bed.key) if each.item in covers]
        if any(not each.opened for each in placed):
            continue
        found = _at_risk(scene, bed, plots, covers)
        if found is None:
            continue
        open_one = next((each for each in placed if not each.planting), None)
        if open_one is None:
            needs[bed.key] = found
        elif found.pays(open_one.item, SHUT_MIN):
            yield _job(scene, found, open_one.item, Moved(act="shut", item=open_one.item), "", open_one)
    asked = [
        Need(
            bed=key,
            length_m=each.length_m,
            saves={
                item: each.worth * float(each.saved(item).mean())
                for item in free
                if each.pays(item, each.lay_min)
            },
        )
        for key, each in needs.items()
        if any(each.pays(item, each.lay_min) for item in covers)
    ]
    shared = share_out(asked, free)
    bare = [needs[key].bed.name for key in shared.bare]
    for place, (key, item) in enumerate(shared.given, start=1):
        of = len(shared.given)
        order = f" It is number {place} of {of} by worth saved for each metre of cloth." if of > 1 else ""
        if bare:
            order += f" No cloth is left for {', '.join(bare)}: old sheets or sacking help there."
        act = Moved(act="on", item=item, length_m=needs[key].length_m)
        yield _job(scene, needs[key], item, act, order)


def _in_the_open(bed: Bed) -> bool:
    return bed.gone_on is None and not bed.inside and bed.shape not in ("tunnel", "frame", "shelf")


def _frost_does_no_harm(plot: Plot) -> bool:
    """Ready roots that stand in the ground lose only their tops, and crowns that rest come again."""
    ready = float(plot.course.ready[:, plot.column].mean()) >= RIPE
    rests = plot.planting.perennial and ready
    return rests or (ready and plot.sheet.harvest.standing_frost == "yes" and plot.sheet.kind == "root")


def _at_risk(scene: Scene, bed: Bed, plots: tuple[Plot, ...], covers: dict[str, Cover]) -> _Bed | None:
    plots = tuple(plot for plot in plots if not _frost_does_no_harm(plot))
    if not plots:
        return None
    worths = np.array([plot.worth.value * left_share(plot) for plot in plots])
    worth = float(worths.sum())
    # what earlier nights have killed in a year is not killed again
    alive = np.stack([1.0 - plot.course.lost_frost[:, plot.column] for plot in plots])
    told = scene.forecast_days > 0
    killed = alive * np.stack([killed_tonight(plot, forecast=told) for plot in plots])
    if worth <= 0.0 or float(killed.mean(axis=1).max()) < LEAST_CHANCE:
        return None
    anew = np.stack([1.0 - np.clip(scene.start_anew(plot.sheet)[:, 1], 0.0, 1.0) for plot in plots])
    weights = (worths / worth)[:, None] * anew
    under = {
        item: (weights * alive * np.stack([killed_under(plot, cover, forecast=told) for plot in plots])).sum(
            axis=0
        )
        for item, cover in covers.items()
    }
    length = bed.outline.length_m if bed.outline is not None else 1.0
    return _Bed(
        bed=bed,
        plots=plots,
        length_m=round(length, 1),
        worth=worth,
        killed=killed,
        bare=(weights * killed).sum(axis=0),
        under=under,
    )


def _job(scene: Scene, found: _Bed, item: str, act: Moved, order: str, lies: Placed | None = None) -> Job:
    worst = int(np.argmax(found.killed.mean(axis=1)))
    plot = found.plots[worst]
    loss = np.zeros((scene.years, AHEAD_DAYS + 1))
    # only tonight is looked at: from tomorrow on what it killed is gone
    loss[:, 1:] = found.saved(item)[:, None]
    killed = odds_of(found.killed[worst], scene.made)
    night = float(np.median(scene.tonight_c()))
    young = float(plot.course.way[:, plot.column].mean()) < 0.25
    limit = plot.sheet.frost.young_kill_c if young else plot.sheet.frost.kill_c
    ripe = [
        each.name
        for each, chance in zip(found.plots, found.killed.mean(axis=1), strict=True)
        if float(each.course.ready[:, each.column].mean()) >= RIPE
        and chance >= LEAST_CHANCE
        and not each.locked("picking")
    ]
    pick = f" Pick what is ripe of the {' and '.join(ripe)} first." if ripe else ""
    verb = "Close" if act.act == "shut" else "Lay"
    amount = "" if act.act == "shut" else f"{found.length_m:g} m of "
    minutes = SHUT_MIN if act.act == "shut" else found.lay_min
    return Job(
        id=f"cover-{found.bed.key}",
        kind="cover",
        act=f"{verb} {amount}{item} over {found.bed.name} before sunset, for tonight's frost",
        bed=found.bed.key,
        minutes=minutes,
        worth=found.worth,
        loss=loss,
        window=Window(opens=scene.today, best=scene.today, closes=scene.today),
        reason=(
            f"About {night:.0f} °C is to be expected at the thermometer, less at the leaf; bare, the "
            f"{plot.name} are killed in {killed.years_yes} of {killed.years} years, for they bear "
            f"{limit.value:g} °C. A cover may gain nothing on a single night.{pick}{order}"
        ),
        facts=(
            Fact(
                name=f"chance that the {plot.name} are killed tonight",
                value=killed.chance,
                law="frost at the leaf",
                source="computed",
            ),
            Fact(
                name=f"temperature that kills most, at the {plot.sheet.frost.measured_at}",
                value=limit.value,
                unit="degC",
                source=limit.receipt,
            ),
            Fact(
                name="share of the bed's worth saved by the cover, mean of the years",
                value=round(float(found.saved(item).mean()), 3),
                law="frost at the leaf, with a cover's gain from nothing to twice its mean",
                source="computed; spread of the gain: memory",
            ),
        ),
        needs=("before sunset",),
        strains=("stooping",),
        take=() if lies is not None else (Take(what=item, length_m=found.length_m),),
        test="Look at the sky at dusk: clear and still is colder at the leaf, wind and cloud milder.",
        done=(act,),
        settles=f"cover:{found.bed.key}",
    )
