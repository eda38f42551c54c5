"""The hindcasts of docs/accuracy.md: what is asked of which record, through the program's own clock."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

import numpy as np

import seasons
from spadework.clock.course import Course, set_out, sow
from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.clock.sprout import Sowing, sprout
from spadework.crops.loader import load_sheet
from spadework.crops.overrides import apply_overrides
from spadework.record.hindcast import SHARES, Stage, course_hindcast, ready_hindcast, window
from spadework.record.scores import Score, leave_one_out
from spadework.science.degree_days import degree_days
from spadework.science.frost import first_day_at_or_below, last_day_at_or_below

WARM_UPPER_C = 32.0
"""Above it a warm-season sum gains no more; the sums above 4.4 degC have no such limit."""

SUMS = {
    "Champion, base 10, 700 degC d from 15 May": ("champion", 10.0, 700.0, (5, 15)),
    "Champion, base 10, 1000 degC d from 20 May": ("champion", 10.0, 1000.0, (5, 20)),
    "Champion, base 4.4, 1100 degC d from 20 April": ("champion", 4.4, 1100.0, (4, 20)),
    "Clemson, base 10, 800 degC d from 15 April": ("clemson", 10.0, 800.0, (4, 15)),
    "Clemson, base 4.4, 1100 degC d from 11 March": ("clemson", 4.4, 1100.0, (3, 11)),
    "Norfolk, base 4.4, 1100 degC d from 10 April": ("norfolk", 4.4, 1100.0, (4, 10)),
    "Brussels, base 4.4, 1100 degC d from 10 April": ("brussels", 4.4, 1100.0, (4, 10)),
    "Cordoba, base 10, 700 degC d from 1 October": ("cordoba", 10.0, 700.0, (10, 1)),
    "Seattle, 4 years, base 4.4, 1100 degC d from 10 April": ("seattle", 4.4, 1100.0, (4, 10)),
}
"""Crop-like requirements: place, base, degree-days, first day."""

START = {
    "champion": {"carrot": (4, 20), "bush-bean": (5, 20), "lettuce": (4, 20), "tomato": (5, 28)},
    "clemson": {"carrot": (3, 10), "bush-bean": (4, 15), "lettuce": (3, 10), "tomato": (4, 20)},
    "norfolk": {"carrot": (4, 10), "bush-bean": (5, 20), "lettuce": (4, 10), "tomato": (6, 1)},
    "brussels": {"carrot": (4, 10), "bush-bean": (5, 20), "lettuce": (4, 10), "tomato": (5, 25)},
    "cordoba": {"carrot": (9, 1), "bush-bean": (10, 1), "lettuce": (9, 1), "tomato": (10, 15)},
    "seattle": {"carrot": (4, 10), "bush-bean": (5, 20), "lettuce": (4, 10), "tomato": (5, 25)},
}
"""Usual day of sowing, or for tomato of setting out, at each place. Common practice."""

SOWN = ("carrot", "bush-bean", "lettuce")

FROSTS = ("champion", "clemson", "norfolk", "brussels", "cordoba", "seattle")
SPRING_DAYS = 196


def sum_rates(name: str) -> np.ndarray:
    """Degree-days of a crop-like requirement, [year, day]."""
    place, base, _, _ = SUMS[name]
    found = seasons.rows(place)
    if base == 10.0:
        return degree_days(found.tmin_c, found.tmax_c, base, WARM_UPPER_C, "single-sine", "horizontal")
    return degree_days(found.tmin_c, found.tmax_c, base, None, "single-sine", "none")


def sum_hindcast(name: str) -> list[Stage]:
    """A crop-like requirement on one record, at sowing and on the way."""
    place, _, need, (month, day) = SUMS[name]
    return ready_hindcast(sum_rates(name), seasons.column(place, month, day), need)


def start_column(place: str, crop: str) -> int:
    """Column of a crop's usual day at a place."""
    return seasons.column(place, *START[place][crop])


def course_of(crop: str, start: int, ground: Ground, overrides: Mapping[str, object] | None = None) -> Course:
    """A crop sown, or set out where it is raised under cover, on a column of a ground."""
    sheet = apply_overrides(load_sheet(crop), overrides or {}, "the hindcast")
    return sow(sheet, ground, Sowing(start)) if crop in SOWN else set_out(sheet, ground, start)


def _sprout_way(crop: str, start: int, ground: Ground) -> np.ndarray:
    return sprout(load_sheet(crop), ground, Sowing(start)).progress


def _ready_way(crop: str, start: int, ground: Ground) -> np.ndarray:
    course = course_of(crop, start, ground)
    return (course.grown_days - course.head_days) / course.ready_days


def crop_hindcast(place: str, crop: str, shares: tuple[float, ...] = SHARES) -> list[tuple[str, list[Stage]]]:
    """Half up, and ready, of a real sheet: weather alone."""
    ground, start = seasons.ground(place), start_column(place, crop)
    asked: list[tuple[str, Callable[[str, int, Ground], np.ndarray], int]] = [("ready", _ready_way, 365)]
    if crop in SOWN:
        asked.insert(0, ("half up", _sprout_way, start + 120))
    found = []
    for what, way, end in asked:
        first = max(start - SPIN_UP_DAYS, 0)
        part = Ground(ground.site, window(ground.years, first, end), ground.surface)
        found.append((what, course_hindcast(part, start - first, partial(way, crop, start - first), shares)))
    return found


def frost_days(place: str) -> list[tuple[str, np.ndarray]]:
    """Day of the last spring and first autumn freeze at the thermometer, year by year.

    A year without one counts as a day at the edge of the half-year, before or after all others.
    """
    low = seasons.rows(place).tmin_c
    last = last_day_at_or_below(low[:, :SPRING_DAYS], 0.0).astype(np.float64)
    first = first_day_at_or_below(low[:, SPRING_DAYS:], 0.0).astype(np.float64)
    first[first < 0] = low.shape[1] - SPRING_DAYS
    return [("last in spring", last), ("first in autumn", first)]


def frost_hindcast(place: str) -> list[tuple[str, int, Score, float]]:
    """Freezes of each year from all others: years, score, how often linear quantiles held."""
    found = []
    for what, days in frost_days(place):
        held = []
        for year in range(days.size):
            lower, upper = np.quantile(np.delete(days, year), [0.1, 0.9])
            held.append(lower <= days[year] <= upper)
        found.append((what, days.size, leave_one_out(days), float(np.mean(held))))
    return found
