"""Take back an entry: the last of one's own, or one by the end of its key."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from spadework.errors import ParameterError
from spadework.garden.entries import Entry
from spadework.garden.state import Garden
from spadework.usecases.keep_book import Act, author_key
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write


def take_back(path: Path, how: Writing, key: str = "", *, together: bool = False) -> WriteAnswer:
    """Undo an entry by an entry. Taking back an undo gives back what it took.

    Parameters
    ----------
    path : Path
    how : Writing
    key : str
        Of the entry, or the end of it; empty for the last one of the person's own that stands and is no undo.
    together : bool
        Also what the same person wrote in the same breath.

    Raises
    ------
    ParameterError
        If no entry has the key, several end so, or there is nothing of one's own.
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    garden = state.garden
    author = author_key(garden, how.by)
    entry = entry_by_end(state.entries, key) if key.strip() else _last_own(garden, state.entries, author)
    found = [entry]
    if together:
        found = [
            each
            for each in state.entries
            if (each.author, each.recorded_at) == (entry.author, entry.recorded_at)
            and each.key not in garden.undone
        ]
    # The newest first, so that what stands on another is taken back before it.
    acts = [Act(payload=None, on=how.today, withdraws=each.key) for each in reversed(found)]
    return write(folder, state, acts, how, question="undo")


def entry_by_end(entries: Sequence[Entry], key: str) -> Entry:
    """The one entry whose key ends so.

    Raises
    ------
    ParameterError
        If there is none, or there are several.
    """
    asked = key.strip().upper()
    found = {each.key: each for each in entries if asked and each.key.endswith(asked)}
    if not found:
        raise ParameterError(f"No entry has a key that ends in {key!r}.", "See the keys with: spadework book")
    if len(found) > 1:
        raise ParameterError(f"{len(found)} keys end in {key!r}.", "Give more of its signs.")
    return next(iter(found.values()))


def _last_own(garden: Garden, entries: Sequence[Entry], author: str) -> Entry:
    for entry in reversed(entries):
        if entry.author == author and entry.act is not None and entry.key not in garden.undone:
            return entry
    name = garden.people[author].name if author in garden.people else author
    raise ParameterError(
        f"{name} has written nothing that stands.", "Name the entry by its key; see: spadework book"
    )
