"""Opening and taking off covers, on small invented gardens."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.cover_state import HEAT_LOSS, settle
from spadework.advice.jobs import cover, uncover
from spadework.clock.cover import FLEECE
from spadework.garden import entries as kinds

TODAY = date(2026, 5, 28)
GARDEN = [
    bed(),
    said(kinds.KitSet(item="fleece", sort="fleece", length_m=10.0), "2026-01-01"),
    said(kinds.PlantedOut(planting="tomato-1", crop="tomato", plants=6), "2026-05-20", bed="bed-1"),
    said(kinds.Moved(act="on", item="fleece", length_m=2.4), "2026-05-27", bed="bed-1"),
]


def _weather(low_c: float, high_c: float) -> Weather:
    days = [TODAY + timedelta(days=day) for day in range(10)]
    return Weather(low_c=dict.fromkeys(days, low_c), high_c=dict.fromkeys(days, high_c))


def test_on_a_cool_day_between_frosts_it_stays_on() -> None:
    assert not list(uncover.jobs(scene_of(GARDEN, TODAY, _weather(0.0, 14.0))))


def test_on_a_hot_day_between_frosts_it_is_opened_and_shut_again() -> None:
    job = only(uncover.jobs(scene_of(GARDEN, TODAY, _weather(0.0, 32.0))))
    assert job.kind == "vent"
    assert job.done == (kinds.Moved(act="opened", item="fleece"),)
    assert "shut it before sunset" in job.act
    assert job.cautions
    assert 0.0 < job.forfeit(1) < job.forfeit(7)


def test_with_no_frost_to_come_it_comes_off() -> None:
    job = only(uncover.jobs(scene_of(GARDEN, TODAY, _weather(11.0, 22.0))))
    assert job.kind == "uncover"
    assert job.done == (kinds.Moved(act="off", item="fleece"),)


def test_heat_costs_by_the_degree_above_the_limit() -> None:
    scene = scene_of(GARDEN, TODAY, _weather(0.0, 32.0))
    found = settle(scene, scene.plots, FLEECE, lies=True)
    assert found.under_c == pytest.approx(32.0 + FLEECE.day_c)
    assert found.heat == pytest.approx(HEAT_LOSS * (found.under_c - found.limit_c))
    assert found.state != found.second


@pytest.mark.parametrize("low_c", [-2.0, 0.0, 2.0, 4.0, 8.0, 12.0])
@pytest.mark.parametrize("high_c", [14.0, 24.0, 34.0])
def test_a_bed_gets_one_state(low_c: float, high_c: float) -> None:
    scene = scene_of(GARDEN, TODAY, _weather(low_c, high_c))
    assert len([*cover.jobs(scene), *uncover.jobs(scene)]) <= 1
