"""What was told, kept as lines that are only ever added: an entry, or the withdrawal of one."""

from __future__ import annotations

import os
import time
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any, Final

import msgspec

from spadework.errors import Fault, GardenError, InputFileError, ParameterError
from spadework.garden.told import (
    Event,
    Fact,
    ForecastDay,
    FrostTable,
    MonthlyNormals,
    PairedMinima,
    SoilWarmth,
    Told,
    WarmthTotal,
)

TOLD_FILE: Final = "told.jsonl"

KINDS: Final[dict[str, type[Fact]]] = {
    "forecast": ForecastDay,
    "soil": SoilWarmth,
    "warmth": WarmthTotal,
    "frost-table": FrostTable,
    "minimum": PairedMinima,
    "normals": MonthlyNormals,
    "event": Event,
}
"""Kinds as the file names them."""

_SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_TIME_SIGNS, _LUCK_SIGNS = 10, 16


class _Line(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One line of the file."""

    key: str
    told_on: date
    source: str = ""
    kind: str = ""
    payload: dict[str, Any] | None = None
    withdraws: str = ""


def kind_of(fact: Fact) -> str:
    """The kind of a fact as the file names it."""
    return next(kind for kind, form in KINDS.items() if isinstance(fact, form))


def new_key() -> str:
    """A key that sorts by the time it was made: milliseconds, then luck, in 26 signs."""
    number = (time.time_ns() // 1_000_000) << (5 * _LUCK_SIGNS) | int.from_bytes(os.urandom(10), "big")
    signs = _TIME_SIGNS + _LUCK_SIGNS
    return "".join(_SIGNS[number >> 5 * place & 31] for place in range(signs - 1, -1, -1))


def read_told(path: Path, today: date) -> tuple[Told, ...]:
    """What was told on or before a day and stood then, in order of telling.

    Parameters
    ----------
    path : Path
        The file; none is nothing told.
    today : date
        Entries and withdrawals of later days are not known yet.

    Raises
    ------
    InputFileError
        If a line cannot be read; the line is named, and nothing is taken.
    GardenError
        If the file cannot be read.
    """
    found: dict[str, Told] = {}
    withdrawn: set[str] = set()
    for line, fact in _lines(path):
        if line.told_on > today:
            continue
        if fact is None:
            withdrawn.add(line.withdraws)
        elif line.key not in found:
            found[line.key] = Told(key=line.key, told_on=line.told_on, source=line.source, fact=fact)
    standing = (entry for key, entry in found.items() if key not in withdrawn)
    return tuple(sorted(standing, key=lambda entry: (entry.told_on, entry.key)))


def append_told(path: Path, entries: Sequence[Told]) -> None:
    """Add entries, all or none; an entry whose key is there already is not added again.

    Raises
    ------
    InputFileError, GardenError
    """
    known = {line.key for line, _ in _lines(path)}
    lines = []
    for entry in entries:
        if entry.key in known:
            continue
        known.add(entry.key)
        payload = msgspec.to_builtins(entry.fact)
        lines.append(
            _Line(
                key=entry.key,
                told_on=entry.told_on,
                source=entry.source,
                kind=kind_of(entry.fact),
                payload={name: value for name, value in payload.items() if value is not None},
            )
        )
    _append(path, [_entry_text(line) for line in lines])


def append_withdrawal(path: Path, key: str, on: date) -> None:
    """Withdraw an entry from a day on.

    Raises
    ------
    ParameterError
        If there is no such entry, or it was told later.
    """
    lines = _lines(path)
    entry = next((line for line, fact in lines if line.key == key and fact is not None), None)
    if entry is None:
        raise ParameterError(f"Nothing told has the key {key}.", "See the keys with: spadework told")
    if entry.told_on > on:
        raise ParameterError(
            f"{key} was told on {entry.told_on}, after {on}.", "Give that day or a later one."
        )
    text = msgspec.json.encode({"key": new_key(), "withdraws": key, "told_on": on.isoformat()}).decode()
    _append(path, [text])


def _entry_text(line: _Line) -> str:
    return msgspec.json.encode(
        {
            "key": line.key,
            "told_on": line.told_on,
            "source": line.source,
            "kind": line.kind,
            "payload": line.payload,
        }
    ).decode()


def _lines(path: Path) -> list[tuple[_Line, Fact | None]]:
    """Every line with its fact, None for a withdrawal; every fault of the file at once."""
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return []
    except OSError as error:
        raise GardenError(f"{path} cannot be read: {error.strerror}.", "Check its permissions.") from None
    found: list[tuple[_Line, Fact | None]] = []
    faults: list[Fault] = []
    whole = data.endswith(b"\n") or not data
    rows = data.split(b"\n")
    for number, row in enumerate(rows, start=1):
        if not row.strip():
            continue
        try:
            line = msgspec.json.decode(row, type=_Line)
            fact = _fact(line)
        except (msgspec.DecodeError, msgspec.ValidationError, UnicodeDecodeError, ValueError) as error:
            torn = number == len(rows) and not whole
            faults.append(
                Fault(
                    where=f"line {number}",
                    found="half a line, as a stop in the middle of writing leaves it" if torn else str(error),
                    allowed="one whole entry a line",
                    do="Take this line out; it was never acknowledged."
                    if torn
                    else "Correct the line, or take it out.",
                )
            )
            continue
        found.append((line, fact))
    if faults:
        raise InputFileError(path.name, faults)
    return found


def _fact(line: _Line) -> Fact | None:
    if line.withdraws:
        if line.kind or line.payload is not None:
            raise ValueError("an entry that also withdraws")
        return None
    form = KINDS.get(line.kind)
    if form is None:
        raise ValueError(f"kind {line.kind!r}; known are {', '.join(KINDS)}")
    if line.payload is None:
        raise ValueError("an entry without payload")
    unknown = [name for name in line.payload if name not in form.__dataclass_fields__]
    if unknown:
        raise ValueError(f"{unknown[0]!r} in a {line.kind}")
    fact: Fact = msgspec.convert(line.payload, type=form)
    return fact


def _append(path: Path, lines: Sequence[str]) -> None:
    """Write lines at the end in one go and wait for the disk; on failure the file is as before."""
    if not lines:
        return
    text = "".join(f"{line}\n" for line in lines).encode()
    fresh = not path.exists()
    try:
        with open(path, "ab", buffering=0) as file:
            before = file.tell()
            try:
                written = file.write(text)
                if written != len(text):
                    raise OSError(28, "No space left on device")
                os.fsync(file.fileno())
            except OSError:
                file.truncate(before)
                raise
    except OSError as error:
        raise GardenError(
            f"{path} cannot be written: {error.strerror}.", "Check the folder and the disk."
        ) from None
    if fresh and os.name == "posix":
        folder = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
