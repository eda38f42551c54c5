"""Frost: chances, dates, and years in which it never came."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.science import frost


def test_chance_at_the_mean_offset_is_a_half() -> None:
    assert frost.chance_surface_below(2.05, 0.0) == pytest.approx(0.5)


@given(tmin_c=st.floats(-15.0, 15.0), threshold_c=st.floats(-10.0, 3.0), warmer=st.floats(0.0, 5.0))
def test_warmer_is_never_likelier(tmin_c: float, threshold_c: float, warmer: float) -> None:
    chance = frost.chance_surface_below(tmin_c, threshold_c)
    assert 0.0 <= chance <= 1.0
    for kind in ("site_offset_c", "cover_gain_c"):
        assert frost.chance_surface_below(tmin_c, threshold_c, **{kind: warmer}) <= chance
    assert frost.chance_surface_below(tmin_c + warmer, threshold_c) <= chance


def test_a_known_site_is_surer() -> None:
    known = frost.chance_surface_below(0.0, 0.0, between_sd_c=0.0)
    unknown = frost.chance_surface_below(0.0, 0.0)
    assert known > unknown > 0.5


def test_offset_by_night() -> None:
    offset = frost.plant_surface_offset([50.0, 70.0, 90.0, 95.0, np.nan], [False, False, False, False, False])
    assert offset.mean_c == pytest.approx([-3.3, -2.1, -2.1, -1.6, -2.05])
    assert frost.plant_surface_offset(stirred=[True, False]).mean_c == pytest.approx([-0.5, -2.05])
    assert frost.plant_surface_offset([50.0], True).mean_c == pytest.approx([-0.5])


def test_missing_night_has_no_chance() -> None:
    chance = frost.chance_surface_below([np.nan, 0.0], 0.0)
    assert np.isnan(chance[0])
    assert np.isfinite(chance[1])


def test_no_spread_is_refused() -> None:
    with pytest.raises(ParameterError, match="no chance to give"):
        frost.chance_surface_below(0.0, 0.0, within_sd_c=0.0, between_sd_c=0.0)
    with pytest.raises(ParameterError, match="below zero"):
        frost.chance_surface_below(0.0, 0.0, cover_gain_sd_c=-1.0)


def test_first_and_last_day() -> None:
    minima = np.array(
        [[1.0, 0.0, 2.0, -1.0, 3.0], [4.0, 4.0, 4.0, 4.0, 4.0], [np.nan, 1.0, np.nan, -3.0, np.nan]]
    )
    assert frost.last_day_at_or_below(minima, 0.0).tolist() == [3, -1, 3]
    assert frost.first_day_at_or_below(minima, 0.0).tolist() == [1, -1, 3]
    assert frost.last_day_at_or_below(minima[0], -5.0) == -1
    assert frost.complete_years(minima, missing_allowed=2).tolist() == [True, True, False]


@given(st.lists(st.floats(-50.0, 50.0), min_size=1, max_size=60), st.floats(0.0, 1.0))
def test_quantiles_agree_with_numpy(values: list[float], prob: float) -> None:
    ours = frost.weibull_quantiles(values, prob)[0]
    assert ours == pytest.approx(float(np.quantile(values, prob, method="weibull")), abs=1e-9)


def test_years_without_frost_keep_their_side() -> None:
    days = [-np.inf, -np.inf, 100.0, 110.0, 120.0, 130.0, 140.0, 150.0, 160.0]
    low, middle, high = frost.weibull_quantiles(days, [0.1, 0.5, 0.9])
    assert (low, middle, high) == (-np.inf, 120.0, 160.0)
    assert frost.weibull_quantiles([10.0, 20.0, np.inf], [0.25, 0.6, 0.75]).tolist() == [10.0, np.inf, np.inf]
    assert frost.weibull_quantiles([-np.inf, np.inf], [0.5])[0] == -np.inf
    assert frost.weibull_quantiles([-np.inf, 5.0], [0.5])[0] == -np.inf


def test_quantiles_by_rows_and_missing_years() -> None:
    rows = np.array([[3.0, 1.0, 2.0], [1.0, np.nan, 2.0]])
    out = frost.weibull_quantiles(rows, [0.25, 0.5])
    assert out[0].tolist() == [1.0, 2.0]
    assert np.isnan(out[1]).all()


def test_quantile_refusals() -> None:
    with pytest.raises(ParameterError, match="No years"):
        frost.weibull_quantiles([], [0.5])
    with pytest.raises(ParameterError, match="0 to 1"):
        frost.weibull_quantiles([1.0], [1.5])
    with pytest.raises(ParameterError, match="No years"):
        frost.bootstrap_quantile_interval([], 0.5, np.random.default_rng(0))
    with pytest.raises(ParameterError, match="cannot be made"):
        frost.bootstrap_quantile_interval([1.0, 2.0], 0.5, np.random.default_rng(0), level=1.0)
    with pytest.raises(ParameterError, match="complete years"):
        frost.share_on_or_after([np.nan, 1.0], 5)


def test_shares_count_years() -> None:
    assert frost.share_on_or_after([-1.0, 100.0, 120.0, 130.0], [90, 120, 200]).tolist() == [0.75, 0.5, 0.0]


@given(st.integers(0, 1000))
def test_bootstrap_holds_the_quantile(seed: int) -> None:
    values = np.random.default_rng(seed).normal(120.0, 10.0, 30)
    low, high = frost.bootstrap_quantile_interval(values, 0.5, np.random.default_rng(seed), draws=200)
    assert low <= frost.weibull_quantiles(values, 0.5)[0] <= high
