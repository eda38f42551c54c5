"""May I sow this now: made warm and cold soil, as common practice has it."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache

import numpy as np
import pytest

from grounds import champion_ground, soil_ground
from spadework.advice.risks import Risk
from spadework.advice.weigh_sow import SowAnswer, SowOption, weigh_day, weigh_sow
from spadework.clock.sprout import Sowing
from spadework.crops.loader import all_sheets, load_sheet

DAY = 20


@cache
def option(crop: str, soil_c: float, rain_mm: float = 0.0, watered: bool = True) -> SowOption:
    ground = soil_ground([soil_c] * 4, half_range_c=4.0, rain_mm=rain_mm)
    return weigh_day(load_sheet(crop), ground, DAY, "sown", Sowing(DAY, watered=watered))[0]


def risk(found: SowOption, name: str) -> Risk | None:
    return next((one for one in found.risks if one.name == name), None)


def days_to_half_up(found: SowOption) -> int:
    assert found.emergence is not None
    assert found.emergence.q50 is not None
    return (found.emergence.q50 - found.day).days


@pytest.mark.parametrize("crop", ["bush-bean", "pole-bean", "runner-bean", "lima-bean"])
def test_beans_rot_in_cold_wet_soil(crop: str) -> None:
    cold, warm = option(crop, 9.0, 6.0, False), option(crop, 18.0, 6.0, False)
    rot = risk(cold, "rot")
    assert rot is not None
    assert rot.odds.chance == 1.0
    assert rot.helps
    assert cold.full_stand.chance < 0.1
    assert warm.full_stand.chance > 0.7
    assert risk(warm, "rot") is None


@pytest.mark.parametrize("crop", ["lettuce", "head-lettuce", "spinach"])
def test_lettuce_and_spinach_fail_in_hot_soil(crop: str) -> None:
    hot, cool = option(crop, 29.0), option(crop, 14.0)
    found = risk(hot, "hot soil")
    assert found is not None
    assert found.odds.chance == 1.0
    assert hot.full_stand.chance < 0.3 * cool.full_stand.chance
    assert cool.full_stand.chance > 0.6
    assert risk(cool, "hot soil") is None


def test_parsnip_emerges_poorly_from_warm_soil() -> None:
    hot, cool = option("parsnip", 30.0), option("parsnip", 14.0)
    assert hot.full_stand.chance < 0.6 * cool.full_stand.chance
    assert days_to_half_up(hot) > 1.2 * days_to_half_up(option("parsnip", 20.0))


def test_carrot_takes_weeks_in_cold_soil() -> None:
    assert days_to_half_up(option("carrot", 6.0)) > 28
    assert 7 <= days_to_half_up(option("carrot", 16.0)) <= 14


def test_soil_too_cold_is_a_risk_for_warm_crops_only() -> None:
    assert risk(option("cucumber", 11.0), "cold soil") is not None
    assert risk(option("pea", 11.0), "cold soil") is None


def test_hard_rain_and_then_drying_days_crust_the_bed() -> None:
    rain = np.zeros((4, 300))
    rain[:3, DAY + 2] = 25.0
    ground = soil_ground([18.0] * 4, half_range_c=9.0, rain_mm=rain)
    found = weigh_day(load_sheet("carrot"), ground, DAY, "sown", Sowing(DAY))[0]
    crust, washing = risk(found, "crust"), risk(found, "washing rain")
    assert crust is not None
    assert washing is not None
    assert (crust.odds.years_yes, washing.odds.years_yes) == (3, 3)
    after = np.zeros((4, 300))
    after[:, DAY + 60] = 25.0
    late = weigh_day(
        load_sheet("carrot"),
        soil_ground([18.0] * 4, half_range_c=9.0, rain_mm=after),
        DAY,
        "sown",
        Sowing(DAY),
    )[0]
    assert risk(late, "crust") is None
    assert risk(late, "washing rain") is None


def test_seed_that_nobody_waters_lies_in_dry_soil() -> None:
    assert option("carrot", 16.0, watered=False).full_stand.chance < 0.01
    assert option("carrot", 16.0, watered=True).full_stand.chance > 0.7


def weigh(crop: str, today: date, way: str = "sown") -> SowAnswer:
    ground = champion_ground(today - timedelta(days=45), 45 + 98 + 300, today)
    return weigh_sow(
        load_sheet(crop),
        ground,
        [45 + step for step in range(0, 99, 7)],
        crop=crop,
        today=today,
        way=way,
        sowing=Sowing(45),
        assumptions=[],
        notes=[],
    )


def check(found: SowAnswer) -> None:
    for one in found.options:
        for odds in (one.full_stand, one.ready_before_loss, one.overall, one.lost_to_frost, one.lost_to_heat):
            assert 0.0 <= odds.chance <= 1.0
            assert odds.years == len(one.by_year)
            assert abs(odds.chance * odds.years - odds.years_yes) <= 0.5 + 0.0001 * odds.years
        assert one.overall.chance <= min(one.full_stand.chance, one.ready_before_loss.chance) + 1e-4
        assert one.overall.chance == pytest.approx(np.mean(one.by_year), abs=1e-3)
        taken = one.lost_to_frost.chance + one.lost_to_heat.chance + one.bolted.chance
        assert one.ready_before_loss.chance + taken >= 1.0 - one.ready.never - 0.02
        chances = [risk.odds.chance for risk in one.risks]
        assert chances == sorted(chances, reverse=True)
    assert found.best_day in [one.day for one in found.options]
    assert found.reason


@pytest.mark.parametrize("crop", sorted(all_sheets())[::3])
def test_every_option_adds_up(crop: str) -> None:
    check(weigh(crop, date(2018, 4, 20)))


def test_tender_crops_wait_in_april_and_are_too_late_in_september() -> None:
    spring, autumn = weigh("bush-bean", date(2018, 4, 1)), weigh("bush-bean", date(2018, 9, 10))
    assert spring.verdict == "wait"
    assert spring.best_day >= date(2018, 5, 1)
    assert spring.options[0].lost_to_frost.chance > 0.3
    assert autumn.verdict == "do not sow"
    assert "frost" in autumn.reason


def test_a_raised_crop_has_no_emergence_in_the_bed() -> None:
    found = weigh("tomato", date(2018, 3, 25), "raised")
    check(found)
    assert all(one.emergence is None and one.full_stand.chance == 1.0 for one in found.options)
