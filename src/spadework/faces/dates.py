"""Dates as a person writes them."""

from __future__ import annotations

import re
from datetime import date

_ISO = re.compile(r"^\d{4}-\d{1,2}-\d{1,2}$")
_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "jan january", "feb february", "mar march", "apr april", "may", "jun june", "jul july",
            "aug august", "sep sept september", "oct october", "nov november", "dec december",
        ),
        start=1,
    )
    for name in names.split()
}  # fmt: skip


def day_written(text: str, near: date) -> date | None:
    """A date as a person writes it: 2026-05-01, "1 May", "May 1", "1 May 2026", today; None where it is none.

    Parameters
    ----------
    text : str
    near : date
        Today; where no year is given, the year of it.
    """
    words = text.strip().lower().replace(",", " ").replace(".", " ")
    if words == "today":
        return near
    try:
        if _ISO.match(words):
            year, month, day = (int(part) for part in words.split("-"))
            return date(year, month, day)
        parts = words.split()
        named = next((_MONTHS[part] for part in parts if part in _MONTHS), None)
        numbers = [int(part) for part in parts if part.isdigit()]
        if named is not None and numbers and len(parts) == len(numbers) + 1:
            if len(numbers) == 1:
                return date(near.year, named, numbers[0])
            if len(numbers) == 2:
                day, year = sorted(numbers)
                return date(year, named, day)
    except ValueError:
        pass
    return None
