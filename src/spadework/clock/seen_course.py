"""A course with what was seen of the planting itself: up, in flower, ready, measured."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from spadework.clock.course import Course
from spadework.clock.normal import log_normal_share
from spadework.clock.sprout import first_reaching
from spadework.crops.sheet import Value
from spadework.types import Floats

MOST_TIMES: Final = 2.0
"""A stage seen moves the requirement by this factor at most: beyond it the entry is doubted. Our own rule."""

SEEN_CV: Final = 0.02
"""Spread left of a requirement whose day was seen. Our own rule: a day or two of looking."""

HALF_SEEN: Final = 0.5
"""Share of the spread left once the first flower was seen: the rest of the way is still to come. memory."""


LATEST_SPREADS: Final = 8.0
"""Spreads beyond the middle up to which a look in vain is reckoned with. Our own rule."""

_LOGISTIC: Final = float(np.sqrt(3.0) / np.pi)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sightings:
    """What was seen, by column of the course's day axis; None where it was not.

    Parameters
    ----------
    up, flower, ready : int or None
    not_up, not_ready : int or None
        Last column on which it was looked for and not seen.
    alive : int or None
        Last column on which the plants were worked on or looked at.
    measured : int or None
        Column of the last measuring.
    leaves, height_cm : float or None
        As measured then.
    """

    up: int | None = None
    flower: int | None = None
    ready: int | None = None
    not_up: int | None = None
    not_ready: int | None = None
    alive: int | None = None
    measured: int | None = None
    leaves: float | None = None
    height_cm: float | None = None


def with_seen(course: Course, seen: Sightings) -> Course:
    """The course as what was seen has it.

    Parameters
    ----------
    course : Course
        By weather alone.
    seen : Sightings

    Returns
    -------
    Course
        Up on the day it was seen to be; its requirement scaled so that first flower or ready falls, at the
        middle of the years, on the day it was seen; later by what is left of its spread where it was looked
        for in vain; leaves and height going on from what was measured; and nothing lost before the day it was
        last seen to stand.
    """
    if seen.up is not None:
        course = _up_on(course, seen.up)
    elif seen.not_up is not None:
        course = _up_after(course, seen.not_up)
    if seen.ready is not None:
        course = _paced(course, seen.ready, 1.0, SEEN_CV / course.sheet.development.cv.value)
    elif seen.flower is not None and course.sheet.development.flower_share is not None:
        share = course.sheet.development.flower_share.value
        course = _paced(course, seen.flower, share, HALF_SEEN)
    if seen.ready is None and seen.not_ready is not None:
        course = _ready_after(course, seen.not_ready)
    if seen.measured is not None:
        course = _sized(course, seen.measured, seen.leaves, seen.height_cm)
    return course if seen.alive is None else replace(course, alive_day=seen.alive)


def _up_on(course: Course, column: int) -> Course:
    sprout = course.sprout
    if sprout is None or column >= sprout.progress.shape[1]:
        return course
    then = np.maximum(sprout.progress[:, column : column + 1], 1e-3)
    progress: Floats = sprout.progress / then
    day = np.full_like(sprout.median_day, column)
    sigma = course.sheet.emergence.sigma.value
    return replace(
        course,
        sprout=replace(
            sprout,
            progress=progress,
            share_up=sprout.able[:, None] * log_normal_share(progress, 1.0, sigma),
            median_day=day,
            quick_day=day,
            slow_day=day,
            tau=SEEN_CV,
        ),
    )


def _paced(course: Course, column: int, share: float, spread: float) -> Course:
    """The requirement scaled so that a share of it is grown by a column."""
    section = course.sheet.development
    grown = float(course.grown_days[:, min(column, course.grown_days.shape[1] - 1)].mean()) - course.head_days
    wanted = share * section.ready_days.value - course.head_days
    if grown <= 0.0 or wanted <= 0.0:
        return course
    factor = float(np.clip(grown / wanted, 1.0 / MOST_TIMES, MOST_TIMES))
    set_out = section.set_out_days
    return replace(
        course,
        sheet=replace(
            course.sheet,
            development=replace(
                section,
                ready_days=_scaled(section.ready_days, factor),
                set_out_days=None if set_out is None else _scaled(set_out, factor),
                cv=_scaled(section.cv, min(spread, 1.0)),
            ),
        ),
    )


def later_than(spreads: float) -> tuple[float, float]:
    """Middle and spread of a deviate that is known to lie above some spreads from its middle.

    Parameters
    ----------
    spreads : float

    Returns
    -------
    middle, spread : float
        The median of what is left of the curve, and half the distance between its 16th and 84th percentile.

    Notes
    -----
    The curve is logistic: its tails are longer than those of the normal curve. Whoever looks in vain long
    after the middle has reason to doubt the spread too, and waits for the next look as long as for the last.

    Source
    ------
    Computed: the logistic curve of unit spread, cut off on its left.
    """
    gone = 1.0 / (1.0 + float(np.exp(-min(spreads, LATEST_SPREADS) / _LOGISTIC)))
    left = [gone + (1.0 - gone) * share for share in (0.16, 0.5, 0.84)]
    low, middle, high = (_LOGISTIC * float(np.log(share / (1.0 - share))) for share in left)
    return middle, (high - low) / 2.0


def _up_after(course: Course, column: int) -> Course:
    """Emergence as it is to be expected of a row in which nothing was up on a day."""
    sprout = course.sprout
    if sprout is None or column >= sprout.progress.shape[1]:
        return course
    gathered = float(sprout.progress[:, column].mean())
    if gathered <= 0.0:
        return course
    middle, share = later_than(float(np.log(gathered)) / sprout.tau)
    tau, sigma = sprout.tau * share, course.sheet.emergence.sigma.value
    progress: Floats = sprout.progress * float(np.exp(-sprout.tau * middle))
    return replace(
        course,
        sprout=replace(
            sprout,
            progress=progress,
            share_up=sprout.able[:, None] * log_normal_share(progress, 1.0, float(np.hypot(sigma, tau))),
            median_day=first_reaching(progress, 1.0),
            quick_day=first_reaching(progress, float(np.exp(-tau))),
            slow_day=first_reaching(progress, float(np.exp(tau))),
            tau=tau,
        ),
    )


def _ready_after(course: Course, column: int) -> Course:
    """The requirement as it is to be expected of a crop that was not ready on a day."""
    section, head = course.sheet.development, course.head_days
    grown = float(course.grown_days[:, min(column, course.grown_days.shape[1] - 1)].mean()) - head
    wanted = section.ready_days.value - head
    if grown <= 0.0 or wanted <= 0.0:
        return course
    spread = float(course.log_sd.mean())
    middle, share = later_than(float(np.log(grown / wanted)) / spread)
    factor = min(float(np.exp(spread * middle)), MOST_TIMES)
    set_out = section.set_out_days
    return replace(
        course,
        sheet=replace(
            course.sheet,
            development=replace(
                section,
                ready_days=_scaled(section.ready_days, factor),
                set_out_days=None if set_out is None else _scaled(set_out, factor),
                cv=_scaled(section.cv, share),
            ),
        ),
    )


def _sized(course: Course, column: int, leaves: float | None, height_cm: float | None) -> Course:
    section, changed = course.sheet.growth, {}
    at = min(column, course.leaves.shape[1] - 1)
    if leaves is not None and (foretold := float(course.leaves[:, at].mean())) > 0.0 and leaves > 0.0:
        factor = float(np.clip(foretold / leaves, 1.0 / MOST_TIMES, MOST_TIMES))
        changed["leaf_days"] = _scaled(section.leaf_days, factor)
        changed["leaves_max"] = replace(section.leaves_max, value=max(section.leaves_max.value, leaves))
    if height_cm is not None and (foretold := float(course.height_cm[:, at].mean())) > 0.0:
        factor = float(np.clip(height_cm / foretold, 1.0 / MOST_TIMES, MOST_TIMES))
        changed["height_cm"] = _scaled(section.height_cm, factor)
    if not changed:
        return course
    return replace(course, sheet=replace(course.sheet, growth=replace(section, **changed)))


def _scaled(value: Value, factor: float) -> Value:
    return replace(value, value=value.value * factor, low=None, high=None, origin="as seen in the garden")
