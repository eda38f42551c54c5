"""Reeds: a course, or the seedlings of a sowing, as one line for each year."""

from __future__ import annotations

from datetime import date
from typing import Final

import msgspec
import numpy as np

from spadework.advice.again_answer import Seedlings
from spadework.advice.again_belief import Case, Weighing
from spadework.advice.odds import as_date
from spadework.clock.course import Course
from spadework.types import Floats

POINTS: Final = 56
"""Points of a year's line at most. Our own rule."""

_MOST_READY: Final = 0.9
"""The picture ends where it is ready in this share of the years in which it ever is. Our own rule."""

_TAKEN: Final = 0.5
"""From this chance on to have been lost before it is ready, a year counts as one that took it."""

SEEDLING_DAYS: Final = 42
"""Days from sowing over which seedlings are drawn, and at least three weeks from today. Our own rule."""


class Reeds(msgspec.Struct, frozen=True, kw_only=True):
    """Its way to ready, a line for each year.

    Parameters
    ----------
    days : list of date
    ways : list of list of float
        By year and day: 0 where it begins, 1 where it is ready.
    lost : list of bool
        Years in which most of it is taken before it is ready, or never is ready.
    """

    days: list[date]
    ways: list[list[float]]
    lost: list[bool]


def course_reeds(course: Course, *, least_column: int = 0, stand: Floats | None = None) -> Reeds:
    """Every year's way to ready, from the start until the last of most years is there.

    Parameters
    ----------
    course : Course
    least_column : int
        The picture reaches at least here.
    stand : array, shape (year,), or None
        Chance in each year that enough come up at all; as good as sure where None.
    """
    begin, dates = course.start_day, course.ground.dates
    ready = course.ready.mean(axis=0)
    near = np.flatnonzero(ready >= _MOST_READY * ready[-1])
    end = int(near[0]) if near.size else dates.size - 1
    end = min(max(end, least_column, begin + 7) + 1, dates.size)
    columns = np.unique(np.linspace(begin, end - 1, POINTS).round().astype(int))
    ways = np.clip(course.way[:, columns], 0.0, 1.0)
    taken = 1.0 - course.picked[:, -1] * (1.0 if stand is None else stand)  # or never ready
    return Reeds(
        days=[as_date(dates[column]) for column in columns],
        ways=[[round(float(each), 3) for each in year] for year in ways],
        lost=[bool(each > _TAKEN) for each in taken],
    )


def seedling_reeds(case: Case) -> Seedlings:
    """What stands of a sowing, and what the belief after the counts has still to come in each year."""
    weighing = Weighing(case)
    dates = case.ground.dates
    last = min(max(case.sowing.day + SEEDLING_DAYS, case.today + 21), dates.size - 1)
    columns = np.unique(np.linspace(case.today, last, POINTS // 2).round().astype(int))
    coming = weighing.belief.coming(weighing.progress[:, columns])
    up = case.counts[-1][1]
    standing = up + coming.mean_count.reshape(-1, columns.size)
    # seedlings that stand are those of today: nothing is drawn to have come before it
    standing[:, 0] = up
    return Seedlings(
        counted=[
            (as_date(dates[case.sowing.day]), 0),
            *((as_date(dates[column]), count) for column, count in case.counts),
        ],
        days=[as_date(dates[column]) for column in columns],
        standing=[[round(float(each), 1) for each in year] for year in standing],
        short=[bool(each < case.wanted) for each in standing[:, -1]],
        wanted=case.wanted,
    )
