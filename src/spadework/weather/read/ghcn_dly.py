"""NOAA GHCN-Daily station files: fixed-width .dly, one line a month and element."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.errors import Fault, InputFileError
from spadework.types import Bools, Floats
from spadework.weather.read.result import FAULTS_KEPT, Parsed, assemble, refuse

LINE: Final = 269
"""Characters in a line: 21 of heading, then 31 days of value (5), measurement, quality and source flag (1
each)."""

SHORTEST: Final = LINE - 3
"""A whole line without blanks at its end: it reaches the value of day 31, which every line has."""

SCALES: Final = {
    b"TMIN": ("tmin_c", 0.1),
    b"TMAX": ("tmax_c", 0.1),
    b"PRCP": ("rain_mm", 0.1),
    b"AWND": ("wind_m_s", 0.1),
    b"RHAV": ("rh_mean_pct", 1.0),
    b"ADPT": ("tdew_c", 0.1),
}
"""Elements taken, our name, and the size of their unit."""

_MISSING = -9999
_YEARS = (1700, 2200)


def looks_like_dly(data: bytes) -> bool:
    """True when the first line has the shape of the format's heading."""
    line = data[:LINE].split(b"\n")[0].rstrip()
    return (
        len(line) >= 26
        and line[:11].isalnum()
        and line[11:17].isdigit()
        and line[17:21].isalnum()
        and b"," not in line
    )


def read_dly(data: bytes, name: str) -> Parsed:
    """Read a whole .dly file.

    Parameters
    ----------
    data : bytes
        The file.
    name : str
        For messages.

    Returns
    -------
    Parsed
        Tenths become degC and mm. A value with a quality flag is missing and counted by its flag.

    Raises
    ------
    InputFileError
        With every fault: line cut short, month that does not exist, value that is no number, value on a day
        the month does not have, the same month twice, two stations in one file.

    Notes
    -----
    All lines are laid in one byte matrix and read column by column, so the cost hardly grows with the record.
    Elements other than those in `SCALES` are left out and named in a note.

    Source
    ------
    Menne, Durre, Vose, Gleason, Houston 2012, An overview of the Global Historical Climatology Network-Daily
    database; format as the network describes it. Class: memory.
    """
    matrix, faults = _matrix(data)
    if faults:
        raise InputFileError(name, faults)
    elements = matrix[:, 17:21].copy().view("S4")[:, 0]
    stations = np.unique(matrix[:, :11].copy().view("S11")[:, 0])
    if stations.size > 1:
        shown = ", ".join(s.decode("latin-1") for s in stations[:4])
        raise refuse(
            name,
            "columns 1-11",
            f"{stations.size} stations ({shown})",
            "one station a file",
            "Split it by station.",
        )
    wanted = np.isin(elements, list(SCALES))
    other = sorted({e.decode("latin-1") for e in np.unique(elements[~wanted])})
    lines = np.flatnonzero(wanted)
    if lines.size == 0:
        raise refuse(
            name,
            "columns 18-21",
            f"only {', '.join(other[:8])}",
            "TMIN, TMAX and PRCP",
            "Choose another station.",
        )
    rows = matrix[lines]
    faults = []
    year, year_ok = _whole_numbers(rows[:, 11:15])
    month, month_ok = _whole_numbers(rows[:, 15:17])
    year_ok &= (year >= _YEARS[0]) & (year <= _YEARS[1])
    month_ok &= (month >= 1) & (month <= 12)
    for ok, part, what, allowed in (
        (year_ok, slice(11, 15), "columns 12-15 (year)", f"{_YEARS[0]} to {_YEARS[1]}"),
        (month_ok, slice(15, 17), "columns 16-17 (month)", "01 to 12"),
    ):
        for at in np.flatnonzero(~ok)[:FAULTS_KEPT]:
            found = repr(rows[at, part].tobytes().decode("latin-1"))
            faults.append(
                Fault(f"line {lines[at] + 1}, {what}", found, allowed, "Correct or remove the line.")
            )
    if faults:
        raise InputFileError(name, faults)

    # One month is one datetime64[M]; its days follow from the next month's start.
    months = (year - 1970) * 12 + (month - 1)
    firsts = months.astype("datetime64[M]").astype("datetime64[D]").astype(np.int64)
    lengths = (months + 1).astype("datetime64[M]").astype("datetime64[D]").astype(np.int64) - firsts
    faults += _twice(lines, elements[lines], months)

    cells = rows[:, 21:].reshape(-1, 31, 8)
    values, number = _whole_numbers(cells[:, :, :5])
    exists = np.arange(31) < lengths[:, None]
    faults += _value_faults(lines, cells, number, values, exists)
    if faults:
        raise InputFileError(name, faults)
    flags = cells[:, :, 6]
    present = exists & (values != _MISSING)
    bad = present & (flags != ord(" "))
    kinds, counts = np.unique(flags[bad], return_counts=True)
    day_numbers = firsts[:, None] + np.arange(31)

    taken: dict[str, tuple[NDArray[np.int64], Floats]] = {}
    for code, (key, unit) in SCALES.items():
        of = elements[lines] == code
        use = present[of] & ~bad[of]
        # Dividing by ten gives the nearest double to the printed tenth; multiplying by 0.1 does not.
        numbers = values[of][use].astype(np.float64)
        taken[key] = (day_numbers[of][use], numbers / 10.0 if unit == 0.1 else numbers)
    station = stations[0].decode("latin-1").strip()
    notes = (f"Not used here: {', '.join(other)}.",) if other else ()
    return Parsed(
        assemble(name, taken, f"GHCN-Daily station {station} ({name})", station),
        station,
        {chr(kind): int(count) for kind, count in zip(kinds, counts, strict=True)},
        notes,
    )


