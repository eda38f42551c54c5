"""Where decisions are found: what is to be decided here now, and every decision to be asked freely."""

from __future__ import annotations

from typing import Final

from spadework.advice.job import Job
from spadework.faces.web.pages.weigh_growing import cover, pick, sow_again, thin
from spadework.faces.web.pages.weigh_placing import fits, plant_out, sow, sow_next
from spadework.faces.web.visit import Page, Visit, Way
from spadework.usecases.jobs_today import open_day
from spadework.usecases.read_sheets import list_sheets
from spadework.usecases.show_beds import list_beds

KINDS: Final = (
    ("sow again", "Sow again"),
    ("thin", "Thin"),
    ("pick", "Pick"),
    ("plant out", "Plant out"),
    ("sow", "Sow the next"),
    ("start indoors", "Start the next"),
    ("cover", "Cover"),
)
"""Kinds of jobs that are decisions, as they are headed."""

MOST: Final = 4
"""Decisions of one kind on the first page."""


def show_weigh(visit: Visit) -> Page:
    """What is to be decided here now, and every decision to be asked freely."""
    day = open_day(visit.garden, visit.today)
    now = []
    for kind, title in KINDS:
        jobs = [job for job in day.jobs if job.kind == kind][:MOST]
        if jobs:
            now.append((title, [(job.act, job.reason, _where(job)) for job in jobs]))
    standing = sorted((f"{plot.name} in {plot.where}", plot.key) for plot in day.scene.plots)
    beds = [(bed.key, bed.name) for bed in list_beds(visit.garden, visit.today).beds]
    return Page("weigh.html", {"now": now, "standing": standing, "beds": beds, "crops": crops_named(visit)})


def crops_named(visit: Visit) -> list[tuple[str, str]]:
    """Every crop that has a sheet, by its name here, with its key."""
    american = visit.site.words == "american"
    return sorted((each.american if american else each.british, each.key) for each in list_sheets())


def _where(job: Job) -> str:
    """Where a job's decision is weighed."""
    match job.kind:
        case "thin":
            return f"/weigh/thin?planting={job.planting}"
        case "pick":
            return f"/weigh/pick?crop={job.planting}"
        case "cover":
            return f"/weigh/cover?bed={job.bed}"
        case "sow again":
            return f"/weigh/sow-again?planting={job.planting}"
        case "plant out":
            return f"/weigh/plant-out?crop={job.crop}"
        case _:
            return f"/weigh/sow-next?crop={job.crop}"


WAYS: Final = (
    Way("/weigh", show_weigh),
    Way("/weigh/cover", cover),
    Way("/weigh/fits", fits),
    Way("/weigh/pick", pick),
    Way("/weigh/plant-out", plant_out),
    Way("/weigh/sow", sow),
    Way("/weigh/sow-again", sow_again),
    Way("/weigh/sow-next", sow_next),
    Way("/weigh/thin", thin),
)
