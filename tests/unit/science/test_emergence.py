"""Mechanics of the emergence law: order, limits, depth, gate, spread."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.science import emergence
from spadework.science.emergence import EmergenceLaw

LAW = EmergenceLaw(3.8, 116.0, 26.5, 28.8, 42.3, 95.3, 5.0, 1.15, 36.0, 0.82, 1.0)
BEAN = EmergenceLaw(7.0, 138.0, 31.2, 34.8, 39.0, 98.0, 11.9, 0.52, 31.7, 3.51, 0.5)


@given(st.floats(-10, 26.5), st.floats(0, 10))
def test_warmer_never_delays_below_the_optimum(temp: float, more: float) -> None:
    warmer = min(temp + more, LAW.optimum_c)
    assert float(emergence.warmth_c(warmer, LAW)) >= float(emergence.warmth_c(temp, LAW)) - 1e-12
    both = [emergence.emergence_at(t, LAW).median_days for t in (temp, warmer)]
    if both[0] is not None:
        assert both[1] is not None
        assert both[1] <= both[0] + 1e-9


def test_the_rate_is_a_straight_line_well_above_the_base_and_soft_below() -> None:
    assert float(emergence.warmth_c(20.0, LAW)) == pytest.approx(16.2, abs=0.01)
    assert float(emergence.warmth_c(LAW.base_c, LAW)) == pytest.approx(emergence.TOE_CDELTA * np.log(2))
    assert 0 < float(emergence.warmth_c(0.0, LAW)) < 1


def test_level_then_falling_then_nothing() -> None:
    assert float(emergence.warmth_c(27.0, LAW)) == float(emergence.warmth_c(28.8, LAW))
    down = emergence.warmth_c(np.linspace(28.8, 42.3, 20), LAW)
    assert (np.diff(down) < 0).all()
    assert emergence.warmth_c(np.array([42.3, 50.0]), LAW).tolist() == [0.0, 0.0]
    assert float(emergence.percent_normal(42.3, LAW)) == 0.0


def test_reasons() -> None:
    assert "too hot" in str(emergence.emergence_at(43.0, LAW).reason)
    assert "too cold" in str(emergence.emergence_at(5.0, BEAN).reason)
    assert "too cold: fewer than 5" in str(emergence.emergence_at(-5.0, LAW).reason)
    slow = replace(LAW, sum_cd=400.0, cold_half_c=-20.0)
    assert "more than 200 days" in str(emergence.emergence_at(0.0, slow).reason)
    ready = emergence.emergence_at(20.0, LAW)
    assert ready.reason is None
    assert ready.median_days == pytest.approx(7.16, abs=0.01)
    with pytest.raises(ParameterError, match="not a number"):
        emergence.emergence_at(float("nan"), LAW)


def test_array_of_days_equals_one_by_one_and_keeps_gaps() -> None:
    temps = np.array([[-5.0, 0.0, 5.0, np.nan], [15.0, 30.0, 40.0, 43.0]])
    days = emergence.emergence_days(temps, LAW)
    for place in np.ndindex(temps.shape):
        one = None if np.isnan(temps[place]) else emergence.emergence_at(float(temps[place]), LAW).median_days
        assert (np.isnan(days[place]) and one is None) or days[place] == one
    assert np.isnan(emergence.percent_normal(np.nan, LAW))


def test_depth() -> None:
    assert float(emergence.requirement_cd(LAW)) == 116.0
    assert float(emergence.requirement_cd(LAW, 33.0)) == 136.0
    assert float(emergence.requirement_cd(BEAN, 50.0)) == pytest.approx(138 + 37 * 0.5)
    assert float(emergence.requirement_cd(replace(LAW, depth_cost_cd_mm=12.0), 0.0)) == 29.0
    deep = emergence.emergence_days(15.0, LAW, np.array([5.0, 13.0, 25.0, 60.0]))
    assert (np.diff(deep) > 0).all()
    with pytest.raises(ParameterError, match="-2 mm"):
        emergence.requirement_cd(LAW, -2.0)


@pytest.mark.parametrize(
    "wrong",
    [
        {"base_c": 27.0},
        {"shoulder_c": 26.0},
        {"ceiling_c": 28.8},
        {"sum_cd": 0.0},
        {"best_pct": 101.0},
        {"cold_width_c": 0.0},
        {"depth_cost_cd_mm": -1.0},
        {"base_c": float("nan")},
    ],
)
def test_parameters_out_of_order_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(ParameterError):
        replace(LAW, **wrong)


def test_percent_shape_for_a_crop_without_a_table() -> None:
    shape = emergence.default_percent_shape(2.0, 26.0, 36.0)
    law = EmergenceLaw(2.0, 110.0, 26.0, 29.0, 36.0, 90.0, **shape)
    percent = emergence.percent_normal(np.array([0.0, 10.0, 20.0, 26.0, 32.0, 36.0]), law)
    assert percent[0] < 10
    assert (percent[1:4] > 85).all()
    assert percent[4] == pytest.approx(45, abs=1)
    assert percent[5] == 0
    with pytest.raises(ParameterError):
        emergence.default_percent_shape(26.0, 20.0, 36.0)


def test_gate_and_progress() -> None:
    gate = emergence.wet_gate(np.array([0.0, 0.19, 0.2, 1.0, np.nan]))
    assert gate[:4].tolist() == [0.0, 0.0, 1.0, 1.0]
    assert np.isnan(gate[4])
    done = emergence.progress(
        np.full((2, 5), 0.1), np.array([[1.0, 0.0, 0.0, 1.0, 1.0], [1.0, np.nan, 1, 1, 1]])
    )
    assert done[0] == pytest.approx([0.1, 0.1, 0.1, 0.2, 0.3])
    assert np.isnan(done[1, 1:]).all()


def test_share_emerged() -> None:
    assert emergence.share_emerged(np.array([0.0, 1.0, 1e9])).tolist() == pytest.approx([0.0, 0.5, 1.0])
    assert float(emergence.share_emerged(np.exp(0.25), 0.25)) == pytest.approx(0.8413, abs=1e-4)
    late = emergence.share_emerged(1.0, 0.25, np.array([-0.2, 0.0, 0.2]))
    assert (np.diff(late) < 0).all()
    assert np.isnan(emergence.share_emerged(np.nan))
    with pytest.raises(ParameterError):
        emergence.share_emerged(1.0, 0.0)


def test_weighted_mean_follows_the_days_that_move() -> None:
    rate = np.array([0.0, 0.5, 0.25, 0.25, 0.5])
    mean = emergence.progress_weighted(np.array([5.0, 80.0, 40.0, 40.0, 0.0]), rate)
    assert np.isnan(mean[0])
    assert mean[1:].tolist() == pytest.approx([80.0, 200 / 3, 60.0, 60.0])


def test_cold_wet_soil_rots_seed_and_dry_or_warm_soil_does_not() -> None:
    days = np.ones(20)
    waiting = 0.0 * days

    def sound(mean_c: float, wet: float, done: float = 0.0) -> float:
        kept = emergence.rot_survival(mean_c * days, wet * days, waiting + done, 12.0)
        assert (np.diff(kept) <= 0).all()
        return float(kept[-1])

    assert sound(8.0, 1.0) == pytest.approx(np.exp(-0.012 * 4 * 20))
    assert sound(8.0, 0.4) == sound(13.0, 1.0) == sound(8.0, 1.0, done=1.0) == 1.0
    assert sound(6.0, 1.0) < sound(9.0, 1.0)
    gap = emergence.rot_survival(np.array([8.0, np.nan, 8.0]), np.ones(3), np.zeros(3), 12.0)
    assert np.isnan(gap).tolist() == [False, True, True]
