"""Rhubarb, asparagus and strawberries: their years, by the clock from each spring on."""

from __future__ import annotations

import math
from datetime import date, timedelta

from spadework.garden.entries import Moved, Picked, Stage, Tended
from spadework.usecases.demo.deed import DAY, EARLY, EVENING, WITH_BLADES, Deed, somebody
from spadework.usecases.demo.luck import Luck
from spadework.usecases.demo.room import sheet_of
from spadework.usecases.demo.script import Perennial
from spadework.usecases.demo.seen import Seen, first_above

WAKES = (3, 5)
"""The day from which its spring is counted."""


def perennial_year(row: Perennial, key: str, year: int, seen: Seen) -> list[Deed]:
    """One year of a planting that stands for years, as far as it was seen."""
    deeds: list[Deed] = []
    luck = Luck(year, row.id)
    sheet = sheet_of(row.crop, "")
    wakes = date(year, *WAKES)
    if not seen.has(wakes):
        return deeds

    def say(on: date | None, act: object, who: str = "", when: int = DAY) -> None:
        if on is not None and seen.has(on):
            who = who or somebody(luck, on, WITH_BLADES)
            deeds.append(Deed(on=on, act=act, who=who, bed=row.bed, planting=key, when=when))  # type: ignore[arg-type]

    course = seen.run(sheet, row.bed, wakes, planted=False, shelter_c=6.0)
    assert course.sprout is not None
    up = seen.day(int(course.sprout.median_day[0]))
    say(up, Stage(what="up"), when=EARLY)
    if row.crop == "rhubarb":
        forced = seen.working_day(date(year, 3, 6), 3, luck)
        say(forced, Moved(act="on", item="forcing pots", pieces=2), "maren")
        say(
            seen.working_day(date(year, 5, 2), 3, luck),
            Moved(act="off", item="forcing pots", pieces=2),
            "maren",
        )
    if up is None:
        return deeds
    ready = seen.day(first_above(course.way, 1.0, seen.column(up)))
    share = sheet.development.flower_share
    if share is not None:
        flower = seen.day(first_above(course.way, share.value, seen.column(up)))
        say(flower, Stage(what="first flower"), when=EARLY)
    for move, day in zip(("on", "off"), row.fleeced(year), strict=False):
        over = Moved(act=move, item="fleece", length_m=round(row.length_m, 2))  # type: ignore[arg-type]
        say(day, over, "odo", EVENING)
    if ready is not None:
        say(ready, Stage(what="ready", test=sheet.harvest.sign), when=EARLY)
        length_m = round(row.length_m, 2)
        if row.cover:
            say(ready, Moved(act="on", item=row.cover, length_m=length_m), "bram", EVENING)
        yield_kg_m = 0.0 if sheet.harvest.yield_kg_m is None else sheet.harvest.yield_kg_m.value
        crowding = min(1.0, row.row_cm / sheet.sowing.row_cm.value) ** 0.7
        total_kg = (
            yield_kg_m * row.rows * row.length_m * crowding * math.exp(luck.at("yield").gauss(-0.02, 0.15))
        )
        days = [ready + timedelta(days=each) for each in range(1, row.days, row.every)]
        weights = [
            math.sin(math.pi * (n + 0.7) / (len(days) + 0.4)) * luck.at("pick", n).uniform(0.75, 1.25)
            for n in range(len(days))
        ]
        for day, weight in zip(days, weights, strict=True):
            say(day, Picked(kg=round(total_kg * weight / sum(weights), 2), last=day == days[-1]))
        if row.cover:
            say(days[-1], Moved(act="off", item=row.cover, length_m=length_m), "bram", EVENING)
    cut = seen.working_day(date(year, 11, 14), 4, luck)
    if row.crop == "asparagus":
        say(cut, Tended(act="pruned"), "maren")
    say(
        None if cut is None else cut + timedelta(days=1), Tended(act="mulched", material="leaf mould"), "bram"
    )
    return deeds
