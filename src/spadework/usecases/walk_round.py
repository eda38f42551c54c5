"""The round: which jobs, in which order along the paths, within the minutes given."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Final

import numpy as np

from spadework.advice.bodies import bodies_said, is_heavy, may_do
from spadework.advice.conditions import FOR_RAIN, Conditions, conditions_of, hours_for, under_roof
from spadework.advice.job import AHEAD_DAYS, MINUTE_KG, Job
from spadework.advice.pace_log import craft_of
from spadework.errors import ParameterError
from spadework.garden.lookup import key_of
from spadework.garden.phrases import day_text
from spadework.garden.records import Chore, Person
from spadework.garden.state import Garden
from spadework.garden.told import SkyHours
from spadework.round.choose import Task, Walk, choose
from spadework.usecases.jobs_today import Day, keep_what_is_shown, open_day, view
from spadework.usecases.lock_lines import lock_lines
from spadework.usecases.own_chores import chore_id, chore_left, chore_view
from spadework.usecases.round_answer import HourView, LeftOut, RoundAnswer, StopView
from spadework.usecases.round_places import WalkPlan, places_of

LONGEST_TURN_DAYS: Final = 7
"""A job put off comes up again within a week at the latest. Our own rule."""

WORTH_GOING_KG: Final = 0.005
"""A job that saves less than this, in kilograms of carrots, is no reason to go out. Our own rule."""

SPARE_SHARES: Final = ((LONGEST_TURN_DAYS, 0.05), (AHEAD_DAYS, 0.01))
"""Days ahead, and the weight of what is lost until then beside what is lost by the next turn: small, so that
it only fills minutes that would be left over. Our own rule, tried in simulated seasons (docs/accuracy.md)."""

MOST_MINUTES: Final = 720.0

EVERYWHERE: Final = "The whole garden"
"""Name of the stop that is no single bed, as for the daily look."""


def walk_round(
    garden: Path,
    today: date,
    *,
    minutes: float = 60.0,
    at_hour: float | None = None,
    until_hour: float | None = None,
    people: Sequence[str] = (),
) -> RoundAnswer:
    """The round for today.

    Parameters
    ----------
    garden : Path
    today : date
    minutes : float  [min]
        For each person.
    at_hour, until_hour : float or None  [h]
        By the clock; without them a job that needs certain hours is only told which.
    people : sequence of str
        Names or keys; empty for one person nothing is known of.

    Raises
    ------
    ParameterError, UnknownName, GardenError, RecordError, StoreError
    """
    day = open_day(garden, today)
    keep_what_is_shown(day)
    return round_of(
        day, minutes=minutes, at_hour=at_hour, until_hour=until_hour, people=with_people(day.garden, people)
    )


def round_of(
    day: Day,
    *,
    minutes: float = 60.0,
    at_hour: float | None = None,
    until_hour: float | None = None,
    people: Sequence[Person] = (),
) -> RoundAnswer:
    """The round of a day that is open already; arguments as for `walk_round`.

    Raises
    ------
    ParameterError
    """
    _check(minutes, at_hour, until_hour)
    if at_hour is not None and until_hour is not None:
        minutes = min(minutes, (until_hour - at_hour) * 60.0)
    sky = [entry.fact for entry in day.setting.told if isinstance(entry.fact, SkyHours)]
    conditions = conditions_of(day.scene, sky)
    jobs = [_under_roof(job, day.garden) for job in _at_own_pace(day, people)]
    turn_days = _turn_days(jobs, minutes * max(len(people), 1))
    open_jobs, left = [], []
    for job in jobs:
        why = _not_now(job, day, people, conditions, at_hour, minutes)
        if why:
            left.append((job, why))
        else:
            open_jobs.append(job)
    chores = _due(day.garden, day.scene.today, people)
    by_chore = {chore_id(chore): chore for chore in chores}
    plan = places_of(day.garden, [*(job.bed for job in open_jobs), *(chore.bed for chore in chores)])
    tasks = [_task(job, plan, turn_days, people, conditions, at_hour, minutes, day) for job in open_jobs]
    tasks += [_chore_task(chore, plan, people) for chore in chores]
    found = choose(tasks, plan.minutes, [minutes] * max(len(people), 1), start=plan.start)
    by_id = {job.id: job for job in open_jobs}
    stops = [
        stop
        for who, walk in enumerate(found)
        for stop in _stops(
            walk, people[who] if people else None, len(people), by_id, by_chore, plan, day, at_hour
        )
    ]
    chosen = {name for walk in found for stop in walk.stops for name in stop.tasks}
    settled = {by_id[name].settles for name in chosen if name in by_id} - {""}
    for job in open_jobs:
        if job.id not in chosen:
            other = job.settles in settled
            left.append((job, "another way is chosen" if other else "the minutes are worth more elsewhere"))
    left.sort(key=lambda each: (-value_of(each[0], turn_days), each[0].id))
    return RoundAnswer(
        question="round",
        today=day.scene.today,
        minutes=minutes,
        at=_clock(at_hour),
        until=_clock(until_hour),
        people=[person.name for person in people],
        stops=stops,
        left_out=[
            LeftOut(
                id=job.id,
                act=job.act,
                minutes=round(job.minutes, 1),
                why=why,
                forfeit_7=round(job.forfeit(7), 4),
            )
            for job, why in left
        ]
        + [
            chore_left(chore, "the minutes are worth more elsewhere")
            for name, chore in by_chore.items()
            if name not in chosen
        ],
        minutes_used=round(sum(walk.minutes for walk in found), 1),
        minutes_walking=round(sum(walk.walking for walk in found), 1),
        turn_days=turn_days,
        conditions=[*conditions.said, *bodies_said(people, conditions)],
        clock=day.scene.site.zone or "standard time by longitude",
        hours=[
            HourView(
                hour=hour,
                temp_c=round(float(conditions.temp_c[hour]), 1),
                light=bool(conditions.suits["daylight"][hour]),
                dry_leaves=bool(conditions.suits["dry leaves"][hour]),
                heat_index_c=round(float(conditions.heat_index_c[hour]), 1),
                uv=round(float(conditions.uv[hour]), 1),
                shut=bool(conditions.shut[hour]),
            )
            for hour in range(24)
        ],
        locks=lock_lines(day.garden, day.scene.today, words=day.scene.site.words),
        damage=day.state.damage,
        note=day.scene.ground.years.note,
    )


def _at_own_pace(day: Day, people: Sequence[Person]) -> Sequence[Job]:
    """The jobs with the minutes they take one person who goes alone; the garden's own pace for several."""
    if len(people) != 1:
        return day.jobs
    return [_at_pace_of(job, day, people[0].key) for job in day.jobs]


