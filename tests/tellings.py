"""Told facts for tests, with keys in the order they are made."""

from __future__ import annotations

from datetime import date
from itertools import count
from pathlib import Path

from spadework.garden.told import Fact, Told
from spadework.store.garden_folder import open_garden

_NUMBERS = count(1)


def told(fact: Fact, on: date, source: str = "test") -> Told:
    """A fact told on a day."""
    return Told(key=f"K{next(_NUMBERS):06d}", told_on=on, source=source, fact=fact)


def is_told_nothing(garden: Path) -> bool:
    """Whether the garden keeps no told fact of any day."""
    return open_garden(garden).told(date.max) == ()
