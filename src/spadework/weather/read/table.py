"""A plain table from a home station: columns, units, dates and decimal signs found or told."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from spadework.errors import Fault, InputFileError
from spadework.types import Floats
from spadework.units import M_S_PER_KMH, M_S_PER_MPH, MJ_PER_W_DAY, MM_PER_INCH, c_from_f
from spadework.weather.checks import HOTTEST_C
from spadework.weather.read.columns import FITTING, Column, Heading, split_title
from spadework.weather.read.daily import to_daily
from spadework.weather.read.dates import Order, from_year_month_day, hours_of, put_in_order, take_apart
from spadework.weather.read.result import FAULTS_KEPT, Parsed, assemble, refuse
from spadework.weather.read.rows import find_heading, split_rows, whole_rows

TempUnit = Literal["c", "f"]
RainUnit = Literal["mm", "cm", "in"]

_NO_VALUE = "- -- --- ---- m na n/a nan null none missing * -9999 -999 -99.9 ?"
_EMPTY: Final = frozenset({"", *_NO_VALUE.split(" ")})
_TRACE: Final = frozenset({"t", "tr", "trace"})
_LONELY_DAYS = 3650
_LONELY_ROWS = 5
_M_S_PER_KNOT = 1852 / 3600  # exact, international nautical mile

_TO_OURS: Final[Mapping[str, Callable[[Floats], Floats]]] = {
    "c": lambda v: v,
    "f": c_from_f,
    "mm": lambda v: v,
    "cm": lambda v: v * 10.0,
    "in": lambda v: v * MM_PER_INCH,
    "m/s": lambda v: v,
    "km/h": lambda v: v * M_S_PER_KMH,
    "mph": lambda v: v * M_S_PER_MPH,
    "kn": lambda v: v * _M_S_PER_KNOT,
    "%": lambda v: v,
    "mj": lambda v: v,
    "w": lambda v: v * MJ_PER_W_DAY,
}
_OURS: Final = {
    "tmin": "tmin_c",
    "tmax": "tmax_c",
    "rain": "rain_mm",
    "wind": "wind_m_s",
    "humidity": "rh_mean_pct",
    "dew": "tdew_c",
    "solar": "solar_mj",
}


@dataclass(frozen=True)
class Hints:
    """What the person said about the file; None means: find it."""

    tmin: str | None = None
    tmax: str | None = None
    rain: str | None = None
    date: str | None = None
    time: str | None = None
    temp: str | None = None
    temp_unit: TempUnit | None = None
    rain_unit: RainUnit | None = None
    date_order: Order | None = None
    decimal: Literal[".", ","] | None = None


def read_table(text: str, name: str, hints: Hints | None = None, station: str = "") -> Parsed:
    """Read a table with a row a day, or several rows a day with their time.

    Parameters
    ----------
    text : str
        Comma, semicolon, tab or bar between columns; a heading row that names them, within the first rows.
    name : str
        For messages.
    hints : Hints or None
        Names of columns, units, date order, decimal sign, where the file does not tell.
    station : str
        What to call the station.

    Returns
    -------
    Parsed
        A note says every thing that was decided rather than read.

    Raises
    ------
    InputFileError
        With every fault: row, column, what was found, what is allowed, what to do.

    Notes
    -----
    Units: from the heading, the cells, or `hints`. A temperature column without any is degF when the file's
    warmest value is impossible in degC, otherwise degC, and a note says so; rain without one is inches beside
    degF and mm beside degC. Several rows a day need a time: see `to_daily`.
    """
    hints = hints or Hints()
    rows, delimiter = split_rows(text, name)
    at, heading, body = find_heading(
        rows, name, {key: getattr(hints, key) for key in ("tmin", "tmax", "rain", "date", "time", "temp")}
    )
    decimal = hints.decimal or ("," if delimiter != "," and _decimal_comma(body, heading) else ".")
    faults: list[Fault] = []
    columns = heading.columns
    body, rows_of = whole_rows(rows, at, body, columns, faults)
    if not body:
        raise refuse(
            name, f"row {at + 1}", "no row of data after the heading", "a row for each day", "Add the data."
        )

    notes: list[str] = []
    days, hour = _dates(body, rows_of, columns, hints, notes, faults)
    numbers: dict[str, Floats] = {}
    units: dict[str, str | None] = {}
    for quantity in ("tmin", "tmax", "temp", "rain", "wind", "humidity", "dew", "solar"):
        column = columns.get(quantity)
        if column is not None:
            cells = [row[column.place] for row in body]
            numbers[quantity], units[quantity] = _numbers(cells, rows_of, column, quantity, decimal, faults)
    if not faults:
        faults += _lonely_dates(days, rows_of)
    if faults:
        raise InputFileError(name, sorted(faults, key=_row_of))
    _settle_units(units, numbers, columns, hints, notes, name)
    for quantity, values in numbers.items():
        unit = units[quantity]
        numbers[quantity] = _TO_OURS[unit](values) if unit else values
    daily = to_daily(days, hour, numbers, running=columns["rain"].running if "rain" in columns else False)
    if daily.clashes:
        faults = [
            Fault(
                f"row {rows_of[row]}",
                f"{daily_date} again, first in row {rows_of[first]}",
                "one row a day, or a column with the time",
                "Remove one of them.",
            )
            for row, first, daily_date in daily.clashes[:FAULTS_KEPT]
        ]
        raise InputFileError(name, faults)
    if not daily.values.keys() & {"tmin", "tmax"} and "rain" not in daily.values:
        raise refuse(
            name,
            "heading",
            f"only {columns['temp'].title!r} with one row a day"
            if "temp" in columns
            else "no temperature or rain",
            "a minimum and a maximum column",
            'Name them with tmin="..." and tmax="...".',
        )
    notes += daily.notes
    _refuse_swapped(daily.values, columns, name)
    elements = {
        _OURS[quantity]: (daily.days, values)
        for quantity, values in daily.values.items()
        if quantity in _OURS
    }
    shown = (
        ("tmin", "tmax", "rain") if {"tmin", "tmax"} <= columns.keys() else ("tmin", "tmax", "temp", "rain")
    )
    used = [f"{quantity} from {columns[quantity].title!r}" for quantity in shown if quantity in columns]
    notes.insert(0, f"Columns: {', '.join(used)}.")
    return Parsed(assemble(name, elements, f"table {name}", station), station, {}, tuple(notes))


def _dates(
    body: list[list[str]],
    rows_of: list[int],
    columns: Mapping[str, Column],
    hints: Hints,
    notes: list[str],
    faults: list[Fault],
) -> tuple[NDArray[np.int64], Floats]:
    hour = np.full(len(body), np.nan)
    if "date" not in columns:
        parts = [[row[columns[key].place] for row in body] for key in ("year", "month", "day")]
        days, found = from_year_month_day(parts[0], parts[1], parts[2], rows_of)
        faults += found
    else:
        column = columns["date"]
        texts = [row[column.place].strip() for row in body]
        taken, found = take_apart(texts, rows_of, column.title)
        faults += found
        days, note, found = (
            put_in_order(taken, texts, rows_of, column.title, hints.date_order)
            if not found
            else (
                np.zeros(len(texts), np.int64),
                "",
                [],
            )
        )
        faults += found
        if note:
            notes.append(note)
        hour = taken.hour
    if "time" in columns:
        hour = hours_of([row[columns["time"].place] for row in body])
    return days, hour


def _numbers(
    cells: list[str], rows_of: list[int], column: Column, quantity: str, decimal: str, faults: list[Fault]
) -> tuple[Floats, str | None]:
    """Values and the unit, from the heading or written in the cells."""
    if decimal == ",":
        cells = [cell.replace(".", "").replace(",", ".") if "," in cell else cell for cell in cells]
    out = np.full(len(cells), np.nan)
    unit = column.unit if column.unit in FITTING[quantity] else None
    try:
        out[:] = list(map(float, cells))
    except ValueError:
        for at, cell in enumerate(cells):
            plain = cell.strip().lower().replace("−", "-")
            if plain in _EMPTY:
                continue
            if quantity == "rain" and plain in _TRACE:
                out[at] = 0.0
                continue
            match = re.fullmatch(r"([-+]?\d*\.?\d+(?:e[-+]?\d+)?|[-+]?\d+\.)\s*(\D*)", plain)
            told = split_title(f"x ({match[2].strip()})")[1] if match and match[2].strip() else None
            if match is None or (match[2].strip() and told not in FITTING[quantity]):
                faults.append(
                    Fault(
                        f"row {rows_of[at]}, column {column.title!r}",
                        repr(cell.strip()),
                        "a number, or nothing for a missing day",
                        "Correct the cell.",
                    )
                )
                if len(faults) >= FAULTS_KEPT:
                    break
                continue
            unit = unit or told
            out[at] = float(match[1])
    out[~np.isfinite(out) | (out <= -99.9) & (quantity != "solar") | (out == -9999)] = np.nan
    return out, unit


def _settle_units(
    units: dict[str, str | None],
    numbers: dict[str, Floats],
    columns: Mapping[str, Column],
    hints: Hints,
    notes: list[str],
    name: str,
) -> None:
    warm = [quantity for quantity in ("tmin", "tmax", "temp", "dew") if quantity in units]
    told: str | None = hints.temp_unit or next(
        (units[quantity] for quantity in warm if units[quantity]), None
    )
    if told is None and warm:
        top = max((float(np.nanmax(numbers[q])) for q in warm if not np.isnan(numbers[q]).all()), default=0.0)
        told = "f" if top > HOTTEST_C else "c"
        why = (
            f"the warmest is {top:g}, which no air reaches in degC"
            if told == "f"
            else f"the warmest is {top:g}"
        )
        other = "c" if told == "f" else "f"
        notes.append(
            f"No unit is given for temperature; taken as deg{told.upper()}: {why}."
            f' If not, say temp_unit="{other}".'
        )
    for quantity in warm:
        units[quantity] = hints.temp_unit or units[quantity] or told
    if "rain" in units:
        rain = hints.rain_unit or units["rain"]
        if rain is None:
            rain = "in" if told == "f" else "mm"
            notes.append(
                f"No unit is given for rain; taken as {rain},"
                f" as temperatures are in deg{(told or 'c').upper()}."
            )
            if rain == "in" and float(np.nanmax(numbers["rain"], initial=0.0)) > 40:
                raise refuse(
                    name,
                    f"column {columns['rain'].title!r}",
                    f"rain up to {np.nanmax(numbers['rain']):g} without a unit",
                    "mm, cm or in",
                    'Say rain_unit="mm" or "in".',
                )
        units["rain"] = rain
    defaults = {"humidity": "%", "wind": "", "solar": ""}
    for other, unit in defaults.items():
        if other in units and not units[other]:
            if unit:
                units[other] = unit
            else:
                notes.append(f"{columns[other].title!r} has no unit and was left out.")
                del units[other]
                numbers.pop(other)


def _lonely_dates(days: NDArray[np.int64], rows_of: list[int]) -> list[Fault]:
    """Rows that stand years away from all others: a slip of the pen in the year."""
    order = np.argsort(days, kind="stable")
    breaks = np.flatnonzero(np.diff(days[order]) > _LONELY_DAYS)
    lonely: list[int] = []
    for at in breaks.tolist():
        before, after = order[: at + 1], order[at + 1 :]
        few = before if before.size <= after.size else after
        if few.size <= _LONELY_ROWS < days.size - few.size:
            lonely += few.tolist()
    return [
        Fault(
            f"row {rows_of[at]}",
            f"{np.datetime64(int(days[at]), 'D')}, ten years or more from all other rows",
            "days of one record",
            "Correct the year, or add those years as a file of their own.",
        )
        for at in sorted(set(lonely))
    ]


def _row_of(fault: Fault) -> int:
    digits = re.match(r"row (\d+)", fault.where)
    return int(digits[1]) if digits else 0


def _decimal_comma(body: list[list[str]], heading: Heading) -> bool:
    """True when numbers in the used columns have a comma and no point."""
    places = [c.place for q, c in heading.columns.items() if q in _OURS or q == "temp"]
    cells = [row[place] for row in body[:400] for place in places if place < len(row)]
    return any(re.fullmatch(r"\s*-?\d+,\d+\D*", cell) for cell in cells)


def _refuse_swapped(values: Mapping[str, Floats], columns: Mapping[str, Column], name: str) -> None:
    if "tmin" not in values or "tmax" not in values or "tmin" not in columns or "tmax" not in columns:
        return
    both = ~np.isnan(values["tmin"]) & ~np.isnan(values["tmax"])
    crossed = int((values["tmin"][both] > values["tmax"][both]).sum())
    if crossed >= 3 and crossed > both.sum() / 2:
        raise refuse(
            name,
            f"columns {columns['tmin'].title!r} and {columns['tmax'].title!r}",
            f"the minimum above the maximum on {crossed} of {int(both.sum())} days",
            "a minimum at or below the maximum",
            'The columns are probably exchanged; name them with tmin="..." and tmax="...".',
        )
