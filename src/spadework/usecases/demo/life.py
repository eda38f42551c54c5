"""A planting of the demo as it went, up to the last day seen, with the deeds that tell of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta

from spadework.clock.course import Course
from spadework.crops.sheet import Sheet
from spadework.garden.entries import Payload
from spadework.usecases.demo.deed import DAY, Deed
from spadework.usecases.demo.script import Row
from spadework.usecases.demo.seen import Seen


@dataclass(slots=True)
class Life:
    """A planting as it went, up to the last day seen.

    Parameters
    ----------
    row : Row
    key, bed : str
    started, in_place, up, ready, ended : date or None
        Sown; sown or set out where it grows; up there; first ready; cleared.
    must_end : date
        The day the place is needed.
    plants : int
        That stand.
    tender : bool
        Frost kills it, and fleece goes over it.
    course : Course or None
    deeds : list of Deed
    """

    row: Row
    key: str
    bed: str
    sheet: Sheet
    must_end: date
    lot: str = ""
    started: date | None = None
    in_place: date | None = None
    up: date | None = None
    ready: date | None = None
    ended: date | None = None
    killed: date | None = None
    bolted: date | None = None
    plants: int = 0
    course: Course | None = None
    deeds: list[Deed] = field(default_factory=list)

    @property
    def tender(self) -> bool:
        """Whether a frost takes it."""
        return self.sheet.frost.hardiness == "tender"

    def stands(self, day: date) -> bool:
        """Whether it stands in its place on a day."""
        return self.in_place is not None and self.in_place <= day and (self.ended is None or day < self.ended)

    def dead(self, day: date) -> bool:
        """Whether frost or running to seed has made it useless by a day."""
        return (self.killed is not None and day >= self.killed) or (
            self.bolted is not None and day >= self.bolted + timedelta(days=7)
        )

    def say(
        self, seen: Seen, day: date | None, act: Payload, who: str, *, bed: str = "", when: int = DAY
    ) -> None:
        """One more deed, where its day has come."""
        if day is not None and seen.has(day):
            where = bed or self.bed
            self.deeds.append(Deed(on=day, act=act, who=who, bed=where, planting=self.key, when=when))
