"""What a garden is set up with, apart from what is sown and done in it: its plan.

Beds, kit, seed, people, chores, perennials, and what stood where before the book.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

import msgspec

from spadework.garden.entries import (
    BedSet,
    ChoreSet,
    Entry,
    KitSet,
    LotSet,
    Payload,
    PersonSet,
    PlantedOut,
    Stood,
)
from spadework.garden.records import Bed
from spadework.garden.state import Garden

PARTS: Final[dict[str, type[Payload]]] = {
    "bed": BedSet,
    "kit": KitSet,
    "seed": LotSet,
    "person": PersonSet,
    "chore": ChoreSet,
    "perennial": PlantedOut,
    "stood": Stood,
}
"""Parts of a plan and the entries they come from, in the order they are written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """One thing of the plan.

    Parameters
    ----------
    part : str
        One of `PARTS`.
    key : str
        Of bed, person or planting; the name of other things.
    payload : Payload
        As an entry would say it now.
    bed : str
        Key of the bed it is in, of what has one.
    on : date or None
        The day it was planted, of a perennial.
    entry : str
        Key of the entry it comes from; empty where it comes from a file.
    line : int
        Of the file it comes from.
    """

    part: str
    key: str
    payload: Payload
    bed: str = ""
    on: date | None = None
    entry: str = ""
    line: int = 0


def plan_of(garden: Garden, day: date) -> dict[str, tuple[Planned, ...]]:
    """The plan as a garden has it on a day, by part.

    Parameters
    ----------
    garden : Garden
        Folded up to the day.
    day : date
    """
    return {
        "bed": tuple(_beds(garden, day)),
        "kit": tuple(_last_of(garden, "kit", KitSet, "item")),
        "seed": tuple(_seed(garden)),
        "person": tuple(_people(garden)),
        "chore": tuple(
            each for each in _last_of(garden, "chore", ChoreSet, "chore") if each.key in garden.chores
        ),
        "perennial": tuple(_perennials(garden, day)),
        "stood": tuple(
            Planned(part="stood", key=entry.bed, payload=entry.act, bed=entry.bed, entry=entry.key)
            for entry in garden.entries
            if isinstance(entry.act, Stood)
        ),
    }


def bed_now(bed: Bed) -> BedSet | None:
    """A bed as it would be described now, with its mulch and measured flow; None where nobody did."""
    told = [entry.act for entry in bed.history if isinstance(entry.act, BedSet)]
    if not bed.described or not told:
        return None
    return msgspec.structs.replace(
        told[-1], name=bed.name, mulch=bed.mulch, measured_l_min=bed.measured_l_min
    )


def is_used_up(payload: Payload) -> bool:
    """Whether kit or seed is told to be no more: nothing of it is left."""
    if isinstance(payload, KitSet):
        return payload.pieces == 0 and payload.length_m is None
    return isinstance(payload, LotSet) and payload.seeds == 0


def _beds(garden: Garden, day: date) -> Iterator[Planned]:
    for key, bed in garden.beds.items():
        payload = bed_now(bed)
        if payload is not None and (bed.gone_on is None or bed.gone_on > day):
            yield Planned(part="bed", key=key, payload=payload)


def _last_of(garden: Garden, part: str, kind: type[Payload], name: str) -> Iterator[Planned]:
    last: dict[str, Entry] = {}
    for entry in garden.entries:
        if isinstance(entry.act, kind):
            last[getattr(entry.act, name)] = entry
    for key, entry in last.items():
        if entry.act is not None and not is_used_up(entry.act):
            bed = entry.bed if part == "chore" else ""
            yield Planned(part=part, key=key, payload=entry.act, bed=bed, entry=entry.key)


def _seed(garden: Garden) -> Iterator[Planned]:
    for each in _last_of(garden, "seed", LotSet, "lot"):
        tested = garden.tin[each.key].germination
        payload = each.payload
        if tested is not None and isinstance(payload, LotSet) and payload.tested is None:
            payload = msgspec.structs.replace(payload, germinated=tested.sprouted, tested=tested.tested)
        yield Planned(part="seed", key=each.key, payload=payload, entry=each.entry)


def _people(garden: Garden) -> Iterator[Planned]:
    for key, person in garden.people.items():
        payload = PersonSet(
            person=key, name=person.name, role=person.role, can=person.can, not_for=person.not_for
        )
        yield Planned(part="person", key=key, payload=payload)


def _perennials(garden: Garden, day: date) -> Iterator[Planned]:
    for planting in garden.standing(day):
        if not planting.perennial:
            continue
        for entry in planting.history:
            act = entry.act
            if isinstance(act, PlantedOut) and act.planting == planting.key and act.perennial:
                yield Planned(
                    part="perennial",
                    key=planting.key,
                    payload=act,
                    bed=entry.bed,
                    on=entry.happened_on,
                    entry=entry.key,
                )
                break


def beds_of(plan: Mapping[str, tuple[Planned, ...]]) -> dict[str, BedSet]:
    """The beds of a plan by key."""
    return {each.key: each.payload for each in plan.get("bed", ()) if isinstance(each.payload, BedSet)}
