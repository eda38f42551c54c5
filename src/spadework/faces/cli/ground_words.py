"""Lengths on the ground and amounts of water as a person writes them."""

from __future__ import annotations

import re

from spadework import units
from spadework.errors import ParameterError

_LENGTHS = {
    "m": 1.0,
    "cm": 0.01,
    "mm": 0.001,
    "ft": units.M_PER_FOOT,
    "'": units.M_PER_FOOT,
    "feet": units.M_PER_FOOT,
    "foot": units.M_PER_FOOT,
    "in": units.MM_PER_INCH / 1000,
    '"': units.MM_PER_INCH / 1000,
    "inches": units.MM_PER_INCH / 1000,
}
_WATERS = {"l": 1.0, "litres": 1.0, "liters": 1.0, "gal": units.L_PER_GALLON, "gallons": units.L_PER_GALLON}
_AMOUNT = re.compile(r"\s*([-+−]?\d+(?:[.,]\d+)?)\s*([a-z'\"]*)\s*")


def read_length(text: str, name: str, *, us: bool) -> float:
    """A length in m from 1.2, 120cm, 4ft or 48in; a plain number is in m, or in ft where `us`.

    Raises
    ------
    ParameterError
    """
    return _read(text, name, _LENGTHS, "ft" if us else "m", "Write it as 1.2m, 120cm, 4ft or 48in.")


def read_small(text: str, name: str, *, us: bool, fine: bool = False) -> float:
    """A distance between plants or a depth in cm from 8, 8cm, 15mm or 3in.

    A plain number is in cm, or in mm where `fine`; in a garden of the US in inches.

    Raises
    ------
    ParameterError
    """
    usual = "in" if us else "mm" if fine else "cm"
    return round(100.0 * _read(text, name, _LENGTHS, usual, "Write it as 8cm, 15mm or 3in."), 6)


def read_water(text: str, name: str, *, us: bool) -> float:
    """An amount in litres from 4, 4l or 1gal; a plain number is in litres, or in gallons where `us`.

    Raises
    ------
    ParameterError
    """
    return _read(text, name, _WATERS, "gal" if us else "l", "Write it as 4, 4l or 1gal.")


def _read(text: str, name: str, known: dict[str, float], usual: str, hint: str) -> float:
    found = _AMOUNT.fullmatch(text.lower())
    if found is None or (found[2] and found[2] not in known):
        raise ParameterError(f"{name} {text!r} is not understood.", hint)
    value = float(found[1].replace("−", "-").replace(",", "."))
    return round(value * known[found[2] or usual], 6)
