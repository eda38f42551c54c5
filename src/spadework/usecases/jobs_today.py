"""All jobs worth doing today, and one of them opened up: why, what waiting costs, what it rests on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final
from weakref import WeakKeyDictionary, WeakSet

import msgspec

from spadework.advice.job import AHEAD_DAYS, SHOWN_DAYS, Job, Kind, Take, Window
from spadework.advice.odds import Caution, Fact
from spadework.advice.scene import Scene
from spadework.errors import UnknownName
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry
from spadework.garden.fold import fold
from spadework.garden.lookup import key_of, nearest
from spadework.garden.state import Garden
from spadework.usecases.crop_words import crop_word
from spadework.usecases.keep_book import State, open_state
from spadework.usecases.keep_predictions import from_standing, keep_shown
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.setting import Setting, open_setting

NOTHING_KG: Final = 0.001

_KEPT: WeakSet[Scene] = WeakSet()
_FOUND: WeakKeyDictionary[Scene, tuple[Job, ...]] = WeakKeyDictionary()


class JobView(msgspec.Struct, frozen=True, kw_only=True):
    """A job as it is shown.

    Parameters
    ----------
    subject : str
        What it is about, in words: "carrots in Bed 3".
    forfeit : dict of str to float
        Share of the planting's worth expected to be lost by waiting so many days.
    worth_kg : float
        Of what it serves, as kilograms of carrots.
    at_hour : float or None
        Clock hour it is begun on a round.
    """

    id: str
    kind: Kind
    subject: str
    act: str
    bed: str
    planting: str
    crop: str
    minutes: float
    window: Window
    forfeit: dict[str, float]
    worth_kg: float
    reason: str
    facts: tuple[Fact, ...]
    cautions: tuple[Caution, ...]
    take: tuple[Take, ...]
    test: str
    strains: tuple[str, ...]
    needs: tuple[str, ...]
    at_hour: float | None = None


class JobsAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """All jobs of a day."""

    question: str
    today: date
    jobs: list[JobView]
    locks: list[LockLine]
    damage: str
    note: str


@dataclass(frozen=True, kw_only=True, eq=False)
class Day:
    """The garden opened for the jobs of a day."""

    setting: Setting
    state: State
    scene: Scene
    jobs: tuple[Job, ...]

    @property
    def garden(self) -> Garden:
        """As of today."""
        return self.scene.garden


def open_day(garden: Path, today: date) -> Day:
    """Open a garden, run what stands through the years, and find the jobs.

    Raises
    ------
    GardenError, RecordError, StoreError
    """
    from spadework.usecases.scene import build_scene

    setting = open_setting(garden, today)
    state = open_state(setting.folder, day=today)
    scene = build_scene(setting, state.garden)
    return Day(setting=setting, state=state, scene=scene, jobs=find_jobs(scene))


def find_jobs(scene: Scene) -> tuple[Job, ...]:
    """Every job of every kind that is not settled for today, most urgent first."""
    found = _FOUND.get(scene)
    if found is None:
        from spadework.advice.jobs import ALL
        from spadework.advice.one_state import one_state

        settled = settled_on(scene.garden, scene.today)
        asked = (job for finder in ALL for job in finder(scene) if job.id not in settled)
        jobs = [job for job in one_state(scene, asked) if worth_showing(job)]
        jobs.sort(key=lambda job: (-job.saves(7), job.id))
        found = _FOUND[scene] = tuple(jobs)
    return found


def keep_what_is_shown(day: Day) -> None:
    """Keep what the jobs foretell of everything that stands, once for a scene."""
    if day.scene not in _KEPT:
        _KEPT.add(day.scene)
        keep_shown(day.setting, from_standing(day.scene))


def worth_showing(job: Job) -> bool:
    """Whether anything is at stake: three weeks of waiting cost more than a gram of carrots, in crop or time.

    A count is shown whatever it costs: it is what settles how many stand.
    """
    return job.kind == "count" or job.saves(AHEAD_DAYS) >= NOTHING_KG


def settled_on(garden: Garden, day: date) -> Mapping[str, Entry]:
    """The jobs somebody did or put off on a day, by id, each with the entry that says so."""
    return {
        entry.act.job: entry
        for entry in garden.entries
        if entry.happened_on == day and isinstance(entry.act, (kinds.Skipped, kinds.Minutes))
    }


def job_before(day: Day, name: str) -> Job | None:
    """A job somebody did or put off that day, as it was before; None where there was none of that id."""
    from spadework.usecases.scene import build_scene

    said = settled_on(day.garden, day.scene.today).get(name)
    if said is None:
        return None
    breath = (said.author, said.recorded_at)
    left = [entry for entry in day.state.entries if (entry.author, entry.recorded_at) != breath]
    garden = fold(left, day=day.scene.today, picked_whole=day.garden.picked_whole)
    return next((job for job in find_jobs(build_scene(day.setting, garden)) if job.id == name), None)


def jobs_today(garden: Path, today: date, *, bed: str = "", kind: str = "", crop: str = "") -> JobsAnswer:
    """All jobs worth doing, most at stake first.

    Parameters
    ----------
    garden : Path
    today : date
    bed, kind, crop : str
        Only those; empty for all.

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    day = open_day(garden, today)
    keep_what_is_shown(day)
    jobs = list(day.jobs)
    if bed:
        key = key_of(bed, {k: b.name for k, b in day.garden.beds.items()}, "bed")
        jobs = [job for job in jobs if job.bed == key]
    if crop:
        from spadework.crops.names import find

        wanted = find(crop)
        jobs = [job for job in jobs if job.crop == wanted]
    if kind:
        from spadework.advice.job import KINDS

        wanted_kind = key_of(kind, {name: name for name in KINDS}, "kind of job")
        jobs = [job for job in jobs if job.kind == wanted_kind]
    return JobsAnswer(
        question="jobs",
        today=today,
        jobs=[view(job, day.scene) for job in jobs],
        locks=lock_lines(day.garden, today, words=day.scene.site.words),
        damage=day.state.damage,
        note=day.scene.ground.years.note,
    )


