"""What stands on each sheet, in the garden's own units and dates."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from spadework.faces.charts.plan import Peg
from spadework.faces.job_words import chore_said, chore_title, take_said, waiting_said
from spadework.faces.paper.plan_print import printed_plan
from spadework.faces.paper.typeset import qr_svg, typeset
from spadework.faces.voice import Voice
from spadework.usecases.jobs_today import JobView, jobs_today
from spadework.usecases.look import site_of
from spadework.usecases.round_answer import ChoreView, RoundAnswer
from spadework.usecases.show_beds import show_bed
from spadework.usecases.show_ground import show_ground
from spadework.usecases.show_plantings import PlantingShown, list_plantings
from spadework.usecases.walk_round import walk_round

BED_JOBS = 8
"""Jobs on a bed's card. Our own rule."""


def round_sheet(garden: Path, today: date, *, minutes: float = 60.0, people: Sequence[str] = ()) -> bytes:
    """The round as a PDF: the plan, the stops in walking order with boxes to tick, what is left.

    Raises
    ------
    ParameterError, UnknownName, GardenError, RecordError, StoreError
    """
    found = walk_round(garden, today, minutes=minutes, people=people)
    voice = _voice(garden, today)
    ground = show_ground(garden, today)
    pegs = [Peg(number=at, bed=stop.bed) for at, stop in enumerate(found.stops, start=1)]
    data = {
        "title": f"The round, {voice.day(today, weekday=True)} {today.year}",
        "garden": ground.name,
        "summary": _summary(found),
        "people": ", ".join(found.people),
        "conditions": [voice.told(said) for said in found.conditions],
        "locks": [voice.told(line.text) for line in found.locks],
        "plan": printed_plan(ground, pegs),
        "stops": [
            {
                "number": at,
                "where": stop.name,
                "who": stop.who,
                "jobs": [_job(job, voice) for job in stop.jobs],
                "chores": [_chore(chore, voice) for chore in stop.chores],
            }
            for at, stop in enumerate(found.stops, start=1)
        ],
        "left": [f"{voice.told(each.act)} ({each.minutes:.0f} min)" for each in found.left_out[:12]],
        "note": found.note,
    }
    return typeset("round", data, voice)


def bed_card(garden: Path, today: date, bed: str, *, address: str = "") -> bytes:
    """One bed as a PDF: its picture, what grows and has grown, what it needs, its locks.

    Parameters
    ----------
    garden : Path
    today : date
    bed : str
        Key or name.
    address : str
        Of the garden's pages, for the square a phone's camera reads; empty for the bed's name in it.

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    found = show_bed(garden, today, bed)
    voice = _voice(garden, today)
    ground = show_ground(garden, today, bed=found.key)
    jobs = jobs_today(garden, today, bed=found.key).jobs[:BED_JOBS]
    size = (
        ""
        if found.width_m is None or found.length_m is None
        else f"{voice.length(found.width_m)} by {voice.length(found.length_m)}"
    )
    mulched = f"mulched: {found.mulch}" if found.mulch else ""
    data = {
        "title": found.name,
        "garden": ground.name,
        "day": f"{voice.day(today, weekday=True)} {today.year}",
        "about": ", ".join(part for part in (size, found.soil, mulched) if part),
        "locks": [voice.told(line.text) for line in found.locks],
        "picture": printed_plan(ground),
        "grows": [_planting(each, voice) for each in found.standing],
        "grew": list(dict.fromkeys(f"{each.year}: {each.name}" for each in found.stood))[:10],
        "jobs": [_job(job, voice) for job in jobs],
        "last": [f"{voice.day(line.on)}: {voice.told(line.text)}" for line in found.entries[-6:]],
        "qr": qr_svg(f"{address}bed/{found.key}" if address else f"{found.name}, {ground.name}"),
    }
    return typeset("bed", data, voice)


def row_labels(garden: Path, today: date, *, bed: str = "", address: str = "") -> bytes:
    """A label for each planting that stands, two across, to cut out; parameters as for `bed_card`.

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    voice = _voice(garden, today)
    key = show_bed(garden, today, bed).key if bed else ""
    standing = [
        each for each in list_plantings(garden, today).plantings if each.bed and (not key or each.bed == key)
    ]
    data = {
        "title": f"Row labels, {site_of(garden).name}",
        "labels": [
            {
                **_planting(each, voice),
                "where": each.bed_name,
                "qr": qr_svg(
                    f"{address}planting/{each.key}" if address else f"{each.name}, {each.started_on}"
                ),
            }
            for each in standing
        ],
    }
    return typeset("labels", data, voice)


def _voice(garden: Path, today: date) -> Voice:
    return Voice(us=site_of(garden).units == "us", today=today)


def _summary(found: RoundAnswer) -> str:
    jobs = sum(len(stop.jobs) + len(stop.chores) for stop in found.stops)
    if not jobs:
        return "Nothing is worth going out for."
    return (
        f"{jobs} {'job' if jobs == 1 else 'jobs'} at {len(found.stops)}"
        f" {'stop' if len(found.stops) == 1 else 'stops'},"
        f" {found.minutes_used:.0f} of {found.minutes:.0f} minutes,"
        f" {found.minutes_walking:.0f} of them walking."
    )


def _job(job: JobView, voice: Voice) -> dict[str, Any]:
    return {
        "act": voice.told(job.act),
        "reason": voice.told(job.reason),
        "waiting": voice.told(waiting_said(job, voice)),
        "minutes": f"{job.minutes:.0f}" if job.minutes >= 1 else "1",
        "take": take_said(job.take, voice),
        "test": voice.told(job.test),
        "cautions": [voice.told(each.text) for each in job.cautions],
    }


def _chore(chore: ChoreView, voice: Voice) -> dict[str, str]:
    return {
        "act": chore_title(chore),
        "said": chore_said(chore, voice),
        "minutes": f"{max(chore.minutes, 1.0):.0f}",
    }


def _planting(each: PlantingShown, voice: Voice) -> dict[str, Any]:
    begun = [
        f"sown {voice.day(each.sown_on)}" if each.sown_on else "",
        f"planted out {voice.day(each.set_out_on)}" if each.set_out_on else "",
    ]
    laid = [
        f"{each.rows} {'row' if each.rows == 1 else 'rows'}" if each.rows else "",
        f"{voice.small(each.spacing_cm)} apart" if each.spacing_cm else "",
    ]
    return {
        "name": each.name,
        "begun": ", ".join(part for part in begun if part) or f"since {voice.day(each.started_on)}",
        "laid": ", ".join(part for part in laid if part),
        "plants": each.plants_text,
        "locks": [voice.told(line.text) for line in each.locks],
    }
