"""Lengths as people write them: 1.2 m, 60 cm, 4 ft, 3' 6"; and the unit meant where there is none."""

from __future__ import annotations

import re
from typing import Final, Literal, TypeAlias

from spadework.garden.site import Units

Kind: TypeAlias = Literal["side", "path", "across", "depth"]

NUMBER: Final = r"(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?[½¼¾]?|\.\d+|[½¼¾])"
_IN: Final = r"in(?!\s+(?:\w+\s+)?(?:rows?|columns?|lines?)\b|\s+(?:the|a|an|one|two|three|four)\b)"
"""Inches; but "2.4 in 3 rows" and "in the tunnel" are no inches."""

UNIT: Final = (
    rf"(?:(?:millimet(?:re|er)s?|mm|centimet(?:re|er)s?|cm|met(?:re|er)s?|m|foot|feet|ft|inch(?:es)?|{_IN}"
    r"|yards?|yd)\b|['\"])"
)
LENGTH: Final = (
    rf"(?:{NUMBER}\s*(?:(?:foot|feet|ft)\b\.?|')\s*{NUMBER}\s*(?:inch(?:es)?\b|in\b|\")"
    rf"|\d+'\d+|{NUMBER}\s*{UNIT}?)"
)

_METRES: Final = {"mm": 0.001, "cm": 0.01, "m": 1.0, "ft": 0.3048, "in": 0.0254, "yd": 0.9144}
"""Exact; the foot, inch and yard are the international ones."""

_FRACTIONS: Final = {"½": 0.5, "¼": 0.25, "¾": 0.75}
_TOO_LONG: Final[dict[Kind, dict[Units, float]]] = {
    "side": {"metric": 25.0, "us": 32.0},
    "path": {"metric": 5.0, "us": 6.0},
    "across": {"metric": 3.0, "us": 5.0},
    "depth": {"metric": 3.0, "us": 0.0},
}
"""A bare number above this is in centimetres or inches, not in metres or feet. Class: common-practice."""


def number_of(text: str) -> float:
    """A number: 2.4, "2,4", "2 1/2", "½"."""
    value = 0.0
    for sign, share in _FRACTIONS.items():
        if sign in text:
            value, text = share, text.replace(sign, "")
    for part in text.split():
        top, _, bottom = part.replace(",", ".").partition("/")
        if bottom:
            value += float(top) / float(bottom) if float(bottom) else float("nan")
        else:
            value += float(top)
    return value


def unit_of(text: str) -> str:
    """The unit a length is written in, in its short form; empty where none is."""
    found = re.search(rf"{UNIT}\s*$", text.strip())
    return "" if found is None else _short(found[0])


def metres(text: str, bare: str) -> float:
    """A length in metres.

    Parameters
    ----------
    text : str
        What `LENGTH` matches.
    bare : str
        The unit where none is written: "m", "cm", "ft" or "in".
    """
    text = text.strip()
    if feet := re.fullmatch(r"(.+?)\s*(?:foot|feet|ft\.?|')\s*([\d½¼¾].*)", text):
        inches = re.sub(r"[a-z\"]+\s*$", "", feet[2]).strip()
        return number_of(feet[1]) * _METRES["ft"] + number_of(inches) * _METRES["in"]
    unit = unit_of(text)
    bare_text = re.sub(r"[a-z'\"]+$", "", text).strip()
    return round(number_of(bare_text) * _METRES[unit or bare], 6)


def bare_unit(value: float, kind: Kind, units: Units) -> str:
    """The unit that a bare number of this size is most likely in, in a garden of these units."""
    small = value > _TOO_LONG[kind][units]
    if units == "us":
        return "in" if small else "ft"
    return "cm" if small else "m"


def length_text(value_m: float, units: Units) -> str:
    """A length for a sentence, in the garden's units: "0.6 m", "45 cm", "4 ft", "18 in"."""
    if units == "us":
        inches = value_m / _METRES["in"]
        if inches >= 36:
            return f"{round(inches / 12, 1):g} ft"
        return f"{round(inches, 1):g} in"
    return f"{round(value_m * 100, 1):g} cm" if value_m < 0.5 else f"{round(value_m, 2):g} m"


def _short(unit: str) -> str:
    for short, begins in (
        ("mm", ("mm", "milli")),
        ("cm", ("cm", "centi")),
        ("ft", ("f", "'")),
        ("in", ("i", '"')),
        ("yd", ("y",)),
    ):
        if unit.startswith(begins):
            return short
    return "m"
