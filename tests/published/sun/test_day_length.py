"""Day length and sun against a solar position algorithm, and the edges of the globe."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from pvlib import irradiance, solarposition

from spadework.science import sun

DAYS = pd.date_range("2023-01-01 12:00", periods=365, freq="D", tz="UTC")
DOY = np.arange(1, 366)


def _algorithm_h(lat_deg: float) -> np.ndarray:
    table = solarposition.sun_rise_set_transit_spa(DAYS, lat_deg, 0.0)
    hours = (table["sunset"] - table["sunrise"]).dt.total_seconds().to_numpy() / 3600.0
    return np.where(hours < 0, hours + 24.0, hours)


def test_check_values() -> None:
    assert sun.day_length_sunrise_to_sunset_h(40.0, 172) == pytest.approx(15.016, abs=0.0005)
    assert sun.day_length_sunrise_to_sunset_h(40.0, 172, 6.0) == pytest.approx(16.112, abs=0.0005)
    assert sun.day_length_sunrise_to_sunset_h(45.0, 172) == pytest.approx(15.62, abs=0.08)
    assert sun.day_length_geometric_h(45.0, 172) == pytest.approx(15.42, abs=0.01)


@pytest.mark.parametrize(("lat_deg", "worst_h"), [(35.0, 0.035), (45.0, 0.048), (55.0, 0.068), (60.0, 0.083)])
def test_sunrise_to_sunset_within_the_stated_error(lat_deg: float, worst_h: float) -> None:
    miss = np.abs(sun.day_length_sunrise_to_sunset_h(lat_deg, DOY) - _algorithm_h(lat_deg))
    assert miss.max() <= worst_h + 0.0005
    south = np.abs(sun.day_length_sunrise_to_sunset_h(-lat_deg, DOY) - _algorithm_h(-lat_deg))
    assert south.max() <= worst_h + 0.02


@pytest.mark.parametrize(("lat_deg", "gap_h"), [(35.0, 0.18), (45.0, 0.23), (55.0, 0.31), (60.0, 0.39)])
def test_the_geometric_day_is_shorter_by_the_stated_gap(lat_deg: float, gap_h: float) -> None:
    gap = _algorithm_h(lat_deg) - sun.day_length_geometric_h(lat_deg, DOY)
    assert gap.mean() == pytest.approx(gap_h, abs=0.006)
    assert gap.max() < 0.54


def test_declination_within_the_stated_error() -> None:
    miss = np.abs(sun.declination_rad(DOY) - solarposition.declination_spencer71(DOY))
    assert miss.max() == pytest.approx(0.026, abs=0.0005)


@pytest.mark.parametrize("lat_deg", [-35.0, 0.0, 45.0, 60.0])
def test_extraterrestrial_radiation_against_integrated_sun(lat_deg: float) -> None:
    times = pd.date_range("2023-01-01 00:15", periods=365 * 48, freq="30min", tz="UTC")
    height = np.sin(np.radians(solarposition.ephemeris(times, lat_deg, 0.0)["elevation"].to_numpy()))
    flux = irradiance.get_extra_radiation(times, method="spencer").to_numpy() * np.clip(height, 0.0, None)
    daily_mj = flux.reshape(365, 48).mean(axis=1) * 0.0864
    ours = sun.extraterrestrial_radiation_mj(lat_deg, DOY)
    assert ours.mean() == pytest.approx(daily_mj.mean(), rel=0.016)
    assert np.sqrt(np.mean((ours - daily_mj) ** 2)) < 0.43


def test_sunrise_and_sunset_lie_about_noon() -> None:
    rise, fall = sun.sunrise_sunset_solar_h(52.0, DOY)
    assert rise + fall == pytest.approx(np.full(365, 24.0))
    assert fall - rise == pytest.approx(sun.day_length_sunrise_to_sunset_h(52.0, DOY))
