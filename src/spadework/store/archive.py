"""Write the whole garden as one open archive that can be read back to the same state."""

from __future__ import annotations

import hashlib
import os
import zipfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, Final

import msgspec

from spadework import __version__
from spadework.errors import GardenError, StoreError
from spadework.garden.entries import Entry, Photo
from spadework.garden.state import Garden
from spadework.store import tables
from spadework.store.archive_form import (
    ABOUT,
    BOOK,
    PHOTO,
    PLAN,
    PREDICTIONS,
    About,
    Part,
    without_store,
)
from spadework.store.copies import Step, discard, keep_file, unheard
from spadework.store.garden_folder import GARDEN_FILE, WEATHER_FILE, GardenFolder
from spadework.store.overrides_file import OVERRIDES_FILE
from spadework.store.photos import PHOTOS
from spadework.store.plan_geojson import plan_geojson
from spadework.store.predictions import Kept

_MADE: Final = (1980, 1, 1, 0, 0, 0)
"""The same garden gives the same parts, byte for byte; when it was made is in about.json."""


@dataclass(frozen=True)
class Archived:
    """An archive that was written and read again.

    Parameters
    ----------
    path : Path
    about : About
    """

    path: Path
    about: About


def write_archive(
    folder: GardenFolder,
    entries: Sequence[Entry],
    predictions: list[Kept],
    garden: Garden,
    to: Path,
    day: date,
    *,
    damage: str = "",
    step: Step = unheard,
) -> Archived:
    """Write everything the garden is into one zip.

    Parameters
    ----------
    folder : GardenFolder
    entries : sequence of Entry
        In order of arrival.
    predictions : list of Kept
    garden : Garden
        The entries folded.
    to : Path
        It must not exist.
    day : date
        For the tables: which locks are in force.
    damage : str
        What is wrong with the book.
    step : Step

    Raises
    ------
    StoreError
        If the file exists or cannot be written; then there is no such file.
    GardenError
        If a file of the garden cannot be read.
    """
    if to.exists():
        raise StoreError(f"{to} exists already.", "Name a new file; nothing was overwritten.")
    texts = _texts(folder, entries, predictions, garden, day)
    named = {entry.act.sha256 for entry in entries if isinstance(entry.act, Photo)}
    photos, left_out = _photos(folder, named)
    parts = {name: Part(len(data), hashlib.sha256(data).hexdigest()) for name, data in texts.items()}
    parts |= {name: Part(path.stat().st_size, path.stem) for name, path in photos.items()}
    about = About(
        program=__version__,
        made_at=datetime.now(UTC),
        day=day,
        garden=folder.site.name,
        entries=len(entries),
        predictions=len(predictions),
        photos=len(photos),
        weather_days=folder.weather().days if folder.has_weather else 0,
        damage=damage,
        left_out=left_out,
        parts=parts,
    )
    _write(to, about, texts, photos, step)
    return Archived(to, about)


def _write(
    to: Path,
    about: About,
    texts: dict[str, bytes],
    photos: dict[str, Path],
    step: Step,
) -> None:
    part = to.with_name(f".{to.name}.{os.getpid()}.part")
    whole = len(texts) + len(photos)
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive:
            archive.writestr(_info(ABOUT), msgspec.json.format(msgspec.json.encode(about), indent=1))
            for done, (name, data) in enumerate(texts.items()):
                step(done, whole)
                archive.writestr(_info(name), data)
            for done, (name, path) in enumerate(photos.items(), start=len(texts)):
                step(done, whole)
                archive.writestr(_info(name, packed=False), path.read_bytes())
        with zipfile.ZipFile(part) as archive:
            if (wrong := archive.testzip()) is not None:
                raise StoreError(f"{wrong} is not in {to} as it should be.", "Do it again.")
        keep_file(part, to)
        step(whole, whole)
    except OSError as error:
        raise StoreError(f"{to} cannot be written: {error.strerror}.", "Check folder and disk.") from None
    finally:
        discard(part)


def _info(name: str, *, packed: bool = True) -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(name, _MADE)
    info.compress_type = zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED
    info.external_attr = 0o644 << 16
    return info


def _texts(
    folder: GardenFolder, entries: Sequence[Entry], predictions: list[Kept], garden: Garden, day: date
) -> dict[str, bytes]:
    """All parts but the photos, by name; the locks come first."""
    made = (
        tables.locks_table(garden, day),
        tables.beds_table(garden, day),
        tables.plantings_table(garden, day),
        tables.kit_table(garden),
        tables.tin_table(garden),
        tables.people_table(garden),
        tables.chores_table(garden),
        tables.harvest_table(garden),
    )
    texts = {f"{table.name}.csv": tables.csv_text(table).encode() for table in made}
    texts[PLAN] = plan_geojson(garden, folder.site, day).encode()
    texts[BOOK] = _lines(entries)
    texts[PREDICTIONS] = _lines(predictions)
    try:
        text = (folder.path / GARDEN_FILE).read_text(encoding="utf-8-sig")
        texts[GARDEN_FILE] = without_store(text).encode()
        for name in (OVERRIDES_FILE, WEATHER_FILE):
            if (folder.path / name).is_file():
                texts[name] = (folder.path / name).read_bytes()
    except ValueError as error:
        raise GardenError(
            f"{GARDEN_FILE}: {error}.", 'Write it as [store] and, below, url = "...".'
        ) from None
    except OSError as error:
        raise GardenError(
            f"{folder.path} cannot be read: {error.strerror}.", "Check its permissions."
        ) from None
    return texts


def _lines(records: Iterable[Any]) -> bytes:
    return b"".join(msgspec.json.encode(record) + b"\n" for record in records)


def _photos(folder: GardenFolder, named: set[str]) -> tuple[dict[str, Path], tuple[str, ...]]:
    """Photos that are what their names say, by name; and what is wrong with the others."""
    there = sorted(
        path for path in (folder.path / PHOTOS).glob("*") if PHOTO.fullmatch(f"{PHOTOS}/{path.name}")
    )
    known = {path.stem for path in there}
    faults = {key: next(iter(folder.photos.faults([key])), "") for key in sorted(known | named)}
    sound = {f"{PHOTOS}/{path.name}": path for path in there if not faults[path.stem]}
    return sound, tuple(fault for fault in faults.values() if fault)
