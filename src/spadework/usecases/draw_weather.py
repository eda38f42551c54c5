"""What is needed to draw the weather here: the past year beside the usual one, and when frost is behind."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from typing import Final

import msgspec
import numpy as np

from spadework.advice.frost_odds import last_and_first_chance
from spadework.advice.odds import as_date
from spadework.clock.conditioning import condition_calendar
from spadework.errors import SpadeworkError
from spadework.types import Floats
from spadework.usecases.setting import open_setting
from spadework.weather.series import Series

WEEKS: Final = 57
"""Weeks drawn: a year and a month, so that the same weeks of last year stand beside this season's."""

FROST_STEP_DAYS: Final = 4


class WeekDrawn(msgspec.Struct, frozen=True, kw_only=True):
    """A week of the record beside the same week of all its years.

    Parameters
    ----------
    low_c, high_c : float or None  [degC]
        Mean of the nights and of the days; None where nothing is known.
    usual_low_c, usual_high_c : float or None  [degC]
    rain_mm : float or None  [mm]
    filled_days : int
        Days of it that were filled in, not measured.
    """

    first: date
    low_c: float | None
    high_c: float | None
    usual_low_c: float | None
    usual_high_c: float | None
    rain_mm: float | None
    filled_days: int


class FrostDay(msgspec.Struct, frozen=True, kw_only=True):
    """Chance that the last frost of spring is past on a day."""

    day: date
    at_thermometer: float
    at_leaf: float


class SourceDays(msgspec.Struct, frozen=True, kw_only=True):
    """How many days of the record one source gave."""

    name: str
    days: int
    last_day: date


class WeatherDrawn(msgspec.Struct, frozen=True, kw_only=True):
    """The past year week by week, frost by day, and where the record comes from."""

    question: str
    today: date
    weeks: list[WeekDrawn]
    frost: list[FrostDay]
    frost_years: int
    sources: list[SourceDays]
    filled_days: int


def draw_weather(garden: Path, today: date) -> WeatherDrawn:
    """The record and the frost odds as they are drawn.

    Raises
    ------
    GardenError, RecordError, StoreError
    """
    setting = open_setting(garden, today)
    series = setting.weather()
    frost, years = [], 0
    try:
        whole, minima, _ = condition_calendar(setting.calendar(), setting.told, today)
    except SpadeworkError:
        whole = None  # too little is known for odds; the page says so beside the frost dates
    if whole is not None:
        chances = [
            last_and_first_chance(
                whole.tmin_c, 0.0, place, leaf_offset_c=minima.leaf_c, leaf_sd_c=minima.leaf_sd_c
            )[0].mean(axis=0)
            for place in ("shelter", "leaf")
        ]
        season = today.year - 1 if setting.site.south and today.month < 7 else today.year
        half = whole.tmin_c.shape[1] // 2
        years = int(whole.tmin_c.shape[0])
        frost = [
            FrostDay(
                day=as_date(whole.day(column, season)),
                at_thermometer=round(float(chances[0][column]), 3),
                at_leaf=round(float(chances[1][column]), 3),
            )
            for column in range(0, half, FROST_STEP_DAYS)
        ]
    return WeatherDrawn(
        question="weather drawn",
        today=today,
        weeks=[] if series is None else _weeks(series, today),
        frost=frost,
        frost_years=years,
        sources=[] if series is None else _sources(series),
        filled_days=0 if series is None else int(series.filled_days("tmin_c", "tmax_c", "rain_mm").sum()),
    )


def _weeks(series: Series, today: date) -> list[WeekDrawn]:
    doy = (series.dates - series.dates.astype("datetime64[Y]")).astype(np.int64)
    usual_low, usual_high = _usual(series.tmin_c, doy), _usual(series.tmax_c, doy)
    filled = series.filled_days("tmin_c", "tmax_c", "rain_mm")
    weeks = []
    start = today - timedelta(days=7 * WEEKS - 1)
    for week in range(WEEKS):
        first = start + timedelta(days=7 * week)
        at = series.index_of(first)
        part = slice(max(at, 0), max(at + 7, 0))
        around = (first.timetuple().tm_yday - 1 + np.arange(7)) % 366
        weeks.append(
            WeekDrawn(
                first=first,
                low_c=_mean(series.tmin_c[part]),
                high_c=_mean(series.tmax_c[part]),
                usual_low_c=_mean(usual_low[around]),
                usual_high_c=_mean(usual_high[around]),
                rain_mm=_sum(series.rain_mm[part]),
                filled_days=int(filled[part].sum()),
            )
        )
    return weeks


def _usual(values: Floats, doy: np.ndarray) -> Floats:
    """Mean of each day of the year over all years, smoothed over half a month, [366]."""
    sums, counts = np.zeros(366), np.zeros(366)
    known = ~np.isnan(values)
    np.add.at(sums, doy[known], values[known])
    np.add.at(counts, doy[known], 1.0)
    ring = np.arange(-7, 8)
    at = (np.arange(366)[:, None] + ring[None, :]) % 366
    many = counts[at].sum(axis=1)
    with np.errstate(invalid="ignore", divide="ignore"):
        smooth: Floats = np.where(many > 0, sums[at].sum(axis=1) / many, np.nan)
    return smooth


def _mean(values: Floats) -> float | None:
    known = values[~np.isnan(values)]
    return round(float(known.mean()), 1) if known.size else None


def _sum(values: Floats) -> float | None:
    known = values[~np.isnan(values)]
    return round(float(known.sum()), 1) if known.size else None


def _sources(series: Series) -> list[SourceDays]:
    if series.source_index is None:
        return [SourceDays(name=series.source, days=series.days, last_day=as_date(series.end))]
    found = []
    for at, name in enumerate(series.source_names):
        days = np.flatnonzero(series.source_index == at)
        if days.size:
            found.append(SourceDays(name=name, days=int(days.size), last_day=as_date(series.dates[days[-1]])))
    return sorted(found, key=lambda each: each.last_day, reverse=True)
