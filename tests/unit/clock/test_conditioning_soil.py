"""A soil thermometer moves the soil of the years by as much as it should, and no more."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from grounds import CHAMPION, champion_ground
from spadework.clock.conditioning_soil import (
    LONGEST_USE_DAYS,
    MEAN_SD_C,
    daily_mean_c,
    error_sd_c,
    soil_applied,
    soil_offset,
)
from spadework.clock.ground import Ground
from spadework.clock.soil_offset import SoilReading, offset_from_readings
from spadework.clock.sprout import Sowing, sprout
from spadework.crops.loader import load_sheet
from spadework.garden.told import SoilWarmth
from spadework.science import thermometer
from tellings import told

TODAY = date(2018, 5, 20)
FIRST = date(2018, 3, 20)
BED = 2.0  # between beds of bare, moist ground


def ground(today: date = TODAY) -> Ground:
    return champion_ground(FIRST, 200, today)


def column(day: date) -> int:
    return (day - FIRST).days


def reading(temp_c: float, day: date = TODAY, hour: float | None = None, depth_cm: float = 5.0) -> SoilWarmth:
    return SoilWarmth(temp_c=temp_c, depth_cm=depth_cm, first=day, last=day, hour=hour)


def colder(by_c: float, day: date = TODAY) -> SoilWarmth:
    return reading(float(ground().soil_mean_c[0, column(day)]) - by_c, day)


def test_one_reading_by_hand() -> None:
    """One reading of -2.0 with an error of 1.0 against the published prior of grass: computed by hand."""
    model = np.tile(np.linspace(10.0, 14.0, 40), (3, 1))
    offset = offset_from_readings(model, (SoilReading(0, 0, np.full(3, -2.0), 1.0),), 1.55)
    for day, mean, sd in ((0, -1.646, 0.907), (7, -1.329, 1.468), (14, -1.138, 1.680)):
        assert offset.offset_c[:, day] == pytest.approx(mean, abs=0.0005)
        assert offset.sd_c[:, day] == pytest.approx(sd, abs=0.0005)


def test_several_readings_are_those_of_the_law() -> None:
    readings = [colder(2.0, TODAY - timedelta(days=14)), colder(1.0, TODAY - timedelta(days=7)), colder(3.0)]
    entries = [told(fact, fact.last) for fact in readings]
    found = soil_offset(ground(), entries, TODAY)
    assert found is not None
    at = column(TODAY)
    law = thermometer.thermometer_offset(
        [at - 14, at - 7, at], [-2.0, -1.0, -3.0], np.arange(200), between_sd_c=BED, reading_sd_c=MEAN_SD_C
    )
    assert found.offset_c[5] == pytest.approx(law.mean_c, abs=1e-6)
    # the seen weather is the same in all rows; later days have their rows' spread beside this
    assert found.sd_c[5, : at + 1] == pytest.approx(law.sd_c[: at + 1], abs=1e-6)


def test_a_mean_over_days_is_compared_with_the_same_days() -> None:
    first = TODAY - timedelta(days=9)
    model = float(ground().soil_mean_c[0, column(first) : column(TODAY) + 1].mean())
    stretch = SoilWarmth(temp_c=model + 2.0, depth_cm=5.0, first=first, last=TODAY)
    found = soil_offset(ground(), [told(stretch, TODAY)], TODAY)
    assert found is not None
    within = found.offset_c[0, column(first) : column(TODAY) + 1].mean()
    # the mean of ten days is known better than any one of them
    apart = np.abs(np.subtract.outer(np.arange(10), np.arange(10)))
    prior = BED**2 + np.mean(1.5**2 * 0.93**apart)
    assert within == pytest.approx(2.0 * prior / (prior + MEAN_SD_C**2), abs=1e-6)


def test_a_spot_reading_is_brought_to_its_day() -> None:
    ground_ = ground()
    half = float(ground_.soil_half_c(5.0)[0, column(TODAY)])
    noon, early = reading(20.0, hour=12.0), reading(20.0, hour=6.0)
    # shares of the wave measured at 12 h and 6 h, sun time
    assert daily_mean_c(ground_, noon)[0] == pytest.approx(20.0 - 0.79 * half, abs=0.1 * half)
    assert daily_mean_c(ground_, early)[0] == pytest.approx(20.0 + 0.80 * half, abs=0.05 * half)
    assert error_sd_c(reading(20.0, hour=9.6)) == pytest.approx(1.0, abs=0.02)
    assert 1.3 < error_sd_c(noon) <= 1.5
    said = soil_applied(ground_, [told(early, TODAY)], TODAY, _must(ground_, early))[0].text
    mean = float(daily_mean_c(ground_, early)[0])
    assert f"a daily mean of {mean:.1f} °C" in said
    assert f"{mean - 20.0:.1f} degrees colder than it" in said


def _must(ground_: Ground, fact: SoilWarmth):  # type: ignore[no-untyped-def]
    found = soil_offset(ground_, [told(fact, TODAY)], TODAY)
    assert found is not None
    return found


def test_what_is_told_later_or_long_ago_says_nothing() -> None:
    fact = colder(2.0)
    assert soil_offset(ground(), [told(fact, TODAY + timedelta(days=1))], TODAY) is None
    assert soil_offset(ground(), [told(fact, TODAY)], TODAY - timedelta(days=1)) is None
    late = TODAY + timedelta(days=LONGEST_USE_DAYS + 1)
    assert soil_offset(champion_ground(FIRST, 200, late), [told(fact, TODAY)], late) is None
    assert soil_offset(ground(), [], TODAY) is None


def test_another_bed_counts_for_less() -> None:
    fact = replace(colder(2.0), bed="tunnel")
    at = column(TODAY)
    own = soil_offset(ground(), [told(fact, TODAY)], TODAY, "tunnel")
    other = soil_offset(ground(), [told(fact, TODAY)], TODAY, "3")
    whole = soil_offset(ground(), [told(replace(fact, bed=""), TODAY)], TODAY, "3")
    assert own is not None
    assert other is not None
    assert whole is not None
    assert own.offset_c[0, at] == pytest.approx(whole.offset_c[0, at])
    assert own.offset_c[0, at] < other.offset_c[0, at] < -1.0


def test_where_the_weather_was_not_seen_each_year_moves_by_its_own_difference() -> None:
    """The rows' spread on the day shrinks, and what is weather in it fades as weather does."""
    unseen = champion_ground(FIRST, 200, date(2018, 3, 1))
    assert unseen.years.seen_days == 0
    at = column(TODAY)
    rows = unseen.soil_mean_c
    fact = reading(float(rows[:, at].mean()) + 3.0)
    found = soil_offset(unseen, [told(fact, TODAY)], TODAY)
    assert found is not None
    after = rows + found.offset_c
    assert after[:, at].std() < 0.35 * rows[:, at].std()
    assert after[:, at + 20].std() > 0.9 * rows[:, at + 20].std()
    prior = BED**2 + 1.5**2 + rows[:, at].std() ** 2
    assert after[:, at].mean() == pytest.approx(
        rows[:, at].mean() + 3.0 * prior / (prior + MEAN_SD_C**2), abs=1e-6
    )
    # a cold year is lifted more than a warm one
    coldest, warmest = int(rows[:, at].argmin()), int(rows[:, at].argmax())
    assert found.offset_c[coldest, at] > found.offset_c[warmest, at] + 0.5 * np.ptp(rows[:, at])


