"""Air temperature at the hours of a day, from its extremes, at a desert station."""

from __future__ import annotations

import numpy as np
import pytest

from measured_stations import SCAN_HOURS_BEHIND_SUN, SCAN_LAT_DEG, rmse, scan
from spadework.science import air, sun


def test_the_check_value() -> None:
    at_eleven = air.hourly_temperature_c(10.0, 30.0, sunrise_h=6.0, sunset_h=18.0, hours=[11.0])
    assert at_eleven == pytest.approx([23.9195], abs=0.00005)


def _known() -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    seen = scan("air_c")
    low, high = np.nanmin(seen, axis=1), np.nanmax(seen, axis=1)
    return seen, low, high, ~np.isnan(seen).any(axis=1)


@pytest.mark.parametrize(("place", "rmse_c"), [("five-sites", 1.79), ("high-plain", 2.33)])
def test_lagged_wave(place: str, rmse_c: float) -> None:
    seen, low, high, whole = _known()
    rise, fall = sun.sunrise_sunset_solar_h(SCAN_LAT_DEG, np.arange(1, 366))
    hours = np.arange(24) + SCAN_HOURS_BEHIND_SUN
    model = air.hourly_temperature_c(
        low, high, sunrise_h=rise, sunset_h=fall, hours=hours, lags=air.AIR_LAGS[place]
    )
    assert whole.sum() >= 364
    assert rmse((model - seen)[whole]) == pytest.approx(rmse_c, abs=0.06)


def test_sine() -> None:
    seen, low, high, whole = _known()
    model = air.sine_temperature_c(low, high, np.arange(24) + SCAN_HOURS_BEHIND_SUN)
    assert rmse((model - seen)[whole]) == pytest.approx(2.29, abs=0.03)
