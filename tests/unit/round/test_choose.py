"""The walk on small cases that can be checked by eye."""

from __future__ import annotations

import time
from itertools import pairwise

import numpy as np
import pytest

from spadework.round.choose import Task, choose
from walks import drawn_case

LINE = np.abs(np.arange(5.0)[:, None] - np.arange(5.0)[None, :])  # five places in a row, a minute apart


def task(name: str, place: int, minutes: float = 1.0, value: float = 1.0, **more: object) -> Task:
    return Task(id=name, place=place, minutes=minutes, value=value, **more)  # type: ignore[arg-type]


def test_it_takes_what_is_worth_most_for_its_minutes() -> None:
    walk = choose([task("far", 4, value=1.0), task("near", 1, value=1.0)], LINE, [4.0])[0]
    assert [stop.tasks for stop in walk.stops] == [("near",)]
    assert walk.minutes == pytest.approx(3.0)


def test_one_stop_for_each_bed_and_the_way_back_counts() -> None:
    tasks = [task("a", 2), task("b", 2), task("c", 3)]  # the nearer bed, worth more, comes first
    walk = choose(tasks, LINE, [9.0])[0]
    assert [stop.place for stop in walk.stops] == [2, 3]
    assert (walk.minutes, walk.walking, walk.value) == (9.0, 6.0, 3.0)


def test_nothing_fits_into_no_time() -> None:
    assert choose([task("a", 1)], LINE, [0.0])[0].stops == ()
    assert choose([], LINE, [60.0])[0].stops == ()


def test_what_settles_the_same_is_done_once() -> None:
    tasks = [task("on", 1, value=2.0, settles="cover:1"), task("off", 1, value=1.0, settles="cover:1")]
    walk = choose(tasks, LINE, [60.0])[0]
    assert [stop.tasks for stop in walk.stops] == [("on",)]


def test_hours_are_kept_and_waiting_counts() -> None:
    tasks = [task("evening", 1, value=5.0, hours=((40.0, 60.0),)), task("any", 2, value=1.0)]
    walk = choose(tasks, LINE, [60.0])[0]
    begins = {name: begin for stop in walk.stops for name, begin in zip(stop.tasks, stop.begins, strict=True)}
    assert begins["evening"] >= 40.0
    assert walk.minutes >= 41.0
    assert choose(tasks[:1], LINE, [30.0])[0].stops == ()


def test_work_is_shared_and_each_does_only_what_they_may() -> None:
    tasks = [task("lift", 1, minutes=5.0, value=5.0, people=(0,)), task("b", 4, minutes=5.0, value=5.0)]
    walks = choose(tasks, LINE, [8.0, 14.0])
    assert [stop.tasks for stop in walks[0].stops] == [("lift",)]
    assert [stop.tasks for stop in walks[1].stops] == [("b",)]


def test_the_same_tasks_give_the_same_walk() -> None:
    tasks, distance = drawn_case(40, 30, seed=3)
    assert choose(tasks, distance, [45.0]) == choose(tasks, distance, [45.0])


@pytest.mark.parametrize("seed", range(6))
def test_no_walk_takes_more_than_its_minutes(seed: int) -> None:
    tasks, distance = drawn_case(60, 30, seed=seed)
    for budget in (10.0, 30.0, 60.0):
        walk = choose(tasks, distance, [budget])[0]
        chosen = [each for stop in walk.stops for each in stop.tasks]
        service = sum(t.minutes for t in tasks if t.id in chosen)
        path = [0, *(stop.place for stop in walk.stops), 0]
        walked = sum(distance[a, b] for a, b in pairwise(path))
        assert walk.minutes == pytest.approx(service + walked)
        assert walk.minutes <= budget + 1e-6
        assert len(set(chosen)) == len(chosen)


@pytest.mark.parametrize("seed", range(4))
def test_more_minutes_never_save_less(seed: int) -> None:
    tasks, distance = drawn_case(40, 20, seed=seed)
    saved = [choose(tasks, distance, [budget])[0].value for budget in (15.0, 20.0, 30.0, 45.0, 60.0, 90.0)]
    assert saved == sorted(saved)


def test_sixty_tasks_in_a_fifth_of_a_second() -> None:
    tasks, distance = drawn_case(60, 30, seed=1)
    choose(tasks, distance, [60.0], ruins=1)
    times = []
    for _ in range(3):
        begun = time.process_time()
        choose(tasks, distance, [60.0])
        times.append(time.process_time() - begun)
    assert min(times) < 0.2


def test_each_has_their_own_minutes_for_a_task() -> None:
    slow = task("weed", 1, minutes=5.0, value=5.0, own_minutes=(12.0, 3.0))
    walks = choose([slow], LINE, [10.0, 10.0])
    assert [len(walk.stops) for walk in walks] == [0, 1]
    assert walks[1].minutes == pytest.approx(5.0)
    timed = task("weed", 1, minutes=5.0, value=5.0, own_minutes=(12.0, 3.0), hours=((0.0, 6.0),))
    walks = choose([timed], LINE, [30.0, 30.0])
    assert [len(walk.stops) for walk in walks] == [0, 1]
