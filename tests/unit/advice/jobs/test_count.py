"""Looking for emergence and counting, on small invented gardens."""

from __future__ import annotations

from datetime import date

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import count
from spadework.garden import entries as kinds

SWEETCORN = kinds.Sown(planting="corn-1", crop="sweet-corn", rows=2, row_length_m=2.0, seeds=20)
GARDEN = [bed(), said(SWEETCORN, "2026-06-08", bed="bed-1")]
WARM = Weather(mean_c=12.0)


def test_it_opens_when_half_of_it_is_likely_up() -> None:
    before = only(count.jobs(scene_of(GARDEN, "2026-06-09", WARM)))
    assert before.window.opens > date(2026, 6, 9)
    assert "Half of it is probably up about" in before.reason
    assert " in 0 of " not in before.reason
    after = only(count.jobs(scene_of(GARDEN, "2026-06-24", WARM)))
    assert after.window.opens == date(2026, 6, 24)


def test_a_failed_row_found_late_is_sown_again_late() -> None:
    job = only(count.jobs(scene_of(GARDEN, "2026-06-24", WARM)))
    assert 0.0 <= job.forfeit(1) <= job.forfeit(7) < job.forfeit(14) < 0.15


def test_what_is_counted_grown_or_set_out_is_not_counted() -> None:
    counted = said(kinds.Counted(standing=15), "2026-06-24", planting="corn-1")
    assert not list(count.jobs(scene_of([*GARDEN, counted], "2026-06-24", WARM)))
    assert not list(count.jobs(scene_of(GARDEN, "2026-07-25", WARM)))
    plants = kinds.PlantedOut(planting="leek-1", crop="leek", plants=30)
    assert not list(
        count.jobs(scene_of([bed(), said(plants, "2026-06-01", bed="bed-1")], "2026-06-24", WARM))
    )


def test_a_count_pays_even_where_sowing_again_would_bring_as_much() -> None:
    # the row lies idle for as long, and its crop comes later
    radish = kinds.Sown(planting="p", crop="radish", rows=3, row_length_m=1.2, seeds=144)
    job = only(count.jobs(scene_of([bed(), said(radish, "2026-05-20", bed="bed-1")], "2026-05-29")))
    assert job.forfeit(7) > 0.002


def test_looked_for_today_in_vain_it_is_not_asked_again_and_later_less_often() -> None:
    vain = said(kinds.Stage(what="up", reached=False), "2026-06-24", bed="bed-1", planting="corn-1")
    assert not list(count.jobs(scene_of([*GARDEN, vain], "2026-06-24", WARM)))
    again = only(count.jobs(scene_of([*GARDEN, vain], "2026-06-25", WARM)))
    usual = only(count.jobs(scene_of(GARDEN, "2026-06-25", WARM)))
    assert again.window.opens > usual.window.opens
