"""The book in a database, the same on both engines."""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Final

import msgspec

from spadework.errors import (
    EntryConflict,
    ParameterError,
    StoreDamaged,
    StoreError,
    StoreReadOnly,
    UnknownName,
)
from spadework.garden.entries import Entry
from spadework.store import predictions as foretold
from spadework.store.book import Wanted
from spadework.store.copies import copy_to
from spadework.store.database import Database
from spadework.store.predictions import Kept, Prediction

INSERT: Final = (
    "INSERT INTO entries (arrived, key, recorded_at, happened_on, author, kind, bed, planting, batch, "
    "replaces, withdraws, body, check_sum) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
)
_KEYS_AT_ONCE: Final = 500
_LEAST_ROW_BYTES: Final = 100

_ENTRY = msgspec.json.Decoder(Entry)
_ENTRIES = msgspec.json.Decoder(list[Entry])


class SqlBook:
    """A book over an open database.

    Parameters
    ----------
    database : Database
        At the schema this program knows.
    damage : str
        What is wrong with it and the way back; then nothing is written, and reading gives what can be read.
    """

    def __init__(self, database: Database, damage: str = "") -> None:
        self.database = database
        self.damage = damage

    @property
    def name(self) -> str:
        """What a message calls it."""
        return self.database.name

    @property
    def read_only(self) -> bool:
        """Whether it refuses entries."""
        return bool(self.damage) or self.database.read_only

    def append(self, entries: Iterable[Entry]) -> tuple[str, ...]:
        """Add entries, all or none, and wait for the disk."""
        new: dict[str, Entry] = {}
        keys = []
        for entry in entries:
            checked = as_kept(entry)
            _agree(new.setdefault(checked.key, checked), checked)
            keys.append(checked.key)
        if not new:
            return ()
        self._refuse_if_damaged()
        with self.database.writing():
            known = self._with_keys(list(new))
            for key, entry in known.items():
                _agree(entry, new[key])
            last = int(self.database.rows("SELECT coalesce(max(arrived), 0) FROM entries")[0][0])
            unknown = [entry for key, entry in new.items() if key not in known]
            if unknown:
                rows = [row_of(number, entry) for number, entry in enumerate(unknown, start=last + 1)]
                self.database.run(INSERT, rows)
        return tuple(keys)

    def entries(self, since: str | None = None, *, known_on: datetime | None = None) -> list[Entry]:
        """Entries in order of arrival."""
        where: list[str] = []
        values: list[object] = []
        if since is not None:
            found = self.database.rows("SELECT arrived FROM entries WHERE key = ?", (since,))
            if not found:
                raise UnknownName(f"No entry has the key {since}.", "See the keys with: spadework book")
            where.append("arrived > ?")
            values.append(found[0][0])
        if known_on is not None:
            where.append("recorded_at <= ?")
            values.append(utc_text(known_on))
        return self._read(where, values)

    def find(self, wanted: Wanted) -> list[Entry]:
        """Entries looked for, in order of arrival."""
        where: list[str] = []
        values: list[object] = []
        for column in ("bed", "planting", "batch", "author"):
            if value := getattr(wanted, column):
                where.append(f"{column} = ?")
                values.append(value)
        if wanted.kinds:
            where.append(f"kind IN ({', '.join('?' * len(wanted.kinds))})")
            values += wanted.kinds
        for sign, day in ((">=", wanted.first), ("<=", wanted.last)):
            if day is not None:
                where.append(f"happened_on {sign} ?")
                values.append(day.isoformat())
        if wanted.known_on is not None:
            where.append("recorded_at <= ?")
            values.append(utc_text(wanted.known_on))
        return self._read(where, values)

    def count(self) -> int:
        """How many entries there are."""
        if self.damage:
            return len(self.entries())
        return int(self.database.rows("SELECT count(*) FROM entries")[0][0])

    def last_key(self) -> str | None:
        """Key of the entry that arrived last."""
        if self.damage:
            return next((entry.key for entry in reversed(self.entries())), None)
        found = self.database.rows("SELECT key FROM entries ORDER BY arrived DESC LIMIT 1")
        return str(found[0][0]) if found else None

    def keep(self, predictions: Iterable[Prediction]) -> int:
        """Keep predictions as they were shown; gives how many were new."""
        self._refuse_if_damaged()
        return foretold.keep(self.database, predictions, datetime.now(UTC))

    def predictions(self, since: date | None = None) -> list[Kept]:
        """Predictions made on or after a day, in order of keeping."""
        return foretold.predictions(self.database, since)

    def backup(self, path: Path) -> int:
        """Write the whole book to a new file, checked first; gives the number of entries."""
        self._refuse_if_damaged()
        return copy_to(self.database, path)

    def close(self) -> None:
        """Let go of it."""
        self.database.close()

    def __enter__(self) -> SqlBook:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _refuse_if_damaged(self) -> None:
        if self.damage:
            raise StoreDamaged(self.damage)
        if self.database.read_only:
            raise StoreReadOnly(f"{self.name} can only be read.", "Check the folder's permissions.")

    def _with_keys(self, keys: Sequence[str]) -> dict[str, Entry]:
        found: dict[str, Entry] = {}
        for start in range(0, len(keys), _KEYS_AT_ONCE):
            some = keys[start : start + _KEYS_AT_ONCE]
            for entry in self._read([f"key IN ({', '.join('?' * len(some))})"], some):
                found[entry.key] = entry
        return found

    def _read(self, where: Sequence[str], values: Sequence[object]) -> list[Entry]:
        given = f" WHERE {' AND '.join(where)}" if where else ""
        ask = f"FROM entries{given} ORDER BY arrived"
        if self.damage:
            return [entry for entry, _ in salvaged(self.database, ask, values)]
        rows = self.database.rows(f"SELECT body, check_sum {ask}", values)
        return decoded(rows, self.name)


