"""The book as every other part sees it: entries are added and read, never changed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Protocol

from spadework.garden.entries import Entry
from spadework.store.predictions import Kept, Prediction


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """Which entries are looked for; what is empty or None does not matter.

    Parameters
    ----------
    bed, planting, batch, author : str
    kinds : tuple of str
        Kinds as stored, "sown"; an entry that only withdraws another has the kind "".
    first, last : date or None
        Of the day it happened.
    known_on : datetime or None
        Recorded by then; with time zone.
    """

    bed: str = ""
    planting: str = ""
    batch: str = ""
    author: str = ""
    kinds: tuple[str, ...] = ()
    first: date | None = None
    last: date | None = None
    known_on: datetime | None = None


class Book(Protocol):
    """An open book; a context manager that lets go of it at the end."""

    @property
    def name(self) -> str:
        """What a message calls it."""

    @property
    def read_only(self) -> bool:
        """Whether it refuses entries."""

    @property
    def damage(self) -> str:
        """What is wrong with it and the way back; empty where it is sound."""

    def append(self, entries: Iterable[Entry]) -> tuple[str, ...]:
        """Add entries, all or none, and wait for the disk.

        Parameters
        ----------
        entries : iterable of Entry
            One whose key is there already with the same content counts once.

        Returns
        -------
        tuple of str
            Their keys, in the order given: acknowledged, whatever happens next.

        Raises
        ------
        EntryConflict
            If a key is there already with other content; the message names both.
        ParameterError
            If an entry cannot be kept as it is.
        StoreReadOnly, StoreError
        """

    def entries(self, since: str | None = None, *, known_on: datetime | None = None) -> list[Entry]:
        """Entries in order of arrival.

        Parameters
        ----------
        since : str or None
            Only those that arrived after the one with this key.
        known_on : datetime or None
            Only those recorded by then; with time zone.

        Raises
        ------
        UnknownName
            If no entry has the key `since`.
        StoreError
        """

    def find(self, wanted: Wanted) -> list[Entry]:
        """Entries looked for, in order of arrival."""

    def count(self) -> int:
        """How many entries there are."""

    def last_key(self) -> str | None:
        """Key of the entry that arrived last."""

    def keep(self, predictions: Iterable[Prediction]) -> int:
        """Keep predictions as they were shown; gives how many were new.

        Raises
        ------
        StoreReadOnly, StoreError
        """

    def predictions(self, since: date | None = None) -> list[Kept]:
        """Predictions made on or after a day, in order of keeping."""

    def backup(self, path: Path) -> int:
        """Write the whole book to a new file, checked before it gets its name; gives the number of entries.

        Raises
        ------
        StoreError
            If the file is there already or cannot be written.
        """

    def close(self) -> None:
        """Let go of it."""

    def __enter__(self) -> Book: ...

    def __exit__(self, *_: object) -> None: ...
