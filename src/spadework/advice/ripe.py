"""What hangs ripe on a planting, day by day, and what becomes of it while nobody picks it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from spadework.advice.scene import Plot
from spadework.advice.waiting import ahead
from spadework.science.picking import past_size_share, picking_loss_share
from spadework.types import Bools, Floats

PICKING_C: Final = {"warm": 21.0, "cool": 18.0}
"""Air at which the sheets say how often a crop is picked and how long a fruit or leaf stays good [degC]."""

SPLITS: Final = {
    "tomato": 0.15,
    "cabbage": 0.2,
    "napa-cabbage": 0.1,
    "radish": 0.15,
    "carrot": 0.05,
    "kohlrabi": 0.1,
    "melon": 0.15,
    "watermelon": 0.1,
}
"""Share of what is ripe that splits after a day of heavy rain, by crop. Source: memory."""

SPLIT_RAIN_MM: Final = 20.0
"""Rain of a day from which ripe fruit, heads and roots split. Source: memory."""

FREEZE_C: Final = -4.0
"""Night in the shelter from which roots and tubers freeze in the top of the soil. Source: common-practice."""

FROZEN_SHARE: Final = 0.4
"""Share of a root or tuber crop spoilt by such a night. Source: memory."""

UNDERGROUND: Final = ("root", "tuber", "bulb")
"""Kinds whose crop outlives its frosted tops."""

CHILLED_SHARE: Final = 0.3
"""Share of chill-tender tubers that rots after frost has taken the tops. Source: memory."""


@dataclass(frozen=True, eq=False)
class Ripe:
    """What is ripe of a planting from today on, arrays [year, AHEAD_DAYS + 1].

    Parameters
    ----------
    plot : Plot
    """

    plot: Plot

    @property
    def often(self) -> bool:
        """Whether it is picked many times, fruit by fruit or leaf by leaf."""
        return self.plot.sheet.harvest.repeat != "once"

    @property
    def days_since(self) -> int | None:
        """Days since it was picked last; None where it never was."""
        last = self.plot.planting.last_picked_on
        if last is None:
            return None
        today = self.plot.course.ground.dates[self.plot.column]
        return int((today - np.datetime64(last, "D")).astype(np.int64))

    # -- picked many times ---------------------------------------------------------------------------

    @cached_property
    def _base_c(self) -> float:
        base = self.plot.sheet.harvest.again_base_c
        return self.plot.sheet.development.base_c.value if base is None else base.value

    @cached_property
    def again_cday(self) -> float:
        """Warmth from one picking to the next  [degC d]."""
        again = self.plot.sheet.harvest.again_cday
        return self.good_cday if again is None else again.value

    @cached_property
    def good_cday(self) -> float:
        """Warmth a fruit or leaf stays within its best size  [degC d]."""
        usual = PICKING_C[self.plot.sheet.season] - self._base_c
        return max(self.plot.sheet.harvest.past_days.value * usual, 1.0)

    @cached_property
    def _bearing(self) -> Floats:
        """Warmth of each day that brings fruit to size, [year, day]: nothing before it is ready or after."""
        course = self.plot.course
        bears = course.ready - later(course.ready, season_days(self.plot))
        warm = np.maximum(course.ground.air_mean_c - self._base_c, 0.0)
        found: Floats = warm * bears * (1.0 - course.lost_frost)
        return found

    @cached_property
    def gap_cday(self) -> Floats:
        """Warmth that brought fruit to size since the last picking  [degC d]."""
        total = np.cumsum(self._bearing, axis=-1)
        since = self.days_since
        begun = -1 if since is None else self.plot.column - since
        before = total[:, begun : begun + 1] if begun >= 0 else 0.0
        found: Floats = np.maximum(ahead(total, self.plot.column) - before, 0.0)
        return found

    @cached_property
    def share(self) -> Floats:
        """Share of the whole harvest that came to size since the last picking."""
        whole = np.maximum(self._bearing.sum(axis=-1, keepdims=True), self.again_cday)
        found: Floats = np.minimum(self.gap_cday / whole, 1.0)
        return found

    @cached_property
    def between_days(self) -> float:
        """Days from one picking to the next in the warmth of the coming week."""
        warm = ahead(np.maximum(self.plot.course.ground.air_mean_c - self._base_c, 0.0), self.plot.column)
        return self.again_cday / max(float(warm[:, :8].mean()), 0.5)

    # -- picked once ---------------------------------------------------------------------------------

    @cached_property
    def ready(self) -> Floats:
        """Chance that it is ready."""
        return ahead(self.plot.course.ready, self.plot.column)

    @cached_property
    def over(self) -> Floats:
        """Chance that it is past its best, having stood ready too long."""
        past = round(self.plot.sheet.harvest.past_days.value)
        return ahead(later(self.plot.course.ready, past), self.plot.column)

    @cached_property
    def past(self) -> Floats:
        """Share of what is ripe that is past its best."""
        return past_size_share(self.gap_cday, self.good_cday) if self.often else self.over

    # -- both ----------------------------------------------------------------------------------------

    @cached_property
    def taken(self) -> dict[str, Floats]:
        """Chance that what is ripe today is spoilt by then, by cause."""
        course, column, sheet = self.plot.course, self.plot.column, self.plot.sheet
        found: dict[str, Floats] = {"frost": self._frozen(), "splitting after rain": self._split()}
        if sheet.kind in ("leaf", "head", "root", "stem", "herb", "bulb"):
            found["running to seed"] = since_now(ahead(course.bolted, column))
            found["heat"] = since_now(ahead(course.lost_heat, column))
        return found

    def _frozen(self) -> Floats:
        course, column, sheet = self.plot.course, self.plot.column, self.plot.sheet
        lost = since_now(ahead(course.lost_frost, column))
        if sheet.kind not in UNDERGROUND:
            return lost
        if sheet.harvest.standing_frost == "yes":
            return np.zeros_like(lost)
        nights = ahead(course.ground.years.tmin_c, column) <= FREEZE_C
        nights[:, 0] = False
        frozen: Floats = FROZEN_SHARE * np.maximum.accumulate(nights, axis=-1)
        limit = sheet.chill.limit_c
        tender = sheet.kind == "tuber" and limit is not None and limit.value >= 10.0
        return np.maximum(frozen, CHILLED_SHARE * lost) if tender else frozen

    def _split(self) -> Floats:
        rain: Floats = np.nan_to_num(ahead(self.plot.course.ground.years.rain_mm, self.plot.column))
        heavy: Bools = rain >= SPLIT_RAIN_MM
        heavy[:, 0] = False
        each = SPLITS.get(self.plot.sheet.key, 0.0)
        sound: Floats = np.power(1.0 - each, np.cumsum(heavy, axis=-1), dtype=np.float64)
        return 1.0 - sound

    @cached_property
    def spoilt(self) -> Floats:
        """Chance that what is ripe today is spoilt by then, by whatever cause."""
        found: Floats = 1.0 - np.prod([1.0 - chance for chance in self.taken.values()], axis=0)
        return found

    @property
    def main_cause(self) -> tuple[str, float]:
        """What is most likely to spoil it within a week, and in which share of the years."""
        by_cause = {cause: float(chance[:, 7].mean()) for cause, chance in self.taken.items()}
        cause = max(by_cause, key=lambda name: by_cause[name])
        return cause, by_cause[cause]

    @cached_property
    def loss(self) -> Floats:
        """Share of the whole harvest lost if it is picked first on each day.

        Notes
        -----
        Of a crop picked many times: what grew past its size, what the plant then did not set, and what is
        spoilt on the plant. Of one picked once: what stood too long or was spoilt. Nothing sown again makes
        up for it: the room is free as soon whether the crop is picked or lost.
        """
        if self.often:
            missed = picking_loss_share(self.gap_cday, self.good_cday)
            lost = self.share * (missed + (1.0 - self.past) * (1.0 - missed) * self.spoilt)
        else:
            lost = self.ready * (1.0 - (1.0 - self.over) * (1.0 - self.spoilt))
        found: Floats = np.maximum.accumulate(lost, axis=-1)
        return found


def season_days(plot: Plot) -> int:
    """Days from ready to the last picking, at the long end of its range  [d]."""
    days = plot.sheet.harvest.days
    return round(days.value if days.high is None else days.high)


def later(chance: Floats, days: int) -> Floats:
    """The same chances so many days later, zero before."""
    found = np.zeros_like(chance)
    if 0 < days < chance.shape[-1]:
        found[:, days:] = chance[:, :-days]
    elif days <= 0:
        found[:] = chance
    return found


def lost_by(plot: Plot, column: int) -> dict[str, Floats]:
    """Chance that nothing is left of it by a day, by what took it, [year] each."""
    found = {"it has run to seed": plot.course.bolted[:, column]}
    if plot.sheet.kind not in UNDERGROUND:
        found["frost has killed it"] = plot.course.lost_frost[:, column]
    return found


def since_now(chance: Floats) -> Floats:
    """Chance to happen by each day, given that it has not by today."""
    left = np.maximum(1.0 - chance[:, :1], 1e-9)
    found: Floats = np.clip((chance - chance[:, :1]) / left, 0.0, 1.0)
    return found


def left_share(plot: Plot) -> float:
    """Share of the plants that still stands of a crop taken plant by plant."""
    plants = plot.planting.plants
    if plot.sheet.harvest.whole != "yes" or plot.plants is None or plants.taken <= 0:
        return 1.0
    return plot.plants / (plot.plants + plants.taken)
