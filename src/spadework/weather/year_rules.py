"""Which past years may speak, and when their number has to be said."""

from __future__ import annotations

from typing import Final

FEWEST_YEARS: Final = 4
"""With fewer past years no odds are given. Common practice, no source."""

THIN_YEARS: Final = 15
"""With fewer the answer says that it stands on few years. Common practice, no source."""

FILLED_DAYS_ALLOWED: Final = 15
"""A past year with more filled days in the window is not used: filled days have no extremes of their own."""


def counted(number: int, what: str) -> str:
    """A number with its noun: no years, 1 year, 3 years."""
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"
