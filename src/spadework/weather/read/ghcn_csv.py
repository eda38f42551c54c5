"""NOAA GHCN-Daily as CSV: one row per value, or one row per day."""

from __future__ import annotations

import csv
import io
import re
from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.errors import Fault, InputFileError
from spadework.types import Bools, Floats
from spadework.units import M_S_PER_MPH, MM_PER_INCH, c_from_f
from spadework.weather.checks import HOTTEST_C
from spadework.weather.read.result import FAULTS_KEPT, Parsed, assemble, refuse

_KEYS: Final = {
    "TMIN": "tmin_c",
    "TMAX": "tmax_c",
    "PRCP": "rain_mm",
    "AWND": "wind_m_s",
    "RHAV": "rh_mean_pct",
    "ADPT": "tdew_c",
}
_MISSING: Final = frozenset({"", "-9999", "-9999.0", "9999.9"})
_LONG_ROW = re.compile(r'"?[A-Z0-9_-]{11}"?,"?\d{8}"?,"?[A-Z0-9]{4}"?,"?-?\d+"?,')


def looks_long(text: str) -> bool:
    """True for rows of station, yyyymmdd, element, value, three flags, time; with or without a heading."""
    lines = text[:2000].splitlines()[:2]
    if not lines:
        return False
    first = lines[0].upper().replace('"', "").replace(" ", "")
    headed = first.startswith("ID,DATE,ELEMENT,")
    return bool(_LONG_ROW.match(lines[0])) or headed


def looks_wide(text: str) -> bool:
    """True for a heading with STATION, DATE and at least one element by its network name."""
    end = text.find("\n")
    head = {cell.strip().strip('"') for cell in text[: end if end >= 0 else 4000].split(",")}
    return {"STATION", "DATE"} <= head and bool(head & {"TMIN", "TMAX", "PRCP"})


def read_long(text: str, name: str, station: str | None = None) -> Parsed:
    """Read the form with one value a row: ID, date, element, value, M, Q, S flag, time of observation.

    Parameters
    ----------
    text : str
        The file.
    name : str
        For messages.
    station : str or None
        Which station to take when the file holds several.

    Returns
    -------
    Parsed
        Values in tenths become degC and mm; a value with a quality flag is missing and counted.

    Raises
    ------
    InputFileError
        With every faulty row; or when several stations are in the file and none was chosen.

    Source
    ------
    Menne, Durre, Vose, Gleason, Houston 2012, An overview of the Global Historical Climatology Network-Daily
    database; column order as the network describes its files by station. Class: published (description
    seen in copy).
    """
    faults: list[Fault] = []
    stations: dict[str, int] = {}
    other: set[str] = set()
    flagged: dict[str, int] = {}
    found: dict[str, list[tuple[str, str]]] = {key: [] for key in _KEYS}
    rows = text.replace('"', "").splitlines()
    headed = bool(rows) and rows[0].upper().replace(" ", "").startswith("ID,DATE,ELEMENT")
    where: dict[str, list[int]] = {key: [] for key in _KEYS}
    for number, row in enumerate(rows, start=1):
        if (number == 1 and headed) or not row:
            continue
        cells = row.split(",")
        if not 7 <= len(cells) <= 8:
            faults.append(
                Fault(
                    f"row {number}",
                    f"{len(cells)} fields",
                    "8 fields",
                    "The row is cut; fetch the file again.",
                )
            )
            if len(faults) >= FAULTS_KEPT:
                break
            continue
        stations[cells[0]] = stations.get(cells[0], 0) + 1
        if station is not None and cells[0] != station:
            continue
        element = cells[2]
        if element not in found:
            other.add(element)
            continue
        flag = cells[5].strip()
        if flag:
            flagged[flag] = flagged.get(flag, 0) + 1
            continue
        found[element].append((cells[1], cells[3]))
        where[element].append(number)
    if faults:
        raise InputFileError(name, faults)
    if station is None and len(stations) > 1:
        shown = ", ".join(list(stations)[:4])
        raise refuse(
            name,
            "column 1 (ID)",
            f"{len(stations)} stations ({shown})",
            "one station",
            "Name one with station=ID.",
        )
    if station is not None and station not in stations:
        raise refuse(
            name,
            "column 1 (ID)",
            f"no row of {station}",
            ", ".join(list(stations)[:4]),
            "Name a station of the file.",
        )
    chosen = station or next(iter(stations), "")
    elements: dict[str, tuple[NDArray[np.int64], Floats]] = {}
    for element, pairs in found.items():
        if pairs:
            days, values = _columns(
                [p[0] for p in pairs], [p[1] for p in pairs], where[element], element, faults
            )
            elements[_KEYS[element]] = (days, values if element == "RHAV" else values / 10.0)
    if faults:
        raise InputFileError(name, faults)
    notes = (f"Not used here: {', '.join(sorted(other))}.",) if other else ()
    source = f"GHCN-Daily station {chosen} ({name})"
    return Parsed(assemble(name, elements, source, chosen), chosen, flagged, notes)


