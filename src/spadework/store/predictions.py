"""Predictions as they were shown, kept so that they can be scored when the day has come."""

from __future__ import annotations

import hashlib
import zlib
from collections.abc import Iterable
from datetime import date, datetime
from typing import Literal, TypeAlias

import msgspec

from spadework.errors import StoreDamaged
from spadework.store.database import Database

PredictionKind: TypeAlias = Literal["emergence", "stage", "ready", "frost"]


class Subject(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """What a prediction is about; whatever does not apply is left empty.

    Parameters
    ----------
    crop, variety, bed, planting : str
        The crop by its sheet's key.
    start : str
        "sown", "raised", "planted" or "set-out".
    started : date or None
        Day of that; it may lie ahead.
    stage : str
        Of a planting: "flowering".
    event : str
        Of frost: "last in spring", "first in autumn", "on or after", "on or before".
    place : str
        Where frost is meant: "shelter" or "leaf".
    limit_c : float or None  [degC]
    means : str
        Anything else that makes it another prediction: rain alone, the packet's days, under cover.
    """

    crop: str = ""
    variety: str = ""
    bed: str = ""
    planting: str = ""
    start: str = ""
    started: date | None = None
    stage: str = ""
    event: str = ""
    place: str = ""
    limit_c: float | None = None
    means: str = ""


class Prediction(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One thing foretold.

    Parameters
    ----------
    kind : "emergence", "stage", "ready" or "frost"
    subject : Subject
    made_on : date
        The day it speaks from: nothing later was known to it.
    quantiles : dict of str to date or None
        Chance, as "0.5", to the day by which it has happened with that chance; None for never.
    chance : float or None
        Chance that it happens at all, or by `by`, 0 to 1.
    by : date or None
    years, made_years : int
        How many years it rests on, and how many of them were made.
    inputs : str
        Digest of everything it was computed from.
    program : str
        Version of the program.
    """

    kind: PredictionKind
    subject: Subject
    made_on: date
    quantiles: dict[str, date | None] = {}
    chance: float | None = None
    by: date | None = None
    years: int = 0
    made_years: int = 0
    inputs: str = ""
    program: str = ""

    @property
    def key(self) -> str:
        """The same thing said on the same day has the same key, whatever program said it from whatever."""
        said = msgspec.structs.replace(self, inputs="", program="")
        return hashlib.blake2b(msgspec.json.encode(said, order="sorted"), digest_size=16).hexdigest()


class Kept(msgspec.Struct, frozen=True, kw_only=True):
    """A prediction with the moment it was kept.

    Parameters
    ----------
    prediction : Prediction
    kept_at : datetime
        By the clock on the wall. On another day than `made_on`, it was foretold after the fact.
    """

    prediction: Prediction
    kept_at: datetime

    @property
    def foretold(self) -> bool:
        """Whether it was made on the day it speaks from, so that it counts in a track record."""
        return self.prediction.made_on >= self.kept_at.date()


_KEYS_AT_ONCE = 500
_INSERT = (
    "INSERT INTO predictions (arrived, key, kept_at, made_on, kind, crop, inputs, program, body, check_sum) "
    "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
)


def keep(database: Database, predictions: Iterable[Prediction], kept_at: datetime) -> int:
    """Keep predictions, all or none, each once; gives how many were new.

    Parameters
    ----------
    database : Database
    predictions : iterable of Prediction
    kept_at : datetime
        Now, with time zone.

    Raises
    ------
    StoreReadOnly, StoreError
    """
    return add(database, [Kept(prediction=each, kept_at=kept_at) for each in predictions])


def add(database: Database, kept: Iterable[Kept]) -> int:
    """Add predictions with the moment each was kept; as `keep`."""
    new: dict[str, Kept] = {}
    for each in kept:
        new.setdefault(each.prediction.key, each)
    if not new or not _unknown(database, list(new)):
        return 0  # the usual case of asking again; no writer need wait for it
    with database.writing():
        unknown = _unknown(database, list(new))
        last = int(database.rows("SELECT coalesce(max(arrived), 0) FROM predictions")[0][0])
        rows = [_row(number, key, new[key]) for number, key in enumerate(unknown, start=last + 1)]
        if rows:
            database.run(_INSERT, rows)
    return len(rows)


def _row(number: int, key: str, kept: Kept) -> tuple[object, ...]:
    said = kept.prediction
    body = msgspec.json.encode(said)
    return (
        number,
        key,
        kept.kept_at.isoformat(),
        said.made_on.isoformat(),
        said.kind,
        said.subject.crop,
        said.inputs,
        said.program,
        body.decode(),
        zlib.crc32(body),
    )


def predictions(database: Database, since: date | None = None) -> list[Kept]:
    """Predictions made on or after a day, in order of keeping.

    Raises
    ------
    StoreError
    StoreDamaged
        If one is not what was kept.
    """
    where, values = ("", ()) if since is None else ("WHERE made_on >= ? ", (since.isoformat(),))
    found = database.rows(
        f"SELECT key, body, check_sum, kept_at FROM predictions {where}ORDER BY arrived", values
    )
    return [_read(database, *row) for row in found]


def _read(database: Database, key: str, body: str, check_sum: int, kept_at: str) -> Kept:
    try:
        if zlib.crc32(body.encode()) != check_sum:
            raise ValueError("it is not what was written")
        prediction = msgspec.json.decode(body, type=Prediction)
        return Kept(prediction=prediction, kept_at=datetime.fromisoformat(kept_at))
    except ValueError as error:
        raise StoreDamaged(
            f"Prediction {key} in {database.name} cannot be read: {error}.",
            "Bring the book back with: spadework restore",
        ) from None


def _unknown(database: Database, keys: list[str]) -> list[str]:
    known: set[str] = set()
    for start in range(0, len(keys), _KEYS_AT_ONCE):
        some = keys[start : start + _KEYS_AT_ONCE]
        marks = ", ".join("?" * len(some))
        rows = database.rows(f"SELECT key FROM predictions WHERE key IN ({marks})", some)
        known.update(str(row[0]) for row in rows)
    return [key for key in keys if key not in known]
