"""The watch: what may come in the next days. For now frost, heat, and animals by what is tender."""

from __future__ import annotations

from typing import Final

from spadework.faces.job_words import waiting_said
from spadework.faces.web.visit import Page, Visit, Way
from spadework.usecases.show_watch import show_watch as watch_of


def show_watch(visit: Visit) -> Page:
    """What may come, and what to do about it."""
    found = watch_of(visit.garden, visit.today)
    parts = [(part.title, part.jobs) for part in found.parts]
    return Page("watch.html", {"parts_of": parts, "frost": found.frost, "waiting": waiting_said})


WAYS: Final = (Way("/watch", show_watch),)
