"""The garden and its beds: the plan to scale, and each bed with what grows, what it needs and its book."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from spadework.errors import RecordError
from spadework.faces.job_words import take_said, waiting_said
from spadework.faces.web.pages.round import PUT_OFF
from spadework.faces.web.visit import Page, Visit, Way
from spadework.usecases.job_form import numbers_asked
from spadework.usecases.jobs_today import open_day, view
from spadework.usecases.keep_photo import list_photos
from spadework.usecases.show_bed_ahead import show_bed_ahead
from spadework.usecases.show_beds import StoodShown, list_beds, show_bed
from spadework.usecases.show_ground import show_ground
from spadework.usecases.show_locks import list_locks
from spadework.usecases.show_water import BedWaterView, short_of_water, show_water

BED_JOBS: Final = 6
"""Jobs shown on a bed's page at once. Our own rule."""


FELT_DAYS: Final = 30
"""Finger tests older than this say nothing of today. Our own rule."""

SHAPES: Final = {
    "framed": "framed bed",
    "ground": "bed in the ground",
    "tub": "tub",
    "sack": "sack",
    "tunnel": "tunnel",
    "frame": "cold frame",
    "shelf": "shelf indoors",
}


def show_garden(visit: Visit) -> Page:
    """The plan, and behind it the list of beds."""
    day = open_day(visit.garden, visit.today)
    first: dict[str, str] = {}
    for job in day.jobs:
        if job.bed and job.window.opens <= visit.today:
            first.setdefault(job.bed, visit.voice.told(job.act))
    return Page(
        "garden.html",
        {
            "ground": show_ground(visit.garden, visit.today),
            "beds": list_beds(visit.garden, visit.today).beds,
            "locks": list_locks(visit.garden, visit.today).locks,
            "first": first,
            "short": short_of_water(day.scene),
            "large": visit.text("plan") == "large",
        },
    )


def show_one_bed(visit: Visit) -> Page:
    """One bed by key."""
    bed = show_bed(visit.garden, visit.today, visit.names["bed"])
    day = open_day(visit.garden, visit.today)
    jobs = [job for job in day.jobs if job.bed == bed.key][:BED_JOBS]
    try:
        water = next(iter(show_water(visit.garden, visit.today, bed=bed.key).beds), None)
    except RecordError:
        water = None
    return Page(
        "bed.html",
        {
            "bed": bed,
            "ground": show_ground(visit.garden, visit.today, bed=bed.key),
            "ahead": show_bed_ahead(visit.garden, visit.today, bed.key),
            "photos": list_photos(visit.garden, visit.today, bed=bed.key, most=8),
            "years": _by_year(bed.stood),
            "jobs": [view(job, day.scene) for job in jobs],
            "numbers": {job.id: numbers_asked(job, us=visit.voice.us) for job in jobs},
            "water": water,
            "felt": [] if water is None else _felt(water, visit),
            "shapes": SHAPES,
            "waiting": waiting_said,
            "take": take_said,
            "put_off": PUT_OFF,
        },
    )


def _felt(water: BedWaterView, visit: Visit) -> list[str]:
    """Finger tests of late, each with its day."""
    found = []
    for said in water.finger:
        day, _, why = said.partition(": ")
        on = date.fromisoformat(day)
        if visit.today - on <= timedelta(days=FELT_DAYS):
            found.append(f"{visit.voice.day(on)}: {visit.voice.told(why)}")
    return found


def _by_year(stood: list[StoodShown]) -> list[tuple[int, list[tuple[str, str]]]]:
    """What grew, each crop of a year once with its family, newest first."""
    found: dict[int, dict[str, str]] = {}
    for each in stood:
        found.setdefault(each.year, {}).setdefault(each.name, each.family)
    return [(year, list(crops.items())) for year, crops in sorted(found.items(), reverse=True)]


WAYS: Final = (
    Way("/garden", show_garden),
    Way("/bed/{bed}", show_one_bed),
)