def decoded(rows: Sequence[tuple[str, int]], name: str) -> list[Entry]:
    """Entries from their stored form.

    Raises
    ------
    StoreDamaged
        If one is not what was written.
    StoreError
        If one is of a kind this program does not know.
    """
    bodies = [body.encode() for body, _ in rows]
    for body, (_, check_sum) in zip(bodies, rows, strict=True):
        if zlib.crc32(body) != check_sum:
            raise StoreDamaged(
                f"An entry in {name} is not what was written: {body[:60].decode(errors='replace')}...",
                "Bring the book back with: spadework restore",
            )
    try:
        return _ENTRIES.decode(b"[" + b",".join(bodies) + b"]")
    except msgspec.ValidationError as error:
        raise StoreError(
            f"{name} holds an entry this program does not know: {error}.",
            "It was written by a newer program; use that one.",
        ) from None


def salvaged(database: Database, ask: str, values: Sequence[object] = ()) -> list[tuple[Entry, int]]:
    """What can still be read of a damaged book, each entry with its number of arrival; never raises.

    Parameters
    ----------
    database : Database
    ask : str
        From the FROM of a statement on; asked row by row: a lost page costs its own rows.
    """
    found: list[tuple[Entry, int]] = []
    if database.engine == "postgresql":
        # Row by row through the index; read from end to end, a table stops at its first bad page.
        database.rows("SELECT set_config('enable_seqscan', 'off', false)")
    try:
        last = int(database.rows("SELECT max(arrived) FROM entries")[0][0] or 0)
    except StoreDamaged:
        last = _most_rows(database)
    head, _, order = ask.partition(" ORDER BY")
    narrowed = f"{head} {'AND' if ' WHERE ' in head else 'WHERE'} arrived = ? ORDER BY{order}"
    for number in range(1, last + 1):
        try:
            rows = database.rows(f"SELECT body, check_sum {narrowed}", [*values, number])
            found += [(entry, number) for entry in decoded(rows, database.name)]
        except StoreDamaged:
            continue
    return found


def _most_rows(database: Database) -> int:
    """More rows than a file of its size can hold; looking for one that is not there costs microseconds."""
    if database.engine == "postgresql":
        return int(database.rows("SELECT pg_relation_size('entries')")[0][0]) // _LEAST_ROW_BYTES
    path = Path(database.name)
    return path.stat().st_size // _LEAST_ROW_BYTES if path.is_file() else 0


def as_kept(entry: Entry) -> Entry:
    """The entry as it will be read again.

    Raises
    ------
    ParameterError
        If that is not what it is: a value of the wrong kind, not a number, or a time without time zone.
    """
    if not entry.key:
        raise ParameterError("An entry has no key.", "Make one with the program's own key maker.")
    if entry.recorded_at.tzinfo is None:
        raise ParameterError(f"Entry {entry.key} was recorded at a time without zone.", "Give its zone.")
    try:
        again = _ENTRY.decode(msgspec.json.encode(entry))
    except (msgspec.MsgspecError, UnicodeError, TypeError) as error:
        raise ParameterError(f"Entry {entry.key} cannot be kept: {error}.", "Correct that value.") from None
    if again != entry:
        raise ParameterError(
            f"Entry {entry.key} would not be read again as it is: {entry}.",
            "Give plain numbers, texts, days and lists.",
        )
    if "\0" in "".join(_columns(entry)):
        raise ParameterError(f"Entry {entry.key} names something with a null sign in it.", "Take it out.")
    return again


def row_of(number: int, entry: Entry) -> tuple[object, ...]:
    """The columns of an entry."""
    body = msgspec.json.encode(entry)
    return (
        number,
        entry.key,
        utc_text(entry.recorded_at),
        entry.happened_on.isoformat(),
        entry.author,
        "" if entry.act is None else kind_of(entry),
        entry.bed,
        entry.planting,
        entry.batch,
        entry.replaces,
        entry.withdraws,
        body.decode(),
        zlib.crc32(body),
    )


def _columns(entry: Entry) -> tuple[str, ...]:
    own = (entry.key, entry.author, entry.bed, entry.planting, entry.batch)
    return (*own, entry.replaces, entry.withdraws)


def kind_of(entry: Entry) -> str:
    """The kind of an entry as stored; empty for one that only withdraws another."""
    return "" if entry.act is None else str(entry.act.__struct_config__.tag)


def utc_text(moment: datetime) -> str:
    """A moment in signs that sort as the moments do.

    Raises
    ------
    ParameterError
        If it has no time zone.
    """
    if moment.tzinfo is None:
        raise ParameterError(f"{moment} has no time zone.", "Give it one.")
    return moment.astimezone(UTC).isoformat(timespec="microseconds")


def _agree(one: Entry, other: Entry) -> None:
    if one != other:
        raise EntryConflict(
            f"Two entries have the key {one.key} and do not say the same: {said(one)}; and {said(other)}.",
            "Nothing was kept. To correct an entry, add another that replaces it.",
        )


def said(entry: Entry) -> str:
    """An entry in one line, without what it leaves open."""
    body = {
        name: value for name, value in msgspec.to_builtins(entry).items() if value not in (None, "", False)
    }
    body.pop("key")
    act = body.get("act")
    if isinstance(act, dict):
        body["act"] = {name: value for name, value in act.items() if value not in (None, "", ())}
    return msgspec.json.encode(body).decode()
