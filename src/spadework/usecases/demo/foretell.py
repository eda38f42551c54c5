"""Last year's predictions, so that a track record can be scored: the program really asked, day by day.

It is asked in a copy of the garden that holds the weather and nothing else, and only what was seen by each
day counts. The book of the demo then keeps the answers as foretold on the evening of their day, since all of
its days are invented.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterable
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Final

from spadework.garden.entries import Entry, PlantedOut, Sown
from spadework.store.garden_folder import GardenFolder, create
from spadework.store.predictions import Prediction
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.demo.season import WRITTEN_AT

FROST_ASKED: Final = ((4, 15), (5, 5), (9, 5))
"""Days on which the frost was asked about."""

READY_ASKED: Final = (
    ("pea", 6),
    ("potato", 20),
    ("carrot", 15),
    ("bush-bean", 8),
    ("onion", 30),
    ("cabbage", 20),
    ("tomato", 25),
    ("garlic", 215),
)
"""Crops asked about, and how many days after their first start of the year."""


def foretold(folder: GardenFolder, entries: Iterable[Entry], year: int) -> list[tuple[Prediction, datetime]]:
    """What the program foretold in a year, each with the evening it is kept.

    Parameters
    ----------
    folder : GardenFolder
        With its weather.
    entries : iterable of Entry
        The book, for the days of sowing.
    year : int
    """
    asked = list(_questions(entries, year))
    with tempfile.TemporaryDirectory() as bare:
        copy = create(Path(bare) / "garden", folder.site)
        (copy.path / "weather").mkdir(exist_ok=True)
        (copy.path / "weather" / "daily.csv").write_bytes(
            (folder.path / "weather" / "daily.csv").read_bytes()
        )
        for ask in asked:
            ask(copy.path)
        with copy.open_book() as book:
            said = [kept.prediction for kept in book.predictions()]
    return [(one, datetime.combine(one.made_on, WRITTEN_AT)) for one in said]


def _questions(entries: Iterable[Entry], year: int) -> Iterable[Callable[[Path], object]]:
    for month, day in FROST_ASKED:
        on = date(year, month, day)
        yield lambda garden, on=on: ask_frost(garden, on)  # type: ignore[misc]
    starts: dict[str, tuple[date, bool]] = {}
    for entry in entries:
        act = entry.act
        if not isinstance(act, (Sown, PlantedOut)) or not entry.bed or entry.bed == "shelf":
            continue
        season = entry.happened_on.year + (entry.happened_on.month >= 10)
        if season == year and act.crop not in starts:
            starts[act.crop] = (entry.happened_on, isinstance(act, PlantedOut))
    for crop, days in READY_ASKED:
        if crop not in starts:
            continue
        start, planted = starts[crop]
        on = start + timedelta(days=days)
        if planted:
            yield lambda garden, on=on, crop=crop, start=start: ask_ready(garden, on, crop, set_out_on=start)  # type: ignore[misc]
        else:
            yield lambda garden, on=on, crop=crop, start=start: ask_ready(garden, on, crop, sown=start)  # type: ignore[misc]
