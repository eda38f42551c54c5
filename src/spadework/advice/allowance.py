"""The water a bed may get in seven days, and what is left of it by the book."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from spadework.garden.records import Bed
from spadework.garden.state import Garden

WEEK_DAYS: Final = 7
"""Days an allowance counts back, today included [d]. Our own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """A bed's allowance on a day.

    Parameters
    ----------
    week_l : float  [l]
        It may get in seven days.
    given : tuple of (int, float)
        Waterings of the last seven days: days ago, and litres.
    untold : int
        Waterings of those days whose litres nobody knows; they count as nothing.
    """

    week_l: float
    given: tuple[tuple[int, float], ...] = ()
    untold: int = 0

    def left_l(self, ahead: int = 0) -> float:
        """What is left so many days from today, when nothing more is given until then  [l]."""
        used = sum(litres for ago, litres in self.given if ago + ahead < WEEK_DAYS)
        return max(self.week_l - used, 0.0)

    def free_in(self, least_l: float) -> int | None:
        """Days until so much is left; None where the whole week's allowance is less  [d]."""
        found = (days for days in range(WEEK_DAYS + 1) if self.left_l(days) >= least_l)
        return next(found, None)

    def words(self, wanted_l: float = 0.0) -> str:
        """It in a sentence or two, with what stays short of so many litres wanted."""
        left = self.left_l()
        rest = "all of it is" if left >= self.week_l else f"{left:.0f} l are" if left >= 0.5 else "none is"
        if self.week_l == 0.0:
            return "By its allowance it gets no water."
        said = f"Of its allowance of {self.week_l:.0f} l a week {rest} left."
        if wanted_l - left >= 0.5:
            said += f" {wanted_l - left:.0f} l stay short of the {wanted_l:.0f} l that would fill it."
        if self.untold:
            times = "one watering" if self.untold == 1 else f"{self.untold} waterings"
            said += f" Nobody said how much {times} gave: not counted."
        return said


def allowance_of(garden: Garden, bed: Bed, today: date) -> Allowance | None:
    """A bed's allowance by the book's waterings of the last seven days; None where it has none."""
    if bed.week_allowance_l is None:
        return None
    given = garden.waterings(bed.key, since=today - timedelta(days=WEEK_DAYS - 1))
    return Allowance(
        week_l=bed.week_allowance_l,
        given=tuple(((today - each.on).days, each.litres) for each in given if each.litres is not None),
        untold=sum(each.litres is None for each in given),
    )
