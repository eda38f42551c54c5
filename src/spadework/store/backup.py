"""Copies of a whole garden: book, settings, weather and photos in one archive that any program can open."""

from __future__ import annotations

import os
import tempfile
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from spadework.errors import StoreError
from spadework.store.copies import discard, keep_file
from spadework.store.open_book import BACKUPS, BOOK_FILE, backup_path, open_book


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
    """

    path: Path
    entries: int
    files: int


def back_up(garden: Path, to: Path | None = None) -> BackedUp:
    """Copy the whole garden into one archive.

    Parameters
    ----------
    garden : Path
    to : Path or None
        The archive, which must not exist; by default a new one in the garden's own folder for them.

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
            files = sorted(_files(garden))
            with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive:
                archive.write(copy, BOOK_FILE)
                for file in files:
                    archive.write(file, file.relative_to(garden).as_posix())
        with zipfile.ZipFile(part) as archive:
            if (wrong := archive.testzip()) is not None:
                raise StoreError(f"{wrong} is not in the copy as it should be.", "Copy again.")
        keep_file(part, path)
    except OSError as error:
        raise StoreError(f"{path} cannot be written: {error.strerror}.", "Check folder and disk.") from None
    finally:
        discard(part)
    return BackedUp(path, entries, len(files))


def _files(garden: Path) -> Iterator[Path]:
    """Everything of the garden but the book, which is copied whole, and other copies."""
    for path in garden.rglob("*"):
        parts = path.relative_to(garden).parts
        ours = not any(part.startswith(".") for part in parts) and parts[0] != BACKUPS
        if path.is_file() and ours and not parts[0].startswith(BOOK_FILE) and path.suffix != ".zip":
            yield path
