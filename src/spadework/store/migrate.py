"""Bring a store to the schema this program knows: whole steps or none, and a copy put by before each change.

SQLAlchemy and Alembic take most of a second to import, so they are imported here only when there is a step
to take; whether there is one is asked with the engine's own driver.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from spadework.errors import StoreError
from spadework.store import postgres_database, sqlite_database
from spadework.store.database import Database

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

KNOWN: Final = ("0001", "0002")
"""Schemas in order; the last is the one this program reads and writes."""

HEAD: Final = KNOWN[-1]
STEPS: Final = Path(__file__).parent / "migrations"

_TABLE: Final = {
    "sqlite": "SELECT name FROM sqlite_master WHERE type = 'table'",
    "postgresql": "SELECT tablename FROM pg_tables WHERE schemaname = current_schema()",
}


def schema_of(database: Database, known: Sequence[str] = KNOWN) -> str | None:
    """Which schema a store has; None where it is empty.

    Raises
    ------
    StoreError
        If it is no book, or one of a newer program.
    """
    tables = {str(row[0]) for row in database.rows(_TABLE[database.engine])}
    if not tables:
        return None
    if "alembic_version" not in tables:
        raise StoreError(
            f"{database.name} holds something that is not a book ({', '.join(sorted(tables)[:3])}).",
            "Name another place for the book; nothing was changed.",
        )
    found = [str(row[0]) for row in database.rows("SELECT version_num FROM alembic_version")]
    if len(found) != 1 or found[0] not in known:
        raise StoreError(
            f"{database.name} has schema {', '.join(found) or 'none'}; this program knows up to {known[-1]}.",
            "It was written by a newer program: use that one, or restore a backup made before. "
            "A book is never taken back to an older schema.",
        )
    return found[0]


def take_steps(connection: Connection, to: str = HEAD, steps: Path = STEPS) -> None:
    """Take every step up to a schema, inside the connection's transaction."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(steps).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    command.upgrade(config, to)


def upgrade_sqlite(path: Path, to: str = HEAD, steps: Path = STEPS) -> None:
    """Bring a book file to a schema; an empty file becomes a book.

    Raises
    ------
    StoreError
        If a step fails; then none was taken.
    """
    engine = _engine("sqlite://", lambda: sqlite_database.connect(path), begin="BEGIN IMMEDIATE")
    _upgrade(engine, str(path), to, steps)


def upgrade_postgres(url: str, to: str = HEAD, steps: Path = STEPS) -> None:
    """Bring a book on a server to a schema.

    Raises
    ------
    StoreError
        If a step fails; then none was taken.
    """

    def connection() -> Any:
        opened = postgres_database.connect(url)
        opened.autocommit = False
        return opened

    lock = f"SELECT pg_advisory_xact_lock({postgres_database.ONE_WRITER})"
    engine = _engine("postgresql+psycopg://", connection, begin=lock)
    _upgrade(engine, postgres_database.shown(url), to, steps)


def _engine(dialect: str, connection: Callable[[], Any], begin: str) -> Engine:
    from sqlalchemy import create_engine, event
    from sqlalchemy.pool import NullPool

    engine = create_engine(dialect, creator=connection, poolclass=NullPool)

    # The driver's own transactions end before the first CREATE TABLE, and a step that failed would half stay.
    @event.listens_for(engine, "begin")
    def _(opened: Connection) -> None:
        opened.exec_driver_sql(begin)

    return engine


def _upgrade(engine: Engine, name: str, to: str, steps: Path) -> None:
    from sqlalchemy.exc import SQLAlchemyError

    try:
        with engine.begin() as connection:
            take_steps(connection, to, steps)
    except (SQLAlchemyError, sqlite3.Error) as error:
        said = str(error).split("\n")[0]
        raise StoreError(
            f"{name} could not be brought to schema {to}: {said}.",
            "It is as it was before; the copy made before the change lies in backups.",
        ) from error
    finally:
        engine.dispose()
