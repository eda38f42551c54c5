"""Numbers as people write and say them: figures, words, fractions, dozens, "40 odd", "5 to 6"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from spadework.usecases.line.words import Word

_ONES: Final = {
    name: value
    for value, names in enumerate(
        "zero|nought,one yin,two twa,three,four,five,six,seven,eight,nine,ten,eleven,twelve,thirteen,"
        "fourteen,fifteen,sixteen,seventeen,eighteen,nineteen".replace("|", " ").split(",")
    )
    for name in names.split()
}
_TENS: Final = {
    name: 10 * value
    for value, name in enumerate(
        ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], start=2
    )
} | {"fourty": 40}
_ABOUT: Final = frozenset(
    [
        "about",
        "around",
        "roughly",
        "approx",
        "approximately",
        "nearly",
        "almost",
        "circa",
        "maybe",
        "some",
        "say",
        "over",
        "under",
        "just",
        "only",
        "another",
    ]
)
_PARTS: Final = {"half": 0.5, "quarter": 0.25, "third": 1 / 3}


@dataclass(frozen=True, slots=True)
class Number:
    """A number read.

    Parameters
    ----------
    value : float
        The middle where two were said.
    end : int
        Index of the word after it.
    low, high : float or None
        The two, where two were said.
    """

    value: float
    end: int
    low: float | None = None
    high: float | None = None


def read_number(words: Sequence[Word], at: int) -> Number | None:
    """The number that begins at a word, with its fraction and its range; None where none does."""
    start = at
    while start < len(words) and words[start].text in _ABOUT and start - at < 2:
        start += 1
    first = _one(words, start)
    if first is None:
        return None
    value, end = first
    end = _skip_odd(words, end)
    if _text(words, end) in ("-", "to", "or") and not _is_ratio(words, end):
        second = _one(words, end + 1)
        before = _text(words, at - 1) if at else ""
        if second is not None and second[0] > value and before not in ("from", "min", "low", "lowest"):
            high, end = second
            return Number((value + high) / 2, _skip_odd(words, end), value, high)
    return Number(value, end)


def _one(words: Sequence[Word], at: int) -> tuple[float, int] | None:
    if at >= len(words):
        return None
    word = words[at]
    sign = 1.0
    if word.text in ("-", "minus") and at + 1 < len(words) and words[at + 1].number is not None:
        sign, at, word = -1.0, at + 1, words[at + 1]
    if word.number is not None:
        value, end = _figures(words, at)
        return sign * value, end
    return _spoken(words, at)


def _figures(words: Sequence[Word], at: int) -> tuple[float, int]:
    value = words[at].number or 0.0
    end = at + 1
    slash, under = _text(words, end), words[end + 1].number if end + 1 < len(words) else None
    if slash == "/" and under and words[end].glued and value < under <= 8 and under != value:
        return value / under, end + 2
    if (
        end + 2 < len(words)
        and words[end].number is not None
        and _text(words, end + 1) == "/"
        and (part := _figures(words, end))[1] == end + 3
    ):
        return value + part[0], part[1]
    if _text(words, end) in ("½", "¼", "¾") and words[end].number:
        return value + (words[end].number or 0.0), end + 1
    if _text(words, end) in ("hundred", "thousand", "dozen"):
        return value * {"hundred": 100, "thousand": 1000, "dozen": 12}[words[end].text], end + 1
    return _and_part(words, value, end)


def _spoken(words: Sequence[Word], at: int) -> tuple[float, int] | None:
    text = words[at].text
    if text in ("a", "an"):
        following = _text(words, at + 1)
        if following in ("dozen", "hundred", "thousand"):
            return {"dozen": 12.0, "hundred": 100.0, "thousand": 1000.0}[following], at + 2
        if following in ("couple", "pair"):
            return 2.0, at + 2 + (_text(words, at + 2) == "of")
        if following == "half" and _text(words, at + 2) == "dozen":
            return 6.0, at + 3
        return None
    if text == "dozen":
        return 12.0, at + 1
    if text == "couple":
        return 2.0, at + 1 + (_text(words, at + 1) == "of")
    if text == "half" and _text(words, at + 1) in ("dozen", "a"):
        if _text(words, at + 1) == "dozen":
            return 6.0, at + 2
        return (6.0, at + 3) if _text(words, at + 2) == "dozen" else None
    if text == "three" and _text(words, at + 1) in ("quarter", "quarters"):
        return 0.75, at + 2
    if text not in _ONES and text not in _TENS:
        return None
    value, end = _below_hundred(words, at)
    following = _text(words, end)
    if following == "dozen":
        return value * 12, end + 1
    if following == "hundred":
        value, end = value * 100, end + 1
        more = end + 1 if _text(words, end) == "and" else end
        if _text(words, more) in _ONES or _text(words, more) in _TENS:
            rest, end = _below_hundred(words, more)
            value += rest
    elif following == "thousand":
        value, end = value * 1000, end + 1
    elif following == "point" and _text(words, end + 1) in _ONES:
        return value + _ONES[words[end + 1].text] / 10, end + 2
    return _and_part(words, value, end)


def _below_hundred(words: Sequence[Word], at: int) -> tuple[float, int]:
    text = words[at].text
    if text in _ONES:
        return float(_ONES[text]), at + 1
    value = float(_TENS[text])
    more = _text(words, at + 1)
    if more in _ONES and 0 < _ONES[more] < 10:
        return value + _ONES[more], at + 2
    return value, at + 1


def _and_part(words: Sequence[Word], value: float, end: int) -> tuple[float, int]:
    """The half of "two and a half"."""
    if _text(words, end) == "and" and _text(words, end + 1) in ("a", "one", "half"):
        part = end + 2 if _text(words, end + 1) != "half" else end + 1
        if _text(words, part) in _PARTS:
            return value + _PARTS[words[part].text], part + 1
    return value, end


def read_part(words: Sequence[Word], at: int) -> tuple[float, int] | None:
    """A half or a quarter before a unit: "half a", "a quarter of a", "half"."""
    start = at + (_text(words, at) in ("a", "an"))
    text = _text(words, start)
    if text not in _PARTS:
        return None
    end = start + 1
    if _text(words, end) == "of":
        end += 1
    if _text(words, end) in ("a", "an"):
        end += 1
    return _PARTS[text], end


def _skip_odd(words: Sequence[Word], end: int) -> int:
    return end + 1 if _text(words, end) in ("odd", "ish", "plus") else end


def _is_ratio(words: Sequence[Word], at: int) -> bool:
    return _text(words, at) == "to" and _text(words, at + 1) == "the"


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""
