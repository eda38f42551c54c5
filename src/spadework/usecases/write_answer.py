"""What is answered after writing into the book: what was written, asked, and locked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import msgspec

from spadework.garden.entries import Entry
from spadework.garden.state import Garden
from spadework.store.garden_folder import GardenFolder, open_garden
from spadework.usecases.keep_book import (
    Act,
    Asked,
    State,
    Written,
    asked_of,
    author_key,
    open_state,
    write_acts,
)
from spadework.usecases.lock_lines import LockLine, lock_lines, shown_locks
from spadework.usecases.look import Look
from spadework.usecases.show_book import BookLine, book_lines


@dataclass(frozen=True, slots=True, kw_only=True)
class Writing:
    """Who writes, of which day.

    Parameters
    ----------
    today : date
    on : date or None
        The day it happened; None for today.
    by : str
        Name of who writes; empty for the usual one.
    insist : bool
        Write although something is asked.
    key : str
        Key of the first entry, where whoever writes made it; what comes twice with one key is written once.
    """

    today: date
    on: date | None = None
    by: str = ""
    insist: bool = False
    key: str = ""

    @property
    def day(self) -> date:
        """The day it happened."""
        return self.on or self.today


class WriteAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """What came of writing.

    Parameters
    ----------
    stored : bool
        Whether it is in the book; where not, something was asked.
    entries : list of BookLine
        As they are in the book, or would be.
    questions : list of Asked
        What was asked; where `stored`, what was insisted on.
    can_insist : bool
        Whether the person may say that it is so all the same.
    locks : list of LockLine
        Locks newly set, and those in force on what the entries are about.
    """

    question: str
    today: date
    stored: bool
    entries: list[BookLine]
    questions: list[Asked]
    can_insist: bool
    locks: list[LockLine]
    damage: str = ""


def open_for_writing(path: Path) -> tuple[GardenFolder, State]:
    """The garden, and the book as it is now.

    Raises
    ------
    GardenError, StoreError
    """
    folder = open_garden(path)
    return folder, open_state(folder)


def write(
    folder: GardenFolder, state: State, acts: Sequence[Act], how: Writing, *, question: str
) -> WriteAnswer:
    """Write acts and say what came of it.

    Parameters
    ----------
    folder, state
        From `open_for_writing`.
    acts : sequence of Act
    how : Writing
    question : str
        What the command is called.

    Raises
    ------
    UnknownName, ParameterError
        If it is not known who writes.
    StoreReadOnly, StoreError
    """
    author = author_key(state.garden, how.by)
    written = write_acts(
        folder,
        acts,
        today=how.today,
        author=author,
        insist=how.insist,
        state=state,
        first_key=how.key,
    )
    return answer_of(folder, state, written, question=question, today=how.today)


def written_before(path: Path, how: Writing) -> WriteAnswer | None:
    """What the same message wrote when it came the first time; None where it never came.

    Raises
    ------
    GardenError, StoreError
    """
    if not how.key:
        return None
    folder, state = open_for_writing(path)
    if how.key not in state.garden.keys:
        return None
    found = write_acts(folder, (), today=how.today, author="", state=state, first_key=how.key)
    return answer_of(folder, state, found, question="again", today=how.today)


def answer_of(
    folder: GardenFolder, state: State, written: Written, *, question: str, today: date
) -> WriteAnswer:
    """What came of a writing, with the locks on all it is about."""
    known = [*state.entries, *written.entries]
    garden = open_state(folder).garden if written.stored else written.garden
    look = Look(folder=folder, garden=garden, entries=tuple(known), day=today, damage=state.damage)
    locks = {line.lock + line.subject: line for line in shown_locks(garden, written.locks, look.words)}
    undone = {each.withdraws for each in written.entries}
    about = [*written.entries, *(each for each in state.entries if each.key in undone)]
    for entry in about:
        for line in _about(garden, entry, today, look):
            locks.setdefault(line.lock + line.subject, line)
    return WriteAnswer(
        question=question,
        today=today,
        stored=written.stored,
        entries=book_lines(look, list(written.entries)),
        questions=asked_of(written, look.words),
        can_insist=all(each.may_insist for _, each in written.questions),
        locks=list(locks.values()),
        damage=state.damage,
    )


def _about(garden: Garden, entry: Entry, today: date, look: Look) -> list[LockLine]:
    """Locks in force on what an entry is about, for acts that are about a place or a batch."""
    found: list[LockLine] = []
    if entry.planting in garden.plantings:
        found += lock_lines(garden, today, planting=entry.planting, words=look.words)
    if entry.bed:
        found += lock_lines(garden, today, bed=entry.bed, words=look.words)
    if entry.batch:
        found += lock_lines(garden, today, batch=entry.batch, words=look.words)
    return found
