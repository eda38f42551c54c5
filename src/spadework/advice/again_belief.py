"""A sowing after its counts: what is believed of it, and what waiting or sowing again would bring."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from spadework.clock.course import Course, sow
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing, able_share
from spadework.crops.sheet import Sheet
from spadework.science.counts import AblePrior, Belief, Finding, able_prior, believe
from spadework.types import Floats

FULL_OF_ABLE = 0.6
"""Share of the seed that could come up which makes a full stand, if no number is named. common-practice."""

SEED_AND_HOUR_COST = 0.03
"""Share of the crop's worth that new seed and the work of a second sowing take. Our own rule."""

RECOUNT_FIRST, RECOUNT_LAST = 3, 14
"""A recount is set no sooner and no later than this many days on."""

REMAINDER_UP = 0.7
"""The recount falls where this share of what may still come would be up."""

FINAL_DAYS = 45
"""Seedlings are waited for at most this long from today."""


@dataclass(frozen=True)
class Case:
    """What is known of the sowing.

    Parameters
    ----------
    sheet, ground : Sheet, Ground
    sowing : Sowing
        As it was sown.
    today : int
        Column of today.
    seeds : int
        Seeds sown.
    counts : sequence of (int, int)
        Column and seedlings standing, in order of time, today's last.
    dug : str or None
        What digging found.
    wanted : int
        Plants that make a full stand.
    """

    sheet: Sheet
    ground: Ground
    sowing: Sowing
    today: int
    seeds: int
    counts: Sequence[tuple[int, int]]
    dug: Finding | None
    wanted: int


def wanted_by_default(sheet: Sheet, seeds: int, germination: float | None) -> int:
    """Plants that make a full stand of this many seeds."""
    return max(1, round(FULL_OF_ABLE * able_share(sheet, germination) * seeds))


class Weighing:
    """The belief after the counts, and each option's chances by year.

    Parameters
    ----------
    case : Case
    same : Weighing or None
        Of the same sowing as of other counts: what does not hang on them is taken from it.
    """

    def __init__(self, case: Case, same: Weighing | None = None) -> None:
        self.case = case
        self.made = case.ground.years.made
        self.course: Course = sow(case.sheet, case.ground, case.sowing) if same is None else same.course
        self._again: dict[int, tuple[Course, Floats]] = {} if same is None else same._again
        self._fresh: dict[tuple[float, int, int], float] = {} if same is None else same._fresh
        assert self.course.sprout is not None  # it was sown, not set out
        self.progress = self.course.sprout.progress
        able = max(float(self.course.sprout.able.mean()), 1e-6)
        self.expected_up_share = float(self.course.emerged[:, case.today].mean()) / able
        self.prior: AblePrior = able_prior(float(np.clip(self.course.sprout.able.mean(), 0.02, 0.98)))
        self.series = [(float(self.progress[:, day].mean()), count) for day, count in case.counts]
        self.belief = self.believe(self.series, case.dug)
        last = case.ground.dates.size - 1
        self.final = self.progress[:, min(case.today + FINAL_DAYS, last)]

    def believe(self, series: list[tuple[float, int]], dug: Finding | None) -> Belief:
        """Belief after a series of counts and a look into the ground."""
        assert self.course.sprout is not None  # it was sown, not set out
        sigma = self.case.sheet.emergence.sigma.value
        return believe(series, self.case.seeds, self.prior, tau=self.course.sprout.tau, sigma=sigma, dug=dug)

    def enough(self, belief: Belief) -> Floats:
        """Chance, by year, that enough stand in the end without doing anything."""
        # what took seedlings goes on taking them until something stops it
        kept = belief.standing / belief.emerged if belief.real_loss else 1.0
        wanted = self.case.wanted if kept >= 1.0 else round(self.case.wanted / max(kept, 0.02))
        coming = belief.coming(self.final, wanted)
        assert coming.enough_chance is not None
        return coming.enough_chance

    @property
    def standing_picked(self) -> Floats:
        """Chance, by year, that plants of this sowing are ready before anything takes them."""
        return self.course.picked[:, -1]

    def again(self, day: int) -> tuple[Course, Floats]:
        """A second sowing on a day: its course, and by year the chance of enough plants that get there."""
        if day not in self._again:
            sowing = Sowing(day, self.case.sowing.depth_mm, None, True)
            course = sow(self.case.sheet, self.case.ground, sowing)
            stand = self.new_stand(course, self.case.seeds, self.case.wanted)
            self._again[day] = course, stand * course.picked[:, -1]
        return self._again[day]

    def new_stand(self, course: Course, seeds: int, wanted: int) -> Floats:
        """Chance, by year, of at least `wanted` plants from a new sowing whose old loss is stopped."""
        assert course.sprout is not None
        if wanted <= 0:
            return np.ones(self.made.size)
        mean = float(np.clip(course.sprout.able.mean(), 0.02, 0.98))
        which = (mean, seeds, wanted)
        if which not in self._fresh:
            fresh = believe([], seeds, able_prior(mean))
            chance = fresh.coming(np.full(1, np.inf), wanted).enough_chance
            assert chance is not None
            self._fresh[which] = float(chance[0])
        # years with poorer soil than the mean keep their share of it
        return np.clip(self._fresh[which] * course.sprout.able / mean, 0.0, 1.0)

    def recount_day(self) -> int:
        """Column of the day on which most of what may still come would be up."""
        last = self.case.ground.dates.size - 1
        days = np.arange(self.case.today + RECOUNT_FIRST, min(self.case.today + RECOUNT_LAST, last) + 1)
        if days.size == 0:
            return last
        mean = self.belief.coming(self.progress[:, days].mean(axis=0)).mean_count
        total = float(self.belief.coming(self.final).mean_count.mean())
        if total < 0.5:
            return int(days[0])
        enough = np.flatnonzero(mean >= REMAINDER_UP * total)
        return int(days[enough[0]] if enough.size else days[-1])
