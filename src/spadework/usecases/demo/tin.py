"""The seed tin: bought in January, some of it tested in February, much of it good for a second year."""

from __future__ import annotations

import math
from collections.abc import Collection
from datetime import date, timedelta
from typing import Final

import msgspec

from spadework.crops.loader import load_sheet
from spadework.garden.entries import LotSet
from spadework.usecases.demo.deed import Deed
from spadework.usecases.demo.luck import Luck
from spadework.usecases.demo.room import seeds_of, sheet_of
from spadework.usecases.demo.script import Row, plan
from spadework.usecases.demo.seen import Seen

SHORT_LIVED: Final = frozenset({"onion", "leek", "parsnip", "parsley", "celeriac", "spinach", "sweet-corn"})
"""Seed that is bought anew each year. Class: common-practice."""

TESTED: Final = frozenset({"carrot", "leek", "parsley", "pea", "spinach", "beet", "onion"})
"""Seed of which some is put on damp paper before the season."""

_SPARE: Final = 1.4


def lot_of(row: Row, year: int) -> str:
    """Name of the seed lot a planting of a year is sown from; empty for tubers, sets and cloves."""
    seed = _seed(row)
    return f"{seed}-{_bought_in(row, year) % 100:02d}" if seed else ""


def _seed(row: Row) -> str:
    """Crop and variety of its seed."""
    sheet = sheet_of(row.crop, row.variety)
    if sheet.sowing.seeds_per_gram is None or row.method == "sets" or sheet.key in ("potato", "garlic"):
        return ""
    return f"{sheet.key}-{row.variety}" if row.variety else sheet.key


def _bought_in(row: Row, year: int) -> int:
    """Every year, or every second one."""
    return year if row.crop in SHORT_LIVED or (year + len(_seed(row))) % 2 == 0 else year - 1


def tin(season: int, opened: date, used: Collection[str], seen: Seen) -> list[Deed]:
    """Every lot, told when it is bought, and told anew with how it sprouted.

    Parameters
    ----------
    season : int
    opened : date
        The day the book was begun: what is older is told then.
    used : collection of str
        Lots that were sown from; of those older than last season no others are told.
    seen : Seen
    """
    deeds: list[Deed] = []
    need: dict[str, int] = {}
    for row in plan().plantings:
        need[_seed(row)] = need.get(_seed(row), 0) + seeds_of(row)
    for year in range(season - 3, season + 1):
        tested_on = seen.working_day(date(year, 2, 6), 6, Luck(year, "test")) if year > season - 2 else None
        lots = {
            lot_of(row, year): row for row in plan().plantings if _seed(row) and _bought_in(row, year) == year
        }
        for lot, row in sorted(lots.items()):
            if year < season - 1 and lot not in used:
                continue
            years = 1 if row.crop in SHORT_LIVED else 2
            seeds = _packet(need[_seed(row)] * years * _SPARE + 30)
            told = LotSet(lot=lot, crop=row.crop, variety=row.variety, year=year, seeds=seeds)
            deeds.append(Deed(on=max(date(year, 1, 16), opened), who="odo", act=told))
            if row.crop in TESTED and tested_on is not None:
                deeds.append(_tested(told, row, tested_on + timedelta(days=9), seeds))
    return deeds


def _tested(told: LotSet, row: Row, on: date, seeds: int) -> Deed:
    """Twenty or thirty seeds on damp paper, counted nine days later."""
    luck = Luck(told.lot).at("germination")
    share = load_sheet(row.crop).sowing.lot_germination_pct.value / 100
    tested = luck.choice((20, 20, 30))
    up = sum(luck.random() < min(0.97, share * 1.03) for _ in range(tested))
    who = luck.choice(("pia", "fenn", "maren"))
    again = msgspec.structs.replace(told, seeds=seeds - tested, germinated=up, tested=tested)
    return Deed(on=on, who=who, act=again)


def _packet(seeds: float) -> int:
    """Seeds as packets hold them."""
    step = 10 if seeds < 100 else 50 if seeds < 500 else 250
    return int(step * math.ceil(seeds / step))
