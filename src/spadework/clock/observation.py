"""An event seen in the garden, as what had been gathered by its day: what the clock can learn from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import numpy as np

from spadework.clock.course import Course, set_out, sow
from spadework.clock.ground import Ground
from spadework.clock.learning import BED_EVENT_LOG_SD, EVENT_LOG_SD, Observation
from spadework.clock.sprout import Sowing
from spadework.crops.sheet import Sheet
from spadework.garden.told import Event
from spadework.types import Floats

OFFSETS_C = np.linspace(-3.0, 3.0, 7)
"""Bed offsets at which what was gathered is worked out [degC]."""

LASTING_SHARE = 0.5
"""Share of the variance between sowings that stays with the garden and its hand; the rest comes anew with
each lot and depth. Source: memory."""

_LEAST = 1e-3
"""What counts as gathered where a colder bed tried would have gathered nothing."""


def observe(
    key: str, event: Event, sheet: Sheet, ground_at: Callable[[float], Ground], up_on: date | None = None
) -> Observation | None:
    """What had been gathered by the day of an event.

    Parameters
    ----------
    key : str
        Key of the told fact.
    event : Event
    sheet : Sheet
        With its own requirement, before anything was learned.
    ground_at : callable
        Bed offset [degC] to the bed's ground over the event's days, from a start well before it.
    up_on : date or None
        When the same sowing was seen to come up; a ready day is then counted from it.

    Returns
    -------
    Observation or None
        None where nothing at all had been gathered by the event's day.

    Notes
    -----
    Where the weather of the days was not seen, the years stand in for it, and their spread adds to the noise.
    A ready day of a sowing whose coming up was not seen carries the spread of that too.
    """
    logs, logs_before, noise = [], [], 0.0
    for offset_c in OFFSETS_C:
        ground = ground_at(float(offset_c))
        course = _course(sheet, ground, event, up_on)
        gathered = _gathered(course, event)
        end = gathered[:, _column(ground, event.on)]
        if offset_c == 0.0:
            if not np.all(end > 0.0):
                return None
            noise = float(np.hypot(noise_sd(sheet, event.what, event.bed), _doubt(course, event, end)))
        logs.append(_log(end))
        if event.not_yet_on is not None:
            before = gathered[:, _column(ground, event.not_yet_on)]
            logs_before.append(_log(before) if np.all(before > 0.0) else -np.inf)
    return Observation(
        event=key,
        crop=sheet.key,
        variety=event.variety,
        bed=event.bed,
        what=event.what,
        on=event.on,
        prior_sd=prior_sd(sheet, event.what),
        noise_sd=noise,
        offsets_c=OFFSETS_C,
        log_gathered=np.array(logs),
        log_gathered_before=None if event.not_yet_on is None else np.array(logs_before),
    )


def prior_sd(sheet: Sheet, what: str) -> float:
    """Lasting spread of a requirement before anything is learned, log."""
    if what == "ready":
        return sheet.development.cv.value
    return sheet.emergence.tau.value * float(np.sqrt(LASTING_SHARE))


def noise_sd(sheet: Sheet, what: str, bed: str) -> float:
    """Spread of events about a requirement that is known, log."""
    if what == "ready":
        return BED_EVENT_LOG_SD if bed else EVENT_LOG_SD
    return sheet.emergence.tau.value * float(np.sqrt(1.0 - LASTING_SHARE))


def _course(sheet: Sheet, ground: Ground, event: Event, up_on: date | None) -> Course:
    start = _column(ground, event.started)
    if event.start == "set-out":
        return set_out(sheet, ground, start)
    course = sow(sheet, ground, Sowing(start))
    if up_on is None or course.sprout is None:
        return course
    day = np.full_like(course.sprout.median_day, _column(ground, up_on))
    return replace(course, sprout=replace(course.sprout, median_day=day, quick_day=day, slow_day=day))


def _gathered(course: Course, event: Event) -> Floats:
    """What was gathered by each day over the sheet's median requirement, [year, day]; negative before."""
    if event.what == "came up":
        assert course.sprout is not None
        return course.sprout.progress
    share: Floats = (course.grown_days - course.head_days) / course.ready_days
    return share


def _doubt(course: Course, event: Event, end: Floats) -> float:
    """Spread of what was gathered by the event's day: over years not seen, and by the day it came up."""
    unseen = float(np.log(end).std())
    if event.what == "came up" or course.sprout is None:
        return unseen
    own = course.sheet.development.cv.value
    coming_up = float(np.sqrt(max(float(np.mean(course.log_sd**2)) - own**2, 0.0)))
    return float(np.hypot(unseen, coming_up))


def _log(gathered: Floats) -> float:
    return float(np.log(np.maximum(gathered, _LEAST)).mean())


def _column(ground: Ground, day: date) -> int:
    return int((np.datetime64(day, "D") - ground.years.first_day).astype(int))
