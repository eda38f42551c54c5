"""Degree-days: against numerical integration, limits, refusals, and what must hold for any weather."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.science.degree_days import (
    CUTOFFS,
    METHODS,
    Cutoff,
    Method,
    degree_days,
    mean_excess_cdelta,
    next_minimum_c,
)

ASKED: list[tuple[Method, Cutoff]] = [
    (method, cutoff)
    for method in METHODS
    for cutoff in CUTOFFS
    if "average" not in method or cutoff in ("none", "horizontal")
]
temps = st.floats(-30, 50)


def _asked(tmin: Any, tmax: Any, method: Method, cutoff: Cutoff, later: Any = None) -> Any:
    later = np.asarray(tmin) if later is None and method.startswith("double") else later
    return degree_days(tmin, tmax, 10.0, 30.0, method, cutoff, later)


@given(temps, st.floats(0, 30))
def test_sine_equals_the_integral(tmin: float, swing: float) -> None:
    tmax = tmin + swing
    wave = (tmin + tmax) / 2 + swing / 2 * np.sin(2 * np.pi * (np.arange(20000) + 0.5) / 20000)
    assert float(mean_excess_cdelta(tmin, tmax, 10.0)) == pytest.approx(
        np.maximum(wave - 10.0, 0).mean(), abs=1e-5
    )
    inside = np.where(wave > 30.0, 0.0, np.maximum(wave - 10.0, 0)).mean()
    assert float(_asked(tmin, tmax, "single-sine", "vertical")) == pytest.approx(inside, abs=0.01)
    folded = np.maximum(wave - 10.0, 0) - 2 * np.maximum(wave - 30.0, 0)
    assert float(_asked(tmin, tmax, "single-sine", "intermediate")) == pytest.approx(
        max(folded.mean(), 0), abs=1e-5
    )


@given(temps, st.floats(0, 30))
def test_triangle_equals_the_integral(tmin: float, swing: float) -> None:
    line = tmin + swing * (np.arange(20000) + 0.5) / 20000
    got = float(_asked(tmin, tmin + swing, "single-triangle", "horizontal"))
    assert got == pytest.approx(np.clip(line - 10.0, 0, 20.0).mean(), abs=1e-5)


@pytest.mark.parametrize(("method", "cutoff"), ASKED)
def test_broadcasting_equals_a_loop(method: Method, cutoff: Cutoff) -> None:
    rng = np.random.default_rng(3)
    tmin = rng.normal(12, 10, (3, 1, 20))
    tmax = tmin + rng.uniform(0, 25, (3, 4, 20))
    later = rng.normal(12, 10, (3, 1, 20))
    whole = _asked(tmin, tmax, method, cutoff, later)
    assert whole.shape == (3, 4, 20)
    for place in np.ndindex(3, 4, 20):
        year, crop, day = place
        one = _asked(tmin[year, 0, day], tmax[place], method, cutoff, later[year, 0, day])
        assert whole[place] == pytest.approx(float(one), abs=1e-12), (crop, place)


@pytest.mark.parametrize(("method", "cutoff"), ASKED)
def test_a_missing_extreme_gives_no_number(method: Method, cutoff: Cutoff) -> None:
    gap = np.nan
    got = _asked(np.array([gap, 5.0, gap, 5.0]), np.array([20.0, gap, gap, 20.0]), method, cutoff)
    assert np.isnan(got).tolist() == [True, True, True, False]
    if method.startswith("double"):
        assert np.isnan(_asked(5.0, 20.0, method, cutoff, gap))


@given(
    temps,
    st.floats(0, 30),
    st.floats(0, 5),
    st.sampled_from([a for a in ASKED if a[1] in ("none", "horizontal")]),
)
def test_warmer_is_never_less(tmin: float, swing: float, more: float, asked: tuple[Method, Cutoff]) -> None:
    method, cutoff = asked
    cold = float(_asked(tmin, tmin + swing, method, cutoff))
    warm = float(_asked(tmin + more, tmin + more + swing, method, cutoff))
    assert warm >= cold - 1e-9


@given(temps, st.floats(0, 30), st.sampled_from(ASKED))
def test_bounds(tmin: float, swing: float, asked: tuple[Method, Cutoff]) -> None:
    method, cutoff = asked
    tmax = tmin + swing
    got = float(_asked(tmin, tmax, method, cutoff))
    assert got >= -1e-9
    assert got <= max(tmax - 10.0, 0.0) + 1e-9
    if cutoff != "none":
        assert got <= 20.0 + 1e-9


@given(temps, st.floats(0, 30), st.sampled_from(["sine", "triangle"]), st.sampled_from(CUTOFFS))
def test_double_with_the_same_minimum_is_single(tmin: float, swing: float, wave: str, cutoff: Cutoff) -> None:
    double: Method = "double-sine" if wave == "sine" else "double-triangle"
    single: Method = "single-sine" if wave == "sine" else "single-triangle"
    both = [float(_asked(tmin, tmin + swing, method, cutoff, tmin)) for method in (double, single)]
    assert both[0] == pytest.approx(both[1], abs=1e-9)


def test_sine_at_its_limits() -> None:
    assert float(degree_days(10.0, 10.0, 10.0)) == 0.0
    assert float(degree_days(15.0, 15.0, 10.0)) == 5.0
    assert float(degree_days(-5.0, 10.0, 10.0)) == 0.0
    assert float(degree_days(10.0, 20.0, 10.0)) == 5.0
    assert float(degree_days(0.0, 20.0, 10.0)) == pytest.approx(10.0 / np.pi)


def test_next_minimum_may_exceed_the_maximum() -> None:
    got = float(degree_days(0.0, 8.0, 4.0, method="double-sine", tmin_next_c=11.0))
    second = float(degree_days(8.0, 11.0, 4.0))
    assert got == pytest.approx((float(degree_days(0.0, 8.0, 4.0)) + second) / 2)


def test_next_minimum_of_the_last_day_is_not_known() -> None:
    later = next_minimum_c(np.array([[1.0, 2.0, 3.0], [4.0, 5.0, 6.0]]))
    assert later[:, :2].tolist() == [[2.0, 3.0], [5.0, 6.0]]
    assert np.isnan(later[:, 2]).all()


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ({"tmin_c": 12.0, "tmax_c": 9.0}, "minimum 12 C is above the maximum 9 C"),
        ({"tmin_c": [1.0, 12.0], "tmax_c": [9.0, 9.0]}, "at position 1"),
        ({"upper_c": 9.0}, "not above the lower"),
        ({"cutoff": "horizontal"}, "needs an upper threshold"),
        ({"method": "triple-sine"}, "no degree-day method 'triple-sine'"),
        ({"cutoff": "diagonal", "upper_c": 30.0}, "no cut-off 'diagonal'"),
        ({"method": "double-sine"}, "needs the next day's minimum"),
        ({"method": "average", "cutoff": "vertical", "upper_c": 30.0}, "no vertical cut-off"),
        ({"lower_c": float("nan")}, "not a number"),
    ],
)
def test_refusals_say_what_was_found(asked: dict[str, Any], told: str) -> None:
    given_ = {"tmin_c": 5.0, "tmax_c": 20.0, "lower_c": 10.0, **asked}
    with pytest.raises(ParameterError, match=told):
        degree_days(**given_)
