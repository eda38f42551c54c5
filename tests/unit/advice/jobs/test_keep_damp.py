"""Keeping a sowing damp, on small invented gardens."""

from __future__ import annotations

from datetime import date

import pytest

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import keep_damp
from spadework.garden import entries as kinds

CARROTS = kinds.Sown(planting="carrot-1", crop="carrot", rows=2, row_length_m=2.0, area_m2=1.0, seeds=300)
GARDEN = [bed(), said(CARROTS, "2026-05-20", bed="bed-1")]
DRY = Weather(rain_every=0)


def test_a_bare_row_in_dry_weather_is_watered_and_waiting_kills_more_each_day() -> None:
    job = only(keep_damp.jobs(scene_of(GARDEN, "2026-05-26", DRY)))
    assert job.id == "keep-damp-carrot-1"
    assert 0.0 == job.forfeit(0) < job.forfeit(1) < job.forfeit(3) <= job.forfeit(7) < 0.5
    assert job.window.opens == date(2026, 5, 26)
    assert not job.window.open_ended
    (water,) = job.done
    # 2 mm on a square metre by can, of which 85 in 100 reach the ground
    assert isinstance(water, kinds.Watered)
    assert water.litres == pytest.approx(2.0 / 0.85, abs=0.01)
    assert "times" not in job.act
    assert "l now" in job.act


def test_hot_days_dry_it_in_fewer_hours() -> None:
    def hours(weather: Weather) -> float:
        job = only(keep_damp.jobs(scene_of(GARDEN, "2026-05-26", weather)))
        value = job.facts[0].value
        return 24.0 if value is None else float(value)

    assert hours(Weather(rain_every=0, mean_c=15.0, half_range_c=9.0)) < hours(
        Weather(rain_every=0, mean_c=6.0, half_range_c=4.0)
    )


def test_seed_that_has_not_begun_only_waits() -> None:
    early = only(keep_damp.jobs(scene_of(GARDEN, "2026-05-20", DRY)))
    later = only(keep_damp.jobs(scene_of(GARDEN, "2026-05-28", DRY)))
    assert early.forfeit(1) < later.forfeit(1)


def test_nothing_is_lost_that_can_be_sown_again() -> None:
    """A late main crop cannot be replaced; a radish can."""
    radish = kinds.Sown(planting="radish-1", crop="radish", rows=2, row_length_m=2.0, area_m2=1.0, seeds=300)
    parsnip = kinds.Sown(
        planting="parsnip-1", crop="parsnip", rows=2, row_length_m=2.0, area_m2=1.0, seeds=300
    )
    quick = only(
        keep_damp.jobs(scene_of([bed(), said(radish, "2026-06-01", bed="bed-1")], "2026-06-03", DRY))
    )
    slow = only(
        keep_damp.jobs(scene_of([bed(), said(parsnip, "2026-06-01", bed="bed-1")], "2026-06-09", DRY))
    )
    assert slow.forfeit(7) > 2.0 * quick.forfeit(7)


def test_rain_today_does_it() -> None:
    wet = Weather(rain_every=0, rain_mm={date(2026, 5, 26): 12.0})
    assert not list(keep_damp.jobs(scene_of(GARDEN, "2026-05-26", wet)))


@pytest.mark.parametrize(
    "entry",
    [
        said(kinds.Counted(standing=200), "2026-05-26", planting="carrot-1"),
        said(kinds.Ended(how="lost"), "2026-05-26", planting="carrot-1"),
    ],
)
def test_not_once_it_is_counted_or_gone(entry: kinds.Entry) -> None:
    assert not list(keep_damp.jobs(scene_of([*GARDEN, entry], "2026-05-26", DRY)))


def test_watered_today_as_often_as_it_wants_is_enough() -> None:
    mild = Weather(rain_every=0, mean_c=4.0, half_range_c=3.0)
    job = only(keep_damp.jobs(scene_of(GARDEN, "2026-05-26", mild)))
    wanted = int(float(job.facts[1].value or 0))
    watered = [said(kinds.Watered(litres=2.0), "2026-05-26", bed="bed-1") for _ in range(wanted)]
    assert not list(keep_damp.jobs(scene_of([*GARDEN, *watered], "2026-05-26", mild)))
    if wanted > 1:
        again = only(keep_damp.jobs(scene_of([*GARDEN, *watered[1:]], "2026-05-26", mild)))
        assert again.id != job.id


def test_sets_and_deep_seed_lie_below_what_dries() -> None:
    deep = kinds.Sown(planting="pea-1", crop="pea", depth_mm=40.0, seeds=80, area_m2=1.0)
    sets = kinds.Sown(planting="onion-1", crop="onion", method="sets", seeds=80, area_m2=1.0)
    for act in (deep, sets):
        assert not list(
            keep_damp.jobs(scene_of([bed(), said(act, "2026-05-01", bed="bed-1")], "2026-05-08", DRY))
        )


def test_a_lid_saves_waterings() -> None:
    lid = said(kinds.Moved(act="on", item="board or sacking"), "2026-05-21", bed="bed-1", planting="carrot-1")
    bare = only(keep_damp.jobs(scene_of(GARDEN, "2026-05-26", DRY)))
    under = list(keep_damp.jobs(scene_of([*GARDEN, lid], "2026-05-26", DRY)))
    assert sum(float(job.facts[1].value or 0) for job in under) < float(bare.facts[1].value or 0)
