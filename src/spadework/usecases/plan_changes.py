"""What a plan would change in a garden: new, changed, gone; and the acts that make it so."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final, Literal, TypeAlias

import msgspec

from spadework.garden.entries import BedGone, ChoreSet, KitSet, LotSet, PlantedOut, Stood
from spadework.garden.plan import Planned
from spadework.garden.state import Garden
from spadework.usecases.crop_words import crop_word
from spadework.usecases.keep_book import Act, new_planting_key

What: TypeAlias = Literal["new", "changed", "gone"]

_FIELDS: Final = {
    "x_m": "east", "y_m": "north", "width_m": "width", "length_m": "length", "turn_deg": "turn", "height_m":
    "height", "depth_m": "depth", "emitter_l_h": "litres an hour", "flow_l_min": "litres a minute",
    "measured_l_min": "measured litres a minute", "week_allowance_l": "litres a week at most",
    "is_round": "round", "water_by": "watered by", "shaded_by": "shaded by", "not_for": "not for",
    "every_days": "every days",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change.

    Parameters
    ----------
    what : {"new", "changed", "gone"}
    part, name : str
    says : str
        Of what is changed: the fields, before and after.
    act : Act
    asks : str
        Why it is asked about before it is done; empty where it is not.
    """

    what: What
    part: str
    name: str
    says: str = ""
    act: Act
    asks: str = ""


@dataclass(frozen=True, slots=True)
class Changes:
    """All that would change, and what is left as it is though the plan does not have it."""

    changes: tuple[Change, ...]
    left: tuple[str, ...]


def changes_of(
    now: Mapping[str, Sequence[Planned]], wanted: Mapping[str, Sequence[Planned]], garden: Garden, day: date
) -> Changes:
    """What it takes to make a garden as a plan has it.

    Parameters
    ----------
    now, wanted : mapping of str to sequence of Planned
        By part; parts that are not wanted at all stay as they are. Beds in `wanted` go by the garden's keys.
    garden : Garden
    day : date
        Of what is written.
    """
    found: list[Change] = []
    left: list[str] = []
    for part in ("person", "bed", "kit", "seed", "chore"):
        if part in wanted:
            found += _keyed(part, now.get(part, ()), wanted[part], garden, day, left)
    if "perennial" in wanted:
        found += _perennials(now.get("perennial", ()), wanted["perennial"], garden, day, left)
    if "stood" in wanted:
        found += _stood(now.get("stood", ()), wanted["stood"], garden, day)
    # What holds beds is there before them, and is taken away after them.
    hosts = {
        each.key
        for each in wanted.get("bed", ())
        if getattr(each.payload, "shape", "") in ("tunnel", "frame")
    }

    def rank(change: Change) -> int:
        if change.part == "person":
            return 0
        if change.part == "bed" and change.what != "gone":
            return 1 if change.act.bed in hosts else 2
        return 4 if change.part == "bed" else 3

    return Changes(tuple(sorted(found, key=rank)), tuple(left))


def _keyed(
    part: str, now: Sequence[Planned], wanted: Sequence[Planned], garden: Garden, day: date, left: list[str]
) -> Iterator[Change]:
    there = {each.key: each for each in now}
    for each in wanted:
        before = there.pop(each.key, None)
        act = Act(payload=each.payload, on=day, bed=each.key if part == "bed" else each.bed)
        if before is None:
            yield Change(what="new", part=part, name=name_of(each), act=act)
        elif (before.payload, before.bed) != (each.payload, each.bed):
            says = _differs(before, each, garden)
            yield Change(what="changed", part=part, name=name_of(before), says=says, act=act)
    for key, each in there.items():
        if part == "person":
            left.append(f"{name_of(each)} is not in the plan, and stays in the book.")
            continue
        asks = {"bed": _standing, "kit": _in_use}.get(part, _free)(garden, key, day)
        yield Change(what="gone", part=part, name=name_of(each), act=_goodbye(each, day), asks=asks)


def _goodbye(each: Planned, day: date) -> Act:
    """The act that says that a thing is no more."""
    payload = each.payload
    if isinstance(payload, KitSet):
        return Act(payload=msgspec.structs.replace(payload, length_m=None, pieces=0), on=day)
    if isinstance(payload, LotSet):
        return Act(payload=msgspec.structs.replace(payload, seeds=0, grams=None), on=day)
    if isinstance(payload, ChoreSet):
        return Act(payload=msgspec.structs.replace(payload, gone=True), on=day, bed=each.bed)
    return Act(payload=BedGone(why="taken out of the plan"), on=day, bed=each.key)