def read_wide(text: str, name: str, station: str | None = None, units: str | None = None) -> Parsed:
    """Read the form with one day a row: STATION, DATE, elements, each perhaps with its attributes.

    Parameters
    ----------
    text, name, station
        As for `read_long`.
    units : {"tenths", "metric", "us"} or None
        Tenths of degC and mm; degC and mm; or degF and inches. None: found from the numbers, and said in a
        note.

    Returns
    -------
    Parsed
        With the place, when the file gives LATITUDE, LONGITUDE and ELEVATION.

    Raises
    ------
    InputFileError
        With every fault.

    Notes
    -----
    The same heading is used for tenths and for whole units. Found so: temperatures with a decimal point are
    metric; whole temperatures beside rain with a point are degF and inches; all whole numbers are tenths,
    unless the warmest is under 135, which in tenths would be 13.5 degC. Then a record of more than a year
    is degC when the warmest is possible in degC, degF otherwise; a shorter one is refused rather than
    guessed.

    Source
    ------
    As `read_long`. Class of the attribute order (measurement, quality, source, time): memory.
    """
    reader = csv.reader(io.StringIO(text))
    head = [cell.strip().upper() for cell in next(reader)]
    at = {cell: place for place, cell in enumerate(head)}
    if not {"STATION", "DATE"} <= at.keys():
        raise refuse(
            name, "row 1", repr(text[:60]), "a heading with STATION and DATE", "Fetch the file again."
        )
    present = [key for key in _KEYS if key in at]
    faults: list[Fault] = []
    stations: dict[str, int] = {}
    flagged: dict[str, int] = {}
    dates: dict[str, list[str]] = {key: [] for key in present}
    cells_of: dict[str, list[str]] = {key: [] for key in present}
    where: dict[str, list[int]] = {key: [] for key in present}
    place: list[str] | None = None
    for row in reader:
        if not row:
            continue
        number = reader.line_num
        if len(row) != len(head):
            faults.append(
                Fault(
                    f"row {number}", f"{len(row)} fields", f"{len(head)} fields", "The row is cut or damaged."
                )
            )
            if len(faults) >= FAULTS_KEPT:
                break
            continue
        own = row[at["STATION"]].strip()
        stations[own] = stations.get(own, 0) + 1
        if station is not None and own != station:
            continue
        place = place or row
        for key in present:
            cell = row[at[key]].strip()
            if cell in _MISSING:
                continue
            attributes = at.get(f"{key}_ATTRIBUTES")
            if attributes is not None:
                flags = row[attributes].split(",")
                flag = flags[1].strip() if len(flags) > 1 else ""
                if flag:
                    flagged[flag] = flagged.get(flag, 0) + 1
                    continue
            dates[key].append(row[at["DATE"]].strip())
            cells_of[key].append(cell)
            where[key].append(number)
    if station is None and len(stations) > 1:
        shown = ", ".join(list(stations)[:4])
        raise refuse(
            name, "STATION", f"{len(stations)} stations ({shown})", "one station", "Name one with station=ID."
        )
    if station is not None and station not in stations:
        raise refuse(
            name,
            "STATION",
            f"no row of {station}",
            ", ".join(list(stations)[:4]),
            "Name a station of the file.",
        )
    raw: dict[str, tuple[NDArray[np.int64], Floats]] = {}
    for key in present:
        if cells_of[key]:
            raw[key] = _columns(dates[key], cells_of[key], where[key], key, faults)
    if faults:
        raise InputFileError(name, faults)
    notes: tuple[str, ...] = ()
    if units is None:
        units, why = _units(raw, cells_of, name)
        notes = (why,)
    chosen = station or next(iter(stations), "")
    elements = {_KEYS[key]: (days, _converted(key, values, units)) for key, (days, values) in raw.items()}
    source = f"GHCN-Daily station {chosen} ({name})"
    where_is = [
        _number(place[at[key]]) if place and key in at else None
        for key in ("LATITUDE", "LONGITUDE", "ELEVATION")
    ]
    return Parsed(assemble(name, elements, source, chosen), chosen, flagged, notes, *where_is)


