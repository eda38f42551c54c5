"""Short marks for beds, as gardeners put them on a plan: "L3" for Lake 3, and what they stand for."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from typing import Final

_NUMBERED: Final = re.compile(r"(.*\S)\s+(\d+)")


def bed_marks(names: Mapping[str, str]) -> dict[str, str]:
    """A mark for each bed, no two alike: initials, and its number where it has one.

    Parameters
    ----------
    names : mapping of str to str
        By key.
    """
    words = _words(names.values())
    short = _short(words)
    found = {}
    for key, name in names.items():
        word, number = _parts(name)
        found[key] = f"{short[word]}{number}"
    if len(set(found.values())) < len(found):  # "T1" of tubs beside a bed called "T" with a number
        return {key: str(place) for place, key in enumerate(names, start=1)}
    return found


def marks_said(names: Mapping[str, str], only: Collection[str] = ()) -> list[tuple[str, str]]:
    """What the marks stand for: of beds told apart by a number the word once.

    Parameters
    ----------
    names : mapping of str to str
        Of all beds on the plan, by key.
    only : collection of str
        Keys of those that are told; empty for all.
    """
    marks = bed_marks(names)
    found: dict[str, str] = {}
    for key, name in names.items():
        if only and key not in only:
            continue
        word, number = _parts(name)
        mark = marks[key]
        if number and mark.endswith(number) and len(mark) > len(number):
            found.setdefault(mark.removesuffix(number), word)
        else:
            found.setdefault(mark, name)
    return list(found.items())


def _parts(name: str) -> tuple[str, str]:
    found = _NUMBERED.fullmatch(name.strip())
    return (found[1], found[2]) if found else (name.strip(), "")


def _words(names: Iterable[str]) -> list[tuple[str, bool]]:
    """Each word once, and whether a number follows it."""
    return list(dict.fromkeys((word, bool(number)) for word, number in map(_parts, names)))


def _short(words: Iterable[tuple[str, bool]]) -> dict[str, str]:
    """Short forms, those with numbers first: one letter, else the shortest that is not taken."""
    found: dict[str, str] = {}
    taken: set[str] = set()
    for word, _ in sorted(words, key=lambda each: not each[1]):
        if word not in found:
            found[word] = next(each for each in _tries(word, taken) if each not in taken)
            taken.add(found[word])
    return found


def _tries(word: str, taken: set[str]) -> Iterable[str]:
    parts = word.split() or ["?"]
    if len(parts) > 1:
        yield f"{parts[0][0].upper()}{parts[1][0].casefold()}"
    for end in range(1, len(parts[0]) + 1):
        yield parts[0][:1].upper() + parts[0][1:end].casefold()
    yield word
    yield from (f"{word[0]}{place}." for place in range(len(taken) + 1))
