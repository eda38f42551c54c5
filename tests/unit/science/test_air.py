"""Air within the day: extremes kept, neighbours used, polar and dirty days."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from spadework.errors import ParameterError
from spadework.science import air, sun

HOURS = np.linspace(0.0, 24.0, 97)
WEEK = arrays(np.float64, 7, elements=st.floats(-30.0, 30.0))


def test_sine_reaches_both_extremes() -> None:
    wave = air.sine_temperature_c([5.0], [17.0], HOURS)
    assert (wave.min(), wave.max()) == pytest.approx((5.0, 17.0))
    assert HOURS[np.argmax(wave[0])] == 15.0


def test_lagged_wave_reaches_the_maximum_after_noon() -> None:
    wave = air.hourly_temperature_c(8.0, 20.0, sunrise_h=5.0, sunset_h=19.0, hours=HOURS)
    assert wave.max() == pytest.approx(20.0, abs=0.01)
    assert HOURS[np.argmax(wave)] == pytest.approx(12.0 + 2.59, abs=0.2)
    assert wave.min() >= 8.0


@given(low=WEEK, ranges=arrays(np.float64, 7, elements=st.floats(0.0, 25.0)), rise=st.floats(0.5, 9.0))
def test_never_outside_the_extremes_around(low: np.ndarray, ranges: np.ndarray, rise: float) -> None:
    wave = air.hourly_temperature_c(low, low + ranges, sunrise_h=rise, sunset_h=24.0 - rise, hours=HOURS)
    assert wave.shape == (7, 97)
    assert wave.min() >= low.min() - 1e-9
    assert wave.max() <= (low + ranges).max() + 1e-9


def test_neighbours_along_the_axis_are_those_given_by_hand() -> None:
    low, high = np.array([2.0, 6.0, 4.0]), np.array([12.0, 20.0, 15.0])
    row = air.hourly_temperature_c(low, high, sunrise_h=6.0, sunset_h=18.0, hours=HOURS)
    middle = air.hourly_temperature_c(
        low[1],
        high[1],
        sunrise_h=6.0,
        sunset_h=18.0,
        hours=HOURS,
        tmin_next_c=low[2],
        tmin_prev_c=low[0],
        tmax_prev_c=high[0],
    )
    assert row[1] == pytest.approx(middle)


@pytest.mark.parametrize("doy", [172, 355])
def test_without_a_sunrise_the_sine_serves(doy: int) -> None:
    rise, fall = sun.sunrise_sunset_solar_h(75.0, doy)
    wave = air.hourly_temperature_c([-4.0], [3.0], sunrise_h=rise, sunset_h=fall, hours=HOURS)
    assert wave == pytest.approx(air.sine_temperature_c([-4.0], [3.0], HOURS))


@given(lat_deg=st.floats(-90.0, 90.0), doy=st.integers(1, 366))
def test_finite_everywhere_on_the_globe(lat_deg: float, doy: int) -> None:
    rise, fall = sun.sunrise_sunset_solar_h(lat_deg, doy)
    wave = air.hourly_temperature_c([1.0, 3.0], [9.0, 11.0], sunrise_h=rise, sunset_h=fall, hours=HOURS)
    assert np.isfinite(wave).all()
    assert wave.min() >= 1.0 - 1e-9
    assert wave.max() <= 11.0 + 1e-9


def test_missing_day_touches_only_the_hours_that_rest_on_it() -> None:
    low, high = np.array([5.0, np.nan, 5.0, 5.0]), np.array([15.0, 15.0, 15.0, 15.0])
    wave = air.hourly_temperature_c(low, high, sunrise_h=6.0, sunset_h=18.0, hours=HOURS)
    assert np.isnan(wave[1]).all()
    assert np.isnan(wave[0][HOURS > 18.0]).all()
    assert np.isfinite(wave[0][HOURS <= 18.0]).all()
    assert np.isnan(wave[2][HOURS < 7.5]).all()
    assert np.isfinite(wave[3]).all()


def test_swapped_extremes_are_refused_with_their_place() -> None:
    with pytest.raises(ParameterError, match=r"Minimum 9 is above maximum 4 at position 1, 0"):
        air.sine_temperature_c([[1.0, 2.0], [9.0, 2.0]], [[3.0, 3.0], [4.0, 3.0]], [12.0])
    with pytest.raises(ParameterError, match=r"Minimum 9 is above maximum 4\."):
        air.require_ordered(np.asarray(9.0), np.asarray(4.0))
