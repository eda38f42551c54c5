"""Guesses for a new garden."""

from __future__ import annotations

import pytest

from spadework.usecases.plan_guess import likely_name, likely_units, likely_zone, rough_place


@pytest.mark.parametrize(
    ("lat_deg", "lon_deg", "units"),
    [
        (44.95, -93.1, "us"),  # Saint Paul
        (41.9, -87.6, "us"),  # Chicago
        (44.5, -73.2, "us"),  # Burlington
        (61.2, -149.9, "us"),  # Anchorage
        (21.3, -157.9, "us"),  # Honolulu
        (51.5, -0.1, "metric"),
        (49.9, -97.1, "metric"),  # Winnipeg
        (43.7, -79.4, "metric"),  # Toronto
        (-33.9, 151.2, "metric"),
        (19.4, -99.1, "metric"),  # Mexico City
    ],
)
def test_units_by_place(lat_deg: float, lon_deg: float, units: str) -> None:
    assert likely_units(lat_deg, lon_deg) == units


def test_a_rough_place_by_the_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", "Nowhere/Atall")
    assert rough_place() is None
    monkeypatch.setenv("TZ", "Europe/London")
    place = rough_place()
    # Greenwich's zone is listed at 51°30'30"N 0°07'31"W in the time zone database (IANA, zone1970.tab)
    assert place is None or place == (51.5, -0.1, "Europe/London")


def test_names_of_machines_are_no_names() -> None:
    assert likely_name("robin") == "Robin"
    assert likely_name("root") == ""
    assert likely_name("svc-2") == ""


@pytest.mark.parametrize(
    ("machine", "lon_deg", "zone"),
    [
        ("Europe/Vienna", 16.4, "Europe/Vienna"),
        ("Europe/Vienna", -76.5, ""),  # a garden far from this computer
        ("UTC", 0.0, ""),  # names no place
        ("Etc/GMT-1", 15.0, ""),
        ("Nowhere/Atall", 0.0, ""),
    ],
)
def test_the_computers_zone_is_taken_where_the_garden_can_lie_in_it(
    machine: str, lon_deg: float, zone: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TZ", machine)
    assert likely_zone(lon_deg) == zone
