"""The watch: what may come in the next days, and which jobs are against it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Final

import msgspec

from spadework.advice.frost_odds import FrostAnswer
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.jobs_today import JobView, open_day, view
from spadework.usecases.lock_lines import LockLine, lock_lines

PARTS: Final[Mapping[str, tuple[str, ...]]] = {
    "Frost": ("cover", "uncover"),
    "Heat": ("vent",),
    "Birds and animals": ("guard",),
    "To be looked at": ("count", "look"),
}
"""What the watch shows, and which kinds of jobs belong to it."""

MOST: Final = 8


class WatchPart(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that may come, and the jobs against it, most at stake first."""

    title: str
    jobs: list[JobView]


class WatchAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """What may come, with the locks that are in force."""

    question: str
    today: date
    parts: list[WatchPart]
    frost: FrostAnswer
    locks: list[LockLine]


def show_watch(path: Path, today: date) -> WatchAnswer:
    """What may come.

    Raises
    ------
    GardenError, RecordError, StoreError
    """
    day = open_day(path, today)
    parts = [
        WatchPart(title=title, jobs=[view(job, day.scene) for job in day.jobs if job.kind in kinds][:MOST])
        for title, kinds in PARTS.items()
    ]
    return WatchAnswer(
        question="watch",
        today=today,
        parts=parts,
        frost=ask_frost(path, today),
        locks=lock_lines(day.garden, today, words=day.scene.site.words),
    )
