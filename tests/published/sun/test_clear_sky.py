"""Clear winter days: the plain rule against a turbidity model (Ineichen, Linke turbidity 3)."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from pvlib.location import Location

from spadework.science import radiation, sun


def _modelled_mj(lat_deg: float, doy: int) -> float:
    start = pd.Timestamp("2023-01-01", tz="UTC") + pd.Timedelta(days=doy - 1)
    times = pd.date_range(start, periods=144, freq="10min")
    sky = Location(lat_deg, 0.0, altitude=0).get_clearsky(times, model="ineichen", linke_turbidity=3)
    return float(sky["ghi"].mean() * 0.0864)


def test_low_sun_factor_within_the_stated_error() -> None:
    misses = []
    for lat_deg in (30.0, 40.0, 50.0, 60.0):
        for doy in range(15, 365, 30):
            plain = radiation.clear_sky_mj(sun.extraterrestrial_radiation_mj(lat_deg, doy), 0.0)
            factor = radiation.low_sun_factor(sun.noon_elevation_sine(lat_deg, doy))
            misses.append(_modelled_mj(lat_deg, doy) / float(plain) - float(factor))
    assert np.sqrt(np.mean(np.square(misses))) == pytest.approx(0.015, abs=0.003)
    assert np.max(np.abs(misses)) < 0.075


@pytest.mark.parametrize(("lat_deg", "share"), [(35.0, 0.86), (45.0, 0.76), (55.0, 0.58)])
def test_the_plain_rule_overstates_december(lat_deg: float, share: float) -> None:
    plain = float(radiation.clear_sky_mj(sun.extraterrestrial_radiation_mj(lat_deg, 350), 0.0))
    assert _modelled_mj(lat_deg, 350) / plain == pytest.approx(share, abs=0.02)
