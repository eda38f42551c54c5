"""Told facts for tests, with keys in the order they are made."""

from __future__ import annotations

from datetime import date
from itertools import count

from spadework.garden.told import Fact, Told

_NUMBERS = count(1)


def told(fact: Fact, on: date, source: str = "test") -> Told:
    """A fact told on a day."""
    return Told(key=f"K{next(_NUMBERS):06d}", told_on=on, source=source, fact=fact)