def _columns(
    dates: list[str], cells: list[str], rows: list[int], element: str, faults: list[Fault]
) -> tuple[NDArray[np.int64], Floats]:
    """Day numbers and values of one element; what cannot be read goes to `faults` with its row."""
    values = np.full(len(cells), np.nan)
    days, exists = _day_numbers([text.replace("-", "") for text in dates])
    for at in np.flatnonzero(~exists)[:FAULTS_KEPT].tolist():
        allowed = "a day that exists, yyyymmdd or yyyy-mm-dd"
        faults.append(Fault(f"row {rows[at]}, column DATE", repr(dates[at]), allowed, "Correct it."))
    for at, text in enumerate(cells):
        try:
            values[at] = float(text)
        except ValueError:
            faults.append(
                Fault(f"row {rows[at]}, column {element}", repr(text), "a number or nothing", "Correct it.")
            )
            if len(faults) >= FAULTS_KEPT:
                return days, values
    values[values == -9999] = np.nan
    order = np.argsort(days, kind="stable")
    if not faults:
        faults.extend(
            Fault(
                f"row {rows[at]}, column {element}",
                f"{dates[at]} again",
                "each day once",
                "Remove one of them.",
            )
            for at in order[1:][np.diff(days[order]) == 0][:FAULTS_KEPT].tolist()
        )
    return days, values


def _day_numbers(plain: list[str]) -> tuple[NDArray[np.int64], Bools]:
    """Days since 1970-01-01 of yyyymmdd texts, and which of them are days at all."""
    shaped = np.array(
        [len(text) == 8 and text.isascii() and text.isdigit() for text in plain], dtype=np.bool_
    )
    joined = np.array(
        [int(text) if ok else 0 for text, ok in zip(plain, shaped.tolist(), strict=True)], dtype=np.int64
    )
    year, month, day = joined // 10000, joined // 100 % 100, joined % 100
    shaped &= (year >= 1700) & (month >= 1) & (month <= 12) & (day >= 1)
    months = (year - 1970) * 12 + month - 1
    first = months.astype("datetime64[M]").astype("datetime64[D]").astype(np.int64)
    after = (months + 1).astype("datetime64[M]").astype("datetime64[D]").astype(np.int64)
    return first + day - 1, shaped & (first + day <= after)


def _units(
    raw: dict[str, tuple[NDArray[np.int64], Floats]], cells: dict[str, list[str]], name: str
) -> tuple[str, str]:
    points = {key: any("." in cell for cell in column) for key, column in cells.items()}
    warm = [key for key in ("TMAX", "TMIN") if key in raw]
    if any(points[key] for key in warm):
        return "metric", "Temperatures have a decimal point: taken as degC and mm."
    if points.get("PRCP"):
        if warm:
            return "us", "Whole temperatures beside rain with a decimal point: taken as degF and inches."
        raise _ask(name, "rain with a decimal point and no temperatures")
    if not warm:
        raise _ask(name, "rain in whole numbers and no temperatures")
    days, values = raw[warm[0]]
    top = float(np.nanmax(values))
    if top >= 135:
        return "tenths", f"Whole numbers up to {top:g}: taken as tenths of degC and of mm."
    if np.ptp(days) >= 365 and top <= HOTTEST_C:
        return "metric", f"Whole numbers, the warmest {top:g} in more than a year: taken as degC and mm."
    if np.ptp(days) >= 365:
        return "us", f"Whole numbers, the warmest {top:g} in more than a year: taken as degF and inches."
    raise _ask(name, f"whole temperatures up to {top:g} in less than a year")


def _ask(name: str, found: str) -> InputFileError:
    return refuse(
        name,
        "the elements' columns",
        found,
        "units that can be told from the numbers",
        'Say units="tenths", "metric" or "us".',
    )


def _converted(key: str, values: Floats, units: str) -> Floats:
    if key == "RHAV":
        return values
    if units == "tenths":
        return values / 10.0
    if units == "us":
        if key == "PRCP":
            return values * MM_PER_INCH
        return values * M_S_PER_MPH if key == "AWND" else c_from_f(values)
    return values


def _number(cell: str) -> float | None:
    try:
        value = float(cell)
    except ValueError:
        return None
    return None if value <= -999 else value
