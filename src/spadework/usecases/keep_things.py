"""Tell the book what the garden has: beds, kit, seed and people."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Final, Literal

import msgspec

from spadework.crops.loader import load_sheet
from spadework.crops.names import find, keys
from spadework.errors import ParameterError, UnknownName
from spadework.garden import entries as kinds
from spadework.garden.entries import Payload
from spadework.garden.plan import bed_now
from spadework.garden.state import Garden
from spadework.usecases.bed_names import bed_called
from spadework.usecases.keep_book import Act, author_key
from spadework.usecases.new_names import free_name, key_from
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

KIT_SORTS: Final = (
    "fleece",
    "netting",
    "mesh",
    "film",
    "hoops",
    "screen",
    "scare",
    "tray",
    "tool",
    "other",
)

PATH_M: Final = 0.5
"""Path beside a bed of which nobody said where it lies. Class: common-practice."""


def keep_bed(
    path: Path,
    how: Writing,
    name: str,
    said: Mapping[str, Any],
    *,
    new: bool,
) -> WriteAnswer:
    """Make a bed, or describe one anew; what is not said of a known bed stays as it was.

    Parameters
    ----------
    path : Path
    how : Writing
    name : str
    said : mapping of str to value
        Fields of `BedSet`.
    new : bool
        It is made; else it is known.

    Raises
    ------
    UnknownName, ParameterError, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    garden = state.garden
    if new:
        key, was = key_from(name), {"name": name.strip()}
        if key in garden.beds and garden.beds[key].described and garden.beds[key].gone_on is None:
            raise ParameterError(
                f"There is a bed called {garden.beds[key].name} already.",
                f'To describe it anew: spadework bed change "{name}"',
            )
    else:
        bed = bed_called(garden, name)
        now = bed_now(bed) or kinds.BedSet(name=bed.name)
        key, was = bed.key, msgspec.structs.asdict(now)
    if said.get("inside"):
        said = {**said, "inside": bed_called(garden, str(said["inside"])).key}
    elif new and "x_m" not in said and "y_m" not in said:
        said = {**said, "x_m": past_all(garden)}
    measured = None if new else said.get("measured_l_min")
    if measured is not None:
        # seen that day, and no part of how the bed was made
        said = {name: value for name, value in said.items() if name != "measured_l_min"}
    acts = [Act(payload=kinds.BedSet(**{**was, **said}), on=how.day, bed=key)] if said or new else []
    if measured is not None:
        acts.append(Act(payload=kinds.FlowMeasured(flow_l_min=measured), on=how.day, bed=key))
    return write(folder, state, acts, how, question="bed")


def end_bed(
    path: Path,
    how: Writing,
    name: str,
    why: str,
) -> WriteAnswer:
    """Take a bed up.

    Raises
    ------
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    key = bed_called(state.garden, name).key
    act = Act(payload=kinds.BedGone(why=why), on=how.day, bed=key)
    return write(folder, state, [act], how, question="bed")


def keep_item(
    path: Path,
    how: Writing,
    item: str,
    said: Mapping[str, Any],
) -> WriteAnswer:
    """Own a piece of kit, or say anew how much there is; what is not said stays as it was.

    Raises
    ------
    ParameterError
        If it is not known what sort of thing a new piece is.
    StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    garden = state.garden
    try:
        item = garden.item(item).item
    except UnknownName:
        item = item.strip()
    was = {"item": item, **_told_of(garden, item, kinds.KitSet, {})}
    whole = {**was, **said}
    if "sort" not in whole:
        raise ParameterError(f"What is {item}?", f"Say its sort: {', '.join(KIT_SORTS)}.")
    act = Act(payload=kinds.KitSet(**whole), on=how.day)
    return write(folder, state, [act], how, question="kit")


def end_item(path: Path, how: Writing, item: str) -> WriteAnswer:
    """Take a piece of kit off the books; what it was used for stays in them.

    Raises
    ------
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    held = state.garden.item(item)
    was = {"item": held.item, "sort": "other", **_told_of(state.garden, held.item, kinds.KitSet, {})}
    act = Act(payload=kinds.KitSet(**{**was, "length_m": None, "pieces": 0}), on=how.day)
    return write(folder, state, [act], how, question="kit")


def end_lot(path: Path, how: Writing, lot: str) -> WriteAnswer:
    """Take a seed lot off the books: used up, given away or thrown out. Its sowings stay in them.

    Raises
    ------
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    held = state.garden.lot(lot)
    was = {"crop": held.crop, **_lot_now(state.garden, held.lot), "lot": held.lot}
    act = Act(payload=kinds.LotSet(**{**was, "seeds": 0, "grams": None}), on=how.day)
    return write(folder, state, [act], how, question="tin")


