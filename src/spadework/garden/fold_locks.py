"""Locks: set by an entry or by rule, lifted by those who may, kept where one who may not undid the entry."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from spadework.garden.draft import Draft
from spadework.garden.entries import Amended, Entry, Fed, Locked, Treated, Unlocked
from spadework.garden.lock_rules import SPRAY_CARRIED_OVER, locks_set_by
from spadework.garden.locks import Lock, Role, may_lift

SETTING: tuple[type, ...] = (Locked, Treated, Amended, Fed)


def set_locks(draft: Draft, entry: Entry, bed: str) -> None:
    """The locks an entry sets, but for a batch that has passed its test already."""
    for lock in locks_set_by(entry, bed):
        if lock.rule == SPRAY_CARRIED_OVER and _tested(draft, lock):
            continue
        draft.locks.append(lock)


def keep_locks(
    draft: Draft, entry: Entry, bed: str, undone_by: frozenset[str], roles: Mapping[str, Role]
) -> None:
    """The locks of an entry that was withdrawn or corrected by someone who may not lift them.

    Notes
    -----
    Whoever wrote the entry may take it back; a keeper may. Otherwise undoing would be a way past a lock.
    """
    for lock in locks_set_by(entry, bed):
        if entry.author in undone_by or any(may_lift(lock, by, roles) for by in undone_by):
            continue
        draft.locks.append(replace(lock, entry_undone_by=", ".join(sorted(undone_by))))


def unlocked(draft: Draft, entry: Entry, act: Unlocked) -> None:
    """Lift what answers to a name; an attempt by one who may not is kept with the lock."""
    roles: dict[str, Role] = {key: person.role for key, person in draft.people.items()}
    for place, lock in enumerate(draft.locks):
        if lock.lifted_on is not None or not lock.answers_to(act.lock):
            continue
        if may_lift(lock, entry.author, roles):
            draft.locks[place] = replace(
                lock, lifted_on=entry.happened_on, lifted_by=entry.author, lifted_why=act.why
            )
        else:
            draft.locks[place] = replace(lock, refused=(*lock.refused, entry.key))


def without_doubles(locks: list[Lock]) -> tuple[Lock, ...]:
    """Leave out a kept lock of an undone entry where its correction set the same one, or a longer one."""
    standing = [lock for lock in locks if not lock.entry_undone_by]
    return tuple(
        lock
        for lock in locks
        if not lock.entry_undone_by or not any(_covers(other, lock) for other in standing)
    )


def _covers(other: Lock, lock: Lock) -> bool:
    same = (other.on, other.subject, other.rule, other.stops) == (
        lock.on,
        lock.subject,
        lock.rule,
        lock.stops,
    )
    if not same or not lock.rule or other.set_on > lock.set_on:
        return False
    return other.until is None or (lock.until is not None and other.until >= lock.until)


def _tested(draft: Draft, lock: Lock) -> bool:
    return any(
        before.lifted_on is not None and before.on == "batch" and before.lock in (lock.lock, lock.along_with)
        for before in draft.locks
    )
