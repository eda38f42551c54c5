"""Heat index, UV index and wet leaves beside published tables and formulas."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.errors import ParameterError
from spadework.science import comfort, sun

# Heat index chart of the United States National Weather Service, degF and percent; recalled, whole degrees.
CHART = [
    (80, 40, 80), (90, 90, 122), (86, 100, 112), (88, 75, 103), (90, 40, 91), (90, 50, 95), (90, 60, 100),
    (94, 60, 110), (96, 50, 108), (100, 40, 109), (100, 50, 118), (100, 55, 124),
    (106, 40, 124), (110, 40, 136),
]  # fmt: skip


@pytest.mark.parametrize(("temp_f", "humid", "printed"), CHART)
def test_heat_index_beside_the_published_chart(temp_f: float, humid: float, printed: float) -> None:
    found = comfort.heat_index_c((temp_f - 32.0) / 1.8, humid) * 1.8 + 32.0
    # the chart holds the regression without its adjustments, which meets its tables within 1.3 degF
    assert found == pytest.approx(printed, abs=1.3)


def test_heat_index_adjustments_and_mild_air() -> None:
    # dry: (13 - 10) / 4 * 1 is taken off at 95 degF; moist: (95 - 85) / 10 * (87 - 82) / 5 is put on
    def regression(t: float, r: float) -> float:
        return float(
            -42.379 + 2.04901523 * t + 10.14333127 * r - 0.22475541 * t * r - 6.83783e-3 * t * t
            - 5.481717e-2 * r * r + 1.22874e-3 * t * t * r + 8.5282e-4 * t * r * r - 1.99e-6 * t * t * r * r
        )  # fmt: skip

    def ours(t: float, r: float) -> float:
        return float(comfort.heat_index_c((t - 32.0) / 1.8, r) * 1.8 + 32.0)

    assert ours(95.0, 10.0) == pytest.approx(regression(95.0, 10.0) - 0.75)
    assert ours(82.0, 95.0) == pytest.approx(regression(82.0, 95.0) + 1.0)
    assert ours(60.0, 50.0) == pytest.approx((0.5 * (60 + 61 - 8 * 1.2 + 50 * 0.094) + 60) / 2)
    assert np.isnan(comfort.heat_index_c(np.nan, 50.0))


def test_bands_of_heat_and_sun() -> None:
    fahrenheit = np.array([79.0, 80.0, 89.9, 90.0, 103.0, 125.0])
    assert comfort.heat_band((fahrenheit - 32.0) / 1.8 + 1e-9).tolist() == [0, 1, 1, 2, 3, 4]
    # the WHO guide: low to 2, moderate 3 to 5, high 6 and 7, very high 8 to 10, extreme from 11
    assert comfort.uv_band(np.array([0, 2.4, 2.5, 5.4, 6, 7.4, 7.5, 10.4, 11])).tolist() == [
        0, 0, 1, 1, 2, 2, 3, 3, 4,
    ]  # fmt: skip


@pytest.mark.parametrize(("zenith_deg", "printed"), [(30.0, 8.83), (60.0, 2.34)])
def test_uv_index_under_a_clear_sky(zenith_deg: float, printed: float) -> None:
    # Madronich 2007, 300 Dobson units
    assert comfort.uv_index(np.cos(np.radians(zenith_deg))) == pytest.approx(printed, abs=0.02)


def test_uv_index_height_ozone_cloud_and_night() -> None:
    sine = np.cos(np.radians(30.0))
    plain = comfort.uv_index(sine)
    assert comfort.uv_index(sine, elevation_m=2000.0) == pytest.approx(1.2 * plain)
    assert comfort.uv_index(sine, ozone_du=250.0) / plain == pytest.approx(1.25, abs=0.01)
    assert comfort.uv_index(sine, clear_share=0.3) < 0.5 * plain
    assert comfort.uv_index(-0.2) == 0.0


@pytest.mark.parametrize(("lat", "doy"), [(0.0, 80.0), (45.0, 172.0), (-34.0, 355.0), (60.0, 100.0)])
def test_elevation_of_the_sun_meets_noon_and_sunset(lat: float, doy: float) -> None:
    noon = sun.elevation_sine(lat, doy, [12.0])
    assert noon[0] == pytest.approx(sun.noon_elevation_sine(lat, doy))
    half = sun.day_length_geometric_h(lat, doy) / 2.0
    assert sun.elevation_sine(lat, doy, [12.0 - half, 12.0 + half]) == pytest.approx([0.0, 0.0], abs=1e-9)
    # the mean over the day is that of the radiation above the air
    hours = (np.arange(2880) + 0.5) / 120.0
    mean = np.maximum(sun.elevation_sine(lat, doy, hours), 0.0).mean()
    daily = sun.SOLAR_CONSTANT_MJ_MIN * 1440.0 * sun.inverse_relative_distance(doy) * mean
    assert daily == pytest.approx(sun.extraterrestrial_radiation_mj(lat, doy), rel=1e-4)


def test_humidity_from_the_dew_point() -> None:
    assert comfort.relative_humidity_pct(20.0, 20.0) == pytest.approx(100.0)
    # FAO-56 example 3 and 4: e0(24.5) is 3.075, e0(15) 1.705
    assert comfort.relative_humidity_pct(24.5, 15.0) == pytest.approx(100.0 * 1.705 / 3.075, abs=0.05)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ParameterError):
        comfort.heat_index_c(30.0, 101.0)
    with pytest.raises(ParameterError):
        comfort.uv_index(0.5, ozone_du=0.0)
    with pytest.raises(ParameterError):
        comfort.wet_leaf_hours(np.zeros(12), 0.0)
    with pytest.raises(ParameterError):
        comfort.wet_leaf_hours(np.zeros(24), 0.0, -1.0)
