"""Made years for places with few years or none: how many, from what, and what is said about them."""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np

from spadework.types import Floats
from spadework.weather.frost_fit import FrostDates, fit_to_frost_table
from spadework.weather.made import MadeDays, made_days
from spadework.weather.normals import (
    MEAN_WAVES,
    MONTH_DAYS,
    Normals,
    month_of,
    normals_of,
    yearly_course,
)
from spadework.weather.series import Series, as_day
from spadework.weather.year_rules import FEWEST_YEARS, MADE_LABEL, THIN_YEARS, YEARS_WITHOUT_RECORD, counted

_FEWEST_DAYS_A_MONTH: Final = 27
_YEAR_DAYS: Final = 365


@dataclass(frozen=True, eq=False)
class Climate:
    """What made years may be drawn from, besides the record itself.

    Parameters
    ----------
    normals : Normals or None
        As told; where there are any, made years have their means.
    frost : sequence of FrostDates
        Told frost dates that made years have to meet.
    south : bool
        South of the equator; decides what spring is.
    """

    normals: Normals | None = None
    frost: Sequence[FrostDates] = ()
    south: bool = False


NOTHING_TOLD: Final = Climate()


@dataclass(frozen=True, eq=False)
class TopUp:
    """Made years to set beside the real ones.

    Parameters
    ----------
    count : int
        How many rows are wanted.
    normals : Normals
        What they are drawn from.
    note : str
        How many were made, and from what.
    """

    count: int
    normals: Normals
    note: str
    labels: tuple[int, ...] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "labels", (MADE_LABEL,) * self.count)

    def from_day(self, day: np.datetime64, days: int) -> MadeDays:
        """The made rows from a calendar day on, arrays [count, days]; 29 February counts as the 28th."""
        first = calendar_column(day)
        rows = _rows(_Content(self.normals), -(-(first + days) // _YEAR_DAYS))
        part = (slice(self.count), slice(first, first + days))
        return MadeDays(rows.tmin_c[part], rows.tmax_c[part], rows.rain_mm[part])


def led_in(series: Series, start: np.datetime64, normals: Normals) -> Series:
    """A record begun earlier than it does: days before it as the normals have them, flagged as filled."""
    dates = np.arange(start, series.start)
    at = np.array([calendar_column(day) for day in dates], dtype=np.float64) + 0.5
    lead = {
        "tmin_c": yearly_course(normals.tmin_c + normals.tmin_shift_c, at, MEAN_WAVES),
        "tmax_c": yearly_course(normals.tmax_c, at, MEAN_WAVES),
        "rain_mm": (normals.rain_mm / MONTH_DAYS)[month_of(dates)],
    }

    def longer(name: str) -> Floats | None:
        own = series.element(name)
        return None if own is None else np.concatenate((lead.get(name, np.full(dates.size, np.nan)), own))

    low, high, rain = (np.concatenate((lead[name], getattr(series, name))) for name in lead)
    index = np.zeros(series.days, np.int64) if series.source_index is None else series.source_index
    return Series(
        start=start,
        tmin_c=low,
        tmax_c=high,
        rain_mm=rain,
        solar_mj=longer("solar_mj"),
        wind_m_s=longer("wind_m_s"),
        rh_mean_pct=longer("rh_mean_pct"),
        tdew_c=longer("tdew_c"),
        filled={
            name: np.concatenate((np.full(dates.size, name in lead), series.filled_days(name)))
            for name in {*lead, *series.filled}
        },
        source=series.source,
        station=series.station,
        source_names=series.source_names or (series.source,),
        source_index=np.concatenate((np.full(dates.size, index[0]), index)),
    )


def top_up(
    series: Series | None, climate: Climate, real: int, today: date | np.datetime64, most: int | None
) -> TopUp | None:
    """How many years have to be made beside the real ones, and from what.

    Parameters
    ----------
    series : Series or None
        The record; nothing after `today` is used.
    climate : Climate
        What was told.
    real : int
        Real years at hand.
    today : date
    most : int or None
        No more years than this in all were asked for.

    Returns
    -------
    TopUp or None
        None where there are enough, or nothing to make them from.

    Notes
    -----
    Means and rain are the told normals' where there are any, since a short record's own carry its luck; the
    spread of days and how one follows another are the record's own from `FEWEST_YEARS` on. Class: measured
    (tools/score_made_years.py): beside four real years, forecasts of five crop-like sums had a CRPS of 3.56
    days with years made so, 4.12 with years made from the four alone, 4.50 without made years.
    """
    wanted = (THIN_YEARS - real) if real else YEARS_WITHOUT_RECORD
    if most is not None:
        wanted = min(wanted, most - real)
    if wanted <= 0:
        return None
    own = _own_normals(series, today) if series is not None else None
    normals = _together(own, climate.normals)
    if normals is None:
        return None
    if climate.frost:
        normals = fit_to_frost_table(normals, climate.frost, south=climate.south)
    return TopUp(wanted, normals, _note(real, wanted, normals))


def calendar_column(day: date | np.datetime64) -> int:
    """Day of a year of 365 days, 1 January 0; 29 February counts as the 28th."""
    text = str(as_day(day))[5:]
    text = "02-28" if text == "02-29" else text
    return int((np.datetime64(f"2001-{text}", "D") - np.datetime64("2001-01-01", "D")).astype(np.int64))


def _note(real: int, made: int, normals: Normals) -> str:
    if real == 0:
        return f"Made weather: all {made} years are drawn from {normals.basis}; none of them was measured."
    return f"Few years: {real} measured and {made} made, drawn from {normals.basis}."


def _own_normals(series: Series, today: date | np.datetime64) -> _Own | None:
    """Normals of the record up to today, where every month has years enough of measured days."""
    stop = series.index_of(today) + 1
    if stop < FEWEST_YEARS * _YEAR_DAYS:
        return None
    part = series if stop >= series.days else series.between(series.start, today)
    return _normals_of_record(_Record(part))


def _together(own: _Own | None, told: Normals | None) -> Normals | None:
    """Told means with the record's own spread; what there is where one of them is missing."""
    if own is None or told is None:
        return told if own is None else own.normals
    return replace(
        told,
        tmin_sd_c=own.normals.tmin_sd_c,
        tmax_sd_c=own.normals.tmax_sd_c,
        carry_over=own.normals.carry_over,
        innovation=own.normals.innovation,
        basis=f"told monthly normals and the spread of days in the record's own {counted(own.years, 'year')}",
    )


@dataclass(frozen=True, eq=False)
class _Own:
    """What a record says of its climate, and from how many years."""

    normals: Normals
    years: int


class _Record:
    """A record by what it holds, so that its normals are worked out once."""

    def __init__(self, series: Series) -> None:
        self.series = series
        known = series.measured_days()
        arrays = (series.tmin_c, series.tmax_c, series.rain_mm, known, series.start)
        self.key = tuple(zlib.crc32(np.asarray(array).tobytes()) for array in arrays)
        self.known = known

    def __hash__(self) -> int:
        return hash(self.key)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Record) and other.key == self.key


class _Content:
    """Normals by their content, so that made rows are drawn once a process."""

    def __init__(self, normals: Normals) -> None:
        self.normals = normals
        self.key = (normals.name, normals.content)

    def __hash__(self) -> int:
        return hash(self.key)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Content) and other.key == self.key


@lru_cache(maxsize=8)
def _normals_of_record(record: _Record) -> _Own | None:
    known = record.known & ~record.series.made
    counts = np.bincount(month_of(record.series.dates)[known], minlength=12)
    years = int(counts.min()) // _FEWEST_DAYS_A_MONTH
    if years < FEWEST_YEARS:
        return None
    measured = record.series.with_elements(
        {name: np.where(known, getattr(record.series, name), np.nan) for name in ("tmin_c", "tmax_c")}, {}
    )
    words = f"the means, spread and rain of the record's own {counted(years, 'year')}"
    return _Own(normals_of(measured, "the record", basis=words), years)


@lru_cache(maxsize=8)
def _rows(content: _Content, years: int) -> MadeDays:
    # The seed is the place's name, not its numbers: a day more of record moves made weather a little and
    # does not draw it anew.
    return made_days(
        content.normals, YEARS_WITHOUT_RECORD, zlib.crc32(content.normals.name.encode()), years=years
    )
