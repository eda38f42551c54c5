"""The same days through an independent implementation of FAO-56 (pyet)."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pyet
import pytest

from spadework.science import evapotranspiration as et
from spadework.science import sun


@pytest.mark.parametrize(
    ("lat_deg", "elevation_m"), [(50.8, 100.0), (-33.9, 1200.0), (8.0, 10.0), (64.0, 300.0)]
)
def test_penman_monteith_and_hargreaves_through_a_year(lat_deg: float, elevation_m: float) -> None:
    rng = np.random.default_rng(20)
    days = pd.date_range("2021-01-01", periods=365)
    doy = days.dayofyear.to_numpy()
    season = -np.sign(lat_deg) * np.cos(2 * np.pi * (doy - 15) / 365)
    tmin_c = 8 + 9 * season + rng.normal(0, 3, 365)
    tmax_c = tmin_c + rng.uniform(1, 17, 365)
    rh_max, rh_min = rng.uniform(70, 100, 365), rng.uniform(20, 69, 365)
    wind = rng.uniform(0.2, 7, 365)
    ra = sun.extraterrestrial_radiation_mj(lat_deg, doy)
    solar = ra * rng.uniform(0.2, 0.75, 365)

    def series(values: np.ndarray) -> pd.Series:
        return pd.Series(values, index=days)

    other = pyet.pm_fao56(
        tmean=series((tmin_c + tmax_c) / 2),
        wind=series(wind),
        rs=series(solar),
        elevation=elevation_m,
        lat=np.radians(lat_deg),
        tmax=series(tmax_c),
        tmin=series(tmin_c),
        rhmax=series(rh_max),
        rhmin=series(rh_min),
    )
    vapour = et.actual_vapour_pressure_kpa(tmin_c, tmax_c, rh_max_pct=rh_max, rh_min_pct=rh_min)
    ours = et.et0_penman_monteith_mm(
        tmin_c,
        tmax_c,
        ra_mj=ra,
        elevation_m=elevation_m,
        actual_vapour_pressure_kpa=vapour.kpa,
        solar_mj=solar,
        wind_2m_m_s=wind,
    )
    assert ours == pytest.approx(other.to_numpy(), abs=0.005)

    by_range = pyet.hargreaves(
        tmean=series((tmin_c + tmax_c) / 2),
        tmax=series(tmax_c),
        tmin=series(tmin_c),
        lat=np.radians(lat_deg),
        method=0,
    )
    # The other side lets the heat of vaporisation vary with temperature; the paper holds it at 1/0.408.
    heat_mj_kg = 2.501 - 0.002361 * (tmin_c + tmax_c) / 2
    ours = et.et0_hargreaves_mm(tmin_c, tmax_c, ra) / (0.408 * heat_mj_kg)
    assert ours == pytest.approx(by_range.to_numpy(), abs=0.005)
