"""Mark a line: at each word the longest thing that it may mean."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from spadework.usecases.line.amounts import UNIT_WORDS, read_amount
from spadework.usecases.line.bed_names import bed_at
from spadework.usecases.line.days import read_day
from spadework.usecases.line.hours import read_hour
from spadework.usecases.line.lexicon import Lexicon
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.numbers import read_number
from spadework.usecases.line.words import Word

_SIGNS: Final = frozenset(".,;:")
_JOINS: Final = frozenset({"and", "then", "so", "but", "plus", "also", "-", "/", "because", "cos"})


@dataclass(frozen=True, slots=True)
class Manner:
    """How this garden's people write: what an amount or date without a sign means.

    Parameters
    ----------
    today : date
    fahrenheit : bool
        Degrees without a letter.
    us_gallon, month_first : bool
    """

    today: date
    fahrenheit: bool = False
    us_gallon: bool = False
    month_first: bool = False


def marks_of(line: str, words: Sequence[Word], lexicon: Lexicon, manner: Manner) -> list[Mark]:
    """The marks of a line; together they hold every word once."""
    marks: list[Mark] = []
    at = 0
    while at < len(words):
        mark = _at(words, at, lexicon, manner, marks)
        mark.text = line[words[mark.first].start : words[mark.last - 1].end]
        mark.plain = " ".join(word.text for word in words[mark.first : mark.last])
        marks.append(mark)
        at = mark.last
    return marks


def _at(words: Sequence[Word], at: int, lexicon: Lexicon, manner: Manner, marks: list[Mark]) -> Mark:
    text = words[at].text
    if text in _SIGNS:
        return _mark(at, at + 1, stop=True)
    if text in _JOINS and (phrase := lexicon.phrase_at(words, at)) is not None and phrase[0] == at + 1:
        return _mark(at, at + 1, stop=True)
    readers: tuple[Callable[[], Mark | None], ...] = (
        lambda: _bed(words, at, lexicon, marks),
        lambda: _day(words, at, manner, lexicon),
        lambda: _hour(words, at),
        lambda: _ratio(words, at),
        lambda: _amount(words, at, manner, lexicon),
        lambda: _number(words, at, lexicon),
        lambda: _phrase(words, at, lexicon),
    )
    for reader in readers:
        found = reader()
        if found is not None:
            return found
    return _mark(at, at + 1, stop=text in _JOINS)


def _mark(first: int, last: int, *, stop: bool = False) -> Mark:
    return Mark(first, last, "", "", stop=stop)


def _bed(words: Sequence[Word], at: int, lexicon: Lexicon, marks: list[Mark]) -> Mark | None:
    before = marks[-1] if marks else None
    found = bed_at(words, at, lexicon, after_act=before is not None and "act" in before.means)
    if found is None or _longer_phrase(words, at, found.end, lexicon):
        return None
    mark = _mark(at, found.end)
    mark.beds, mark.no_bed, mark.maybe_beds = found.keys, found.unknown, found.maybe
    return mark


def _longer_phrase(words: Sequence[Word], at: int, end: int, lexicon: Lexicon) -> bool:
    phrase = lexicon.phrase_at(words, at)
    return phrase is not None and phrase[0] > end


def _day(words: Sequence[Word], at: int, manner: Manner, lexicon: Lexicon) -> Mark | None:
    found = read_day(words, at, manner.today, month_first=manner.month_first)
    if found is None or _longer_phrase(words, at, found.end, lexicon):
        return None
    mark = _mark(at, found.end)
    mark.day = found
    return mark


def _hour(words: Sequence[Word], at: int) -> Mark | None:
    found = read_hour(words, at)
    if found is None:
        return None
    mark = _mark(at, found.end)
    mark.hour = found.hour
    return mark


def _ratio(words: Sequence[Word], at: int) -> Mark | None:
    """ "2 of the 3 plants", "10 plants out of about 50", "8/10 up"."""
    first = read_number(words, at)
    if first is None:
        return None
    end = first.end
    if _text(words, end) == "/" and words[end].glued:
        end += 1
    else:
        if _text(words, end) in ("plants", "plant", "seeds", "seedlings"):
            end += 1
        if _text(words, end) == "out":
            end += 1
        if _text(words, end) != "of":
            return None
        end += 1
        while _text(words, end) in ("the", "my", "our", "all", "those", "these", "them"):
            end += 1
    second = read_number(words, end)
    if second is None or second.value < first.value or _text(words, second.end) in UNIT_WORDS:
        return None
    mark = _mark(at, second.end)
    mark.ratio = (first.value, second.value)
    return mark


def _amount(words: Sequence[Word], at: int, manner: Manner, lexicon: Lexicon) -> Mark | None:
    found = read_amount(words, at, us_gallon=manner.us_gallon, fahrenheit=manner.fahrenheit)
    if found is None or _longer_phrase(words, at, found.end, lexicon):
        return None
    mark = _mark(at, found.end)
    mark.amount = found
    return mark


def _number(words: Sequence[Word], at: int, lexicon: Lexicon) -> Mark | None:
    found = read_number(words, at)
    if found is None or _longer_phrase(words, at, found.end, lexicon):
        return None
    if (
        words[at].text == "one"
        and at
        and words[at - 1].text in ("a", "its", "female", "good", "nice", "big", "each")
    ):
        return None
    mark = _mark(at, found.end)
    mark.number = found
    return mark


def _phrase(words: Sequence[Word], at: int, lexicon: Lexicon) -> Mark | None:
    phrase = lexicon.phrase_at(words, at)
    crop = lexicon.crop_at(words, at)
    if crop is not None and (phrase is None or crop[0] >= phrase[0]):
        mark = _mark(at, crop[0])
        mark.crop, mark.crops = crop[1], crop[2]
        if phrase is not None and phrase[0] == crop[0]:
            mark.means = phrase[1]
        return mark
    if phrase is None:
        return None
    mark = _mark(at, phrase[0])
    mark.means = phrase[1]
    return mark


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""
