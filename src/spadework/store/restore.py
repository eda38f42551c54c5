"""The way back from a copy; what was acknowledged since is read from what is left and saved too."""

from __future__ import annotations

import logging
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
from spadework.store.copies import (
    ZIP_FAULTS,
    Step,
    check_copy,
    discard,
    keep_file,
    sync_folder,
    unheard,
)
from spadework.store.open_book import BACKUPS, BOOK_FILE, DAMAGED, backups, open_file, open_server, store_url
from spadework.store.predictions import Kept
from spadework.store.sql_book import SqlBook
from spadework.store.sqlite_database import SqliteDatabase, connect, said


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
    set_aside : str
        Where the damaged book now lies, a file or a schema of the server; empty where the book was sound.
    files : tuple of str
        Other files of the garden brought back because they were missing.
    unreadable : tuple of str
        Files that are missing too and cannot be read of the copy.
    """

    backup: Path | None
    entries: int
    from_backup: int
    saved: int
    disagreeing: tuple[str, ...] = ()
    set_aside: str = ""
    files: tuple[str, ...] = ()
    unreadable: tuple[str, ...] = ()


def restore(garden: Path, backup: Path | None = None, *, step: Step = unheard) -> Restored:
    """Bring the book back from a copy, together with every entry that can still be read of the book itself.

    Parameters
    ----------
    garden : Path
    backup : Path or None
        A copy; by default the newest sound one in the garden's own folder for them. Where there is none, the
        book is built from what can be read of it.
    step : Step
        Of the other files.

    Raises
    ------
    StoreError
        If the copy is not sound, or there is neither a copy nor anything to read. Nothing was changed.

    Notes
    -----
    Nothing acknowledged is dropped: a sound book gains what only the copy has, and no more. Entries that
    another program adds to a damaged book in the very moment it is replaced are not seen.
    """
    files: tuple[str, ...] = ()
    unreadable: tuple[str, ...] = ()
    with tempfile.TemporaryDirectory(dir=garden, prefix=".restore-") as made:
        part = Path(made) / BOOK_FILE
        backup = _sound_copy(garden, part) if backup is None else _checked(backup, part)
        if backup is not None:
            # Settings first: they say where the book is.
            files, unreadable = _missing_files(garden, backup, step)
        with open_file(part) as copy, _current(garden) as book:
            if not book.damage:
                done = _add(copy, book)
            elif url := store_url(garden):
                done = _mend_server(url, copy, book)
            else:
                done = _mend(garden / BOOK_FILE, part, copy, book)
    return replace(done, backup=backup, files=files, unreadable=unreadable)


@contextmanager
def _current(garden: Path) -> Iterator[SqlBook]:
    url = store_url(garden)
    with open_server(url, garden) if url else open_file(garden / BOOK_FILE) as book:
        if not book.damage:
            try:
                book.entries()
            except StoreDamaged as error:
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
    done = _joined(copy, book)
    copy.close()  # what is in its log goes into the file
    book.close()
    aside = _set_aside(path)
    _replace(path, part)
    check_copy(path)
    return replace(done, set_aside=str(aside))


def _mend_server(url: str, copy: SqlBook, book: SqlBook) -> Restored:
    """The same on a server: new tables are filled beside the damaged ones and change places with them."""
    from spadework.store.mend_server import exchange

    done = _joined(copy, book)
    return replace(done, set_aside=exchange(url, copy, book.database))


def _joined(copy: SqlBook, book: SqlBook) -> Restored:
    """Give the copy what can be read of a damaged book."""
    own = {entry.key: entry for entry in book.entries()}
    theirs = {entry.key: entry for entry in copy.entries()}
    if not own and not theirs:
        raise StoreError(
            f"There is no copy in {BACKUPS}, and nothing can be read of {Path(book.name).name}.",
            "Name a copy kept elsewhere.",
        )
    only_own = [entry for key, entry in own.items() if key not in theirs]
    copy.append(only_own)
    foretold.add(copy.database, _readable_predictions(book))
    disagreeing = _disagreeing(list(own.values()), theirs)
    return Restored(None, copy.count(), len(theirs), len(only_own), disagreeing)


def _set_aside(path: Path) -> Path:
    """Copy the damaged book, with the log beside it, to where it is kept for whoever can read more of it."""
    stamp = datetime.now(UTC).strftime("%Y%m%dT%H%M%S%fZ")
    aside = path.with_name(f"{DAMAGED}{stamp}.sqlite")
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


def _sound_copy(garden: Path, part: Path) -> Path | None:
    """The newest copy that is sound, taken out; None where there is none."""
    for path in reversed(backups(garden)):
        try:
            return _checked(path, part)
        except StoreError as error:
            logging.getLogger("spadework").warning("%s An older copy is tried.", error.message)
            part.unlink(missing_ok=True)
    return None


def _checked(backup: Path, part: Path) -> Path:
    _take_out(backup, part)
    check_copy(part)
    with closing(SqliteDatabase(part, read_only=True)) as database:
        SqlBook(database).entries()
    return backup


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


def _missing_files(garden: Path, backup: Path, step: Step) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Bring what is not there; gives the names of that, and of what cannot be read of the copy."""
    if not zipfile.is_zipfile(backup):
        return (), ()
    brought, unreadable = [], []
    with zipfile.ZipFile(backup) as archive:
        names = archive.namelist()
        for done, name in enumerate(names):
            step(done, len(names))
            path = garden / name
            inside = path.resolve().is_relative_to(garden.resolve())
            if not inside or name == BOOK_FILE or name.endswith("/") or path.exists():
                continue
            try:
                data = archive.read(name)
            except ZIP_FAULTS:
                unreadable.append(name)
                continue
            _write(path, data)
            brought.append(name)
    return tuple(brought), tuple(unreadable)


def _write(path: Path, data: bytes) -> None:
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        part.write_bytes(data)
        keep_file(part, path)
    except OSError as error:
        raise StoreError(f"{path} cannot be written: {error.strerror}.", "Check folder and disk.") from None
    finally:
        discard(part)
