"""The watch: what may come in the next days. For now frost, heat, and animals by what is tender."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from spadework.faces.job_words import waiting_said
from spadework.faces.web.visit import Page, Visit, Way
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.jobs_today import open_day, view

PARTS: Final[Mapping[str, tuple[str, ...]]] = {
    "Frost": ("cover", "uncover"),
    "Heat": ("vent",),
    "Birds and animals": ("guard",),
    "To be looked at": ("count", "look"),
}
"""What the watch shows, and which kinds of jobs belong to it."""

MOST: Final = 8


def show_watch(visit: Visit) -> Page:
    """What may come, and what to do about it."""
    day = open_day(visit.garden, visit.today)
    frost = ask_frost(visit.garden, visit.today)
    parts = [
        (title, [view(job, day.scene) for job in day.jobs if job.kind in kinds][:MOST])
        for title, kinds in PARTS.items()
    ]
    return Page("watch.html", {"parts_of": parts, "frost": frost, "waiting": waiting_said})


WAYS: Final = (Way("/watch", show_watch),)
