"""Read lines about beds for someone who is typing them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from spadework.garden.entries import BedSet
from spadework.garden.lay_out import lay_out
from spadework.garden.site import Units

_SHOWN = 5


class BedsRead(msgspec.Struct, frozen=True, kw_only=True):
    """What lines about beds came to."""

    count: int
    names: str
    took: tuple[str, ...]


def read_bed_lines(lines: Sequence[str], units: Units) -> BedsRead:
    """Read lines about beds of a garden that has none yet.

    Raises
    ------
    InputFileError
        With every problem, its line and column.
    """
    laid = lay_out(lines, units=units, source=f"Line {len(lines)}")
    return BedsRead(count=len(laid.beds), names=names_of(laid.beds), took=laid.took)


def names_of(beds: Mapping[str, BedSet]) -> str:
    """Names of beds in a sentence, the middle left out where they are many."""
    names = [bed.name for bed in beds.values()]
    if len(names) <= _SHOWN:
        return ", ".join(names)
    return f"{', '.join(names[:3])} ... {names[-1]}"
