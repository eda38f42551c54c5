"""Numbers of a sheet in the order a grower asks for them, and the line their like are drawn on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from spadework.usecases.read_sheets import ShownValue

GROUPS: Final[tuple[tuple[str, str, tuple[str, ...]], ...]] = (
    ("Sowing and coming up", "How deep, how many, how warm, how long", ("sowing", "emergence")),
    (
        "Spacing, thinning and support",
        "How far apart, when to thin, what it leans on",
        ("sowing.in_row_cm", "sowing.row_cm", "thin", "room", "support"),
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
    """By unit, the ends of the line that all its numbers in a group are drawn on; nought is on it."""
    found: dict[str, tuple[float, float]] = {}
    for each in values:
        if isinstance(each.value, str):
            continue
        numbers = [each.value, *(number for number in (each.low, each.high) if number is not None)]
        least, most = found.get(each.unit, (0.0, numbers[0]))
        found[each.unit] = (min(least, *numbers), max(most, *numbers))
    return found
