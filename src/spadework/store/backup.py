"""Copies of a whole garden: book, settings, weather and photos in one archive that any program can open."""

from __future__ import annotations

import os
import tempfile
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from spadework.errors import StoreError
from spadework.store.copies import Step, discard, keep_file, unheard
from spadework.store.open_book import BACKUPS, BOOK_FILE, DAMAGED, backup_path, open_book
from spadework.store.sql_book import SqlBook
from spadework.store.sqlite_database import SqliteDatabase


@dataclass(frozen=True)
class BackedUp:
    """A copy that was made and checked.

    Parameters
    ----------
    path : Path
    entries : int
        In the book of the copy.
    files : int
        Other files of the garden in it.
    predictions : int
    """

    path: Path
    entries: int
    files: int
    predictions: int


def back_up(garden: Path, to: Path | None = None, *, step: Step = unheard) -> BackedUp:
    """Copy the whole garden into one archive.

    Parameters
    ----------
    garden : Path
    to : Path or None
        The archive, which must not exist; by default a new one in the garden's own folder for them.
    step : Step

    Raises
    ------
    StoreError
        If it exists, cannot be written, or the book is damaged.
    """
    path = backup_path(garden, ending=".zip") if to is None else to
    if path.exists():
        raise StoreError(f"{path} exists already.", "Name a new file; nothing was overwritten.")
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=path.parent, prefix=".copy-") as made:
            copy = Path(made) / BOOK_FILE
            with open_book(garden) as book:
                entries = book.backup(copy)
            with SqlBook(SqliteDatabase(copy, read_only=True)) as made_copy:
                # A copy of what is no longer as it was written would be in the way of better ones.
                made_copy.entries()
                predictions = len(made_copy.predictions())
            files = sorted(_files(garden))
            with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive:
                archive.write(copy, BOOK_FILE)
                for done, file in enumerate(files):
                    step(done, len(files))
                    archive.write(file, file.relative_to(garden).as_posix())
        with zipfile.ZipFile(part) as archive:
            if (wrong := archive.testzip()) is not None:
                raise StoreError(f"{wrong} is not in the copy as it should be.", "Copy again.")
        keep_file(part, path)
    except OSError as error:
        raise StoreError(f"{path} cannot be written: {error.strerror}.", "Check folder and disk.") from None
    finally:
        discard(part)
    return BackedUp(path, entries, len(files), predictions)


def _files(garden: Path) -> Iterator[Path]:
    """Everything of the garden but the book, which is copied whole, and other copies, damaged ones too."""
    for path in garden.rglob("*"):
        parts = path.relative_to(garden).parts
        ours = not any(part.startswith(".") for part in parts) and parts[0] != BACKUPS
        ours = ours and not path.name.startswith(DAMAGED)
        if path.is_file() and ours and not parts[0].startswith(BOOK_FILE) and path.suffix != ".zip":
            yield path