def _at_pace_of(job: Job, day: Day, person: str) -> Job:
    """A job with the minutes it takes one person, where they logged such work; else as it is."""
    beside = day.scene.pace.beside(person, craft_of(job.done))
    if beside == 1.0:
        return job
    by_day = None if job.minutes_by_day is None else job.minutes_by_day * beside
    return replace(job, minutes=job.minutes * beside, minutes_by_day=by_day)


def _under_roof(job: Job, garden: Garden) -> Job:
    """The job without the conditions that only rain decides, where none falls."""
    if not set(job.needs) & set(FOR_RAIN) or not under_roof(garden, garden.beds.get(job.bed)):
        return job
    return replace(job, needs=tuple(need for need in job.needs if need not in FOR_RAIN))


def value_of(job: Job, turn_days: int) -> float:
    """What doing a job today saves, in kilograms of carrots, against doing it when its turn comes again."""
    return job.saves(turn_days)


def _turn_days(jobs: Sequence[Job], minutes: float) -> int:
    """Days until a job put off today comes up again, were every day to give as many minutes.

    Notes
    -----
    All that is open and worth going out for, over the minutes of a day: with an hour a day and four hours
    open, what is put off waits four days.
    """
    if minutes <= 0.0:
        return LONGEST_TURN_DAYS
    waiting = sum(job.minutes for job in jobs if value_of(job, LONGEST_TURN_DAYS) >= WORTH_GOING_KG)
    return int(np.clip(np.ceil(waiting / minutes), 1, LONGEST_TURN_DAYS))


def _not_now(
    job: Job,
    day: Day,
    people: Sequence[Person],
    conditions: Conditions,
    at_hour: float | None,
    minutes: float,
) -> str:
    today = day.scene.today
    if job.window.opens > today:
        return f"it opens on {day_text(job.window.opens)}"
    if job.window.closes < today:
        return "it is too late to save much"
    # not by the next turn: what loses a little every day would be put off for ever
    if all(value_of(job, days) < WORTH_GOING_KG for days, _ in SPARE_SHARES):
        return "it can wait: little is lost by it"
    roofed = _roofed(job, day.garden)
    if people and not any(
        may_do(person, job, conditions, at_hour=at_hour, minutes=minutes, indoors=roofed) for person in people
    ):
        return f"it is not for {' or '.join(person.name for person in people)}"
    if not _hours(job, conditions, 0.0, 24.0 * 60.0, roofed):
        return f"no hour of today suits it ({_wanted(job, conditions, 0.0, 24.0 * 60.0)})"
    if at_hour is not None and not _hours(job, conditions, at_hour, minutes, roofed):
        return f"these hours are wrong for it ({_wanted(job, conditions, at_hour, minutes)})"
    return ""


def _wanted(job: Job, conditions: Conditions, at_hour: float, minutes: float) -> str:
    """What the hours lack for a job: what it needs itself, or that nobody should be out."""
    if _hours(job, conditions, at_hour, minutes, True):
        return "nobody should be outside then: thunder, smoke or heat"
    return ", ".join(need for need in job.needs if need != "daylight") or "it needs daylight"


def _roofed(job: Job, garden: Garden) -> bool:
    """Whether it is done indoors: at a seed shelf or tray. A tunnel is no shelter from thunder or heat."""
    bed = garden.beds.get(job.bed)
    return bed is not None and bed.shape == "shelf"


