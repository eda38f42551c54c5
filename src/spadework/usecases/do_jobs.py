"""A job done, or put off: what it writes into the book."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any, Final

import msgspec

from spadework.advice.job import Job
from spadework.errors import ParameterError
from spadework.garden import entries as kinds
from spadework.garden.entries import Payload
from spadework.garden.site import Words
from spadework.usecases.entry_words import sentence
from spadework.usecases.jobs_today import Day, job_by_id, open_day
from spadework.usecases.keep_book import Act, Asked, Written, asked_of, author_key, write_acts
from spadework.usecases.lock_lines import shown_locks

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
    locks: list[str]


def do_job(
    garden: Path,
    today: date,
    name: str,
    numbers: Mapping[str, float],
    *,
    minutes: float | None = None,
    by: str = "",
    insist: bool = False,
) -> JobDone:
    """Write a job as done today.

    Parameters
    ----------
    garden : Path
    today : date
    name : str
        Its id, or enough of it.
    numbers : mapping of str to float
        What was really done, by the entries' own names: standing, removed, left, kg, pieces, litres.
    minutes : float or None  [min]
        Time taken; from it the garden learns its pace.
    by : str
        Who did it.
    insist : bool

    Raises
    ------
    ParameterError
        If a number does not go with the job, or one that only the person can know is missing.
    UnknownName, StoreError
    """
    day = open_day(garden, today)
    job = job_by_id(day, name)
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
    return _write(day, job, payloads, minutes, by, insist)


def skip_job(garden: Path, today: date, name: str, because: str, *, by: str = "") -> JobDone:
    """Put a job off for today, with the reason.

    Raises
    ------
    ParameterError
        If no reason is given.
    UnknownName, StoreError
    """
    if not because.strip():
        raise ParameterError("Why is it put off?", 'Say it: --because "too wet".')
    day = open_day(garden, today)
    job = job_by_id(day, name)
    return _write(day, job, [kinds.Skipped(job=job.id, why=because.strip())], None, by, insist=False)


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


def _write(
    day: Day, job: Job, payloads: list[Payload], minutes: float | None, by: str, insist: bool
) -> JobDone:
    if minutes is not None and not 0.0 < minutes <= 1440.0:
        raise ParameterError(f"--minutes {minutes:g} is not a time a job takes.", "Give the minutes it took.")
    today, folder = day.scene.today, day.setting.folder
    author = author_key(day.garden, by)
    planted = _starts(payloads)
    acts = [
        Act(payload=payload, on=today, bed=job.bed, planting=planted or job.planting, author=author)
        for payload in payloads
    ]
    if minutes is not None:
        taken = kinds.Minutes(minutes=minutes, job=job.id)
        acts.append(Act(payload=taken, on=today, bed=job.bed, planting=job.planting, author=author))
    if not acts:
        done = kinds.Note(text=f"Done: {job.act}")
        acts.append(Act(payload=done, on=today, bed=job.bed, planting=job.planting, author=author))
    written: Written = write_acts(folder, acts, today=today, author=author, insist=insist)
    words = day.setting.site.words
    return JobDone(
        job=job.id,
        act=job.act,
        written=[entry.key for entry in written.entries] if written.stored else [],
        said=[
            *(sentence(entry, written.garden, words=words) for entry in written.entries),
            *(_fits(day, job) if written.stored and _ends(payloads) else ()),
        ],
        questions=asked_of(written),
        stored=written.stored,
        locks=_locks(written, job, planted, today, words),
    )


def _locks(written: Written, job: Job, planted: str, today: date, words: Words) -> list[str]:
    """The locks on where it was done, and those it set."""
    garden, planting = written.garden, planted or job.planting
    there = garden.locks_on(today, bed=job.bed, planting=planting) if job.bed or planting else ()
    return [line.text for line in shown_locks(garden, (*there, *written.locks), words)]


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
