"""Many crops at once give what a plain loop and a course give."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from grounds import champion_ground
from spadework.clock.batch import daily_rates, finish_all
from spadework.clock.course import set_out
from spadework.clock.ground import Ground
from spadework.clock.tables import trapezoid_table
from spadework.crops.loader import all_sheets, load_sheet
from spadework.garden.site import Site

NEUTRAL = [key for key, sheet in all_sheets().items() if sheet.development.day_response == "none"]


def table_of(crop: str):  # type: ignore[no-untyped-def]
    section = load_sheet(crop).development
    return trapezoid_table(
        section.base_c.value, section.optimum_c.value, section.shoulder_c.value, section.ceiling_c.value
    )


def plain_finish(rates: np.ndarray, sow_day: int, required: float) -> int:
    gathered = 0.0
    for day in range(sow_day, rates.size):
        gathered += rates[day]
        if gathered >= required * (1.0 - 1e-12):
            return day
    return int(rates.size)


def test_finish_all_is_the_plain_loop() -> None:
    rng = np.random.default_rng(7)
    rates = np.clip(rng.normal(0.4, 0.4, (3, 4, 90)), 0.0, 1.0)
    sow_days = np.array([0, 1, 17, 60, 89])
    required = np.array([3.0, 11.5, 40.0])
    found = finish_all(rates, sow_days, required)
    assert found.shape == (3, 4, 5)
    for crop, year, place in np.ndindex(found.shape):
        expected = plain_finish(rates[crop, year], int(sow_days[place]), float(required[crop]))
        assert found[crop, year, place] == expected
    assert (found[2] == 90).any()
    assert (found[0] < 90).any()


def test_days_without_gain_at_the_goal_do_not_move_it() -> None:
    rates = np.array([[[0.5, 0.5, 0.0, 0.0, 1.0]]])
    assert finish_all(rates, np.array([0]), np.array([1.0]))[0, 0, 0] == 1
    assert finish_all(rates, np.array([2]), np.array([1.0]))[0, 0, 0] == 4


def test_rounding_in_a_long_sum_never_delays() -> None:
    rates = np.full((1, 1, 400), 0.1)
    found = finish_all(rates, np.arange(0, 300, 7), np.array([5.0]))[0, 0]
    assert (found - np.arange(0, 300, 7) == 49).all()


def test_daily_rates_are_the_tables_own() -> None:
    ground = champion_ground(date(2018, 4, 1), 120)
    crops = ["carrot", "tomato", "cabbage"]
    rates = daily_rates([table_of(crop) for crop in crops], ground.air_mean_c, ground.air_half_c)
    assert rates.shape == (3, *ground.air_mean_c.shape)
    for crop, found in zip(crops, rates, strict=True):
        assert found == pytest.approx(table_of(crop)(ground.air_mean_c, ground.air_half_c), abs=1e-12)


@pytest.mark.parametrize("crop", NEUTRAL[::4])
def test_finish_all_is_the_courses_own_finish(crop: str) -> None:
    # under the equator's even days warmth alone sets the pace
    ground = Ground(Site("Even days", 0.0, 0.0, 0.0), champion_ground(date(2018, 4, 1), 300).years, "grass")
    rates = daily_rates([table_of(crop)], ground.air_mean_c, ground.air_half_c)
    finished = []
    for day in (10, 60, 120):
        course = set_out(load_sheet(crop), ground, day)
        assert (course.begin_day >= day).all()
        # what is gathered counts from the day after development began
        finish = finish_all(rates, course.begin_day[:1] + 1, np.array([course.ready_days]))[0, :, 0]
        own = np.count_nonzero(course.way < 1.0 - 1e-12, axis=-1)
        assert (finish == own).all()
        finished.append((finish < 300).all())
    assert finished[0]
