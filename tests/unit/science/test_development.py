"""Day length, winter cold, bolting, stages."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from spadework.errors import ParameterError
from spadework.science import development


def test_day_length_ramps() -> None:
    hours = np.array([10.0, 12.0, 13.0, 14.0, 18.0, np.nan])
    long = development.long_day_factor(hours, 12.0, 14.0)
    short = development.short_day_factor(hours, 14.0, 12.0)
    assert long[:5].tolist() == [0.0, 0.0, 0.5, 1.0, 1.0]
    assert short[:5].tolist() == [1.0, 1.0, 0.5, 0.0, 0.0]
    assert np.isnan(long[5])
    assert np.isnan(short[5])
    with pytest.raises(ParameterError, match="must be the shorter"):
        development.long_day_factor(hours, 14.0, 12.0)
    with pytest.raises(ParameterError, match="must be the longer"):
        development.short_day_factor(hours, 12.0, 14.0)


def test_cold_units_peak_at_the_optimum() -> None:
    """Carrot, -1.0, 6.5, 16.0 C (ATHERTON1990)."""
    steady = development.vernalisation_units_cday(
        np.array([-1.0, 2.75, 6.5, 11.25, 16.0]), 0.0, -1.0, 6.5, 16.0
    )
    assert steady == pytest.approx([0.0, 3.75, 7.5, 3.75, 0.0], abs=1e-9)
    swinging = development.vernalisation_units_cday(20.0, 8.0, -1.0, 6.5, 16.0)
    assert 0 < float(swinging) < 1
    assert np.isnan(development.vernalisation_units_cday(np.nan, 5.0, -1.0, 6.5, 16.0))


def _by_hand(units: np.ndarray, mean: np.ndarray, above: float, removal: float) -> list[float]:
    state, course = 0.0, []
    for unit, temp in zip(units, mean, strict=True):
        state = max(state + unit - (removal if temp > above else 0.0), 0.0)
        course.append(state)
    return course


@given(
    arrays(np.float64, 40, elements=st.floats(0, 8)),
    arrays(np.float64, 40, elements=st.floats(-5, 30)),
    st.floats(0, 10),
)
def test_state_equals_the_day_by_day_account(units: np.ndarray, mean: np.ndarray, removal: float) -> None:
    got = development.vernalisation_state(units, mean, 18.0, removal)
    assert got.tolist() == pytest.approx(_by_hand(units, mean, 18.0, removal), abs=1e-9)


def test_state_without_removal_is_a_sum_and_keeps_gaps() -> None:
    units = np.array([[1.0, 2.0, 3.0], [1.0, np.nan, 3.0]])
    state = development.vernalisation_state(units, np.full(3, 25.0))
    assert state[0].tolist() == [1.0, 3.0, 6.0]
    assert np.isnan(state[1]).tolist() == [False, True, True]
    assert np.isnan(
        development.vernalisation_state(units[0], np.array([1.0, np.nan, 1.0]), 18.0, 0.5)[1:]
    ).all()
    with pytest.raises(ParameterError):
        development.vernalisation_state(units, 0.0, 18.0, -1.0)


def test_bolting_passes_through_its_two_points() -> None:
    share = development.bolting_share(np.array([0.0, 126.0, 336.0, 1e6]), 126.0, 336.0)
    assert share == pytest.approx([0.0, 0.05, 0.90, 1.0], abs=1e-9)
    assert np.isnan(development.bolting_share(np.nan, 126.0, 336.0))
    doses = development.bolting_share(np.linspace(0, 800, 200), 126.0, 336.0)
    assert (np.diff(doses) >= 0).all()
    with pytest.raises(ParameterError):
        development.bolting_share(100.0, 336.0, 126.0)


def test_stage() -> None:
    shares = {1: 0.0, 4: 0.4, 6: 0.7, 8: 1.0}
    way = np.array([[-0.2, 0.0, 0.39], [0.4, 0.99, 3.0]])
    assert development.stage_of(way, shares).tolist() == [[0, 1, 1], [4, 6, 8]]
    assert development.stage_of(0.5, {}).tolist() == 0
    with pytest.raises(ParameterError, match=r"4 at 0\.4, 6 at 0\.2"):
        development.stage_of(way, {4: 0.4, 6: 0.2})
    with pytest.raises(ParameterError, match="not a number"):
        development.stage_of(np.array([0.1, np.nan]), shares)


def test_chilled_share_of_a_day() -> None:
    got = development.chilled_share_of_day(
        np.array([0.0, 0.0, 10.0, 12.0, 3.0, 9.0]), np.array([20.0, 8.0, 20.0, 12.0, 3.0, np.nan]), 10.0
    )
    assert got[:5] == pytest.approx([0.5, 1.0, 0.0, 0.0, 1.0])
    assert np.isnan(got[5])
    wave = 5.0 + 10.0 * np.sin(2 * np.pi * (np.arange(10000) + 0.5) / 10000)
    assert float(development.chilled_share_of_day(-5.0, 15.0, 8.0)) == pytest.approx(
        (wave < 8.0).mean(), abs=1e-3
    )


def test_cold_wind_takes_growth_only_where_it_is_both_cold_and_windy() -> None:
    lost = development.cold_wind_check([8.0, 8.0, 18.0, 8.0], [7.0, 2.0, 7.0, np.nan])
    assert lost.tolist() == [0.5, 0.0, 0.0, 0.0]
