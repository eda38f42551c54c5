"""Picking: opens with warmth since the last, costs what passes its size, and comes before frost and rain."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import pick
from spadework.advice.ripe import Ripe
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

TODAY = date(2026, 8, 1)


def planted(crop: str, on: str) -> list[Entry]:
    """A bed with one planting of set-out plants."""
    act = kinds.PlantedOut(planting="p", crop=crop, plants=6, area_m2=2.0)
    return [bed(), said(act, on, bed="bed-1")]


def sown(crop: str, on: str) -> list[Entry]:
    """A bed with one sowing."""
    return [bed(), said(kinds.Sown(planting="p", crop=crop, area_m2=2.0), on, bed="bed-1")]


def picked(days_ago: int, today: date = TODAY) -> Entry:
    """A picking some days ago."""
    return said(kinds.Picked(kg=1.0), today - timedelta(days=days_ago), bed="bed-1", planting="p")


def courgettes(*more: Entry) -> list[Entry]:
    """Courgettes that began to bear three weeks before today."""
    ready = said(kinds.Stage(what="ready"), "2026-07-12", bed="bed-1", planting="p")
    return [*planted("summer-squash", "2026-05-25"), ready, *more]


def test_courgettes_want_picking_every_few_days_in_warmth() -> None:
    # common practice, no source: courgettes are picked every day or two in warm weather
    warm = Weather(mean_c=14.0)
    scene = scene_of(courgettes(picked(1)), TODAY, warm)
    assert 1.0 <= Ripe(scene.plots[0]).between_days <= 3.0
    early = only(pick.jobs(scene_of(courgettes(picked(1)), TODAY, warm)))
    late = only(pick.jobs(scene_of(courgettes(picked(6)), TODAY, warm)))
    assert late.window.opens == TODAY
    assert early.window.opens > TODAY - timedelta(days=1)
    assert late.forfeit(3) > early.forfeit(3) > 0.0


def test_cool_weather_lets_it_wait() -> None:
    warm = only(pick.jobs(scene_of(courgettes(picked(2)), TODAY, Weather(mean_c=14.0))))
    cool = only(pick.jobs(scene_of(courgettes(picked(2)), TODAY, Weather(mean_c=6.0))))
    assert cool.window.opens > warm.window.opens
    assert cool.forfeit(3) < warm.forfeit(3)


def test_waiting_costs_more_each_day() -> None:
    job = only(pick.jobs(scene_of(courgettes(picked(2)), TODAY)))
    assert np.all(np.diff(job.mean_loss) >= 0.0)
    assert 0.0 < job.forfeit(1) < job.forfeit(3) < job.forfeit(7) <= 1.0


def test_picked_today_is_not_offered_again() -> None:
    assert not list(pick.jobs(scene_of(courgettes(picked(0)), TODAY)))


def test_nothing_is_offered_under_a_lock_or_after_the_last_picking() -> None:
    lock = kinds.Locked(lock="spray", on="bed", why="sprayed", stops="picking", until=date(2026, 8, 9))
    locked = [*courgettes(picked(3)), said(lock, "2026-07-31", bed="bed-1")]
    assert not list(pick.jobs(scene_of(locked, TODAY)))
    last = said(kinds.Picked(kg=1.0, last=True), "2026-07-30", bed="bed-1", planting="p")
    assert not list(pick.jobs(scene_of(courgettes(last), TODAY)))


def test_before_it_is_nearly_ready_nothing_is_said() -> None:
    assert not list(pick.jobs(scene_of(planted("tomato", "2026-07-20"), TODAY)))


def test_frost_tonight_brings_the_picking_forward() -> None:
    calm = Weather(mean_c=9.0, spread_c=0.5)
    frost = Weather(mean_c=9.0, spread_c=0.5, low_c={TODAY + timedelta(days=1): -5.0})
    left = only(pick.jobs(scene_of(courgettes(picked(1)), TODAY, calm)))
    cold = only(pick.jobs(scene_of(courgettes(picked(1)), TODAY, frost)))
    assert cold.window.opens == TODAY
    assert cold.forfeit(1) > left.forfeit(1)
    assert "frost" in cold.reason


def test_heavy_rain_splits_cabbages_and_not_leeks() -> None:
    rain = Weather(rain_every=0, rain_mm={TODAY + timedelta(days=2): 45.0})
    dry = Weather(rain_every=0)
    ready = said(kinds.Stage(what="ready"), "2026-07-28", bed="bed-1", planting="p")
    entries = [*planted("cabbage", "2026-05-01"), ready]
    wet, fine = (only(pick.jobs(scene_of(entries, TODAY, weather))) for weather in (rain, dry))
    assert wet.forfeit(3) - fine.forfeit(3) == pytest.approx(0.2, abs=0.05)
    assert "splitting" in wet.reason
    assert "splitting" not in fine.reason


def test_a_knife_is_taken_and_its_caution_said_once() -> None:
    job = only(pick.jobs(scene_of(courgettes(picked(3)), TODAY)))
    assert [take.what for take in job.take] == ["knife or secateurs"]
    assert sum("knife" in caution.text for caution in job.cautions) == 1
    assert "blades" in job.strains
    assert job.done == (kinds.Picked(),)
    assert job.id == "pick-p"


def test_pods_and_fruit_wait_for_dry_leaves_and_leaves_for_cool() -> None:
    ready = said(kinds.Stage(what="ready"), "2026-07-25", bed="bed-1", planting="p")
    beans = only(pick.jobs(scene_of([*sown("bush-bean", "2026-05-25"), ready], TODAY)))
    assert "dry leaves" in beans.needs
    chard = only(pick.jobs(scene_of([*sown("chard", "2026-05-01"), ready], TODAY)))
    assert "not in heat" in chard.needs


def test_alyssum_is_grown_for_its_insects() -> None:
    assert not list(pick.jobs(scene_of(sown("alyssum", "2026-04-20"), TODAY)))


def test_in_a_wet_week_pods_are_picked_wet_and_before_a_dry_day_they_wait() -> None:
    act = kinds.Sown(planting="p", crop="pea", area_m2=2.0)
    ready = said(kinds.Stage(what="ready"), "2026-07-20", bed="bed-1", planting="p")
    peas = [bed(), said(act, "2026-04-25", bed="bed-1"), ready, picked(4)]
    week = {TODAY + timedelta(days=day): 6.0 for day in range(7)}
    wet = only(pick.jobs(scene_of(peas, TODAY, Weather(mean_c=12.0, rain_mm=week))))
    assert "dry leaves" not in wet.needs
    assert pick.WET in wet.cautions
    shower = {TODAY: 6.0, TODAY + timedelta(days=1): 0.0}
    waits = only(pick.jobs(scene_of(peas, TODAY, Weather(mean_c=12.0, rain_mm=shower))))
    assert "dry leaves" in waits.needs
    assert pick.WET not in waits.cautions
