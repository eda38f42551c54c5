"""What Open-Meteo answered: read whole, or refused whole."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Final

import numpy as np

from spadework.errors import Fault, InputFileError
from spadework.types import Floats
from spadework.weather.fetch.service import DAILY, SERVICE, Kind, Question
from spadework.weather.series import Series

NAME: Final = f"The answer of {SERVICE}"
FAULTS_KEPT: Final = 12

_UNITS: Final = {
    "temperature_2m_max": "°C",
    "temperature_2m_min": "°C",
    "temperature_2m_mean": "°C",
    "dew_point_2m_mean": "°C",
    "precipitation_sum": "mm",
    "precipitation_probability_max": "%",
    "wind_speed_10m_mean": "m/s",
    "cloud_cover_mean": "%",
    "shortwave_radiation_sum": "MJ/m²",
    "relative_humidity_2m_mean": "%",
}
_POSSIBLE: Final = {"°C": (-90.0, 60.0), "mm": (0.0, 2000.0), "%": (0.0, 100.0), "m/s": (0.0, 110.0)}
_NEEDED: Final = ("temperature_2m_max", "temperature_2m_min", "precipitation_sum")
_TEMPERATURES: Final = _NEEDED[:2]


@dataclass(frozen=True)
class DayAhead:
    """One day of a forecast as the service gives it; None where it gives none."""

    day: date
    high_c: float
    low_c: float
    mean_c: float | None
    rain_mm: float | None
    rain_odds: float | None
    wind_m_s: float | None
    cloud_share: float | None
    dew_c: float | None


def read_forecast(content: bytes, question: Question) -> tuple[DayAhead, ...]:
    """A forecast, day by day.

    Parameters
    ----------
    content : bytes
        As `ask` brought it.
    question : Question
        What was asked; the answer must be about those days.

    Returns
    -------
    tuple of DayAhead
        Days at the end for which the service has no temperatures are left out.

    Raises
    ------
    InputFileError
        If it is no JSON, a unit or a day is another than asked for, or a number is not possible.
    """
    table = _table(content, question)
    days = _reach(table, question)

    def at(name: str, day: int, part: float = 1.0) -> float | None:
        value = float(table[name][day])
        return None if np.isnan(value) else value * part

    return tuple(
        DayAhead(
            day=question.first + timedelta(days=day),
            high_c=float(table["temperature_2m_max"][day]),
            low_c=float(table["temperature_2m_min"][day]),
            mean_c=at("temperature_2m_mean", day),
            rain_mm=at("precipitation_sum", day),
            rain_odds=at("precipitation_probability_max", day, 0.01),
            wind_m_s=at("wind_speed_10m_mean", day),
            cloud_share=at("cloud_cover_mean", day, 0.01),
            dew_c=at("dew_point_2m_mean", day),
        )
        for day in range(days)
    )


def read_archive(content: bytes, question: Question, fetched: datetime) -> Series:
    """Past days as a series.

    Parameters
    ----------
    content : bytes
    question : Question
    fetched : datetime
        When it was asked; stays in the source of every day.

    Returns
    -------
    Series
        Days at the end that the archive does not have yet are left out.

    Raises
    ------
    InputFileError
        As `read_forecast`.
    """
    table = _table(content, question)
    days = _reach(table, question)
    return Series(
        start=np.datetime64(question.first, "D"),
        tmin_c=table["temperature_2m_min"][:days],
        tmax_c=table["temperature_2m_max"][:days],
        rain_mm=table["precipitation_sum"][:days],
        solar_mj=_known(table["shortwave_radiation_sum"][:days]),
        wind_m_s=_known(table["wind_speed_10m_mean"][:days]),
        rh_mean_pct=_known(table["relative_humidity_2m_mean"][:days]),
        tdew_c=_known(table["dew_point_2m_mean"][:days]),
        source=source_text("archive", fetched),
    )


def source_text(kind: Kind, fetched: datetime) -> str:
    """Who said it and when: "Open-Meteo archive, fetched 2026-05-20 06:10 UTC"."""
    return f"{SERVICE} {kind} fetched {fetched:%Y-%m-%d %H:%M} UTC"


def fetched_at(source: str, kind: Kind) -> datetime | None:
    """When a source was fetched; None for any other source."""
    start = f"{SERVICE} {kind} fetched "
    if not source.startswith(start):
        return None
    try:
        return datetime.strptime(source[len(start) :] + "+0000", "%Y-%m-%d %H:%M UTC%z")
    except ValueError:
        return None


def _table(content: bytes, question: Question) -> dict[str, Floats]:
    """The daily columns as arrays, every fault found at once."""
    try:
        whole = json.loads(content)
    except (ValueError, UnicodeDecodeError):
        shown = repr(content[:60])
        raise _refuse([_fault("whole answer", shown, "JSON")]) from None
    daily, units = (_part(whole, key) for key in ("daily", "daily_units"))
    length = (question.last - question.first).days + 1
    wanted = [(question.first + timedelta(days=day)).isoformat() for day in range(length)]
    faults = _day_faults(daily.get("time"), wanted)
    table = {}
    for name in DAILY[question.kind]:
        unit = units.get(name)
        column = daily.get(name)
        if column is None and name not in _NEEDED:
            table[name] = np.full(length, np.nan)
            continue
        if unit != _UNITS[name]:
            faults.append(_fault(f"unit of {name}", repr(unit), _UNITS[name]))
        table[name], wrong = _numbers(name, column, wanted)
        faults += wrong
    if faults:
        raise _refuse(faults)
    crossed = np.flatnonzero(table["temperature_2m_min"] > table["temperature_2m_max"])
    faults = [
        _fault(wanted[at], f"minimum {table[_TEMPERATURES[1]][at]:g} °C", "no more than the maximum")
        for at in crossed[:FAULTS_KEPT].tolist()
    ]
    if faults:
        raise _refuse(faults)
    return table


def _part(whole: Any, key: str) -> dict[str, Any]:
    part = whole.get(key) if isinstance(whole, dict) else None
    if not isinstance(part, dict):
        raise _refuse([_fault("whole answer", f"no part {key!r}", "daily values with their units")])
    return part


def _day_faults(found: Any, wanted: list[str]) -> list[Fault]:
    if not isinstance(found, list):
        return [_fault("days", "none", f"{wanted[0]} to {wanted[-1]}")]
    if found == wanted:
        return []
    missing = sorted(set(wanted) - {str(day) for day in found})
    odd = f"{len(found)} days" if not missing else f"no {missing[0]}" + ("" if len(missing) == 1 else " ...")
    return [_fault("days", odd, f"each day from {wanted[0]} to {wanted[-1]}, in order")]


def _numbers(name: str, column: Any, days: list[str]) -> tuple[Floats, list[Fault]]:
    """A column as numbers, NaN where the service has none."""
    out = np.full(len(days), np.nan)
    if not isinstance(column, list) or len(column) != len(days):
        found = f"{len(column)} values" if isinstance(column, list) else repr(column)[:40]
        return out, [_fault(name, found, f"{len(days)} values")]
    low, high = _POSSIBLE.get(_UNITS[name], (0.0, 60.0))
    faults = []
    for at, value in enumerate(column):
        if value is None:
            continue
        number = isinstance(value, (int, float)) and not isinstance(value, bool)
        if not number or not low <= value <= high:
            faults.append(
                _fault(f"{name}, {days[at]}", repr(value)[:40], f"{low:g} to {high:g} {_UNITS[name]}")
            )
            continue
        out[at] = value
    return out, faults[:FAULTS_KEPT]


def _reach(table: dict[str, Floats], question: Question) -> int:
    """How many days from the first have temperatures; a hole before the end is refused."""
    known = ~np.isnan(sum(table[name] for name in _TEMPERATURES))
    if not known.any():
        raise _refuse([_fault("temperatures", "none", "a minimum and a maximum a day")])
    days = int(np.flatnonzero(known)[-1]) + 1
    holes = np.flatnonzero(~known[:days])
    if holes.size:
        day = question.first + timedelta(days=int(holes[0]))
        raise _refuse([_fault(day.isoformat(), f"no temperature ({holes.size} such days)", "both of them")])
    return days


def _known(values: Floats) -> Floats | None:
    return None if np.isnan(values).all() else values


def _fault(where: str, found: str, allowed: str) -> Fault:
    return Fault(where, found, allowed, "Nothing can be mended here; ask again later.")


def _refuse(faults: list[Fault]) -> InputFileError:
    return InputFileError(NAME, faults)
