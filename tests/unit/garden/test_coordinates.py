"""Places on the globe as people write them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.garden.coordinates import place_text, read_angle, read_place


@pytest.mark.parametrize(
    ("text", "lat_deg", "lon_deg"),
    [
        ("52.1 N 0.1 W", 52.1, -0.1),
        ("52.1, -0.1", 52.1, -0.1),
        ("52.1 -0.1", 52.1, -0.1),
        ("52,1; -0,1", 52.1, -0.1),
        ("52°06'N, 0°06'W", 52.1, -0.1),
        ("52 06 N 0 06 W", 52.1, -0.1),
        ("52° 6′ 0″ N 0° 6′ 0″ W", 52.1, -0.1),
        ("N52.1 W0.1", 52.1, -0.1),
        ("S 33 54, E 151 12", -33.9, 151.2),
        ("33.9 south 151.2 east", -33.9, 151.2),
        ("151.2 E, 33.9 S", -33.9, 151.2),
        ("47.2 -93.4", 47.2, -93.4),
        ("47 degrees 12 min north, 93 deg 24 min west", 47.2, -93.4),
    ],
)
def test_places(text: str, lat_deg: float, lon_deg: float) -> None:
    assert read_place(text) == pytest.approx((lat_deg, lon_deg), abs=1e-6)


@pytest.mark.parametrize(
    "text", ["", "home", "52.1", "52.1 E 0.1 N W", "52.5 70 N 0 0 W", "52 75 N 0 6 E", "-52 S 3 E", "nan 0"]
)
def test_what_is_no_place(text: str) -> None:
    with pytest.raises(ParameterError) as refused:
        read_place(text)
    assert refused.value.hint


def test_a_longitude_is_no_latitude() -> None:
    with pytest.raises(ParameterError, match="latitude"):
        read_angle("5 E", "latitude")


@given(st.integers(-90000, 90000), st.integers(-180000, 180000))
def test_a_place_said_is_read_again(lat: int, lon: int) -> None:
    place = (lat / 1000, lon / 1000)
    assert read_place(place_text(*place)) == pytest.approx(place, abs=1e-3)


@given(st.text(max_size=30))
def test_any_text_is_a_place_or_refused(text: str) -> None:
    try:
        place = read_place(text)
    except ParameterError:
        return
    assert len(place) == 2
