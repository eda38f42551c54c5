"""Look at the garden as the book tells it: on a day, and as known on a day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Literal, TypeAlias

from spadework.errors import GardenError, StoreError
from spadework.garden.entries import Entry
from spadework.garden.site import Site, Words
from spadework.garden.state import Garden
from spadework.store.garden_folder import GardenFolder, open_garden
from spadework.usecases.keep_book import end_of, open_state

Role: TypeAlias = Literal["keeper", "helper", "reader"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A garden looked at.

    Parameters
    ----------
    folder : GardenFolder
    garden : Garden
        As it was on the day.
    entries : tuple of Entry
        All that were known, undone and later ones too, in order of arrival.
    day : date
    known_on : date or None
        What was recorded after the end of it is not known; None for all there is.
    damage : str
        What is wrong with the book; empty where it is sound.
    """

    folder: GardenFolder
    garden: Garden
    entries: tuple[Entry, ...]
    day: date
    known_on: date | None = None
    damage: str = ""

    @property
    def words(self) -> Words:
        """Which English is spoken."""
        return self.folder.site.words


def look_at(path: Path, day: date, *, known_on: date | None = None) -> Look:
    """The garden on a day: as known now about then, or as known at the end of a day.

    Raises
    ------
    GardenError, StoreError
    """
    folder = open_garden(path)
    moment = None if known_on is None else end_of(known_on)
    state = open_state(folder, day=day, known_on=moment)
    known = tuple(each for each in state.entries if moment is None or each.recorded_at <= moment)
    return Look(
        folder=folder, garden=state.garden, entries=known, day=day, known_on=known_on, damage=state.damage
    )


def site_of(path: Path) -> Site:
    """Where a garden lies and how it is spoken to.

    Raises
    ------
    GardenError
    """
    return open_garden(path).site


def last_entry(path: Path) -> str:
    """Key of the newest entry of the book; empty where there is none, or no garden."""
    try:
        folder = open_garden(path)
        if not folder.has_book:
            return ""
        with folder.open_book() as book:
            return book.last_key() or ""
    except (GardenError, StoreError):
        return ""


def mark_of(path: Path) -> str:
    """What tells this garden from any other, wherever its folder lies; empty while its book is."""
    try:
        entries = open_state(open_garden(path)).entries
    except (GardenError, StoreError):
        return ""
    return entries[0].key if entries else ""


def people_known(path: Path) -> Mapping[str, tuple[str, Role]]:
    """Name and role of everybody a garden knows, by key; empty where no garden can be read."""
    try:
        return _people(path, last_entry(path))
    except (GardenError, StoreError):
        return {}


@lru_cache(maxsize=4)
def _people(path: Path, last: str) -> Mapping[str, tuple[str, Role]]:  # noqa: ARG001 - until the book grows
    people = open_state(open_garden(path)).garden.people
    return {key: (each.name, each.role) for key, each in people.items()}
