"""Monthly normals as a person writes them: a row of twelve numbers, or a small table by month."""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from spadework import units
from spadework.errors import Fault, InputFileError, ParameterError
from spadework.weather.read.plain import decoded

Quantity = Literal["temperature", "rain", "days"]

_NUMBER: Final = r"[-+−]?(?:\d+(?:[.,]\d+)?|[.,]\d+)"
_UNIT: Final = r"°?\s*[cf]|mm|cm|in|inch|inches"
_PART: Final = re.compile(rf"({_NUMBER})?\s*({_UNIT})?", re.I)
_ALLOWED: Final[Mapping[Quantity, tuple[float, float, str]]] = {
    "temperature": (-70.0, 55.0, "°C"),
    "rain": (0.0, 5000.0, "mm"),
    "days": (0.0, 31.0, "days"),
}
_UNITS_OF: Final[Mapping[Quantity, tuple[str, ...]]] = {
    "temperature": ("c", "f"),
    "rain": ("mm", "cm", "in"),
    "days": (),
}
_COLUMNS: Final[Mapping[str, tuple[Quantity, tuple[str, ...]]]] = {
    "tmin": ("temperature", ("tmin", "min", "minimum", "low", "night", "night minimum", "mean minimum")),
    "tmax": ("temperature", ("tmax", "max", "maximum", "high", "day", "day maximum", "mean maximum")),
    "rain": ("rain", ("rain", "rainfall", "precipitation", "precip", "prcp")),
    "wet_days": ("days", ("wet days", "rain days", "rainy days", "days of rain", "wet")),
}
_MONTHS: Final = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


@dataclass(frozen=True)
class NormalsRead:
    """Twelve months of each, January first, in degC, mm and days."""

    tmin_c: tuple[float, ...]
    tmax_c: tuple[float, ...]
    rain_mm: tuple[float, ...]
    wet_days: tuple[float, ...] | None


def read_row(text: str, name: str, quantity: Quantity) -> tuple[float, ...]:
    """Twelve numbers in a row, January to December.

    Parameters
    ----------
    text : str
        Parted by blanks, commas or semicolons; "F" or "in" behind the last number, or behind
        each, says that they are not metric.
    name : str
        The option, for the message.
    quantity : "temperature", "rain" or "days"

    Returns
    -------
    tuple of 12 float
        In degC, mm or days.

    Raises
    ------
    ParameterError
        If there are not twelve numbers, or one is not possible.
    """
    numbers: list[float] = []
    said: list[str] = []
    for part in _parts(text):
        match = _PART.fullmatch(part)
        if match is None:
            raise ParameterError(
                f"{name}: {part[:20]!r} is not a number.", "Give twelve, January to December."
            )
        if match[1]:
            numbers.append(_number(match[1]))
        said.append(_unit(match[2]))
    if len(numbers) != 12:
        raise ParameterError(f"{name} has {len(numbers)} numbers.", "Give twelve, January to December.")
    named = {unit for unit in said if unit}
    if len(named) > 1:
        raise ParameterError(f"{name} mixes {' and '.join(sorted(named))}.", "Use one unit.")
    unit = next(iter(named), "")
    if unit and unit not in _UNITS_OF[quantity]:
        allowed = ", ".join(_UNITS_OF[quantity]) or "none"
        raise ParameterError(f"{name} is given in {unit!r}.", f"Units known here: {allowed}.")
    values = tuple(_metric(number, unit) for number in numbers)
    low, high, words = _ALLOWED[quantity]
    for month, value in zip(_MONTHS, values, strict=True):
        if not low <= value <= high:
            raise ParameterError(
                f"{name} of {month.capitalize()} is {value:g} {words}.", f"Allowed: {low:g} to {high:g}."
            )
    return values


