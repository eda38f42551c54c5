"""The clock asked about past seasons as if they were to come: each year foretold from the others."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from spadework.clock.batch import finish_all
from spadework.clock.ground import Ground
from spadework.clock.sprout import first_reaching
from spadework.record.scores import Score, packet_miss, scored
from spadework.types import Floats, Ints
from spadework.weather.years import Years

SHARES = (0.0, 0.25, 0.5, 0.75)
"""Shares of the way behind at which a season is asked about again."""


@dataclass(frozen=True)
class Stage:
    """Scores with a share of the way behind: from the years, and from the packet's fixed days.

    Parameters
    ----------
    share : float
        Of the way, 0 at the start.
    years : Score
        The other years as an ensemble [d].
    packet_mae : float
        Mean miss of the mean of the other years' durations [d].
    left_out : int
        Years that never got there, and so are no case.
    """

    share: float
    years: Score
    packet_mae: float
    left_out: int = 0


def ready_hindcast(
    rates: Floats, sow_day: int, required_days: float, shares: tuple[float, ...] = SHARES
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
    year continues it from the same calendar day: asked in the morning of the day that passes the share.
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
            asked = sow_day if share == 0.0 else int(np.argmax(gathered >= share * required_days))
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


def course_hindcast(
    ground: Ground, start_day: int, way: Callable[[Ground], Floats], shares: tuple[float, ...] = SHARES
) -> list[Stage]:
    """Score the day a course arrives, at its start and on the way, leaving each year out.

    Parameters
    ----------
    ground : Ground
        The place through whole past years, nothing of them seen; no told facts.
    start_day : int
        Column of sowing or setting out.
    way : callable
        From a ground to the share of the way, [year, day]: 1 on arrival.
    shares : tuple of float
        Shares of the way at which to ask again.

    Returns
    -------
    list of Stage

    Notes
    -----
    Air and soil up to the morning asked are the year's own, so that the soil carries its warmth over. A year
    that does not arrive is no case; a member that does not counts as arriving at the end of the window. Days
    are counted with their parts: whole days would let every interval hold the days on its edges, which are
    many where a crop is up within a day or two of the usual.
    """
    own_way = way(ground)
    arrived = arrival(own_way)
    cases = np.flatnonzero(arrived < own_way.shape[1])
    truths = arrived[cases]
    stages = []
    for share in shares:
        ensembles = []
        for year in cases:
            asked = start_day if share == 0.0 else max(int(np.argmax(own_way[year] >= share)), start_day)
            told = Ground(ground.site, seen_until(ground.years, int(year), asked), ground.surface)
            ensembles.append(arrival(way(told)))
        stages.append(Stage(share, scored(ensembles, truths), packet_miss(truths), arrived.size - cases.size))
    return stages


def arrival(way: Floats) -> Floats:
    """When a rising way reaches 1, in days and parts of days from the first column's morning, [year].

    Parameters
    ----------
    way : array, shape (year, day)
        Share of the way by the end of each day.

    Returns
    -------
    array, shape (year,)
        The number of columns where 1 is never reached.
    """
    day = first_reaching(way, 1.0)
    rows, last = np.arange(day.size), way.shape[1] - 1
    end = way[rows, np.minimum(day, last)]
    start = np.where(day > 0, way[rows, np.maximum(day - 1, 0)], 0.0)
    # a day that gains what was missing before its start counts from its morning
    gained = np.where(np.isfinite(start), end - np.minimum(start, 1.0), 1.0)
    part = np.clip((1.0 - np.where(np.isfinite(start), start, 0.0)) / np.maximum(gained, 1e-12), 0.0, 1.0)
    return np.where(day > last, float(way.shape[1]), day + part)


def seen_until(years: Years, row: int, seen: int) -> Years:
    """One year as seen before a column, continued by every other year.

    Parameters
    ----------
    years : Years
        Whole past years.
    row : int
        The year asked about; it is left out of its own continuations.
    seen : int
        Columns before this one are its own.
    """

    def spliced(values: Floats) -> Floats:
        others = np.delete(values, row, axis=0)
        others[:, :seen] = values[row, :seen]
        return others

    return replace(
        years,
        tmin_c=spliced(years.tmin_c),
        tmax_c=spliced(years.tmax_c),
        rain_mm=spliced(years.rain_mm),
        solar_mj=None if years.solar_mj is None else spliced(years.solar_mj),
        wind_m_s=None if years.wind_m_s is None else spliced(years.wind_m_s),
        labels=years.labels[:row] + years.labels[row + 1 :],
        made=np.delete(years.made, row),
        seen_days=seen,
    )


def window(years: Years, first: int, end: int) -> Years:
    """The same years from one column up to another."""

    def part(values: Floats) -> Floats:
        return values[:, first:end]

    return replace(
        years,
        first_day=years.first_day + first,
        tmin_c=part(years.tmin_c),
        tmax_c=part(years.tmax_c),
        rain_mm=part(years.rain_mm),
        solar_mj=None if years.solar_mj is None else part(years.solar_mj),
        wind_m_s=None if years.wind_m_s is None else part(years.wind_m_s),
    )
