"""Temperature responses, their mean over the daily wave, and the tables that stand in for it."""

from __future__ import annotations

import time
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from long_records import climate
from spadework.errors import ParameterError
from spadework.science.response import (
    ResponseTable,
    beta,
    over_daily_wave,
    response_table,
    trapezoid,
    triangle,
)

CURVES = {
    "beta": lambda t: beta(t, 4, 26, 36),
    "triangle": lambda t: triangle(t, 4, 26, 36),
    "trapezoid": lambda t: trapezoid(t, 4, 22, 28, 36),
}


@pytest.mark.parametrize(
    ("temp", "rate"), [(8, 0.0658), (10, 0.1491), (15, 0.4570), (20, 0.7941), (26, 1.0), (30, 0.8665)]
)
def test_beta_at_published_temperatures(temp: float, rate: float) -> None:
    """Cardinals 4, 26, 36 C in the three-parameter form of Yan and Hunt, 1999 (S-DEVRATE): computed."""
    assert float(beta(temp, 4, 26, 36)) == pytest.approx(rate, abs=0.00005)


@pytest.mark.parametrize("curve", CURVES.values(), ids=CURVES)
def test_shape(curve: Any) -> None:
    assert float(curve(26.0)) == 1.0
    assert curve(np.array([-10.0, 4.0, 36.0, 50.0])).tolist() == [0.0] * 4
    rise, fall = curve(np.linspace(4, 22, 50)), curve(np.linspace(28, 36, 50))
    assert (np.diff(rise) > 0).all()
    assert (np.diff(fall) < 0).all()
    assert np.isnan(curve(np.array([np.nan]))).all()


@pytest.mark.parametrize(
    "call",
    [
        lambda: triangle(10, 20, 15, 30),
        lambda: trapezoid(10, 5, 20, 18, 30),
        lambda: trapezoid(10, 5, 20, 30, 30),
        lambda: beta(10, 5, 5, 30),
        lambda: over_daily_wave(CURVES["beta"], 10, 5, steps=7),
        lambda: response_table("beta", 1.0, 2.0, 3.0, 4.0),
    ],
)
def test_refusals(call: Any) -> None:
    with pytest.raises(ParameterError):
        call()


def test_integral_over_the_wave_is_not_the_value_at_the_mean() -> None:
    assert float(over_daily_wave(CURVES["beta"], 10, 8)) == pytest.approx(0.2463, abs=0.0005)
    assert float(beta(10, 4, 26, 36)) == pytest.approx(0.1491, abs=0.0001)


@given(st.floats(-10, 40), st.floats(0, 15))
def test_wave_equals_fine_integration(mean: float, half: float) -> None:
    fine = mean + half * np.sin(2 * np.pi * (np.arange(4000) + 0.5) / 4000)
    for curve in CURVES.values():
        assert float(over_daily_wave(curve, mean, half)) == pytest.approx(curve(fine).mean(), abs=0.004)


def test_table_holds_the_integral_at_its_nodes() -> None:
    table = ResponseTable.build(CURVES["beta"])
    for mean, half in ((10.0, 8.0), (-3.5, 12.5), (25.0, 0.0), (60.0, 25.0), (-40.0, 0.0)):
        assert float(table(mean, half)) == pytest.approx(
            float(over_daily_wave(CURVES["beta"], mean, half)), abs=1e-12
        )


def test_table_on_a_real_season() -> None:
    record = climate("champion")
    season = (record["month"] >= 4) & (record["month"] <= 10)
    mean = (record["tmin_c"] + record["tmax_c"])[season] / 2
    half = (record["tmax_c"] - record["tmin_c"])[season] / 2
    for curve in CURVES.values():
        table, exact = ResponseTable.build(curve)(mean, half), over_daily_wave(curve, mean, half)
        assert np.abs(table - exact).max() < 0.02
        assert abs(table.sum() / exact.sum() - 1) < 3e-4


def test_table_beyond_its_grid_takes_the_edge() -> None:
    table = ResponseTable.build(lambda t: np.asarray(t) * 0.0 + 1.0)
    far = [table(mean, half) for mean, half in ((-90, 5), (90, 5), (20, 80), (np.inf, 5), (20, -1))]
    assert [float(one) for one in far] == [1.0] * 5
    slope = ResponseTable.build(lambda t: t)
    assert float(slope(-90, 5)) == pytest.approx(-40.0)
    assert float(slope(90, 5)) == pytest.approx(60.0)


def test_table_keeps_missing_days_missing() -> None:
    table = ResponseTable.build(CURVES["beta"])
    got = table(np.array([20.0, np.nan, 20.0, np.nan]), np.array([5.0, 5.0, np.nan, np.nan]))
    assert np.isnan(got).tolist() == [False, True, True, True]


def test_table_broadcasts_and_sees_no_block_edges() -> None:
    table, rng = ResponseTable.build(CURVES["trapezoid"]), np.random.default_rng(1)
    mean, half = rng.normal(15, 8, (3, 1, 9000)), rng.uniform(0, 12, (1, 4, 9000))
    whole = table(mean, half)
    assert whole.shape == (3, 4, 9000)
    for year, crop, day in ((0, 0, 0), (1, 2, 5461), (2, 3, 8999), (0, 1, 7384)):
        assert whole[year, crop, day] == float(table(mean[year, 0, day], half[0, crop, day]))


def test_weights_read_many_tables_as_calls_do() -> None:
    tables, rng = [ResponseTable.build(curve) for curve in CURVES.values()], np.random.default_rng(2)
    mean, half = rng.normal(15, 20, 400), rng.uniform(-2, 30, 400)
    mean[7] = np.nan
    weights = tables[0].weights(mean, half)
    for table in tables:
        np.testing.assert_allclose(weights @ table.values.ravel(), table(mean, half), atol=1e-12)


def test_cached_builder_keeps_its_tables() -> None:
    assert response_table("beta", 4.0, 26.0, 36.0) is response_table("beta", 4.0, 26.0, 36.0)
    assert float(response_table("triangle", -1.0, 6.5, 16.0)(6.5, 0.0)) == pytest.approx(1.0)
    assert float(response_table("trapezoid", 4.0, 20.0, 28.0, 36.0)(24.0, 0.0)) == 1.0


def test_look_up_is_fast_enough() -> None:
    """Regression guard with room for a busy machine; the figure itself belongs to the benchmarks."""
    table, rng = ResponseTable.build(CURVES["beta"]), np.random.default_rng(0)
    mean, half = rng.normal(12, 9, 400_000), rng.uniform(1, 10, 400_000)
    table(mean, half)
    best = min(_seconds(table, mean, half) for _ in range(5))
    assert best / mean.size < 200e-9


def _seconds(table: ResponseTable, mean: Any, half: Any) -> float:
    start = time.process_time()
    table(mean, half)
    return time.process_time() - start
