"""What is done to a planting while it grows: counted, thinned, measured, earthed up, tied."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final, Literal, TypeAlias

from spadework.clock.course import Course
from spadework.clock.sprout import Sprout
from spadework.garden.entries import Counted, Ended, Measured, Tended, Thinned
from spadework.garden.entries import Seen as Noticed
from spadework.usecases.demo.deed import EVENING, MORNING, NOT_HEAVY, WITH_BLADES, somebody
from spadework.usecases.demo.life import Life
from spadework.usecases.demo.luck import Luck
from spadework.usecases.demo.room import fit, seeds_of
from spadework.usecases.demo.seen import ONE_DAY, Seen, first_above

Job: TypeAlias = Literal["earthed up", "supported", "mulched", "pruned"]

HARD_RAIN_MM: Final = 8.0
"""A day's rain that seals a bare seedbed. Class: common-practice."""


def tend(life: Life, course: Course, start: date, seen: Seen, luck: Luck) -> None:
    """Mulched, counted, thinned, measured, earthed up, tied: at the stage that asks for it."""
    row = life.row
    if row.mulch:
        _tended(life, seen, start + timedelta(days=21), "mulched", luck, material=row.mulch)
    if row.fails:
        _failed(life, start, seen)
    if life.up is None:
        return
    since = seen.column(start)
    if course.sprout is not None and row.take != "flowers" and row.rows * row.length_m > 1.5 and not row.next:
        _count(life, course.sprout, life.up, seen, luck)
    if row.thin_cm is not None:
        _thin(life, course, row.thin_cm, since, seen, luck)
    for share, count in ((0.3, 0), (0.65, 1)):
        day = seen.day(first_above(course.way, share, since))
        day = None if day is None else seen.working_day(day, 4, luck)
        if (
            day is not None
            and day < life.must_end
            and not life.dead(day)
            and luck.at("measured", count).random() < 0.4
        ):
            at = seen.column(day)
            height_cm = round(float(course.height_cm[0, at]) * luck.at("height", count).uniform(0.85, 1.12))
            leaves = None if count else float(round(float(course.leaves[0, at])))
            if height_cm >= 2:
                life.say(seen, day, Measured(height_cm=float(height_cm), leaves=leaves), somebody(luck, day))
    for number, act in enumerate(row.jobs):
        share = (0.2, 0.42, 0.6)[number] if act != "pruned" else (0.45, 0.55, 0.8)[number]
        if act == "supported":
            share = 0.12
        day = seen.day(first_above(course.way, share, since))
        if day is not None and day < life.must_end and not life.dead(day):
            depth_cm = (12.0, 10.0)[number % 2] if act == "earthed up" else None
            people = WITH_BLADES if act == "pruned" else NOT_HEAVY
            _tended(life, seen, day, act, luck, depth_cm=depth_cm, people=people)


def _count(life: Life, sprout: Sprout, up: date, seen: Seen, luck: Luck) -> None:
    row = life.row
    day = seen.working_day(up + timedelta(days=8), 3, luck)
    if day is None or day >= life.must_end or luck.at("counted").random() < 0.25:
        return
    share = float(sprout.share_up[0, seen.column(day)])
    seeds = seeds_of(row)
    per_m = seeds * share / (row.rows * row.length_m) * luck.at("stretch").uniform(0.85, 1.1)
    stretch_m = 1.0 if row.length_m >= 1.0 else row.length_m
    act = Counted(standing=max(1, round(per_m * stretch_m)), of_row_m=stretch_m)
    if not row.thin_cm:
        life.plants = max(1, min(life.plants, round(seeds * float(sprout.able[0]))))
    life.say(seen, day, act, somebody(luck, day))


def _thin(life: Life, course: Course, spacing_cm: float, since: int, seen: Seen, luck: Luck) -> None:
    day = seen.day(first_above(course.leaves, 2.5, since))
    day = None if day is None else seen.working_day(day + timedelta(days=2), 4, luck)
    if day is not None and day < life.must_end:
        life.say(seen, day, Thinned(spacing_cm=spacing_cm), somebody(luck, day, tmax_c=seen.tmax_c(day)))
        life.plants = fit(life.row, spacing_cm)


def _failed(life: Life, start: date, seen: Seen) -> None:
    """A row that a hard rain sealed before it was up, or that dried out."""
    last = life.must_end
    first_days = list(seen.days(start + ONE_DAY, start + timedelta(days=12)))
    wettest = max(first_days, key=seen.rain_mm, default=None)
    looked = last - 3 * ONE_DAY
    if wettest is None or not seen.has(looked):
        return
    rain = f"{seen.rain_mm(wettest):.0f} mm of rain on {wettest.day} {wettest:%b}"
    sealed = seen.rain_mm(wettest) >= HARD_RAIN_MM
    why = f"crusted over after {rain}" if sealed else "dried out before it was up"
    found = "soil crusted over the drills" if sealed else "dry soil down to the seed"
    life.say(seen, looked, Noticed(what=found, parts=("seedlings",)), "odo", when=MORNING)
    life.say(seen, looked, Counted(standing=3, of_row_m=1.0), "odo")
    life.ended = last - ONE_DAY
    life.say(seen, life.ended, Ended(how="lost", why=f"{why}; sown again"), "maren", when=EVENING)


def _tended(
    life: Life,
    seen: Seen,
    first: date,
    act: Job,
    luck: Luck,
    *,
    depth_cm: float | None = None,
    material: str = "",
    people: tuple[str, ...] = NOT_HEAVY,
) -> None:
    day = seen.working_day(first, 3, luck)
    if day is not None and day < life.must_end and not life.dead(day):
        done = Tended(act=act, depth_cm=depth_cm, material=material)
        life.say(seen, day, done, somebody(luck, day, people, tmax_c=seen.tmax_c(day)))
