"""The garden of the simulated seasons: what is sown or set out where and when, the same for every grower."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from random_gardens import started
from simulated_season.nature import NATURES
from simulated_season.places import Place
from spadework.garden.entries import Entry

PLANNED: Final = (
    ("carrot", 0),
    ("beet", 5),
    ("radish", 0),
    ("lettuce", 0),
    ("spinach", 0),
    ("onion", 0),
    ("pea", 0),
    ("potato", 7),
    ("cabbage", 10),
    ("kale", 20),
    ("chard", 14),
    ("turnip", 7),
    ("bush-bean", -1),
    ("summer-squash", -4),
    ("tomato", -8),
    ("sweet-corn", -2),
    ("carrot", 35),
    ("lettuce", 21),
    ("radish", 21),
    ("bush-bean", -15),
)
"""Crop, and days after the usual day of the hardy ones; below zero so many days after that of the tender."""

BED_M2: Final = 1.2 * 2.4


@dataclass(frozen=True, kw_only=True)
class Start:
    """One planting of the plan."""

    day: date
    entry: Entry


def plan(place: Place, year: int, plantings: int) -> list[Start]:
    """So many plantings, two to a bed, neighbours at random but always the same.

    Parameters
    ----------
    place : Place
    year : int
        In which the season begins.
    plantings : int
        Going through the list again where it is longer than the list, ten days later.
    """
    found = []
    for at in range(plantings):
        crop, after = PLANNED[at % len(PLANNED)]
        first = date(year, *(place.cool if after >= 0 else place.warm))
        day = first + timedelta(days=abs(after) + 10 * (at // len(PLANNED)))
        # beds are filled out of order, so that a bed holds unlike neighbours
        bed = (at * 7) % max(plantings // 2, 1) + 1
        half = 0.0 if at < plantings // 2 else 1.2
        entry = started(crop, f"{crop}-{at + 1}", day, f"bed-{bed}", rows=3, row_length_m=1.2, along_m=half)
        assert crop in NATURES
        found.append(Start(day=day, entry=entry))
    return sorted(found, key=lambda start: (start.day, start.entry.planting))
