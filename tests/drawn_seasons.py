"""Seasons in which the crop's own numbers are drawn as well: do the odds hold that fold them in?

Each year is foretold from all the others by the program. Then it is lived through many times on its own
weather, each time with a variety, a bed and a sowing drawn from the spreads the sheet and the laws state, one
number at a time and night by night: what the program folds into one chance is here played out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

import seasons
from hindcasts import SOWN, course_of
from spadework.advice.odds import date_odds
from spadework.clock.course import Course
from spadework.clock.fate import HEAT_LOG_SD, RANGE_SDS, SHELTER_READING_SD_C, YOUNG_UNTIL
from spadework.record.reliability import Group, reliability
from spadework.science import frost

STARTS = {
    "champion": {
        "carrot": ((3, 20), (4, 20), (5, 20), (6, 20), (7, 10), (7, 25), (8, 5)),
        "bush-bean": ((4, 25), (5, 5), (5, 20), (6, 20), (7, 10), (7, 20), (8, 1)),
        "lettuce": ((3, 20), (4, 20), (5, 10), (6, 1), (7, 20), (8, 10), (8, 25)),
        "tomato": ((5, 1), (5, 10), (5, 20), (5, 28), (6, 10), (7, 1), (7, 15)),
    },
    "brussels": {
        "carrot": ((3, 1), (4, 10), (5, 20), (7, 1), (7, 20), (8, 5)),
        "bush-bean": ((4, 20), (5, 10), (6, 1), (7, 1), (7, 15), (7, 28)),
        "lettuce": ((3, 10), (4, 10), (5, 20), (7, 10), (8, 10), (8, 25)),
        "tomato": ((4, 20), (5, 5), (5, 25), (6, 10), (6, 25)),
    },
    "clemson": {
        "carrot": ((2, 20), (3, 10), (4, 10), (8, 1), (9, 1), (9, 20)),
        "bush-bean": ((3, 20), (4, 5), (5, 1), (7, 20), (8, 20), (9, 5)),
        "lettuce": ((2, 20), (3, 10), (4, 10), (5, 1), (9, 1), (9, 20)),
        "tomato": ((3, 25), (4, 10), (5, 1), (6, 15), (7, 15)),
    },
}
"""Days of sowing or setting out through the season, the too early and the too late among them. Chosen so that
chances of every size are said."""

CHECK_EVERY_DAYS = 10

LEAST_READY = 0.97
"""Chance of being ready by the end of the year, below which there is no 90 % date to score."""

CROPS = (*SOWN, "tomato")


@dataclass(frozen=True)
class Drawn:
    """What was said of each year beforehand, and the share of draws in which it came true.

    Parameters
    ----------
    said, seen : array, shape (case,)
    """

    said: np.ndarray
    seen: np.ndarray


def lived(course: Course, draws: int, rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Column ready and column lost, [year, draw]; the number of columns where neither comes.

    One draw is one planting: its pace, its frost hardiness, its bed, its tolerance of heat and cold.
    """
    sheet, ground = course.sheet, course.ground
    low, high = ground.years.tmin_c, ground.years.tmax_c
    years, days = low.shape
    shape = (years, draws)
    ready, lost = np.full(shape, days), np.full(shape, days)
    head, whole = course.head_days, sheet.development.ready_days.value
    pace = np.exp(sheet.development.cv.value * rng.standard_normal(shape))
    begin = np.tile(course.begin_day[:, None], (1, draws))
    if course.sprout is not None:
        late = np.exp(course.sprout.tau * rng.standard_normal(shape))
        reached = course.sprout.progress
        begin = np.array([np.searchsorted(reached[y], late[y]) for y in range(years)])
    gained = np.where(np.isfinite(course.grown_days), course.grown_days, np.nan)
    kill, young = sheet.frost.kill_c, sheet.frost.young_kill_c
    hardy_sd = (
        0.3 if kill.low is None or kill.high is None else max((kill.high - kill.low) / 2 / RANGE_SDS, 0.3)
    )
    on_leaf = sheet.frost.measured_at == "leaf"
    fixed = hardy_sd * rng.standard_normal(shape)
    if on_leaf:
        fixed = fixed + frost.BETWEEN_SITES_SD_C * rng.standard_normal(shape)
    night_sd = frost.WITHIN_SITE_SD_C if on_leaf else SHELTER_READING_SD_C
    drop = frost.SURFACE_OFFSET_C if on_leaf else 0.0
    dose = np.exp(HEAT_LOG_SD * rng.standard_normal(shape))
    bolts_at = rng.random(shape)
    for year in range(years):
        start = np.minimum(begin[year], days - 1)
        grown = gained[year][None, :] - gained[year][start][:, None]
        if course.sprout is None:
            grown = np.maximum(grown, 0.0)
        way = (head + grown / pace[year][:, None]) / whole
        alive_from = begin[year] if course.sprout is not None else np.full(draws, course.start_day)
        standing = np.arange(days) >= alive_from[:, None]
        way = np.where(standing & ~np.isnan(way), way, -1.0)
        arrives = way >= 1.0
        ready[year] = np.where(arrives.any(axis=1), arrives.argmax(axis=1), days)
        limit = np.where(way < YOUNG_UNTIL, young.value, kill.value)
        leaf = low[year] + drop + fixed[year][:, None] + night_sd * rng.standard_normal((draws, days))
        taken = standing & (leaf < limit)
        if sheet.heat.limit_c is not None and sheet.heat.dose_cday is not None:
            since = 0.0 if sheet.heat.from_share is None else sheet.heat.from_share.value
            excess = np.maximum(high[year] - sheet.heat.limit_c.value, 0.0) * (way >= since)
            taken |= np.cumsum(excess, axis=1) >= sheet.heat.dose_cday.value * dose[year][:, None]
        taken |= standing & (course.bolted[year] >= bolts_at[year][:, None])
        lost[year] = np.where(taken.any(axis=1), taken.argmax(axis=1), days)
    return ready, lost


