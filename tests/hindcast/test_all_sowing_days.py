"""Every sowing day of 40 years for 60 real crops at once: quick enough to ask in passing, and right."""

from __future__ import annotations

from time import process_time

import numpy as np

import seasons
from hindcasts import course_of
from spadework.clock.batch import daily_rates, finish_all
from spadework.clock.tables import trapezoid_table
from spadework.crops.loader import all_sheets
from spadework.crops.sheet import Sheet

YEARS, SOWINGS = 40, 365
AT_LEAST_QUICKER = 30
"""A sowing of one year beside the same asked of one course of all years; 103 to 131 were measured."""


def table_of(sheet: Sheet):  # type: ignore[no-untyped-def]
    section = sheet.development
    return trapezoid_table(
        section.base_c.value, section.optimum_c.value, section.shoulder_c.value, section.ceiling_c.value
    )


def least_seconds(work, repeats: int) -> float:  # type: ignore[no-untyped-def]
    """Processor time, all threads together: what else the machine does may not fail the test."""
    times = []
    for _ in range(repeats):
        begun = process_time()
        work()
        times.append(process_time() - begun)
    return min(times)


def test_all_sowing_days_at_once() -> None:
    found = seasons.rows("clemson")
    low, high = (values[-YEARS - 1 :] for values in (found.tmin_c, found.tmax_c))
    # each row runs on into the next year of the record
    low, high = (np.concatenate([values[:-1], values[1:]], axis=1) for values in (low, high))
    sheets = list(all_sheets().values())[:60]
    tables = [table_of(sheet) for sheet in sheets]
    required = np.array([sheet.development.ready_days.value for sheet in sheets])
    mean, half = (low + high) / 2.0, (high - low) / 2.0
    days = np.arange(SOWINGS)

    finish = finish_all(daily_rates(tables, mean, half), days, required)
    assert finish.shape == (60, YEARS, SOWINGS)
    assert 0.9 < float((finish < mean.shape[1]).mean()) <= 1.0
    assert (np.diff(finish, axis=2) >= 0).all()
    assert (finish >= days).all()

    batch = least_seconds(lambda: finish_all(daily_rates(tables, mean, half), days, required), 5)
    ground = seasons.ground("champion")
    one = least_seconds(lambda: course_of("carrot", 110, ground).way, 5) / ground.years.count
    assert AT_LEAST_QUICKER * batch / finish.size < one
    assert batch < 0.5
