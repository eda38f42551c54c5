"""The site: what a garden's place may be."""

from __future__ import annotations

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
