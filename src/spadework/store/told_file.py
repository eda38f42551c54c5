"""The file told facts were kept in before the book: lines of an entry each, or the withdrawal of one."""

from __future__ import annotations

import os
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, Final

import msgspec

from spadework.errors import Fault, GardenError, InputFileError
from spadework.garden.keys import LUCK_BYTES
from spadework.garden.keys import new_key as made_key
from spadework.garden.told import (
    Event,
    Fact,
    ForecastDay,
    FrostTable,
    MonthlyNormals,
    PairedMinima,
    SkyHours,
    SoilWarmth,
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
    "sky": SkyHours,
}
"""Kinds as the file names them."""


class Line(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
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
    """A key made now."""
    return made_key(datetime.now(UTC), os.urandom(LUCK_BYTES))


def read_lines(path: Path) -> list[tuple[Line, Fact | None]]:
    """Every line with its fact, None for a withdrawal.

    Raises
    ------
    InputFileError
        If a line cannot be read; all such lines are named, and nothing is taken.
    GardenError
        If the file cannot be read.
    """
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return []
    except OSError as error:
        raise GardenError(f"{path} cannot be read: {error.strerror}.", "Check its permissions.") from None
    found: list[tuple[Line, Fact | None]] = []
    faults: list[Fault] = []
    whole = data.endswith(b"\n") or not data
    rows = data.split(b"\n")
    for number, row in enumerate(rows, start=1):
        if not row.strip():
            continue
        try:
            line = msgspec.json.decode(row, type=Line)
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


def _fact(line: Line) -> Fact | None:
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
