"""Sowing again and filling gaps, on small invented gardens."""

from __future__ import annotations

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import sow_again
from spadework.garden import entries as kinds

BEANS = kinds.Sown(
    planting="bean-1", crop="bush-bean", rows=2, row_length_m=3.0, spacing_cm=15.0, seeds=60, lot="bean-25"
)
LOT = said(kinds.LotSet(lot="bean-25", crop="bush-bean", seeds=200), "2026-01-10")
GARDEN = [bed(), LOT, said(BEANS, "2026-06-01", bed="bed-1")]
WARM = Weather(mean_c=12.0)


def counted(standing: int, on: str = "2026-06-22") -> kinds.Entry:
    return said(kinds.Counted(standing=standing), on, planting="bean-1")


def test_a_failed_row_is_sown_again_and_waiting_costs() -> None:
    job = only(sow_again.jobs(scene_of([*GARDEN, counted(3)], "2026-06-22", WARM)))
    assert job.kind == "sow again"
    assert job.id == "sow-again-bean-1"
    assert 0.0 < job.forfeit(1) < job.forfeit(7) < job.forfeit(14) <= 1.0
    (sown,) = job.done
    assert isinstance(sown, kinds.Sown)
    assert sown.planting == "bean-1"
    assert sown.lot == "bean-25"
    assert job.take[0].seeds == sown.seeds
    assert "140" in job.reason  # 200 seeds in the packet less the 60 sown


def test_a_full_row_is_left_alone() -> None:
    assert not list(sow_again.jobs(scene_of([*GARDEN, counted(45)], "2026-06-22", WARM)))


def test_nothing_before_a_count_or_after_it_was_sown_again_or_lost() -> None:
    assert not list(sow_again.jobs(scene_of(GARDEN, "2026-06-22", WARM)))
    again = said(kinds.Sown(planting="bean-1", crop="bush-bean", seeds=60), "2026-06-22", bed="bed-1")
    assert not list(sow_again.jobs(scene_of([*GARDEN, counted(3), again], "2026-06-22", WARM)))
    lost = said(kinds.Ended(how="lost"), "2026-06-22", planting="bean-1")
    assert not list(sow_again.jobs(scene_of([*GARDEN, counted(3), lost], "2026-06-22", WARM)))


def test_sown_anew_and_counted_too_thin_again_it_is_offered_again() -> None:
    again = said(kinds.Sown(planting="bean-1", crop="bush-bean", seeds=60), "2026-06-22", bed="bed-1")
    garden = [*GARDEN, counted(3), again, counted(4, "2026-07-12")]
    job = only(sow_again.jobs(scene_of(garden, "2026-07-12", WARM)))
    assert job.reason.startswith("4 stand")


def test_too_late_to_gain_anything() -> None:
    late = kinds.Sown(
        planting="bean-1", crop="bush-bean", rows=2, row_length_m=3.0, spacing_cm=15.0, seeds=60
    )
    entries = [bed(), said(late, "2026-09-01", bed="bed-1"), counted(3, "2026-09-20")]
    assert not [
        job for job in sow_again.jobs(scene_of(entries, "2026-09-20", WARM)) if job.forfeit(21) > 0.02
    ]
