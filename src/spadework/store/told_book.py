"""What was told, as entries of the book; the file it was kept in before is taken over once."""

from __future__ import annotations

import os
from collections.abc import Iterable
from datetime import UTC, date, datetime, time
from pathlib import Path
from typing import Any, Final

import msgspec

from spadework.errors import ParameterError, StoreDamaged
from spadework.garden.entries import Entry, FactTold
from spadework.garden.keys import is_key, key_time
from spadework.garden.resolve import standing
from spadework.garden.told import Fact, Told
from spadework.store.book import Book, Wanted
from spadework.store.copies import sync_folder
from spadework.store.told_file import KINDS, kind_of, read_lines

TAKEN: Final = "told-taken-over.jsonl"
"""Name the earlier file gets once all of it is in the book."""

_WANTED: Final = Wanted(kinds=("told", ""))
"""Told facts, and what withdraws them."""


def told_in(book: Book, today: date, more: Iterable[Entry] = ()) -> tuple[Told, ...]:
    """What was told on or before a day and stood then, in order of telling.

    Parameters
    ----------
    book : Book
    today : date
        Entries and withdrawals of later days are not known yet.
    more : iterable of Entry
        Told entries that are not in the book yet.

    Raises
    ------
    StoreError
    """
    known = [entry for entry in (*book.find(_WANTED), *more) if entry.happened_on <= today]
    told = [
        Told(
            key=entry.key,
            told_on=entry.happened_on,
            source=entry.act.source,
            fact=fact_of(entry.act, entry.key),
        )
        for _, entry in standing(known).entries
        if isinstance(entry.act, FactTold)
    ]
    return tuple(sorted(told, key=lambda one: (one.told_on, one.key)))


def tell_book(book: Book, told: Iterable[Told], recorded_at: datetime, author: str = "") -> None:
    """Add told facts, all or none; one whose key is there already counts once.

    Raises
    ------
    EntryConflict, StoreReadOnly, StoreError
    """
    known = {entry.key: entry for entry in book.find(Wanted(kinds=("told",)))}
    new: dict[str, Entry] = {}
    for one in told:
        entry = entry_of(one, recorded_at, author)
        there = known.get(one.key)
        if there is not None and there.act == entry.act and there.happened_on == entry.happened_on:
            continue  # told again at another moment, it is the same
        new.setdefault(one.key, entry)
    book.append(new.values())


def withdraw_in(
    book: Book, key: str, on: date, new_key: str, recorded_at: datetime, author: str = ""
) -> None:
    """Withdraw a told fact from a day on; answers for earlier days still know it.

    Raises
    ------
    ParameterError
        If there is no such entry, or it was told later.
    StoreReadOnly, StoreError
    """
    there = next((entry for entry in book.find(Wanted(kinds=("told",))) if entry.key == key), None)
    if there is None:
        raise ParameterError(f"Nothing told has the key {key}.", "See the keys with: spadework told")
    if there.happened_on > on:
        raise ParameterError(
            f"{key} was told on {there.happened_on}, after {on}.", "Give that day or a later one."
        )
    entry = Entry(key=new_key, happened_on=on, recorded_at=recorded_at, author=author, withdraws=key)
    book.append([entry])


def entry_of(told: Told, recorded_at: datetime, author: str = "") -> Entry:
    """A told fact as an entry."""
    said: dict[str, Any] = msgspec.json.decode(msgspec.json.encode(told.fact))
    fact = {name: value for name, value in said.items() if value is not None}
    return Entry(
        key=told.key,
        happened_on=told.told_on,
        recorded_at=recorded_at,
        author=author,
        act=FactTold(source=told.source, fact=fact, sort=kind_of(told.fact)),
    )


def entries_of_file(path: Path) -> list[Entry]:
    """The earlier file as entries, those with the same key once; none where there is no such file.

    Raises
    ------
    InputFileError, GardenError
        If a line cannot be read; then nothing is taken.
    """
    found: dict[str, Entry] = {}
    for line, fact in read_lines(path):
        moment = _recorded_at(line.key, line.told_on)
        if fact is None:
            entry = Entry(
                key=line.key,
                happened_on=line.told_on,
                recorded_at=moment,
                author="",
                withdraws=line.withdraws,
            )
        else:
            told = Told(key=line.key, told_on=line.told_on, source=line.source, fact=fact)
            entry = entry_of(told, moment)
        found.setdefault(line.key, entry)
    return list(found.values())


def take_over(book: Book, path: Path) -> int:
    """Bring the earlier file into the book once, and give it another name; how many entries it held.

    Raises
    ------
    InputFileError, GardenError, StoreError
        Then the file stays as it is; taking it over again later doubles nothing.
    """
    entries = entries_of_file(path)
    book.append(entries)
    os.replace(path, _free_name(path.with_name(TAKEN)))
    sync_folder(path.parent)
    return len(entries)


def _free_name(path: Path) -> Path:
    """The name, or with a number where it is taken."""
    free, number = path, 1
    while free.exists():
        number += 1
        free = path.with_stem(f"{path.stem}-{number}")
    return free


def _recorded_at(key: str, told_on: date) -> datetime:
    """When a line was written: by its key where that fits the day it was told, else at noon of that day."""
    if is_key(key):
        made = key_time(key)
        if abs((made.date() - told_on).days) <= 1:
            return made
    return datetime.combine(told_on, time(12), UTC)


def _told(entry: Entry, act: FactTold) -> Told:
    return Told(key=entry.key, told_on=entry.happened_on, source=act.source, fact=fact_of(act, entry.key))


def fact_of(act: FactTold, key: str = "") -> Fact:
    """The fact an entry holds; its key is for the message.

    Raises
    ------
    StoreDamaged
        If it is none.
    """
    form = KINDS.get(act.sort)
    try:
        if form is None:
            raise ValueError(f"{act.sort!r} is not a kind of told fact")
        fact: Fact = msgspec.convert(act.fact, type=form)
    except ValueError as error:
        raise StoreDamaged(
            f"What was told under {key} cannot be read: {error}.", "Withdraw it: spadework undo"
        ) from None
    return fact
