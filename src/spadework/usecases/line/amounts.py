"""Amounts with a unit, in the unit the book keeps: kg, litres, cm, minutes, degrees Celsius.

Exact: the pound (0.45359237 kg) and inch of the international yard and pound agreement, 1959; the imperial
gallon (4.54609 l) of the UK Weights and Measures Act 1985; the US gallon of 231 cubic inches (NIST Handbook
44). Sizes of cans, buckets and barrows are common-practice, and said with the answer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from spadework import units
from spadework.usecases.line.numbers import read_number, read_part
from spadework.usecases.line.words import Word

Dim: TypeAlias = Literal["mass", "volume", "length", "minutes", "temp"]

_KG: Final = 0.45359237
_UK_GALLON, _US_GALLON = 4.54609, 3.785411784
CAN_L: Final = 10.0
BUCKET_L: Final = 10.0
BARROW_L: Final = 85.0
BAG_L: Final = 50.0
"""Sizes taken where a vessel is named and no size. Class: common-practice."""

_TABLE: Final[tuple[tuple[str, Dim, float], ...]] = (
    ("kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes", "mass", 1.0),
    ("g gr gm gms gram grams gramme grammes", "mass", 0.001),
    ("lb lbs pound pounds", "mass", _KG),
    ("oz ozs ounce ounces", "mass", _KG / 16),
    ("stone", "mass", _KG * 14),
    ("l ltr ltrs litre litres liter liters", "volume", 1.0),
    ("ml mls millilitre millilitres milliliter milliliters", "volume", 0.001),
    ("mm millimetre millimetres millimeter millimeters mil mils", "length", 0.1),
    ("cm cms centimetre centimetres centimeter centimeters", "length", 1.0),
    ("m metre metres meter meters", "length", 100.0),
    ("in inch inches ins", "length", units.MM_PER_INCH / 10),
    ("ft foot feet", "length", units.M_PER_FOOT * 100),
    ("yard yards yd yds", "length", units.M_PER_FOOT * 300),
    ("min mins minute minutes", "minutes", 1.0),
    ("h hr hrs hour hours", "minutes", 60.0),
    ("c celsius centigrade f fahrenheit", "temp", 1.0),
)
_UNITS: Final = {name: (dim, factor) for names, dim, factor in _TABLE for name in names.split()}
_BY_GALLON: Final = {"gal": 1.0, "gals": 1.0, "gallon": 1.0, "gallons": 1.0, "quart": 0.25, "quarts": 0.25}
_BY_GALLON.update({"qt": 0.25, "qts": 0.25, "pint": 0.125, "pints": 0.125, "pt": 0.125, "pts": 0.125})
_VESSELS: Final = {
    "can": CAN_L,
    "cans": CAN_L,
    "canful": CAN_L,
    "canfuls": CAN_L,
    "bucket": BUCKET_L,
    "buckets": BUCKET_L,
    "bucketful": BUCKET_L,
    "bucketfuls": BUCKET_L,
    "barrow": BARROW_L,
    "barrows": BARROW_L,
    "barrowload": BARROW_L,
    "barrowloads": BARROW_L,
    "barrowful": BARROW_L,
    "wheelbarrow": BARROW_L,
    "wheelbarrows": BARROW_L,
    "wheelbarrowful": BARROW_L,
    "bag": BAG_L,
    "bags": BAG_L,
    "sack": BAG_L,
    "sacks": BAG_L,
}
_SIZES: Final = frozenset({"full", "big", "small", "large", "good", "whole", "more"})
_ONE_VESSEL: Final = frozenset({"bucket", "can", "canful", "bucketful", "barrow", "barrowload", "gallon"})
"""Vessels that stand for one of them where no number leads to them."""
UNIT_WORDS: Final = frozenset(
    {*_UNITS, *_BY_GALLON, *_VESSELS, "degree", "degrees", "deg", "watering", "size"}
)
_NOT_INCHES: Final = frozenset(
    [
        "the",
        "a",
        "an",
        "my",
        "our",
        "each",
        "all",
        "bed",
        "beds",
        "tub",
        "tubs",
        "there",
        "here",
        "it",
        "total",
        "its",
        "one",
        "every",
        "this",
        "that",
        "store",
        "modules",
        "trays",
        "tray",
        "pots",
        "cells",
        "may",
        "june",
        "july",
    ]
)
_PARTS: Final = {"half": 0.5, "quarter": 0.25, "third": 1 / 3}
_LESSER: Final = {"mass": 1.0, "length": 1.0, "minutes": 1.0}


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount read.

    Parameters
    ----------
    dim : "mass", "volume", "length", "minutes" or "temp"
    value : float
        In kg, litres, cm, minutes or degC.
    end : int
        Index of the word after it.
    unit : str
        As said.
    number : float
        As said.
    taken : str
        What had to be assumed, in words.
    """

    dim: Dim
    value: float
    end: int
    unit: str
    number: float
    taken: str = ""


def read_amount(words: Sequence[Word], at: int, *, us_gallon: bool, fahrenheit: bool) -> Amount | None:
    """The amount that begins at a word; None where none does."""
    first = _single(words, at, us_gallon=us_gallon, fahrenheit=fahrenheit)
    if first is None:
        return None
    tail = first.end
    if _text(words, tail) == "and" and _text(words, tail + 1) in ("a", "half"):
        end = tail + 2 + (_text(words, tail + 1) == "a")
        part = _PARTS.get(_text(words, end - 1))
        if part is not None and _text(words, end) not in UNIT_WORDS:
            one = first.value / first.number if first.number else 0.0
            return _grown(first, one * part, end)
    follow = tail + 1 if _text(words, tail) == "and" else tail
    if first.dim in _LESSER:
        more = _single(words, follow, us_gallon=us_gallon, fahrenheit=fahrenheit)
        if more is not None and more.dim == first.dim and _next_unit_down(first.unit, more.unit):
            return _grown(first, more.value, more.end)
        if first.unit in ("h", "hr", "hrs", "hour", "hours") and follow == tail and follow < len(words):
            minutes = words[follow].number
            if minutes is not None and minutes < 60 and (words[follow].glued or _ends(words, follow + 1)):
                return _grown(first, minutes, follow + 1)
    return first


