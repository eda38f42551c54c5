"""What the book needs of a database: rows out, one writer at a time, everything of a write or nothing.

Statements are written once with `?` for a value and run on both engines.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager
from typing import Any, Literal, Protocol, TypeAlias

Engine: TypeAlias = Literal["sqlite", "postgresql"]

Row: TypeAlias = tuple[Any, ...]


class Database(Protocol):
    """An open database, at the schema this program knows."""

    @property
    def engine(self) -> Engine:
        """Which of the two it is."""

    @property
    def name(self) -> str:
        """What a message calls it: a path, or a database and server. Never a password."""

    @property
    def read_only(self) -> bool:
        """Whether it refuses to be written."""

    def rows(self, statement: str, values: Sequence[object] = ()) -> list[Row]:
        """Rows of one statement.

        Raises
        ------
        StoreError
        """

    def run(self, statement: str, rows: Iterable[Sequence[object]]) -> None:
        """Run one statement for each row of values; only within `writing`.

        Raises
        ------
        StoreError
        """

    def writing(self) -> AbstractContextManager[None]:
        """Be the only writer for a while; at the end all of it is on the disk, or none of it.

        Raises
        ------
        StoreError
            If another program holds the book too long.
        StoreReadOnly
        """

    def close(self) -> None:
        """Let go of it."""
