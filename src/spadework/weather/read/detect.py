"""One way in for any weather file: the reader is chosen by what is in it, not by its name."""

from __future__ import annotations

import os
from dataclasses import fields
from pathlib import Path

import numpy as np

from spadework.errors import InputFileError, ParameterError
from spadework.weather.checks import check
from spadework.weather.daily_csv import looks_like_daily_csv, read_daily_csv
from spadework.weather.read.ghcn_csv import looks_long, looks_wide, read_long, read_wide
from spadework.weather.read.ghcn_dly import looks_like_dly, read_dly
from spadework.weather.read.plain import LARGEST_BYTES, decoded, unpacked
from spadework.weather.read.result import Layout, Parsed, ReadResult, refuse
from spadework.weather.read.table import Hints, read_table

_WORDS: dict[str, tuple[str, ...]] = {
    "temp_unit": ("c", "f"),
    "rain_unit": ("mm", "cm", "in"),
    "date_order": ("ymd", "dmy", "mdy"),
    "decimal": (".", ","),
    "units": ("tenths", "metric", "us"),
}


def read_weather(source: bytes | str | os.PathLike[str], name: str = "", **hints: str | None) -> ReadResult:
    """Read any weather file that can be read: GHCN-Daily (.dly, CSV by station) or a plain table.

    Parameters
    ----------
    source : bytes or path
        The file or where it is. Gzip is unpacked.
    name : str
        What to call it in messages; the file's own name when a path is given.
    **hints
        `station` (identifier to take or to give); for CSV of the network `units` ("tenths", "metric", "us");
        for a table the titles of columns `tmin`, `tmax`, `rain`, `date`, `time`, `temp`, and `temp_unit`
        ("c", "f"), `rain_unit` ("mm", "cm", "in"), `date_order` ("ymd", "dmy", "mdy"), `decimal` (".", ",").

    Returns
    -------
    ReadResult
        The checked series (not filled), the station and its place if the file tells, and counts.

    Raises
    ------
    InputFileError
        The file is refused whole, with every fault in it.
    ParameterError
        If a hint is not known or has a value that is not allowed.

    Notes
    -----
    Nothing of the file is changed silently: what the checks set missing is among the findings and the notes.
    """
    _check_hints(hints)
    data, name = _bytes(source, name)
    data = unpacked(data, name)
    parsed, layout, more = _parse(data, name, hints)
    checked = check(parsed.series)
    series = checked.series.trimmed()
    if series is None:
        raise refuse(
            name, "whole file", "no possible value", "daily temperatures", "Check the units and the columns."
        )
    missing = {
        key: int(np.isnan(values).sum())
        for key in ("tmin_c", "tmax_c", "rain_mm")
        if (values := series.element(key)) is not None
    }
    notes = [*more, *parsed.notes]
    for kind, words in (
        ("crossed", "{} days had a minimum above the maximum; both were set missing."),
        ("impossible", "{} values no place on earth has seen were set missing."),
    ):
        count = sum(finding.days for finding in checked.findings if finding.kind == kind)
        if count:
            notes.append(words.format(count))
    stuck = sum(f.days - 1 for f in checked.findings if f.kind == "stuck" and f.done != "kept")
    if stuck:
        notes.append(
            f"{stuck} days repeat the pair of the day before, as a stuck thermometer does; set missing."
        )
    if missing["rain_mm"] == series.days:
        notes.append("There is no rain in the file.")
    return ReadResult(
        series=series,
        name=name,
        layout=layout,
        station=parsed.station,
        lat_deg=parsed.lat_deg,
        lon_deg=parsed.lon_deg,
        elevation_m=parsed.elevation_m,
        missing=missing,
        flagged=parsed.flagged,
        findings=checked.findings,
        notes=tuple(notes),
    )


def _bytes(source: bytes | str | os.PathLike[str], name: str) -> tuple[bytes, str]:
    if isinstance(source, bytes):
        return source, name or "the file"
    path = Path(source)
    name = name or path.name
    try:
        if path.is_dir():
            raise refuse(name, str(path), "a folder", "a file", "Name the file in it.")
        if path.stat().st_size > LARGEST_BYTES:
            raise refuse(
                name, "whole file", "a file too large for a daily record", "one station", "Give one station."
            )
        return path.read_bytes(), name
    except FileNotFoundError:
        raise refuse(
            name, str(path), "no such file", "a weather file", "Check the name and the folder."
        ) from None
    except OSError as error:
        raise refuse(
            name, str(path), str(error.strerror), "a file that can be read", "Check its permissions."
        ) from None


def _parse(data: bytes, name: str, hints: dict[str, str | None]) -> tuple[Parsed, Layout, tuple[str, ...]]:
    station = hints.get("station")
    if looks_like_dly(data):
        return read_dly(data, name), "ghcn-dly", ()
    text, notes = decoded(data, name)
    if not text.strip():
        raise refuse(
            name, "whole file", "an empty file", "a daily weather record", "Check the file and add it again."
        )
    if looks_like_daily_csv(text):
        series = read_daily_csv(text, name, station or "")
        filled = int(series.filled_days().sum())
        told = (
            (f"Numbers filled on {filled} days were left out; they were never measured.",) if filled else ()
        )
        return Parsed(series.unfilled(), station or "", {}, told), "daily-csv", notes
    if looks_long(text):
        return read_long(text, name, station), "ghcn-long", notes
    if looks_wide(text):
        return read_wide(text, name, station, hints.get("units")), "ghcn-wide", notes
    own = {field.name: hints[field.name] for field in fields(Hints) if hints.get(field.name) is not None}
    return read_table(text, name, Hints(**own), station or ""), "table", notes  # type: ignore[arg-type]


def _check_hints(hints: dict[str, str | None]) -> None:
    known = {field.name for field in fields(Hints)} | {"station", "units"}
    for key, value in hints.items():
        if key not in known:
            raise ParameterError(
                f"{key!r} is no hint for a weather file.", f"Known: {', '.join(sorted(known))}."
            )
        if value is not None and key in _WORDS and value not in _WORDS[key]:
            raise ParameterError(f"{key} is {value!r}.", f"Allowed: {', '.join(_WORDS[key])}.")


__all__ = ["InputFileError", "ReadResult", "read_weather"]