def keep_lot(
    path: Path,
    how: Writing,
    crop: str,
    said: Mapping[str, Any],
    *,
    lot: str = "",
) -> WriteAnswer:
    """Put seed into the tin, or say anew how much of a lot there is; what is not said stays as it was.

    Parameters
    ----------
    path : Path
    how : Writing
    crop : str
        By any name; may be empty for a lot that is known.
    said : mapping of str to value
        Fields of `LotSet`.
    lot : str
        Its name; empty for one made of crop, variety and year.

    Raises
    ------
    UnknownName, ParameterError, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    garden = state.garden
    if lot:
        try:
            lot = garden.lot(lot).lot
        except UnknownName:
            if not crop:
                raise
            lot = key_from(lot)
    key = find(crop) if crop else garden.tin[lot].crop if lot in garden.tin else ""
    if not key:
        raise ParameterError("Seed of what?", "Name the crop.")
    if not lot:
        year = said.get("year") or how.day.year
        parts = (key, str(said.get("variety") or ""), str(year))
        lot = free_name(key_from("-".join(part for part in parts if part)), garden.tin)
    was = _lot_now(garden, lot)
    act = Act(payload=kinds.LotSet(**{**was, "lot": lot, "crop": key, **said}), on=how.day)
    return write(folder, state, [act], how, question="tin")


def keep_test(
    path: Path,
    how: Writing,
    lot: str,
    sprouted: int,
    tested: int,
) -> WriteAnswer:
    """Keep a germination test of a lot: so many sprouted of so many.

    Notes
    -----
    The lot is told anew with the seeds that are left now, so that what was sown before is not counted twice.

    Raises
    ------
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    held = state.garden.lot(lot)
    was = {"crop": held.crop, **_lot_now(state.garden, held.lot)}
    payload = kinds.LotSet(**{**was, "lot": held.lot, "germinated": sprouted, "tested": tested})
    act = Act(payload=payload, on=how.day)
    return write(folder, state, [act], how, question="tin")


def keep_person(
    path: Path,
    how: Writing,
    name: str,
    *,
    role: Literal["keeper", "helper", "reader"] | None = None,
    can: tuple[str, ...] | None = None,
    not_for: tuple[str, ...] | None = None,
) -> WriteAnswer:
    """Someone who works or reads here, or something else about them.

    Notes
    -----
    The first person told may tell themselves. After that keepers say who is what.

    Raises
    ------
    UnknownName, ParameterError, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    people = state.garden.people
    try:
        key = author_key(state.garden, name) if people else key_from(name)
    except UnknownName:
        key = key_from(name)
    there = people.get(key)
    by = key
    if people:
        by = author_key(state.garden, how.by)
        keepers = [person.name for person in people.values() if person.role == "keeper"]
        if keepers and people[by].role != "keeper":
            raise ParameterError(
                f"{people[by].name} is no keeper.", f"Who works here is said by {' or '.join(keepers)}."
            )
    usual: Literal["keeper", "helper"] = "helper" if people else "keeper"
    payload = kinds.PersonSet(
        person=key,
        name=name.strip() if there is None else there.name,
        role=role or (usual if there is None else there.role),
        can=can if can is not None else (() if there is None else there.can),
        not_for=not_for if not_for is not None else (() if there is None else there.not_for),
    )
    act = Act(payload=payload, on=how.day)
    return write(folder, state, [act], replace(how, by=by), question="people")


def past_all(garden: Garden) -> float:
    """How far to the right a bed of which nobody said where it lies is put: past all others.  [m]"""
    sides = [bed.outline for bed in garden.beds.values() if bed.outline is not None and bed.gone_on is None]
    ends = [x_m for outline in sides for x_m, _ in outline.corners]
    return round(max(ends) + PATH_M, 3) if ends else 0.0


def _lot_now(garden: Garden, lot: str) -> dict[str, Any]:
    """A lot as it would be told now: what was sown of it is gone, and telling it is no test."""
    was = _told_of(garden, lot, kinds.LotSet, {})
    held = garden.tin.get(lot)
    if held is not None and held.seeds is not None:
        was["seeds"] = max(0, held.seeds - held.sown)
    elif held is not None and held.grams is not None and held.crop in keys():
        per_gram = load_sheet(held.crop).sowing.seeds_per_gram
        if per_gram is not None:
            was["grams"] = max(0.0, round(held.grams - held.sown / per_gram.value, 3))
    # A test stays known until there is another.
    return {name: value for name, value in was.items() if name not in ("germinated", "tested")}


def _told_of(garden: Garden, key: str, form: type[Payload], usual: dict[str, Any]) -> dict[str, Any]:
    """What was last told of a thing, as fields; the usual where nobody has."""
    for entry in reversed(garden.entries):
        act = entry.act
        if isinstance(act, form):
            named = entry.bed or getattr(act, "item", "") or getattr(act, "lot", "")
            if named == key:
                return {name: getattr(act, name) for name in act.__struct_fields__}
    return dict(usual)
