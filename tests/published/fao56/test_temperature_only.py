"""What evapotranspiration and radiation from temperature alone are worth, at real places."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from long_records import climate
from measured_stations import rmse, uscrn_stations
from spadework.science import evapotranspiration, radiation, sun


@pytest.mark.parametrize(
    ("place", "lat_deg", "rmse_mm", "ratio"),
    [
        ("champion", 40.4, 0.74, 0.885),
        ("brussels", 50.8, 0.53, 1.14),
        ("tunis", 36.8, 0.36, 0.957),
        ("norfolk", 52.6, 0.58, 0.866),
        ("cordoba", -31.4, 1.03, 0.882),
        ("hyderabad", 17.4, 0.73, 1.09),
    ],
)
def test_hargreaves_against_the_records_own_reference(
    place: str, lat_deg: float, rmse_mm: float, ratio: float
) -> None:
    record = climate(place)
    days = zip(record["year"], record["month"], record["day"], strict=True)
    doy = np.array([date(int(y), int(m), int(d)).timetuple().tm_yday for y, m, d in days])
    ra_mj = sun.extraterrestrial_radiation_mj(lat_deg, doy)
    ours = evapotranspiration.et0_hargreaves_mm(record["tmin_c"], record["tmax_c"], ra_mj)
    assert rmse(ours - record["et0_mm"]) == pytest.approx(rmse_mm, abs=0.01)
    assert ours.mean() / record["et0_mm"].mean() == pytest.approx(ratio, abs=0.005)


def test_radiation_from_the_range_against_measured() -> None:
    misses = []
    for group in ("fit", "test"):
        for station in uscrn_stations(group):
            ra_mj = sun.extraterrestrial_radiation_mj(station.lat_deg, station.doy)
            guess = radiation.solar_from_temperature_range_mj(station.tmin_c, station.tmax_c, ra_mj)
            misses.append(guess - station.solar_mj)
    pooled = np.concatenate(misses)
    assert pooled.size == 36_600
    assert rmse(pooled) == pytest.approx(4.23, abs=0.01)
    assert pooled.mean() == pytest.approx(1.03, abs=0.01)
