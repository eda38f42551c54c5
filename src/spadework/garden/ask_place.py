"""Acts on beds, soil, kit and people that cannot be, or that leave out what matters."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from spadework.garden import entries as kinds
from spadework.garden.entries import Entry
from spadework.garden.geometry import Outline, overlap
from spadework.garden.lock_rules import counts_as_raw, is_of_pets, may_carry_spray
from spadework.garden.lookup import nearest, plain
from spadework.garden.question import Question
from spadework.garden.records import Bed, KitItem
from spadework.garden.state import Garden

_MOST_WATER_MM: Final = 100.0
_MOST_RAIN_MM: Final = 300.0
_COLDEST_C, _HOTTEST_C = -60.0, 75.0
_MOST_MINUTES: Final = 16 * 60.0
"""Beyond these a slip of the pen is likelier than the thing itself. Class: common-practice."""

_USUAL_WATERINGS: Final = 2
"""Morning and evening; a third in one day is likelier a double. Class: common-practice."""

_SLACK_M: Final = 0.05


def bed_questions(garden: Garden, entry: Entry) -> Iterator[Question]:
    """Whether the bed is known and there."""
    if not entry.bed or isinstance(entry.act, kinds.BedSet):
        return
    bed = garden.beds.get(entry.bed)
    if bed is None or not bed.described:
        described = {key: each.name for key, each in garden.beds.items() if each.described}
        near = nearest(entry.bed, (*described.values(), *described))
        yield Question(
            about="bed",
            found=f"No bed is called {entry.bed}.",
            why="It was never described.",
            nearest=tuple(dict.fromkeys(described.get(name, name) for name in near)),
        )
    elif bed.gone_on is not None and entry.happened_on > bed.gone_on:
        yield Question(
            about="bed", found=f"{bed.name} was taken up.", why="Nothing can be done in it any more."
        )


def place_questions(garden: Garden, entry: Entry) -> Iterator[Question]:
    """What is odd about an act on a place, or about what is owned."""
    match entry.act:
        case kinds.BedSet() as act:
            yield from _bed_set(garden, entry, act)
        case kinds.BedGone():
            yield from _bed_gone(garden, entry)
        case kinds.Watered() as act:
            yield from _watered(garden, entry, act)
        case kinds.Amended() as act:
            yield from _amended(garden, entry, act)
        case kinds.Fed() as act if counts_as_raw(act):
            yield Question(
                about="soil",
                found=f"{act.material} counts as raw manure.",
                why="Picking in that bed is locked for 120 days, 90 for what does not touch the soil.",
            )
        case kinds.Treated() as act:
            yield from _treated(entry, act)
        case kinds.Moved() as act:
            yield from _cover(garden, entry, act)
        case kinds.KitSet() as act:
            yield from _kit_set(garden, act)
        case kinds.PersonSet() as act:
            yield from _person_set(garden, act)
        case kinds.Stood(year=year) if year >= entry.recorded_at.year:
            yield Question(
                about="day",
                found=f"The year {year} is not over.",
                why="What stands now is sown or planted in the book.",
            )
        case kinds.RainGauge(rain_mm=rain_mm, days=days) if rain_mm > _MOST_RAIN_MM * max(1, days):
            yield Question(
                about="number", found=f"{rain_mm:g} mm of rain fell.", why="That would be a flood."
            )
        case kinds.ThermometerRead() as act:
            yield from _thermometer(act)
        case kinds.Minutes(minutes=minutes) if minutes > _MOST_MINUTES:
            yield Question(about="number", found=f"It took {minutes:g} minutes.", why="A day is shorter.")
        case _:
            pass


def _bed_set(garden: Garden, entry: Entry, act: kinds.BedSet) -> Iterator[Question]:
    others = [
        bed for key, bed in garden.beds.items() if key != entry.bed and bed.described and not bed.gone_on
    ]
    for bed in others:
        if plain(bed.name) == plain(act.name):
            yield Question(
                about="bed",
                found=f"Another bed is called {bed.name} already.",
                why="Two beds of one name cannot be told apart in a line.",
            )
    if act.inside and act.inside not in garden.beds:
        yield Question(
            about="bed",
            found=f"No tunnel or frame is called {act.inside}.",
            why="The bed is said to be inside it.",
            nearest=nearest(act.inside, garden.beds),
        )
    if act.width_m <= 0 or act.length_m <= 0:
        return
    outline = Outline(
        x_m=act.x_m, y_m=act.y_m, width_m=act.width_m, length_m=act.length_m, turn_deg=act.turn_deg
    )
    for bed in others:
        within = act.inside == bed.key or bed.inside == entry.bed
        if bed.outline is not None and not within and overlap(outline, bed.outline, slack_m=_SLACK_M):
            yield Question(
                about="bed", found=f"It lies over {bed.name}.", why="Two beds cannot share ground."
            )


def _bed_gone(garden: Garden, entry: Entry) -> Iterator[Question]:
    standing = [each.key for each in garden.standing(entry.happened_on, bed=entry.bed)]
    if standing:
        yield Question(
            about="planting",
            found=f"Still standing there: {', '.join(standing)}.",
            why="Clear it first, or move it.",
        )
    for placed in garden.covers(bed=entry.bed):
        yield Question(
            about="kit",
            found=f"{placed.item[:1].upper()}{placed.item[1:]} is still on it.",
            why="Take it off first.",
        )


def _watered(garden: Garden, entry: Entry, act: kinds.Watered) -> Iterator[Question]:
    own = garden.plantings.get(entry.planting)
    key = entry.bed or ("" if own is None else own.bed)
    bed = garden.beds.get(key)
    depth_mm = act.depth_mm
    if depth_mm is None and act.litres is not None and bed is not None and bed.area_m2:
        depth_mm = act.litres / bed.area_m2
    if depth_mm is not None and depth_mm > _MOST_WATER_MM:
        yield Question(
            about="number",
            found=f"{depth_mm:.0f} mm of water were given.",
            why="That is more than a bed can hold; the unit may be another.",
        )
    given = garden.waterings(key, since=entry.happened_on) if bed is not None else ()
    that_day = [each for each in given if each.on == entry.happened_on]
    if bed is not None and len(that_day) >= _USUAL_WATERINGS:
        litres = [f"{each.litres:.3g} l" for each in that_day if each.litres is not None]
        yield Question(
            about="double",
            found=f"{bed.name} was watered {len(that_day)} times that day already"
            + (f": {', '.join(litres)}." if litres else "."),
            why="Written twice it counts twice.",
        )


def _amended(garden: Garden, entry: Entry, act: kinds.Amended) -> Iterator[Question]:
    if not entry.bed and not entry.planting and not (entry.batch or act.batch):
        yield Question(
            about="bed",
            found="No bed is named.",
            why="Until it is said where it went, its locks hold everywhere.",
        )
    if counts_as_raw(act) and act.state == "not known":
        yield Question(
            about="soil",
            found=f"Nobody said whether the {act.material} is raw or finished.",
            why="It counts as raw: picking is locked for 120 days, 90 for what does not touch the soil.",
            nearest=("raw", "finished"),
        )
    if is_of_pets(act.material):
        yield Question(
            about="soil",
            found=f"{act.material} is dung of dogs, cats or pigs.",
            why="It stays out of beds for food; picking there is locked.",
        )
    if act.spray_history != "sprayed" and may_carry_spray(act):
        yield Question(
            about="soil",
            found=f"The spray history of the {act.material} is not known.",
            why="A lasting weedkiller may be in it: planting there is locked until a test with beans passes.",
            nearest=("clean", "sprayed"),
        )
    batch = act.batch or entry.batch
    if batch:
        for lock in garden.locks_on(entry.happened_on, batch=batch, stops="using"):
            yield Question(
                about="lock",
                found=f"Batch {batch} is locked: {lock.why}.",
                why=f"It is not to be used until {lock.test or _until(lock.until)}.",
            )


def _treated(entry: Entry, act: kinds.Treated) -> Iterator[Question]:
    if act.label_days is None:
        yield Question(
            about="label",
            found=f"The label of {act.product} was not read.",
            why="It says how many days to wait before picking; until it is told, picking is locked.",
        )
    if not (entry.bed or entry.planting or entry.batch):
        yield Question(
            about="bed",
            found="It is not said what was treated.",
            why="Until it is, picking is locked everywhere.",
        )


def _cover(garden: Garden, entry: Entry, act: kinds.Moved) -> Iterator[Question]:
    planting = garden.plantings.get(entry.planting)
    bed_key = entry.bed or ("" if planting is None else planting.bed)
    bed = garden.beds.get(bed_key)
    there = garden.covers(bed=bed_key)
    item = garden.kit.get(act.item)
    if act.item and (item is None or not item.described):
        owned = [key for key, each in garden.kit.items() if each.described]
        yield Question(
            about="kit",
            found=f"The garden has no {act.item}.",
            why="It is not in the kit.",
            nearest=nearest(act.item, owned),
        )
    elif act.act == "on" and item is not None:
        yield from _enough(item, act, bed)
    if act.act == "on":
        if not act.item:
            yield Question(
                about="kit", found="No cover is named.", why="Which one went on?", nearest=tuple(garden.kit)
            )
        return
    if act.item and bed is not None and all(placed.item != act.item for placed in there):
        yield Question(
            about="kit",
            found=f"No {act.item} is on {bed.name}.",
            why="It cannot be taken off, opened or shut.",
            nearest=tuple(placed.item for placed in there),
        )
    elif not act.item and bed is not None and not there and (act.act == "off" or not _opens(bed)):
        yield Question(about="kit", found=f"Nothing is on {bed.name}.", why="There is no cover to move.")


def _opens(bed: Bed) -> bool:
    return bed.shape in ("tunnel", "frame")


def _enough(item: KitItem, act: kinds.Moved, bed: Bed | None) -> Iterator[Question]:
    where = ", ".join(
        f"{placed.bed}{'' if placed.length_m is None else f' {placed.length_m:g} m'}"
        for placed in item.placed
    )
    rest = f"The rest is on {where}." if where else "There is no more."
    wanted_m = act.length_m
    on_it = bed is not None and any(placed.bed == bed.key for placed in item.placed)
    if (
        wanted_m is None
        and item.free_m is not None
        and bed is not None
        and bed.outline is not None
        and not on_it
    ):
        wanted_m = bed.outline.length_m
    if wanted_m is not None and item.free_m is not None and wanted_m > item.free_m + _SLACK_M:
        yield Question(
            about="kit",
            found=f"{wanted_m:g} m of {item.item} went on, but {max(0.0, item.free_m):g} m are free.",
            why=rest,
        )
    if item.free_pieces is not None and (act.pieces or 1) > item.free_pieces:
        yield Question(
            about="kit",
            found=f"{act.pieces or 1} of {item.item} went out, but {max(0, item.free_pieces)} are free.",
            why=rest,
        )
    if on_it and act.length_m is None and act.pieces is None and bed is not None:
        yield Question(
            about="kit", found=f"{item.item} is on {bed.name} already.", why="Nothing changes by that."
        )


def _kit_set(garden: Garden, act: kinds.KitSet) -> Iterator[Question]:
    item = garden.kit.get(act.item)
    if item is None:
        return
    if act.length_m is None:
        if act.pieces == 0 and item.placed:
            where = ", ".join(dict.fromkeys(_name(garden, placed.bed) for placed in item.placed))
            yield Question(
                about="kit",
                found=f"{act.item[:1].upper()}{act.item[1:]} is still on {where}.",
                why="It stays there until taken off.",
            )
        return
    out_m = sum(placed.length_m or 0.0 for placed in item.placed)
    if out_m > act.length_m + _SLACK_M:
        yield Question(
            about="kit",
            found=f"{out_m:g} m of {act.item} are in use.",
            why=f"There cannot be only {act.length_m:g} m.",
        )


def _name(garden: Garden, bed: str) -> str:
    return garden.beds[bed].name if bed in garden.beds else bed


def _person_set(garden: Garden, act: kinds.PersonSet) -> Iterator[Question]:
    keepers = [key for key, person in garden.people.items() if person.role == "keeper"]
    if keepers == [act.person] and act.role != "keeper":
        yield Question(
            about="person",
            found=f"{act.name} is the only keeper.",
            why="Without one, locks can be lifted by anyone who is not known as a helper or reader.",
        )


def _thermometer(act: kinds.ThermometerRead) -> Iterator[Question]:
    for value in (act.min_c, act.max_c, act.now_c):
        if value is not None and not _COLDEST_C <= value <= _HOTTEST_C:
            yield Question(
                about="number", found=f"{value:g} °C was read.", why="The unit may be another, or the sign."
            )


def _until(day: object) -> str:
    return "it is lifted" if day is None else f"{day}"
