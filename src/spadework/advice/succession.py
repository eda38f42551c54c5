"""The next sowing by the picking wanted: ready when the one before it is over, not so many days after it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from spadework.advice.raising import STEPS, between, days_until, in_tray, out_size_days
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import lost_by_waiting
from spadework.advice.weigh_again import LATE_COST_PER_DAY
from spadework.clock.course import Course, set_out, sow
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing
from spadework.crops.sheet import Sheet
from spadework.types import Bools, Floats

FULL_LET_UP: Final = 0.7
"""Share of good seed that the soil must let up for a full row. Our own rule: a row is sown half again as
thickly as it needs."""

MISSED: Final = 0.4
"""Share of its worth that a sowing loses when it comes a whole sowing's days too late: it still comes, but a
time without any is not made up by two at once. Our own rule."""

SURPLUS: Final = 0.15
"""The same where it comes a whole sowing's days too soon: of a glut much is given away. Our own rule."""

EARLY_SHARE: Final = 0.4
"""A sowing may be ready by this share of the days between sowings too soon. Our own rule."""

TOO_EARLY: Final = 0.85
"""Nothing is begun that brings less than this share of what a day within three weeks would. Our own rule."""

USUAL_EVERY: Final = 14.0
"""Days that a sowing is picked for where the sheet says nothing. Our own rule."""

GOOD_SHARE: Final = 0.5
"""Share of the days a plant is picked again and again for in which it bears well enough to be all there is of
its kind. Our own rule."""

NEVER: Final = 400.0
"""Days that stand for not in this season."""


@dataclass(frozen=True, kw_only=True, eq=False)
class NextSowing:
    """Sowing on each of the coming days, arrays [year, AHEAD_DAYS + 1].

    Parameters
    ----------
    ready : array  [d]
        Days from today until it is ready; `NEVER` where it is not.
    arrives : array
        Share of a full crop that gets there.
    value : array
        Share of a full crop it brings, less what gaps and gluts take.
    gap : array  [d]
        Days without a picking; below zero for days with two. NaN where nothing stands before it.
    """

    ready: Floats
    arrives: Floats
    value: Floats
    gap: Floats

    @property
    def loss(self) -> Floats:
        """Share lost by first sowing on a day."""
        return lost_by_waiting(self.value)

    def later_costs(self, cost_per_day: float) -> NextSowing:
        """The same where picking a day later costs a share of the worth."""
        late = np.clip(self.ready - self.ready[:, :1], 0.0, 60.0)
        return replace(self, value=self.value * (1.0 - cost_per_day * late))

    def may(self, every_days: float) -> Bools:
        """Days on which it would not be ready far too soon."""
        if np.isnan(self.gap).all():
            good: Bools = self.value >= TOO_EARLY * self.value.max(axis=1, keepdims=True)
            return good
        found: Bools = self.gap >= -EARLY_SHARE * every_days
        return found


def feeds_days(sheet: Sheet) -> float | None:
    """Days one sowing is picked for before the next should be ready  [d]; None for what is sown once a year.

    Notes
    -----
    The days between sowings of the sheet, or the good share of the days it is picked or cut for again and
    again where that is longer: parsley feeds for months, radishes for a week.
    """
    every = sheet.next.every_days
    if every is None:
        return None
    long = 0.0 if sheet.harvest.repeat == "once" else GOOD_SHARE * sheet.harvest.days.value
    return max(every.value, long)


def ready_day(course: Course, column: int) -> Floats:
    """Days from a column until a planting is ready, [year]; `NEVER` where it is not."""
    ready = course.ready
    reached = (ready >= 0.5).any(axis=-1)
    found: Floats = np.where(reached, np.argmax(ready >= 0.5, axis=-1) - float(column), NEVER)
    return found


def last_ready(scene: Scene, plots: list[Plot]) -> Floats:
    """Days from today until the last of several plantings is ready, [year]."""
    found: Floats = np.max([_ready(scene, plot) for plot in plots], axis=0)
    return found


def _ready(scene: Scene, plot: Plot) -> Floats:
    """Days until a planting is ready; one in a tray grows on outside from when it is fit to go."""
    size = out_size_days(plot.sheet)
    if not in_tray(plot) or size is None:
        return ready_day(plot.course, plot.column)
    days = float(np.clip(np.median(days_until(plot, size)), 0.0, 150.0))
    out = min(scene.column + round(days), scene.ground.dates.size - 1)
    return ready_day(set_out(plot.sheet, scene.ground, out), scene.column)


def next_sowing(
    sheet: Sheet, ground: Ground, column: int, *, before: Floats | None, weeks_inside: float = 0.0
) -> NextSowing:
    """What a sowing on each of the coming days brings.

    Parameters
    ----------
    sheet : Sheet
    ground : Ground
    column : int
        Today's.
    before : array, shape (year,), or None  [d]
        Days from today until the one before it is ready; None where nothing stands before it.
    weeks_inside : float  [week]
        Raised for so long and then set out; 0 for one sown where it grows.
    """
    last = ground.dates.size - 1
    readies, values = [], []
    for step in STEPS:
        at = min(column + step, last)
        if weeks_inside > 0.0:
            course = set_out(sheet, ground, min(at + round(7.0 * weeks_inside), last))
            up: Floats | float = 1.0
        else:
            course = sow(sheet, ground, Sowing(at))
            assert course.sprout is not None
            up = np.clip(course.sprout.let_up / FULL_LET_UP, 0.0, 1.0)
        readies.append(np.minimum(ready_day(course, column), NEVER))
        values.append(course.picked[:, -1] * up)
    ready, value = between(readies), between(values)
    every = feeds_days(sheet)
    if before is None or every is None:
        return NextSowing(ready=ready, arrives=value, value=value, gap=np.full_like(value, np.nan))
    gap = ready - (before[:, None] + every)
    later = LATE_COST_PER_DAY * np.clip(gap - every, 0.0, 60.0)
    missed = MISSED * np.clip(gap / every, 0.0, 1.0) + later
    surplus = SURPLUS * np.clip(-gap / every, 0.0, 1.0)
    own = value * (1.0 - missed) * (1.0 - surplus)
    return NextSowing(ready=ready, arrives=value, value=own, gap=gap)


def standing_of(scene: Scene, crop: str) -> list[Plot]:
    """What stands of a crop, in beds and in trays, whether sown or set out."""
    return [plot for plot in scene.plots if plot.sheet.key == crop]