def _matrix(data: bytes) -> tuple[NDArray[np.uint8], list[Fault]]:
    """All lines as rows of LINE bytes. A line whose last flags were trimmed is padded; a line cut shorter
    is a fault."""
    data = data.replace(b"\r\n", b"\n").rstrip(b"\n\x1a \t") + b"\n"
    # The last line's trailing blanks went with the rstrip; put them back before trying the quick way.
    tail = data.rfind(b"\n", 0, len(data) - 1) + 1
    if SHORTEST <= len(data) - 1 - tail < LINE:
        data = data[:-1].ljust(tail + LINE) + b"\n"
    flat = np.frombuffer(data, dtype=np.uint8)
    if flat.size % (LINE + 1) == 0:
        grid = flat.reshape(-1, LINE + 1)
        if (grid[:, LINE] == 10).all() and np.count_nonzero(flat == 10) == grid.shape[0]:
            return grid[:, :LINE], []
    faults: list[Fault] = []
    kept: list[bytes] = []
    for number, line in enumerate(data.split(b"\n")[:-1], start=1):
        short = line.rstrip()
        if not short:
            faults.append(Fault(f"line {number}", "an empty line", "a month of one element", "Remove it."))
        elif len(short) > LINE or len(short) < SHORTEST:
            faults.append(
                Fault(
                    f"line {number}, column {len(short) + 1}",
                    f"{len(short)} characters",
                    f"{LINE} characters (blanks at the end may be missing)",
                    "The line is cut or damaged; fetch the file again.",
                )
            )
        kept.append(short[:LINE].ljust(LINE))
        if len(faults) >= FAULTS_KEPT:
            break
    return np.frombuffer(b"".join(kept), dtype=np.uint8).reshape(-1, LINE), faults


def _whole_numbers(field: NDArray[np.uint8]) -> tuple[NDArray[np.int64], Bools]:
    """Right-aligned whole numbers in the last axis, and whether each is one: blanks, at most one minus,
    digits."""
    digit = (field >= 48) & (field <= 57)
    minus = field == 45
    blank = field == 32
    value = np.zeros(field.shape[:-1], dtype=np.int64)
    good = digit[..., -1].copy()
    for place in range(field.shape[-1]):
        value = value * 10 + np.where(digit[..., place], field[..., place] - 48, 0)
        good &= digit[..., place] | minus[..., place] | blank[..., place]
        if place:
            # After a digit or a minus only a digit may follow.
            good &= digit[..., place] | blank[..., place - 1]
    return np.where(minus.any(axis=-1), -value, value), good


def _twice(lines: NDArray[np.int64], elements: NDArray[np.bytes_], months: NDArray[np.int64]) -> list[Fault]:
    order = np.lexsort((lines, months, elements))
    again = np.flatnonzero(
        (elements[order][1:] == elements[order][:-1]) & (months[order][1:] == months[order][:-1])
    )
    return [
        Fault(
            f"line {lines[order][at + 1] + 1}",
            f"{elements[order][at].decode('latin-1')} of {months[order][at].astype('datetime64[M]')} again,"
            f" first in line {lines[order][at] + 1}",
            "each month and element once",
            "Remove one of the two.",
        )
        for at in again[:FAULTS_KEPT]
    ]


def _value_faults(
    lines: NDArray[np.int64],
    cells: NDArray[np.uint8],
    number: Bools,
    values: NDArray[np.int64],
    exists: Bools,
) -> list[Fault]:
    faults = []
    for row, day in np.argwhere(~number & (exists | (cells[:, :, :5] != 32).any(axis=-1)))[:FAULTS_KEPT]:
        column = 22 + 8 * int(day)
        found = repr(cells[row, day, :5].tobytes().decode("latin-1"))
        where = f"line {lines[row] + 1}, columns {column}-{column + 4} (day {day + 1})"
        faults.append(Fault(where, found, "a whole number, right-aligned; -9999 for missing", "Correct it."))
    for row, day in np.argwhere(number & ~exists & (values != _MISSING))[:FAULTS_KEPT]:
        where = f"line {lines[row] + 1}, day {day + 1}"
        faults.append(
            Fault(
                where,
                f"the value {values[row, day]}",
                "-9999: the month has no such day",
                "Correct the line.",
            )
        )
    return faults