def _ends(words: Sequence[Word], at: int) -> bool:
    """Whether the ten of "1 hr 10" stands alone: nothing follows that it could count."""
    return _text(words, at) in ("", ".", ",", ";", "altogether", "total", "all", "in", "on", "today")


def _grown(first: Amount, more: float, end: int) -> Amount:
    return Amount(first.dim, first.value + more, end, first.unit, first.number, first.taken)


def _next_unit_down(unit: str, lesser: str) -> bool:
    return (unit[:1], lesser[:1]) in {
        ("l", "o"),
        ("p", "o"),
        ("s", "l"),
        ("s", "p"),
        ("f", "i"),
        ("h", "m"),
    } or (unit in ("m", "metre", "metres") and lesser == "cm")


def _single(words: Sequence[Word], at: int, *, us_gallon: bool, fahrenheit: bool) -> Amount | None:
    taken = ""
    number = read_number(words, at)
    if number is not None:
        value, end = number.value, number.end
        if number.low is not None and number.high is not None:
            taken = f"{number.low:g} to {number.high:g} taken as {value:g}"
    elif (part := read_part(words, at)) is not None:
        value, end = part
    elif _text(words, at) in ("a", "an", "per") and _is_unit_of_one(words, at + 1):
        value, end = 1.0, at + 1
    elif _text(words, at) in _ONE_VESSEL and (at == 0 or words[at - 1].text in (".", ",", ":", "and")):
        value, end = 1.0, at
    else:
        return None
    if _text(words, end) == "of" and _text(words, end + 1) in ("a", "an"):
        end += 2
    return _with_unit(words, value, end, taken, us_gallon=us_gallon, fahrenheit=fahrenheit)


def _is_unit_of_one(words: Sequence[Word], at: int) -> bool:
    text = _text(words, at)
    long_unit = text in _UNITS and len(text) > 3
    return long_unit or text in ("kg", "lb", "can", "watering", "gallon", "pint", "quart") or text in _VESSELS


def _with_unit(
    words: Sequence[Word], value: float, end: int, taken: str, *, us_gallon: bool, fahrenheit: bool
) -> Amount | None:
    unit = _text(words, end)
    if unit in _SIZES and (_text(words, end + 1) in _VESSELS or _text(words, end + 1) == "watering"):
        end, unit = end + 1, words[end + 1].text
    if unit in ("°", "degree", "degrees", "deg"):
        scale = _text(words, end + 1)
        if scale in ("c", "celsius", "centigrade", "f", "fahrenheit"):
            return _temp(value, end + 2, scale[0], value, taken)
        return _temp(value, end + 1, "f" if fahrenheit else "c", value, taken)
    if unit == "watering" and _text(words, end + 1) in ("can", "cans"):
        unit, end = words[end + 1].text, end + 1
    if unit in _VESSELS:
        size = _VESSELS[unit]
        return Amount(
            "volume", value * size, end + 1, unit, value, f"a {_one_vessel(unit)} taken as {size:g} litres"
        )
    if unit in _BY_GALLON:
        gallon_l = _US_GALLON if us_gallon else _UK_GALLON
        taken = taken or f"{'US' if us_gallon else 'imperial'} gallons"
        return Amount("volume", value * gallon_l * _BY_GALLON[unit], end + 1, unit, value, taken)
    if unit == "'":
        return Amount("length", value * _UNITS["ft"][1], end + 1, "ft", value, taken)
    if unit == '"':
        return Amount("length", value * _UNITS["in"][1], end + 1, "in", value, taken)
    if unit not in _UNITS:
        return None
    if unit == "in" and _is_preposition(words, end):
        return None
    dim, factor = _UNITS[unit]
    if dim == "temp":
        return _temp(value, end + 1, unit[0], value, taken)
    return Amount(dim, value * factor, end + 1, unit, value, taken)


def _temp(value: float, end: int, scale: str, number: float, taken: str) -> Amount:
    temp_c = units.c_from_f(value) if scale == "f" else value
    return Amount("temp", temp_c, end, scale, number, taken)


def _is_preposition(words: Sequence[Word], at: int) -> bool:
    """Whether the "in" after a number leads to a place or a time, and is no inch."""
    if words[at].glued:
        return False
    after = _text(words, at + 1)
    if after in _NOT_INCHES:
        return True
    if at + 1 < len(words) and words[at + 1].number is not None:
        return True
    return after not in (
        "",
        "deep",
        "apart",
        "high",
        "tall",
        "long",
        "wide",
        "spacing",
        "of",
        "between",
        "thick",
        "across",
        "down",
        "rain",
        ",",
        ".",
        ";",
        "and",
        "is",
        "was",
        "depth",
        "each",
        "mulch",
        "or",
        "now",
        "by",
        "spacings",
        "in",
        "diameter",
        "at",
        "on",
        "today",
        "yesterday",
        "already",
    )


def _one_vessel(unit: str) -> str:
    return unit[:-1] if unit.endswith("s") else unit


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""
