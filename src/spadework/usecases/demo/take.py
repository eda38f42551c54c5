"""What a planting gave, and how it ended: picked, pulled, lifted, stored, cleared."""

from __future__ import annotations

import math
from datetime import date, timedelta
from typing import Final, Literal, TypeAlias

from spadework.garden.entries import Ended, Kept, Lifted, Moved, Picked, Stage
from spadework.garden.entries import Seen as Noticed
from spadework.usecases.demo.deed import EARLY, EVENING, LATE, NOT_HEAVY, WITH_BLADES, somebody
from spadework.usecases.demo.life import Life
from spadework.usecases.demo.luck import Luck
from spadework.usecases.demo.room import fit, hoops_for, spacing_of
from spadework.usecases.demo.seen import ONE_DAY, Seen

USUAL_SPREAD: Final = 0.18
"""Spread of a planting's yield about the sheet's, in logarithms. Invented, as the harvests are."""

GROWS_TO: Final = (11, 5)
"""After that day nothing more grows in the open here: what stands is picked as it is."""

Quality: TypeAlias = Literal["", "good", "fair"]
_QUALITIES: Final[tuple[Quality, ...]] = ("", "", "", "good", "good", "fair")
_WITH_KNIFE = frozenset({"heads"})
_TAKEN_YOUNG = frozenset({"leaf", "root", "herb"})
YOUNG_WAY: Final = 0.5
"""Share of the way to ready from which leaves and roots are worth taking young. Class: common-practice."""


def take(life: Life, year: int, seen: Seen) -> None:
    """Harvest a planting and clear it, as far as it was seen."""
    if life.in_place is None or life.ended is not None:
        return
    luck = Luck(year, life.row.id, "take")
    over, why = _end(life)
    end = over
    if life.ready is not None and life.ready < end:
        sign = Stage(what="ready", test=life.sheet.harvest.sign)
        life.say(seen, life.ready, sign, somebody(luck, life.ready), when=EARLY)
        if life.row.take == "lift":
            end = _lift(life, life.ready, seen, end, luck)
        elif life.row.take != "flowers":
            end = _pick(life, life.ready, seen, end, luck)
    elif life.row.take in ("pick", "pull") and life.sheet.kind in _TAKEN_YOUNG:
        _take_young(life, seen, end, luck)
    if life.bolted is not None and life.up is not None and life.up < life.bolted < end:
        life.say(seen, life.bolted, Stage(what="bolting"), somebody(luck, life.bolted), when=EARLY)
    _clear(life, seen, end, why if end == over else "", luck)


def _planned(life: Life) -> date:
    """The day it would be over if nothing takes it first."""
    row, end = life.row, life.must_end - ONE_DAY
    if life.ready is None or row.stands or row.hold or row.next or row.cover == "winter fleece":
        return end
    days = life.sheet.harvest.days.value * (1.0 if row.take in ("pull", "lift", "heads") else 1.15)
    return min(end, life.ready + timedelta(days=round(days) + 3))


def _end(life: Life) -> tuple[date, str]:
    """The day it is cleared by, and why, as far as nature and the plan decide it."""
    end, why = _planned(life), ""
    if life.killed is not None and life.killed < end:
        end, why = life.killed + ONE_DAY, f"frost of {life.killed.day} {life.killed:%b}"
    if life.bolted is not None and life.bolted + timedelta(days=8) < end:
        end, why = life.bolted + timedelta(days=8), "run to seed"
    return end, why


def _total_kg(life: Life, luck: Luck) -> float:
    """What the sheet's usual yield makes of its rows, closer rows giving less each.  [kg]"""
    row, harvest = life.row, life.sheet.harvest
    if harvest.yield_kg_m is None:
        return 0.0
    crowding: float = min(1.0, row.row_cm / life.sheet.sowing.row_cm.value) ** 0.7
    if row.take == "pick" and life.in_place is not None and life.in_place.month >= 8 and not row.stands:
        crowding *= 0.6
    stand = min(1.0, life.plants / fit(row, spacing_of(row))) if row.take in ("heads", "lift") else 1.0
    usual_kg = harvest.yield_kg_m.value * row.rows * row.length_m * crowding * stand
    return usual_kg * math.exp(luck.at("yield").gauss(-0.02, USUAL_SPREAD))


