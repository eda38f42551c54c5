"""A whole book copied into one file, whichever engine it lives in; the copy is checked before it counts."""

from __future__ import annotations

import os
import sqlite3
import struct
import zipfile
import zlib
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Final, TypeAlias

from spadework.errors import StoreDamaged, StoreError
from spadework.store.database import Database
from spadework.store.migrate import schema_of, upgrade_sqlite
from spadework.store.sqlite_database import SqliteDatabase, connect, said, touch

Step: TypeAlias = Callable[[int, int], None]
"""Told how many parts of how many are done."""

ZIP_FAULTS: Final = (zipfile.BadZipFile, zlib.error, EOFError, RuntimeError, struct.error, ValueError)
"""What the standard library raises on a zip that is damaged or no zip."""

_TABLES: Final = ("meta", "entries", "predictions")


def copy_to(database: Database, path: Path) -> int:
    """Copy a book to a new file; gives the number of entries.

    Parameters
    ----------
    database : Database
        Of any schema this program knows.
    path : Path
        It must not exist.

    Raises
    ------
    StoreError
        If it exists, cannot be written, or does not hold what the book held; then there is no such file.
    """
    if path.exists():
        raise StoreError(f"{path} exists already.", "Name a new file; nothing was overwritten.")
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        part.unlink(missing_ok=True)
        count = int(database.rows("SELECT count(*) FROM entries")[0][0])
        if isinstance(database, SqliteDatabase):
            with said(part):
                database.rows("VACUUM INTO ?", (str(part),))
        else:
            _copy_rows(database, part)
        found = check_copy(part)
        if found < count:
            raise StoreError(f"The copy {path} holds {found} of {count} entries.", "Copy again.")
        keep_file(part, path)
    except OSError as error:
        raise StoreError(f"{path} cannot be written: {error.strerror}.", "Check folder and disk.") from None
    finally:
        discard(part)
    return found


def check_copy(path: Path) -> int:
    """Read a copy from end to end; gives the number of entries.

    Raises
    ------
    StoreError
        If it is not a sound book of a schema this program knows.
    """
    database = SqliteDatabase(path, read_only=True)
    try:
        if schema_of(database) is None:
            raise StoreError(f"{path} is empty.", "Name a copy of a book.")
        if database.rows("PRAGMA integrity_check") != [("ok",)]:
            raise StoreDamaged(f"{path} is damaged.", "Name another copy.")
        return int(database.rows("SELECT count(*) FROM entries")[0][0])
    finally:
        database.close()


def _copy_rows(database: Database, path: Path) -> None:
    schema = schema_of(database)
    assert schema is not None
    touch(path)
    upgrade_sqlite(path, schema)
    connection = connect(path)
    try:
        with said(path):
            connection.execute("BEGIN IMMEDIATE")
            known = {str(row[0]) for row in connection.execute("SELECT name FROM sqlite_master")}
            for table in _TABLES:
                if table in known:
                    _copy_table(database, connection, table)
            connection.execute("COMMIT")
            # One file and nothing beside it.
            connection.execute("PRAGMA journal_mode=DELETE")
    finally:
        connection.close()


def _copy_table(database: Database, connection: sqlite3.Connection, table: str) -> None:
    columns = [str(row[1]) for row in connection.execute(f"PRAGMA table_info({table})")]
    rows = database.rows(f"SELECT {', '.join(columns)} FROM {table} ORDER BY 1")
    connection.executemany(f"INSERT INTO {table} VALUES ({', '.join('?' * len(columns))})", rows)


def unheard(_done: int, _of: int) -> None:
    """Progress that nobody listens to."""


def keep_file(part: Path, path: Path) -> None:
    """Give a written file its name once all of it is on the disk."""
    with open(part, "rb+") as file:
        os.fsync(file.fileno())
    os.rename(part, path)
    sync_folder(path.parent)


def discard(part: Path) -> None:
    """Take away what was left of a file in the making; never hides the error that stopped it."""
    with suppress(OSError):
        part.unlink()


def sync_folder(folder: Path) -> None:
    """Wait until the names in a folder are on the disk, where the system can say so."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
