"""Watering a bed by what its roots have left, on small invented gardens."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import water
from spadework.garden import entries as kinds

TODAY = date(2026, 7, 10)
DRY = Weather(rain_every=0)
TOMATOES = kinds.PlantedOut(planting="tomato-1", crop="tomato", plants=6)


def _garden(**more: object) -> list[kinds.Entry]:
    return [bed(**more), said(TOMATOES, "2026-05-20", bed="bed-1")]


def _given(litres: float, on: date = TODAY) -> kinds.Entry:
    return said(kinds.Watered(litres=litres), on, bed="bed-1")


def test_a_dry_bed_is_watered_and_waiting_costs_more_and_more() -> None:
    job = only(water.jobs(scene_of(_garden(), TODAY, DRY)))
    assert job.id == "water-bed-1"
    assert 0.0 < job.forfeit(1) < job.forfeit(3) < job.forfeit(7) <= 1.0
    assert (np.diff(job.loss, axis=1) >= -1e-12).all()
    assert job.done == (kinds.Watered(litres=job.take[0].litres),)


def test_rain_does_it() -> None:
    assert not list(water.jobs(scene_of(_garden(), TODAY, Weather(rain_every=1, rain_of_mm=12.0))))


def test_a_watered_bed_is_not_watered_again() -> None:
    assert not list(water.jobs(scene_of([*_garden(), _given(90.0)], TODAY, DRY)))


def test_a_third_watering_of_a_day_is_not_offered() -> None:
    sips = [_given(2.0), said(kinds.Watered(litres=2.0), TODAY, bed="bed-1")]
    assert list(water.jobs(scene_of([*_garden(), sips[0]], TODAY, DRY)))
    assert not list(water.jobs(scene_of([*_garden(), *sips], TODAY, DRY)))


def test_litres_are_the_depth_over_the_bed_and_what_is_lost_on_the_way() -> None:
    scene = scene_of(_garden(), TODAY, DRY)
    job = only(water.jobs(scene))
    found = scene.water_of("bed-1")
    assert found is not None
    depth = min(float(found.depletion_mm[:, scene.column].mean()), water.MOST_MM)
    # 1.2 m by 2.4 m; 85 % of a can's or hose's water reaches the roots (common practice)
    assert job.take[0].litres == pytest.approx(depth * 1.2 * 2.4 / 0.85, abs=0.06)


def test_emitters_cost_the_turn_of_a_tap() -> None:
    scene = scene_of(_garden(water_by="emitters", emitters=12, emitter_l_h=2.0), TODAY, DRY)
    job = only(water.jobs(scene))
    assert job.minutes == water.TAP_MIN
    assert "min of its emitters" in job.act
    assert not job.take


def test_a_finger_that_disagrees_is_shown_with_what_is_believed() -> None:
    wet = said(kinds.SoilFelt(finger="damp", depth_cm=8.0), TODAY - timedelta(days=1), bed="bed-1")
    found = [fact for job in water.jobs(scene_of([*_garden(), wet], TODAY, DRY)) for fact in job.facts]
    assert any(fact.name.startswith("finger test") and "believed" in str(fact.value) for fact in found)


def test_seed_that_is_not_up_has_a_rule_of_its_own() -> None:
    sown = kinds.Sown(planting="carrot-1", crop="carrot", rows=3, row_length_m=2.0)
    garden = [bed(), said(sown, TODAY - timedelta(days=1), bed="bed-1")]
    assert not list(water.jobs(scene_of(garden, TODAY, DRY)))
