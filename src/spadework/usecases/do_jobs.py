"""A job done, or put off: what it writes into the book, once, whoever says it and how often."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any, Final

import msgspec

from spadework.advice.job import Job
from spadework.errors import ParameterError
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.garden.records import Chore
from spadework.garden.site import Words
from spadework.usecases.entry_words import sentence
from spadework.usecases.jobs_today import Day, job_before, job_by_id, open_day, settled_on
from spadework.usecases.keep_book import (
    Act,
    Asked,
    Written,
    asked_of,
    author_key,
    new_planting_key,
    open_state,
    write_acts,
)
from spadework.usecases.lock_lines import LockLine, shown_locks
from spadework.usecases.own_chores import chore_called, chore_id

MUST_SAY: Final[Mapping[type, tuple[str, ...]]] = {
    kinds.Counted: ("standing",),
    kinds.Picked: ("kg", "pieces"),
    kinds.Lifted: ("kg", "pieces"),
}
"""What only the person who did it can know: one of these has to be said."""


class JobDone(msgspec.Struct, frozen=True, kw_only=True):
    """What was written."""

    job: str
    act: str
    written: list[str]
    said: list[str]
    questions: list[Asked]
    stored: bool
    locks: list[LockLine]


@dataclass(frozen=True, slots=True, kw_only=True)
class Doing:
    """Who says that a job is done or put off, of which day.

    Parameters
    ----------
    by : str
        Name; empty for the usual one.
    on : date or None
        The day it was done; None for today. One said without reception arrives later.
    key : str
        Key of the first entry, where whoever says it made it: what comes twice with one key is written once.
    act : str
        What the job was called where it was shown, for one the day no longer has.
    insist : bool
        Write although something is asked.
    """

    by: str = ""
    on: date | None = None
    key: str = ""
    act: str = ""
    insist: bool = False


def do_job(
    garden: Path,
    today: date,
    name: str,
    numbers: Mapping[str, float],
    *,
    minutes: float | None = None,
    how: Doing | None = None,
) -> JobDone:
    """Write a job, or somebody's own chore, as done.

    Parameters
    ----------
    garden : Path
    today : date
    name : str
        Its id, or enough of it; of a chore its name.
    numbers : mapping of str to float
        What was really done, by the entries' own names: standing, removed, left, kg, pieces, litres.
    minutes : float or None  [min]
        Time taken; from it the garden learns its pace.
    how : Doing or None

    Returns
    -------
    JobDone
        Nothing is written where `stored` is False: somebody did or put off the same job that day, the day has
        no such job any more, or an entry was asked about.

    Raises
    ------
    ParameterError
        If a number does not go with the job, or one that only the person can know is missing.
    UnknownName, StoreError
    """
    how = how or Doing()
    if minutes is not None and not 0.0 < minutes <= 1440.0:
        raise ParameterError(f"--minutes {minutes:g} is not a time a job takes.", "Give the minutes it took.")
    day = _open(garden, today, how)
    if (chore := _chore(day, name)) is not None:
        if numbers:
            raise ParameterError(
                f"{', '.join(sorted(numbers))} does not go with a chore.", f"It is: {chore.chore}."
            )
        return _write_chore(day, chore, kinds.Minutes(minutes=minutes or 0.0, job=chore.chore), how)
    name = _settled_id(day, name, how)
    if (said := _said_before(day, name, how)) is not None:
        return said
    job = _found(day, name, how)
    if job is None:
        return _no_longer(day, name, how, [kinds.Minutes(minutes=minutes or 0.0, job=name)])
    payloads = [_with(payload, numbers) for payload in job.done]
    unused = set(numbers) - {field for payload in job.done for field in payload.__struct_fields__}
    if unused:
        raise ParameterError(
            f"{', '.join(sorted(unused))} does not go with {job.id}.",
            f"It is: {job.act}.",
        )
    for payload in job.done:
        wanted = MUST_SAY.get(type(payload), ())
        if wanted and not set(wanted) & set(numbers):
            flags = " or ".join(f"--{field}" for field in wanted)
            raise ParameterError(f"How much was it? {job.act}.", f"Say it with {flags}.")
    return _write(day, job, [*payloads, kinds.Minutes(minutes=minutes or 0.0, job=job.id)], how)


def skip_job(garden: Path, today: date, name: str, because: str, how: Doing | None = None) -> JobDone:
    """Put a job or a chore off for a day, with the reason; the answer is as for `do_job`.

    Raises
    ------
    ParameterError
        If no reason is given.
    UnknownName, StoreError
    """
    if not because.strip():
        raise ParameterError("Why is it put off?", 'Say it: --because "too wet".')
    how = how or Doing()
    day = _open(garden, today, how)
    if (chore := _chore(day, name)) is not None:
        return _write_chore(day, chore, kinds.Skipped(job=chore.chore, why=because.strip()), how)
    name = _settled_id(day, name, how)
    if (said := _said_before(day, name, how)) is not None:
        return said
    job = _found(day, name, how)
    if job is None:
        return _no_longer(day, name, how, [kinds.Skipped(job=name, why=because.strip())])
    return _write(day, job, [kinds.Skipped(job=job.id, why=because.strip())], how)


def _open(garden: Path, today: date, how: Doing) -> Day:
    if how.on is not None and how.on > today:
        raise ParameterError(f"{how.on} has not come yet.", "Give the day it was done.")
    return open_day(garden, how.on or today)


def _chore(day: Day, name: str) -> Chore | None:
    """The chore that is meant: by its whole name, or by enough of it where no job is called so."""
    asked = name.strip().casefold()
    of_a_job = any(asked in job.id.casefold() for job in day.jobs)
    return chore_called(day.garden, name, whole=of_a_job)


def _write_chore(day: Day, chore: Chore, payload: kinds.Minutes | kinds.Skipped, how: Doing) -> JobDone:
    """Write a chore as done or put off, unless somebody said so of that day before."""
    if (said := _said_before(day, chore.chore, replace(how, act=chore.chore))) is not None:
        return said
    today, garden = day.scene.today, day.garden
    author = author_key(garden, how.by)
    act = Act(payload=payload, on=today, bed=chore.bed, author=author)
    written = write_acts(
        day.setting.folder, [act], today=today, author=author, insist=how.insist, first_key=how.key
    )
    there = garden.locks_on(today, bed=chore.bed) if chore.bed else ()
    locks = shown_locks(garden, there, day.setting.site.words)
    return _answer(day, chore_id(chore), chore.chore, written, locks=locks)


def _found(day: Day, name: str, how: Doing) -> Job | None:
    """The job of that day; None where it was shown to whoever says it, and the day has it no more.

    One that somebody settled that day and that is insisted on is taken as it was before.
    """
    if how.insist and (was := job_before(day, name)) is not None:
        return was
    if not how.act:
        return job_by_id(day, name)
    return next((job for job in day.jobs if job.id == name), None)


def _settled_id(day: Day, name: str, how: Doing) -> str:
    """The whole id where enough of it is given of a job that somebody settled, and that is open no more."""
    asked = name.strip().casefold()
    if how.act or not asked or any(asked in job.id.casefold() for job in day.jobs):
        return name
    settled = [each for each in settled_on(day.garden, day.scene.today) if asked in each.casefold()]
    return settled[0] if len(settled) == 1 else name


def _said_before(day: Day, name: str, how: Doing) -> JobDone | None:
    """The answer where the very same was written before, or somebody else settled the job that day."""
    garden, today = day.garden, day.scene.today
    state = open_state(day.setting.folder) if how.key else None
    if state is not None and how.key in state.garden.keys:
        written = write_acts(day.setting.folder, (), today=today, author="", state=state, first_key=how.key)
        return _answer(day, name, how.act, written, locks=[])
    before = settled_on(garden, today).get(name)
    if before is None or how.insist:
        return None
    who = garden.people[before.author].name if before.author in garden.people else before.author
    question = Asked(
        act=1,
        about="done before",
        found=f"{who} has told the same of that day: {_settled(before)}.",
        why="A job is done once.",
        nearest=(),
        may_insist=True,
    )
    return JobDone(
        job=name, act=how.act or name, written=[], said=[], questions=[question], stored=False, locks=[]
    )


def _settled(entry: Entry) -> str:
    """What somebody said of a job on its day, in a few words."""
    if isinstance(entry.act, kinds.Skipped):
        return f"put off, because {entry.act.why.rstrip('.')}"
    minutes = entry.act.minutes if isinstance(entry.act, kinds.Minutes) else 0.0
    return f"done in {minutes:.0f} minutes" if minutes else "done"


def _no_longer(day: Day, name: str, how: Doing, payloads: list[Payload]) -> JobDone:
    """A job the day has no more: asked about, and where insisted on told in its own words."""
    if how.insist:
        author = author_key(day.garden, how.by)
        note = kinds.Note(text=f"{how.act} (as it was shown)")
        acts = [Act(payload=payload, on=day.scene.today, author=author) for payload in (note, *payloads)]
        written = write_acts(
            day.setting.folder, acts, today=day.scene.today, author=author, insist=True, first_key=how.key
        )
        return _answer(day, name, how.act, written, locks=[])
    question = Asked(
        act=1,
        about="job",
        found=f"That day has no such job any more: {how.act}.",
        why="What stands or is known has changed since it was shown.",
        nearest=(),
        may_insist=True,
    )
    return JobDone(job=name, act=how.act, written=[], said=[], questions=[question], stored=False, locks=[])


def _with(payload: Payload, numbers: Mapping[str, float]) -> Payload:
    """A payload with what was said in place of what was planned."""
    changed: dict[str, Any] = {}
    for field, value in numbers.items():
        if field not in payload.__struct_fields__:
            continue
        whole = field in ("standing", "removed", "left", "pieces", "plants", "seeds")
        if whole and value != int(value):
            raise ParameterError(f"--{field} {value:g} is not a whole number.", "Count them.")
        changed[field] = int(value) if whole else value
    return msgspec.structs.replace(payload, **changed)


def _write(day: Day, job: Job, payloads: list[Payload], how: Doing) -> JobDone:
    today, folder = day.scene.today, day.setting.folder
    author = author_key(day.garden, how.by)
    payloads = [_another(day, payload) for payload in payloads]
    planted = _starts(payloads)
    acts = [
        Act(payload=payload, on=today, bed=job.bed, planting=planted or job.planting, author=author)
        for payload in payloads
    ]
    written = write_acts(folder, acts, today=today, author=author, insist=how.insist, first_key=how.key)
    words = day.setting.site.words
    after = _fits(day, job) if written.stored and _ends(payloads) else []
    found = _answer(day, job.id, job.act, written, locks=_locks(written, job, planted, today, words))
    return msgspec.structs.replace(found, said=[*found.said, *after])


def _another(day: Day, payload: Payload) -> Payload:
    """What begins a planting begins one of its own, also where the same job began one before."""
    if isinstance(payload, kinds.Sown) and payload.planting in day.garden.plantings:
        key = new_planting_key(day.garden, payload.crop, day.scene.today)
        return msgspec.structs.replace(payload, planting=key)
    return payload


def _answer(day: Day, name: str, act: str, written: Written, *, locks: list[LockLine]) -> JobDone:
    words = day.setting.site.words
    return JobDone(
        job=name,
        act=act or name,
        written=[entry.key for entry in written.entries] if written.stored else [],
        said=[
            _told_of(entry.act, act) or sentence(entry, written.garden, words=words).rstrip(".")
            for entry in written.entries
            # that it was done is said by what it wrote, where it wrote anything
            if not (
                isinstance(entry.act, kinds.Minutes) and not entry.act.minutes and len(written.entries) > 1
            )
        ],
        questions=asked_of(written, words),
        stored=written.stored,
        locks=locks,
    )


def _told_of(entry: Payload | None, act: str) -> str:
    """That a job was done or put off, by what it is called; empty for every other entry."""
    if not act:
        return ""
    if isinstance(entry, kinds.Skipped):
        return f"Put off: {act}, because {entry.why.rstrip('.')}"
    if isinstance(entry, kinds.Minutes):
        return f"Done: {act}" + (f", in {entry.minutes:.0f} minutes" if entry.minutes else "")
    return ""


def _locks(written: Written, job: Job, planted: str, today: date, words: Words) -> list[LockLine]:
    """The locks on where it was done, and those it set."""
    garden, planting = written.garden, planted or job.planting
    there = garden.locks_on(today, bed=job.bed, planting=planting) if job.bed or planting else ()
    return shown_locks(garden, (*there, *written.locks), words)


def _ends(payloads: list[Payload]) -> bool:
    return any(isinstance(payload, kinds.Ended) and payload.plants is None for payload in payloads)


def _fits(day: Day, job: Job) -> list[str]:
    """What still fits the room of a planting that has just gone."""
    from spadework.advice.jobs.clear import after_text

    return [after_text(day.scene, plot) for plot in day.scene.plots if plot.key == job.planting]


def _starts(payloads: list[Payload]) -> str:
    """The planting a job begins, where it begins one."""
    for payload in payloads:
        if isinstance(payload, (kinds.Sown, kinds.PlantedOut)):
            return payload.planting
    return ""
