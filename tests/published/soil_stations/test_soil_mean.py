"""Seed-zone temperature against measured stations; the figures are those of the study that fitted it."""

from __future__ import annotations

import numpy as np
import pytest

from measured_stations import oklahoma, rmse, scan, uscrn_stations
from spadework.science import radiation, soil, sun

GRASS = soil.SURFACES["grass"]


def test_the_check_row() -> None:
    tmean_c = [10, 12, 14, 8, 6, 15, 18, 20, 16, 12]
    solar_mj = [15, 18, 20, 5, 6, 22, 24, 25, 18, 10]
    wanted = [12.701, 13.246, 14.268, 11.814, 10.100, 13.242, 15.711, 17.627, 16.871, 14.868]
    assert soil.seed_zone_mean_c(tmean_c, solar_mj, GRASS) == pytest.approx(wanted, abs=0.0005)


def _misses(group: str, measured_sun: bool) -> list[np.ndarray]:
    out = []
    for station in uscrn_stations(group):
        solar_mj = station.solar_mj
        if not measured_sun:
            ra_mj = sun.extraterrestrial_radiation_mj(station.lat_deg, station.doy)
            solar_mj = radiation.solar_from_temperature_range_mj(station.tmin_c, station.tmax_c, ra_mj)
        model = soil.seed_zone_mean_c((station.tmin_c + station.tmax_c) / 2.0, solar_mj, GRASS)
        out.append((model - station.soil_c)[station.growing & ~np.isnan(station.soil_c)])
    return out


def test_stations_held_back() -> None:
    misses = _misses("test", measured_sun=True)
    pooled = np.concatenate(misses)
    assert (len(misses), pooled.size) == (50, 13_902)
    assert rmse(pooled) == pytest.approx(2.20, abs=0.006)
    assert pooled.mean() == pytest.approx(-0.04, abs=0.006)
    assert np.std([miss.mean() for miss in misses], ddof=1) == pytest.approx(1.57, abs=0.02)
    assert np.concatenate([miss - miss.mean() for miss in misses]).std() == pytest.approx(1.52, abs=0.03)


def test_radiation_from_the_temperature_range_serves_as_well() -> None:
    pooled = np.concatenate(_misses("test", measured_sun=False))
    assert rmse(pooled) == pytest.approx(2.19, abs=0.02)
    # The study gives -0.02, for parameters refitted to estimated radiation; ours stay the default ones.
    assert pooled.mean() == pytest.approx(0.19, abs=0.01)


def test_a_place_never_used_in_a_fit() -> None:
    table = oklahoma()
    model = soil.seed_zone_mean_c(table["TA_F"].to_numpy(), table["SW_IN_F"].to_numpy() * 0.0864, GRASS)
    observed = table["TS_F_MDS_1"].to_numpy()
    good = (table["TS_F_MDS_1_QC"].to_numpy() > 0.8) & ~np.isnan(observed)
    miss = model - observed
    assert good.sum() == 1_330
    assert rmse(miss[good]) == pytest.approx(1.74, abs=0.006)
    assert miss[good].mean() == pytest.approx(0.54, abs=0.006)
    yearly = [miss[good & (table["date"].dt.year == year)].mean() for year in (2009, 2010, 2011, 2012)]
    assert yearly == pytest.approx([-0.28, 0.51, 0.17, 1.47], abs=0.006)


@pytest.mark.parametrize(
    ("surface", "days", "bias_c", "rmse_c"),
    [
        ("grass", "all", -1.37, 2.42),
        ("bare-dry", "all", 0.17, 1.78),
        ("grass", "whole", -1.32, 2.50),
        ("bare-dry", "whole", 0.11, 1.87),
    ],
)
def test_bare_dry_ground_runs_hotter(surface: str, days: str, bias_c: float, rmse_c: float) -> None:
    tmean_c = (np.nanmax(scan("air_max_c"), axis=1) + np.nanmin(scan("air_min_c"), axis=1)) / 2.0
    solar_mj = np.nanmean(scan("solar_wm2"), axis=1) * 0.0864
    seen = scan("soil_5cm_c")
    # On 67 summer days the probe gave nothing in some hours, so that the mean of the rest may run low.
    chosen = ~np.isnan(seen).any(axis=1) if days == "whole" else np.full(365, True)
    assert chosen.sum() == (298 if days == "whole" else 365)
    model = soil.seed_zone_mean_c(tmean_c, solar_mj, soil.SURFACES[surface])
    miss = (model - np.nanmean(seen, axis=1))[chosen]
    assert miss.mean() == pytest.approx(bias_c, abs=0.01)
    assert rmse(miss) == pytest.approx(rmse_c, abs=0.01)
