"""One's own chores, which no planting asks for: tell one, change it, take it off, list them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from spadework.errors import ParameterError, UnknownName
from spadework.garden.entries import ChoreSet
from spadework.garden.lookup import key_of
from spadework.garden.records import Chore
from spadework.garden.state import Garden
from spadework.usecases.bed_names import bed_called
from spadework.usecases.keep_book import Act, author_key
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.look import look_at
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write


class ChoreShown(msgspec.Struct, frozen=True, kw_only=True):
    """A chore as it stands.

    Parameters
    ----------
    minutes : float  [min]
    person, bed : str
        Names of whose it is and where; empty for anyone's, and for anywhere.
    every_days : int or None
        None for once.
    done_on, next_on : date or None
        When it was last done, and from when it is to be done again; None where it is done for good.
    due : bool
        It is to be done today, or is late.
    """

    chore: str
    minutes: float
    person: str
    bed: str
    every_days: int | None
    first: date | None
    last: date | None
    done_on: date | None
    next_on: date | None
    due: bool


class ChoreList(msgspec.Struct, frozen=True, kw_only=True):
    """All chores, what is due first, with the locks on the beds they are done at."""

    question: str
    today: date
    chores: list[ChoreShown]
    locks: list[LockLine]
    damage: str = ""


def list_chores(path: Path, today: date) -> ChoreList:
    """All chores that stand.

    Raises
    ------
    GardenError, StoreError
    """
    look = look_at(path, today)
    garden = look.garden
    beds = {chore.bed for chore in garden.chores.values() if chore.bed}
    return ChoreList(
        question="chore",
        today=today,
        chores=sorted(
            (_shown(garden, chore, today) for chore in garden.chores.values()),
            key=lambda each: (not each.due, each.next_on or date.max, each.chore.casefold()),
        ),
        locks=[line for bed in sorted(beds) for line in lock_lines(garden, today, bed=bed, words=look.words)],
        damage=look.damage,
    )


def keep_chore(path: Path, how: Writing, chore: str, said: Mapping[str, Any]) -> WriteAnswer:
    """Tell of a chore, or say something else of one; what is not said stays as it was.

    Parameters
    ----------
    path : Path
    how : Writing
    chore : str
        What it is called.
    said : mapping of str to value
        Fields of `ChoreSet`; `person` and `bed` by any name.

    Raises
    ------
    UnknownName, ParameterError, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    garden = state.garden
    try:
        known = garden.chores[_called(garden, chore)]
    except UnknownName:
        known = None
    if known is None and "minutes" not in said:
        raise ParameterError("How long does it take?", "Give its minutes.")
    fields = {"chore": chore.strip(), **({} if known is None else _told(known)), **said}
    bed = str(fields.pop("bed", "") or "")
    if fields.get("person"):
        fields["person"] = author_key(garden, str(fields["person"]))
    act = Act(payload=ChoreSet(**fields), on=how.day, bed="" if not bed else bed_called(garden, bed).key)
    return write(folder, state, [act], how, question="chore")


def end_chore(path: Path, how: Writing, chore: str) -> WriteAnswer:
    """Take a chore off; when it was done stays in the book.

    Raises
    ------
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    known = state.garden.chores[_called(state.garden, chore)]
    fields = _told(known)
    bed = str(fields.pop("bed"))
    act = Act(payload=ChoreSet(**fields, gone=True), on=how.day, bed=bed)
    return write(folder, state, [act], how, question="chore")


def _called(garden: Garden, name: str) -> str:
    return key_of(name, {key: key for key in garden.chores}, "chore")


def _told(chore: Chore) -> dict[str, Any]:
    names = ("chore", "minutes", "person", "bed", "every_days", "first", "last")
    return {name: getattr(chore, name) for name in names}


def _shown(garden: Garden, chore: Chore, today: date) -> ChoreShown:
    person, bed = garden.people.get(chore.person), garden.beds.get(chore.bed)
    return ChoreShown(
        chore=chore.chore,
        minutes=chore.minutes,
        person=chore.person if person is None else person.name,
        bed=chore.bed if bed is None else bed.name,
        every_days=chore.every_days,
        first=chore.first,
        last=chore.last,
        done_on=chore.done_on,
        next_on=chore.next_on,
        due=chore.due(today),
    )
