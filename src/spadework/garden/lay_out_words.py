"""One line about beds, read into groups: how many, of what, how big, where, with what soil and water.

A line is read from left to right by phrases; what no phrase takes up is a fault with its column, so that no
word that changes the meaning is dropped.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from spadework.errors import Fault
from spadework.garden.lay_out_group import NOUNS, SOILS, Group, even
from spadework.garden.lay_out_lengths import NUMBER, Kind, bare_unit, metres, number_of
from spadework.garden.lay_out_phrases import all_phrases
from spadework.garden.lookup import nearest
from spadework.garden.site import Units

_MORE: Final = (
    "rows, paths, raised, mulched, named, numbered, north of, south of, east of, west of, beside, inside,"
    " indoors, emitters, litres, across, deep, wide, long, turned, shaded by"
)
_VOCABULARY: Final = (*NOUNS, *(f"{noun}s" for noun in NOUNS), *SOILS, *_MORE.split(", "))


class LineReader:
    """Reads one line.

    Parameters
    ----------
    text : str
    number : int
        Of the line, from one.
    units : {"metric", "us"}
        What bare numbers are in.
    known : mapping of str to str
        Names of the beds described so far, in lower case, to their keys.
    """

    def __init__(self, text: str, number: int, units: Units, known: Mapping[str, str]) -> None:
        self.written, self.text, self.number, self.units = text, even(text), number, units
        self.known = known
        self.groups: list[Group] = []
        self.faults: list[Fault] = []
        names = sorted(known, key=len, reverse=True)
        self._patterns = all_phrases("|".join(re.escape(name) for name in names) or r"(?!)")
        self.group = Group(number, 1)

    def read(self) -> None:
        """Read the whole line into `groups` and `faults`."""
        place, lost = 0, -1
        while place < len(self.text):
            if gap := re.compile(r"[\s,]+").match(self.text, place):
                place = gap.end()
                continue
            end = self._phrase(place)
            if end is None:
                word = re.compile(r"[^\s,;]+").match(self.text, place)
                end = place + 1 if word is None else word.end()
                lost = place if lost < 0 else lost
                place = end
                continue
            if lost >= 0:
                self._not_known(lost, place)
                lost = -1
            place = end
        if lost >= 0:
            self._not_known(lost, len(self.text))
        self._close(None)

    # -- phrases -------------------------------------------------------------------------------------

    def _phrase(self, place: int) -> int | None:
        if self.text[place] in ";." and not re.match(r"\.\d", self.text[place : place + 2]):
            self._close(Group(self.number, place + 2))
            return place + 1
        for pattern, act in self._patterns:
            found = pattern.match(self.text, place)
            if found is not None and found.end() > place:
                act(self, found)
                return found.end()
        return None

    def start(self, found: re.Match[str]) -> Group:
        """A new group where this one has its beds already."""
        if self.group.noun or self.group.refers:
            self._close(Group(self.number, found.start() + 1))
        elif not self.group.at:
            self.group.column = found.start() + 1
        return self.group

    def put(self, found: re.Match[str], **said: object) -> None:
        """Note what was said, once."""
        group = self.group
        for name, value in said.items():
            if name in group.at:
                self.fault(
                    found.start(),
                    repr(self.written[found.start() : found.end()].strip()),
                    f"one {_spoken(name)} for a group",
                    "Say it once, or start a new line.",
                )
                return
            group.at[name] = found.start() + 1
            setattr(group, name, value)

    def length(self, found: re.Match[str], text: str, bare: str) -> float:
        """A length, checked to be a number above zero."""
        try:
            value = metres(text, bare)
        except ValueError:
            value = 0.0
        if not 0.0 < value < 1000.0:
            self.fault(found.start(), repr(text.strip()), "a length above zero", "Write it as 1.2 m or 4 ft.")
            return 1.0
        return value

    def bare(self, text: str, kind: Kind) -> str:
        """The unit meant where none is written."""
        lead = re.match(NUMBER, text.strip())
        value = number_of(lead[0]) if lead else 0.0
        return bare_unit(value, kind, self.units)

    def fault(self, place: int, found: str, allowed: str, do: str) -> None:
        """Something wrong at a place of this line."""
        self.faults.append(Fault(f"line {self.number}, column {place + 1}", found, allowed, do))

    def _not_known(self, start: int, end: int) -> None:
        words = self.written[start:end].strip(" ,;")
        near = next((found for word in words.split() if (found := nearest(word, _VOCABULARY, 1))), ())
        self.fault(
            start,
            repr(words),
            "how many, what, size, rows, paths, place, soil, water",
            f"Nearest: {', '.join(near)}." if near else "Take it out, or say it in other words.",
        )

    def _close(self, following: Group | None) -> None:
        group = self.group
        if group.noun or group.refers:
            self.groups.append(group)
        elif (group.at or group.count is not None) and not self.faults:
            self.fault(
                group.column - 1, "no bed", "a bed, tub, tunnel, cold frame or shelf", "Say what it is."
            )
        self.group = following or Group(self.number, len(self.text) + 1)


def _spoken(name: str) -> str:
    return re.sub(r"_(?:m|l|deg|l_h|l_min)$", "", name).replace("_", " ")
