"""The way back from a copy; what was acknowledged since is read from what is left and saved too."""

from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
import zipfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

from spadework.errors import StoreDamaged, StoreError
from spadework.garden.entries import Entry
from spadework.store import predictions as foretold
from spadework.store.copies import ZIP_FAULTS, check_copy, sync_folder
from spadework.store.open_book import BACKUPS, BOOK_FILE, backups, open_file, open_server, store_url
from spadework.store.predictions import Kept
from spadework.store.sql_book import SqlBook
from spadework.store.sqlite_database import connect, said


@dataclass(frozen=True)
class Restored:
    """A book brought back.

    Parameters
    ----------
    backup : Path or None
        The copy it came from; None where all of it was read from the damaged book.
    entries : int
        In the book now.
    from_backup, saved : int
        Entries of the copy; entries only the book itself had.
    disagreeing : tuple of str
        Keys of entries that say one thing in the copy and another in the book; the copy's are kept.
    set_aside : Path or None
        Where the damaged book now lies; None where the book was sound.
    files : tuple of str
        Other files of the garden brought back because they were missing.
    """

    backup: Path | None
    entries: int
    from_backup: int
    saved: int
    disagreeing: tuple[str, ...] = ()
    set_aside: Path | None = None
    files: tuple[str, ...] = ()


def restore(garden: Path, backup: Path | None = None) -> Restored:
    """Bring the book back from a copy, together with every entry that can still be read of the book itself.

    Parameters
    ----------
    garden : Path
    backup : Path or None
        A copy; by default the newest in the garden's own folder for them. Where there is none, the book is
        built from what can be read of it.

    Raises
    ------
    StoreError
        If the copy is not sound, or there is neither a copy nor anything to read. Nothing was changed.

    Notes
    -----
    Nothing acknowledged is dropped: a sound book gains what only the copy has, and no more. Entries that
    another program adds to a damaged book in the very moment it is replaced are not seen.
    """
    if backup is None and (kept := backups(garden)):
        backup = kept[-1]
    with tempfile.TemporaryDirectory(dir=garden, prefix=".restore-") as made:
        part = Path(made) / BOOK_FILE
        if backup is not None:
            _take_out(backup, part)
            check_copy(part)
        with open_file(part) as copy, _current(garden) as book:
            done = _mend(garden / BOOK_FILE, part, copy, book) if book.damage else _add(copy, book)
    files = () if backup is None else _missing_files(garden, backup)
    return replace(done, backup=backup, files=files)


@contextmanager
def _current(garden: Path) -> Iterator[SqlBook]:
    url = store_url(garden)
    with open_server(url, garden) if url else open_file(garden / BOOK_FILE) as book:
        if not book.damage:
            try:
                book.entries()
            except StoreDamaged as error:
                if url:
                    raise  # a server's tables are brought back on the server
                book.damage = error.message
        yield book


def _add(copy: SqlBook, book: SqlBook) -> Restored:
    """Give a sound book what only the copy has."""
    theirs, own = copy.entries(), {entry.key: entry for entry in book.entries()}
    disagreeing = _disagreeing(theirs, own)
    book.append(entry for entry in theirs if entry.key not in own)
    foretold.add(book.database, copy.predictions())
    keys = {entry.key for entry in theirs}
    return Restored(None, book.count(), len(theirs), len(own.keys() - keys), disagreeing)


def _mend(path: Path, part: Path, copy: SqlBook, book: SqlBook) -> Restored:
    """Give the copy what can be read of a damaged book, and put it in that one's place."""
    own = {entry.key: entry for entry in book.entries()}
    theirs = {entry.key: entry for entry in copy.entries()}
    if not own and not theirs:
        raise StoreError(
            f"There is no copy in {BACKUPS}, and nothing can be read of {path.name}.",
            "Name a copy kept elsewhere.",
        )
    only_own = [entry for key, entry in own.items() if key not in theirs]
    copy.append(only_own)
    foretold.add(copy.database, _readable_predictions(book))
    entries = copy.count()
    copy.close()  # what is in its log goes into the file
    book.close()
    aside = _set_aside(path)
    _replace(path, part)
    check_copy(path)
    disagreeing = _disagreeing(list(own.values()), theirs)
    return Restored(None, entries, len(theirs), len(only_own), disagreeing, aside)


def _set_aside(path: Path) -> Path:
    """Copy the damaged book, with the log beside it, to where it is kept for whoever can read more of it."""
    stamp = datetime.now(UTC).strftime("%Y%m%dT%H%M%S%fZ")
    aside = path.with_name(f"damaged-{stamp}.sqlite")
    for ending in ("", "-wal"):
        file = path.with_name(path.name + ending)
        if file.exists():
            shutil.copyfile(file, aside.with_name(aside.name + ending))
    return aside


def _replace(path: Path, part: Path) -> None:
    """Put a sound book in the place of a damaged one.

    The file is written anew where it stands, under the database's own locks, so that a program that has it
    open sees the new book. Only where nothing of the old one can be opened is the file itself exchanged.
    """
    try:
        with said(path), closing(connect(part)) as source, closing(connect(path)) as target:
            source.backup(target)
    except StoreDamaged:
        for ending in ("-wal", "-shm"):
            path.with_name(path.name + ending).unlink(missing_ok=True)
        os.replace(part, path)
        sync_folder(path.parent)
    except sqlite3.Error as error:
        raise StoreError(f"{path} cannot be written: {error}.", "Check folder and disk.") from None


def _disagreeing(entries: list[Entry], others: dict[str, Entry]) -> tuple[str, ...]:
    return tuple(entry.key for entry in entries if others.get(entry.key, entry) != entry)


def _readable_predictions(book: SqlBook) -> list[Kept]:
    try:
        return book.predictions()
    except StoreError:
        return []


def _take_out(backup: Path, part: Path) -> None:
    try:
        if not zipfile.is_zipfile(backup):
            shutil.copyfile(backup, part)
            return
        with zipfile.ZipFile(backup) as archive, archive.open(BOOK_FILE) as book, open(part, "wb") as copy:
            shutil.copyfileobj(book, copy)
    except KeyError:
        raise StoreError(f"{backup} holds no {BOOK_FILE}.", "Name a copy made by the program.") from None
    except (OSError, *ZIP_FAULTS) as error:
        raise StoreError(f"{backup} cannot be read: {error}.", "Name another copy.") from None


def _missing_files(garden: Path, backup: Path) -> tuple[str, ...]:
    if not zipfile.is_zipfile(backup):
        return ()
    brought = []
    with zipfile.ZipFile(backup) as archive:
        for name in archive.namelist():
            path = garden / name
            inside = path.resolve().is_relative_to(garden.resolve())
            if inside and name != BOOK_FILE and not name.endswith("/") and not path.exists():
                archive.extract(name, garden)
                brought.append(name)
    return tuple(brought)
