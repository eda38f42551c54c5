"""Open a garden's book: find the engine, take the steps its schema lacks, never write to what is damaged."""

from __future__ import annotations

import os
import tomllib
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Final
from urllib.parse import urlsplit

from spadework.errors import GardenError, StoreDamaged, StoreReadOnly
from spadework.store import migrate
from spadework.store.copies import copy_to
from spadework.store.database import Engine, Row
from spadework.store.postgres_database import PostgresDatabase
from spadework.store.sql_book import SqlBook
from spadework.store.sqlite_database import SqliteDatabase, touch

BOOK_FILE: Final = "book.sqlite"
BACKUPS: Final = "backups"
DAMAGED: Final = "damaged-"
"""How the name of a damaged book begins that was set aside."""
URL_NAME: Final = "SPADEWORK_STORE_URL"
"""Environment variable that wins over garden.toml."""


def open_book(garden: Path) -> SqlBook:
    """Open the book of a garden folder, making it where there is none.

    Parameters
    ----------
    garden : Path
        The folder; its garden.toml may name a server: [store] url = "postgresql://user@host/database".

    Returns
    -------
    SqlBook
        Use it as a context manager. Where `damage` is not empty it only reads.

    Raises
    ------
    StoreError
        If it cannot be opened, is no book, or was written by a newer program.
    GardenError
        If garden.toml names a store that cannot be meant.
    """
    url = store_url(garden)
    return open_server(url, garden) if url else open_file(garden / BOOK_FILE)


def has_book(garden: Path) -> bool:
    """Whether the garden has a book already, or a server for one."""
    return bool(store_url(garden)) or (garden / BOOK_FILE).is_file()


def open_file(path: Path) -> SqlBook:
    """Open a book file, making it where there is none."""
    if not path.exists():
        touch(path)
    try:
        database = SqliteDatabase(path)
    except StoreDamaged as error:
        return SqlBook(Unreadable(path, error), _way_back(path, error.message))
    except StoreReadOnly:
        database = SqliteDatabase(path, read_only=True)
    try:
        schema = migrate.schema_of(database)
        if schema is not None and not database.is_sound():
            raise StoreDamaged(f"{path} is damaged: its pages do not fit together.")
        if schema != migrate.HEAD:
            _bring_up(database, schema)
        if not database.read_only:
            database.keep_log()
    except StoreDamaged as error:
        database.close()
        return SqlBook(SqliteDatabase(path, read_only=True), _way_back(path, error.message))
    except BaseException:
        database.close()
        raise
    return SqlBook(database)


def open_server(url: str, garden: Path) -> SqlBook:
    """Open a book on a server, making its tables where there are none.

    Parameters
    ----------
    url : str
    garden : Path
        Where copies made before a change of schema are put.
    """
    database = PostgresDatabase(url)
    try:
        schema = migrate.schema_of(database)
        if schema is not None and schema != migrate.HEAD:
            copy_to(database, backup_path(garden, f"before-{migrate.HEAD}"))
        if schema != migrate.HEAD:
            migrate.upgrade_postgres(url)
    except BaseException:
        database.close()
        raise
    return SqlBook(database)


def _bring_up(database: SqliteDatabase, schema: str | None) -> None:
    if database.read_only:
        raise StoreReadOnly(
            f"{database.name} has an older schema, and it cannot be written.",
            "Check the folder's permissions.",
        )
    if schema is not None:
        copy_to(database, backup_path(database.path.parent, f"before-{migrate.HEAD}"))
    migrate.upgrade_sqlite(database.path)


def store_url(garden: Path) -> str:
    """The server a garden's book is on; empty where it is in the folder.

    Raises
    ------
    GardenError
        If garden.toml names one that cannot be meant, or a password.
    """
    if named := os.environ.get(URL_NAME, ""):
        return _checked(named, URL_NAME)
    path = garden / "garden.toml"
    try:
        table: Any = tomllib.loads(path.read_text(encoding="utf-8-sig")).get("store", {})
    except (OSError, ValueError):
        return ""  # opening the garden says what is wrong with it
    if not isinstance(table, dict) or set(table) - {"url"} or not isinstance(table.get("url", ""), str):
        raise GardenError(
            "garden.toml: [store] cannot be meant.",
            'It may hold one line: url = "postgresql://user@host/database".',
        )
    url: str = table.get("url", "")
    if url and urlsplit(url).password:
        raise GardenError(
            "garden.toml: the url in [store] holds a password.",
            f"The folder is copied and shared: use the server's password file, or {URL_NAME}.",
        )
    return _checked(url, "garden.toml: url in [store]") if url else ""


def _checked(url: str, where: str) -> str:
    if urlsplit(url).scheme not in ("postgresql", "postgresql+psycopg", "postgres"):
        raise GardenError(
            f"{where} is not the address of a store this program knows.",
            "Give postgresql://user@host/database, or leave it out to keep the book in the folder.",
        )
    return url


def backup_path(garden: Path, what: str = "", ending: str = ".sqlite") -> Path:
    """A new name for a copy, by the moment and what it is for."""
    stamp = datetime.now(UTC).strftime("%Y%m%dT%H%M%S%fZ")
    return garden / BACKUPS / f"book-{stamp}{'-' if what else ''}{what}{ending}"


def backups(garden: Path) -> list[Path]:
    """Copies in the garden's own folder for them, the newest last."""
    found = [*(garden / BACKUPS).glob("book-*.sqlite"), *(garden / BACKUPS).glob("book-*.zip")]
    return sorted(found, key=lambda path: path.name)


def _way_back(path: Path, damage: str) -> str:
    kept = backups(path.parent)
    last = f"The last copy is {BACKUPS}/{kept[-1].name}. " if kept else "There is no copy in backups. "
    way = f"spadework restore{f' {BACKUPS}/{kept[-1].name}' if kept else ''}"
    return f"{damage} It is open for reading only, and nothing can be added. {last}Bring it back with: {way}"


class Unreadable:
    """A file that no longer is a database: nothing can be read of it, and it says why.

    Parameters
    ----------
    path : Path
    why : StoreDamaged
    """

    engine: Engine = "sqlite"
    read_only = True

    def __init__(self, path: Path, why: StoreDamaged) -> None:
        self.name = str(path)
        self._why = why

    def rows(self, *_: object) -> list[Row]:
        """Raise what is wrong."""
        raise StoreDamaged(self._why.message, self._why.hint)

    def run(self, *_: object) -> None:
        """Raise what is wrong."""
        raise StoreDamaged(self._why.message, self._why.hint)

    def writing(self) -> Any:
        """Raise what is wrong."""
        raise StoreDamaged(self._why.message, self._why.hint)

    def close(self) -> None:
        """Nothing is open."""
