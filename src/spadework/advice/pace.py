"""How long a job takes: from area, counts and size, and from the garden's own logged minutes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal, TypeAlias

Per: TypeAlias = Literal["m2", "m", "plant", "litre", "bed", "kg", "tray", "time"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """Minutes per unit of work, and for getting going.

    Parameters
    ----------
    per : Per
    minutes : float  [min]
        For each unit.
    start : float  [min]
        For fetching tools and settling down, once.
    provenance, source : str
    """

    per: Per
    minutes: float
    start: float = 1.0
    provenance: str = "common-practice"
    source: str = ""


RATES: Final[Mapping[str, Rate]] = {
    "weed thread": Rate(per="m2", minutes=0.5, start=0.5),
    "weed small": Rate(per="m2", minutes=2.0, start=0.5, provenance="published", source="MELANDER-2001"),
    "weed large": Rate(per="m2", minutes=7.5, start=1.0, provenance="published", source="MASSEY-WEED"),
    "count": Rate(per="time", minutes=1.0, start=0.5),
    "sow": Rate(per="m", minutes=1.5, start=3.0),
    "seedbed": Rate(per="m2", minutes=4.0, start=2.0),
    "prick": Rate(per="plant", minutes=0.4, start=4.0),
    "pot": Rate(per="plant", minutes=0.8, start=4.0),
    "carry": Rate(per="tray", minutes=2.0, start=1.0),
    "plant": Rate(per="plant", minutes=0.7, start=4.0),
    "damp": Rate(per="litre", minutes=0.25, start=1.0),
    "lid": Rate(per="m", minutes=0.5, start=1.5),
    "pick fruit": Rate(per="kg", minutes=4.0, start=1.0),
    "pick leaves": Rate(per="kg", minutes=8.0, start=1.0),
    "cut heads": Rate(per="kg", minutes=1.0, start=1.0),
    "lift": Rate(per="kg", minutes=1.5, start=2.0),
    "clear": Rate(per="m2", minutes=3.0, start=1.0),
}
"""Published where a time study gives one; otherwise what a practised grower would guess, to be corrected by
the garden's own log."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """Minutes at this garden's pace.

    Parameters
    ----------
    factor : mapping of str to float
        Logged minutes over the minutes expected, by kind of job; 1 where nothing was logged.
    events : mapping of str to int
        How many logged jobs each factor rests on.
    """

    factor: Mapping[str, float] = field(default_factory=dict)
    events: Mapping[str, int] = field(default_factory=dict)

    def minutes(self, work: str, amount: float, *, kind: str = "") -> float:
        """Minutes for an amount of work of a sort in `RATES`, at this garden's pace for the kind of job."""
        rate = RATES[work]
        usual = rate.start + rate.minutes * max(amount, 0.0)
        return usual * self.factor.get(kind, 1.0)
