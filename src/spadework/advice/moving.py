"""What it costs to lift plants that stand and set them anew elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

import msgspec

from spadework.advice.odds import Fact
from spadework.crops.sheet import Sheet
from spadework.crops.sources import citation

STANDS_STILL_DAYS: Final = 7.0
"""Days that plants lifted and set anew do not grow, where the sheet has no own. Class: common-practice."""


class MovingCost(msgspec.Struct, frozen=True, kw_only=True):
    """What moving costs.

    Parameters
    ----------
    days : float
        Later it is all ready.
    said : list of str
        What else is to be thought of, in words.
    facts : list of Fact
    """

    days: float
    said: list[str]
    facts: list[Fact]


def days_lost(sheet: Sheet) -> float:
    """Days by which one moving puts a planting back."""
    check = sheet.chill.set_out_check_days
    return STANDS_STILL_DAYS if check is None else check.value


def days_put_back(sheet: Sheet, moved_on: Sequence[date], since: date) -> int:
    """Whole days by which all movings from a day on put a planting back."""
    return round(days_lost(sheet) * sum(day >= since for day in moved_on))


def moving_cost(sheet: Sheet, *, perennial: bool) -> MovingCost:
    """What moving a planting of a crop costs."""
    check = sheet.chill.set_out_check_days
    source = "common practice" if check is None or not check.sources else citation(check.sources[0])
    said = []
    if sheet.thin is not None and sheet.thin.tap == "yes" and not perennial:
        said.append("It has a tap root: moved, the root forks or stays small, and some plants fail.")
    elif "raised" not in sheet.propagation and not perennial:
        said.append("It is usually sown where it stays: moved with bare roots, some plants fail.")
    if perennial:
        said.append("What stands for years is best moved while it rests, from leaf fall until growth begins.")
    said.append("Lift each with its ball of soil, in the evening or on a dull day, and water it in.")
    return MovingCost(
        days=days_lost(sheet),
        said=said,
        facts=[Fact(name="stands still after moving", value=days_lost(sheet), unit="days", source=source)],
    )
