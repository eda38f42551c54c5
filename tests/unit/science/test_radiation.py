"""Radiation: caps, polar night, and what a record may not say."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.science import radiation


@given(tmin_c=st.floats(-40.0, 35.0), width=st.floats(0.0, 40.0), ra_mj=st.floats(0.0, 45.0))
def test_range_never_beats_a_clear_sky(tmin_c: float, width: float, ra_mj: float) -> None:
    solar = radiation.solar_from_temperature_range_mj(tmin_c, tmin_c + width, ra_mj)
    assert 0.0 <= solar <= 0.75 * ra_mj + 1e-12


def test_higher_ground_has_a_higher_cap() -> None:
    low, high = (radiation.solar_from_temperature_range_mj(0.0, 30.0, 40.0, elevation_m=m) for m in (0, 2000))
    assert (low, high) == pytest.approx((30.0, 31.6))


def test_sunshine_in_polar_night_is_no_light() -> None:
    assert radiation.solar_from_sunshine_mj([0.0, 0.3], [0.0, 0.0], [0.0, 0.0]) == pytest.approx([0.0, 0.0])
    assert np.isnan(radiation.solar_from_sunshine_mj([np.nan], [0.0], [0.0])).all()


def test_sunshine_of_the_whole_day_and_a_little_more() -> None:
    assert radiation.solar_from_sunshine_mj(12.3, 12.0, 36.0) == pytest.approx(27.0)


@pytest.mark.parametrize("sunshine_h", [-0.1, 13.0])
def test_impossible_sunshine(sunshine_h: float) -> None:
    with pytest.raises(ParameterError, match=r"sunshine in a day of 12\.0 h"):
        radiation.solar_from_sunshine_mj([6.0, sunshine_h], 12.0, 36.0)


def test_cloud_signal_is_held_and_survives_the_dark() -> None:
    ratio = radiation.clear_sky_ratio(
        [0.0, 5.0, 40.0, 0.0, np.nan, np.nan], [20.0, 10.0, 20.0, 0.0, 0.0, 9.0]
    )
    assert ratio[:4] == pytest.approx([0.3, 0.5, 1.0, 0.5])
    assert np.isnan(ratio[4:]).all()


def test_longwave_loss_shrinks_under_moist_air_and_cloud() -> None:
    dry, moist = radiation.net_longwave_mj(10.0, 25.0, [0.8, 2.0], 0.9)
    clear, dull = radiation.net_longwave_mj(10.0, 25.0, 1.2, [1.0, 0.3])
    assert dry > moist > 0.0
    assert clear > dull > 0.0


def test_low_sun_factor_is_zero_without_sun() -> None:
    factor = radiation.low_sun_factor([-0.5, 0.0, 0.2, 0.4, 0.8, np.nan])
    assert factor[:5] == pytest.approx([0.0, 0.0, 0.57, 0.81, 0.95], abs=0.01)
    assert np.isnan(factor[5])


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="above maximum"):
        radiation.solar_from_temperature_range_mj(12.0, 8.0, 30.0)
    with pytest.raises(ParameterError, match="gives no light"):
        radiation.solar_from_temperature_range_mj(2.0, 8.0, 30.0, krs=0.0)
    with pytest.raises(ParameterError, match="no place"):
        radiation.clear_sky_mj(30.0, [100.0, 12_000.0])
    with pytest.raises(ParameterError, match="below zero"):
        radiation.net_longwave_mj(2.0, 8.0, -0.1, 0.5)
