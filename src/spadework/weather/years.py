"""The years an answer is run through: this season as seen, then each past year's continuation of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.errors import ParameterError, RecordError
from spadework.types import Bools, Floats
from spadework.weather.calendar_years import CalendarYears, calendar_years
from spadework.weather.dew import gathered_dew_c
from spadework.weather.fill import same_day
from spadework.weather.made_years import NOTHING_TOLD, Climate, TopUp, led_in, top_up
from spadework.weather.series import Series, as_day
from spadework.weather.year_rules import (
    ADD_OR_TELL,
    FEWEST_YEARS,
    FILLED_DAYS_ALLOWED,
    THIN_YEARS,
    counted,
    no_weather,
)

__all__ = ["CalendarYears", "Climate", "Years", "build_years", "calendar_years"]

LATE_DAYS: Final = 14
"""How far the record may lie behind today before what happened this season counts as unknown."""

LONGEST_WINDOW_DAYS: Final = 1100
"""Three years: longer than any planting of a kitchen garden is followed."""

_A_DAY = np.timedelta64(1, "D")
_ELEMENTS: Final = ("tmin_c", "tmax_c", "rain_mm", "solar_mj", "wind_m_s")


@dataclass(frozen=True, eq=False)
class Years:
    """Weather of one window, once for each past year.

    Parameters
    ----------
    first_day : datetime64[D]
        Day of column 0.
    tmin_c, tmax_c : array, shape (year, day)  [degC]
    rain_mm : array, shape (year, day)  [mm]
        NaN where the record has no rain.
    solar_mj, wind_m_s : array, shape (year, day), or None
        NaN on days without a value.
    labels : tuple of int
        The calendar year in which each continuation starts, oldest first; 0 where it was made. Made ones come
        after all others.
    made : array of bool, shape (year,)
        True where the continuation was made and not measured.
    seen_days : int
        Columns before this one are this season as observed, the same in every row.
    filled_share : float
        Share of all numbers' days on which a temperature or the rain was filled.
    note : str
        What a person must know about these years; empty when there is nothing.
    tdew_c : array, shape (year, day), or None  [degC]
        Mean dew point, NaN on days without one; None where the record has neither it nor humidity.
    """

    first_day: np.datetime64
    tmin_c: Floats
    tmax_c: Floats
    rain_mm: Floats
    solar_mj: Floats | None
    wind_m_s: Floats | None
    labels: tuple[int, ...]
    made: Bools
    seen_days: int
    filled_share: float
    note: str
    tdew_c: Floats | None = None

    @property
    def count(self) -> int:
        """Number of years."""
        return len(self.labels)

    @property
    def days(self) -> int:
        """Length of the window."""
        return int(self.tmin_c.shape[1])

    @property
    def dates(self) -> NDArray[np.datetime64]:
        """The calendar days of the columns, in this season."""
        return np.arange(self.first_day, self.first_day + self.days * _A_DAY)


def build_years(
    series: Series | None,
    first_day: date | np.datetime64,
    days: int,
    today: date | np.datetime64,
    last: int | None = 30,
    *,
    need_seen: bool = True,
    climate: Climate = NOTHING_TOLD,
) -> Years:
    """This season up to today, continued once by each past year.

    Parameters
    ----------
    series : Series or None
        Filled record. Nothing in it after `today` is used, so an answer for a past day is an honest one. None
        where there is none.
    first_day : date
        Column 0: the sowing day, or earlier when a model has to settle first.
    days : int
        Length of the window.
    today : date
        The last day that may have been seen.
    last : int or None
        How many of the most recent usable past years; None for all.
    need_seen : bool
        True when the answer stands on what happened since `first_day`: then a record that ends more than
        `LATE_DAYS` before today is refused. False for questions about days to come: past years stand in.
    climate : Climate
        What made years may be drawn from where there are fewer than `THIN_YEARS` past ones.

    Returns
    -------
    Years
        Row y holds the observed days, then past year y from the next calendar day on, running on over New
        Year. A past year is used only if its continuation ended before `first_day` (and by `today`).

    Raises
    ------
    RecordError
        Too few past years and nothing to make others from; the record does not reach `today` or does not go
        back to `first_day` although what was seen is needed; a hole in the days seen.
    ParameterError
        If `days` or `last` is out of range.

    Notes
    -----
    Continuations run day by day, so behind a 29 February that only one of the two years has, a column lies
    one calendar day off. Filled days at the end of what was seen do not count as seen: they were filled
    from what came after. Longer gaps are filled from the mean of the whole record, later years too; that
    is the only way anything from after `today` can reach a row.
    Years are taken as independent and equally likely: a trend is met only by using the last 30.
    """
    if not 1 <= days <= LONGEST_WINDOW_DAYS:
        raise ParameterError(
            f"A window of {days} days cannot be run.", f"Allowed: 1 to {LONGEST_WINDOW_DAYS}."
        )
    if last is not None and last < FEWEST_YEARS:
        raise ParameterError(f"{last} past years are too few.", f"At least {FEWEST_YEARS}, or all of them.")
    start, now = as_day(first_day), as_day(today)
    if series is None:
        return _without_record(start, days, now, last, climate)
    begun = series.start
    if need_seen and climate.normals is not None and start < begun <= now:
        series = led_in(series, start, climate.normals)
    seen, notes = _seen(series, start, days, now, need_seen)
    if series.start < begun and seen:
        lead = counted(int((begun - start) / _A_DAY), "day")
        notes.append(
            f"The record begins on {begun}: the {lead} before it are taken as the normals have them."
        )

    join = start + seen * _A_DAY
    limit = min(start - _A_DAY, now)  # last day a continuation may touch
    ahead = days - seen
    if ahead == 0:
        # Everything was seen: one row, and no past year is needed.
        at = np.arange(series.index_of(start), series.index_of(start) + days)[None, :]
        return _gather(series, start, at, (int(str(join)[:4]),), seen, notes)
    firsts, labels = _continuations(series, join, ahead, limit)
    more = top_up(series, climate, len(labels), now, last)
    if last is not None:
        firsts, labels = firsts[-last:], labels[-last:]
    if len(labels) < FEWEST_YEARS and more is None:
        raise RecordError(
            f"The record gives {counted(len(labels), 'past year')} for {_span(join, ahead)}, asked on {now}.",
            f"At least {FEWEST_YEARS} whole ones are needed: {ADD_OR_TELL}"
            f" The record runs from {series.start} to {series.end}.",
        )
    if more is not None:
        notes.append(more.note)
    elif len(labels) < THIN_YEARS:
        notes.append(f"Thin: the odds stand on {len(labels)} past years only.")
    at = np.empty((len(labels), days), dtype=np.int64)
    at[:, :seen] = series.index_of(start) + np.arange(seen)
    at[:, seen:] = np.asarray(firsts, dtype=np.int64)[:, None] + np.arange(ahead)
    return _gather(series, start, at, tuple(labels), seen, notes, more)


def _without_record(
    start: np.datetime64, days: int, now: np.datetime64, last: int | None, climate: Climate
) -> Years:
    """Made years alone."""
    more = top_up(None, climate, 0, now, last)
    if more is None:
        raise no_weather()
    rows = more.from_day(start, days)
    unseen = f" Nothing of the days up to {now} was seen." if start <= now else ""
    return Years(
        first_day=start,
        tmin_c=rows.tmin_c.copy(),
        tmax_c=rows.tmax_c.copy(),
        rain_mm=rows.rain_mm.copy(),
        solar_mj=None,
        wind_m_s=None,
        labels=more.labels,
        made=np.ones(more.count, dtype=np.bool_),
        seen_days=0,
        filled_share=0.0,
        note=more.note + unseen,
    )


def _seen(
    series: Series, start: np.datetime64, days: int, now: np.datetime64, need_seen: bool
) -> tuple[int, list[str]]:
    """How many columns were observed, and what has to be said about it."""
    if start > now:
        return 0, _lag_notes(series, start, now)
    measured = series.measured_days()
    reach = min(series.index_of(now) + 1, series.days)
    known = np.flatnonzero(measured[: max(reach, 0)])
    if known.size == 0:
        if need_seen:
            raise RecordError(
                f"The record has no day up to {now}.", f"It runs from {series.start} to {series.end}."
            )
        return 0, [f"The record has no day up to {now}; past years stand in."]
    end = series.start + int(known[-1]) * _A_DAY
    late = int((now - end) / _A_DAY)
    first = series.index_of(start)
    if late > LATE_DAYS and need_seen:
        raise RecordError(
            f"The record ends on {end}, {late} days before {now}; what happened since is not known.",
            f"Add the weather since then, or ask with --today {end}.",
        )
    if first < 0:
        if need_seen:
            raise RecordError(
                f"The record begins on {series.start}, after {start}.",
                f"Add weather from {start} on; what happened since then is needed.",
            )
        return 0, [
            f"The record begins on {series.start}, after {start}; past years stand in for the days seen."
        ]
    notes = _lag_notes(series, start, now)
    seen = int(np.clip(int(known[-1]) + 1 - first, 0, days))
    span = slice(first, first + seen)
    holes = np.isnan(series.tmin_c[span]) | np.isnan(series.tmax_c[span])
    if holes.any():
        hole = series.start + (first + int(np.argmax(holes))) * _A_DAY
        if need_seen:
            raise RecordError(
                f"{int(holes.sum())} days since {start} have no temperature, the first is {hole}.",
                "The gap is too long to fill: add the missing days.",
            )
        return 0, [f"The record has a long gap from {hole} on; past years stand in for the days seen."]
    filled = int((~measured[span]).sum())
    if filled:
        notes.append(f"{counted(filled, 'day')} of the {seen} seen this season had to be filled.")
    return seen, notes


def _lag_notes(series: Series, start: np.datetime64, now: np.datetime64) -> list[str]:
    """A sentence when the record ends before today."""
    known = np.flatnonzero(series.measured_days()[: max(min(series.index_of(now) + 1, series.days), 0)])
    if known.size == 0:
        return []
    late = int((now - series.start) / _A_DAY) - int(known[-1])
    if late <= 0:
        return []
    end = series.start + int(known[-1]) * _A_DAY
    if late > LATE_DAYS and end < start:
        return [f"The record ends on {end}; nothing of this season was seen, past years stand in."]
    return [f"The record ends on {end}; past years stand in for the {counted(late, 'day')} up to {now}."]


def _continuations(
    series: Series, join: np.datetime64, ahead: int, limit: np.datetime64
) -> tuple[list[int], list[int]]:
    """First positions and years of every past continuation that is whole, oldest first."""
    unknown = np.isnan(series.tmin_c) | np.isnan(series.tmax_c)
    filled = series.filled_days("tmin_c", "tmax_c", "rain_mm")
    unknown_before = np.concatenate(([0], np.cumsum(unknown)))
    filled_before = np.concatenate(([0], np.cumsum(filled)))
    year = int(str(join)[:4])
    firsts, labels = [], []
    for back in range(year - int(str(series.start)[:4]), 0, -1):
        day = same_day(join, -back)
        first = series.index_of(day)
        stop = first + ahead
        if first < 0 or stop > series.days or day + (ahead - 1) * _A_DAY > limit:
            continue
        if unknown_before[stop] - unknown_before[first]:
            continue
        if filled_before[stop] - filled_before[first] > FILLED_DAYS_ALLOWED:
            continue
        firsts.append(first)
        labels.append(year - back)
    return firsts, labels


def _gather(
    series: Series,
    start: np.datetime64,
    at: NDArray[np.int64],
    labels: tuple[int, ...],
    seen: int,
    notes: list[str],
    more: TopUp | None = None,
) -> Years:
    tail = at[:, seen:] if seen < at.shape[1] else at
    made = np.asarray(series.made[tail].any(axis=1), dtype=np.bool_)
    if made.any():
        notes.append("Made weather: drawn from monthly normals, not measured.")
    elements: dict[str, Floats | None] = {name: series.element(name) for name in _ELEMENTS}
    if more is None:
        values = {name: None if whole is None else whole[at] for name, whole in elements.items()}
    else:
        values = _with_made(series, start, at.shape[1], seen, elements, at, more)
        made = np.concatenate((made, np.ones(more.count, dtype=np.bool_)))
        labels = labels + more.labels
    low, high, rain = (_needed(values[name]) for name in _ELEMENTS[:3])
    if np.isnan(rain).all():
        notes.append("There is no rain in the record.")
    elif np.isnan(rain).any():
        notes.append("Rain is missing on some days.")
    filled = series.filled_days("tmin_c", "tmax_c", "rain_mm")
    filled_rows = filled[at].sum(axis=1)
    return Years(
        first_day=start,
        tmin_c=low,
        tmax_c=high,
        rain_mm=rain,
        solar_mj=values["solar_mj"],
        wind_m_s=values["wind_m_s"],
        labels=labels,
        made=made,
        seen_days=seen,
        filled_share=float(filled_rows.sum() / (len(labels) * at.shape[1])),
        note=" ".join(notes),
        tdew_c=gathered_dew_c(series, at, low.shape[0]),
    )


def _with_made(
    series: Series,
    start: np.datetime64,
    days: int,
    seen: int,
    elements: dict[str, Floats | None],
    at: NDArray[np.int64],
    more: TopUp,
) -> dict[str, Floats | None]:
    """Made rows below the real ones; both begin with the days seen."""
    rows = more.from_day(start + seen * _A_DAY, days - seen)
    dry = np.isnan(series.rain_mm).all()
    ahead = {"tmin_c": rows.tmin_c, "tmax_c": rows.tmax_c} | ({} if dry else {"rain_mm": rows.rain_mm})
    first, real = series.index_of(start), at.shape[0]
    values: dict[str, Floats | None] = {}
    for name, whole in elements.items():
        if whole is None:
            values[name] = None
            continue
        out = np.full((real + more.count, days), np.nan)
        out[:real] = whole[at]
        if seen:
            out[real:, :seen] = whole[first : first + seen]
        if name in ahead:
            out[real:, seen:] = ahead[name]
        values[name] = out
    return values


def _needed(values: Floats | None) -> Floats:
    assert values is not None
    return values


def _span(first: np.datetime64, days: int) -> str:
    return f"{first} to {first + (days - 1) * _A_DAY}"
