"""Numbers of a sheet in the order a grower asks for them, and the line their like are drawn on."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from spadework.usecases.read_sheets import ShownValue

GROUPS: Final[tuple[tuple[str, str, tuple[str, ...]], ...]] = (
    ("Sowing and coming up", "How deep, how many, how warm, how long", ("sowing", "emergence")),
    ("Raising and planting out", "When to prick out, pot on and harden off", ("start",)),
    (
        "Spacing, thinning and support",
        "How far apart, when to thin, what it leans on",
        ("sowing.in_row_cm", "sowing.row_cm", "thin", "room", "support", "earth"),
    ),
    (
        "Growth and the day it is ready",
        "How fast it grows, and its flowers",
        ("development", "growth", "bees"),
    ),
    (
        "Cold, heat and running to seed",
        "What kills, spoils or bolts it",
        ("frost", "heat", "chill", "bolting"),
    ),
    ("Water and weeds", "When it thirsts, how long to keep it clean", ("water", "weeds")),
    ("What takes it", "Who eats it young, who eats it ripe", ("guard",)),
    ("Picking and keeping", "The sign, how much, how long it keeps", ("harvest", "use")),
    ("The next one", "How often to sow, when it may come back", ("next",)),
)
"""Heading, what is found there, and sections or single numbers of a sheet."""

FIRST: Final = {
    "sowing.depth_mm": "Sow or plant at",
    "sowing.in_row_cm": "Apart in the row",
    "sowing.row_cm": "Between rows",
    "development.packet_days": "Ready after, packets say",
    "frost.young_kill_c": "Frost that kills it young",
    "harvest.days": "Stands, or is picked, for",
}
"""What is asked most, shown above all groups, and what it is called there."""

_SINGLY: Final = frozenset(name for _, _, names in GROUPS for name in names if "." in name)


@dataclass(frozen=True)
class Group:
    """Numbers that answer one question."""

    name: str
    about: str
    values: list[ShownValue]
    own: int


def grouped(values: Iterable[ShownValue]) -> list[Group]:
    """Values in groups; what belongs to none stands last."""
    left = list(values)
    found = []
    for name, about, parts in GROUPS:
        mine = [each for each in left if _in(each.field, parts)]
        left = [each for each in left if each not in mine]
        if mine:
            found.append(Group(name, about, mine, sum(each.sheet_value is not None for each in mine)))
    if left:
        found.append(Group("Other", "", left, sum(each.sheet_value is not None for each in left)))
    return found


def _in(field: str, parts: tuple[str, ...]) -> bool:
    if field in _SINGLY:
        return field in parts
    return field.partition(".")[0] in parts


def scales(values: Iterable[ShownValue]) -> dict[str, tuple[float, float]]:
    """By field, the ends of the line a number is drawn on; none for a lone number nothing is to be seen of.

    All temperatures of a group share a line; any other number with a range lies between nought and the next
    round number.
    """
    numbers = [each for each in values if not isinstance(each.value, str)]
    warmths = [
        number
        for each in numbers
        if each.unit == "degC"
        for number in (each.value, each.low, each.high)
        if isinstance(number, float)
    ]
    found = {}
    for each in numbers:
        if each.unit == "degC":
            found[each.field] = (min(0.0, *warmths), max(0.0, *warmths))
        elif each.low is not None and each.high is not None:
            most = max(abs(float(number)) for number in (each.value, each.low, each.high))
            end = _round_number(most)
            found[each.field] = (-end if min(float(each.value), each.low) < 0.0 else 0.0, end)
    return found


def _round_number(value: float) -> float:
    """The next of 1, 2, 5, 10 and so on."""
    if value <= 0.0:
        return 1.0
    ten = 10.0 ** math.floor(math.log10(value))
    return next(step * ten for step in (1.0, 2.0, 5.0, 10.0) if value <= step * ten * (1.0 + 1e-9))
