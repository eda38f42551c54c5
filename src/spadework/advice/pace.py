"""How long a job takes: from area, counts and size, and from the garden's own logged minutes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, Literal, TypeAlias

from spadework.garden.entries import Minutes

if TYPE_CHECKING:
    from spadework.garden.planting import Planting
    from spadework.garden.state import Garden

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


HALF_BELIEVED: Final = 3
"""Logged jobs of a kind at which the garden's own pace counts half. Our own rule."""

SLOWEST: Final = 4.0
"""Nobody is held to be slower or quicker than this many times: the note says something else. Our own rule."""

USUAL_ROW_CM: Final = 30.0
"""Rows apart where nobody said. Source: common-practice."""

_BY_KIND: Final[Mapping[str, str]] = {
    "weed": "weed small",
    "count": "count",
    "earth-up": "earth up",
    "support": "support",
    "mulch": "mulch",
    "guard": "guard",
    "look": "look",
}
"""The work a logged job of a kind is measured against, by the beginning of its id."""


def learn_pace(garden: Garden, person: str = "") -> Pace:
    """The pace shown by logged minutes.

    Parameters
    ----------
    garden : Garden
    person : str
        Only what this person logged, by key; empty for all.

    Notes
    -----
    The factor is the geometric mean of logged over usual minutes, drawn towards 1 as if `HALF_BELIEVED` jobs
    had taken the usual time. Jobs whose size is not known, and of kinds that differ too much from time to
    time, teach nothing.
    """
    logs: dict[str, list[float]] = {}
    for entry in garden.entries:
        act = entry.act
        if not isinstance(act, Minutes) or not act.job or act.minutes <= 0.0:
            continue
        if person and entry.author != person:
            continue
        start = next((each for each in _BY_KIND if act.job == each or act.job.startswith(f"{each}-")), None)
        usual = None if start is None else _usual(garden, _BY_KIND[start], entry.bed, entry.planting)
        if start is None or usual is None:
            continue
        ratio = act.minutes * act.people / usual
        logged = min(max(ratio, 1.0 / SLOWEST), SLOWEST)
        logs.setdefault(start.replace("-", " "), []).append(math.log(logged))
    return Pace(
        factor={kind: math.exp(sum(each) / (len(each) + HALF_BELIEVED)) for kind, each in logs.items()},
        events={kind: len(each) for kind, each in logs.items()},
    )


def _usual(garden: Garden, work: str, bed: str, planting: str) -> float | None:
    """Usual minutes of a job by the size of its place; None where that is not known."""
    rate = RATES[work]
    own = garden.plantings.get(planting)
    here = garden.beds.get(bed or (own.bed if own is not None else ""))
    area = own.area_m2 if own is not None else None if here is None else here.area_m2
    amount = {
        "m2": area,
        "m": _row_m(own, area),
        "bed": 1.0 if here is not None else float(len(garden.beds)),
        "time": 1.0 if own is None else float(own.rows or 1),
    }.get(rate.per)
    return None if amount is None else rate.start + rate.minutes * amount


def _row_m(planting: Planting | None, area_m2: float | None) -> float | None:
    if planting is None:
        return None
    if planting.rows and planting.row_length_m:
        return planting.rows * planting.row_length_m
    return None if area_m2 is None else area_m2 / ((planting.row_cm or USUAL_ROW_CM) / 100.0)
