"""Beds as people call them."""

from __future__ import annotations

from spadework.errors import UnknownName
from spadework.garden.state import Bed, Garden


def bed_called(garden: Garden, name: str) -> Bed:
    """A bed by key or name, or by its number where it is called bed and a number.

    Raises
    ------
    UnknownName
        If none is called that, or several are.
    """
    try:
        return garden.bed(name)
    except UnknownName:
        if not name.strip().isdigit():
            raise
        try:
            return garden.bed(f"bed {name.strip()}")
        except UnknownName:
            pass
        raise
