"""The length of a degree, against printed lengths and against the ellipsoid in space."""

from __future__ import annotations

import math

import pytest

from spadework.errors import ParameterError
from spadework.science.globe import EQUATOR_RADIUS_M, FLATTENING, metres_per_degree


@pytest.mark.parametrize(
    ("lat", "north_km", "east_km"),
    [
        (0, 110.574, 111.320),
        (15, 110.649, 107.550),
        (30, 110.852, 96.486),
        (45, 111.132, 78.847),
        (60, 111.412, 55.800),
        (75, 111.618, 28.902),
    ],
)
def test_printed_lengths(lat: float, north_km: float, east_km: float) -> None:
    """The usual table of lengths of a degree on WGS 84 (class memory), printed to the metre."""
    north_m, east_m = metres_per_degree(lat)
    assert north_m / 1000 == pytest.approx(north_km, abs=0.001)
    assert east_m / 1000 == pytest.approx(east_km, abs=0.001)
    assert metres_per_degree(-lat) == (north_m, east_m)


def in_space(lat_deg: float, lon_deg: float) -> tuple[float, float, float]:
    """A point of the ellipsoid, from the earth's middle (computed: the definition of geodetic latitude)."""
    lat, lon = math.radians(lat_deg), math.radians(lon_deg)
    across = EQUATOR_RADIUS_M / math.sqrt(math.cos(lat) ** 2 + (1 - FLATTENING) ** 2 * math.sin(lat) ** 2)
    out = across * math.cos(lat)
    return out * math.cos(lon), out * math.sin(lon), across * (1 - FLATTENING) ** 2 * math.sin(lat)


@pytest.mark.parametrize("lat", [-89.0, -43.5, 0.0, 12.0, 52.1, 69.6, 89.0])
def test_ten_metres_are_ten_metres_in_space(lat: float) -> None:
    north_m, east_m = metres_per_degree(lat)
    here = in_space(lat, 7.0)
    assert math.dist(here, in_space(lat + 10 / north_m, 7.0)) == pytest.approx(10, abs=1e-4)
    assert math.dist(here, in_space(lat, 7.0 + 10 / east_m)) == pytest.approx(10, abs=1e-4)


@pytest.mark.parametrize("lat", [90.0, -89.95, math.nan])
def test_at_the_poles_there_is_no_plan(lat: float) -> None:
    with pytest.raises(ParameterError, match="on the map"):
        metres_per_degree(lat)
