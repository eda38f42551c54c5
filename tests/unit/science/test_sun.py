"""Sun: edges of the globe and of the year."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.science import sun

LATITUDES = st.floats(-90.0, 90.0)
DAYS = st.integers(1, 366)


@pytest.mark.parametrize("law", [sun.day_length_geometric_h, sun.day_length_sunrise_to_sunset_h])
def test_polar_day_and_night(law: object) -> None:
    hours = law([70.0, -70.0, 90.0, -90.0], 172)  # type: ignore[operator]
    assert hours == pytest.approx([24.0, 0.0, 24.0, 0.0])


def test_no_radiation_in_polar_night() -> None:
    assert sun.extraterrestrial_radiation_mj([70.0, 90.0], 355) == pytest.approx([0.0, 0.0], abs=1e-9)
    assert sun.extraterrestrial_radiation_mj(-90.0, 355) > 40.0


def test_polar_sunrise() -> None:
    rise, fall = sun.sunrise_sunset_solar_h([80.0, -80.0], 172)
    assert rise == pytest.approx([0.0, 12.0])
    assert fall == pytest.approx([24.0, 12.0])


def test_noon_elevation() -> None:
    assert np.degrees(np.arcsin(sun.noon_elevation_sine(40.0, 355))) == pytest.approx(26.6, abs=0.1)
    assert sun.noon_elevation_sine(75.0, 355) < 0.0


@given(lat_deg=LATITUDES, doy=DAYS)
def test_both_day_lengths_stay_on_the_clock(lat_deg: float, doy: int) -> None:
    flat = sun.day_length_geometric_h(lat_deg, doy)
    seen = sun.day_length_sunrise_to_sunset_h(lat_deg, doy)
    assert 0.0 <= flat <= 24.0
    assert 0.0 <= seen <= 24.0
    assert sun.extraterrestrial_radiation_mj(lat_deg, doy) >= 0.0


@given(lat_deg=st.floats(0.0, 60.0), doy=DAYS)
def test_south_has_the_other_half_of_the_day(lat_deg: float, doy: int) -> None:
    both = sun.day_length_geometric_h([lat_deg, -lat_deg], doy)
    assert both.sum() == pytest.approx(24.0)


@given(lat_deg=st.floats(-60.0, 60.0), doy=DAYS, deeper=st.floats(0.0, 6.0))
def test_a_deeper_sun_makes_a_longer_day(lat_deg: float, doy: int, deeper: float) -> None:
    plain = sun.day_length_sunrise_to_sunset_h(lat_deg, doy, 0.0)
    assert sun.day_length_sunrise_to_sunset_h(lat_deg, doy, deeper) >= plain


def test_broadcasting_equals_a_loop() -> None:
    lats, days = np.array([-50.0, 0.0, 50.0]), np.array([1, 100, 200, 366])
    grid = sun.extraterrestrial_radiation_mj(lats[:, None], days)
    assert grid.shape == (3, 4)
    for i, lat in enumerate(lats):
        for j, day in enumerate(days):
            assert grid[i, j] == sun.extraterrestrial_radiation_mj(lat, day)


def test_missing_stays_missing() -> None:
    assert np.isnan(sun.day_length_geometric_h(np.nan, 100))
    assert np.isnan(sun.day_length_sunrise_to_sunset_h(40.0, [np.nan])).all()


@pytest.mark.parametrize(("lat_deg", "doy"), [(90.5, 10), (-91.0, 10), (40.0, 0), (40.0, 367)])
def test_what_does_not_exist(lat_deg: float, doy: float) -> None:
    with pytest.raises(ParameterError):
        sun.extraterrestrial_radiation_mj(lat_deg, doy)
    with pytest.raises(ParameterError):
        sun.day_length_sunrise_to_sunset_h([lat_deg], [doy])


def test_a_sunrise_far_below_the_horizon_is_refused() -> None:
    with pytest.raises(ParameterError, match="not a sunrise"):
        sun.day_length_sunrise_to_sunset_h(40.0, 100, 30.0)
