"""Beds as people name them: "bed 3", "b3", "beds 3, 5 and 7", "3 and 4" after an act, "all the tubs"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from spadework.usecases.line.amounts import UNIT_WORDS
from spadework.usecases.line.days import WEEKDAYS
from spadework.usecases.line.lexicon import Lexicon
from spadework.usecases.line.numbers import read_number
from spadework.usecases.line.words import Word

_ALL: Final = frozenset({"all", "every", "each", "both"})
_LEADS: Final = frozenset({"in", "from", "into", "on", "bed", "beds", "to"})
_MAY_FOLLOW: Final = frozenset(
    {
        "",
        ".",
        ",",
        ";",
        ":",
        "and",
        "then",
        "with",
        "for",
        "today",
        "yesterday",
        "this",
        "last",
        "on",
        "at",
        "by",
        "but",
    }
    | {
        "was",
        "is",
        "are",
        "were",
        "again",
        "too",
        "also",
        "now",
        "the",
        "as",
        "ok",
        "to",
        "so",
        "after",
        "before",
        "all",
    }
)
_MOST_BEDS: Final = 60


@dataclass(frozen=True, slots=True)
class BedsNamed:
    """Beds read.

    Parameters
    ----------
    keys : tuple of str
    end : int
        Index of the word after them.
    unknown : str
        A name no bed answers to.
    maybe : tuple of str
        Where one is named that may be several: "the tub".
    """

    keys: tuple[str, ...]
    end: int
    unknown: str = ""
    maybe: tuple[str, ...] = ()


def bed_at(words: Sequence[Word], at: int, lexicon: Lexicon, *, after_act: bool) -> BedsNamed | None:
    """The beds named at a word; None where none is."""
    return (
        _all(words, at, lexicon)
        or _numbered(words, at, lexicon)
        or _named(words, at, lexicon)
        or _bare(words, at, lexicon, after_act=after_act)
    )


def _all(words: Sequence[Word], at: int, lexicon: Lexicon) -> BedsNamed | None:
    here = at
    if _text(words, here) in _ALL:
        here += 1
        while _text(words, here) in ("of", "the", "my", "our", "four", "five", "six"):
            here += 1
    text = _text(words, here)
    plural = (
        text if text in lexicon.plural else f"{text}s" if here > at and f"{text}s" in lexicon.plural else ""
    )
    if not plural:
        return None
    after = words[here + 1] if here + 1 < len(words) else None
    if after is not None and after.number is not None and here == at:
        return None
    return BedsNamed(lexicon.plural[plural], here + 1)


def _numbered(words: Sequence[Word], at: int, lexicon: Lexicon) -> BedsNamed | None:
    text = _text(words, at)
    many = text.endswith("s") and text[:-1] in lexicon.numbered and text not in lexicon.numbered
    beds = lexicon.numbered.get(text[:-1] if many else text)
    if beds is None:
        return _no_such(words, at)
    here = at + 1
    while _text(words, here) in ("no", "number", "nr", "num", "."):
        here += 1
    number = _whole(words, here)
    if number is None or (len(text) == 1 and not words[here].glued):
        if (
            len(text) > 1
            and not many
            and _text(words, at - 1) in ("the", "a", "one", "my", "that")
            and len(beds) > 1
        ):
            phrase = lexicon.phrase_at(words, at)
            follows = _text(words, at + 1)
            if (phrase is None and follows not in ("",)) or follows == "":
                return BedsNamed((), at + 1, maybe=tuple(dict.fromkeys(beds.values())))
        return None
    keys, end, unknown = _list(words, here, beds, many=many, name=text)
    return BedsNamed(tuple(keys), end, unknown)


def _no_such(words: Sequence[Word], at: int) -> BedsNamed | None:
    """ "bed 3" in a garden none of whose beds is called bed and a number."""
    number = _whole(words, at + 1) if _text(words, at) == "bed" else None
    if number is None or _text(words, at - 1) not in ("in", "into", "from", "at", "on", "to"):
        return None
    return BedsNamed((), number[1], unknown=f"bed {number[0]}")


def _list(
    words: Sequence[Word], at: int, beds: Mapping[int, str], *, many: bool, name: str
) -> tuple[list[str], int, str]:
    """Numbers after "bed": 3; 3 and 4; 3, 4 and 7; 1 to 4."""
    number = _whole(words, at)
    keys: list[str] = []
    unknown = ""
    end = at
    while number is not None:
        value, end = number
        if value in beds:
            keys.append(beds[value])
        else:
            unknown = unknown or f"{name.removesuffix('s') if many else name} {value}"
        join = _text(words, end)
        follow = end + 1
        if join == "," and _text(words, follow) == "and":
            join, follow = "and", follow + 1
        if join in (",", "and", "-", "to", "/", "or"):
            if _text(words, follow) in ("bed", "tub", "b") and _text(words, follow) == name.removesuffix("s"):
                follow += 1
            number = _whole(words, follow)
            if number is not None and (not _may_end(words, number[1]) or number[0] not in beds):
                number = None
            if number is not None and not many and join in (",", "to", "or"):
                number = None
            if number is not None and join in ("-", "to"):
                last = number[0]
                keys += [
                    beds[each] for each in range(value + 1, min(last, value + _MOST_BEDS)) if each in beds
                ]
        else:
            number = None
    return list(dict.fromkeys(keys)), end, unknown


def _named(words: Sequence[Word], at: int, lexicon: Lexicon) -> BedsNamed | None:
    for length in range(min(4, len(words) - at), 0, -1):
        phrase = tuple(word.text for word in words[at : at + length])
        keys = lexicon.beds.get(phrase)
        if keys is not None:
            crop = lexicon.crop_at(words, at)
            if crop is not None and crop[0] > at + length:
                return None
            end = at + length
            # a bed called by its crop is meant where it is called a bed, or where something is in it
            if crop is not None and crop[0] == end and _text(words, end) != "bed" and not _placed(words, at):
                return None
            if _text(words, end) == "bed" and phrase[-1] != "bed":
                end += 1
            return BedsNamed(keys, end)
    return None


def _placed(words: Sequence[Word], at: int) -> bool:
    before = at - 2 if _text(words, at - 1) in ("the", "my", "our") else at - 1
    return _text(words, before) in ("in", "into", "from", "at")


def _bare(words: Sequence[Word], at: int, lexicon: Lexicon, *, after_act: bool) -> BedsNamed | None:
    """Numbers alone: after "in" or an act of work on beds, or several before one."""
    beds = lexicon.numbered.get("bed")
    first = _whole(words, at)
    if beds is None or first is None or first[0] not in beds or words[at].number is None:
        return None
    if not _may_end(words, first[1]) or _text(words, first[1]) == "/":
        return None
    if _text(words, first[1]) == "to" and _text(words, at - 1) == "from":
        return None
    keys, end, unknown = _list(words, at, beds, many=True, name="bed")
    if unknown or not _may_end(words, end, lexicon):
        return None
    lead = _text(words, at - 1)
    if lead in ("in", "into", "from", "on") and (
        lead != "on" or len(keys) > 1 or _is_work(lexicon, words, at - 2)
    ):
        return BedsNamed(tuple(keys), end)
    if len(keys) > 1 and at == 0:
        return BedsNamed(tuple(keys), end)
    if after_act and _is_work(lexicon, words, at - 1):
        return BedsNamed(tuple(keys), end)
    return None


_WORK: Final = frozenset({"weed", "hoe", "water", "mulch", "feed", "cover", "uncover", "clear"})


def _is_work(lexicon: Lexicon, words: Sequence[Word], at: int) -> bool:
    """Whether a word ends an act that is done to whole beds."""
    for start in range(max(0, at - 2), at + 1):
        phrase = lexicon.phrase_at(words, start)
        if phrase is not None and phrase[0] == at + 1 and phrase[1].get("act") in _WORK:
            return True
    return False


def _may_end(words: Sequence[Word], at: int, lexicon: Lexicon | None = None) -> bool:
    """Whether a bare number may end before a word: no unit and no noun follows."""
    text = _text(words, at)
    if text in UNIT_WORDS or text in ("°", "x", "st", "nd", "rd", "th", "am", "pm", "%"):
        return False
    if text in _MAY_FOLLOW or text in ("-", "/", "or") or (text in WEEKDAYS and text not in ("sat", "sun")):
        return True
    if lexicon is None:
        return text not in ("rows", "row", "seeds", "plants", "plant", "of", "days", "day", "hours", "times")
    phrase = lexicon.phrase_at(words, at)
    return phrase is not None and ("act" in phrase[1] or "is dry" in phrase[1])


def _whole(words: Sequence[Word], at: int) -> tuple[int, int] | None:
    """A whole number and the word after it."""
    if at >= len(words):
        return None
    if words[at].number is not None:
        value = words[at].number or 0.0
        return (int(value), at + 1) if value == int(value) and value < 1000 else None
    read = read_number(words, at)
    if read is None or read.low is not None or read.value != int(read.value):
        return None
    if words[at].text in ("a", "an", "about", "around", "over", "under", "just", "only", "some"):
        return None
    return int(read.value), read.end


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""