def test_seed_comes_up_later_in_soil_read_colder_and_the_spread_narrows() -> None:
    sheet = load_sheet("carrot")
    plain = ground()
    fact = colder(3.0)
    cold = replace(plain, soil_offset=_must(plain, fact), _kept={})
    sowing = Sowing(column(TODAY))
    before, after = sprout(sheet, plain, sowing), sprout(sheet, cold, sowing)
    assert (after.median_day - before.median_day).mean() > 1.0
    assert before.tau == sheet.emergence.tau.value
    assert 0.5 * before.tau <= after.tau < before.tau
    # a bed that is read just as the model has it comes up on the same day, and more surely
    even = replace(plain, soil_offset=_must(plain, colder(0.0)), _kept={})
    same = sprout(sheet, even, sowing)
    assert (same.median_day == before.median_day).all()
    assert same.tau < before.tau


def test_the_reading_settles_what_the_law_says() -> None:
    found = _must(ground(), colder(2.0))
    at = column(TODAY)
    before, after = found.mean_sd_c(at, at)
    assert before == pytest.approx(np.hypot(BED, 1.5))
    assert after == pytest.approx(found.sd_c[0, at])
    weeks_before, weeks_after = found.mean_sd_c(at, at + 20)
    assert after < weeks_after < weeks_before < before
    assert CHAMPION.surface == "bare-moist"
