"""Reference evapotranspiration: which humidity, hard days, and refusals."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.science import evapotranspiration as et


def _day(**changes: object) -> np.ndarray:
    given_day: dict[str, object] = {
        "ra_mj": 40.0,
        "elevation_m": 100.0,
        "actual_vapour_pressure_kpa": 1.4,
        "solar_mj": 22.0,
    }
    return et.et0_penman_monteith_mm(12.3, 21.5, **(given_day | changes))  # type: ignore[arg-type]


def test_humidity_in_order_of_trust() -> None:
    everything = {"rh_max_pct": 84.0, "rh_min_pct": 63.0, "rh_mean_pct": 70.0, "tdew_c": 11.0}
    names = []
    for dropped in ("rh_max_pct", "rh_mean_pct", "tdew_c", ""):
        names.append(et.actual_vapour_pressure_kpa(12.0, 21.0, **everything).source)
        everything.pop(dropped, None)
    assert names == ["rh-max-min", "rh-mean", "dew-point", "minimum-temperature"]


def test_one_of_a_pair_is_not_a_pair() -> None:
    assert et.actual_vapour_pressure_kpa(12.0, 21.0, rh_max_pct=84.0).source == "minimum-temperature"


def test_a_missing_day_is_not_filled_from_a_poorer_source() -> None:
    vapour = et.actual_vapour_pressure_kpa([12.0, 12.0], [21.0, 21.0], rh_mean_pct=[np.nan, 70.0], tdew_c=9.0)
    assert np.isnan(vapour.kpa[0])
    assert np.isfinite(vapour.kpa[1])


def test_dry_places() -> None:
    plain = et.actual_vapour_pressure_kpa(12.0, 30.0).kpa
    dry = et.actual_vapour_pressure_kpa(12.0, 30.0, dry_place=True).kpa
    assert dry == pytest.approx(et.saturation_vapour_pressure_kpa(10.0))
    assert dry < plain


def test_wind_and_dry_air_ask_for_more() -> None:
    assert _day(wind_2m_m_s=4.0) > _day(wind_2m_m_s=1.0)
    assert _day(actual_vapour_pressure_kpa=0.8) > _day(actual_vapour_pressure_kpa=1.8)


def test_sensitivity_to_wind_at_lyon() -> None:
    vapour = et.actual_vapour_pressure_kpa(14.8, 26.6).kpa
    by_wind = et.et0_penman_monteith_mm(
        14.8,
        26.6,
        ra_mj=40.55,
        elevation_m=200.0,
        actual_vapour_pressure_kpa=vapour,
        solar_mj=22.29,
        wind_2m_m_s=[1.0, 3.0],
    )
    assert by_wind == pytest.approx([4.23, 4.84], abs=0.01)


def test_polar_night_and_dew_ask_for_nothing_and_stay_finite() -> None:
    night = et.et0_penman_monteith_mm(
        -32.0,
        -25.0,
        ra_mj=0.0,
        elevation_m=0.0,
        actual_vapour_pressure_kpa=et.saturation_vapour_pressure_kpa(-20.0),
        solar_mj=0.0,
    )
    assert night == 0.0
    assert et.et0_hargreaves_mm(-40.0, -25.0, 10.0) == 0.0


@given(
    tmin_c=st.floats(-30.0, 35.0),
    width=st.floats(0.0, 30.0),
    ra_mj=st.floats(0.0, 45.0),
    clear=st.floats(0.0, 1.0),
    wind=st.floats(0.0, 12.0),
)
def test_finite_and_not_below_zero(
    tmin_c: float, width: float, ra_mj: float, clear: float, wind: float
) -> None:
    vapour = et.actual_vapour_pressure_kpa(tmin_c, tmin_c + width).kpa
    demand = et.et0_penman_monteith_mm(
        tmin_c,
        tmin_c + width,
        ra_mj=ra_mj,
        elevation_m=0.0,
        actual_vapour_pressure_kpa=vapour,
        solar_mj=clear * 0.75 * ra_mj,
        wind_2m_m_s=wind,
    )
    assert 0.0 <= demand < 40.0


@pytest.mark.parametrize(
    "name",
    ["ra_mj", "elevation_m", "actual_vapour_pressure_kpa", "solar_mj", "wind_2m_m_s", "ground_flux_mj"],
)
def test_missing_stays_missing(name: str) -> None:
    assert np.isnan(_day(**{name: np.array([np.nan])})).all()


def test_broadcasting_equals_a_loop() -> None:
    rng = np.random.default_rng(3)
    low = rng.uniform(0, 10, (4, 5))
    high = low + rng.uniform(2, 15, (4, 5))
    ra = rng.uniform(10, 40, 5)
    grid = et.et0_hargreaves_mm(low, high, ra)
    for i in range(4):
        for j in range(5):
            assert grid[i, j] == pytest.approx(et.et0_hargreaves_mm(low[i, j], high[i, j], ra[j]), rel=1e-14)


def test_night_takes_half_of_net_radiation_into_the_ground() -> None:
    common = {"elevation_m": 8.0, "actual_vapour_pressure_kpa": 3.4, "clear_sky_ratio": 0.8}
    by_day = et.et0_penman_monteith_hourly_mm(28.0, solar_mj=2.0, **common)  # type: ignore[arg-type]
    by_night = et.et0_penman_monteith_hourly_mm(28.0, solar_mj=0.0, **common)  # type: ignore[arg-type]
    assert 0.0 <= by_night < 0.1 * by_day


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="wind of -1"):
        _day(wind_2m_m_s=-1.0)
    with pytest.raises(ParameterError, match="in the grass"):
        et.wind_at_2m_m_s(3.0, 0.2)
    with pytest.raises(ParameterError, match="wind of -2"):
        et.wind_at_2m_m_s([-2.0], 2.0)
    with pytest.raises(ParameterError, match="mean humidity of 140"):
        et.actual_vapour_pressure_kpa(10.0, 20.0, rh_mean_pct=140.0)
    with pytest.raises(ParameterError, match="Dew point 50"):
        et.actual_vapour_pressure_kpa(10.0, 20.0, tdew_c=50.0)
    with pytest.raises(ParameterError, match="above maximum"):
        et.et0_hargreaves_mm(20.0, 10.0, 30.0)


def test_fog_reads_a_little_over_a_hundred() -> None:
    vapour = et.actual_vapour_pressure_kpa(10.0, 10.0, rh_mean_pct=103.0).kpa
    assert vapour == pytest.approx(et.saturation_vapour_pressure_kpa(10.0))
