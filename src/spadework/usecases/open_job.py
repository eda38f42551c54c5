"""One job opened up: beside what is shown of it everywhere, what waiting leaves of it in every year."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

import msgspec
import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.odds import Odds, odds_of
from spadework.advice.scene import Scene
from spadework.usecases.jobs_today import JobView, view

ENOUGH: Final = 0.9
"""Nearly all of it is still there: nine tenths. Our own rule."""

ASKED_DAYS: Final = (3, 7, 14)
"""Days of waiting of which it is said in how many years nearly all is still there."""


class LeftAfter(msgspec.Struct, frozen=True, kw_only=True):
    """In how many years waiting so long still leaves nearly all of it."""

    days: int
    on: date
    odds: Odds


class Waiting(msgspec.Struct, frozen=True, kw_only=True):
    """What is left of what a job serves, by the day it is done, as a share of its worth.

    Parameters
    ----------
    days : list of date
        From today on.
    left : list of float
        Mean of the years, for each day.
    poor, good : list of float
        So much or less in one year of ten, and so much or more in one of ten.
    years : list of list of float
        Each year's own.
    enough : float
        Share that counts as nearly all.
    after : list of LeftAfter
    """

    days: list[date]
    left: list[float]
    poor: list[float]
    good: list[float]
    years: list[list[float]]
    enough: float
    after: list[LeftAfter]


class JobOpened(JobView, frozen=True, kw_only=True):
    """A job as it is shown, and what waiting leaves of it."""

    ahead: Waiting


def open_job(job: Job, scene: Scene) -> JobOpened:
    """A job with all it rests on."""
    shown = view(job, scene)
    told = {name: getattr(shown, name) for name in shown.__struct_fields__}
    return JobOpened(**told, ahead=waiting_of(job, scene))


def waiting_of(job: Job, scene: Scene) -> Waiting:
    """What is left of what a job serves by each of the days ahead, against doing it today."""
    left = np.clip(1.0 - (job.loss - job.loss[:, :1]), 0.0, 1.0)
    days = [scene.today + timedelta(days=day) for day in range(AHEAD_DAYS + 1)]
    return Waiting(
        days=days,
        left=_short(left.mean(axis=0)),
        poor=_short(np.quantile(left, 0.1, axis=0)),
        good=_short(np.quantile(left, 0.9, axis=0)),
        years=[_short(year) for year in left],
        enough=ENOUGH,
        after=[
            LeftAfter(
                days=day,
                on=days[day],
                odds=odds_of((left[:, day] >= ENOUGH).astype(np.float64), scene.ground.years.made),
            )
            for day in ASKED_DAYS
        ],
    )


def _short(values: np.ndarray) -> list[float]:
    return [round(float(value), 3) for value in values]
