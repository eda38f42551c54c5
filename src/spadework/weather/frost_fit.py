"""Made years that meet the frost dates a person was told."""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from functools import lru_cache
from typing import Final, Protocol

import numpy as np

from spadework.errors import ParameterError
from spadework.types import Bools, Floats
from spadework.weather.made import made_days
from spadework.weather.normals import MEAN_WAVES, SD_WAVES, Normals, yearly_course

ROWS: Final = 400
"""Made years a fit is tried on."""

SHIFT_SD_C: Final = 25.0
LOG_FACTOR_SD: Final = 3.0
"""Weak pull back towards the normals as they are: told dates win wherever they can be met, and dates that
cannot be met do not ask for impossible nights. Class: common-practice."""

NORMAL_TENTH: Final = 1.2816
"""Standard deviations from the middle to the outer tenth of a normal spread (computed)."""

_SPRING: Final = np.array([0.5, 1, 1, 1, 1, 1, 0.5, 0, 0, 0, 0, 0])
_HALF_YEAR: Final = 181
_SPRING_DAYS: Final = 196
_STEPS: Final = 12


class FrostDates(Protocol):
    """Told dates of a limit: chances with days, or a middle day with its spread."""

    @property
    def below_c(self) -> float: ...
    @property
    def season(self) -> str: ...
    @property
    def dates(self) -> tuple[tuple[float, date], ...]: ...
    @property
    def median(self) -> date | None: ...
    @property
    def spread_days(self) -> float | None: ...


def fit_to_frost_table(normals: Normals, tables: Sequence[FrostDates], *, south: bool = False) -> Normals:
    """Normals whose made years have the told odds of frost.

    Parameters
    ----------
    normals : Normals
        Of the place, or told.
    tables : sequence of FrostDates
        Spring: chance of a frost on or after the day; autumn: on or before it.
    south : bool
        South of the equator.

    Returns
    -------
    Normals
        With the minima shifted and their spread widened or narrowed. A table of one season alone speaks for
        the whole year; where both are told each speaks for its half.

    Raises
    ------
    ParameterError
        If a table holds no date, or a chance that is not between 0 and 1.

    Notes
    -----
    Least squares of the normal deviates of the chances, by Gauss-Newton on one fixed draw of made years. A
    lone date moves the minima only. Dates that no shift and spread can meet are met as nearly as possible.

    Source
    ------
    computed: the least-squares fit of two numbers a season.
    """
    points = tuple(sorted(point for table in tables for point in _points(table, south)))
    if not points:
        return normals
    return _fitted(_Task(normals, points, south))


class _Task:
    """A fit by its content, so that it is done once a process."""

    def __init__(
        self, normals: Normals, points: tuple[tuple[str, float, int, float], ...], south: bool
    ) -> None:
        self.normals, self.points, self.south = normals, points, south
        self.key = (normals.name, normals.basis, normals.content, points, south)

    def __hash__(self) -> int:
        return hash(self.key)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Task) and other.key == self.key


@lru_cache(maxsize=8)
def _fitted(task: _Task) -> Normals:
    normals, south = task.normals, task.south
    made = made_days(normals, ROWS, zlib.crc32(b"frost" + normals.name.encode()))
    day = np.arange(365, dtype=np.float64) + 0.5
    mean = yearly_course(normals.tmin_c + normals.tmin_shift_c, day, MEAN_WAVES)
    shift, factor = np.zeros(12), np.ones(12)
    seasons = sorted({season for season, *_ in task.points})
    for season in seasons:
        points = [point[1:] for point in task.points if point[0] == season]
        months = _months(season, south) if len(seasons) > 1 else np.ones(12)
        weight = np.clip(yearly_course(months, day, SD_WAVES), 0.0, 1.0)
        by, times = _solve(made.tmin_c, mean, weight, season, points, south)
        shift += by * months
        factor *= 1.0 + (times - 1.0) * months
    return replace(
        normals,
        tmin_shift_c=normals.tmin_shift_c + shift,
        tmin_sd_c=normals.tmin_sd_c * factor,
        basis=f"{normals.basis}, fitted to the told frost dates",
    )


