"""Sheets: what is known of each crop, every value with its range, kind of receipt and source."""

from __future__ import annotations

from typing import Final

from spadework.faces.web.visit import Page, Visit, Way
from spadework.usecases.read_sheets import list_sheets, read_sheet

CLASSES: Final = {
    "published": "published",
    "memory": "recalled from a publication",
    "common-practice": "common practice",
    "measured": "measured by us",
    "computed": "computed",
    "grower": "your own number",
    "learned": "learned here",
}


def show_sheets(visit: Visit) -> Page:
    """All crops that have a sheet."""
    american = visit.site.words == "american"
    named = sorted((each.american if american else each.british, each) for each in list_sheets())
    return Page("sheets.html", {"sheets": named})


def show_sheet(visit: Visit) -> Page:
    """One crop's numbers."""
    sheet = read_sheet(visit.names["crop"], visit.garden, visit.today)
    return Page("sheet.html", {"sheet": sheet, "classes": CLASSES})


WAYS: Final = (
    Way("/sheets", show_sheets),
    Way("/sheet/{crop}", show_sheet),
)
