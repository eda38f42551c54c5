"""Read a table somebody keeps in a spreadsheet or a CSV file: cells with their addresses, nothing guessed."""

from __future__ import annotations

import csv
import io
import warnings
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any, Final, TypeAlias

from spadework.errors import Fault, InputFileError
from spadework.garden.lookup import nearest, plain
from spadework.store.copies import ZIP_FAULTS
from spadework.weather.read.plain import decoded

Value: TypeAlias = str | int | float | bool | date | None

MOST_ROWS: Final = 20_000
MOST_COLUMNS: Final = 200
LARGEST_BYTES: Final = 20_000_000
LARGEST_UNPACKED: Final = 300_000_000
"""A list of beds or of past years comes near none of these. Class: common-practice."""


@dataclass(frozen=True)
class Grid:
    """The cells of one sheet.

    Parameters
    ----------
    name : str
        Of the file, with its sheet where it has several.
    rows : tuple of tuple of Value
        The first row is row 1; a cell that is empty or only spaces is None.
    """

    name: str
    rows: tuple[tuple[Value, ...], ...]

    def at(self, row: int, column: int) -> Value:
        """A cell by row and column, both from 0; None outside."""
        cells = self.rows[row] if row < len(self.rows) else ()
        return cells[column] if column < len(cells) else None


def address(row: int, column: int) -> str:
    """What a person calls a cell, given row and column from 0: "B7"."""
    letters = ""
    column += 1
    while column:
        column, left = divmod(column - 1, 26)
        letters = chr(ord("A") + left) + letters
    return f"{letters}{row + 1}"


def read_grid(path: Path, sheet: str = "", usual: Sequence[str] = ()) -> Grid:
    """Read one sheet of an .xlsx file, or a CSV file.

    Parameters
    ----------
    path : Path
    sheet : str
        Which, where there are several.
    usual : sequence of str
        Names that are taken where none is asked for.

    Raises
    ------
    InputFileError
        If it is neither, too large, damaged, or the sheet is not there.
    """
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise _refused(
                path.name, f"{path.stat().st_size / 1e6:.0f} MB", "at most 20 MB", "Give the list alone."
            )
        data = path.read_bytes()
    except OSError as error:
        raise _refused(
            path.name, f"unreadable ({error.strerror})", "a readable file", "Check the path."
        ) from None
    if data[:4] == b"PK\x03\x04":
        return _xlsx(path.name, data, sheet, usual)
    if sheet:
        raise _refused(path.name, f"no sheet {sheet!r}", "a spreadsheet with sheets", "Leave --sheet out.")
    return _csv(path.name, data)


def _xlsx(name: str, data: bytes, sheet: str, usual: Sequence[str]) -> Grid:
    from openpyxl import load_workbook

    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            unpacked = sum(info.file_size for info in packed.infolist())
        if unpacked > LARGEST_UNPACKED:
            raise _refused(name, f"{unpacked / 1e6:.0f} MB when unpacked", "a list", "Give the list alone.")
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of drawings and rules it does not keep; only cells are read
            book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
            try:
                chosen = _chosen(name, book.sheetnames, sheet, usual)
                cells = book[chosen].iter_rows(max_row=MOST_ROWS + 1, max_col=MOST_COLUMNS, values_only=True)
                rows = [tuple(_value(cell) for cell in row) for row in cells]
            finally:
                book.close()
    except InputFileError:
        raise
    except (OSError, KeyError, TypeError, AttributeError, SyntaxError, IndexError, *ZIP_FAULTS) as error:
        # The library lets every fault of a damaged file through as it comes.
        raise _refused(
            name,
            f"no sound spreadsheet ({type(error).__name__})",
            "an .xlsx file",
            "Save it anew, or as CSV.",
        ) from None
    shown = name if len(book.sheetnames) == 1 else f"{name}, sheet {chosen}"
    return _grid(shown, rows)


def _chosen(name: str, there: Sequence[str], sheet: str, usual: Sequence[str]) -> str:
    wanted = [sheet] if sheet else list(usual)
    for word in wanted:
        for each in there:
            if plain(each) == plain(word):
                return each
    if sheet:
        near = nearest(sheet, there)
        raise _refused(
            name,
            f"no sheet {sheet!r}",
            ", ".join(there),
            f"Nearest: {', '.join(near)}." if near else "Name one.",
        )
    if len(there) == 1:
        return there[0]
    raise _refused(name, f"{len(there)} sheets", "one, or one named", f"Say --sheet: {', '.join(there)}.")


def _csv(name: str, data: bytes) -> Grid:
    text, _ = decoded(data, name)
    lines = text.splitlines()
    first = next((line for line in lines if line.strip()), "")
    between = max(",;\t", key=first.count)
    try:
        rows = [
            tuple(_value(cell) for cell in row) for row in csv.reader(io.StringIO(text), delimiter=between)
        ]
    except csv.Error as error:
        raise _refused(name, f"no sound CSV ({error})", "a table", "Save it anew.") from None
    return _grid(name, rows)


def _grid(name: str, rows: list[tuple[Value, ...]]) -> Grid:
    while rows and not any(cell is not None for cell in rows[-1]):
        rows.pop()
    if len(rows) > MOST_ROWS:
        raise _refused(name, f"more than {MOST_ROWS} rows", "a list", "Give the list alone.")
    if not rows:
        raise _refused(
            name, "no cell with anything in it", "a table with titles", "Name another sheet or file."
        )
    return Grid(name, tuple(rows))


def _value(cell: Any) -> Value:
    if isinstance(cell, datetime):
        return cell.date()
    if isinstance(cell, (bool, int, float, date)) or cell is None:
        return cell
    text = str(cell).strip()
    return text or None


def _refused(name: str, found: str, allowed: str, do: str) -> InputFileError:
    return InputFileError(name, [Fault(where="whole file", found=found, allowed=allowed, do=do)])