def read_normals_table(content: bytes, name: str) -> NormalsRead:
    """A table of twelve rows: month, mean minimum, mean maximum, rain, and days of rain where known.

    Parameters
    ----------
    content : bytes
        CSV with a heading; a unit stands in the heading in brackets ("tmin (°F)", "rain (in)"), or is metric.
    name : str
        For messages.

    Raises
    ------
    InputFileError
        With every fault: row, column, what was found, what is allowed.
    """
    text, _ = decoded(content, name)
    lines = [line for line in text.splitlines() if line.strip()]
    parting = next((sign for sign in ("\t", ";") if lines and sign in lines[0]), ",")
    rows = list(csv.reader(lines, delimiter=parting))
    if not rows:
        raise _refused(name, [Fault("whole file", "nothing", "a heading and twelve rows", "Fill it.")])
    heads = [_head(cell) for cell in rows[0]]
    places: dict[str, int] = {}
    faults: list[Fault] = []
    for column, (_, words) in _COLUMNS.items():
        at = [place for place, (title, _) in enumerate(heads) if title in words]
        if len(at) == 1:
            places[column] = at[0]
        elif column != "wet_days" or at:
            found = "twice" if at else "no such column"
            faults.append(Fault(f"heading, {column}", found, " or ".join(words[:3]), "Name it so, once."))
    if len(rows) != 13:
        faults.append(Fault("whole file", f"{len(rows) - 1} rows", "twelve, January first", "Complete it."))
    if faults:
        raise _refused(name, faults)
    faults = _month_faults(rows, [title for title, _ in heads])
    values: dict[str, tuple[float, ...]] = {}
    for column, place in places.items():
        values[column], wrong = _column(rows, place, column, heads[place][1])
        faults += wrong
    if faults:
        raise _refused(name, faults)
    return NormalsRead(values["tmin"], values["tmax"], values["rain"], values.get("wet_days"))


def _column(
    rows: Sequence[Sequence[str]], place: int, column: str, unit: str
) -> tuple[tuple[float, ...], list[Fault]]:
    quantity = _COLUMNS[column][0]
    low, high, words = _ALLOWED[quantity]
    if unit and unit not in _UNITS_OF[quantity]:
        allowed = ", ".join(_UNITS_OF[quantity]) or "no unit"
        return (), [Fault(f"heading, {column}", repr(unit), allowed, "Change the heading.")]
    out, faults = [], []
    for number, row in enumerate(rows[1:], start=2):
        cell = row[place].strip() if place < len(row) else ""
        value = _metric(_number(cell), unit) if re.fullmatch(_NUMBER, cell) else None
        if value is None or not low <= value <= high:
            faults.append(
                Fault(
                    f"row {number}, column {column!r}",
                    repr(cell),
                    f"{low:g} to {high:g} {words}",
                    "Correct it.",
                )
            )
            continue
        out.append(value)
    return tuple(out), faults


def _month_faults(rows: Sequence[Sequence[str]], titles: list[str]) -> list[Fault]:
    """Months out of order, where the table names them."""
    if "month" not in titles:
        return []
    place = titles.index("month")
    faults = []
    for number, (row, month) in enumerate(zip(rows[1:], _MONTHS, strict=True), start=1):
        cell = row[place].strip().lower() if place < len(row) else ""
        if not (cell.startswith(month) or cell.lstrip("0") == str(number)):
            faults.append(
                Fault(f"row {number + 1}, column 'month'", repr(cell), month.capitalize(), "Order the rows.")
            )
    return faults


def _head(cell: str) -> tuple[str, str]:
    """A heading's words and its unit: "tmin (°F)", "rain_in" and "tmax_f" among them."""
    text = cell.strip().lower().replace("_", " ")
    match = re.fullmatch(r"(.*?)\s*[\[(]?\s*(?:°\s*)?(\bc|\bf|\bmm|\bcm|\bin|\binch|\binches)\s*[\])]?", text)
    if match and match[1]:
        return match[1].strip(" ([°"), _unit(match[2])
    return text, ""


def _parts(text: str) -> list[str]:
    """Pieces of a row. A comma parts numbers only where blanks and semicolons do not."""
    pieces = text.split(";") if ";" in text else re.split(r",?\s+", text.strip())
    if len(pieces) < 12 and "," in text and ";" not in text:
        pieces = re.split(r"[,\s]+", text.strip())
    return [piece.strip() for piece in pieces if piece.strip()]


def _number(text: str) -> float:
    return float(text.replace("−", "-").replace(",", "."))


def _unit(text: str | None) -> str:
    unit = (text or "").lower().replace("°", "").strip()
    return "in" if unit.startswith("in") else unit


def _metric(value: float, unit: str) -> float:
    if unit == "f":
        value = units.c_from_f(value)
    elif unit in ("in", "cm"):
        value *= units.MM_PER_INCH if unit == "in" else 10.0
    return round(value, 3)


def _refused(name: str, faults: list[Fault]) -> InputFileError:
    return InputFileError(name, faults)
