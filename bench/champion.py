"""Thirty-seven complete years of daily weather at Champion, Nebraska, as carried by the aquacrop package."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from aquacrop.utils import get_filepath
from numpy.typing import NDArray

from spadework.types import Days, Floats

LAT_DEG, LON_DEG, ELEVATION_M = 40.40, -101.72, 1029.0
"""Roughly where the station stands; memory, good enough for day length and radiation."""

ROW_DAYS = 730


@dataclass(frozen=True)
class Champion:
    """The record as columns, [day]."""

    dates: Days
    tmin_c: Floats
    tmax_c: Floats
    rain_mm: Floats
    et0_mm: Floats

    @property
    def years(self) -> tuple[int, ...]:
        """The calendar years of the record."""
        return tuple(int(year) + 1970 for year in np.unique(self.dates.astype("datetime64[Y]").astype(int)))

    def rows(self, column: Floats, days: int = ROW_DAYS, first: str = "01-01") -> Floats:
        """A column cut to rows [year, day] from one calendar day on, each running on into the following year.

        The last years continue into the first, so that every row is full.
        """
        starts = np.array([np.datetime64(f"{year}-{first}", "D") for year in self.years])
        begin: NDArray[np.int64] = (starts - self.dates[0]).astype(np.int64)
        endless = np.concatenate([column, column[: days + 366]])
        return np.stack([endless[day : day + days] for day in begin])


def read() -> Champion:
    """Read the record from the package's own file."""
    table = np.loadtxt(get_filepath("champion_climate.txt"), skiprows=1)
    day, month, year = (table[:, column].astype(int) for column in range(3))
    written = [f"{y:04d}-{m:02d}-{d:02d}" for y, m, d in zip(year, month, day, strict=True)]
    dates = np.array(written, dtype="datetime64[D]")
    if not (np.diff(dates).astype(int) == 1).all():
        raise ValueError("the Champion record has a gap")
    return Champion(dates, table[:, 3].copy(), table[:, 4].copy(), table[:, 5].copy(), table[:, 6].copy())
