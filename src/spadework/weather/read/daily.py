"""From rows through the day to one row a day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.types import Floats

WHOLE_DAY_SHARE: Final = 0.75
"""A day with a smaller share of the usual number of rows has no minimum or maximum. Common practice, no
source."""


@dataclass(frozen=True)
class Daily:
    """One row a day. `clashes` are rows that give a day again without a time: (row, first row, date)."""

    days: NDArray[np.int64]
    values: Mapping[str, Floats]
    notes: tuple[str, ...]
    clashes: tuple[tuple[int, int, np.datetime64], ...]


def to_daily(days: NDArray[np.int64], hour: Floats, numbers: Mapping[str, Floats], *, running: bool) -> Daily:
    """Minimum, maximum, sum or mean over the rows of each day.

    Parameters
    ----------
    days : int array, shape (row,)
        Day numbers since 1970-01-01, in any order.
    hour : array, shape (row,)  [h]
        Time of day; NaN where the file has none.
    numbers : mapping of quantity to array, shape (row,)
        `temp` gives minimum and maximum where there are no columns for them.
    running : bool
        Rain counts up through the day: the day's is the largest, not the sum.

    Returns
    -------
    Daily
        Sorted by day.

    Notes
    -----
    The day is the calendar day of the file's own clock. Days with under `WHOLE_DAY_SHARE` of the usual
    number of rows keep no temperatures, because the night or the afternoon may be missing.
    """
    notes: list[str] = []
    if days.size > 1 and (np.diff(days) < 0).any():
        notes.append("The rows were not in order of date; they were sorted.")
    order = np.argsort(days, kind="stable")
    sorted_days = days[order]
    starts = np.flatnonzero(np.concatenate(([True], np.diff(sorted_days) > 0)))
    counts = np.diff(np.concatenate((starts, [days.size])))
    unique = sorted_days[starts]
    arranged = {quantity: values[order] for quantity, values in numbers.items()}
    if counts.max() == 1:
        arranged.pop("temp", None)
        return Daily(unique, arranged, tuple(notes), ())
    timed = ~np.isnan(hour[order])
    again = np.flatnonzero(np.repeat(counts > 1, counts) & ~timed)
    again = again[~np.isin(again, starts)]
    if again.size:
        first_of = np.repeat(starts, counts)
        clashes = tuple(
            (int(order[at]), int(order[first_of[at]]), np.datetime64(int(sorted_days[at]), "D"))
            for at in again
        )
        return Daily(unique, arranged, tuple(notes), clashes)

    low, high = arranged.get("tmin", arranged.get("temp")), arranged.get("tmax", arranged.get("temp"))
    values: dict[str, Floats] = {}
    usual = float(np.median(counts))
    part = counts < WHOLE_DAY_SHARE * usual
    if low is not None and high is not None:
        values["tmin"] = _reduce(np.fmin, low, starts)
        values["tmax"] = _reduce(np.fmax, high, starts)
        values["tmin"][part] = np.nan
        values["tmax"][part] = np.nan
    rain = arranged.get("rain")
    if rain is not None:
        gauge = _reduce(np.fmax, rain, starts) if running else np.add.reduceat(np.nan_to_num(rain), starts)
        any_rain = np.logical_or.reduceat(~np.isnan(rain), starts)
        values["rain"] = np.where(any_rain & ~part, gauge, np.nan)
    for quantity in ("wind", "humidity", "dew", "solar"):
        column = arranged.get(quantity)
        if column is not None:
            known = np.add.reduceat((~np.isnan(column)).astype(np.float64), starts)
            total = np.add.reduceat(np.nan_to_num(column), starts)
            values[quantity] = np.divide(
                total, known, out=np.full(starts.size, np.nan), where=(known > 0) & ~part
            )
    notes.append(
        f"About {usual:g} rows a day were made one: lowest, highest, {'last' if running else 'summed'} rain."
    )
    if part.any():
        notes.append(f"Too few rows to be a whole day, left missing: {int(part.sum())} days.")
    return Daily(unique, values, tuple(notes), ())


def _reduce(rule: np.ufunc, values: Floats, starts: NDArray[np.int64]) -> Floats:
    return np.asarray(rule.reduceat(values, starts), dtype=np.float64)