def _standing(garden: Garden, bed: str, day: date) -> str:
    crops = dict.fromkeys(crop_word(each.crop) for each in garden.standing(day, bed=bed))
    return f"{', '.join(crops)} still {'stands' if len(crops) == 1 else 'stand'} there" if crops else ""


def _in_use(garden: Garden, item: str, _day: date) -> str:
    beds = dict.fromkeys(_bed(garden, placed.bed) for placed in garden.kit[item].placed)
    return f"it is still on {', '.join(beds)}" if beds else ""


def _free(_garden: Garden, _key: str, _day: date) -> str:
    return ""


def _perennials(
    now: Sequence[Planned], wanted: Sequence[Planned], garden: Garden, day: date, left: list[str]
) -> Iterator[Change]:
    there = {each.key: each for each in now}
    taken: set[str] = set()
    for each in wanted:
        payload, on = each.payload, each.on or day
        if not isinstance(payload, PlantedOut):
            continue
        before = there.pop(each.key, None) or _same_perennial(there, each)
        if before is not None:
            there.pop(before.key, None)
            payload = msgspec.structs.replace(payload, planting=before.key)
            if payload.only_year and before.on is not None and before.on.year == on.year:
                on = before.on
            if (before.payload, before.bed, before.on) != (payload, each.bed, on):
                act = Act(payload=payload, on=on, bed=each.bed, planting=before.key, replaces=before.entry)
                says = _differs(before, replace(each, on=on), garden)
                yield Change(what="changed", part="perennial", name=name_of(before), says=says, act=act)
            continue
        key = each.key or new_planting_key(garden, payload.crop, on, taken)
        taken.add(key)
        act = Act(payload=msgspec.structs.replace(payload, planting=key), on=on, bed=each.bed, planting=key)
        yield Change(what="new", part="perennial", name=name_of(each), act=act)
    left += [
        f"{name_of(each)} stands in {_bed(garden, each.bed)}: when it is cleared, say so in the book."
        for each in there.values()
    ]


def _same_perennial(there: Mapping[str, Planned], wanted: Planned) -> Planned | None:
    """What the plan means where it gives no key: the same crop and variety in the same bed, of that year."""
    for each in there.values():
        same_crop = all(
            getattr(each.payload, name) == getattr(wanted.payload, name) for name in ("crop", "variety")
        )
        if same_crop and each.bed == wanted.bed and each.on and wanted.on and each.on.year == wanted.on.year:
            return each
    return None


def _stood(now: Sequence[Planned], wanted: Sequence[Planned], garden: Garden, day: date) -> Iterator[Change]:
    still = Counter((each.bed, each.payload) for each in now)
    for each in wanted:
        if still[each.bed, each.payload] > 0:
            still[each.bed, each.payload] -= 1
            continue
        name = f"{name_of(each)} in {_bed(garden, each.bed)}"
        yield Change(what="new", part="stood", name=name, act=Act(payload=each.payload, on=day, bed=each.bed))
    for each in reversed(now):
        if still[each.bed, each.payload] > 0:
            still[each.bed, each.payload] -= 1
            name = f"{name_of(each)} in {_bed(garden, each.bed)}"
            yield Change(
                what="gone", part="stood", name=name, act=Act(payload=None, on=day, withdraws=each.entry)
            )


def name_of(each: Planned) -> str:
    """What a thing of the plan is called."""
    payload = each.payload
    if isinstance(payload, PlantedOut):
        return f"{crop_word(payload.crop)}{f' {payload.variety}' if payload.variety else ''}"
    if isinstance(payload, Stood):
        return f"{crop_word(payload.crop)} of {payload.year}"
    return str(getattr(payload, "name", "") or each.key)


def _bed(garden: Garden, key: str) -> str:
    return garden.beds[key].name if key in garden.beds else key


def _differs(before: Planned, after: Planned, garden: Garden) -> str:
    said = []
    for name in before.payload.__struct_fields__:
        old, new = getattr(before.payload, name), getattr(after.payload, name)
        if old != new and name != "planting":
            word = _FIELDS.get(name, name.rsplit("_m", 1)[0].replace("_", " "))
            said.append(f"{word} {_value(old)} → {_value(new)}")
    if before.bed != after.bed:
        said.append(f"bed {_bed(garden, before.bed)} → {_bed(garden, after.bed)}")
    if before.on != after.on:
        said.append(f"planted {before.on} → {after.on}")
    return ", ".join(said)


def _value(value: object) -> str:
    if value is None or value in ("", ()):
        return "nothing"
    if isinstance(value, tuple):
        return " and ".join(map(str, value))
    return f"{value:g}" if isinstance(value, float) else str(value)
