"""The watch: what may come in the next days, and which jobs are against it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Final

import msgspec

from spadework.advice.frost_odds import FrostAnswer
from spadework.advice.odds import joined
from spadework.advice.scene import Scene
from spadework.clock.infection import wet_hours
from spadework.crops.names import find
from spadework.errors import ParameterError
from spadework.garden.lookup import key_of
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.jobs_today import JobView, open_day, view
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.watch_lines import ComingLine, coming_lines

PARTS: Final[Mapping[str, tuple[str, ...]]] = {
    "Frost": ("cover", "uncover"),
    "Heat": ("vent",),
    "Birds and animals": ("guard",),
    "Insects and diseases": ("scout", "crush", "refuges"),
    "To be looked at": ("count", "look"),
}
"""What the watch shows, and which kinds of jobs belong to it."""

MOST: Final = 8

DAYS: Final = 21
MOST_DAYS: Final = 60


class WatchPart(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that may come, and the jobs against it, most at stake first."""

    title: str
    jobs: list[JobView]


class WatchAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """What may come, with the locks that are in force.

    Parameters
    ----------
    days : int
        How far ahead it looks.
    coming : list of ComingLine
        Insects, diseases and animals, what is new and has most at stake first.
    note : str
        Where the hours of wet leaves come from, and how far they are off; then what is to be said of the
        years.
    """

    question: str
    today: date
    days: int
    coming: list[ComingLine]
    note: str
    parts: list[WatchPart]
    frost: FrostAnswer
    locks: list[LockLine]


def show_watch(path: Path, today: date, *, days: int = DAYS, bed: str = "", crop: str = "") -> WatchAnswer:
    """What may come.

    Parameters
    ----------
    path : Path
    today : date
    days : int
        How far ahead, 1 to 60.
    bed, crop : str
        Only there, only that; empty for all.

    Raises
    ------
    ParameterError, UnknownName, GardenError, RecordError, StoreError
    """
    if not 1 <= days <= MOST_DAYS:
        raise ParameterError(f"The watch cannot look {days} days ahead.", f"Allowed: 1 to {MOST_DAYS} days.")
    day = open_day(path, today)
    beds = {key: each.name for key, each in day.garden.beds.items()}
    lines = coming_lines(
        day.scene, days, bed=key_of(bed, beds, "bed") if bed else "", crop=find(crop) if crop else ""
    )
    parts = [
        WatchPart(title=title, jobs=[view(job, day.scene) for job in day.jobs if job.kind in kinds][:MOST])
        for title, kinds in PARTS.items()
    ]
    return WatchAnswer(
        question="watch",
        today=today,
        days=days,
        coming=lines,
        note=joined([_wet_note(day.scene, lines), day.scene.ground.years.note]),
        parts=parts,
        frost=ask_frost(path, today),
        locks=lock_lines(day.garden, today, words=day.scene.site.words),
    )


def _wet_note(scene: Scene, lines: list[ComingLine]) -> str:
    """How far the hours of wet leaves are off, where a disease is told of."""
    if not any(line.kind == "disease" for line in lines):
        return ""
    return wet_hours(scene.ground, scene.column, scene.column + 1).note
