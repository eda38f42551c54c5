"""Whole years on a fixed calendar, for odds of a date."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from spadework.errors import RecordError
from spadework.types import Bools, Floats
from spadework.weather.made_years import NOTHING_TOLD, Climate, top_up
from spadework.weather.series import Series, as_day
from spadework.weather.year_rules import (
    ADD_OR_TELL,
    FEWEST_YEARS,
    FILLED_DAYS_ALLOWED,
    THIN_YEARS,
    counted,
    no_weather,
)

_A_DAY = np.timedelta64(1, "D")


@dataclass(frozen=True, eq=False)
class CalendarYears:
    """Whole years on a fixed calendar of 365 days, for odds of a date such as the last frost.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (year, 365)  [degC]
        Column 0 is 1 January, or 1 July in the south, so that winter lies at both ends.
    labels : tuple of int
        The calendar year of column 0; 0 where the year was made.
    made : array of bool, shape (year,)
        True for years made from monthly normals.
    south : bool
        Whether columns start in July.
    note : str
        What a person must know; empty when there is nothing.
    """

    tmin_c: Floats
    tmax_c: Floats
    labels: tuple[int, ...]
    made: Bools
    south: bool
    note: str

    @property
    def count(self) -> int:
        """Number of years."""
        return len(self.labels)

    def day(self, column: int, year: int | None = None) -> np.datetime64:
        """Calendar day of a column in the year labelled `year` (by default one without a 29 February)."""
        first = 2001 if year is None else year
        opening = np.datetime64(f"{first:04d}-{'07' if self.south else '01'}-01", "D")
        plain = np.datetime64("2001-07-01" if self.south else "2001-01-01", "D") + int(column) * _A_DAY
        years_on = int(str(plain)[:4]) - 2001
        return np.datetime64(f"{int(str(opening)[:4]) + years_on:04d}{str(plain)[4:]}", "D")

    def column(self, day: date | np.datetime64) -> int:
        """Column of a calendar day; 29 February counts as the 28th."""
        return column_of_day(day, south=self.south)


def column_of_day(day: date | np.datetime64, *, south: bool) -> int:
    """Column of a calendar day in years from 1 January, or 1 July in the south; 29 February as the 28th."""
    text = str(as_day(day))[5:]
    text = "02-28" if text == "02-29" else text
    year = 2002 if south and text < "07-01" else 2001
    opening = np.datetime64("2001-07-01" if south else "2001-01-01", "D")
    return int((np.datetime64(f"{year}-{text}", "D") - opening) / _A_DAY)


def calendar_years(
    series: Series | None,
    last: int | None = 30,
    today: date | np.datetime64 | None = None,
    *,
    south: bool = False,
    climate: Climate = NOTHING_TOLD,
) -> CalendarYears:
    """Whole years of minimum and maximum, column by calendar day.

    Parameters
    ----------
    series : Series or None
        Filled record; nothing after `today` is used. None where there is none.
    last : int or None
        How many of the most recent complete years; None for all.
    today : date or None
        None: the record's end.
    south : bool
        Years from 1 July to 30 June.
    climate : Climate
        What made years may be drawn from where there are fewer than `THIN_YEARS` complete ones.

    Returns
    -------
    CalendarYears
        Only years without a missing temperature and with at most `FILLED_DAYS_ALLOWED` filled days.

    Raises
    ------
    RecordError
        If fewer than `FEWEST_YEARS` are complete and there is nothing to make others from.

    Notes
    -----
    The 29 February is left out, so a column is the same calendar day in every year. A frost that falls only
    on that night, in a place whose last frost is then, is not seen.
    """
    rows: list[NDArray[np.int64]] = []
    labels: list[int] = []
    if series is None:
        limit = as_day(date.today() if today is None else today)
    else:
        limit = series.end if today is None else min(as_day(today), series.end)
        rows, labels = _complete(series, limit, south)
    more = top_up(series, climate, len(labels), limit, last)
    if last is not None:
        rows, labels = rows[-last:], labels[-last:]
    if len(labels) < FEWEST_YEARS and more is None:
        if series is None:
            raise no_weather()
        raise RecordError(
            f"The record has {counted(len(labels), 'complete year')} up to {limit}.",
            f"At least {FEWEST_YEARS} are needed: {ADD_OR_TELL}",
        )
    index = np.asarray(rows, dtype=np.int64).reshape(-1, 365)
    low = np.empty((0, 365)) if series is None else series.tmin_c[index]
    high = np.empty((0, 365)) if series is None else series.tmax_c[index]
    made = np.zeros(0, np.bool_) if series is None else series.made[index].any(axis=1)
    notes = []
    if more is not None:
        opening = np.datetime64("2001-07-01" if south else "2001-01-01", "D")
        extra = more.from_day(opening, 365)
        low, high = np.concatenate((low, extra.tmin_c)), np.concatenate((high, extra.tmax_c))
        made = np.concatenate((made, np.ones(more.count, np.bool_)))
        labels = [*labels, *more.labels]
        notes.append(more.note)
    elif len(labels) < THIN_YEARS:
        notes.append(f"Thin: the odds stand on {len(labels)} years only.")
    if made.any() and more is None:
        notes.append("Made weather: drawn from monthly normals, not measured.")
    return CalendarYears(low, high, tuple(labels), np.asarray(made, np.bool_), south, " ".join(notes))


def _complete(series: Series, limit: np.datetime64, south: bool) -> tuple[list[NDArray[np.int64]], list[int]]:
    """Positions and label of every complete year, oldest first."""
    opening = "07-01" if south else "01-01"
    filled = series.filled_days("tmin_c", "tmax_c")
    rows: list[NDArray[np.int64]] = []
    labels: list[int] = []
    for year in range(int(str(series.start)[:4]), int(str(limit)[:4]) + 1):
        first = np.datetime64(f"{year:04d}-{opening}", "D")
        stop = np.datetime64(f"{year + 1:04d}-{opening}", "D")
        if first < series.start or stop - _A_DAY > limit:
            continue
        at = np.arange(series.index_of(first), series.index_of(stop))
        if at.size == 366:
            leap = series.index_of(np.datetime64(f"{year + south:04d}-02-29", "D"))
            at = at[at != leap]
        if np.isnan(series.tmin_c[at]).any() or np.isnan(series.tmax_c[at]).any():
            continue
        if filled[at].sum() > FILLED_DAYS_ALLOWED:
            continue
        rows.append(at)
        labels.append(year)
    return rows, labels
