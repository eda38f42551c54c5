"""Many crops, many years, many sowing days at once.

The day's place on the response grid is worked out once for the weather and shared by all crops: a sparse
matrix of four weights a day takes every crop's table to its daily rates in one product.
"""

from __future__ import annotations

import numpy as np

from spadework.science.response import ResponseTable
from spadework.types import Floats, Ints


def daily_rates(tables: list[ResponseTable], mean_c: Floats, half_range_c: Floats) -> Floats:
    """Daily rates of many crops on the same weather.

    Parameters
    ----------
    tables : list of ResponseTable, length crop
        All on the same grid.
    mean_c, half_range_c : array, shape (year, day)  [degC]
        Mean and half-range of the day.

    Returns
    -------
    array, shape (crop, year, day)
        Physiological days gained each day.
    """
    weights = tables[0].weights(mean_c.ravel(), half_range_c.ravel())
    stacked = np.stack([table.values.ravel() for table in tables])
    rates: Floats = np.asarray((weights @ stacked.T).T)
    return np.ascontiguousarray(rates).reshape(len(tables), *mean_c.shape)


def finish_all(rates: Floats, sow_days: Ints, required_days: Floats) -> Ints:
    """First day on which each sowing has gathered what its crop needs.

    Parameters
    ----------
    rates : array, shape (crop, year, day)
        Physiological days gained each day.
    sow_days : array of int, shape (sowing,)
        Columns on which to begin; the day itself counts.
    required_days : array, shape (crop,)
        Physiological days to gather.

    Returns
    -------
    array of int, shape (crop, year, sowing)
        Column reached; the number of columns where it never is.
    """
    crops, years, days = rates.shape
    running = np.cumsum(rates, axis=-1)
    before = np.where(sow_days > 0, running[:, :, np.maximum(sow_days - 1, 0)], 0.0)
    # a hair less than the requirement, so that rounding in the running sum never delays a day
    goal = before + (required_days * (1.0 - 1e-12))[:, None, None]
    finish = np.empty((crops, years, sow_days.size), dtype=np.int64)
    for crop in range(crops):
        for year in range(years):
            finish[crop, year] = np.searchsorted(running[crop, year], goal[crop, year])
    return np.minimum(finish, days)
