"""Filling gaps, flagged and counted. A filled number is never passed off as a measured one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.types import Bools, Floats
from spadework.weather.checks import runs
from spadework.weather.series import Series

SHORT_GAP_DAYS: Final = 5
"""Up to here a straight line between the neighbours.

Class: measured. 150 gaps cut into the minima of Champion, Cordoba and Norfolk: at 5 days the line is off by
4.2, 2.8, 2.4 C (rms), the day's normal by 4.7, 3.3, 2.5; at 10 days the normal is as good or better.
"""

LONGEST_GAP_DAYS: Final = 60
"""A longer hole is left open: filling it would only repeat the average year. Common practice, no source."""

ANOMALY_DAYS: Final = 10
"""How long the departure from normal at a gap's edge is carried into it. Class: common-practice."""

_CLIMATE_HALF_WIDTH = 7
_CLIMATE_YEARS = 2


@dataclass(frozen=True)
class Filled:
    """The series without its fillable gaps, and how many days of each element were filled or left open."""

    series: Series
    filled: Mapping[str, int]
    left_open: Mapping[str, int]
    notes: tuple[str, ...]


def fill_gaps(series: Series) -> Filled:
    """Fill gaps in minimum, maximum and rain; leave everything else as measured.

    Parameters
    ----------
    series : Series
        Checked. Gaps are NaN. Filled numbers already there are taken out first and filled anew.

    Returns
    -------
    Filled
        Temperatures: up to `SHORT_GAP_DAYS` days by a straight line; up to `LONGEST_GAP_DAYS` by the
        record's own mean for the day of the year, shifted by the departure at both edges, which fades over
        `ANOMALY_DAYS`. Rain: the same calendar days of the nearest year that has them all, so that wet
        days, dry spells and totals stay those of the place. The days before the first and after the last
        number are not filled: a record is never made longer.

    Notes
    -----
    A mean course has no cold nights in it, so frost odds from long filled stretches would be too kind: years
    with many filled days are not used as past years (see `years`). Means use the whole record, later years
    too. Where one of minimum and maximum was measured and the filled one would cross it, the filled one is
    set equal.
    """
    series = series.unfilled()
    filled: dict[str, Bools] = {}
    new: dict[str, Floats] = {}
    for name, old in (("tmin_c", series.tmin_c), ("tmax_c", series.tmax_c)):
        new[name] = _temperature(old, series)
        filled[name] = np.isnan(old) & ~np.isnan(new[name])
    crossed = new["tmin_c"] > new["tmax_c"]
    low = crossed & filled["tmin_c"]
    new["tmin_c"] = np.where(low, new["tmax_c"], new["tmin_c"])
    high = crossed & ~low
    new["tmax_c"] = np.where(high, new["tmin_c"], new["tmax_c"])
    new["rain_mm"] = _rain(series)
    filled["rain_mm"] = np.isnan(series.rain_mm) & ~np.isnan(new["rain_mm"])

    counts = {name: int(flags.sum()) for name, flags in filled.items()}
    left = {name: int(np.isnan(values).sum()) for name, values in new.items()}
    out = series.with_elements(new, {name: flags for name, flags in filled.items() if flags.any()})
    return Filled(out, counts, left, _notes(counts, left, series.days))


def _temperature(values: Floats, series: Series) -> Floats:
    out = values.copy()
    gaps = [
        (first, days) for first, days in runs(np.isnan(values)) if first > 0 and first + days < series.days
    ]
    if not gaps:
        return out
    normal = (
        _normal(values, series)
        if any(SHORT_GAP_DAYS < days <= LONGEST_GAP_DAYS for _, days in gaps)
        else None
    )
    for first, days in gaps:
        if days > LONGEST_GAP_DAYS:
            continue
        inside = slice(first, first + days)
        before, after = values[first - 1], values[first + days]
        along = np.arange(1, days + 1)
        if days <= SHORT_GAP_DAYS or normal is None:
            out[inside] = before + (after - before) * along / (days + 1)
            continue
        reach = min(days + 1, ANOMALY_DAYS)
        left = (before - normal[first - 1]) * np.clip(1 - along / reach, 0, None)
        right = (after - normal[first + days]) * np.clip(1 - (days + 1 - along) / reach, 0, None)
        out[inside] = normal[inside] + left + right
    return out


def _normal(values: Floats, series: Series) -> Floats | None:
    """Mean of the days of the year within a week of each day, over the record; None when it is too short."""
    day_of_year = (series.dates - series.dates.astype("datetime64[Y]")).astype(np.int64)
    known = ~np.isnan(values)
    total = np.bincount(day_of_year[known], weights=values[known], minlength=366)
    count = np.bincount(day_of_year[known], minlength=366).astype(np.float64)
    width = 2 * _CLIMATE_HALF_WIDTH + 1
    wrapped = [np.concatenate((a[-_CLIMATE_HALF_WIDTH:], a, a[:_CLIMATE_HALF_WIDTH])) for a in (total, count)]
    sums, counts = (np.convolve(a, np.ones(width), mode="valid") for a in wrapped)
    if counts.min() < width * _CLIMATE_YEARS * 0.8:
        return None
    return np.asarray((sums / counts)[day_of_year], dtype=np.float64)


def _rain(series: Series) -> Floats:
    rain = series.rain_mm
    out = rain.copy()
    years = int((series.end.astype("datetime64[Y]") - series.start.astype("datetime64[Y]")).astype(np.int64))
    for first, days in runs(np.isnan(rain)):
        if days > LONGEST_GAP_DAYS or first == 0 or first + days == series.days:
            continue
        day = series.start + np.timedelta64(first, "D")
        for away in (step for distance in range(1, years + 1) for step in (-distance, distance)):
            at = series.index_of(same_day(day, away))
            if at >= 0 and at + days <= series.days and not np.isnan(rain[at : at + days]).any():
                out[first : first + days] = rain[at : at + days]
                break
    return out


def same_day(day: np.datetime64, years_later: int) -> np.datetime64:
    """The same calendar day some years later or earlier; 29 February becomes the 28th where there is none."""
    month = day.astype("datetime64[M]")
    offset = (day - month.astype("datetime64[D]")).astype(np.int64)
    other = month + np.timedelta64(12 * years_later, "M")
    first = other.astype("datetime64[D]")
    length = int(((other + np.timedelta64(1, "M")).astype("datetime64[D]") - first).astype(np.int64))
    return np.datetime64(first + np.timedelta64(min(int(offset), length - 1), "D"), "D")


def _notes(counts: Mapping[str, int], left: Mapping[str, int], days: int) -> tuple[str, ...]:
    words = {"tmin_c": "minimum", "tmax_c": "maximum", "rain_mm": "rain"}
    notes = []
    done = [f"{words[name]} on {count} days" for name, count in counts.items() if count]
    if done:
        notes.append(f"Filled: {', '.join(done)} of {days}.")
    still = [f"{words[name]} on {count} days" for name, count in left.items() if count]
    if still:
        notes.append(
            f"Left open: {', '.join(still)}; gaps of more than {LONGEST_GAP_DAYS} days are not filled."
        )
    return tuple(notes)
