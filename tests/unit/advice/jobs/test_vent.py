"""Houses are opened before they overheat."""

from __future__ import annotations

from datetime import date

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import vent
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

MAY = date(2026, 5, 25)
JULY = date(2026, 7, 10)


def tunnel(*more: Entry) -> list[Entry]:
    """A tunnel with tomatoes."""
    act = kinds.PlantedOut(planting="t", crop="tomato", plants=12, area_m2=8.0)
    house = bed("tunnel", "Tunnel", shape="tunnel", width_m=3.0, length_m=6.0)
    return [house, said(act, MAY, bed="tunnel"), *more]


def test_a_shut_house_in_sun_is_opened_and_costs_most_to_forget() -> None:
    warm = Weather(mean_c=12.0, half_range_c=8.0)
    job = only(vent.jobs(scene_of(tunnel(), JULY, warm)))
    assert job.kind == "vent"
    assert job.forfeit(1) > 0.0
    assert job.forfeit(7) > 5.0 * job.forfeit(1) * 0.8
    assert job.cautions


def test_a_house_that_stands_open_is_left() -> None:
    opened = said(kinds.Moved(act="opened"), JULY, bed="tunnel")
    warm = Weather(mean_c=12.0, half_range_c=8.0)
    assert not list(vent.jobs(scene_of(tunnel(opened), JULY, warm)))


def test_a_cool_dull_day_leaves_it_shut() -> None:
    dull = Weather(mean_c=0.0, swing_c=8.0, half_range_c=1.5)
    assert not list(vent.jobs(scene_of(tunnel(), JULY, dull)))
