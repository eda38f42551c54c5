"""The life of one planting, from the seed shelf or the drill to the day its place is clear.

Nature's days come from the clock run on the made weather with the crop's own sheet; the growers come by on
plausible days and see them a little late.
"""

from __future__ import annotations

import math
from datetime import date, timedelta
from typing import Final, Literal

from spadework.clock.course import Course
from spadework.garden.entries import Counted, Moved, PlantedOut, PrickedOut, Sown, Stage, Tended
from spadework.science.emergence import emergence_days
from spadework.usecases.demo.deed import EARLY, EVENING, Deed, somebody
from spadework.usecases.demo.life import Life
from spadework.usecases.demo.luck import Luck
from spadework.usecases.demo.room import (
    area_m2,
    block_of,
    fit,
    hoops_for,
    seeds_of,
    sheet_of,
    spacing_of,
    tray_day,
)
from spadework.usecases.demo.script import Row
from spadework.usecases.demo.seen import FLEECE_NIGHT_C, ONE_DAY, Seen, first_above
from spadework.usecases.demo.tend import tend

SHELF_C: Final = 19.0
"""The seed shelf indoors [degC]. Invented."""
_SLOW_ON_SHELF: Final = 5.5
"""Crops on the shelf for so many weeks are moved on into pots. Class: common-practice."""


def grow(row: Row, year: int, key: str, seen: Seen, lot: str) -> Life:
    """What became of a planting begun in a calendar year, as far as it was seen, up to its harvest."""
    sheet = sheet_of(row.crop, row.variety)
    life = Life(row, key, row.bed_in(year), sheet, row.last_day(year), lot)
    luck = Luck(year, row.id)
    if row.raised:
        _raise(life, year, seen, luck, lot)
    else:
        _sow(life, year, seen, luck, lot)
    if life.in_place is None:
        return life
    shelter_c = max(row.shelter_c, FLEECE_NIGHT_C if life.tender else 0.0)
    course = seen.run(sheet, life.bed, life.in_place, planted=row.raised, shelter_c=shelter_c)
    life.course = course
    _nature(life, course, seen.column(life.in_place), seen, luck)
    tend(life, course, life.in_place, seen, luck)
    return life


# -- into the ground -------------------------------------------------------------------------------------


def _start(life: Life, year: int, seen: Seen, luck: Luck) -> date | None:
    """The first plausible day that is warm enough; after three weeks they go by the calendar."""
    row = life.row
    first = row.first_day(year)
    for day in seen.days(first, first + timedelta(days=21)):
        if (day - first).days == 21 or seen.warm_enough(life.bed, day, row.soil_c, row.nights_c):
            return seen.working_day(day, 4, luck)
    return None


def _sow(life: Life, year: int, seen: Seen, luck: Luck, lot: str) -> None:
    row, sheet = life.row, life.sheet
    day = _start(life, year, seen, luck)
    if day is None:
        return
    spacing_cm = spacing_of(row)
    room = fit(row, spacing_cm)
    seeds = seeds_of(row)
    life.started = life.in_place = day
    life.plants = room
    who = somebody(luck, day, tmax_c=seen.tmax_c(day))
    life.deeds.append(
        Deed(
            on=day,
            who=who,
            bed=life.bed,
            planting=life.key,
            act=Sown(
                planting=life.key,
                crop=sheet.key,
                variety=row.variety,
                method=row.method,
                rows=row.rows,
                row_cm=row.row_cm,
                row_length_m=round(row.length_m, 2),
                spacing_cm=spacing_cm,
                area_m2=area_m2(row),
                block=block_of(row),
                seeds=seeds,
                depth_mm=sheet.sowing.depth_mm.value,
                lot=lot,
            ),
        )
    )
    if row.cover:
        _cover(life, seen, day, luck)


