"""The open daily format: one CSV row a day, in and out without loss."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.errors import Fault, InputFileError
from spadework.types import Bools, Floats
from spadework.weather.read.result import FAULTS_KEPT, refuse
from spadework.weather.series import ELEMENTS, NEEDED, Series

COLUMNS: Final = ("date", *ELEMENTS, "filled", "source")
HEADING: Final = ",".join(COLUMNS)
DECIMALS: Final = 2
"""Numbers are kept to a hundredth, finer than any station measures."""

_WIDTH = len(COLUMNS)


def looks_like_daily_csv(text: str) -> bool:
    """True when the first line is this format's heading."""
    return text[: len(HEADING) + 2].splitlines()[:1] == [HEADING]


def write_daily_csv(series: Series) -> str:
    """The series as text.

    Parameters
    ----------
    series : Series
        Filled or not.

    Returns
    -------
    str
        Heading and one row a day. An empty cell is a missing value. `filled` names the elements that were
        filled that day, with blanks between; `source` says where the day is from.
    """
    columns: list[list[str]] = [[str(day) for day in series.dates]]
    for name in ELEMENTS:
        values = series.element(name)
        columns.append([""] * series.days if values is None else [_shown(value) for value in values.tolist()])
    filled = [""] * series.days
    for name, flags in series.filled.items():
        for at in np.flatnonzero(flags).tolist():
            filled[at] = f"{filled[at]} {name}".strip()
    columns.append(filled)
    names = [_plain(name) for name in (series.source_names or (series.source,))]
    index = series.source_index
    columns.append([names[0]] * series.days if index is None else [names[at] for at in index.tolist()])
    rows = [",".join(cells) for cells in zip(*columns, strict=True)]
    return "\n".join([HEADING, *rows]) + "\n"


def read_daily_csv(text: str, name: str, station: str = "") -> Series:
    """Read the format back, all faults at once.

    Parameters
    ----------
    text : str
        As written by `write_daily_csv`; a person may have edited it.
    name : str
        For messages.
    station : str
        Identifier to give the series.

    Returns
    -------
    Series
        Days left out between rows are missing days.

    Raises
    ------
    InputFileError
        With every fault: row, column, what was found, what is allowed, what to do.
    """
    lines = text.replace("\r\n", "\n").rstrip("\n").split("\n")
    if lines[0] != HEADING:
        raise refuse(name, "row 1", repr(lines[0][:80]), HEADING, "Put that heading back.")
    if len(lines) == 1:
        raise refuse(
            name, "row 2", "no day", "at least one day", "Add weather, or delete the file to start again."
        )
    cells = ",".join(lines[1:]).split(",")
    if len(cells) != _WIDTH * (len(lines) - 1) or any(line.count(",") != _WIDTH - 1 for line in lines):
        raise InputFileError(name, _row_faults(lines))
    dates = cells[0::_WIDTH]
    try:
        if any(len(text) != 10 for text in dates):
            raise ValueError
        days = np.array(dates, dtype="datetime64[D]").astype(np.int64)
    except ValueError:
        raise InputFileError(name, _date_faults(dates)) from None
    if (np.diff(days) <= 0).any():
        raise InputFileError(name, _order_faults(dates))
    columns: dict[str, Floats] = {}
    faults: list[Fault] = []
    for place, element in enumerate(ELEMENTS, start=1):
        own = cells[place::_WIDTH]
        try:
            values = np.array([float(cell) if cell else np.nan for cell in own])
        except ValueError:
            faults += _number_faults(own, element)
            continue
        if element in NEEDED or not np.isnan(values).all():
            columns[element] = values
    if faults:
        raise InputFileError(name, faults)
    return _series(name, days, columns, cells[_WIDTH - 2 :: _WIDTH], cells[_WIDTH - 1 :: _WIDTH], station)


def _series(
    name: str,
    days: NDArray[np.int64],
    columns: dict[str, Floats],
    filled: list[str],
    sources: list[str],
    station: str,
) -> Series:
    first = int(days[0])
    length = int(days[-1]) - first + 1
    at = days - first
    spread: dict[str, Floats] = {}
    for element, values in columns.items():
        spread[element] = np.full(length, np.nan)
        spread[element][at] = values
    flags: dict[str, Bools] = {}
    for text in set(filled) - {""}:
        where = at[np.array([cell == text for cell in filled])]
        for element in text.split():
            if element not in ELEMENTS:
                raise refuse(
                    name,
                    f"row {filled.index(text) + 2}, column 'filled'",
                    repr(element),
                    "names of elements: " + ", ".join(ELEMENTS),
                    "Correct or empty the cell.",
                )
            flags.setdefault(element, np.zeros(length, dtype=np.bool_))[where] = True
    names = tuple(dict.fromkeys(sources))
    place = {text: number for number, text in enumerate(names)}
    index = np.zeros(length, dtype=np.int64)
    index[at] = [place[text] for text in sources]
    return Series(
        start=np.datetime64(first, "D"),
        tmin_c=spread["tmin_c"],
        tmax_c=spread["tmax_c"],
        rain_mm=spread["rain_mm"],
        solar_mj=spread.get("solar_mj"),
        wind_m_s=spread.get("wind_m_s"),
        rh_mean_pct=spread.get("rh_mean_pct"),
        tdew_c=spread.get("tdew_c"),
        filled=flags,
        source="; ".join(names),
        station=station,
        source_names=names,
        source_index=index,
    )


def _shown(value: float) -> str:
    if value != value:  # NaN
        return ""
    text = f"{value:.{DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _plain(text: str) -> str:
    """A source without the signs that part cells and rows."""
    return " ".join(text.replace(",", ";").replace('"', "'").split())


def _row_faults(lines: list[str]) -> list[Fault]:
    return [
        Fault(
            f"row {number}", f"{line.count(',') + 1} cells", f"{_WIDTH} cells", "Complete or remove the row."
        )
        for number, line in enumerate(lines, start=1)
        if line.count(",") != _WIDTH - 1
    ][:FAULTS_KEPT]


def _date_faults(dates: list[str]) -> list[Fault]:
    faults = []
    for number, text in enumerate(dates, start=2):
        try:
            if len(text) != 10:
                raise ValueError
            np.datetime64(text, "D")
        except ValueError:
            allowed = "a day that exists, such as 2026-03-01"
            faults.append(Fault(f"row {number}, column 'date'", repr(text), allowed, "Correct it."))
    return faults[:FAULTS_KEPT]


def _order_faults(dates: list[str]) -> list[Fault]:
    return [
        Fault(
            f"row {number}, column 'date'",
            f"{day} after {before}",
            "each day once, in order",
            "Sort the rows.",
        )
        for number, (before, day) in enumerate(pairwise(dates), start=3)
        if day <= before
    ][:FAULTS_KEPT]


def _number_faults(cells: list[str], element: str) -> list[Fault]:
    faults = []
    for number, cell in enumerate(cells, start=2):
        try:
            float(cell or 0)
        except ValueError:
            faults.append(
                Fault(f"row {number}, column {element!r}", repr(cell), "a number or nothing", "Correct it.")
            )
    return faults[:FAULTS_KEPT]
