"""The locks: those in force, and those that were."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.usecases.bed_names import bed_called
from spadework.usecases.lock_lines import LockLine, lock_lines, shown_locks
from spadework.usecases.look import look_at


class LockList(msgspec.Struct, frozen=True, kw_only=True):
    """Locks in force on a day, and those over by then where they were asked for."""

    question: str
    today: date
    on: date
    known_on: date | None
    locks: list[LockLine]
    over: list[LockLine]
    damage: str = ""


def list_locks(
    path: Path,
    today: date,
    *,
    bed: str = "",
    over: bool = False,
    on: date | None = None,
    known_on: date | None = None,
) -> LockList:
    """Locks on a day, of one bed or of all.

    Parameters
    ----------
    path : Path
    today : date
    bed : str
        By name or key; empty for all.
    over : bool
        Also those of the whole garden that are lifted or have run out.
    on, known_on : date or None

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    look = look_at(path, on or today, known_on=known_on)
    garden = look.garden
    key = bed_called(garden, bed).key if bed else ""
    past = [lock for lock in garden.locks if not lock.in_force(look.day)] if over else []
    return LockList(
        question="lock",
        today=today,
        on=look.day,
        known_on=known_on,
        locks=lock_lines(garden, look.day, bed=key, words=look.words),
        over=shown_locks(garden, past, look.words),
        damage=look.damage,
    )
