"""A lid over slow seed, on small invented gardens."""

from __future__ import annotations

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import lid
from spadework.garden import entries as kinds

PARSNIPS = kinds.Sown(planting="parsnip-1", crop="parsnip", rows=2, row_length_m=2.0, area_m2=1.0, seeds=200)
GARDEN = [bed(), said(PARSNIPS, "2026-04-20", bed="bed-1")]
DRY = Weather(rain_every=0)
ON = said(kinds.Moved(act="on", item="board or sacking"), "2026-04-21", bed="bed-1", planting="parsnip-1")


def test_it_is_laid_over_what_takes_weeks() -> None:
    job = only(lid.jobs(scene_of(GARDEN, "2026-04-21", DRY)))
    assert job.act.startswith("Lay a board or sacking over the parsnips")
    assert job.forfeit(7) > job.forfeit(1) >= 0.0
    assert job.window.closes > job.window.opens
    owned, laid = job.done  # a board nobody has put into the kit is put there first
    assert isinstance(owned, kinds.KitSet)
    assert isinstance(laid, kinds.Moved)
    assert (laid.act, laid.item) == ("on", owned.item)


def test_not_over_what_is_up_in_a_week() -> None:
    radish = kinds.Sown(planting="radish-1", crop="radish", rows=2, row_length_m=2.0, area_m2=1.0, seeds=200)
    assert not list(lid.jobs(scene_of([bed(), said(radish, "2026-05-20", bed="bed-1")], "2026-05-21", DRY)))


def test_where_rain_keeps_it_wet_nothing_is_at_stake() -> None:
    rainy = Weather(rain_every=1, rain_of_mm=8.0)
    assert only(lid.jobs(scene_of(GARDEN, "2026-04-21", rainy))).forfeit(21) < 1e-6


def test_it_is_looked_under_once_a_day_and_more_is_lost_near_emergence() -> None:
    early = only(lid.jobs(scene_of([*GARDEN, ON], "2026-04-23", DRY)))
    late = only(lid.jobs(scene_of([*GARDEN, ON], "2026-05-18", DRY)))
    assert early.id == late.id == "lid-parsnip-1-look"
    assert early.forfeit(3) < late.forfeit(3)
    looked = said(kinds.Stage(what="up", reached=False), "2026-05-18", planting="parsnip-1")
    assert not list(lid.jobs(scene_of([*GARDEN, ON, looked], "2026-05-18", DRY)))


def test_off_at_the_first_seedling() -> None:
    up = said(kinds.Stage(what="up"), "2026-05-18", planting="parsnip-1")
    job = only(lid.jobs(scene_of([*GARDEN, ON, up], "2026-05-18", DRY)))
    assert job.act.startswith("Take the lid off")
    assert job.forfeit(3) > 0.1
    off = said(
        kinds.Moved(act="off", item="board or sacking"), "2026-05-18", bed="bed-1", planting="parsnip-1"
    )
    assert not list(lid.jobs(scene_of([*GARDEN, ON, up, off], "2026-05-18", DRY)))
