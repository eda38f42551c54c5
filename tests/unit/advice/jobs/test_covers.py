"""Covers off for heat and bees, houses open in sun: one state for each bed."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import uncover, vent
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

MAY = date(2026, 5, 25)
JULY = date(2026, 7, 10)


def fleece(metres: float) -> Entry:
    """Fleece owned."""
    return said(kinds.KitSet(item="fleece", sort="fleece", length_m=metres), "2026-01-01")


def set_out(crop: str, key: str, where: str, plants: int = 12, area_m2: float = 2.88) -> Entry:
    """A planting set out a fortnight before the cold night."""
    act = kinds.PlantedOut(planting=key, crop=crop, plants=plants, area_m2=area_m2)
    return said(act, MAY - timedelta(days=14), bed=where, planting=key)


def fleeced(crop: str, *more: Entry) -> list[Entry]:
    """A planting of May under fleece in July."""
    lies = said(kinds.Moved(act="on", item="fleece", length_m=2.4), MAY, bed="bed-1")
    return [bed(), set_out(crop, "p", "bed-1"), fleece(10.0), lies, *more]


def test_a_cover_comes_off_in_heat() -> None:
    hot = Weather(mean_c=16.0, swing_c=10.0)
    job = only(uncover.jobs(scene_of(fleeced("lettuce"), JULY, hot)))
    assert job.kind == "uncover"
    assert "30 °C" in job.reason
    assert job.settles == "cover:bed-1"
    assert np.all(np.diff(job.loss, axis=1) >= 0.0)


def test_flowers_that_want_bees_take_it_off() -> None:
    mild = Weather(mean_c=7.0, swing_c=9.0)
    bloom = said(kinds.Stage(what="first flower"), JULY, bed="bed-1", planting="p")
    job = only(uncover.jobs(scene_of(fleeced("summer-squash", bloom), JULY, mild)))
    assert "bees" in job.reason
    # leaves want none
    assert not list(uncover.jobs(scene_of(fleeced("lettuce"), JULY, mild)))


def test_a_cover_stays_on_in_the_cold() -> None:
    cold = Weather(mean_c=3.0, swing_c=6.0)
    assert not list(uncover.jobs(scene_of(fleeced("lettuce"), MAY + timedelta(days=1), cold)))


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
