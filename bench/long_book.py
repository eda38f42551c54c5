"""A garden's book: a pen that writes entries, and a long book made by rule, all of it invented."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from random import Random
from typing import Any

from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.garden.keys import new_key

SPRING = date(2026, 4, 1)


class Pen:
    """Writes entries with keys of their own, a second after one another."""

    def __init__(self, author: str = "ann", first: date = SPRING) -> None:
        self.author = author
        self.day = first
        self._now = datetime(first.year, first.month, first.day, 8, tzinfo=UTC)
        self.written: list[Entry] = []

    def __call__(self, act: Payload | None = None, day: date | int | None = None, **fields: Any) -> Entry:
        """Write an act; `day` is a date or a number of days after the pen's first."""
        self._now += timedelta(seconds=1)
        on = self.day + timedelta(days=day) if isinstance(day, int) else day or self.day
        usual: dict[str, Any] = {
            "key": new_key(self._now, len(self.written).to_bytes(10, "big")),
            "happened_on": on,
            "recorded_at": self._now,
            "author": self.author,
            "act": act,
        }
        entry = Entry(**(usual | fields))
        self.written.append(entry)
        return entry


def long_book(count: int, seed: int = 1) -> list[Entry]:
    """So many entries of a garden of 40 beds over several years, of all the usual kinds."""
    luck = Random(seed)
    pen = Pen(first=date(2022, 3, 1))
    beds = [f"b{number}" for number in range(40)]
    for number, bed in enumerate(beds):
        x_m, y_m = number % 8 * 1.8, number // 8 * 3.0
        pen(kinds.BedSet(name=f"Bed {bed[1:]}", x_m=x_m, y_m=y_m, width_m=1.2, length_m=2.4), bed=bed)
    for item in ("fleece", "mesh", "netting"):
        pen(kinds.KitSet(item=item, sort="fleece", length_m=40.0))
    pen(kinds.PersonSet(person="ann", name="Ann", role="keeper"))
    crops = ("carrot", "lettuce", "bush-bean", "tomato", "leek", "potato")
    day = 0
    living: list[tuple[str, str]] = []
    while len(pen.written) < count:
        day += luck.random() < 0.12
        number = len(pen.written)
        if len(living) < 60 or luck.random() < 0.04:
            living.append((f"p{number}", luck.choice(beds)))
            planting, bed = living[-1]
            pen(
                kinds.Sown(
                    planting=planting, crop=luck.choice(crops), rows=3, row_cm=25.0, seeds=200, lot="l1"
                ),
                day,
                bed=bed,
                planting=planting,
            )
            continue
        planting, bed = luck.choice(living)
        act: Payload = luck.choice(
            (
                kinds.Watered(litres=9.0),
                kinds.Watered(minutes=4.0),
                kinds.Tended(act="weeded"),
                kinds.Counted(standing=luck.randrange(200)),
                kinds.Thinned(removed=5),
                kinds.Picked(kg=0.5, pieces=3),
                kinds.Seen(what="slugs"),
                kinds.Minutes(minutes=12.0, job="weed"),
                kinds.Moved(act="on", item="fleece", length_m=2.4),
                kinds.Moved(act="off", item="fleece"),
                kinds.Note(text="fine"),
                kinds.Stage(what="up"),
                kinds.Amended(material="horse manure", state="raw", spray_history="clean"),
                kinds.Ended(how="cleared"),
            )
        )
        if isinstance(act, (kinds.Amended, kinds.Ended)) and luck.random() < 0.7:
            continue
        pen(act, day, bed=bed, planting=planting)
        if isinstance(act, kinds.Ended):
            living.remove((planting, bed))
        if luck.random() < 0.01:
            pen(withdraws=pen.written[-1].key)
        elif luck.random() < 0.01:
            pen(act, day, bed=bed, planting=planting, replaces=pen.written[-1].key)
    return pen.written
