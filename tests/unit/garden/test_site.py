"""The site: what a garden's place may be."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from spadework.errors import ParameterError
from spadework.garden.site import SURFACE_KINDS, Site


def site(**changes: Any) -> Site:
    return Site(**({"name": "Plot", "lat_deg": 52, "lon_deg": 0.1, "elevation_m": 20} | changes))


def test_a_site_has_plain_defaults() -> None:
    s = site()
    assert (s.units, s.words, s.surface, s.hemisphere) == ("metric", "british", "bare-moist", "north")
    assert isinstance(s.lat_deg, float)


@pytest.mark.parametrize(
    ("lat", "hemisphere"), [(-31.4, "south"), (0.0, "north"), (90, "north"), (-90, "south")]
)
def test_the_hemisphere_follows_the_latitude(lat: float, hemisphere: str) -> None:
    s = site(lat_deg=lat)
    assert (s.hemisphere, s.south) == (hemisphere, hemisphere == "south")


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"lat_deg": 91}, "latitude 91 is not possible"),
        ({"lat_deg": float("nan")}, "latitude nan"),
        ({"lat_deg": "52"}, "latitude '52'"),
        ({"lat_deg": None}, "latitude None"),
        ({"lon_deg": -181}, "longitude"),
        ({"elevation_m": 9000}, "elevation"),
        ({"elevation_m": True}, "elevation True"),
        ({"name": " "}, "name"),
        ({"name": "a\nb"}, "name"),
        ({"name": "x" * 81}, "name"),
        ({"units": "imperial"}, "units is 'imperial'"),
        ({"words": "latin"}, "words is 'latin'"),
        ({"surface": "lava"}, "surface is 'lava'"),
    ],
)
def test_what_cannot_be_is_refused_in_words(changes: dict[str, Any], message: str) -> None:
    with pytest.raises(ParameterError, match=message):
        site(**changes)


def test_every_surface_is_allowed() -> None:
    assert {site(surface=kind).surface for kind in SURFACE_KINDS} == set(SURFACE_KINDS)


def test_hours_without_a_zone_are_standard_time_by_longitude() -> None:
    assert site(lon_deg=16.4).clock_offset_h(date(2026, 7, 1)) == pytest.approx(1.0 - 16.4 / 15.0)


@pytest.mark.parametrize(
    ("zone", "lon", "winter", "summer", "hours"),
    [
        # days of the change in 2026, by the time zone database
        ("Europe/Vienna", 16.4, date(2026, 3, 28), date(2026, 3, 29), (1.0, 2.0)),
        ("America/Toronto", -76.5, date(2026, 11, 1), date(2026, 10, 31), (-5.0, -4.0)),
        ("Australia/Melbourne", 145.0, date(2026, 4, 5), date(2026, 4, 4), (10.0, 11.0)),
        ("Australia/Melbourne", 145.0, date(2026, 10, 3), date(2026, 10, 4), (10.0, 11.0)),
        ("Asia/Kolkata", 77.2, date(2026, 1, 1), date(2026, 7, 1), (5.5, 5.5)),
    ],
)
def test_a_zone_has_its_summer_time(
    zone: str, lon: float, winter: date, summer: date, hours: tuple[float, float]
) -> None:
    s = site(zone=zone, lon_deg=lon)
    assert s.clock_offset_h(winter) == pytest.approx(hours[0] - lon / 15.0)
    assert s.clock_offset_h(summer) == pytest.approx(hours[1] - lon / 15.0)


@pytest.mark.parametrize("name", ["Europe/Viena", "../etc/passwd", "Europe", "x\x00y", 7])
def test_no_zone_is_said_with_the_nearest(name: Any) -> None:
    with pytest.raises(ParameterError) as caught:
        site(zone=name)
    assert "no time zone" in caught.value.message
    if name == "Europe/Viena":
        assert "Europe/Vienna" in caught.value.hint


@pytest.mark.parametrize(
    ("lat", "lon", "land"),
    [
        (52.1, 5.2, "europe"),
        (40.4, -101.7, "north america"),
        (-31.4, -64.2, "south america"),
        (-36.8, 174.8, "oceania"),
        (-1.3, 36.8, "africa"),
        (35.7, 139.7, "asia"),
        (32.1, 34.8, "asia"),
        (60.2, 24.9, "europe"),
        (-6.2, 106.8, "asia"),
    ],
)
def test_the_part_of_the_world_follows_the_place(lat: float, lon: float, land: str) -> None:
    assert Site("Place", lat, lon, 10.0).land == land
