"""Words that were mistyped: taken as the known word next to them, and said so."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

from spadework.usecases.line.words import Word

_SHORTEST: Final = 4
_TWO_SLIPS: Final = 10
"""Letters a word needs for one slip, and for two. In the shortest letters may only have changed places."""


def mended(
    words: Sequence[Word], known: frozenset[str], wanted: Iterable[str]
) -> tuple[list[Word], list[tuple[str, str]]]:
    """The words with mistyped ones put right, and what was taken as what.

    Parameters
    ----------
    words : sequence of Word
    known : frozenset of str
        Words that are never changed.
    wanted : iterable of str
        Words a mistyped one may be taken as.
    """
    found: list[Word] = []
    taken: list[tuple[str, str]] = []
    by_letter: dict[str, list[str]] = {}
    for word in words:
        text = word.text
        if len(text) < _SHORTEST or not text.isalpha() or _is_name(word, found) or _is_known(text, known):
            found.append(word)
            continue
        if not by_letter:
            for each in wanted:
                by_letter.setdefault(each[0], []).append(each)
        near = _nearest(text, by_letter)
        if near:
            taken.append((text, near))
            found.append(replace(word, text=near))
        else:
            found.append(word)
    return found, taken


def _is_name(word: Word, before: Sequence[Word]) -> bool:
    """A capital letter within a sentence makes a name, which is taken as it is."""
    return word.capital and bool(before) and before[-1].text not in (".", ":", ";")


def _is_known(text: str, known: frozenset[str]) -> bool:
    return (
        text in known
        or (text.endswith("s") and text[:-1] in known)
        or (text.endswith("es") and text[:-2] in known)
        or (text.endswith("ing") and len(text) > 6 and (text[:-3] in known or text[:-3] + "e" in known))
        or (text.endswith("ed") and len(text) > 5 and (text[:-2] in known or text[:-1] in known))
        or (text.endswith("ly") and text[:-2] in known)
    )


def _nearest(text: str, by_letter: dict[str, list[str]]) -> str:
    """The one nearest word, its first two letters right or changed round; empty where several are."""
    most = 2 if len(text) >= _TWO_SLIPS else 1
    best: list[str] = []
    least = most + 1
    letters = {text[0], text[1]} if len(text) > 4 else {text[0]}
    for letter in letters:
        for each in by_letter.get(letter, ()):
            if abs(len(each) - len(text)) > most or len(each) < _SHORTEST:
                continue
            if len(text) == _SHORTEST and sorted(text) != sorted(each):
                continue
            slips = slips_between(text, each, min(least, most))
            if slips < least:
                least, best = slips, [each]
            elif slips == least and slips <= most:
                best.append(each)
    if len(best) > 1:
        stems = {each.removesuffix("s") for each in best}
        if len(stems) > 1:
            same = [each for each in best if sorted(each) == sorted(text)]
            same = same or [each for each in best if each[-3:] == text[-3:]]
            best = same if len(same) == 1 else []
    return best[0] if best and least <= most else ""


def slips_between(one: str, other: str, most: int) -> int:
    """Letters changed, left out, put in or turned round between two words; `most` + 1 where it is more."""
    if one == other:
        return 0
    before: list[int] = []
    last = list(range(len(other) + 1))
    for row, letter in enumerate(one, start=1):
        this = [row]
        for column, against in enumerate(other, start=1):
            cost = min(last[column] + 1, this[-1] + 1, last[column - 1] + (letter != against))
            if row > 1 and column > 1 and letter == other[column - 2] and one[row - 2] == against:
                cost = min(cost, before[column - 2] + 1)
            this.append(cost)
        if min(this) > most:
            return most + 1
        before, last = last, this
    return last[-1]
