"""Look at the garden as the book tells it: on a day, and as known on a day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from spadework.errors import GardenError, StoreError
from spadework.garden.entries import Entry
from spadework.garden.site import Site, Words
from spadework.garden.state import Garden
from spadework.store.garden_folder import GardenFolder, open_garden
from spadework.usecases.keep_book import end_of, open_state


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


def first_keeper(path: Path) -> tuple[str, str]:
    """Key and name of the keeper who was told of first; both empty where nobody is known."""
    try:
        garden = open_state(open_garden(path)).garden
    except (GardenError, StoreError):
        return "", ""
    return next(((key, each.name) for key, each in garden.people.items() if each.role == "keeper"), ("", ""))
