"""Soil temperature: the two stores, gaps, and the wave at depth."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.science import soil

GRASS = soil.SURFACES["grass"]


def _day_by_day(air: np.ndarray, sun_mj: np.ndarray, surface: soil.Surface) -> np.ndarray:
    target = air + surface.a_c + surface.b_c_per_mj * sun_mj
    fast = slow = target[:7].mean()
    out = []
    for value in target:
        fast += surface.kf * (value - fast)
        slow += surface.ks * (value - slow)
        out.append((1 - surface.w) * fast + surface.w * slow)
    return np.array(out)


@pytest.mark.parametrize("key", sorted(soil.SURFACES))
@pytest.mark.parametrize("days", [1, 6, 31, 32, 33, 300])
def test_blocks_equal_a_loop_over_days(key: str, days: int) -> None:
    rng = np.random.default_rng(days)
    air, sun_mj = rng.normal(10, 8, (3, 2, days)), rng.uniform(0, 30, (3, 2, days))
    blocks = soil.seed_zone_mean_c(air, sun_mj, soil.SURFACES[key])
    for index in np.ndindex(3, 2):
        loop = _day_by_day(air[index], sun_mj[index], soil.SURFACES[key])
        assert blocks[index] == pytest.approx(loop, abs=1e-10)


def test_constant_weather_gives_its_equilibrium() -> None:
    mean = soil.seed_zone_mean_c(np.full(40, 12.0), np.full(40, 20.0), GRASS)
    assert mean == pytest.approx(np.full(40, 12.0 - 1.25 + 0.176 * 20.0))


@given(shift=st.floats(-15.0, 15.0))
def test_warmer_air_warms_the_soil_by_as_much(shift: float) -> None:
    rng = np.random.default_rng(1)
    air, sun_mj = rng.normal(10, 5, 60), rng.uniform(2, 25, 60)
    change = soil.seed_zone_mean_c(air + shift, sun_mj, GRASS) - soil.seed_zone_mean_c(air, sun_mj, GRASS)
    assert change == pytest.approx(np.full(60, shift))


def test_missing_days_stay_missing_and_heal() -> None:
    rng = np.random.default_rng(2)
    air, sun_mj = rng.normal(10, 4, (2, 120)), np.full((2, 120), 15.0)
    whole = soil.seed_zone_mean_c(air, sun_mj, GRASS)
    holed = air.copy()
    holed[0, 50:53] = np.nan
    with_gap = soil.seed_zone_mean_c(holed, sun_mj, GRASS)
    assert np.isnan(with_gap[0, 50:53]).all()
    assert np.isnan(with_gap).sum() == 3
    assert with_gap[1] == pytest.approx(whole[1])
    assert with_gap[0, :50] == pytest.approx(whole[0, :50])
    assert with_gap[0, 85:] == pytest.approx(whole[0, 85:], abs=0.1)


def test_missing_at_the_edges_and_altogether() -> None:
    air = np.full((3, 20), 10.0)
    air[0, :9] = np.nan
    air[1, 12:] = np.nan
    air[2] = np.nan
    mean = soil.seed_zone_mean_c(air, np.zeros(20), GRASS)
    assert np.isnan(mean) == pytest.approx(np.isnan(air))
    assert mean[0, 9:] == pytest.approx(np.full(11, 8.75))
    assert mean[1, :12] == pytest.approx(np.full(12, 8.75))


def test_no_days() -> None:
    assert soil.seed_zone_mean_c(np.empty((2, 0)), np.empty((2, 0)), GRASS).shape == (2, 0)
    with pytest.raises(ParameterError, match="run of days"):
        soil.seed_zone_mean_c(10.0, 15.0, GRASS)


def test_inputs_are_left_alone() -> None:
    air = np.array([1.0, np.nan, 3.0])
    soil.seed_zone_mean_c(air, np.zeros(3), GRASS)
    assert np.isnan(air[1])


def test_surfaces_rank_as_a_grower_expects() -> None:
    air, sun_mj = np.full(60, 12.0), np.full(60, 20.0)
    end = {key: soil.seed_zone_mean_c(air, sun_mj, value)[-1] for key, value in soil.SURFACES.items()}
    assert end["mulch"] < end["grass"] < end["bare-moist"] < end["bare-dry"]
    assert end["bare-moist"] < end["raised-bed"] < end["pot-black"]
    assert 2.0 <= end["black-film"] - end["bare-moist"] <= 3.0
    assert 4.0 <= end["clear-film"] - end["bare-moist"] <= 6.0


def test_a_raised_bed_and_a_pot_answer_sooner() -> None:
    air = np.r_[np.full(40, 8.0), np.full(3, 16.0)]
    gained = {}
    for key in ("grass", "raised-bed", "pot-black"):
        mean = soil.seed_zone_mean_c(air, np.zeros(43), soil.SURFACES[key])
        gained[key] = mean[-1] - mean[39]
    assert gained["grass"] < gained["raised-bed"] < gained["pot-black"] < 8.0


def test_every_surface_says_where_it_comes_from() -> None:
    for surface in soil.SURFACES.values():
        assert surface.provenance in {"measured", "memory"}
        assert surface.source
        assert 0.0 < surface.kf <= 1.0
        assert 0.0 < surface.ks < surface.kf
        assert surface.offset_sd_c == (1.55 if surface is GRASS else 2.0)


def test_wave_shrinks_by_e_over_a_damping_depth() -> None:
    shallow, deep = soil.daily_amplitude_c(5.0, 19.0, 18.0, [5.0, 15.0], soil.SURFACES["bare-dry"])
    assert shallow == pytest.approx(0.79 * 7.0 + 0.24 * 18.0)
    assert shallow / deep == pytest.approx(np.e)
    assert soil.wave_lag_h(10.0) == pytest.approx(24.0 / (2.0 * np.pi))


def test_wave_refusals_and_missing() -> None:
    with pytest.raises(ParameterError, match="above ground"):
        soil.daily_amplitude_c(5.0, 19.0, 18.0, -1.0, GRASS)
    with pytest.raises(ParameterError, match="damps nothing"):
        soil.wave_lag_h(5.0, 0.0)
    with pytest.raises(ParameterError, match="above maximum"):
        soil.daily_amplitude_c(19.0, 5.0, 18.0, 2.0, GRASS)
    assert np.isnan(soil.daily_amplitude_c([5.0, np.nan], [9.0, 9.0], [np.nan, 5.0], 2.0, GRASS)).all()
