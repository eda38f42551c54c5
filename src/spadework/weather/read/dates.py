"""Dates as people and stations write them; the order of day and month is found, never guessed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from spadework.errors import Fault
from spadework.types import Bools, Floats
from spadework.weather.read.result import FAULTS_KEPT

Order = Literal["ymd", "dmy", "mdy"]

_MONTHS: Final = {
    name: number
    for number, names in enumerate(
        (
            "jan january janvier januar enero",
            "feb february fevrier februar febrero",
            "mar march mars marz marzo mrz",
            "apr april avril abril",
            "may mai mayo",
            "jun june juin juni junio",
            "jul july juillet juli julio",
            "aug august aout agosto",
            "sep sept september septembre septiembre",
            "oct october octobre oktober octubre okt",
            "nov november novembre noviembre",
            "dec december decembre dezember diciembre dez",
        ),
        start=1,
    )
    for name in names.split()
}
_NUMBERS = re.compile(r"(\d{4}|\d{1,2})[-/. ]+(\d{1,2})[-/. ]+(\d{4}|\d{1,2})\.?")
_CLOCK = re.compile(
    r"[T ]+(\d{1,2})[:.h](\d{2})(?::\d{2}(?:\.\d+)?)?\s*([ap]\.?m\.?)?\s*(?:z|[+-]\d{2}:?\d{2})?$", re.I
)
_YEARS = (1700, 2200)
_EPOCH_ORDINAL = date(1970, 1, 1).toordinal()


@dataclass(frozen=True)
class Parts:
    """Dates taken apart but not yet put in order: three numbers each, hour of the day (NaN without)."""

    numbers: NDArray[np.int64]  # [row, 3]
    year_first: Bools
    month_named: Bools
    hour: Floats


def take_apart(texts: list[str], rows: list[int], column: str) -> tuple[Parts, list[Fault]]:
    """Split every date into three numbers and an hour."""
    numbers = np.zeros((len(texts), 3), dtype=np.int64)
    year_first = np.zeros(len(texts), dtype=np.bool_)
    named = np.zeros(len(texts), dtype=np.bool_)
    hour = np.full(len(texts), np.nan)
    faults: list[Fault] = []
    for at, text in enumerate(texts):
        if len(text) == 10 and text[4] == "-" and text[7] == "-" and text[:4].isdigit():
            body = text
        else:
            body, hour[at] = _clock(text)
        match = _NUMBERS.fullmatch(body)
        if match:
            numbers[at] = (int(match[1]), int(match[2]), int(match[3]))
            year_first[at] = len(match[1]) == 4
            continue
        if len(body) == 8 and body.isdigit():
            numbers[at] = (int(body[:4]), int(body[4:6]), int(body[6:]))
            year_first[at] = True
            continue
        with_name = _with_month_name(body)
        if with_name:
            numbers[at] = with_name
            year_first[at] = named[at] = True
            continue
        faults.append(_fault(rows[at], column, text))
        if len(faults) >= FAULTS_KEPT:
            break
    return Parts(numbers, year_first, named, hour), faults


def _clock(text: str) -> tuple[str, float]:
    """The date without its time of day, and the hour (NaN when there is none)."""
    match = _CLOCK.search(text)
    if match is None or match.start() == 0:
        return text.strip(), np.nan
    hour = int(match[1])
    half = (match[3] or "").lower()[:1]
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    return text[: match.start()].strip(), hour + int(match[2]) / 60


def hours_of(texts: list[str]) -> Floats:
    """Hours of the day from a column of its own; NaN where it cannot be read."""
    out = np.full(len(texts), np.nan)
    for at, text in enumerate(texts):
        plain = text.strip()
        if plain.isdigit():
            number = int(plain)
            out[at] = number if number <= 24 else number // 100 + number % 100 / 60
        else:
            out[at] = _clock("- " + plain)[1]
    return out


def _with_month_name(text: str) -> tuple[int, int, int] | None:
    """Year, month, day of '3 May 2021', 'May 3, 2021', '03-May-21', '2021 May 3'."""
    plain = re.sub(r"^(mon|tue|wed|thu|fri|sat|sun)[a-z]*[,. ]+", "", text.strip().lower())
    words = [word for word in re.split(r"[-/., ]+", plain) if word]
    names = [_MONTHS.get(word, 0) for word in words]
    if len(words) != 3 or sum(number > 0 for number in names) != 1:
        return None
    rest = [
        re.sub(r"(st|nd|rd|th)$", "", word) for word, number in zip(words, names, strict=True) if not number
    ]
    if not all(word.isdigit() for word in rest):
        return None
    day, year = (rest[1], rest[0]) if len(rest[0]) == 4 else (rest[0], rest[1])
    return (_full_year(int(year)) if len(year) <= 2 else int(year), max(names), int(day))


def put_in_order(
    parts: Parts, texts: list[str], rows: list[int], column: str, order: Order | None
) -> tuple[NDArray[np.int64], str, list[Fault]]:
    """Day numbers since 1970-01-01 of every row.

    Parameters
    ----------
    parts : Parts
        From `take_apart`.
    texts, rows, column
        For messages.
    order : {"ymd", "dmy", "mdy"} or None
        None: from the dates themselves.

    Returns
    -------
    tuple
        Day numbers, a note (empty when nothing was to be decided), faults.

    Notes
    -----
    Day and month are told apart by a number above 12; failing that by which reading gives days that follow
    each other. When both readings stand, the file is refused and the person is asked.
    """
    numbers, loose = parts.numbers, ~parts.year_first
    note = ""
    if order is None and loose.any():
        order, note = _order(numbers[loose])
        if order is None:
            at = int(np.flatnonzero(loose)[0])
            found = f"{texts[at]!r} and the like, which can be day/month or month/day"
            return (
                np.zeros(len(texts), np.int64),
                "",
                [
                    Fault(
                        f"row {rows[at]}, column {column!r}",
                        found,
                        "an order that can be told",
                        'Say date_order="dmy" or "mdy".',
                    )
                ],
            )
    year, month, day = numbers[:, 0].copy(), numbers[:, 1].copy(), numbers[:, 2].copy()
    if loose.any() and order in ("dmy", "mdy"):
        year[loose] = numbers[loose, 2]
        first, second = numbers[loose, 0], numbers[loose, 1]
        day[loose], month[loose] = (first, second) if order == "dmy" else (second, first)
    short = loose & (year < 100)
    year[short] = np.where(year[short] >= 70, 1900, 2000) + year[short]
    shaped = (year >= _YEARS[0]) & (year <= _YEARS[1]) & (month >= 1) & (month <= 12) & (day >= 1)
    months = np.where(shaped, (year - 1970) * 12 + month - 1, 0)
    first_day = months.astype("datetime64[M]").astype("datetime64[D]").astype(np.int64)
    length = (months + 1).astype("datetime64[M]").astype("datetime64[D]").astype(np.int64) - first_day
    shaped &= day <= length
    days = first_day + day - 1
    wrong = np.flatnonzero(~shaped)[:FAULTS_KEPT].tolist()
    faults = [_fault(rows[at], column, texts[at]) for at in wrong]
    return days, note, faults


def _order(numbers: NDArray[np.int64]) -> tuple[Order | None, str]:
    first_high, second_high = bool((numbers[:, 0] > 12).any()), bool((numbers[:, 1] > 12).any())
    if first_high and not second_high:
        return "dmy", "Dates read as day, month, year."
    if second_high and not first_high:
        return "mdy", "Dates read as month, day, year."
    if first_high:
        return "dmy", ""  # mixed: the rows that cannot be read so become faults
    year = numbers[:, 2]
    follows = []
    for month, day in ((numbers[:, 1], numbers[:, 0]), (numbers[:, 0], numbers[:, 1])):
        steps = np.diff(year * 372 + month * 31 + day)
        follows.append(bool(steps.size >= 2 and (np.abs(steps) == 1).mean() > 0.7))
    if follows == [True, False]:
        return "dmy", "Dates read as day, month, year: so they follow each other."
    if follows == [False, True]:
        return "mdy", "Dates read as month, day, year: so they follow each other."
    return None, ""


def _full_year(two_digits: int) -> int:
    return two_digits + (1900 if two_digits >= 70 else 2000)


def _fault(row: int, column: str, text: str) -> Fault:
    allowed = "a date that exists, such as 2026-03-01"
    return Fault(f"row {row}, column {column!r}", repr(text), allowed, "Correct it or remove the row.")


def from_year_month_day(
    year: list[str], month: list[str], day: list[str], rows: list[int]
) -> tuple[NDArray[np.int64], list[Fault]]:
    """Day numbers from three columns."""
    days = np.zeros(len(year), dtype=np.int64)
    faults = []
    for at, (y, m, d) in enumerate(zip(year, month, day, strict=True)):
        try:
            days[at] = date(int(float(y)), int(float(m)), int(float(d))).toordinal() - _EPOCH_ORDINAL
        except (ValueError, OverflowError):
            faults.append(_fault(rows[at], "year, month, day", f"{y}-{m}-{d}"))
            if len(faults) >= FAULTS_KEPT:
                break
    return days, faults
