"""What there is to sow: the next of what stands, and what the tin holds, each with its place and its seed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal
from weakref import WeakKeyDictionary

import numpy as np

from spadework.advice.free_places import Place, cut_from, usual_m2
from spadework.advice.ready_odds import usual_way
from spadework.advice.scene import Scene
from spadework.advice.stand_wanted import germination_of, seeds_per_m
from spadework.advice.succession import (
    USUAL_EVERY,
    NextSowing,
    feeds_days,
    last_ready,
    next_sowing,
    standing_of,
)
from spadework.advice.tray_places import tray_places
from spadework.advice.weigh_again import LATE_COST_PER_DAY
from spadework.advice.worth import value_kg_m2
from spadework.crops.forms import with_form
from spadework.crops.sheet import Sheet
from spadework.errors import UnknownName
from spadework.garden.records import SeedLot

Way = Literal["sown", "raised"]

LEAST_CHANCE: Final = 0.4
"""Share of a full crop below which nothing is offered. Our own rule."""

SOON_DAYS: Final = 7
"""What is not to be sown within these days is not thought of yet. Our own rule."""

LEAST_STAKE: Final = 0.02
"""What nothing stands before is offered where three weeks' waiting would cost this share. Our own rule."""

LEAST_SEEDS: Final = 4
"""A packet with fewer seeds is as good as empty. Our own rule."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Wanted:
    """A sowing that would fit.

    Parameters
    ----------
    sheet : Sheet
    lot : SeedLot or None
        None where no packet is known.
    way : Way
    place : Place or None
        None for what is raised first.
    follows : bool
        It follows something of its kind that stands.
    sowing : NextSowing
    worth : float
        In kilograms of carrots.
    before : array, shape (year,), or None  [d]
        Days until the one before it is ready.
    """

    sheet: Sheet
    lot: SeedLot | None
    way: Way
    place: Place | None
    follows: bool
    sowing: NextSowing
    worth: float
    before: np.ndarray | None = None

    @property
    def every_days(self) -> float:
        """Days that one sowing is to be picked for."""
        return feeds_days(self.sheet) or USUAL_EVERY


_FOUND: WeakKeyDictionary[Scene, tuple[Wanted, ...]] = WeakKeyDictionary()


def wanted(scene: Scene) -> tuple[Wanted, ...]:
    """Sowings that would fit, most at stake in a week first; no two of them want the same ground."""
    found = _FOUND.get(scene)
    if found is None:
        found = _FOUND[scene] = tuple(_find(scene))
    return found


def usual_start(sheet: Sheet) -> Way | None:
    """Whether a crop is sown where it grows or raised first; None for what is planted otherwise."""
    if sheet.harvest.first_year is not None or sheet.life == "perennial":
        return None
    if sheet.propagation[0] == "raised" and sheet.sowing.weeks_to_set_out is not None:
        return "raised"
    return "sown" if usual_way(sheet) == "sown" and "direct" in sheet.propagation else None


def _find(scene: Scene) -> list[Wanted]:
    places = [place for place in tray_places(scene)[1] if not place.inside]
    options = []
    for sheet, lot in _crops(scene):
        way = usual_start(sheet)
        stands = standing_of(scene, sheet.key)
        if way is None or (stands and sheet.next.every_days is None):
            continue
        if way == "sown" and not any(place.suits(sheet, scene.today) for place in places):
            continue
        before = last_ready(scene, stands) if stands else None
        weeks = sheet.sowing.weeks_to_set_out
        inside = 0.0 if way == "sown" or weeks is None else weeks.value
        sowing = next_sowing(sheet, scene.ground, scene.column, before=before, weeks_inside=inside)
        if before is None and _habit(scene, sheet.key):
            sowing = sowing.later_costs(LATE_COST_PER_DAY)
        every = feeds_days(sheet) or USUAL_EVERY
        soon = sowing.may(every)[:, : SOON_DAYS + 1].mean(axis=0).max() >= 0.5
        closing = before is not None or float(sowing.loss[:, -1].mean()) >= LEAST_STAKE
        if soon and closing and float(sowing.arrives.mean(axis=0).max()) >= LEAST_CHANCE:
            options.append((sheet, lot, way, sowing, before))
    options.sort(key=lambda each: (-_stake(each[3], each[0], scene), each[0].key))
    found = []
    for sheet, lot, way, sowing, before in options:
        ground_m2 = usual_m2(scene, sheet.key)
        place = None
        if way == "sown":
            try:
                place, places = cut_from(places, sheet, _affordable(sheet, lot, ground_m2), scene.today)
            except LookupError:
                continue
            ground_m2 = place.area_m2
        found.append(
            Wanted(
                sheet=sheet,
                lot=lot,
                way=way,
                place=place,
                follows=before is not None,
                sowing=sowing,
                worth=ground_m2 * value_kg_m2(sheet),
                before=before,
            )
        )
    return found


def _stake(sowing: NextSowing, sheet: Sheet, scene: Scene) -> float:
    """Worth lost in a week's waiting: who comes first where two want a place."""
    worth = usual_m2(scene, sheet.key) * value_kg_m2(sheet)
    return worth * float((sowing.loss[:, 7] - sowing.loss[:, 0]).mean())


def _affordable(sheet: Sheet, lot: SeedLot | None, ground_m2: float) -> float:
    """Ground that the seed left is enough for."""
    left = seeds_left(sheet, lot)
    if left is None:
        return ground_m2
    per_m2 = seeds_per_m(sheet, germination_of(lot)) / (sheet.sowing.row_cm.value / 100.0)
    return min(ground_m2, left / per_m2)


def seeds_left(sheet: Sheet, lot: SeedLot | None) -> float | None:
    """Seeds left in a lot; None where nobody counted."""
    if lot is None:
        return None
    per_gram = sheet.sowing.seeds_per_gram
    return lot.left(None if per_gram is None else per_gram.value)


def _habit(scene: Scene, crop: str) -> bool:
    """Whether it was grown here in earlier years, and not yet in this one."""
    years = {each.started_on.year for each in scene.garden.plantings.values() if each.crop == crop}
    return bool(years) and scene.today.year not in years


def _rank(lot: SeedLot, grown: dict[str, str]) -> tuple[bool, bool, int, str]:
    """What was grown last, then no special variety, then the newest."""
    return lot.variety == grown.get(lot.crop, ""), not lot.variety, lot.year or 0, lot.lot


def _crops(scene: Scene) -> list[tuple[Sheet, SeedLot | None]]:
    """Each crop once, with its best lot: of those with seed left the newest."""
    grown: dict[str, str] = {}
    for planting in sorted(scene.garden.plantings.values(), key=lambda each: (each.started_on, each.key)):
        grown[planting.crop] = planting.variety
    best: dict[str, SeedLot] = {}
    for lot in scene.garden.tin.values():
        left = lot.left(None)
        if not lot.crop or (left is not None and left < LEAST_SEEDS):
            continue
        other = best.get(lot.crop)
        if other is None or _rank(lot, grown) > _rank(other, grown):
            best[lot.crop] = lot
    crops: dict[str, tuple[Sheet, SeedLot | None]] = {}
    for crop, lot in best.items():
        try:
            sheet = scene.sheet_of(crop)
        except UnknownName:
            continue
        if lot.variety and lot.variety in sheet.varieties:
            sheet = with_form(sheet, "variety", lot.variety)
        crops[sheet.key] = (sheet, lot)
    for plot in scene.plots:
        if plot.sheet.next.every_days is not None and plot.sheet.key not in crops:
            crops[plot.sheet.key] = (plot.sheet, None)
    return [crops[key] for key in sorted(crops)]
