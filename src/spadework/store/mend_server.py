"""Put a sound book in the place of a damaged one on a server; the damaged tables stay in another schema."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Final
from urllib.parse import quote

from spadework.errors import StoreError
from spadework.store import predictions as foretold
from spadework.store.database import Database
from spadework.store.migrate import upgrade_postgres
from spadework.store.postgres_database import PostgresDatabase
from spadework.store.sql_book import SqlBook

_TABLES: Final = ("entries", "predictions", "meta", "alembic_version")


def exchange(url: str, sound: SqlBook, damaged: Database) -> str:
    """Fill new tables from a sound book and give them the place of the damaged ones, all at once.

    Parameters
    ----------
    url : str
        Of the damaged book.
    sound : SqlBook
    damaged : Database
        Open on the server.

    Returns
    -------
    str
        Schema the damaged tables are in now.

    Raises
    ------
    StoreError
        If the server does not allow it or the new tables are not whole; then the book is as it was.
    """
    stamp = datetime.now(UTC).strftime("%Y%m%d_%H%M%S_%f")
    fresh, aside = f"spadework_fresh_{stamp}", f"spadework_damaged_{stamp}"
    here = str(damaged.rows("SELECT current_schema()")[0][0])
    _do(damaged, f"CREATE SCHEMA {fresh}")
    try:
        _fill(_within(url, fresh), sound)
        with damaged.writing():
            _do(damaged, f"CREATE SCHEMA {aside}")
            for source, target in ((here, aside), (fresh, here)):
                for table in _TABLES:
                    if _has(damaged, source, table):
                        _do(damaged, f'ALTER TABLE "{source}".{table} SET SCHEMA "{target}"')
                _do(damaged, f'ALTER FUNCTION "{source}".only_added() SET SCHEMA "{target}"')
            _do(damaged, f"DROP SCHEMA {fresh}")
    except BaseException:
        _do(damaged, f"DROP SCHEMA IF EXISTS {fresh} CASCADE")
        raise
    return aside


def _fill(url: str, sound: SqlBook) -> None:
    upgrade_postgres(url)
    with SqlBook(PostgresDatabase(url)) as book:
        book.append(sound.entries())
        foretold.add(book.database, sound.predictions())
        if book.entries() != sound.entries() or book.predictions() != sound.predictions():
            raise StoreError(f"{book.name} does not hold what was put into it.", "Nothing was changed.")


def _within(url: str, schema: str) -> str:
    """The address with another schema; the last of several options wins."""
    options = quote(f" -csearch_path={schema}")
    base, mark, query = url.partition("?")
    asked = [part for part in query.split("&") if part]
    for place, part in enumerate(asked):
        if part.startswith("options="):
            asked[place] = part + options
            break
    else:
        asked.append(f"options={options}")
    return f"{base}{mark or '?'}{'&'.join(asked)}"


def _has(database: Database, schema: str, table: str) -> bool:
    found = database.rows("SELECT 1 FROM pg_tables WHERE schemaname = ? AND tablename = ?", (schema, table))
    return bool(found)


def _do(database: Database, statement: str) -> None:
    database.run(statement, [()])
