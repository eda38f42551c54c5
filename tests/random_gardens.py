"""Invented gardens drawn at random: beds, plantings at every age, kit, seed, locks, half a season of book."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from random import Random
from typing import Final

import scenes
from spadework.advice.ready_odds import usual_way
from spadework.advice.scene import Scene
from spadework.crops.loader import load_sheet
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.garden.site import Site

CROPS: Final = (
    "beet",
    "bush-bean",
    "cabbage",
    "carrot",
    "chard",
    "garlic",
    "kale",
    "leek",
    "lettuce",
    "onion",
    "pea",
    "potato",
    "radish",
    "spinach",
    "strawberry",
    "summer-squash",
    "sweet-corn",
    "tomato",
    "turnip",
)

ALWAYS: Final = "1980-01-01"
"""Beds and kit were there before any season run."""

NORTH = Site("Invented plot", 50.0, 10.0, 100.0)
SOUTH = Site("Invented southern plot", -36.0, 145.0, 100.0)


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """A garden drawn: its book, the day it is looked at, and its weather."""

    entries: tuple[Entry, ...]
    today: date
    weather: scenes.Weather
    site: Site

    def scene(self) -> Scene:
        """The scene of that day."""
        return scenes.scene_of(list(self.entries), self.today, self.weather, self.site)


def beds(count: int, *, width_m: float = 1.2, length_m: float = 2.4) -> list[Entry]:
    """Beds in rows of five with paths of half a metre between them."""
    return [
        scenes.said(
            kinds.BedSet(
                name=f"Bed {at + 1}",
                x_m=(at % 5) * (width_m + 0.5),
                y_m=(at // 5) * (length_m + 0.5),
                width_m=width_m,
                length_m=length_m,
                water_by="can",
            ),
            ALWAYS,
            bed=f"bed-{at + 1}",
        )
        for at in range(count)
    ]


def started(
    crop: str, key: str, day: date, bed: str, *, rows: int, row_length_m: float, along_m: float
) -> Entry:
    """A planting begun in the usual way of its crop, over half of a bed."""
    sheet = load_sheet(crop)
    block = kinds.Block(along_m=along_m, width_m=1.2, length_m=row_length_m)
    act: Payload
    if usual_way(sheet) == "sown":
        act = kinds.Sown(
            planting=key,
            crop=crop,
            rows=rows,
            row_length_m=row_length_m,
            seeds=round(rows * row_length_m * 40),
            depth_mm=15.0,
            block=block,
        )
    else:
        act = kinds.PlantedOut(
            planting=key,
            crop=crop,
            rows=rows,
            row_length_m=row_length_m,
            plants=max(1, round(rows * row_length_m * 3)),
            bought=True,
            block=block,
        )
    return scenes.said(act, day, bed=bed, planting=key)


def random_garden(seed: int) -> Drawn:
    """One garden; the same seed always gives the same."""
    luck = Random(seed)
    site = luck.choice((NORTH, NORTH, SOUTH))
    spring = date(2026, 4, 1) if site is NORTH else date(2025, 10, 1)
    today = spring + timedelta(days=luck.randrange(0, 180))
    weather = scenes.Weather(
        mean_c=luck.uniform(7.0, 16.0),
        swing_c=luck.uniform(5.0, 14.0) * (1.0 if site is NORTH else -1.0),
        half_range_c=luck.uniform(3.0, 9.0),
        spread_c=luck.uniform(0.5, 3.5),
        rain_every=luck.choice((0, 2, 5, 12)),
        rain_of_mm=luck.uniform(1.0, 15.0),
    )
    number = luck.randrange(1, 9)
    entries = beds(number)
    entries += [
        scenes.said(kinds.KitSet(item="fleece", sort="fleece", length_m=luck.uniform(0.0, 20.0)), ALWAYS),
        scenes.said(kinds.KitSet(item="net", sort="netting", length_m=luck.uniform(0.0, 12.0)), ALWAYS),
        *(
            scenes.said(kinds.LotSet(lot=f"lot-{crop}", crop=crop, year=2025, seeds=500), ALWAYS)
            for crop in luck.sample(CROPS, 4)
        ),
    ]
    for at in range(luck.randrange(0, 2 * number)):
        entries += _planting(luck, at, number, today)
    if luck.random() < 0.4:
        entries.append(_lock(luck, number, today))
    return Drawn(entries=tuple(entries), today=today, weather=weather, site=site)


def _planting(luck: Random, at: int, number: int, today: date) -> list[Entry]:
    crop, bed = luck.choice(CROPS), f"bed-{luck.randrange(number) + 1}"
    key = f"{crop}-{at + 1}"
    begun = today - timedelta(days=luck.randrange(0, 150))
    half = luck.choice((0.0, 1.2))
    found = [started(crop, key, begun, bed, rows=luck.randrange(1, 4), row_length_m=1.2, along_m=half)]
    age = (today - begun).days
    acts: list[Payload] = [
        kinds.Stage(what="up"),
        kinds.Counted(standing=luck.randrange(0, 60)),
        kinds.Thinned(left=luck.randrange(1, 30)),
        kinds.Measured(height_cm=luck.uniform(1.0, 60.0), leaves=luck.uniform(1.0, 20.0)),
        kinds.Tended(act=luck.choice(("hoed", "weeded", "mulched", "earthed up", "supported"))),
        kinds.Watered(litres=luck.uniform(1.0, 40.0)),
        kinds.Moved(act="on", item=luck.choice(("fleece", "net")), length_m=1.2),
        kinds.Picked(kg=luck.uniform(0.1, 2.0)),
        kinds.Stage(what="ready"),
        kinds.Ended(how=luck.choice(("cleared", "lost"))),
    ]
    for each in acts:
        if luck.random() < 0.2 and age > 0:
            day = begun + timedelta(days=luck.randrange(0, age + 1))
            found.append(scenes.said(each, day, bed=bed, planting=key))
    return found


def _lock(luck: Random, number: int, today: date) -> Entry:
    act = kinds.Locked(
        lock="lock-drawn",
        on="bed",
        why="an invented reason",
        stops=luck.choice(("picking", "planting")),
        until=today + timedelta(days=luck.randrange(1, 60)),
    )
    return scenes.said(act, today - timedelta(days=5), bed=f"bed-{luck.randrange(number) + 1}")