def _hours(
    job: Job, conditions: Conditions, at_hour: float, minutes: float, roofed: bool
) -> tuple[tuple[float, float], ...]:
    """Stretches of the walk, in minutes from its start, that suit a job and are long enough for it."""
    first = at_hour if job.from_hour is None else max(at_hour, job.from_hour)
    last = at_hour + minutes / 60.0
    last = last if job.until_hour is None else min(last, job.until_hour)
    found = []
    for begin, end in hours_for(conditions, job.needs, heavy=is_heavy(job), indoors=roofed):
        low, high = (max(begin, first) - at_hour) * 60.0, (min(end, last) - at_hour) * 60.0
        if high - low >= job.minutes:
            found.append((low, high))
    return tuple(found)


def _task(
    job: Job,
    plan: WalkPlan,
    turn_days: int,
    people: Sequence[Person],
    conditions: Conditions,
    at_hour: float | None,
    minutes: float,
    day: Day,
) -> Task:
    roofed = _roofed(job, day.garden)
    hours = () if at_hour is None else _hours(job, conditions, at_hour, MOST_MINUTES, roofed)
    return Task(
        id=job.id,
        place=plan.keys.index(job.bed),
        minutes=job.minutes,
        value=value_of(job, turn_days) + sum(share * value_of(job, days) for days, share in SPARE_SHARES),
        hours=hours,
        # of one who goes alone the jobs have them already
        own_minutes=tuple(_at_pace_of(job, day, person.key).minutes for person in people)
        if len(people) > 1
        else (),
        settles=job.settles,
        people=tuple(
            who
            for who, person in enumerate(people)
            if may_do(person, job, conditions, at_hour=at_hour, minutes=minutes, indoors=roofed)
        )
        if people
        else None,
    )


def _chore_task(chore: Chore, plan: WalkPlan, people: Sequence[Person]) -> Task:
    own = tuple(who for who, person in enumerate(people) if chore.person in ("", person.key))
    return Task(
        id=chore_id(chore),
        place=plan.keys.index(chore.bed),
        minutes=chore.minutes,
        value=MINUTE_KG * chore.minutes,
        people=own if people else None,
    )


def _due(garden: Garden, today: date, people: Sequence[Person]) -> list[Chore]:
    """Chores whose day has come, of the people who go."""
    keys = {person.key for person in people}
    return [
        chore
        for chore in garden.chores.values()
        if chore.due(today) and (not people or chore.person in ("", *keys))
    ]


def _stops(
    walk: Walk,
    who: Person | None,
    going: int,
    jobs: dict[str, Job],
    chores: dict[str, Chore],
    plan: WalkPlan,
    day: Day,
    at_hour: float | None,
) -> list[StopView]:
    found = []
    for stop in walk.stops:
        bed = plan.keys[stop.place]
        here = day.garden.beds.get(bed)
        begins = dict(zip(stop.tasks, stop.begins, strict=True))
        mine = [jobs[name] for name in stop.tasks if name in jobs]
        if who is not None and going > 1:
            mine = [_at_pace_of(job, day, who.key) for job in mine]
        own = [chores[name] for name in stop.tasks if name in chores]
        found.append(
            StopView(
                bed=bed,
                name=EVERYWHERE if here is None else here.name,
                who="" if who is None else who.name,
                jobs=[
                    view(
                        job,
                        day.scene,
                        at_hour=None if at_hour is None else round(at_hour + begins[job.id] / 60.0, 2),
                    )
                    for job in mine
                ],
                chores=[chore_view(chore, day.garden) for chore in own],
                minutes=round(
                    sum(job.minutes for job in mine) + sum(chore.minutes for chore in own),
                    1,
                ),
                locks=lock_lines(day.garden, day.scene.today, bed=bed, words=day.scene.site.words)
                if bed
                else [],
            )
        )
    return found


def with_people(garden: Garden, names: Sequence[str]) -> list[Person]:
    """The people who go, by names or keys.

    Raises
    ------
    UnknownName
    """
    known = {key: person.name for key, person in garden.people.items()}
    return [garden.people[key_of(name, known, "person")] for name in names]


def _check(minutes: float, at_hour: float | None, until_hour: float | None) -> None:
    if not 0.0 < minutes <= MOST_MINUTES:
        raise ParameterError(
            f"{minutes:g} minutes is not a round.", f"Give more than 0 and at most {MOST_MINUTES:.0f}."
        )
    if until_hour is not None and at_hour is None:
        raise ParameterError("--until is given without --at.", "Give both: --at 17:30 --until 18:30.")
    if at_hour is not None and until_hour is not None and until_hour <= at_hour:
        raise ParameterError(
            f"--until {_clock(until_hour)} is not after --at {_clock(at_hour)}.", "Give a later hour."
        )


def _clock(hour: float | None) -> str:
    return "" if hour is None else f"{int(hour):02d}:{round((hour % 1.0) * 60.0):02d}"
