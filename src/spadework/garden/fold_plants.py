"""Entries about plants: from sowing to clearing, and how many stand."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date

from spadework.garden.blocks import joined
from spadework.garden.draft import Draft, LotDraft, PlantingDraft
from spadework.garden.entries import (
    Counted,
    Ended,
    Entry,
    Lifted,
    Measured,
    Picked,
    PlantedOut,
    PrickedOut,
    Sown,
    Stage,
    Thinned,
)
from spadework.garden.geometry import plants_at_spacing
from spadework.garden.planting import EXACT, How, Stay


def sown(draft: Draft, entry: Entry, act: Sown, line: str) -> PlantingDraft:
    """Seed goes in: a new planting, or more of one that is there."""
    key = act.planting or entry.planting or entry.key
    day = entry.happened_on
    planting = draft.plantings.get(key)
    if planting is None:
        planting = PlantingDraft(key, act.crop, day, sown_on=day)
        draft.plantings[key] = planting
        planting.plants.basis, planting.plants.on = "seeds", day
        planting.seeds = planting.plants.at_most = act.seeds
    else:
        planting.sown_again.append(day)
        _stands_again(planting)
        if _outnumbers(planting, act):
            _begin_anew(planting, act, day)
        else:
            planting.seeds = _sum(planting.seeds, act.seeds)
            planting.plants.at_most = _sum(planting.plants.at_most, act.seeds)
    _say(planting, act)
    planting.method = act.method or planting.method
    planting.lot = act.lot or planting.lot
    planting.depth_mm = act.depth_mm if act.depth_mm is not None else planting.depth_mm
    if act.tray:
        planting.tray = planting.in_tray = act.tray
    _go(planting, entry.bed or planting.bed, day)
    _stand_at(planting, act)
    if act.lot:
        lot = draft.tin.setdefault(act.lot, LotDraft(act.lot))
        lot.sowings.append(((day, line), act.seeds, key))
    return planting


def _outnumbers(planting: PlantingDraft, act: Sown) -> bool:
    """Whether most of what will stand comes from a new sowing: the row was counted, and little stood."""
    number, seeds = planting.plants.number, act.seeds or planting.seeds
    counted = planting.plants.basis in ("counted", "counted in a stretch")
    return planting.set_out_on is None and counted and number is not None and 2.0 * number < (seeds or 0)


def _begin_anew(planting: PlantingDraft, act: Sown, day: date) -> None:
    """The row is waited for and counted as if it were sown for the first time."""
    planting.anew_on = day
    planting.stages.clear()
    planting.not_yet.clear()
    planting.seeds = planting.plants.at_most = act.seeds or planting.seeds
    planting.plants.number, planting.plants.per_row_m = None, None
    planting.plants.basis, planting.plants.on, planting.plants.taken = "seeds", day, 0


def planted_out(draft: Draft, entry: Entry, act: PlantedOut) -> PlantingDraft:
    """Plants go into their place: a planting moves from its tray, a new one starts, or gaps are filled."""
    key = act.planting or entry.planting or entry.key
    day = entry.happened_on
    planting = draft.plantings.get(key)
    if act.moved and planting is not None:
        return _moved(planting, entry, act)
    source = draft.plantings.get(act.from_planting) if act.from_planting != key else None
    gaps = False
    if planting is None:
        planting = PlantingDraft(key, act.crop, day, from_planting=act.from_planting)
        draft.plantings[key] = planting
        if source is not None:
            _inherit(planting, source)
    else:
        gaps = planting.set_out_on is not None or (bool(planting.bed) and planting.bed == entry.bed)
        _stands_again(planting)
        planting.in_tray = ""
    _say(planting, act)
    planting.set_out_on = planting.set_out_on or day
    planting.bought = planting.bought or act.bought
    if source is not None and act.plants is None:
        _move_all(planting, source, day)
    elif act.plants is not None:
        _plant(planting, max(0, act.plants), day, gaps=gaps)
        if source is not None:
            _take(source, act.plants, day, "moved")
    if source is not None:
        source.history.append(entry)
    planting.only_year = planting.only_year or (act.only_year and planting.started_on == day)
    _go(planting, entry.bed or planting.bed, day)
    _stand_at(planting, act)
    return planting


def _moved(planting: PlantingDraft, entry: Entry, act: PlantedOut) -> PlantingDraft:
    """All that stands is lifted and set anew: in another bed, or in another place of its own."""
    day = entry.happened_on
    _say(planting, act)
    planting.area_m2 = act.area_m2
    planting.moved_on.append(day)
    if act.plants is not None:
        count = max(0, act.plants)
        planting.plants.settle(float(count), "planted", day)
        planting.plants.at_most = count
    _leave(planting, day)
    planting.bed = entry.bed or planting.bed
    planting.stays.append(Stay(bed=planting.bed, since=day))
    _stand_at(planting, act)
    return planting


def pricked_out(planting: PlantingDraft, entry: Entry, act: PrickedOut) -> None:
    """Seedlings move on; those not moved are given up."""
    planting.plants.settle(float(max(0, act.plants)), "pricked out", entry.happened_on)
    planting.plants.at_most = max(0, act.plants)
    planting.in_tray = act.into or planting.in_tray


def counted(draft: Draft, planting: PlantingDraft, entry: Entry, act: Counted) -> None:
    """Plants standing, all or in a stretch of row."""
    plants = planting.plants
    standing = max(0, act.standing)
    if act.of_row_m is None or act.of_row_m <= 0:
        plants.settle(float(standing), "counted", entry.happened_on)
        plants.at_most = None if plants.at_most is None else max(plants.at_most, standing)
        plants.per_row_m = None
        if standing:
            _take_back_end(planting)
        return
    plants.per_row_m = standing / act.of_row_m
    length_m = _row_metres(draft, planting)
    if length_m is not None:
        plants.settle(plants.per_row_m * length_m, "counted in a stretch", entry.happened_on)


def measured(planting: PlantingDraft, act: Measured) -> None:
    """Size of the plants; what was not measured stays as it was."""
    planting.height_cm = act.height_cm if act.height_cm is not None else planting.height_cm
    planting.leaves = act.leaves if act.leaves is not None else planting.leaves
    planting.width_mm = act.width_mm if act.width_mm is not None else planting.width_mm


def thinned(draft: Draft, planting: PlantingDraft, entry: Entry, act: Thinned) -> None:
    """Plants taken out for room: so many, down to so many, or to a spacing."""
    plants = planting.plants
    day = entry.happened_on
    if act.spacing_cm is not None and act.spacing_cm > 0:
        planting.spacing_cm = act.spacing_cm
    if act.left is not None:
        plants.settle(float(max(0, act.left)), "thinned", day)
        plants.at_most = max(0, act.left)
    elif act.removed is not None:
        _take(planting, act.removed, day, "cleared")
    elif act.spacing_cm is not None and act.spacing_cm > 0:
        length_m = _row_metres(draft, planting)
        if length_m is not None:
            fit = plants_at_spacing(1.0, max(0.0, length_m), row_cm=100.0, spacing_cm=act.spacing_cm).plants
            if plants.number is None or fit < plants.number:
                plants.settle(float(fit), "thinned to a spacing", day)


def stage(planting: PlantingDraft, entry: Entry, act: Stage) -> None:
    """A stage is reached on the first day it is seen; looked for and not seen, it is not reached yet."""
    if act.reached:
        planting.stages.setdefault(act.what, entry.happened_on)
    else:
        planting.not_yet[act.what] = entry.happened_on


def picked(draft: Draft, planting: PlantingDraft, entry: Entry, act: Picked) -> None:
    """Harvest; of crops picked whole the plants go with it."""
    day = entry.happened_on
    planting.picked_kg += act.kg or 0.0
    planting.picked_pieces += act.pieces or 0
    planting.first_picked_on = planting.first_picked_on or day
    planting.last_picked_on = day
    planting.picking_over = act.last
    if act.pieces and planting.crop in draft.picked_whole:
        _take(planting, act.pieces, day, "picked")


def lifted(planting: PlantingDraft, entry: Entry, act: Lifted) -> None:
    """Out of the ground."""
    day = entry.happened_on
    planting.lifted_kg += act.kg or 0.0
    planting.lifted_pieces += act.pieces or 0
    planting.first_picked_on = planting.first_picked_on or day
    planting.last_picked_on = day
    if act.pieces:
        _take(planting, act.pieces, day, "lifted")


def ended(planting: PlantingDraft, entry: Entry, act: Ended) -> None:
    """Over; or, where fewer plants are named than stand, some of it."""
    day = entry.happened_on
    plants = planting.plants
    number = plants.number if plants.number is not None else plants.at_most
    if act.plants is not None and (number is None or act.plants < number):
        planting.lost_plants += max(0, act.plants) if act.how == "lost" else 0
        planting.plants.take(max(0, act.plants))
        return
    if act.how == "lost":
        planting.lost_plants += max(0, act.plants) if act.plants is not None else int(plants.number or 0)
    if planting.ended_on is None or planting.ran_out:
        planting.plants.settle(0.0, planting.plants.basis, day)
        planting.plants.at_most = 0
        _end(planting, day, act.how, act.why)


def _say(planting: PlantingDraft, act: Sown | PlantedOut) -> None:
    """What was said of crop and spacing, over what was said before."""
    planting.crop = act.crop or planting.crop
    planting.variety = act.variety or planting.variety
    planting.rows = act.rows if act.rows is not None else planting.rows
    planting.row_cm = act.row_cm if act.row_cm is not None else planting.row_cm
    planting.spacing_cm = act.spacing_cm if act.spacing_cm is not None else planting.spacing_cm
    planting.row_length_m = act.row_length_m if act.row_length_m is not None else planting.row_length_m
    planting.area_m2 = act.area_m2 if act.area_m2 is not None else planting.area_m2
    planting.rows_run = act.rows_run or planting.rows_run
    planting.traits += act.traits
    planting.perennial = planting.perennial or act.perennial


def _stand_at(planting: PlantingDraft, act: Sown | PlantedOut) -> None:
    """Where in its bed; said again of more of it, both count."""
    if not planting.stays or (act.block is None and not act.spots):
        return
    stay = planting.stays[-1]
    planting.stays[-1] = replace(
        stay,
        blocks=stay.blocks if act.block is None else joined(stay.blocks, act.block),
        spots=tuple(dict.fromkeys((*stay.spots, *act.spots))),
    )


def _inherit(planting: PlantingDraft, source: PlantingDraft) -> None:
    planting.crop = planting.crop or source.crop
    planting.variety, planting.lot, planting.method = source.variety, source.lot, source.method
    planting.sown_on, planting.depth_mm = source.sown_on, source.depth_mm
    planting.traits, planting.perennial = list(source.traits), source.perennial
    planting.bought = source.bought


def _plant(planting: PlantingDraft, count: int, day: date, *, gaps: bool) -> None:
    """Plants set: all there are, or more among those that stand, of which the number may not be known."""
    plants = planting.plants
    if not gaps:
        plants.settle(float(count), "planted", day)
        plants.at_most = planting.planted = count
        return
    planting.planted = count + (planting.planted or 0)
    plants.at_most = _sum(plants.at_most, count)
    if plants.number is not None:
        plants.number += count


def _move_all(planting: PlantingDraft, source: PlantingDraft, day: date) -> None:
    """All that stands in one planting goes into another."""
    planting.plants, planting.seeds = source.plants.copy(), source.seeds
    if source.plants.number is not None:
        planting.planted = int(source.plants.number)
    source.plants.settle(0.0, source.plants.basis, day)
    source.plants.at_most = 0
    _end(source, day, "moved", "")


def _go(planting: PlantingDraft, bed: str, day: date) -> None:
    """Stand in a bed from a day on; in none, where none is known."""
    if not bed or (planting.bed == bed and planting.stays and planting.stays[-1].until is None):
        return
    _leave(planting, day)
    planting.bed = bed
    planting.stays.append(Stay(bed=bed, since=day))


def _leave(planting: PlantingDraft, day: date) -> None:
    if planting.stays and planting.stays[-1].until is None:
        stay = planting.stays[-1]
        planting.stays[-1] = replace(stay, until=day)


def _end(planting: PlantingDraft, day: date, how: How, why: str, *, ran_out: bool = False) -> None:
    _take_back_end(planting)
    planting.ended_on, planting.ended_how, planting.ended_why = day, how, why
    planting.ran_out = ran_out
    _leave(planting, day)


def _take_back_end(planting: PlantingDraft) -> None:
    """Open again what was thought over because its numbers said so."""
    if not planting.ran_out:
        return
    planting.ended_on, planting.ended_how, planting.ran_out = None, "", False
    if planting.stays:
        stay = planting.stays[-1]
        planting.stays[-1] = replace(stay, until=None)


def _stands_again(planting: PlantingDraft) -> None:
    """Sown or planted into once more, a planting that was over is not."""
    _take_back_end(planting)
    planting.ended_on, planting.ended_how, planting.ended_why = None, "", ""


def _take(planting: PlantingDraft, count: int, day: date, how: How) -> None:
    """Plants go; a planting of which the number was known and none is left is over."""
    plants = planting.plants
    plants.take(max(0, count))
    if plants.number == 0 and plants.basis in EXACT and planting.ended_on is None:
        _end(planting, day, how, "", ran_out=True)


def _row_metres(draft: Draft, planting: PlantingDraft) -> float | None:
    """Length of all its rows together; rows of which no length was said run through their block or bed."""
    length_m = planting.row_length_m
    if length_m is None:
        length_m = _one_row_m(draft, planting)
    if length_m is None or not math.isfinite(length_m):
        return None
    return length_m * (1 if planting.rows is None else max(0, planting.rows))


def _one_row_m(draft: Draft, planting: PlantingDraft) -> float | None:
    if planting.rows is None or not planting.stays:
        return None
    across = planting.rows_run == "across"
    blocks = planting.stays[-1].blocks
    if len(blocks) == 1:
        return blocks[0].width_m if across else blocks[0].length_m
    outline = draft.beds[planting.bed].outline() if planting.bed in draft.beds else None
    if outline is None:
        return None
    return outline.width_m if across else outline.length_m


def _sum(one: int | None, other: int | None) -> int | None:
    return None if one is None or other is None else one + other
