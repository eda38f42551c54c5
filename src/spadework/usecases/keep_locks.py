"""Set a lock by hand, and lift one."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Literal

from spadework.errors import ParameterError, UnknownName
from spadework.garden import entries as kinds
from spadework.garden.locks import Lock
from spadework.usecases.bed_names import bed_called
from spadework.usecases.entry_words import short_key
from spadework.usecases.keep_book import Act, State
from spadework.usecases.lock_lines import subject_words
from spadework.usecases.new_names import free_name, key_from
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write


def set_lock(
    path: Path,
    how: Writing,
    why: str,
    *,
    bed: str = "",
    planting: str = "",
    batch: str = "",
    until: date | None = None,
    test: str = "",
    stops: Literal["picking", "planting", "using"] = "picking",
    anyone: bool = False,
) -> WriteAnswer:
    """Lock a bed, a planting or a batch.

    Raises
    ------
    ParameterError
        If not just one of them is named.
    UnknownName, StoreReadOnly, StoreError
    """
    if sum(map(bool, (bed, planting, batch))) != 1:
        raise ParameterError("What is locked?", "Name one of --bed, --planting and --batch.")
    folder, state = open_for_writing(path)
    garden = state.garden
    bed_key = bed_called(garden, bed).key if bed else ""
    planting_key = garden.planting(planting).key if planting else ""
    locked: Literal["bed", "planting", "batch"] = "bed" if bed else "planting" if planting else "batch"
    name = free_name(
        f"{bed_key or planting_key or key_from(batch)}-lock", [each.lock for each in garden.locks]
    )
    payload = kinds.Locked(
        lock=name,
        on=locked,
        why=why,
        stops=stops,
        until=until,
        test=test,
        may_lift="anyone" if anyone else "keeper",
    )
    act = Act(payload=payload, on=how.day, bed=bed_key, planting=planting_key, batch=batch.strip())
    return write(folder, state, [act], how, question="lock")


def lift_lock(
    path: Path,
    how: Writing,
    name: str,
    why: str,
) -> WriteAnswer:
    """Lift a lock, by its name, by the end of its entry's key, or by the bed where it is the only one.

    Raises
    ------
    ParameterError
        If it is not clear which is meant; the hint lists them.
    StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    lock = _lock_meant(state, name, how.day)
    garden = state.garden
    act = Act(
        payload=kinds.Unlocked(lock=lock.lock, why=why),
        on=how.day,
        bed=lock.subject if lock.on == "bed" and lock.subject in garden.beds else "",
        planting=lock.subject if lock.on == "planting" and lock.subject in garden.plantings else "",
        batch=lock.subject if lock.on == "batch" else "",
    )
    return write(folder, state, [act], how, question="lock")


def _lock_meant(state: State, name: str, day: date) -> Lock:
    garden = state.garden
    asked = name.strip()
    there = [lock for lock in garden.locks if lock.in_force(day)]
    exact = {lock.lock: lock for lock in there if lock.lock == asked}
    found = exact or {
        lock.lock: lock
        for lock in there
        if asked and (lock.entry.casefold().endswith(asked.casefold()) or lock.rule == asked)
    }
    if not found:
        try:
            bed = bed_called(garden, asked).key
        except UnknownName:
            bed = ""
        found = {lock.lock: lock for lock in garden.locks_on(day, bed=bed)} if bed else {}
    if len(found) == 1:
        return next(iter(found.values()))
    listed = "; ".join(
        f'"{lock.lock if len(found) > 1 else short_key(lock.entry)}" ({lock.why}, '
        f"{subject_words(garden, lock, 'british')})"
        for lock in (found or {each.lock: each for each in there}).values()
    )
    if found:
        raise ParameterError(f"{asked!r} could be several locks.", f"Say which: {listed}.")
    raise ParameterError(
        f"No lock in force answers to {asked!r}.", f"In force: {listed}." if listed else "None is in force."
    )
