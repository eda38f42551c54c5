"""Which past years may speak, and when their number has to be said."""

from __future__ import annotations

from typing import Final

from spadework.errors import RecordError

FEWEST_YEARS: Final = 4
"""With fewer past years no odds are given. Common practice, no source."""

THIN_YEARS: Final = 15
"""With fewer the answer says that it stands on few years. Common practice, no source."""

FILLED_DAYS_ALLOWED: Final = 15
"""A past year with more filled days in the window is not used: filled days have no extremes of their own."""

YEARS_WITHOUT_RECORD: Final = 30
"""Years made where no past year of the place is known. Common practice, no source."""

MADE_LABEL: Final = 0
"""The label of a made year: it is no calendar year."""

ADD_OR_TELL: Final = "add a longer record, or tell twelve monthly normals (spadework tell normals)."
"""What to do where neither record nor normals are enough."""


def counted(number: int, what: str) -> str:
    """A number with its noun: no years, 1 year, 3 years."""
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"


def no_weather() -> RecordError:
    """What is raised where a garden has neither record nor normals."""
    return RecordError(
        "This garden has no weather yet.",
        "Add a record (spadework weather add FILE), or tell twelve monthly normals (spadework tell normals).",
    )
