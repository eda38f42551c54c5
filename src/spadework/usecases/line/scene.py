"""What the builders of acts share: the garden, the day, who did it, and what was asked or assumed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from spadework.garden.entries import Payload
from spadework.garden.state import Garden
from spadework.usecases.keep_book import Act, new_planting_key
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.lexicon import Lexicon
from spadework.usecases.line.marking import Manner
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.places import Target, targets_of
from spadework.usecases.line.plants import Place, places
from spadework.usecases.line.which import Sense


@dataclass(slots=True)
class Scene:
    """One clause in its garden.

    Parameters
    ----------
    sense : Sense
    lexicon : Lexicon
    manner : Manner
    line : str
    day : date
    by : str
        Key of who did it; empty for who writes.
    hour : float or None
    taken : list of str
        What had to be assumed, in words.
    new_plantings : set of str
        Names given in this line.
    """

    sense: Sense
    lexicon: Lexicon
    manner: Manner
    line: str
    day: date
    by: str = ""
    hour: float | None = None
    taken: list[str] = field(default_factory=list)
    new_plantings: set[str] = field(default_factory=set)

    @property
    def garden(self) -> Garden:
        """The garden as it stands."""
        return self.sense.garden

    def act(self, payload: Payload, place: Place | None = None, *, on: date | None = None) -> Act:
        """An act of this clause at a place."""
        place = place or Place()
        return Act(
            payload=payload,
            on=on or place.on or self.day,
            bed=place.bed,
            planting=place.planting,
            author=self.by,
        )

    def spots(self, clause: Clause) -> Iterator[tuple[Target, Place]]:
        """Every place of a clause with the target that named it."""
        for target in targets_of(clause):
            own = None if target.alone else _own_day(clause, target)
            for place in places(self.sense, clause, target, own or self.day):
                yield target, replace(place, on=own)

    def new_planting(self, crop: str) -> str:
        """A name for a planting that starts in this line."""
        key = new_planting_key(self.garden, crop, self.day, self.new_plantings)
        self.new_plantings.add(key)
        return key

    def note_taken(self, marks: Sequence[Mark]) -> None:
        """Keep what used amounts and numbers had to assume."""
        for mark in marks:
            said = [*mark.notes]
            if mark.used and mark.amount is not None and mark.amount.taken:
                said.append(mark.amount.taken)
            self.taken += [each for each in said if each not in self.taken]

    def rest_of(self, clause: Clause, after: Mark) -> str:
        """The words of a clause after a mark, as written."""
        later = [mark for mark in clause.marks[clause.marks.index(after) + 1 :] if mark.text]
        while later and (
            later[0].stop or later[0].plain in ("to", "because", "cos", "since", "as", "by", "it")
        ):
            later = later[1:]
        for mark in later:
            mark.used = True
        return _joined(later)

    def text_of(self, marks: Sequence[Mark]) -> str:
        """Marks as written."""
        return _joined(marks)


def _own_day(clause: Clause, target: Target) -> date | None:
    """The day of one place, where a clause names several days: "bed 1 yesterday and bed 2 today"."""
    days = [mark for mark in clause.marks if mark.day is not None and not mark.day.lead]
    if len(days) < 2:
        return None
    own = [mark for mark in target.marks if mark in days]
    if days[0] is clause.marks[0] and target.crop is None and target.beds:
        at = clause.marks.index(target.beds[0]) if target.beds[0] in clause.marks else 0
        own = [mark for mark in clause.marks[:at] if mark in days][-1:]
    return own[0].day.on if own and own[0].day is not None else None


def _joined(marks: Sequence[Mark]) -> str:
    text = ""
    for mark in marks:
        text += mark.text if mark.plain in (",", ".", ";", ":") or not text else f" {mark.text}"
    return text.strip(" ,.;:")
