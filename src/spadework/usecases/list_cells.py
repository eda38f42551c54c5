"""Columns found by the meaning of their titles, and cells read one by one with every fault kept."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from spadework import units
from spadework.errors import Fault, InputFileError
from spadework.garden.lay_out_lengths import LENGTH, UNIT, metres, number_of, unit_of
from spadework.garden.lookup import nearest, plain
from spadework.store.sheet_read import Grid, Value, address

_HEAD_ROWS: Final = 15
"""Titles stand in one of the first rows."""

_NUMBER: Final = re.compile(r"[-+−]?\s*(?:\d+(?:[.,]\d+)?|[.,]\d+)")
_IN_FIGURES: Final = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})")
_IN_BRACKETS: Final = re.compile(r"[(\[]([^)\]]*)[)\]]\s*$")
_WEIGHTS: Final = {
    "kg": 1.0, "kilo": 1.0, "kilos": 1.0, "kilogram": 1.0, "kilograms": 1.0, "g": 0.001, "gram": 0.001,
    "grams": 0.001, "lb": units.KG_PER_POUND, "lbs": units.KG_PER_POUND, "pound": units.KG_PER_POUND,
    "pounds": units.KG_PER_POUND, "oz": units.KG_PER_POUND / 16, "ounce": units.KG_PER_POUND / 16,
    "ounces": units.KG_PER_POUND / 16,
}  # fmt: skip
_MONTHS: Final = {
    name: number
    for number, names in enumerate(
        ("jan january", "feb february", "mar march", "apr april", "may", "jun june", "jul july", "aug august",
         "sep sept september", "oct october", "nov november", "dec december"),
        start=1,
    )
    for name in names.split()
}  # fmt: skip


@dataclass(frozen=True)
class Title:
    """A column that means something: where it is, and the unit its title names.

    Parameters
    ----------
    column : int
        From 0.
    text : str
        As it is written.
    unit : str
        Empty where the title names none.
    """

    column: int
    text: str
    unit: str


@dataclass(frozen=True)
class Listed:
    """A table of which the columns are known.

    Parameters
    ----------
    grid : Grid
    head : int
        Row of the titles, from 0.
    titles : dict of str to Title
        By what they mean.
    not_used : tuple of str
        Titles that mean nothing here.
    """

    grid: Grid
    head: int
    titles: dict[str, Title]
    not_used: tuple[str, ...]

    def rows(self) -> Iterator[int]:
        """Rows below the titles with anything in a column that is used."""
        used = [title.column for title in self.titles.values()]
        for row in range(self.head + 1, len(self.grid.rows)):
            if any(self.grid.at(row, column) is not None for column in used):
                yield row

    def value(self, row: int, field: str) -> Value:
        """A cell by what its column means; None where there is no such column."""
        title = self.titles.get(field)
        return None if title is None else self.grid.at(row, title.column)

    def where(self, row: int, field: str) -> str:
        """The address of a cell, with its title."""
        title = self.titles.get(field)
        return f"row {row + 1}" if title is None else f"{address(row, title.column)} ({title.text})"


def listed(grid: Grid, meanings: Mapping[str, Sequence[str]], needed: Sequence[str]) -> Listed:
    """Find the row of titles and what each means.

    Parameters
    ----------
    grid : Grid
    meanings : mapping of str to sequence of str
        Field to the usual words for it.
    needed : sequence of str
        Fields without which nothing can be read.

    Raises
    ------
    InputFileError
        If a needed column is not found, or one is there twice.
    """
    known = {plain(word): field for field, words in meanings.items() for word in (field, *words)}
    best: tuple[int, int] = (0, 0)
    for row in range(min(_HEAD_ROWS, len(grid.rows))):
        count = sum(_meaning(cell, known)[0] != "" for cell in grid.rows[row])
        if count > best[0]:
            best = (count, row)
    head = best[1]
    titles: dict[str, Title] = {}
    not_used: list[str] = []
    faults: list[Fault] = []
    for column, cell in enumerate(grid.rows[head]):
        field, unit = _meaning(cell, known)
        if not field:
            not_used += [] if cell is None else [str(cell)]
        elif field in titles:
            faults.append(
                Fault(address(head, column), f"{cell!r}, which means the same as {titles[field].text!r}",
                      "one column of a meaning", "Take one of them out, or give it another title.")
            )  # fmt: skip
        else:
            titles[field] = Title(column, str(cell), unit)
    for field in needed:
        if field not in titles:
            words = ", ".join(dict.fromkeys((field, *meanings[field])))
            near = nearest(field, not_used)
            faults.append(
                Fault(f"row {head + 1}", f"no column for the {field}", f"one titled {words}",
                      f"Nearest: {', '.join(near)}." if near else "Add it, or correct its title.")
            )  # fmt: skip
    if faults:
        raise InputFileError(grid.name, faults)
    return Listed(grid, head, titles, tuple(not_used))


def _meaning(cell: Value, known: Mapping[str, str]) -> tuple[str, str]:
    """What a title means and the unit it names: "Width (ft)", "width_cm", "Length in m", "Yield, kg"."""
    if not isinstance(cell, str):
        return "", ""
    text, unit = cell, ""
    if found := _IN_BRACKETS.search(text):
        text, unit = text[: found.start()], found[1].strip().casefold()
    words = plain(text).split()
    if " ".join(words) in known:
        return known[" ".join(words)], unit or (" ".join(words) if words[-1] in _WEIGHTS else "")
    if len(words) > 1 and not unit:
        unit = words[-1]
        words = words[:-2] if len(words) > 2 and words[-2] == "in" else words[:-1]
        if (re.fullmatch(UNIT, unit) or unit in _WEIGHTS) and " ".join(words) in known:
            return known[" ".join(words)], unit
    return "", ""


class Reader:
    """Reads cells of a list and keeps every fault.

    Parameters
    ----------
    table : Listed
    unit : str
        Of lengths where neither the cell nor the title names one; empty for none.
    us : bool
        Dates in figures have the month first, where none in the list shows otherwise.
    """

    def __init__(self, table: Listed, unit: str = "", *, us: bool = False) -> None:
        self.table = table
        self.unit = unit
        self.faults: list[Fault] = []
        self._without_unit: set[str] = set()
        self._month_first = _month_first(table, us)

    def fault(self, row: int, field: str, found: str, allowed: str, do: str) -> None:
        """Keep a fault of a cell."""
        self.faults.append(Fault(self.table.where(row, field), found, allowed, do))

    def text(self, row: int, field: str) -> str:
        """A cell as text; a whole number without decimals."""
        value = self.table.value(row, field)
        if isinstance(value, float) and value == int(value):
            value = int(value)
        return "" if value is None else str(value)

    def length_m(self, row: int, field: str) -> float | None:
        """A length in metres; None where the cell is empty or cannot be read."""
        value = self.table.value(row, field)
        if value is None:
            return None
        text = str(value).strip().casefold().replace("−", "-")
        sign = -1.0 if text.startswith("-") else 1.0
        bare = (
            text.lstrip("+-").strip().replace("′", "'").replace("″", '"').replace("’", "'").replace("”", '"')
        )
        if isinstance(value, (bool, date)) or not re.fullmatch(LENGTH, bare):
            self.fault(row, field, repr(str(value)), "a length", 'Write 1.2, "120 cm" or "4 ft 6 in".')
            return None
        title = self.table.titles[field]
        unit = unit_of(title.unit) or self.unit
        # A number right before a unit: what metres() takes for a bare number has none.
        if not unit and not unit_of(bare) and "'" not in bare:
            self._no_unit(field)
            return None
        return sign * metres(bare, unit or "m")

    def _no_unit(self, field: str) -> None:
        """Said once for a column."""
        if field not in self._without_unit:
            self._without_unit.add(field)
            title = self.table.titles[field]
            self.faults.append(
                Fault(address(self.table.head, title.column), f"{title.text!r} without a unit",
                      "metres, centimetres, feet or inches",
                      f"Title it {title.text!r} with the unit behind, as in {title.text + ' (cm)'!r},"
                      " or say --units cm.")
            )  # fmt: skip

    def number(self, row: int, field: str, allowed: str = "a number") -> float | None:
        """A plain number; None where the cell is empty or cannot be read."""
        value = self.table.value(row, field)
        if value is None:
            return None
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            return float(value)
        text = str(value).strip().replace("−", "-")
        if isinstance(value, str) and _NUMBER.fullmatch(text):
            return float(text.replace(",", ".").replace(" ", ""))
        self.fault(row, field, repr(str(value)), allowed, "Correct the cell.")
        return None

    def weight_kg(self, row: int, field: str) -> float | None:
        """A weight in kilograms, by the unit in the cell or in the title."""
        value = self.table.value(row, field)
        if value is None:
            return None
        text = str(value).strip().casefold()
        found = re.fullmatch(rf"({_NUMBER.pattern})\s*([a-z]*)\.?", text)
        unit = (found[2] if found else "") or self.table.titles[field].unit
        if (
            found is None
            or isinstance(value, (bool, date))
            or unit not in _WEIGHTS
            or number_of(found[1]) < 0
        ):
            allowed = "a weight in kg, g, lb or oz"
            self.fault(row, field, repr(str(value)), allowed, "Name the unit in the title or the cell.")
            return None
        return number_of(found[1]) * _WEIGHTS[unit]

    def day(self, row: int, field: str, years: Sequence[int]) -> date | None:
        """A date; one without a year is of the first of some years.

        Parameters
        ----------
        years : sequence of int
            Years it may lie in; any where it is empty.
        """
        value = self.table.value(row, field)
        if value is None:
            return None
        found = (
            value
            if isinstance(value, date)
            else _day(str(value), years[0] if years else None, self._month_first)
        )
        if found is None:
            self.fault(row, field, repr(str(value)), "a date", "Write it as 2024-05-01 or 1 May 2024.")
        elif years and found.year not in years:
            span = f"{min(years)} to {max(years)}" if len(set(years)) > 1 else str(years[0])
            self.fault(row, field, found.isoformat(), f"a day of {span}", "Correct the day or the year.")
            return None
        return found


def _month_first(table: Listed, us: bool) -> bool | None:
    """Which way dates in figures are written; None where the list shows both."""
    shown = set()
    for row in table.rows():
        for title in table.titles.values():
            cell = table.grid.at(row, title.column)
            if isinstance(cell, str) and (found := _IN_FIGURES.fullmatch(cell)):
                one, two = int(found[1]), int(found[2])
                shown |= {False} if one > 12 else {True} if two > 12 else set()
    return us if not shown else shown.pop() if len(shown) == 1 else None


def _day(text: str, year: int | None, month_first: bool | None) -> date | None:
    """A date in words or figures; None where it is none, or could be read two ways.

    Parameters
    ----------
    text : str
    year : int or None
        Where none is written.
    month_first : bool or None
        How dates in figures are written; None where that is not known.
    """
    words = text.casefold().replace(",", " ").replace(".", " ").replace("/", " ")
    try:
        if found := re.fullmatch(r"(\d{4})[- ](\d{1,2})[- ](\d{1,2})", words.strip()):
            return date(int(found[1]), int(found[2]), int(found[3]))
        parts = words.replace("-", " ").split()
        month = next((_MONTHS[part] for part in parts if part in _MONTHS), None)
        numbers = [int(re.sub(r"(?<=\d)(?:st|nd|rd|th)$", "", part)) for part in parts if part[0].isdigit()]
        if month is not None and len(parts) == len(numbers) + 1:
            if len(numbers) == 2 and max(numbers) > 31:
                return date(max(numbers), month, min(numbers))
            if len(numbers) == 1 and year is not None:
                return date(year, month, numbers[0])
        if figures := _IN_FIGURES.fullmatch(text.strip()):
            one, two, last = (int(part) for part in figures.groups())
            if month_first is None and one != two and max(one, two) <= 12:
                return None
            return date(last, one, two) if (two > 12 or (month_first and one <= 12)) else date(last, two, one)
    except ValueError:
        pass
    return None
