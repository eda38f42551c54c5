"""Tables as a spreadsheet to look at: dates are dates, text is text, numbers in the garden's own units."""

from __future__ import annotations

import os
import re
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

from spadework import units
from spadework.errors import StoreError
from spadework.store.copies import Step, discard, keep_file, unheard
from spadework.store.tables import Cell, Column, Table

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell as SheetCell
    from openpyxl.worksheet.worksheet import Worksheet

_US: Final[dict[str, tuple[str, float]]] = {
    "m": ("ft", units.M_PER_FOOT),
    "cm": ("in", units.MM_PER_INCH / 10),
    "mm": ("in", units.MM_PER_INCH),
    "m2": ("sq ft", units.M_PER_FOOT**2),
    "kg": ("lb", units.KG_PER_POUND),
    "g": ("oz", units.KG_PER_POUND * 1000 / 16),
    "l/min": ("gal/min", units.L_PER_GALLON),
    "l/week": ("gal/week", units.L_PER_GALLON),
    "l/h": ("gal/h", units.L_PER_GALLON),
}
_SHOWN: Final = {"m2": "m²", "deg": "°"}

_LONGEST: Final = 32_000
"""Characters a cell holds, by the format's own limit of 32767."""
_WIDEST: Final = 60
_FIRST_YEAR: Final = 1901
"""Days of earlier years are written as text: the format counts days from 1900, with a fault in that year."""

_NOT_ALLOWED: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
"""Signs XML cannot hold."""


def write_spreadsheet(to: Path, tables: Sequence[Table], *, us: bool, step: Step = unheard) -> None:
    """Write one sheet for each table.

    Parameters
    ----------
    to : Path
        It must not exist.
    tables : sequence of Table
        Columns only programs need are left out.
    us : bool
        Feet, inches, pounds and gallons, month before day.
    step : Step
        Of the sheets.

    Raises
    ------
    StoreError
        If the file exists or cannot be written; then there is no such file.
    """
    from openpyxl import Workbook

    if to.exists():
        raise StoreError(f"{to} exists already.", "Name a new file; nothing was overwritten.")
    book = Workbook()
    book.remove(book.worksheets[0])
    for done, table in enumerate(tables):
        step(done, len(tables))
        _fill(book.create_sheet(table.name[:1].upper() + table.name[1:]), table, us)
    part = to.with_name(f".{to.name}.{os.getpid()}.part")
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        book.save(part)
        keep_file(part, to)
    except OSError as error:
        raise StoreError(f"{to} cannot be written: {error.strerror}.", "Check folder and disk.") from None
    finally:
        discard(part)
    step(len(tables), len(tables))


def _fill(sheet: Worksheet, table: Table, us: bool) -> None:
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    places = [place for place, column in enumerate(table.columns) if not column.inner]
    for at, place in enumerate(places, start=1):
        column = table.columns[place]
        head = sheet.cell(1, at)
        _put(head, sheet_title(column, us), us)
        head.font = Font(bold=True)
        head.alignment = Alignment(vertical="top", wrap_text=True)
        widest = 10
        for line, row in enumerate(table.rows, start=2):
            cell = sheet.cell(line, at)
            _put(cell, _converted(row[place], column, us), us)
            widest = max(widest, len(str(row[place] or "")))
        sheet.column_dimensions[get_column_letter(at)].width = min(widest, _WIDEST) + 2
    sheet.freeze_panes = "A2"
    if table.rows:
        sheet.auto_filter.ref = sheet.dimensions


def sheet_title(column: Column, us: bool) -> str:
    """A title as people read it: "Width (m)"."""
    title = column.title[:1].upper() + column.title[1:]
    unit = _US[column.unit][0] if us and column.unit in _US else _SHOWN.get(column.unit, column.unit)
    return f"{title} ({unit})" if unit else title


def _converted(cell: Cell, column: Column, us: bool) -> Cell:
    if us and column.unit in _US and isinstance(cell, (int, float)) and not isinstance(cell, bool):
        return cell / _US[column.unit][1]
    return cell


def _put(cell: SheetCell, value: Cell, us: bool) -> None:
    """Put a value into a cell; what begins with = stays the text it is."""
    if value is None or value == "":
        return
    if isinstance(value, bool):
        value = "yes" if value else "no"
    if isinstance(value, date) and value.year < _FIRST_YEAR:
        value = value.isoformat()
    if isinstance(value, date):
        cell.value = value
        cell.number_format = "mmm d, yyyy" if us else "d mmm yyyy"
    elif isinstance(value, str):
        text = _NOT_ALLOWED.sub("\ufffd", value)
        cell.value = text if len(text) <= _LONGEST else f"{text[:_LONGEST]} ..."
        cell.data_type = "s"
        cell.quotePrefix = text.startswith(("=", "+", "-", "@", "'"))
    else:
        cell.value = value
        if isinstance(value, float):
            cell.number_format = "0.##" if value != int(value) else "0"
