"""Watering a bed by what its roots have left, on small invented gardens."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.conditions import conditions_of, hours_for
from spadework.advice.job import Job
from spadework.advice.jobs import water
from spadework.advice.waiting import ANEW_COST
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


def test_nothing_is_watered_in_frost() -> None:
    job = only(water.jobs(scene_of(_garden(), TODAY, DRY)))
    cold = conditions_of(scene_of(_garden(), TODAY, Weather(mean_c=-20.0, rain_every=0)))
    warm = conditions_of(scene_of(_garden(), TODAY, DRY))
    assert hours_for(warm, job.needs)
    assert not hours_for(cold, job.needs)


# -- its allowance -------------------------------------------------------------------------------------


def test_a_job_gives_no_more_than_is_left_of_the_allowance_and_says_what_stays_short() -> None:
    free = only(water.jobs(scene_of(_garden(), TODAY, DRY)))
    wanted = free.take[0].litres
    given = _given(10.0, TODAY - timedelta(days=3))
    plain = only(water.jobs(scene_of([*_garden(), given], TODAY, DRY)))
    job = only(water.jobs(scene_of([*_garden(week_allowance_l=30.0), given], TODAY, DRY)))
    assert wanted is not None
    assert job.take[0].litres == 20.0
    assert job.done == (kinds.Watered(litres=20.0),)
    assert "Of its allowance of 30 l a week 20 l are left." in job.reason
    assert "stay short" in job.reason
    # the part of the water saves that part of the loss
    assert job.forfeit(7) == pytest.approx(plain.forfeit(7) * 20.0 / plain.take[0].litres, rel=0.01)


def test_a_watering_eight_days_ago_does_not_count() -> None:
    old = _given(10.0, TODAY - timedelta(days=7))
    job = only(water.jobs(scene_of([*_garden(week_allowance_l=30.0), old], TODAY, DRY)))
    assert job.take[0].litres == 30.0


def test_where_the_allowance_is_used_up_the_job_opens_when_it_is_free_again() -> None:
    used = _given(30.0, TODAY - timedelta(days=5))
    job = only(water.jobs(scene_of([*_garden(week_allowance_l=30.0), used], TODAY, DRY)))
    assert job.window.opens == job.window.closes == TODAY + timedelta(days=2)
    assert job.take[0].litres == 30.0
    assert "none is left" in job.reason
    assert "From 12 Jul 30 l are free again." in job.reason


def test_an_allowance_that_only_wets_the_top_gives_no_job() -> None:
    assert not list(water.jobs(scene_of(_garden(week_allowance_l=2.0), TODAY, DRY)))


def test_an_allowance_above_what_is_wanted_changes_nothing_but_the_reason() -> None:
    free = only(water.jobs(scene_of(_garden(), TODAY, DRY)))
    job = only(water.jobs(scene_of(_garden(week_allowance_l=500.0), TODAY, DRY)))
    assert (job.act, job.done, job.window) == (free.act, free.done, free.window)
    assert job.reason == f"{free.reason} Of its allowance of 500 l a week all of it is left."


def test_a_watering_of_unknown_size_is_said_not_to_count() -> None:
    unknown = said(kinds.Watered(), TODAY - timedelta(days=2), bed="bed-1")
    job = only(water.jobs(scene_of([*_garden(week_allowance_l=30.0), unknown], TODAY, DRY)))
    assert "Nobody said how much one watering gave: not counted." in job.reason


# -- a bed that is short, and one that wilts -----------------------------------------------------------


def test_a_bed_short_today_closes_within_the_days_plants_stand_it() -> None:
    scene = scene_of(_garden(), TODAY, DRY)
    found = scene.water_of("bed-1")
    assert found is not None
    assert found.short(scene.column).all()
    job = only(water.jobs(scene))
    assert job.window.closes <= TODAY + timedelta(days=water.UNHARMED_DAYS)
    assert not job.window.open_ended


def test_a_bed_in_which_harm_is_being_done_closes_today() -> None:
    later = TODAY + timedelta(days=20)
    scene = scene_of(_garden(), later, DRY)
    found = scene.water_of("bed-1")
    assert found is not None
    assert (found.stress[:, scene.column] < water.HARMED).all()
    assert only(water.jobs(scene)).window.closes == later


def _wilting(planting: kinds.Payload, since: str, on: date) -> Job:
    """The job of a bed that has stood without a drop until it wilts."""
    scene = scene_of([bed(), said(planting, since, bed="bed-1")], on, DRY)
    found = scene.water_of("bed-1")
    assert found is not None
    assert (found.stress[:, scene.column] < water.WILTED).all()
    return only(water.jobs(scene))


def test_what_wilts_for_days_is_dead_but_for_what_can_be_had_anew() -> None:
    job = _wilting(TOMATOES, "2026-05-20", TODAY + timedelta(days=40))
    assert job.forfeit(water.DEAD_DAYS - 1) < 0.5
    assert job.forfeit(water.DEAD_DAYS) > 0.9


def test_what_stands_over_years_dies_slower_and_cannot_be_had_anew() -> None:
    berries = kinds.PlantedOut(planting="s-1", crop="strawberry", plants=10, perennial=True)
    job = _wilting(berries, "2024-08-10", TODAY + timedelta(days=40))
    days = round(water.DEAD_DAYS * water.CROWN_SLOWER)
    week = 7 * water.WILT_LOSS / water.CROWN_SLOWER
    assert week <= job.forfeit(7) < week + 0.1
    assert job.forfeit(days - 1) < 0.7
    assert job.forfeit(days) == pytest.approx(1.0)


def test_a_wilting_row_that_can_be_sown_again_still_does_not_wait() -> None:
    radishes = kinds.Sown(planting="r-1", crop="radish", rows=6, row_length_m=2.0)
    for days in range(20, 60):
        on = date(2026, 5, 1) + timedelta(days=days)
        scene = scene_of([bed(), said(radishes, "2026-05-01", bed="bed-1")], on, DRY)
        found = scene.water_of("bed-1")
        if found is not None and (found.stress[:, scene.column] < water.WILTED).all():
            assert only(water.jobs(scene)).forfeit(7) >= 0.5 * ANEW_COST
            return
    pytest.fail("the radishes never wilted")
