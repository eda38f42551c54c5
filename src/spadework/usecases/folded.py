"""The book folded once for as long as nothing is written into it: a page asks for it more than once."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date, datetime
from functools import lru_cache
from pathlib import Path
from typing import Final

from spadework.garden.entries import Entry
from spadework.garden.fold import fold
from spadework.garden.state import Garden

KEPT: Final = 4
"""Today's garden and the whole book's, now and before the last act."""


class _Read:
    """What was read of a book. With the same keys it is the same: no entry is ever changed."""

    def __init__(self, path: Path, entries: Sequence[Entry]) -> None:
        self.entries = tuple(entries)
        self._known_by = (path, tuple(entry.key for entry in self.entries))
        self._hash = hash(self._known_by)

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Read) and self._known_by == other._known_by


def folded(
    path: Path,
    entries: Sequence[Entry],
    *,
    day: date | None,
    known_on: datetime | None,
    picked_whole: Collection[str],
) -> Garden:
    """The garden the entries of a folder's book tell of; the other arguments as for `garden.fold.fold`."""
    return _folded(_Read(path, entries), day, known_on, frozenset(picked_whole))


@lru_cache(maxsize=KEPT)
def _folded(read: _Read, day: date | None, known_on: datetime | None, picked_whole: frozenset[str]) -> Garden:
    return fold(read.entries, day=day, known_on=known_on, picked_whole=picked_whole)