def _others(values: np.ndarray) -> np.ndarray:
    """Mean of all other years, for each year."""
    return (values.sum(axis=0) - values) / (values.shape[0] - 1)


def odds_of_place(place: str, crop: str, draws: int, seed: int = 5) -> tuple[Drawn, Drawn]:
    """Ready by a day, and picked by a day: every tenth day from the start to the end of the year."""
    rng = np.random.default_rng(seed)
    said: tuple[list[np.ndarray], list[np.ndarray]] = ([], [])
    seen: tuple[list[np.ndarray], list[np.ndarray]] = ([], [])
    for month, day in STARTS[place][crop]:
        start = seasons.column(place, month, day)
        course = course_of(crop, start, seasons.ground(place))
        ready, lost = lived(course, draws, rng)
        picked = np.where(ready < lost, ready, course.way.shape[1])
        asked = np.arange(start + CHECK_EVERY_DAYS, course.way.shape[1], CHECK_EVERY_DAYS)
        for which, (chance, came) in enumerate(((course.ready, ready), (course.picked, picked))):
            said[which].append(_others(chance)[:, asked].ravel())
            seen[which].append((came[:, :, None] <= asked).mean(axis=1).ravel())
    both = [Drawn(np.concatenate(said[w]), np.concatenate(seen[w])) for w in (0, 1)]
    return both[0], both[1]


def dates_held(
    place: str, crop: str, draws: int, seed: int = 6, overrides: Mapping[str, object] | None = None
) -> tuple[int, float]:
    """Seasons lived, and how often the program's own 10 % and 90 % dates of ready held.

    Parameters
    ----------
    overrides : mapping or None
        For the sheet the program answers from; the seasons are drawn from the sheet as it is.
    """
    rng = np.random.default_rng(seed)
    held, cases = 0.0, 0
    for month, day in STARTS[place][crop]:
        start = seasons.column(place, month, day)
        ready, _ = lived(course_of(crop, start, seasons.ground(place)), draws, rng)
        said_by = course_of(crop, start, seasons.ground(place), overrides)
        first = said_by.ground.dates[0]
        for year in range(ready.shape[0]):
            others = np.delete(said_by.ready, year, axis=0)
            if others.mean(axis=0)[-1] < LEAST_READY:
                continue
            said = date_odds(others, said_by.ground.dates, np.zeros(others.shape[0], dtype=np.bool_))
            assert said.q10 is not None
            assert said.q90 is not None
            low, high = (int((np.datetime64(q, "D") - first).astype(int)) for q in (said.q10, said.q90))
            held += float(np.mean((ready[year] >= low) & (ready[year] <= high)))
            cases += 1
    return cases * draws, held / cases if cases else float("nan")


def groups(drawn: list[Drawn]) -> list[Group]:
    """All cases together, in groups of like chances."""
    return reliability(np.concatenate([d.said for d in drawn]), np.concatenate([d.seen for d in drawn]))
