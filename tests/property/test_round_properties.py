"""What holds of every round, whatever the garden, the weather and the minutes."""

from __future__ import annotations

from collections import Counter
from functools import cache
from itertools import combinations
from types import SimpleNamespace
from typing import Any, Final, cast

import numpy as np
from hypothesis import example, given, settings
from hypothesis import strategies as st

from random_gardens import random_garden
from spadework.advice.job import AHEAD_DAYS, Job
from spadework.garden.blocks import overlap
from spadework.garden.entries import Block, Moved, PlantedOut, Sown
from spadework.usecases.jobs_today import Day, find_jobs
from spadework.usecases.walk_round import round_of

SEEDS = st.integers(0, 100_000)
MINUTES = st.sampled_from((5.0, 15.0, 30.0, 60.0, 90.0, 240.0))

STARTS: Final = ("sow", "sow again", "plant out")
"""Kinds that put something into a bed."""

TIMED: Final = (*STARTS, "prepare", "start indoors", "prick out", "pot on", "harden off")
"""Kinds for which a later day can be the better one: only their share of the loss may fall along the days."""

TAKES: Final = ("pick", "lift")
"""Kinds that take something to be eaten."""

GROWS_ON: Final = ("keep damp", "lid", "count", "sow again", "thin", "earth up", "support")
"""Kinds that only serve a planting that is to grow on."""

OF_THE_BED: Final = ("water", "mulch", "cover")
"""Kinds that serve all that grows in a bed: none where all is cleared."""

CONTRARY: Final = (
    {"cover", "uncover"},
    *({"clear", kind} for kind in (*GROWS_ON, "guard", "pick", "lift", "harden off", "plant out")),
    *({"lift", kind} for kind in GROWS_ON),
    {"sow again", "thin"},
)
"""Kinds nobody does to one planting on one day."""


@cache
def day_of(seed: int) -> Day:
    """The drawn garden opened for its day."""
    scene = random_garden(seed).scene()
    nothing = cast(Any, SimpleNamespace(damage="", told=()))
    return Day(setting=nothing, state=nothing, scene=scene, jobs=find_jobs(scene))


def on_round(seed: int, minutes: float) -> tuple[Day, list[Job], float]:
    """The jobs of a round and the minutes used."""
    day = day_of(seed)
    walk = round_of(day, minutes=minutes)
    by_id = {job.id: job for job in day.jobs}
    return day, [by_id[view.id] for stop in walk.stops for view in stop.jobs], walk.minutes_used


@settings(max_examples=30, deadline=None)
@given(SEEDS)
def test_every_job_has_a_window_and_a_forfeit_that_grows_with_delay(seed: int) -> None:
    day = day_of(seed)
    assert len({job.id for job in day.jobs}) == len(day.jobs)
    for job in day.jobs:
        window = job.window
        assert window.opens <= window.best <= window.closes, job.id
        assert job.loss.shape == (day.scene.years, AHEAD_DAYS + 1), job.id
        assert np.isfinite(job.loss).all(), job.id
        assert (job.loss >= -1e-9).all(), job.id
        assert (job.loss <= 1.0 + 1e-9).all(), job.id
        if job.kind not in TIMED:
            assert (np.diff(job.loss, axis=1) >= -1e-9).all(), job.id
        assert job.minutes > 0.0, job.id
        assert job.worth >= 0.0, job.id
        assert job.reason, job.id


@settings(max_examples=30, deadline=None)
@given(SEEDS, MINUTES)
def test_no_job_on_a_round_lies_outside_its_window_and_the_minutes_are_kept(
    seed: int, minutes: float
) -> None:
    day, jobs, used = on_round(seed, minutes)
    assert used <= minutes + 0.05  # the answer gives tenths of a minute
    assert sum(job.minutes for job in jobs) <= minutes + 1e-6
    assert len({job.id for job in jobs}) == len(jobs)
    for job in jobs:
        assert job.window.opens <= day.scene.today <= job.window.closes, job.id


@example(4198)
@settings(max_examples=30, deadline=None)
@given(SEEDS)
def test_no_job_is_for_what_is_gone_or_locked(seed: int) -> None:
    day = day_of(seed)
    today, garden = day.scene.today, day.garden
    standing = {planting.key for planting in garden.standing(today)}
    for job in day.jobs:
        # a net left over what is gone is taken in, and bears its name
        taken_in = all(isinstance(act, Moved) and act.act == "off" for act in job.done)
        if job.planting in garden.plantings and not (job.kind == "guard" and taken_in):
            assert job.planting in standing, job.id
        stops = {lock.stops for lock in garden.locks_on(today, bed=job.bed, planting=job.planting)}
        if job.kind in TAKES:
            assert "picking" not in stops, job.id
        if job.kind in STARTS:
            assert "planting" not in stops, job.id


# found so: tied in, thinned, counted or kept damp and cleared; thinned and lifted
@example(5, 60.0)
@example(74, 240.0)
@example(85, 60.0)
@example(154, 60.0)
@example(178, 60.0)
@example(668, 60.0)
@example(738, 240.0)
@settings(max_examples=30, deadline=None)
@given(SEEDS, MINUTES)
def test_no_two_jobs_of_a_round_contradict_each_other(seed: int, minutes: float) -> None:
    day, jobs, _ = on_round(seed, minutes)
    cleared = {job.planting for job in jobs if job.kind == "clear"}
    for job in jobs:
        if job.kind in OF_THE_BED and not job.planting:
            assert not {plot.key for plot in day.scene.in_bed(job.bed)} <= cleared, job.id
    settled = Counter(job.settles for job in jobs if job.settles)
    assert not [what for what, times in settled.items() if times > 1]
    for planting in {job.planting for job in jobs if job.planting}:
        here = {job.kind for job in jobs if job.planting == planting}
        assert not [pair for pair in CONTRARY if pair <= here], planting


@settings(max_examples=30, deadline=None)
@given(SEEDS)
def test_a_bed_has_one_state_of_its_covers_and_one_of_its_guards(seed: int) -> None:
    settled = Counter(job.settles for job in day_of(seed).jobs)
    states = {what: times for what, times in settled.items() if what.startswith(("cover:", "guard:"))}
    assert states == dict.fromkeys(states, 1)


# found so: netting for two beds where there was enough for one
@example(1245)
@example(1272)
@example(1412)
@settings(max_examples=30, deadline=None)
@given(SEEDS)
def test_nothing_is_given_out_twice(seed: int) -> None:
    """Ground, cloth and seed: what one job of a day takes, no other counts on."""
    day = day_of(seed)
    ground = [
        (job.bed, act.block, job.id)
        for job in day.jobs
        for act in job.done
        if isinstance(act, Sown | PlantedOut) and act.block is not None
    ]
    assert not [
        (one[2], other[2])
        for one, other in combinations(ground, 2)
        if one[0] == other[0] and overlap(cast(Block, one[1]), cast(Block, other[1]))
    ]
    for item in day.garden.kit.values():
        wanted = [take for job in day.jobs for take in job.take if take.what == item.item]
        if item.free_m is not None:
            assert sum(take.length_m or 0.0 for take in wanted) <= max(item.free_m, 0.0) + 1e-6, item.item


def test_the_drawn_gardens_hold_work() -> None:
    """The tests above would pass on gardens without jobs: most must have some."""
    found = [day_of(seed) for seed in range(12)]
    assert sum(bool(day.jobs) for day in found) >= 9
    assert len({job.kind for day in found for job in day.jobs}) >= 4
