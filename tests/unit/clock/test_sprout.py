"""From sowing to seedlings: what hastens, what delays, what is lost."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from grounds import champion_ground, soil_ground
from spadework.clock.sprout import Sowing, able_share, field_requirement_cd, sprout
from spadework.crops.loader import all_sheets, load_sheet
from spadework.crops.overrides import apply_overrides
from spadework.science.emergence import emergence_at

CROPS = sorted(all_sheets())


@pytest.mark.parametrize("crop", CROPS)
def test_warmer_soil_never_delays_up_to_the_optimum(crop: str) -> None:
    sheet = load_sheet(crop)
    soils = np.arange(4.0, sheet.emergence.optimum_c.value + 0.1, 1.0)
    days = sprout(sheet, soil_ground(soils), Sowing(0)).median_day
    assert (np.diff(days) <= 0).all()
    assert days[-1] < days[0]


@pytest.mark.parametrize("crop", ["carrot", "onion", "pea", "bush-bean", "tomato", "lettuce"])
def test_even_soil_agrees_with_the_plain_law(crop: str) -> None:
    sheet = apply_overrides(load_sheet(crop), {"emergence.field_sum_factor": 1.0}, "test")
    for soil_c in (12.0, 16.0, 20.0):
        plain = emergence_at(soil_c, sheet.emergence.law(), 13.0).median_days
        assert plain is not None
        ground = soil_ground(soil_c)
        sprouted = sprout(sheet, ground, Sowing(0, depth_mm=13.0))
        # by the end of day n, counted from 0, n + 1 days are gathered; the table is read between its nodes
        assert sprouted.median_day[0] + 1 == pytest.approx(np.ceil(plain), abs=1)
        at = sprouted.progress[0, int(plain)] / (int(plain) + 1)
        assert at == pytest.approx(1.0 / plain, rel=0.01)


@pytest.mark.parametrize("crop", CROPS)
def test_depth_delays(crop: str) -> None:
    sheet = load_sheet(crop)
    need = [field_requirement_cd(sheet, depth) for depth in (5.0, 13.0, 30.0, 60.0)]
    assert need == sorted(need)
    assert need[0] < need[-1]
    ground = soil_ground(sheet.emergence.optimum_c.value - 5.0)
    shallow, deep = (sprout(sheet, ground, Sowing(0, depth_mm=depth)) for depth in (10.0, 60.0))
    assert deep.median_day[0] >= shallow.median_day[0]
    assert deep.progress[0, 20] < shallow.progress[0, 20]


def test_no_depth_given_is_the_sheets_own() -> None:
    sheet = load_sheet("pea")
    assert field_requirement_cd(sheet, None) == field_requirement_cd(sheet, sheet.sowing.depth_mm.value)


@pytest.mark.parametrize("crop", ["carrot", "onion", "beet", "bush-bean", "spinach"])
def test_rain_alone_is_never_quicker_than_water(crop: str) -> None:
    ground = champion_ground(date(2018, 4, 1), 120)
    for day in (0, 30, 60):
        watered = sprout(load_sheet(crop), ground, Sowing(day))
        rain_only = sprout(load_sheet(crop), ground, Sowing(day, watered=False))
        assert (rain_only.median_day >= watered.median_day).all()
        assert (rain_only.progress <= watered.progress + 1e-12).all()
    # a continental summer does leave dry seed lying
    assert (rain_only.median_day > watered.median_day).any()


def test_a_later_sowing_starts_from_nothing() -> None:
    ground = champion_ground(date(2018, 4, 1), 120)
    late = sprout(load_sheet("carrot"), ground, Sowing(40))
    assert (late.progress[:, :40] == 0).all()
    assert (late.progress[:, 40] > 0).any()
    assert (late.share_up[:, :40] == 0).all()


@pytest.mark.parametrize("crop", ["lettuce", "head-lettuce", "spinach"])
def test_hot_soil_lets_up_fewer(crop: str) -> None:
    able = sprout(load_sheet(crop), soil_ground([14.0, 22.0, 27.0, 31.0]), Sowing(0)).able
    assert (np.diff(able[1:]) < 0).all()
    assert able[3] < 0.35 * able[0]


@pytest.mark.parametrize("crop", ["bush-bean", "pole-bean", "runner-bean", "lima-bean"])
def test_beans_fail_in_cold_soil(crop: str) -> None:
    able = sprout(load_sheet(crop), soil_ground([8.0, 11.0, 15.0, 20.0]), Sowing(0)).able
    assert (np.diff(able[:3]) > 0).all()
    assert able[1] < 0.5 * able[2]
    assert able[3] > 0.9 * able[2]


def test_cold_wet_soil_rots_beans_and_dry_cold_soil_does_not() -> None:
    sheet = load_sheet("bush-bean")
    mean_c = sheet.emergence.rot_c.value - 2.0  # type: ignore[union-attr]
    wet = sprout(sheet, soil_ground(mean_c, rain_mm=8.0), Sowing(10, watered=False)).able[0]
    kept_damp = sprout(sheet, soil_ground(mean_c), Sowing(10)).able[0]
    dry = sprout(sheet, soil_ground(mean_c, half_range_c=4.0), Sowing(60, watered=False)).able[0]
    assert wet == pytest.approx(kept_damp, rel=0.05)
    assert wet < 0.8 * dry


def test_tested_germination_moves_the_able_share_and_is_capped() -> None:
    sheet = load_sheet("carrot")
    assert able_share(sheet, 0.4) == pytest.approx(0.4 * sheet.sowing.field_factor.value)
    assert able_share(sheet, None) == pytest.approx(
        sheet.sowing.lot_germination_pct.value / 100.0 * sheet.sowing.field_factor.value
    )
    assert able_share(sheet, 5.0) == 0.99
    ground = soil_ground(15.0)
    poor, good = (sprout(sheet, ground, Sowing(0, germination=g)) for g in (0.3, 0.9))
    assert poor.able[0] == pytest.approx(good.able[0] / 3.0)
    assert poor.median_day[0] == good.median_day[0]


@pytest.mark.parametrize("crop", ["carrot", "parsnip", "tomato", "bush-bean"])
def test_share_up_rises_to_the_able_share_and_no_further(crop: str) -> None:
    found = sprout(load_sheet(crop), champion_ground(date(2018, 4, 1), 200), Sowing(20))
    assert (np.diff(found.share_up, axis=-1) >= -1e-12).all()
    assert (found.share_up <= found.able[:, None] + 1e-12).all()
    assert found.share_up[:, -1] == pytest.approx(found.able, rel=0.02)
    at_median = found.share_up[np.arange(found.able.size), found.median_day] / found.able
    assert (at_median >= 0.5 - 1e-3).all()
    assert np.median(at_median) < 0.7


def test_a_sowing_may_be_quicker_or_slower_than_usual() -> None:
    found = sprout(load_sheet("parsnip"), champion_ground(date(2018, 4, 1), 200), Sowing(0))
    assert (found.quick_day < found.median_day).all()
    assert (found.median_day < found.slow_day).all()


def test_seed_in_frozen_soil_never_comes_up() -> None:
    ground = soil_ground(-2.0, days=60)
    found = sprout(load_sheet("tomato"), ground, Sowing(5))
    assert found.median_day[0] == 60
    assert np.isfinite(found.able).all()
    assert found.share_up.max() < 0.01
