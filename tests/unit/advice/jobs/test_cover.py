"""Covers for a night of frost, on small invented gardens."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.cloth import Need, share_out
from spadework.advice.jobs import cover
from spadework.advice.tonight import killed_tonight, killed_under
from spadework.clock.cover import FLEECE
from spadework.garden import entries as kinds

TODAY = date(2026, 5, 28)
COLD = Weather(low_c={TODAY + timedelta(days=1): 0.0}, high_c={TODAY + timedelta(days=1): 12.0})
TOMATOES = kinds.PlantedOut(planting="tomato-1", crop="tomato", plants=6)
PEPPERS = kinds.PlantedOut(planting="pepper-1", crop="pepper", plants=2)


def _fleece(metres: float) -> kinds.Entry:
    return said(kinds.KitSet(item="fleece", sort="fleece", length_m=metres), "2026-01-01")


GARDEN = [bed(), said(TOMATOES, "2026-05-20", bed="bed-1"), _fleece(10.0)]


def test_tomatoes_are_covered_on_a_night_of_frost_and_not_on_a_mild_one() -> None:
    job = only(cover.jobs(scene_of(GARDEN, TODAY, COLD)))
    assert job.window.opens == job.window.closes == TODAY
    assert job.needs == ("before sunset",)
    assert job.forfeit(1) == pytest.approx(job.forfeit(7))
    assert job.forfeit(1) > 0.02
    assert job.done == (kinds.Moved(act="on", item="fleece", length_m=2.4),)
    mild = Weather(low_c={TODAY + timedelta(days=1): 9.0}, high_c={TODAY + timedelta(days=1): 20.0})
    assert not list(cover.jobs(scene_of(GARDEN, TODAY, mild)))


def test_a_cover_helps_but_may_gain_nothing() -> None:
    plot = scene_of(GARDEN, TODAY, COLD).plots[0]
    bare, full = killed_tonight(plot), killed_tonight(plot, 2.0 * FLEECE.night_c)
    under = killed_under(plot, FLEECE)
    assert (full < under).all()
    assert (under < bare).all()
    assert (under >= bare / 3.0).all()  # one night in three it gains nothing


def test_what_lies_covered_is_left_and_what_lies_open_is_closed() -> None:
    on = said(kinds.Moved(act="on", item="fleece", length_m=2.4), "2026-05-27", bed="bed-1")
    assert not list(cover.jobs(scene_of([*GARDEN, on], TODAY, COLD)))
    opened = said(kinds.Moved(act="opened", item="fleece"), TODAY, bed="bed-1")
    job = only(cover.jobs(scene_of([*GARDEN, on, opened], TODAY, COLD)))
    assert job.done == (kinds.Moved(act="shut", item="fleece"),)


def test_scarce_cloth_goes_where_a_metre_saves_most_and_the_rest_is_named() -> None:
    two = [
        bed(),
        bed("bed-2", "Bed 2", x_m=2.0),
        said(TOMATOES, "2026-05-20", bed="bed-1"),
        said(PEPPERS, "2026-05-20", bed="bed-2"),
    ]
    job = only(cover.jobs(scene_of([*two, _fleece(3.0)], TODAY, COLD)))
    other = {"bed-1": "Bed 2", "bed-2": "Bed 1"}[job.bed]
    assert f"No cloth is left for {other}" in job.reason
    assert len(list(cover.jobs(scene_of([*two, _fleece(6.0)], TODAY, COLD)))) == 2
    assert not list(cover.jobs(scene_of(two, TODAY, COLD)))


def test_cloth_is_shared_by_worth_for_each_metre() -> None:
    needs = [
        Need(bed="long", length_m=10.0, saves={"fleece": 5.0}),
        Need(bed="short", length_m=2.0, saves={"fleece": 2.0}),
        Need(bed="little", length_m=2.0, saves={"fleece": 0.5}),
    ]
    found = share_out(needs, {"fleece": 4.0})
    assert found.given == (("short", "fleece"), ("little", "fleece"))
    assert found.bare == ("long",)


def test_cloth_is_not_laid_for_less_than_its_minutes_are_worth() -> None:
    one = [
        bed(),
        said(
            kinds.PlantedOut(planting="lettuce-1", crop="lettuce", plants=3, area_m2=0.1),
            "2026-05-20",
            bed="bed-1",
        ),
    ]
    assert not list(cover.jobs(scene_of([*one, _fleece(10.0)], TODAY, COLD)))


def test_hardy_leaves_at_three_below_are_left_bare() -> None:
    november = date(2026, 11, 10)
    cold = Weather(low_c={november + timedelta(days=1): -3.0}, high_c={november + timedelta(days=1): 4.0})
    hardy = [
        bed(),
        bed("bed-2", "Bed 2", x_m=3.0),
        said(kinds.PlantedOut(planting="kale-1", crop="kale", plants=8), "2026-07-01", bed="bed-1"),
        said(kinds.PlantedOut(planting="leek-1", crop="leek", plants=60), "2026-07-01", bed="bed-2"),
        _fleece(20.0),
    ]
    assert not list(cover.jobs(scene_of(hardy, november, cold)))


def test_what_earlier_nights_have_killed_is_not_covered() -> None:
    killed = Weather(
        low_c={TODAY - timedelta(days=1): -6.0, TODAY + timedelta(days=1): 0.0},
        high_c={TODAY + timedelta(days=1): 12.0},
    )
    assert not list(cover.jobs(scene_of(GARDEN, TODAY, killed)))
