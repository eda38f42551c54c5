"""The book in one file: SQLite through the standard library, since it must open in milliseconds."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from spadework.errors import StoreDamaged, StoreError, StoreReadOnly
from spadework.store.database import Engine, Row

WAIT_S: Final = 10.0
"""How long a writer waits for another one."""

_NO_ROOM = (
    "SQLITE_IOERR_DIR_FSYNC",
    "SQLITE_IOERR_FSYNC",
    "SQLITE_IOERR_SHMMAP",
    "SQLITE_IOERR_SHMOPEN",
    "SQLITE_IOERR_SHMSIZE",
    "SQLITE_IOERR_TRUNCATE",
    "SQLITE_IOERR_WRITE",
)
"""What the driver calls it when something cannot be written: the book itself is as sound as it was."""

_DAMAGE = ("malformed", "not a database", "disk i/o error", "malformed database schema")


class SqliteDatabase:
    """One connection to a book file.

    Parameters
    ----------
    path : Path
        It must exist.
    read_only : bool
        Never write, not even what was left by a writer that was stopped.

    Raises
    ------
    StoreError
        If it cannot be opened.
    StoreDamaged
        If it is not a database.
    """

    engine: Engine = "sqlite"

    def __init__(self, path: Path, *, read_only: bool = False) -> None:
        self.path = path
        self.name = str(path)
        self.read_only = read_only
        self._connection = connect(path, read_only=read_only)
        self._file = _identity(path)

    def rows(self, statement: str, values: Sequence[object] = ()) -> list[Row]:
        """Rows of one statement."""
        with said(self.path):
            return self._connection.execute(statement, values).fetchall()

    def run(self, statement: str, rows: Iterable[Sequence[object]]) -> None:
        """Run one statement for each row of values."""
        with said(self.path):
            self._connection.executemany(statement, rows)

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Be the only writer; all or nothing."""
        if self.read_only:
            raise StoreReadOnly(f"{self.name} was opened for reading.", "Check the folder's permissions.")
        with said(self.path):
            # A transaction that reads first and writes later fails at once when another writer came between.
            self._connection.execute("BEGIN IMMEDIATE")
        try:
            if _identity(self.path) != self._file:
                raise StoreError(f"{self.name} was replaced while it was open.", "Do it again.")
            yield
            with said(self.path):
                self._connection.execute("COMMIT")
        except BaseException:
            if self._connection.in_transaction:
                self._connection.execute("ROLLBACK")
            raise

    def is_sound(self) -> bool:
        """Whether the file's own structure holds."""
        return self.rows("PRAGMA quick_check(1)") == [("ok",)]

    def keep_log(self) -> None:
        """Write ahead into a log, so that readers and a writer do not wait for each other."""
        if self.rows("PRAGMA journal_mode") != [("wal",)]:
            self.rows("PRAGMA journal_mode=WAL")

    def close(self) -> None:
        """Let go of the file."""
        self._connection.close()


def connect(path: Path, *, read_only: bool = False) -> sqlite3.Connection:
    """A connection set up as the book needs it: our own transactions, and the disk waited for.

    Raises
    ------
    StoreError, StoreDamaged
    """
    mode = "rw"
    if read_only:
        # Without a log beside it the file alone is the book, and nothing need be written to read it.
        mode = "ro" if _has_log(path) else "ro&immutable=1"
    with said(path):
        connection = sqlite3.connect(
            f"{path.absolute().as_uri()}?mode={mode}", uri=True, timeout=WAIT_S, isolation_level=None
        )
        try:
            connection.execute("PRAGMA foreign_keys=ON")
            connection.execute("PRAGMA synchronous=FULL")
            connection.execute("PRAGMA trusted_schema=OFF")
            connection.execute("SELECT count(*) FROM sqlite_master")
        except BaseException:
            connection.close()
            raise
    return connection


def touch(path: Path) -> None:
    """Make an empty file for a book.

    Raises
    ------
    StoreError
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.touch()
    except OSError as error:
        raise StoreReadOnly(f"{path} cannot be made: {error.strerror}.", "Check the folder.") from None


@contextmanager
def said(path: Path) -> Iterator[None]:
    """Turn the driver's errors into ones a person can act on."""
    try:
        yield
    except sqlite3.Error as error:
        text = str(error).lower()
        if getattr(error, "sqlite_errorname", "") in _NO_ROOM:
            raise StoreReadOnly(
                f"{path} cannot be written: the disk is full or takes nothing.",
                "Nothing was kept; make room.",
            ) from None
        if any(sign in text for sign in _DAMAGE):
            raise StoreDamaged(
                f"{path} is damaged: {error}.", "Bring it back with: spadework restore"
            ) from None
        if "readonly" in text or "unable to open" in text:
            raise StoreReadOnly(f"{path} cannot be written: {error}.", "Check the folder.") from None
        if "locked" in text or "busy" in text:
            raise StoreError(
                f"Another program has been writing to {path} for {WAIT_S:g} seconds.",
                "Nothing was kept; do it again when that one is done.",
            ) from None
        if "full" in text:
            raise StoreError(f"{path} cannot grow: {error}.", "Nothing was kept; make room.") from None
        raise StoreError(f"{path} could not be used: {error}.", "Nothing was kept.") from None


def _has_log(path: Path) -> bool:
    """Whether something is in a log beside it; on a full disk an empty one may have been begun."""
    log = path.with_name(path.name + "-wal")
    return log.exists() and log.stat().st_size > 0


def _identity(path: Path) -> tuple[int, int] | None:
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_dev, found.st_ino
