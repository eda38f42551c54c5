"""The pace the book shows: logged minutes against the usual ones for what was done in them."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Final, NamedTuple

import numpy as np

from spadework.advice.pace import CRAFTS, RATES, Pace
from spadework.crops.loader import load_sheet
from spadework.crops.names import keys
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.garden.planting import Planting
from spadework.garden.state import Garden

HALF_BELIEVED: Final = 3
"""Logged jobs of a craft at which the garden's own pace counts half. Our own rule."""

SLOWEST: Final = 4.0
"""Nobody is held to be slower or quicker than this many times: the note says something else. Our own rule."""

USUAL_ROW_CM: Final = 30.0
"""Rows apart where nobody said. Source: common-practice."""

THREAD_DAYS: Final = (10.0, 28.0)
LARGE_DAYS: Final = (25.0, 50.0)
"""Days since a bed was clear between which hoeing at the white thread turns into hoeing small weeds, and
pulling small weeds into digging out large ones. What stood is not in the book; a summer's warmth of 12 °C
a day is behind the second. Our own rule."""

_TENDED: Final[Mapping[str, str]] = {
    "hoed": "weed thread",
    "weeded": "weed small",
    "earthed up": "earth up",
    "supported": "support",
    "mulched": "mulch",
    "potted on": "pot",
    "prepared": "seedbed",
    "looked over": "look",
}
_STEMS: Final[Mapping[str, tuple[str, ...]]] = {
    "hoeing": ("hoe", "weed"),
    "hand weeding": ("weed", "hand"),
    "counting": ("count",),
    "sowing": ("sow",),
    "preparing": ("prepar",),
    "pricking out": ("prick",),
    "potting on": ("pot",),
    "planting out": ("plant",),
    "watering": ("water", "keep-damp", "damp"),
    "picking": ("pick", "cut", "pull"),
    "lifting": ("lift", "dig"),
    "clearing": ("clear",),
    "thinning": ("thin",),
    "earthing up": ("earth",),
    "supporting": ("support", "tie", "tying"),
    "mulching": ("mulch",),
    "looking": ("look",),
}
"""How the time spent on a craft is called in the book, by its first letters: a noun, or the job's id."""


class _Logged(NamedTuple):
    """One log: minutes of one pair of hands over the usual ones, as a logarithm."""

    craft: str
    who: str
    alone: bool
    slower: float


class _Piece(NamedTuple):
    """An act as work: of which sort, and how much of it."""

    work: str
    amount: float


def learn_pace(garden: Garden) -> Pace:
    """The pace shown by logged minutes, of all together and of each person.

    Parameters
    ----------
    garden : Garden

    Notes
    -----
    A log is measured by what was done in it: square metres weeded or cleared, plants thinned or set out,
    metres sown or earthed up, kilograms picked or lifted, litres carried. The factor is the geometric mean of
    logged over usual minutes, drawn towards 1 as if `HALF_BELIEVED` jobs had taken the usual time; a person's
    is drawn towards the garden's in the same way, and learns from what they did alone. Time that says
    neither what was done nor how much of it teaches nothing.
    """
    logs = list(_logged(garden))
    factor = {craft: math.exp(_drawn(each, 0.0)) for craft, each in _by_craft(logs).items()}
    alone: dict[str, list[_Logged]] = defaultdict(list)
    for log in logs:
        if log.alone:
            alone[log.who].append(log)
    return Pace(
        factor=factor,
        events={craft: len(each) for craft, each in _by_craft(logs).items()},
        own={
            who: {
                craft: math.exp(_drawn(each, math.log(factor[craft])))
                for craft, each in _by_craft(theirs).items()
            }
            for who, theirs in alone.items()
        },
    )


def craft_of(acts: Sequence[Payload]) -> str:
    """The craft of what a job writes when it is done; empty where it has none."""
    for act in acts:
        work = _work_of(act, None)
        if work in CRAFTS:
            return CRAFTS[work]
    return ""


def _drawn(slower: Sequence[float], towards: float) -> float:
    return (sum(slower) + HALF_BELIEVED * towards) / (len(slower) + HALF_BELIEVED)


def _by_craft(logs: Sequence[_Logged]) -> dict[str, list[float]]:
    found: dict[str, list[float]] = defaultdict(list)
    for log in logs:
        found[log.craft].append(log.slower)
    return found


def _logged(garden: Garden) -> Iterator[_Logged]:
    timed = [entry for entry in garden.entries if isinstance(entry.act, kinds.Minutes) and entry.act.minutes]
    if not timed:
        return
    days = {entry.happened_on for entry in timed}
    done: dict[date, list[Entry]] = defaultdict(list)
    for entry in garden.entries:
        if entry.happened_on in days and not isinstance(entry.act, kinds.Minutes):
            done[entry.happened_on].append(entry)
    cleared = _Cleared(garden)
    for entry in timed:
        act = entry.act
        assert isinstance(act, kinds.Minutes)
        pieces = _pieces(garden, entry, act.job, done[entry.happened_on], cleared)
        if not pieces:
            continue
        usual = max(RATES[piece.work].start for piece in pieces)
        usual += sum(RATES[piece.work].minutes * piece.amount for piece in pieces)
        ratio = act.minutes * act.people / usual
        yield _Logged(
            CRAFTS[pieces[0].work],
            entry.author,
            act.people == 1,
            math.log(min(max(ratio, 1.0 / SLOWEST), SLOWEST)),
        )


