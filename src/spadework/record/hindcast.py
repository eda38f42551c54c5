"""The clock asked about past seasons as if they were to come: each year foretold from the others."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from spadework.clock.batch import finish_all
from spadework.record.scores import Score, packet_miss, scored
from spadework.types import Floats, Ints


@dataclass(frozen=True)
class Stage:
    """Scores with a share of the way behind: from the years, and from the packet's fixed days."""

    share: float
    years: Score
    packet_mae: float


def ready_hindcast(
    rates: Floats, sow_day: int, required_days: float, shares: tuple[float, ...] = (0.0, 0.25, 0.5, 0.75)
) -> list[Stage]:
    """Score the day a requirement is met, at sowing and on the way, leaving each year out.

    Parameters
    ----------
    rates : array, shape (year, day)
        Daily progress; rows long enough to finish.
    sow_day : int
        Column of sowing.
    required_days : float
        Progress needed.
    shares : tuple of float
        Shares of the way at which to ask again.

    Returns
    -------
    list of Stage

    Notes
    -----
    Weather alone: the requirement is taken as known. On the way, the year so far is its own and each other
    year continues it from the same calendar day.
    """
    years, days = rates.shape
    finish = _finish(rates, sow_day, np.full(years, required_days))
    if int(finish.max()) >= days:
        raise ValueError("A year ends before the requirement is met: give longer rows.")
    running = np.cumsum(rates, axis=1)
    before = running[:, sow_day - 1] if sow_day > 0 else np.zeros(years)
    stages = []
    for share in shares:
        ensembles: list[Floats] = []
        for year in range(years):
            gathered = running[year] - before[year]
            asked = sow_day if share == 0.0 else int(np.argmax(gathered >= share * required_days)) + 1
            left = required_days - (gathered[asked - 1] if asked > sow_day else 0.0)
            others = np.delete(rates, year, axis=0)
            ensembles.append(_finish(others, asked, np.full(years - 1, left)).astype(np.float64))
        stages.append(
            Stage(share, scored(ensembles, finish.astype(np.float64)), packet_miss(finish.astype(np.float64)))
        )
    return stages


def _finish(rates: Floats, start: int, required: Floats) -> Ints:
    found = finish_all(rates[None], np.array([start]), required[:1])[0, :, 0]
    return np.asarray(found, dtype=np.int64)
