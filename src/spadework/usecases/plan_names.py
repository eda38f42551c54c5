"""Names in a plan file turned into the garden's keys, and what cannot be in the plan as a whole."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from spadework.crops.names import find_whole, keys
from spadework.errors import UnknownName
from spadework.garden.entries import BedSet, LotSet, Payload, PlantedOut, Stood
from spadework.garden.lay_out_plot import overlapping
from spadework.garden.lookup import nearest, plain
from spadework.garden.plan import Planned, beds_of
from spadework.garden.state import Garden
from spadework.store.plan_file import PlanRead
from spadework.usecases.plan_changes import name_of


def settled_names(
    read: PlanRead, now: Mapping[str, Sequence[Planned]], garden: Garden
) -> dict[str, list[Planned]]:
    """The parts of a plan file by the garden's keys; faults are added to what was read.

    Notes
    -----
    What the garden has already as the file says it is not doubted again.
    """
    had_faults = bool(read.faults)
    wanted = {part: list(found) for part, found in read.parts.items()}
    if "bed" in wanted:
        wanted["bed"] = with_garden_keys(wanted["bed"], now["bed"])
    names = {each.key: name_of(each) for each in wanted.get("bed", ())}
    # a bed that was taken up gives way to one that stands under the same name
    for key, bed in sorted(garden.beds.items(), key=lambda item: item[1].gone_on is not None):
        names.setdefault(key, bed.name)
    for part, found in wanted.items():
        known = {(each.payload, each.bed) for each in now[part]}
        for place, each in enumerate(found):
            found[place] = _settled(each, names, known, read, doubt=not had_faults)
        _doubles(part, found, read)
    if not had_faults:
        _lies_over(wanted.get("bed", []), now["bed"], read)
    return wanted


def _settled(
    each: Planned,
    names: Mapping[str, str],
    known: set[tuple[Payload, str]],
    read: PlanRead,
    *,
    doubt: bool,
) -> Planned:
    payload, bed = each.payload, each.bed
    if isinstance(payload, BedSet) and payload.inside:
        payload = msgspec.structs.replace(payload, inside=_bed_key(payload.inside, names))
    if bed:
        bed = _bed_key(bed, names)
    same = _as(each, each.key, payload, bed)
    if (payload, bed) in known:
        return same
    inside = payload.inside if isinstance(payload, BedSet) else ""
    for key in (bed, inside):
        if doubt and key and key not in names:
            near = nearest(key, names.values())
            do = f"Nearest: {', '.join(near)}." if near else "Add it as a [[bed]]."
            read.fault(each.line, f"the bed {key!r}", "a bed of the garden or the plan", do)
    if isinstance(payload, (LotSet, PlantedOut, Stood)) and payload.crop not in keys():
        if any(getattr(other, "crop", "") == payload.crop for other, _ in known):
            return same
        return _as(each, each.key, _with_crop(payload, each.line, read), bed)
    return same


def _with_crop(
    payload: LotSet | PlantedOut | Stood, line: int, read: PlanRead
) -> LotSet | PlantedOut | Stood:
    """A crop by its key; one that no sheet answers to and no name is near stays as it is written."""
    try:
        crop, variety, _ = find_whole(payload.crop)
    except UnknownName as error:
        if not error.hint.startswith("List"):
            read.fault(line, f"the crop {payload.crop!r}", "a crop's name", error.hint)
        return payload
    if variety and not isinstance(payload, Stood) and not payload.variety:
        return msgspec.structs.replace(payload, crop=crop, variety=variety)
    return msgspec.structs.replace(payload, crop=crop)


def _bed_key(name: str, names: Mapping[str, str]) -> str:
    if name in names:
        return name
    found = [key for key, own in names.items() if plain(own) == plain(name)]
    return found[0] if found else name


def _doubles(part: str, found: Sequence[Planned], read: PlanRead) -> None:
    seen: set[str] = set()
    for each in found:
        marks = {each.key} if each.key and part != "stood" else set()
        if part == "bed":
            marks.add(f"name {plain(name_of(each))}")
        if marks & seen:
            read.fault(each.line, f"a second {name_of(each)}", "each once", "Take one out, or rename it.")
        seen |= marks


def _lies_over(wanted: Sequence[Planned], now: Sequence[Planned], read: PlanRead) -> None:
    lines = {each.key: each.line for each in wanted}
    before = {each.key: each.payload for each in now}
    beds = beds_of({"bed": tuple(wanted)})
    for one, other in overlapping(beds):
        if beds[one] == before.get(one) and beds[other] == before.get(other):
            continue
        read.fault(
            max(lines[one], lines[other]),
            f"{beds[other].name} over {beds[one].name}",
            "beds that do not share ground",
            "Move one, or make it smaller.",
        )


def with_garden_keys(wanted: Sequence[Planned], now: Sequence[Planned]) -> list[Planned]:
    """Beds under the garden's keys: by key, by name, and a renamed one by the ground it lies on."""
    by_name = {plain(name_of(each)): each.key for each in now}
    there = {each.key: each for each in now}
    found: list[Planned] = []
    for each in wanted:
        key = each.key
        if key not in there:
            key = by_name.get(plain(name_of(each)), key)
        found.append(_as(each, key))
    used = {each.key for each in found}
    free = {_ground(each.payload): each.key for each in now if each.key not in used}
    for place, each in enumerate(found):
        ground = _ground(each.payload)
        if each.key not in there and ground in free:
            found[place] = _as(each, free.pop(ground))
    return found


def _as(each: Planned, key: str, payload: Payload | None = None, bed: str | None = None) -> Planned:
    return Planned(
        part=each.part,
        key=key,
        payload=each.payload if payload is None else payload,
        bed=each.bed if bed is None else bed,
        on=each.on,
        line=each.line,
    )


def _ground(payload: object) -> tuple[object, ...]:
    if not isinstance(payload, BedSet):
        return ()
    at = (payload.x_m, payload.y_m, payload.turn_deg)
    return (payload.shape, *at, payload.width_m, payload.length_m, payload.inside)
