"""The coming night by the nights just seen, where no forecast speaks of it."""

from __future__ import annotations

from typing import Final

import numpy as np

from spadework.types import Floats

PERSISTS: Final = 0.65
"""Correlation of one night's minimum with the next, as departures from the season's. Class: measured; 0.6 to
0.8 by season at Brussels, Champion (Nebraska) and Clemson, 30 to 91 years each."""

SEASON_NIGHTS: Final = 7
"""Nights ahead whose mean over the years stands for the season's. Our own rule."""

LOOKED_BACK: Final = 3
"""Days back for which a night seen still says something. Our own rule."""


def next_night_c(tmin_c: Floats, column: int, *, forecast: bool) -> Floats:
    """Shelter minimum of the night after a day, [year]  [degC].

    Parameters
    ----------
    tmin_c : array, shape (year, day)  [degC]
        What is seen is the same in every year.
    column : int
        The day.
    forecast : bool
        Whether the night is foretold: then the years hold it already.

    Notes
    -----
    Each past year's own night is drawn towards the last night seen: what is left of that night's departure
    from the season, and of each year's as much as keeps the spread of a night so foretold.
    """
    last = tmin_c.shape[1] - 1
    night: Floats = tmin_c[:, min(column + 1, last)]
    seen = [day for day in range(column, max(column - LOOKED_BACK, -1), -1) if not np.ptp(tmin_c[:, day])]
    if forecast or not seen or not np.ptp(night):
        return night
    kept = PERSISTS ** (column + 1 - seen[0])
    season = float(tmin_c[:, column + 1 : column + 1 + SEASON_NIGHTS].mean())
    left = float(tmin_c[0, seen[0]]) - season
    found: Floats = season + kept * left + np.sqrt(1.0 - kept**2) * (night - night.mean())
    return found
