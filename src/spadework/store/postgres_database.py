"""The book in a PostgreSQL database, for a garden kept from several machines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, Final, cast
from urllib.parse import urlsplit, urlunsplit

from spadework.errors import StoreDamaged, StoreError, StoreReadOnly
from spadework.store.database import Engine, Row

if TYPE_CHECKING:
    import psycopg

ONE_WRITER: Final = 0x5EED_B00C
"""Number of the lock that makes writers wait for each other; ours alone, any number does."""


class PostgresDatabase:
    """One connection to a book on a server.

    Parameters
    ----------
    url : str
        postgresql://user@host/database. The password may come from the usual password file or environment.

    Raises
    ------
    StoreError
        If the server cannot be reached or refuses.
    """

    engine: Engine = "postgresql"

    def __init__(self, url: str) -> None:
        self.name = shown(url)
        self._connection = connect(url)
        self.read_only = self.rows("SELECT pg_is_in_recovery()")[0][0]

    def rows(self, statement: str, values: Sequence[object] = ()) -> list[Row]:
        """Rows of one statement."""
        with said(self.name):
            return self._connection.execute(cast(Any, _own_signs(statement)), values).fetchall()

    def run(self, statement: str, rows: Iterable[Sequence[object]]) -> None:
        """Run one statement for each row of values."""
        with said(self.name), self._connection.cursor() as cursor:
            cursor.executemany(cast(Any, _own_signs(statement)), list(rows))

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Be the only writer; all or nothing."""
        if self.read_only:
            raise StoreReadOnly(f"{self.name} only follows another server.", "Write to that one.")
        with said(self.name), self._connection.transaction():
            self._connection.execute("SELECT pg_advisory_xact_lock(%s)", (ONE_WRITER,))
            yield

    def close(self) -> None:
        """Let go of the server."""
        self._connection.close()


def connect(url: str) -> psycopg.Connection[Row]:
    """A connection that acknowledges only what is on the server's disk.

    Raises
    ------
    StoreError
    """
    import psycopg

    with said(shown(url)):
        connection = psycopg.connect(plain(url), autocommit=True, connect_timeout=10)
        connection.execute("SET synchronous_commit = on")
        connection.execute("SET lock_timeout = '10s'")
        return connection


def plain(url: str) -> str:
    """The address as the server's own library takes it."""
    return "postgresql://" + url.partition("://")[2]


def shown(url: str) -> str:
    """The address without a password."""
    parts = urlsplit(plain(url))
    user, at, host = parts.netloc.rpartition("@")
    return urlunsplit(parts._replace(netloc=user.partition(":")[0] + at + host, query=""))


@contextmanager
def said(name: str) -> Iterator[None]:
    """Turn the driver's errors into ones a person can act on."""
    import psycopg

    try:
        yield
    except (psycopg.errors.DataCorrupted, psycopg.errors.IndexCorrupted) as error:
        raise StoreDamaged(
            f"{name} is damaged: {_line(error)}.", "Bring the book back with: spadework restore"
        ) from None
    except (psycopg.errors.LockNotAvailable, psycopg.errors.QueryCanceled):
        raise StoreError(
            f"Another program has been writing to {name} for 10 seconds.",
            "Nothing was kept; do it again when that one is done.",
        ) from None
    except (psycopg.errors.ReadOnlySqlTransaction, psycopg.errors.InsufficientPrivilege) as error:
        raise StoreReadOnly(
            f"{name} cannot be written: {_line(error)}.", "Ask who runs the server."
        ) from None
    except psycopg.Error as error:
        raise StoreError(f"{name} could not be used: {_line(error)}.", "Is the server running?") from None


def _line(error: BaseException) -> str:
    return " ".join(str(error).split("\n")[0].split()).rstrip(".")


def _own_signs(statement: str) -> str:
    return statement.replace("?", "%s")
