"""What the garden's weather record holds."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec
import numpy as np

from spadework.advice.odds import as_date
from spadework.science import radiation, soil, sun
from spadework.types import Floats
from spadework.usecases.setting import open_setting
from spadework.weather.checks import check
from spadework.weather.series import Series

_UNITS = {
    "tmin_c": ("night minimum", "degC"),
    "tmax_c": ("day maximum", "degC"),
    "rain_mm": ("rain", "mm"),
    "solar_mj": ("sunlight", "MJ/m²"),
    "wind_m_s": ("wind", "m/s"),
    "rh_mean_pct": ("humidity", "%"),
    "tdew_c": ("dew point", "degC"),
}
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


class ElementShown(msgspec.Struct, frozen=True, kw_only=True):
    """One element of the record."""

    name: str
    unit: str
    days_known: int
    days_missing: int
    days_filled: int
    lowest: float | None
    highest: float | None
    mean: float | None


class MonthShown(msgspec.Struct, frozen=True, kw_only=True):
    """Means of one calendar month over the record; soil by the garden's own surface, a model's value."""

    name: str
    tmin_c: float | None
    tmax_c: float | None
    rain_mm: float | None
    soil_c: float | None


class WeatherShown(msgspec.Struct, frozen=True, kw_only=True):
    """The record as it stands."""

    garden: str
    source: str
    first_day: date
    last_day: date
    days: int
    elements: list[ElementShown]
    months: list[MonthShown]
    longest_gaps: list[str]
    findings: list[str]


def show_weather(garden: Path, today: date) -> WeatherShown:
    """Count and check the record.

    Raises
    ------
    RecordError, GardenError
    """
    setting = open_setting(garden, today)
    series = setting.folder.weather()
    return WeatherShown(
        garden=setting.site.name,
        source=series.source,
        first_day=as_date(series.start),
        last_day=as_date(series.end),
        days=series.days,
        elements=[shown for name in _UNITS if (shown := _element(series, name)) is not None],
        months=_months(series, setting.site.lat_deg, setting.site.surface),
        longest_gaps=_gaps(series),
        findings=[str(finding) for finding in check(series.unfilled()).findings][:40],
    )


def _element(series: Series, name: str) -> ElementShown | None:
    values = series.element(name)
    if values is None:
        return None
    filled = series.filled_days(name)
    known = ~np.isnan(values) & ~filled
    label, unit = _UNITS[name]
    seen = values[known]
    return ElementShown(
        name=label,
        unit=unit,
        days_known=int(known.sum()),
        days_missing=int((~known & ~filled).sum()),
        days_filled=int(filled.sum()),
        lowest=_rounded(seen.min()) if seen.size else None,
        highest=_rounded(seen.max()) if seen.size else None,
        mean=_rounded(seen.mean()) if seen.size else None,
    )


def _rounded(value: float) -> float:
    return round(float(value), 1)


def _months(series: Series, lat_deg: float, surface: str) -> list[MonthShown]:
    month = series.dates.astype("datetime64[M]").astype(np.int64) % 12
    doy = (series.dates - series.dates.astype("datetime64[Y]")).astype(np.int64) + 1
    estimate = radiation.solar_from_temperature_range_mj(
        series.tmin_c, series.tmax_c, sun.extraterrestrial_radiation_mj(lat_deg, doy)
    )
    solar = (
        estimate
        if series.solar_mj is None
        else np.where(np.isnan(series.solar_mj), estimate, series.solar_mj)
    )
    warmth = soil.seed_zone_mean_c((series.tmin_c + series.tmax_c) / 2.0, solar, soil.SURFACES[surface])

    def mean(values: Floats, at: int, times: float = 1.0) -> float | None:
        chosen = values[(month == at) & ~np.isnan(values)]
        return _rounded(chosen.mean() * times) if chosen.size else None

    days = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    return [
        MonthShown(
            name=name,
            tmin_c=mean(series.tmin_c, at),
            tmax_c=mean(series.tmax_c, at),
            rain_mm=mean(series.rain_mm, at, days[at]),
            soil_c=mean(warmth, at),
        )
        for at, name in enumerate(_MONTHS)
    ]


def _gaps(series: Series) -> list[str]:
    from spadework.weather.checks import runs

    lines: list[str] = []
    for name in ("tmin_c", "tmax_c", "rain_mm"):
        values = series.element(name)
        if values is None:
            continue
        gone = np.isnan(values) | series.filled_days(name)
        longest = sorted(runs(gone), key=lambda run: -run[1])[:3]
        lines.extend(
            f"{_UNITS[name][0]} not measured for {length} days from {series.dates[first]}"
            for first, length in longest
        )
    return lines
