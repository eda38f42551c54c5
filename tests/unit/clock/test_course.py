"""One planting through all the years: shapes, what can only rise, both halves of the world, both ways in."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import numpy as np
import pytest

from grounds import champion_ground, cordoba_ground, soil_ground
from spadework.clock.course import RAISED_PACE, Course, set_out, sow
from spadework.clock.sprout import Sowing
from spadework.crops.loader import all_sheets, load_sheet

CROPS = sorted(all_sheets())
RAISED = [key for key, sheet in all_sheets().items() if sheet.development.set_out_days is not None]
RISING = (
    "ready",
    "flowering",
    "lost_frost",
    "lost_heat",
    "bolted",
    "picked",
    "emerged",
    "leaves",
    "height_cm",
    "stage",
    "checked_days",
)
CHANCES = ("ready", "flowering", "lost_frost", "lost_heat", "bolted", "picked", "emerged")


def north() -> list[int]:
    return [30, 75, 120]


def check(course: Course) -> None:
    """What holds of every course."""
    shape = course.ground.years.tmin_c.shape
    for name in RISING:
        values = getattr(course, name)
        assert values.shape == shape, name
        assert np.isfinite(values).all(), name
        assert np.diff(values, axis=-1).min() >= -1e-9, name
        assert values.min() >= -1e-12, name
    for name in CHANCES:
        assert getattr(course, name).max() <= 1.0 + 1e-9, name
    assert course.stage.min() >= 0
    assert course.stage.max() <= 9
    assert (course.picked <= course.ready + 1e-9).all()
    assert (course.picked <= 1.0 - np.minimum(course.lost_frost[:, :1], 1.0) + 1e-9).all()
    growth = course.sheet.growth
    assert course.leaves.max() <= growth.leaves_max.value + 1e-9
    assert course.height_cm.max() <= growth.height_cm.value + 1e-9
    before = course.start_day
    for name in ("ready", "flowering", "bolted", "picked", "emerged", "leaves", "height_cm", "checked_days"):
        # within the curve's table, which ends a millionth short
        assert (getattr(course, name)[:, :before] < 1e-6).all(), name
    assert (course.way[:, :before] < 0).all()
    assert course.begin_day.shape == shape[:1]


@pytest.mark.parametrize("crop", CROPS)
def test_sown_in_the_north(crop: str) -> None:
    ground = champion_ground(date(2018, 3, 1), 330)
    for day in north():
        check(sow(load_sheet(crop), ground, Sowing(day)))


@pytest.mark.parametrize("crop", RAISED)
def test_set_out_in_the_north(crop: str) -> None:
    ground = champion_ground(date(2018, 3, 1), 330)
    for day in north():
        check(set_out(load_sheet(crop), ground, day))


@pytest.mark.parametrize("crop", CROPS[::3])
def test_a_southern_season_over_new_year(crop: str) -> None:
    ground = cordoba_ground(date(2019, 9, 1), 330)
    for day in (30, 100):
        course = sow(load_sheet(crop), ground, Sowing(day))
        check(course)
    assert str(ground.dates[-1]).startswith("2020")


def test_southern_summer_crops_are_ready_in_the_new_year() -> None:
    ground = cordoba_ground(date(2019, 9, 1), 330)
    course = set_out(load_sheet("tomato"), ground, 65)
    half = np.argmax(course.ready > 0.5, axis=-1)
    months = {str(ground.dates[day])[:7] for day in half}
    assert months <= {"2019-12", "2020-01", "2020-02"}
    assert course.lost_frost[np.arange(half.size), half].mean() < 0.05
    # and the southern winter does take them
    assert course.lost_frost[:, -1].mean() > 0.5


def test_a_frost_tender_crop_is_lost_in_spring_and_in_autumn_but_not_between() -> None:
    ground = champion_ground(date(2018, 3, 1), 330)
    early, late = (set_out(load_sheet("tomato"), ground, day) for day in (45, 100))
    assert early.lost_frost[:, 100].mean() > 0.8
    assert late.lost_frost[:, 160].mean() < 0.1
    assert late.lost_frost[:, -1].mean() > 0.99


def test_a_frost_hollow_loses_more_than_the_usual_bed() -> None:
    ground = champion_ground(date(2018, 3, 1), 330)
    sheet = load_sheet("potato")
    losses = [
        sow(sheet, ground, Sowing(45), site_offset_c=offset).lost_frost[:, 120].mean()
        for offset in (-2.0, 0.0, 2.0)
    ]
    assert losses[0] > losses[1] > losses[2]


@pytest.mark.parametrize("crop", RAISED)
def test_a_set_out_plant_enters_where_its_sheet_says(crop: str) -> None:
    sheet = load_sheet(crop)
    section = sheet.development
    assert section.set_out_days is not None
    assert sheet.sowing.weeks_to_set_out is not None
    course = set_out(sheet, champion_ground(date(2018, 3, 1), 330), 75)
    entry = 1.0 - section.set_out_days.value / section.ready_days.value
    assert course.way[:, 75] == pytest.approx(entry)
    assert (course.way[:, 74] < 0).all()
    assert course.ready_days == pytest.approx(section.set_out_days.value)
    assert (course.emerged[:, 75:] == 1.0).all()
    assert (course.emerged[:, :75] == 0.0).all()
    # a raised plant has leaves, but no more than its weeks under cover can give
    most = sheet.growth.first_leaves.value + RAISED_PACE * 7.0 * sheet.sowing.weeks_to_set_out.value / (
        sheet.growth.leaf_days.value
    )
    assert (course.leaves[:, 75] > sheet.growth.first_leaves.value + 0.5).all()
    assert (course.leaves[:, 75] <= most + 1e-9).all()
    assert (course.height_cm[:, 75] > 0).all()
    # setting out checks it: nothing is gained before the check is over
    begin = int(course.begin_day[0])
    check_days = sheet.chill.set_out_check_days
    assert begin == 75 + round(0.0 if check_days is None else check_days.value)
    assert course.way[:, begin] == pytest.approx(entry)
    assert course.checked_days[:, begin].min() >= begin - 75


def test_half_are_ready_when_the_median_plant_is() -> None:
    for course in (
        sow(load_sheet("carrot"), champion_ground(date(2018, 3, 1), 330), Sowing(75)),
        set_out(load_sheet("tomato"), champion_ground(date(2018, 3, 1), 330), 90),
    ):
        for year in range(0, 30, 7):
            day = int(np.argmax(course.way[year] >= 1.0))
            assert course.ready[year, day] >= 0.5 - 1e-3
            assert course.ready[year, day - 1] < 0.5


def test_a_set_out_tomato_flowers_weeks_before_a_sown_one_and_after_it_is_set_out() -> None:
    ground = champion_ground(date(2018, 3, 1), 330)
    raised, sown = set_out(load_sheet("tomato"), ground, 90), sow(load_sheet("tomato"), ground, Sowing(90))
    first, second = (np.argmax(course.flowering > 0.5, axis=-1) for course in (raised, sown))
    assert (first > 95).all()
    assert (second - first > 20).all()


def test_later_sowings_are_never_ready_sooner() -> None:
    ground = champion_ground(date(2018, 3, 1), 330)
    for crop in ("carrot", "bush-bean", "lettuce", "onion"):
        runs = [sow(load_sheet(crop), ground, Sowing(day)).way for day in range(20, 140, 15)]
        for sooner, later in pairwise(runs):
            assert (later <= sooner + 1e-12).all()


def test_an_uncertain_emergence_widens_the_spread_of_ready() -> None:
    ground = champion_ground(date(2018, 3, 1), 330)
    for crop in ("parsnip", "carrot"):
        sheet = load_sheet(crop)
        spread = sow(sheet, ground, Sowing(30)).log_sd
        assert spread.shape == (30, 1)
        assert (spread >= sheet.development.cv.value).all()
        assert (spread > sheet.development.cv.value).any()


def test_cold_checks_growth_apart_from_killing_it() -> None:
    sheet = load_sheet("cucumber")
    assert sheet.chill.limit_c is not None
    cold, warm = (
        set_out(sheet, soil_ground(mean_c, half_range_c=4.0), 5)
        for mean_c in (sheet.chill.limit_c.value, sheet.chill.limit_c.value + 8.0)
    )
    moving = float(cold.checked_days[0, cold.begin_day[0]])
    assert moving == pytest.approx(sheet.chill.set_out_check_days.value, abs=1.0)  # type: ignore[union-attr]
    assert cold.checked_days[0, 60] > 20.0
    assert warm.checked_days[0, 60] == pytest.approx(moving, abs=1.0)
    assert cold.lost_frost[0, 60] < 0.01


def test_a_planting_that_never_comes_up_is_never_ready_and_nothing_breaks() -> None:
    course = sow(load_sheet("tomato"), soil_ground(1.0, days=120), Sowing(10))
    check(course)
    assert course.begin_day[0] == 120
    assert course.ready.max() < 1e-6
    assert course.leaves.max() == 0.0
    assert (course.stage == 0).all()


def test_courses_of_one_place_share_what_does_not_depend_on_the_day() -> None:
    ground = soil_ground(16.0, half_range_c=4.0)
    first, second = (sow(load_sheet("carrot"), ground, Sowing(day)) for day in (0, 20))
    assert first._running is second._running
    assert not first._running.flags.writeable
    assert first.ready is first.ready
