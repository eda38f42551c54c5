"""The bare table: what parts the columns, where the heading is, which rows are whole."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping

from spadework.errors import Fault, InputFileError
from spadework.weather.read.columns import Column, Heading, choose, read_heading, split_title
from spadework.weather.read.result import FAULTS_KEPT, refuse

_HEADING_ROWS = 40
"""A heading further down than this is not looked for."""


def split_rows(text: str, name: str) -> tuple[list[list[str]], str]:
    """Cells of every line, split by the sign that gives the most even columns."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    sample = [line for line in lines[:200] if line.strip()]
    best, delimiter = (0.0, 0), ""
    for sign in ("\t", ";", ",", "|"):
        counts = [line.count(sign) for line in sample]
        usual = max(set(counts), key=counts.count) if counts else 0
        if usual:
            score = (counts.count(usual) / len(counts), usual)
            # A decimal comma is as regular as a separator; prefer signs that cannot be one.
            if score[0] > best[0] + 0.15 or (not delimiter):
                best, delimiter = score, sign
    if not delimiter:
        if any(re.search(r"\S {1,}\S", line) for line in sample) and len(sample) > 1:
            return [line.split() for line in lines], " "
        raise refuse(
            name,
            "row 1",
            repr(sample[0][:60]) if sample else "nothing",
            "columns parted by comma, semicolon, tab or bar",
            "Save the table as CSV.",
        )
    if '"' in text:
        try:
            return [
                list(row) for row in csv.reader(io.StringIO("\n".join(lines)), delimiter=delimiter)
            ], delimiter
        except csv.Error as error:
            raise refuse(
                name, "whole file", str(error), "CSV with closed quotes", "Save it again as CSV."
            ) from None
    return [line.split(delimiter) for line in lines], delimiter


def find_heading(
    rows: list[list[str]], name: str, wanted: Mapping[str, str | None]
) -> tuple[int, Heading, list[list[str]]]:
    best: tuple[int, list[Fault]] | None = None
    for at, cells in enumerate(rows[:_HEADING_ROWS]):
        titles = cells
        following = at + 1
        # Some exports put the units in a row of their own under the names.
        if at + 1 < len(rows) and len(rows[at + 1]) == len(cells) and _is_unit_row(rows[at + 1]):
            titles = [
                f"{a} ({b.strip(' ()')})" if b.strip() else a
                for a, b in zip(cells, rows[at + 1], strict=True)
            ]
            following = at + 2
        heading = read_heading(titles)
        if any(title is not None for title in wanted.values()):
            heading, faults = choose(heading, cells if following == at + 1 else titles, wanted)
            if faults and any(cell.strip() for cell in cells) and best is None:
                best = (at, faults)
            if faults:
                continue
        if not heading.usable:
            continue
        if heading.doubtful:
            raise InputFileError(
                name,
                [
                    Fault(
                        f"row {at + 1} (heading)",
                        f"{' and '.join(repr(t) for t in titles_of)}, either of which can be the {quantity}",
                        "one column for it",
                        f'Say which with {quantity}="...".',
                    )
                    for quantity, titles_of in heading.doubtful.items()
                ],
            )
        return at, heading, rows[following:]
    if best is not None:
        raise InputFileError(name, best[1])
    first = next((row for row in rows if any(cell.strip() for cell in row)), [])
    raise refuse(
        name,
        "heading",
        ", ".join(repr(cell.strip()) for cell in first[:8]),
        "a row that names the columns, such as: date, tmin (C), tmax (C), rain (mm)",
        'Add that row, or name the columns with date="...", tmin="...", tmax="...", rain="...".',
    )


def _is_unit_row(cells: list[str]) -> bool:
    units = [split_title(f"x ({cell.strip(' ()')})")[1] for cell in cells if cell.strip()]
    return (
        bool(units)
        and sum(unit is not None for unit in units) >= max(1, len(units) // 2)
        and not any(char.isdigit() for cell in cells for char in cell.replace("m2", "").replace("m-2", ""))
    )


def whole_rows(
    rows: list[list[str]], at: int, body: list[list[str]], columns: Mapping[str, Column], faults: list[Fault]
) -> tuple[list[list[str]], list[int]]:
    """Rows with every needed cell, and their numbers in the file; a row cut short is a fault, an empty one
    is not."""
    needed = max(column.place for column in columns.values()) + 1
    width = len(rows[at])
    skipped = len(rows) - len(body)
    kept, numbers = [], []
    for number, row in enumerate(body, start=skipped + 1):
        if len(row) < needed or len(row) > width:
            if not any(cell.strip() for cell in row) or row[0].lstrip().startswith("#"):
                continue
            extra = [cell for cell in row[width:] if cell.strip()]
            if len(row) < needed or extra:
                faults.append(
                    Fault(
                        f"row {number}",
                        f"{len(row)} cells",
                        f"{width} cells as in the heading",
                        "Complete the row.",
                    )
                )
                if len(faults) >= FAULTS_KEPT:
                    break
                continue
        elif not any(cell.strip() for cell in row):
            continue
        kept.append(row)
        numbers.append(number)
    return kept, numbers
