"""Hours of the day: "9pm", "at 9 this morning", "3 o'clock", "half past two", "21:30", "noon"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from spadework.usecases.line.numbers import Number, read_number
from spadework.usecases.line.words import Word

_NAMED: Final = {"noon": 12.0, "midday": 12.0, "midnight": 24.0, "lunchtime": 12.5}
_LATER: Final = frozenset({"afternoon", "arvo", "evening", "night", "tonight", "nite"})

_COLD: Final = frozenset({"min", "minimum", "low", "lowest", "frost", "froze", "frosty"})
"""With these an hour such as 4 o'clock is one of the night."""
_COUNTING: Final = frozenset(
    {"cut", "dug", "got", "had", "took", "found", "saw", "lost", "put", "ate", "all"}
)


@dataclass(frozen=True, slots=True)
class Hour:
    """An hour read, and the word after it."""

    hour: float
    end: int


def read_hour(words: Sequence[Word], at: int) -> Hour | None:
    """The hour that begins at a word; None where none does.

    Notes
    -----
    A bare number is an hour only after "at" or "about", and where no unit or noun follows it.
    """
    start = at
    led = False
    while _text(words, start) in ("at", "around", "about", "by", "gone", "just", "after", "before"):
        led = led or _text(words, start) == "at"
        start += 1
    text = _text(words, start)
    if text in _NAMED:
        return Hour(_NAMED[text], start + 1)
    if text in ("half", "quarter") and _text(words, start + 1) in ("past", "to"):
        read = read_number(words, start + 2)
        if read is not None and 1 <= read.value <= 12:
            part = {"half": 0.5, "quarter": 0.25}[text]
            hour = read.value + part if _text(words, start + 1) == "past" else read.value - part
            return _settled(words, hour, read.end)
    if text == "half" and (read := read_number(words, start + 1)) is not None and _is_clock(words, read):
        return _settled(words, read.value + 0.5, read.end)
    if ":" in text and text.replace(":", "").isdigit():
        hours, minutes = (int(part) for part in text.split(":"))
        return _settled(words, hours + minutes / 60, start + 1) if hours <= 24 and minutes < 60 else None
    if start >= len(words):
        return None
    read = read_number(words, start)
    if read is None or not 0 <= read.value <= 24:
        return None
    value = read.value
    after = _text(words, read.end)
    if value != int(value) and (after in ("am", "pm") or led):
        minutes = round((value - int(value)) * 100)
        if minutes >= 60:
            return None
        value = int(value) + minutes / 60
    if after in ("am", "pm", "oclock", "o") or _is_of_day(words, at, read):
        return _settled(words, value, read.end)
    if led and (
        after in ("", ".", ",", "this", "in", "yesterday", "last", "today", "and", "when", "so")
        or after in _LATER
    ):
        if after == "in" and _text(words, read.end + 1) != "the":
            return None
        return _settled(words, value, read.end)
    return None


def _is_clock(words: Sequence[Word], read: Number) -> bool:
    """Whether "half eight" is an hour: no unit or noun follows."""
    after = _text(words, read.end)
    whole = read.value in range(1, 13)
    return whole and (
        after in ("", ".", ",", "last", "this", "yesterday", "today", "am", "pm") or after in _LATER
    )


def _is_of_day(words: Sequence[Word], at: int, read: Number) -> bool:
    """Whether "2 in the afternoon" is an hour, and no number of what was taken."""
    said = tuple(_text(words, read.end + step) for step in range(3))
    before = _text(words, at - 1)
    counts = before.endswith("ed") or before in _COUNTING
    return (
        read.value in range(1, 13)
        and said[:2] == ("in", "the")
        and (said[2] in _LATER or said[2] == "morning")
        and not counts
    )


def _settled(words: Sequence[Word], hour: float, end: int) -> Hour | None:
    text = _text(words, end)
    if text in ("am", "pm"):
        end += 1
        if text == "pm" and hour < 12:
            hour += 12
        elif text == "am" and 12 <= hour < 13:
            hour -= 12
        return Hour(hour, end)
    if text in ("oclock", "o"):
        end += 1 + (text == "o" and _text(words, end + 1) == "clock")
    nearby = {_text(words, end + step) for step in range(4)}
    by_day = text in ("oclock", "o") and 1 <= hour < 5 and not nearby & {"morning", "mornin", "early"}
    by_day = by_day and not any(word.text in _COLD for word in words)
    if hour < 12 and (nearby & _LATER or by_day):
        hour += 12
    return Hour(hour, end) if 0 <= hour <= 24 else None


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""
