"""Sheets of paper and the calendar, written to files."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import msgspec
from cyclopts import Parameter

from spadework.errors import GardenError
from spadework.faces.cli.common import Common, answer


class FileWritten(msgspec.Struct, frozen=True, kw_only=True):
    """A file that was written."""

    question: str
    file: str
    size_kb: float


def round_paper(
    file: Annotated[Path, Parameter(help="The PDF to write.")],
    *,
    minutes: Annotated[float, Parameter(help="Minutes there are, for each person.")] = 60.0,
    people: Annotated[str | None, Parameter(help="Who goes, names with commas between.")] = None,
    common: Common | None = None,
) -> None:
    """The round on paper: plan, stops with boxes to tick, what can wait."""
    from spadework.faces.paper.sheets import round_sheet

    common = common or Common()
    names = [name.strip() for name in (people or "").split(",") if name.strip()]
    _write(common, file, round_sheet(common.garden, common.day, minutes=minutes, people=names), "paper round")


def bed_paper(
    bed: Annotated[str, Parameter(help="The bed.")],
    file: Annotated[Path, Parameter(help="The PDF to write.")],
    *,
    address: Annotated[str, Parameter(help="Of the garden's pages, for the camera square.")] = "",
    common: Common | None = None,
) -> None:
    """A bed's card on paper: its picture, what grows, what it needs, its locks."""
    from spadework.faces.paper.sheets import bed_card

    common = common or Common()
    _write(common, file, bed_card(common.garden, common.day, bed, address=_ended(address)), "paper bed")


def label_paper(
    file: Annotated[Path, Parameter(help="The PDF to write.")],
    *,
    bed: Annotated[str, Parameter(help="Of one bed only.")] = "",
    address: Annotated[str, Parameter(help="Of the garden's pages, for the camera squares.")] = "",
    common: Common | None = None,
) -> None:
    """Labels for the rows that stand, to cut out."""
    from spadework.faces.paper.sheets import row_labels

    common = common or Common()
    found = row_labels(common.garden, common.day, bed=bed, address=_ended(address))
    _write(common, file, found, "paper labels")


def calendar(
    file: Annotated[Path, Parameter(help="The .ics file to write.")], *, common: Common | None = None
) -> None:
    """The windows of the jobs as a calendar file that other programs read."""
    from spadework.faces.calendar.windows import windows_calendar

    common = common or Common()
    _write(common, file, windows_calendar(common.garden, common.day), "calendar")


def _ended(address: str) -> str:
    return address if not address or address.endswith("/") else f"{address}/"


def _write(common: Common, file: Path, content: bytes, question: str) -> None:
    try:
        file.write_bytes(content)
    except OSError as error:
        raise GardenError(f"{file} could not be written: {error.strerror}.", "Give another place.") from error
    found = FileWritten(question=question, file=str(file), size_kb=round(len(content) / 1000, 1))
    answer(common, found, lambda: print(f"Written: {file} ({found.size_kb:g} kB)."))