def _raise(life: Life, year: int, seen: Seen, luck: Luck, lot: str) -> None:
    row, sheet = life.row, life.sheet
    sown = seen.working_day(tray_day(row, year), 3, luck)
    spacing_cm = spacing_of(row)
    room = fit(row, spacing_cm)
    if sown is None:
        return
    seeds = seeds_of(row)
    life.started = sown
    who = somebody(luck, sown)
    sowing = Sown(
        planting=life.key, crop=sheet.key, variety=row.variety, method="raised", seeds=seeds, lot=lot,
        depth_mm=min(sheet.sowing.depth_mm.value, 15.0), tray="cell trays",
    )  # fmt: skip
    life.deeds.append(Deed(on=sown, who=who, bed="shelf", planting=life.key, act=sowing))
    usual_days = float(emergence_days(SHELF_C, sheet.emergence.law()))
    up = sown + timedelta(days=math.ceil(usual_days * luck.at("up on the shelf").uniform(0.9, 1.2)))
    good = min(0.97, sheet.sowing.lot_germination_pct.value / 100) * luck.at("came").uniform(0.85, 1.0)
    came = max(room, round(seeds * good))
    life.say(seen, up, Stage(what="up"), somebody(luck, up), bed="shelf", when=EARLY)
    life.say(seen, up + timedelta(days=4), Counted(standing=came), somebody(luck, up), bed="shelf")
    out = _start(life, year, seen, luck)
    last = min(seen.last, seen.last if out is None else out - ONE_DAY)
    plants = min(came, room + max(1, room // 5))
    weeks = sheet.sowing.weeks_to_set_out
    if weeks is not None and weeks.value >= _SLOW_ON_SHELF:
        moved = seen.working_day(up + timedelta(days=18), 3, luck)
        if moved is not None and moved <= last:
            into = PrickedOut(plants=plants, into="9 cm pots")
            life.say(seen, moved, into, somebody(luck, moved), bed="shelf")
        else:
            plants = came
    else:
        plants = came
    hard = seen.working_day(row.first_day(year) - timedelta(days=9), 2, luck)
    if hard is not None and hard <= last:
        life.say(seen, hard, Tended(act="hardened off"), somebody(luck, hard), bed="shelf")
    if out is None:
        return
    life.in_place = life.up = out
    life.plants = min(room, plants)
    act = PlantedOut(
        planting=life.key,
        crop=sheet.key,
        variety=row.variety,
        plants=life.plants,
        rows=row.rows,
        row_cm=row.row_cm,
        spacing_cm=spacing_cm,
        row_length_m=round(row.length_m, 2),
        area_m2=area_m2(row),
        block=block_of(row),
    )
    life.say(seen, out, act, somebody(luck, out, tmax_c=seen.tmax_c(out)))
    if row.cover:
        _cover(life, seen, out, luck)


def _cover(life: Life, seen: Seen, day: date, luck: Luck) -> None:
    """The cover goes on with the crop; one against the winter goes on before it and comes off in spring."""
    if life.row.cover == "winter fleece" and day.month > 6:
        moves: tuple[tuple[int, int, Literal["on", "off"]], ...] = ((10, 28, "on"), (3, 25, "off"))
        for month, of_month, move in moves:
            on = seen.working_day(date(day.year + (month < day.month), month, of_month), 3, luck)
            if on is not None:
                moved = Moved(act=move, item=life.row.cover, length_m=round(life.row.length_m, 2))
                life.say(seen, on, moved, somebody(luck, on), when=EVENING)
        return
    who = somebody(luck, day)
    if hoops_for(life.row):
        life.say(seen, day, Moved(act="on", item="hoops", pieces=hoops_for(life.row)), who, when=EVENING)
    over = Moved(act="on", item=life.row.cover, length_m=round(life.row.length_m, 2))
    life.say(seen, day, over, who, when=EVENING)


# -- what nature did -------------------------------------------------------------------------------------


def _nature(life: Life, course: Course, since: int, seen: Seen, luck: Luck) -> None:
    """Up, flowering, ready, killed or run to seed, by the clock; seen by whoever came by next."""
    row, end = life.row, life.must_end
    if course.sprout is not None:
        life.up = seen.day(int(course.sprout.median_day[0]))
        if row.fails:
            life.up = None
            return
        if life.up is None or life.up >= end:
            return
        day = _came_by(seen, life.up, luck)
        life.say(seen, day, Stage(what="up"), somebody(luck, life.up), when=EARLY)
        life.up = day or life.up
    pace = math.exp(luck.at("pace").gauss(0.0, course.sheet.development.cv.value * 0.35))
    life.ready = seen.day(first_above(course.way, pace, since))
    life.killed = seen.day(first_above(course.lost_frost, 0.5, since))
    life.bolted = seen.day(first_above(course.bolted, 0.5, since))
    share = course.sheet.development.flower_share
    if share is not None and course.sheet.kind in ("fruit", "pod", "grain", "flower"):
        flower = seen.day(first_above(course.way, share.value * pace, since))
        day = None if flower is None else _came_by(seen, flower, luck)
        if (
            day is not None
            and flower is not None
            and seen.column(day) > since
            and day < end
            and not life.dead(day)
        ):
            life.say(seen, day, Stage(what="first flower"), somebody(luck, flower), when=EARLY)


def _came_by(seen: Seen, day: date, luck: Luck) -> date | None:
    """The day it was noticed: that day or one or two later."""
    found = day + timedelta(days=luck.at("came by", day).choice((0, 0, 1, 1, 2)))
    return found if seen.has(found) else None
