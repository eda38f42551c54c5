"""Take a garden in from an archive."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.store.archive_import import bring_in
from spadework.store.archive_read import open_archive
from spadework.store.copies import Step, unheard
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import garden_state
from spadework.usecases.lock_lines import LockLine, lock_lines


class CarriedIn(msgspec.Struct, frozen=True, kw_only=True):
    """What an archive brought.

    Parameters
    ----------
    file, garden, folder, units : str
    made : bool
        The garden is new.
    entries, predictions, photos, weather_days : int
        New ones.
    known : int
        Entries that were there already.
    stayed : list of str
        Files that say something else here and were left as they are.
    locks : list of LockLine
        In force now.
    left_out : list of str
        Photos that were not in the archive.
    damage : str
        What was wrong with the book it was made from.
    """

    file: str
    garden: str
    folder: str
    units: str
    made: bool
    entries: int
    known: int
    predictions: int
    photos: int
    weather_days: int
    stayed: list[str]
    locks: list[LockLine]
    left_out: list[str] = []
    damage: str = ""


def carry_in(file: Path, folder: Path, today: date, *, step: Step = unheard) -> CarriedIn:
    """Check an archive from end to end and take it in: all of it or nothing.

    Parameters
    ----------
    file : Path
    folder : Path
        A garden to join it to, or an empty folder, or none.
    today : date
        For locks in force.
    step : Step
        Of the photos.

    Raises
    ------
    InputFileError
        If anything is wrong with the archive.
    EntryConflict
        If an entry says something else there under the same key.
    GardenError, StoreError
    """
    with open_archive(file) as archive:
        taken = bring_in(archive, folder, step)
        about = archive.about
    garden = open_garden(folder)
    return CarriedIn(
        file=str(file),
        garden=garden.site.name,
        units=garden.site.units,
        folder=str(folder),
        made=taken.made,
        entries=taken.entries,
        known=taken.known,
        predictions=taken.predictions,
        photos=taken.photos,
        weather_days=taken.weather_days,
        stayed=list(taken.stayed),
        locks=lock_lines(garden_state(garden), today, words=garden.site.words),
        left_out=list(about.left_out),
        damage=about.damage,
    )
