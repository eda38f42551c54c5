"""Seedbed water and crust."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from spadework.errors import ParameterError
from spadework.science import soil_water

SEASON = arrays(np.float64, 40, elements=st.floats(0.0, 25.0))


def test_days_from_full_to_a_fifth() -> None:
    dry = np.zeros(30)
    days = [
        int(np.argmax(soil_water.seedbed_wetness(dry, np.full(30, et0)) < 0.2)) + 1 for et0 in (1.5, 3, 5)
    ]
    assert days == [12, 6, 4]


def test_stage_one_runs_at_full_speed() -> None:
    wet = soil_water.seedbed_wetness(np.zeros(3), np.full(3, 3.0))
    assert 1.0 - wet == pytest.approx(np.array([3.0, 6.0, 9.0]) / 19.0, rel=0.05)


def test_sand_dries_before_clay() -> None:
    dry, et0 = np.zeros(4), np.full(4, 3.0)
    sand, clay = (
        soil_water.seedbed_wetness(dry, et0, soil=soil_water.SEEDBED_SOILS[name])[-1]
        for name in ("sand", "clay")
    )
    assert sand < 0.1 < 0.5 < clay


def test_rain_fills_and_overflows() -> None:
    wet = soil_water.seedbed_wetness([0.0, 60.0, 0.0], [0.0, 0.0, 0.0], start_share=0.0)
    assert wet == pytest.approx([0.0, 1.0, 1.0])


@given(rain=SEASON, et0=SEASON)
def test_stays_a_share_and_more_rain_is_never_drier(rain: np.ndarray, et0: np.ndarray) -> None:
    wet = soil_water.seedbed_wetness(rain, et0)
    assert np.all((wet >= 0.0) & (wet <= 1.0))
    assert np.all(soil_water.seedbed_wetness(rain + 1.0, et0) >= wet - 1e-12)


def test_broadcasting_equals_a_loop() -> None:
    rng = np.random.default_rng(4)
    rain, et0 = rng.exponential(2.0, (3, 2, 50)), rng.uniform(0, 6, 50)
    start = rng.uniform(0, 1, (3, 2))
    grid = soil_water.seedbed_wetness(rain, et0, start_share=start)
    for index in np.ndindex(3, 2):
        row = soil_water.seedbed_wetness(rain[index], et0, start_share=start[index])
        assert np.array_equal(grid[index], row)


def test_missing_weather_stays_missing_and_the_store_stands_still() -> None:
    wet = soil_water.seedbed_wetness([0.0, np.nan, 0.0], [2.0, 2.0, 0.0])
    assert np.isnan(wet[1])
    assert wet[2] == pytest.approx(wet[0])


def test_split_season_equals_one_run() -> None:
    rng = np.random.default_rng(5)
    rain, et0 = rng.exponential(2.0, 40), rng.uniform(0, 6, 40)
    whole = soil_water.seedbed_wetness(rain, et0)
    late = soil_water.seedbed_wetness(rain[20:], et0[20:], start_share=whole[19])
    assert late == pytest.approx(whole[20:])


def _baking(washed_on: int, days: int = 14) -> tuple[np.ndarray, np.ndarray]:
    rain, et0 = np.zeros(days), np.full(days, 4.0)
    rain[washed_on] = 15.0
    return rain, et0


def test_a_crust_sets_on_the_third_drying_day_and_softens() -> None:
    rain, et0 = _baking(2)
    rain[9] = 6.0
    assert np.flatnonzero(soil_water.crusted(rain, et0)).tolist() == [5, 6, 7, 8]
    factor = soil_water.crust_factor(rain, et0, factor=0.5)
    assert factor == pytest.approx(np.where(np.isin(np.arange(14), [5, 6, 7, 8]), 0.5, 1.0))


def test_no_crust_without_beating_rain_or_without_baking() -> None:
    rain, et0 = _baking(2)
    assert not soil_water.crusted(np.minimum(rain, 9.0), et0).any()
    assert not soil_water.crusted(rain, np.full(14, 2.0)).any()
    assert not soil_water.crusted(np.where(np.arange(14) > 2, 2.0, rain), et0).any()


def test_dull_days_between_rain_and_sun() -> None:
    rain, et0 = _baking(2)
    et0[3:5] = 1.0
    assert np.flatnonzero(soil_water.crusted(rain, et0))[0] == 7
    et0[3:6] = 1.0
    assert not soil_water.crusted(rain, et0).any()


def test_what_fell_before_sowing_was_raked_in() -> None:
    rain, et0 = _baking(2)
    assert soil_water.crusted(rain, et0, sown_day=2).any()
    assert not soil_water.crusted(rain, et0, sown_day=3).any()


def test_missing_days_neither_set_nor_hide() -> None:
    rain, et0 = _baking(2)
    rain[4] = np.nan
    assert np.isnan(soil_water.crust_factor(rain, et0)[4])
    assert not soil_water.crusted(rain, et0)[5]


def test_crust_by_rows_equals_a_loop() -> None:
    rng = np.random.default_rng(6)
    rain = np.where(rng.random((20, 60)) < 0.25, rng.exponential(10.0, (20, 60)), 0.0)
    et0 = rng.uniform(1.0, 6.0, (20, 60))
    grid = soil_water.crust_factor(rain, et0, sown_day=5)
    assert (grid < 1.0).any()
    for row in range(20):
        assert np.array_equal(grid[row], soil_water.crust_factor(rain[row], et0[row], sown_day=5))


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="run of days"):
        soil_water.seedbed_wetness(1.0, 2.0)
    with pytest.raises(ParameterError, match="below zero"):
        soil_water.seedbed_wetness([-1.0], [2.0])
    with pytest.raises(ParameterError, match="share from 0 to 1"):
        soil_water.seedbed_wetness([1.0], [2.0], start_share=1.5)
    with pytest.raises(ParameterError, match="Sowing day 9"):
        soil_water.crusted([0.0], [1.0], sown_day=9)
    with pytest.raises(ParameterError, match="no share"):
        soil_water.crust_factor([0.0], [1.0], factor=2.0)
