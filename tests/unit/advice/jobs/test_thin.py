"""Thinning, on small invented gardens."""

from __future__ import annotations

from scenes import bed, only, said, scene_of
from spadework.advice.jobs import thin
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

CARROTS = kinds.Sown(planting="carrot-1", crop="carrot", rows=2, row_length_m=2.0, spacing_cm=7, seeds=500)
SOWN = [bed(), said(CARROTS, "2026-05-01", bed="bed-1")]


def _with(leaves: float, standing: int, *more: Entry) -> list[Entry]:
    return [
        *SOWN,
        said(kinds.Counted(standing=standing), "2026-06-01", planting="carrot-1"),
        said(kinds.Measured(leaves=leaves), "2026-06-01", planting="carrot-1"),
        *more,
    ]


def test_the_first_pass_opens_at_one_to_two_true_leaves() -> None:
    # common practice, no source: carrots get a first pass at one to two true leaves
    early = only(thin.jobs(scene_of(_with(0.5, 200), "2026-06-01")))
    assert early.window.opens.isoformat() > "2026-06-01"
    job = only(thin.jobs(scene_of(_with(1.6, 200), "2026-06-01")))
    assert job.window.opens.isoformat() == "2026-06-01"
    assert job.id == "thin-carrot-1-1"


def test_how_many_stand_and_how_many_stay() -> None:
    job = only(thin.jobs(scene_of(_with(2.0, 200), "2026-06-01")))
    assert "200 stand where 114 are to stay" in job.reason  # 4 m at 3.5 cm
    assert job.done == (kinds.Thinned(left=114, spacing_cm=3.5),)


def test_the_last_pass_goes_to_the_wanted_distance() -> None:
    # common practice, no source: to about 7 to 8 cm apart where large roots are wanted
    first = said(kinds.Thinned(left=114, spacing_cm=3.5), "2026-06-02", planting="carrot-1")
    tall = said(kinds.Measured(leaves=4.0), "2026-06-20", planting="carrot-1")
    garden = scene_of(_with(2.0, 200, first, tall), "2026-06-20")
    job = only(thin.jobs(garden))
    assert job.id == "thin-carrot-1-2"
    assert "to 7 cm" in job.act


def test_waiting_costs_more_the_longer_and_nothing_where_there_is_room() -> None:
    job = only(thin.jobs(scene_of(_with(2.0, 300), "2026-06-01")))
    assert 0.0 <= job.forfeit(3) <= job.forfeit(7) <= job.forfeit(21)
    assert job.forfeit(21) > 0.01
    assert not list(thin.jobs(scene_of(_with(3.0, 50), "2026-06-01")))


def test_not_what_was_set_out_and_not_twice_on_a_day() -> None:
    done = said(kinds.Thinned(left=114, spacing_cm=3.5), "2026-06-01", planting="carrot-1")
    assert not list(thin.jobs(scene_of(_with(2.0, 200, done), "2026-06-01")))
    leeks = kinds.PlantedOut(planting="leek-1", crop="leek", plants=60, rows=2, row_length_m=2.0)
    assert not list(thin.jobs(scene_of([bed(), said(leeks, "2026-05-20", bed="bed-1")], "2026-06-10")))


def test_a_root_fly_moves_it_to_a_still_evening_and_thinnings_are_carried_away() -> None:
    job = only(thin.jobs(scene_of(_with(2.0, 200), "2026-06-01")))
    assert {"evening", "still air", "not in heat"} <= set(job.needs)
    assert "carry every thinning away" in job.reason
    assert "water it in" in job.reason
    assert any(take.litres for take in job.take)


def test_tap_roots_are_not_set_again_and_clusters_go_to_one() -> None:
    assert "Do not set thinnings again" in only(thin.jobs(scene_of(_with(2.0, 200), "2026-06-01"))).reason
    beets = kinds.Sown(planting="beet-1", crop="beet", rows=2, row_length_m=2.0, seeds=200)
    garden = [
        bed(),
        said(beets, "2026-05-01", bed="bed-1"),
        said(kinds.Counted(standing=250), "2026-06-01", planting="beet-1"),
        said(kinds.Measured(leaves=2.0), "2026-06-01", planting="beet-1"),
    ]
    assert "leave one of each" in only(thin.jobs(scene_of(garden, "2026-06-01"))).reason


def test_a_very_crowded_row_is_snipped() -> None:
    job = only(thin.jobs(scene_of(_with(2.0, 300), "2026-06-01")))
    assert "Snip" in job.reason
    assert any(take.what == "scissors" for take in job.take)