def _solve(
    tmin: Floats,
    mean: Floats,
    weight: Floats,
    season: str,
    points: list[tuple[float, int, float]],
    south: bool,
) -> tuple[float, float]:
    """Shift of the minima and factor on their spread."""
    # The standard library's normal, read only here: a few scalars do not pay for importing SciPy.
    from statistics import NormalDist

    deviate = NormalDist().inv_cdf
    wanted = np.array([deviate(chance) for *_, chance in points])
    lone = len(points) == 1

    def misses(by: float, log_factor: float) -> Floats:
        times = 1.0 + (np.exp(log_factor) - 1.0) * weight
        low = mean + by * weight + times * (tmin - mean)
        low = np.roll(low, -_HALF_YEAR, axis=1) if south else low
        chances = [deviate(_chance(low <= limit, season, column)) for limit, column, _ in points]
        return np.concatenate((np.array(chances) - wanted, [by / SHIFT_SD_C, log_factor / LOG_FACTOR_SD]))

    at = np.zeros(2)
    best, least = at, float(np.sum(misses(0.0, 0.0) ** 2))
    for _ in range(_STEPS):
        here = misses(*at)
        slope = np.stack(
            [
                (misses(at[0] + 0.4, at[1]) - misses(at[0] - 0.4, at[1])) / 0.8,
                (misses(at[0], at[1] + 0.1) - misses(at[0], at[1] - 0.1)) / 0.2,
            ],
            axis=1,
        )
        slope = slope[:, :1] if lone else slope
        step, *_ = np.linalg.lstsq(slope, -here, rcond=None)
        step = np.clip(np.pad(step, (0, 2 - step.size)), [-2.0, -0.3], [2.0, 0.3])
        at = np.clip(at + step, [-8.0, -0.9], [8.0, 0.9])
        size = float(np.sum(misses(*at) ** 2))
        if size < least:
            best, least = at, size
        if np.abs(step).max() < 0.02:
            break
    return float(best[0]), float(np.exp(best[1]))


def _chance(frost: Bools, season: str, column: int) -> float:
    """Chance of a frost from the column on in spring, up to it in autumn; never quite 0 or 1."""
    part = frost[:, column:_SPRING_DAYS] if season == "spring" else frost[:, _SPRING_DAYS : column + 1]
    years = int(np.count_nonzero(part.any(axis=1)))
    return (years + 0.5) / (len(frost) + 1.0)


def _months(season: str, south: bool) -> Floats:
    months = _SPRING if season == "spring" else 1.0 - _SPRING
    return np.roll(months, 6) if south else months


def _points(table: FrostDates, south: bool) -> list[tuple[str, float, int, float]]:
    """(season, limit, column of the year's axis, chance) of everything a table says."""
    points = []
    for chance, day in table.dates:
        if not 0.0 < chance < 1.0:
            raise ParameterError(f"A frost chance of {chance:g} cannot be met.", "Give one between 0 and 1.")
        points.append((table.season, table.below_c, _column(day, south), chance))
    if table.median is not None:
        middle = _column(table.median, south)
        points.append((table.season, table.below_c, middle, 0.5))
        if table.spread_days:
            reach = round(NORMAL_TENTH * table.spread_days)
            early, late = (0.9, 0.1) if table.season == "spring" else (0.1, 0.9)
            points.append((table.season, table.below_c, max(middle - reach, 0), early))
            points.append((table.season, table.below_c, min(middle + reach, 364), late))
    if not points:
        raise ParameterError(f"The frost table for {table.below_c:g} °C holds no date.", "Give a date.")
    return points


def _column(day: date, south: bool) -> int:
    """Column on an axis that has winter at both ends."""
    of_year = (date(2001, day.month, min(day.day, 28) if day.month == 2 else day.day) - date(2001, 1, 1)).days
    return (of_year - _HALF_YEAR) % 365 if south else of_year
