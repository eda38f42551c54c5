"""A line cut into words, numbers and signs, in one plain spelling."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from typing import Final

_TOKEN: Final = re.compile(
    r"\d{4}-\d{1,2}-\d{1,2}(?!\d)"
    r"|\d{1,2}:\d{2}(?!\d)"
    r"|\d{1,3}(?:,\d{3})+(?:\.\d+)?(?!\d)"
    r"|\d+[.,]\d+(?!\d)|\.\d+|\d*[½¼¾⅓⅔]|\d+"
    r"|[^\W\d_]+(?:['’][^\W\d_]+)*"
    r"|[.,;:!?()&+/@~°%#'\"’′″“”–—−×*\n=>-]"
)
_PLACES: Final = {"½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅓": 1 / 3, "⅔": 2 / 3}
_KEEPS_S: Final = frozenset({"it", "that", "what", "there", "here", "he", "she", "let", "who", "where"})
_MEANS: Final = {
    "&": "and",
    "+": "and",
    "@": "at",
    "~": "about",
    "×": "x",
    "−": "-",
    "–": "-",
    "—": "-",
    "′": "'",
    "″": '"',
    "’": "'",
    "“": '"',
    "”": '"',
    "(": ",",
    ")": ",",
    "!": ".",
    "?": ".",
    "\n": ".",
    "*": "",
    "=": "",
    ">": "",
    "#": "no",
    "o": "of",
    "w": "with",
    "n": "and",
    "intae": "into",
    "frae": "from",
    "tae": "to",
    "oot": "out",
    "ower": "over",
}


@dataclass(frozen=True, slots=True)
class Word:
    """One word, number or sign.

    Parameters
    ----------
    text : str
        Plain: lower case, no accents, no apostrophes.
    start, end : int
        Where it stands in the line.
    glued : bool
        No space before it.
    number : float or None
        Its value where it is a number in figures.
    capital : bool
        Written with a capital letter.
    """

    text: str
    start: int
    end: int
    glued: bool
    number: float | None = None
    capital: bool = False


def split_words(line: str) -> list[Word]:
    """The words of a line, in order. Hyphens within a word part it; those between numbers stay."""
    found: list[Word] = []
    end = 0
    for match in _TOKEN.finditer(line):
        raw = match.group()
        glued = match.start() == end and end > 0
        end = match.end()
        word = _word(raw, match.start(), end, glued)
        if word is None or (word.text == "'" and not _after_number(found, word)):
            continue
        if word.text == '"' and not _after_number(found, word):
            continue
        found.append(word)
    return _signs_settled(found)


def _word(raw: str, start: int, end: int, glued: bool) -> Word | None:
    number = number_in_figures(raw)
    text = raw if number is not None else plain_word(raw)
    text = _MEANS.get(text, text)
    return Word(text, start, end, glued, number, raw[:1].isupper()) if text else None


def plain_word(raw: str) -> str:
    """A word without case, accents and apostrophes: "Kale's" is "kale", "didn't" is "didnt"."""
    if raw.isascii() and raw.islower() and raw.isalpha():
        return raw
    letters = unicodedata.normalize("NFKD", raw.casefold().replace("’", "'"))
    text = "".join(sign for sign in letters if not unicodedata.combining(sign))
    if text.endswith("'s") and text[:-2] not in _KEEPS_S:
        text = text[:-2]
    return text.replace("'", "") if len(text) > 1 else text


def number_in_figures(raw: str) -> float | None:
    """The value of "2", "2.5", "2,5", "1,200" or "2½"; None for anything else."""
    if not raw or raw.count("-") or ":" in raw:
        return None
    part = 0.0
    if raw[-1] in _PLACES:
        part, raw = _PLACES[raw[-1]], raw[:-1]
        if not raw:
            return part
    if re.fullmatch(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?", raw):
        raw = raw.replace(",", "")
    raw = raw.replace(",", ".")
    if not re.fullmatch(r"[0-9]*\.?[0-9]+", raw) or len(raw) > 12:
        return None
    return float(raw) + part


def _after_number(found: list[Word], word: Word) -> bool:
    return bool(found) and word.glued and found[-1].number is not None


def _signs_settled(words: list[Word]) -> list[Word]:
    """Hyphens and stops by what stands around them: kept as signs, joined to a number, or dropped."""
    found: list[Word] = []
    for at, word in enumerate(words):
        after = words[at + 1] if at + 1 < len(words) else None
        before = found[-1] if found else None
        if word.text == "-":
            if after is None:
                continue
            if (before is not None and before.number is not None and after.number is not None) or (
                after.number is not None and after.glued and not word.glued
            ):
                found.append(word)
            elif not (word.glued and after.glued):
                found.append(Word(",", word.start, word.end, False))
            continue
        if word.text == "." and word.glued and after is not None and before is not None:
            if before.text == "no" and after.number is not None:
                continue
            if after.glued and not after.capital:
                continue
        if word.text == "/" and before is not None and before.text == "with":
            continue
        found.append(word)
    return found