def _lift(life: Life, ready: date, seen: Seen, end: date, luck: Luck) -> date:
    """All at once, cured and put into store."""
    row = life.row
    first = ready + timedelta(days=2)
    if row.hold:
        first = max(first, _planned(life) - timedelta(days=9))
    day = seen.working_day(min(first, end - ONE_DAY), 3, luck)
    if day is None:
        return end
    day = min(day, end)
    total_kg = _total_kg(life, luck)
    pieces = max(1, round(life.plants * luck.at("sound").uniform(0.9, 0.98)))
    act = Lifted(kg=_weighed(total_kg), pieces=None if life.sheet.kind == "tuber" else pieces)
    life.say(seen, day, act, somebody(luck, day, NOT_HEAVY, seen.tmax_c(day)))
    kept_kg = total_kg
    if row.cure:
        benches = "tunnel benches" if day.month > 8 else "shed rafters"
        life.say(seen, day, Kept(act="cured", where=benches), "odo", when=LATE)
        kept_kg *= 0.86
    if row.store:
        stored = day + timedelta(days=16 if row.cure else 0)
        kept = Kept(act="stored", where=row.store, kg=_weighed(kept_kg * 0.95))
        life.say(seen, stored, kept, "odo", when=LATE)
    return day


def _pick(life: Life, ready: date, seen: Seen, end: date, luck: Luck) -> date:
    """Again and again, more in the middle than at the ends; the last day it was picked on."""
    row = life.row
    every = row.every + 1 if row.take == "pick" else 6
    days: list[date] = []
    day = max(ready, row.kept_until(ready.year)) + timedelta(days=luck.at("first").choice((0, 1, 1, 2)))
    planned = _planned(life)
    while day <= planned:
        growing = (day.month, day.day) <= GROWS_TO and day.month >= 4
        if growing or row.stands:
            days.append(day)
        more = luck.at("next", day).choice((-1, 0, 0, 1)) + (0 if growing else every)
        day += timedelta(days=max(2, every + more))
    if not days:
        return end
    weights = [
        math.sin(math.pi * (count + 0.7) / (len(days) + 0.4)) * luck.at("pick", count).uniform(0.7, 1.3)
        for count in range(len(days))
    ]
    whole = sum(weights)
    total_kg, taken, so_far = _total_kg(life, luck), 0, 0.0
    pulled = row.take in ("pull", "heads")
    people = WITH_BLADES if row.take in _WITH_KNIFE else NOT_HEAVY
    for count, day in enumerate(days):
        share = weights[count] / whole
        pieces = None
        if pulled:
            so_far += share
            pieces = round(life.plants * so_far) - taken
            taken += pieces
        if pieces == 0 or day > end or not seen.has(day):
            continue
        kg = _weighed(total_kg * (share if pieces is None else pieces / life.plants))
        shown = None if life.sheet.kind == "tuber" else pieces
        quality = luck.at("quality", day).choice(_QUALITIES)
        who = somebody(luck, day, people, seen.tmax_c(day))
        life.say(seen, day, Picked(kg=kg, pieces=shown, quality=quality), who)
        if pulled and taken == life.plants:
            return day
    # A day by which all was taken lies in the past only once that day was seen.
    return end


def _take_young(life: Life, seen: Seen, end: date, luck: Luck) -> None:
    """What stands is taken small where its place is needed."""
    course = life.course
    if course is None or life.up is None or not seen.has(end) or life.up >= end:
        return
    way = float(course.way[0, seen.column(end)])
    if way >= YOUNG_WAY and (life.killed is None or life.killed >= end):
        act = Picked(kg=_weighed(_total_kg(life, luck) * 0.5 * min(1.0, way) ** 2), quality="poor", last=True)
        life.say(seen, end, act, somebody(luck, end, NOT_HEAVY))


def _clear(life: Life, seen: Seen, end: date, why: str, luck: Luck) -> None:
    """Off the bed, on a plausible day by the end."""
    taken = any(isinstance(deed.act, (Picked, Lifted)) for deed in life.deeds)
    if not seen.has(end):
        return
    lost = life.row.take != "flowers" and not taken
    life.deeds = [deed for deed in life.deeds if deed.on <= end or isinstance(deed.act, Kept)]
    if why.startswith("frost"):
        black = Noticed(what="black with frost", sort="damage", parts=("leaf",))
        life.say(seen, end - ONE_DAY, black, somebody(luck, end), when=EARLY)
    if life.row.cover and _covered(life):
        off = Moved(act="off", item=life.row.cover, length_m=round(life.row.length_m, 2))
        life.say(seen, end, off, "bram")
        if hoops_for(life.row):
            life.say(seen, end, Moved(act="off", item="hoops", pieces=hoops_for(life.row)), "bram")
    life.ended = end
    act = Ended(how="lost" if lost else "cleared", why=why or ("not ready in time" if lost else ""))
    life.say(seen, end, act, somebody(luck, end, tmax_c=seen.tmax_c(end)), when=EVENING)


def _covered(life: Life) -> bool:
    moves = [deed for deed in life.deeds if isinstance(deed.act, Moved)]
    return bool(moves) and isinstance(moves[-1].act, Moved) and moves[-1].act.act != "off"


def _weighed(kg: float) -> float | None:
    """As kitchen scales show it: to 10 g, heavy loads to 100 g."""
    if kg <= 0:
        return None
    return max(0.03, round(kg, 1)) if kg >= 5 else max(0.03, round(kg, 2))
