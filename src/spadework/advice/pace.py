"""How long a job takes: from area, counts and size, and from the pace the garden's own log shows."""

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
    "weed thread": Rate(per="m2", minutes=0.3, start=0.5),
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
    "cover": Rate(per="m", minutes=1.0, start=2.0),
    "clear": Rate(per="m2", minutes=3.0, start=1.0),
    "thin": Rate(per="plant", minutes=0.05, start=1.0),
    "earth up": Rate(per="m", minutes=2.0, start=1.0),
    "support": Rate(per="m", minutes=3.0, start=3.0),
    "tie": Rate(per="plant", minutes=0.5, start=1.0),
    "mulch": Rate(per="m2", minutes=3.0, start=3.0),
    "guard": Rate(per="m", minutes=1.5, start=3.0),
    "guard check": Rate(per="bed", minutes=1.0, start=0.5),
    "look": Rate(per="bed", minutes=0.4, start=1.0),
}
"""Published where a time study gives one; otherwise what a practised grower would guess, to be corrected by
the garden's own log."""


CRAFTS: Final[Mapping[str, str]] = {
    "weed thread": "hoeing",
    "weed small": "hand weeding",
    "weed large": "hand weeding",
    "count": "counting",
    "sow": "sowing",
    "seedbed": "preparing",
    "prick": "pricking out",
    "pot": "potting on",
    "plant": "planting out",
    "damp": "watering",
    "pick fruit": "picking",
    "pick leaves": "picking",
    "cut heads": "picking",
    "lift": "lifting",
    "clear": "clearing",
    "thin": "thinning",
    "earth up": "earthing up",
    "support": "supporting",
    "tie": "supporting",
    "mulch": "mulching",
    "look": "looking",
}
"""Work that is learned together: whoever is quick at one part of it is at the other. What has no craft here
keeps the usual rate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """Minutes at this garden's pace.

    Parameters
    ----------
    factor : mapping of str to float
        Logged minutes over the usual ones, by craft; 1 where nothing was logged.
    events : mapping of str to int
        How many logged jobs each factor rests on.
    own : mapping of str to (mapping of str to float)
        The same of each person who logged any, by key.
    """

    factor: Mapping[str, float] = field(default_factory=dict)
    events: Mapping[str, int] = field(default_factory=dict)
    own: Mapping[str, Mapping[str, float]] = field(default_factory=dict)

    def minutes(self, work: str, amount: float) -> float:
        """Minutes for an amount of work of a sort in `RATES`, at this garden's pace."""
        return usual_minutes(work, amount) * self.factor.get(CRAFTS.get(work, ""), 1.0)

    def beside(self, person: str, craft: str) -> float:
        """Minutes of a person over the garden's, at a craft; 1 where they logged none of it."""
        return self.own.get(person, {}).get(craft, self.factor.get(craft, 1.0)) / self.factor.get(craft, 1.0)


def usual_minutes(work: str, amount: float) -> float:
    """Minutes for an amount of work of a sort in `RATES`, as anybody would take."""
    rate = RATES[work]
    return rate.start + rate.minutes * max(amount, 0.0)