def _pieces(
    garden: Garden, time: Entry, job: str, that_day: Sequence[Entry], cleared: _Cleared
) -> list[_Piece]:
    """What was done in a time: acts of one craft, told with it, else by the same person there that day."""
    here = [each for each in that_day if each.author == time.author and _same_place(time, each)]
    together = [each for each in here if each.recorded_at == time.recorded_at]
    for acts in (together, here):
        by_craft: dict[str, list[_Piece | None]] = defaultdict(list)
        for each in acts:
            work = _work_of(each.act, garden.plantings.get(each.planting))
            craft = CRAFTS.get(work, "")
            if craft and _is_called(job, craft):
                by_craft[craft].append(_piece(garden, each, work, cleared))
        if len(by_craft) == 1:
            (found,) = by_craft.values()
            # of a part that is not known the whole is not known either
            return [] if None in found else [piece for piece in found if piece is not None]
        if by_craft:
            return []
    return []


def _same_place(time: Entry, act: Entry) -> bool:
    if not time.bed and not time.planting:
        return act.recorded_at == time.recorded_at
    return (act.bed, act.planting) == (time.bed, time.planting)


def _is_called(job: str, craft: str) -> bool:
    return not job or job.casefold().startswith(_STEMS.get(craft, ()))


def _work_of(act: Payload | None, planting: Planting | None) -> str:
    """The sort of work an act is; empty where its time says nothing."""
    match act:
        case kinds.Tended():
            return _TENDED.get(act.act, "")
        case kinds.Sown():
            return "" if act.tray else "sow"
        case kinds.PlantedOut():
            return "plant"
        case kinds.PrickedOut():
            return "prick"
        case kinds.Thinned():
            return "thin"
        case kinds.Counted():
            return "count"
        case kinds.Lifted():
            return "lift"
        case kinds.Ended(how="cleared"):
            return "clear"
        case kinds.Watered():
            # what a hose or drippers give takes nobody's hands
            return "damp" if act.minutes is None else ""
        case kinds.Picked():
            return _picking(planting)
        case _:
            return ""


def _picking(planting: Planting | None) -> str:
    """Heads are cut, leaves and stalks gathered, the rest picked fruit by fruit."""
    if planting is None or planting.crop not in keys():
        return "pick fruit"
    sheet = load_sheet(planting.crop)
    if sheet.harvest.repeat == "once":
        return "cut heads"
    return "pick leaves" if sheet.kind in ("leaf", "herb", "stem", "flower") else "pick fruit"


def _piece(garden: Garden, entry: Entry, work: str, cleared: _Cleared) -> _Piece | None:
    """An act with its own measure; None where that is not known."""
    amount = _amount(garden, entry, work)
    if amount is None or not math.isfinite(amount) or amount < 0.0:
        return None
    if work in ("weed thread", "weed small"):
        return _Piece(work, amount * cleared.as_small(entry, work))
    return _Piece(work, amount)


def _amount(garden: Garden, entry: Entry, work: str) -> float | None:
    act, own = entry.act, garden.plantings.get(entry.planting)
    here = garden.beds.get(entry.bed or (own.bed if own is not None else ""))
    area_m2 = own.area_m2 if own is not None else None if here is None else here.area_m2
    match act:
        case kinds.PlantedOut() | kinds.PrickedOut():
            return None if act.plants is None else float(act.plants)
        case kinds.Thinned():
            return None if act.removed is None else float(act.removed)
        case kinds.Picked() | kinds.Lifted():
            return act.kg
        case kinds.Watered():
            return act.litres
        case kinds.Counted():
            return 1.0 if own is None else float(own.rows or 1)
        case _:
            pass
    if work == "look":
        return 1.0 if here is not None else float(len(garden.beds))
    if work == "pot":
        return None if own is None or own.plants.number is None else own.plants.number
    return _row_m(own, area_m2) if RATES[work].per == "m" else area_m2


def _row_m(planting: Planting | None, area_m2: float | None) -> float | None:
    if planting is None:
        return None
    if planting.rows and planting.row_length_m:
        return planting.rows * planting.row_length_m
    return None if area_m2 is None else area_m2 / ((planting.row_cm or USUAL_ROW_CM) / 100.0)


class _Cleared:
    """How long beds had not been cleared of weeds when they were weeded."""

    def __init__(self, garden: Garden) -> None:
        self.days: dict[str, list[date]] = defaultdict(list)
        for entry in garden.entries:
            act = entry.act
            tended = isinstance(act, kinds.Tended) and act.act in ("weeded", "hoed", "mulched", "prepared")
            if tended or isinstance(act, (kinds.Sown, kinds.PlantedOut)):
                self.days[entry.bed].append(entry.happened_on)

    def as_small(self, entry: Entry, work: str) -> float:
        """Square metres of the usual work that weeding one of that day took as long as."""
        before = [day for day in self.days.get(entry.bed, ()) if day < entry.happened_on]
        if not before:
            return 1.0
        since = (entry.happened_on - max(before)).days
        span, later = (THREAD_DAYS, "weed small") if work == "weed thread" else (LARGE_DAYS, "weed large")
        first = RATES[work].minutes
        return float(np.interp(since, span, (1.0, RATES[later].minutes / first)))
