"""Where decisions are found: what is to be decided here now, and every decision to be asked freely."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final, Literal

from spadework.advice.job import Job
from spadework.errors import ParameterError, UnknownName
from spadework.faces.web.pages.weigh_growing import cover, pick, sow_again, thin
from spadework.faces.web.pages.weigh_placing import fits, plant_out, sow, sow_next
from spadework.faces.web.pages.weighed import Asking, choose, crop_blank, crops_named
from spadework.faces.web.visit import Page, Refused, Visit, Way
from spadework.usecases.jobs_today import open_day
from spadework.usecases.show_beds import list_beds
from spadework.usecases.show_plantings import list_plantings

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
    grown = {plot.planting.bed for plot in day.scene.plots}
    beds = [(bed.key, bed.name) for bed in list_beds(visit.garden, visit.today).beds if bed.key in grown]
    return Page("weigh.html", {"now": now, "standing": standing, "beds": beds, "crops": crops_named(visit)})


@dataclass(frozen=True)
class Subject:
    """What a decision is about: its question, the words around the blank it is chosen in, and the kind of job
    that it is where it waits here."""

    title: str
    before: str
    name: str
    after: str
    sort: Literal["crop", "standing", "bed"]
    kinds: tuple[str, ...]


def _about(do: Callable[[Visit], Page], subject: Subject) -> Callable[[Visit], Page]:
    """A decision; with nothing named, or something it cannot be weighed for, what it may be is offered."""

    def weigh(visit: Visit) -> Page:
        wrong = ""
        if visit.text(subject.name):
            try:
                return do(visit)
            except (Refused, UnknownName):
                raise
            except ParameterError as error:
                wrong = f"{error.message} {error.hint}".strip()
        return choose(
            subject.title, _blank(visit, subject), likely=_likely(visit, subject.kinds), wrong=wrong
        )

    return weigh


def _blank(visit: Visit, subject: Subject) -> Asking:
    if subject.sort == "crop":
        blank = crop_blank(visit, subject.before, "", subject.after)
        if "plant out" not in subject.kinds:
            return blank
        waiting = {each.crop for each in list_plantings(visit.garden, visit.today).plantings if each.tray}
        first = [(key, f"{name}, in trays here") for key, name in blank.choices if key in waiting]
        rest = [each for each in blank.choices if each[0] not in waiting]
        return replace(blank, choices=[*first, *rest] if first else rest)
    scene = open_day(visit.garden, visit.today).scene
    if subject.sort == "standing":
        thinned = "thin" in subject.kinds
        found = [
            (plot.key, f"{plot.name} in {plot.where}")
            for plot in scene.plots
            # what was set out or comes up anew each year stands at its distance
            if not thinned or (plot.planting.set_out_on is None and not plot.planting.perennial)
        ]
    else:
        grown = {plot.planting.bed for plot in scene.plots}
        beds = list_beds(visit.garden, visit.today).beds
        found = [(bed.key, bed.name) for bed in beds if bed.key in grown]
    return Asking(
        before=subject.before,
        name=subject.name,
        kind="choice",
        choices=sorted(found, key=lambda each: each[1].casefold()),
        after=subject.after,
    )


def _likely(visit: Visit, kinds: tuple[str, ...]) -> list[tuple[str, str]]:
    jobs = [job for job in open_day(visit.garden, visit.today).jobs if job.kind in kinds]
    return [(job.act, _where(job)) for job in jobs[:MOST]]


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
    Way(
        "/weigh/cover",
        _about(cover, Subject("Cover a bed tonight?", "Cover", "bed", "tonight?", "bed", ("cover",))),
    ),
    Way("/weigh/fits", fits),
    Way(
        "/weigh/pick",
        _about(
            pick, Subject("Pick now, or wait?", "Pick now, or wait, the", "crop", "?", "standing", ("pick",))
        ),
    ),
    Way(
        "/weigh/plant-out",
        _about(
            plant_out,
            Subject("Plant out?", "May my plants of", "crop", "go out?", "crop", ("plant out",)),
        ),
    ),
    Way("/weigh/sow", _about(sow, Subject("Sow now?", "May I sow", "crop", "now?", "crop", ("sow",)))),
    Way("/weigh/sow-again", sow_again),
    Way(
        "/weigh/sow-next",
        _about(
            sow_next,
            Subject(
                "When to sow the next?",
                "When do I sow the next",
                "crop",
                "?",
                "crop",
                ("sow", "start indoors"),
            ),
        ),
    ),
    Way(
        "/weigh/thin",
        _about(thin, Subject("Thin a row?", "Thin the", "planting", "?", "standing", ("thin",))),
    ),
)
