"""One clause of a line: an act with the marks that belong to it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

from spadework.usecases.line.amounts import Amount, Dim
from spadework.usecases.line.marks import Mark

NEAR: Final = 3
"""Marks within which a word belongs to a number."""


@dataclass(slots=True)
class Clause:
    """An act and its marks.

    Parameters
    ----------
    act : str
        As in the vocabulary.
    marks : list of Mark
        In order, stops among them.
    sentence : int
    context : list of Mark
        Beds, crops and people said before any act: they hold for all clauses.
    taken_from : Clause or None
        Where it names no place of its own: the clause whose place it shares.
    act_mark : Mark or None
        The word of the act, where there is one.
    prior : Clause or None
        The clause before it.
    """

    act: str
    marks: list[Mark]
    sentence: int = 0
    context: list[Mark] = field(default_factory=list)
    taken_from: Clause | None = None
    act_mark: Mark | None = None
    prior: Clause | None = None

    def has(self, *tags: str) -> Mark | None:
        """The first mark that may mean one of these."""
        return next((mark for mark in self.marks if any(tag in mark.means for tag in tags)), None)

    def use(self, *tags: str) -> Mark | None:
        """The same, marked as used."""
        found = self.has(*tags)
        if found is not None:
            found.used = True
        return found

    def words(self, *texts: str) -> Mark | None:
        """The first mark written as one of these."""
        return next((mark for mark in self.marks if mark.plain in texts), None)

    def amounts(self, dim: Dim, marks: Sequence[Mark] | None = None) -> list[Mark]:
        """Marks with an amount of a dimension, not used yet."""
        return [
            mark
            for mark in (self.marks if marks is None else marks)
            if mark.amount is not None and mark.amount.dim == dim and not mark.used
        ]

    def amount(self, dim: Dim, marks: Sequence[Mark] | None = None) -> Amount | None:
        """The first amount of a dimension, marked as used."""
        found = self.amounts(dim, marks)
        if not found:
            return None
        found[0].used = True
        return found[0].amount

    def numbers(self, marks: Sequence[Mark] | None = None) -> list[Mark]:
        """Marks with a bare number, not used yet."""
        return [
            mark
            for mark in (self.marks if marks is None else marks)
            if mark.number is not None and not mark.used
        ]

    def before(self, mark: Mark, count: int = NEAR) -> list[Mark]:
        """Marks just before one, nearest first, as far as the last comma."""
        if mark not in self.marks:
            return []
        at = self.marks.index(mark)
        return _until_stop(reversed(self.marks[:at]), count)

    def after(self, mark: Mark, count: int = NEAR) -> list[Mark]:
        """Marks just after one, nearest first, as far as the next comma."""
        if mark not in self.marks:
            return []
        at = self.marks.index(mark)
        return _until_stop(iter(self.marks[at + 1 :]), count)

    def number_by(self, *words: str, marks: Sequence[Mark] | None = None) -> Mark | None:
        """The number nearest before or after one of some words: "60 seeds", "lot of 60 seeds"."""
        for mark in self.numbers(marks):
            if any(_says(other, words) for other in self.after(mark, 2)):
                return mark
        return None

    def whole(self, mark: Mark | None) -> int | None:
        """The value of a number's mark as a whole number; marked as used."""
        if mark is None or mark.number is None or mark.number.value < 0:
            return None
        mark.used = True
        if mark.number.low is not None:
            mark.notes.append(
                f"{mark.number.low:g} to {mark.number.high:g} taken as {round(mark.number.value)}"
            )
        return round(mark.number.value)


def _until_stop(marks: Iterable[Mark], count: int) -> list[Mark]:
    found: list[Mark] = []
    for mark in marks:
        if (mark.stop and mark.plain not in ("and",)) or len(found) >= count:
            break
        found.append(mark)
    return found


def _says(mark: Mark, words: Sequence[str]) -> bool:
    return mark.plain in words


def names_place(marks: Iterable[Mark]) -> bool:
    """Whether a bed or a crop is among some marks."""
    return any(mark.is_bed or mark.is_crop for mark in targets(marks))


def targets(marks: Iterable[Mark]) -> Iterator[Mark]:
    """Marks that name the place of an act: beds and crops, not those only said to be near it."""
    before: Mark | None = None
    for mark in marks:
        beside = before is not None and ("beside" in before.means or "except" in before.means)
        if (mark.is_bed or mark.is_crop) and not beside and "aside" not in mark.means:
            yield mark
        if (
            mark.plain not in ("the", "some", "my", "a", "our", "those", "these")
            or mark.is_bed
            or mark.is_crop
        ):
            before = mark