def job_by_id(day: Day, name: str) -> Job:
    """A job by its id, or by a beginning or part of it that only one has.

    Raises
    ------
    UnknownName
    """
    asked = name.strip().casefold()
    exact = [job for job in day.jobs if job.id.casefold() == asked]
    found = exact or [job for job in day.jobs if asked and asked in job.id.casefold()]
    if len(found) == 1:
        return found[0]
    ids = [job.id for job in (found or day.jobs)]
    if found:
        raise UnknownName(f"{name!r} could be several jobs.", f"Say which: {', '.join(ids[:6])}.")
    near = nearest(name, ids)
    hint = f"Nearest: {', '.join(near)}." if near else "See them with: spadework jobs"
    raise UnknownName(f"No job today is called {name!r}.", hint)


def subject_of(job: Job, scene: Scene) -> str:
    """What a job is about, in words."""
    bed = scene.beds.get(job.bed)
    place = "" if bed is None else bed.name
    crop = scene.name_of(job.crop) if job.crop else ""
    return f"{crop} in {place}" if crop and place else crop or place or "the garden"


def _by_name(take: Take, scene: Scene) -> Take:
    """A packet by its crop and year in place of its key."""
    lot = scene.garden.tin.get(take.what)
    if lot is None or not lot.crop:
        return take
    name = f"{lot.variety} {crop_word(lot.crop, scene.site.words)}".strip()
    return msgspec.structs.replace(take, what=f"{name} seed{f' of {lot.year}' if lot.year else ''}")


def view(job: Job, scene: Scene, *, at_hour: float | None = None) -> JobView:
    """A job as it is shown."""
    return JobView(
        id=job.id,
        kind=job.kind,
        subject=subject_of(job, scene),
        act=job.act,
        bed=job.bed,
        planting=job.planting,
        crop=job.crop,
        minutes=round(job.minutes, 1),
        window=job.window,
        forfeit={str(days): round(job.forfeit(days), 4) for days in SHOWN_DAYS},
        worth_kg=round(job.worth, 2),
        reason=job.reason,
        facts=job.facts,
        cautions=job.cautions,
        take=tuple(_by_name(each, scene) for each in job.take),
        test=job.test,
        strains=job.strains,
        needs=job.needs,
        at_hour=at_hour,
    )
