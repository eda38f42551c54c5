"""One state for a planting on a day: what is to be cleared or taken whole is not tended as well."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from spadework.advice.guarding import idle
from spadework.advice.job import Job, Kind
from spadework.advice.scene import Scene

TAKES: Final[tuple[Kind, ...]] = ("pick", "lift")
"""Kinds that take something to be eaten."""

GROWS_ON: Final[tuple[Kind, ...]] = (
    "keep damp",
    "lid",
    "count",
    "sow again",
    "thin",
    "earth up",
    "support",
    "mulch",
)
"""Kinds that only serve a planting that is to grow on."""


OF_THE_BED: Final[tuple[Kind, ...]] = ("water", "mulch", "cover")
"""Kinds that serve all that grows in a bed."""


def one_state(scene: Scene, jobs: Iterable[Job]) -> Iterator[Job]:
    """The jobs without those another one makes needless.

    Parameters
    ----------
    scene : Scene
    jobs : iterable of Job
        Of the day, without those that were put off: who puts off clearing a planting means it to stay.

    Notes
    -----
    A planting that is over is cleared, and nothing else is done to it but to take what is still good; a bed
    in which all is over is not watered, mulched or covered. One that is taken whole today is not thinned,
    earthed up or supported before, nor is a bed netted in which nothing else is at stake. Where birds
    and a flight both ask for something over a bed, the one more hangs on is laid: the other is asked for
    when that lies.
    """
    left = list(_needed(scene, list(jobs)))
    guards: dict[str, Job] = {}
    for job in left:
        if job.kind == "guard":
            other = guards.get(job.settles)
            if other is None or (-_stake(job), job.id) < (-_stake(other), other.id):
                guards[job.settles] = job
    yield from (job for job in left if job.kind != "guard" or guards[job.settles] is job)


def _needed(scene: Scene, found: list[Job]) -> Iterator[Job]:
    over = {job.planting for job in found if job.kind == "clear"}
    taken = {
        job.planting: _stake(job)
        for job in found
        if job.kind in TAKES
        and job.window.opens <= scene.today <= job.window.closes
        and scene.sheet_of(job.crop).harvest.repeat == "once"
    }
    for job in found:
        if job.kind in OF_THE_BED and not job.planting and _all(over, scene, job.bed):
            continue
        if job.kind == "guard" and job.id.endswith("-up") and _taken_instead(taken, scene, job):
            continue
        if job.planting in over and job.kind not in ("clear", *TAKES):
            continue
        if job.planting in taken and job.kind in GROWS_ON:
            continue
        yield job


def _all(over: set[str], scene: Scene, bed: str) -> bool:
    """Whether all that stands in a bed is over."""
    return all(plot.key in over for plot in scene.in_bed(bed))


def _stake(job: Job) -> float:
    """What a week of waiting costs, in kilograms of carrots."""
    return job.worth * job.forfeit(7)


def _taken_instead(taken: dict[str, float], scene: Scene, guard: Job) -> bool:
    """Whether taking what is ripe in a bed saves more than guarding it, and leaves nothing to guard."""
    plots = scene.in_bed(guard.bed)
    saved = sum(taken.get(plot.key, 0.0) for plot in plots)
    return saved > _stake(guard) and all(plot.key in taken or idle(plot) for plot in plots)
