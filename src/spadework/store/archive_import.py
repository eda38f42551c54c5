"""Take an archive in: as a new garden, or joined to one that is there; all of it or nothing."""

from __future__ import annotations

import os
import tempfile
import tomllib
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from spadework.errors import GardenError, StoreError
from spadework.garden.site import Site
from spadework.store import predictions as foretold
from spadework.store.archive_read import OpenArchive
from spadework.store.copies import Step, sync_folder, unheard
from spadework.store.garden_folder import GARDEN_FILE, WEATHER_FILE, GardenFolder, open_garden
from spadework.store.open_book import open_book
from spadework.store.overrides_file import OVERRIDES_FILE, OVERRIDES_START
from spadework.store.photos import Photos
from spadework.store.sql_book import SqlBook
from spadework.weather.daily_csv import read_daily_csv
from spadework.weather.fill import fill_gaps
from spadework.weather.series import Series, merge

_PART: Final = ".import-"
"""How a folder in the making begins; one that a stopped import left behind counts as nothing."""

NEAR_DEG: Final = 0.01
"""About a kilometre: gardens farther apart are two. Class: common-practice."""


@dataclass(frozen=True, kw_only=True)
class TakenIn:
    """What an archive brought.

    Parameters
    ----------
    made : bool
        The garden is new.
    entries, predictions, photos, weather_days : int
        New ones.
    known : int
        Entries that were there already.
    stayed : tuple of str
        Files that say something else here and were left as they are here.
    """

    made: bool
    entries: int
    known: int
    predictions: int
    photos: int
    weather_days: int
    stayed: tuple[str, ...] = ()


def bring_in(archive: OpenArchive, garden: Path, step: Step = unheard) -> TakenIn:
    """Take a checked archive into a garden folder.

    Parameters
    ----------
    archive : OpenArchive
    garden : Path
        A garden, to which it is joined: the same entry twice is one. Or an empty folder, or none.
    step : Step
        Of the photos.

    Raises
    ------
    EntryConflict
        If an entry says something else there under the same key. Nothing was taken.
    GardenError
        If the folder holds another garden, or something that is none.
    StoreReadOnly, StoreError
    """
    if (garden / GARDEN_FILE).exists():
        return _join(archive, open_garden(garden), step)
    try:
        if garden.exists() and any(not path.name.startswith(_PART) for path in garden.iterdir()):
            raise GardenError(
                f"{garden} is not empty and holds no garden.",
                "Name an empty folder, or one that is not there.",
            )
        made = not garden.exists()
        garden.mkdir(parents=True, exist_ok=True)
        try:
            return _make(archive, garden, step)
        except BaseException:
            if made:
                with suppress(OSError):
                    garden.rmdir()
            raise
    except OSError as error:
        raise GardenError(f"{garden} cannot be written: {error.strerror}.", "Check the folder.") from None


def _make(archive: OpenArchive, garden: Path, step: Step) -> TakenIn:
    """Lay everything out beside its place, then give the parts their names, last the one that counts."""
    with tempfile.TemporaryDirectory(dir=garden, prefix=_PART) as made:
        part = Path(made)
        (part / "weather").mkdir()
        (part / OVERRIDES_FILE).write_bytes(archive.overrides or OVERRIDES_START.encode())
        if archive.weather:
            (part / WEATHER_FILE).write_bytes(archive.weather)
        (part / GARDEN_FILE).write_bytes(archive.garden)
        folder = open_garden(part)
        folder.overrides()
        _add_photos(archive, folder.photos, step)
        with open_book(part) as book:
            entries, predictions = _add_records(archive, book)
        for path in sorted(part.iterdir(), key=lambda path: path.name == GARDEN_FILE):
            os.rename(path, garden / path.name)
        sync_folder(garden)
    return TakenIn(
        made=True,
        entries=entries,
        known=len(archive.entries) - entries,
        predictions=predictions,
        photos=len(archive.photos),
        weather_days=archive.about.weather_days,
    )


def _join(archive: OpenArchive, folder: GardenFolder, step: Step) -> TakenIn:
    """Everything that can go wrong is tried before the first thing is written."""
    theirs = _site_of(archive)
    own = folder.site
    if max(abs(theirs.lat_deg - own.lat_deg), abs(theirs.lon_deg - own.lon_deg)) > NEAR_DEG:
        raise GardenError(
            f"{archive.name} is of {theirs.name} at {theirs.lat_deg:g}, {theirs.lon_deg:g}, and the garden in"
            f" {folder.path} is {own.name} at {own.lat_deg:g}, {own.lon_deg:g}.",
            "Import it into a folder of its own; nothing was taken.",
        )
    weather, days = _joined_weather(archive, folder)
    with folder.open_book() as book:
        if book.read_only:
            raise StoreError(book.damage or f"{book.name} can only be read.", "Nothing was taken.")
        new = [name for name in archive.photos if not _has(folder.photos, name)]
        # Photos first: an entry never names one that is not there.
        _add_photos(archive, folder.photos, step)
        try:
            entries, predictions = _add_records(archive, book)
        except BaseException:
            for name in new:
                (folder.path / name).unlink(missing_ok=True)
            raise
    if weather is not None:
        folder.keep_weather(weather)
    return TakenIn(
        made=False,
        entries=entries,
        known=len(archive.entries) - entries,
        predictions=predictions,
        photos=len(new),
        weather_days=days,
        stayed=_different(archive, folder),
    )


def _add_records(archive: OpenArchive, book: SqlBook) -> tuple[int, int]:
    """Entries and predictions; gives how many of each were new."""
    before = book.count()
    book.append(archive.entries)
    return book.count() - before, foretold.add(book.database, archive.predictions)


def _add_photos(archive: OpenArchive, photos: Photos, step: Step) -> None:
    for done, name in enumerate(archive.photos):
        step(done, len(archive.photos))
        photos.keep(archive.photo(name))


def _has(photos: Photos, name: str) -> bool:
    return next(photos.faults([Path(name).stem]), "") == ""


def _site_of(archive: OpenArchive) -> Site:
    with tempfile.TemporaryDirectory(prefix="spadework-") as made:
        (Path(made) / GARDEN_FILE).write_bytes(archive.garden)
        return open_garden(made).site


def _joined_weather(archive: OpenArchive, folder: GardenFolder) -> tuple[Series | None, int]:
    """The record with the days that only the archive has, or None where it has none; own numbers stay."""
    if not archive.weather:
        return None, 0
    theirs = read_daily_csv(archive.weather.decode("utf-8-sig"), WEATHER_FILE)
    if not folder.has_weather:
        return theirs, theirs.days
    own = folder.weather().unfilled()
    merged = merge(theirs.unfilled(), own).series
    new = _known_days(merged) - _known_days(own)
    return (fill_gaps(merged).series, new) if new > 0 else (None, 0)


def _known_days(series: Series) -> int:
    return int(series.measured_days().sum())


def _different(archive: OpenArchive, folder: GardenFolder) -> tuple[str, ...]:
    """Files that say one thing here and another in the archive."""
    found = []
    for name, theirs in ((GARDEN_FILE, archive.garden), (OVERRIDES_FILE, archive.overrides)):
        path = folder.path / name
        own = path.read_bytes() if path.is_file() else b""
        if theirs and _meaning(own) != _meaning(theirs):
            found.append(name)
    return tuple(found)


def _meaning(data: bytes) -> dict[str, object]:
    table = tomllib.loads(data.decode("utf-8-sig"))
    table.pop("store", None)
    return table
