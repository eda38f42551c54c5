"""Lifting: opens when ready, costs nothing while it keeps in the ground, and comes before hard frost."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import clear, lift
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

TODAY = date(2026, 9, 1)


def sown(crop: str, on: str, *more: Entry, area_m2: float = 2.0) -> list[Entry]:
    """A bed with one sowing."""
    return [bed(), said(kinds.Sown(planting="p", crop=crop, area_m2=area_m2), on, bed="bed-1"), *more]


def ready(on: str) -> Entry:
    """Seen to be ready."""
    return said(kinds.Stage(what="ready"), on, bed="bed-1", planting="p")


def test_carrots_wait_in_the_ground_and_radishes_do_not() -> None:
    carrots = only(lift.jobs(scene_of(sown("carrot", "2026-05-10", ready("2026-08-28")), TODAY)))
    radishes = only(lift.jobs(scene_of(sown("radish", "2026-07-25", ready("2026-08-28")), TODAY)))
    assert carrots.forfeit(7) < 0.05
    assert radishes.forfeit(7) > 0.3
    assert carrots.act.startswith("Pull carrots in Bed 1")
    assert carrots.window.opens == TODAY


def test_a_hard_night_takes_beetroot_and_not_parsnips() -> None:
    night = Weather(low_c={TODAY + timedelta(days=3): -8.0})
    mild = Weather(mean_c=11.0)
    for crop, taken in (("beet", True), ("parsnip", False)):
        entries = sown(crop, "2026-04-20", ready("2026-08-25"))
        cold, warm = (only(lift.jobs(scene_of(entries, TODAY, weather))) for weather in (night, mild))
        assert (cold.forfeit(7) - warm.forfeit(7) > 0.2) is taken


def test_unripe_locked_lifted_or_over_is_not_offered() -> None:
    assert not list(lift.jobs(scene_of(sown("carrot", "2026-08-15"), TODAY)))
    lock = kinds.Locked(lock="jar", on="bed", why="glass", stops="picking", test="no glass found")
    locked = sown("carrot", "2026-05-10", ready("2026-08-28"), said(lock, "2026-08-30", bed="bed-1"))
    assert not list(lift.jobs(scene_of(locked, TODAY)))
    today = said(kinds.Lifted(kg=1.0), TODAY, bed="bed-1", planting="p")
    assert not list(lift.jobs(scene_of(sown("carrot", "2026-05-10", today), TODAY)))
    stood = sown("radish", "2026-06-01", ready("2026-06-28"))
    assert not list(lift.jobs(scene_of(stood, TODAY)))


def test_onions_are_cured_and_a_full_crate_is_named() -> None:
    job = only(lift.jobs(scene_of(sown("onion", "2026-04-01", ready("2026-08-28"), area_m2=6.0), TODAY)))
    assert any(fact.name == "storing" and "Cure" in str(fact.value) for fact in job.facts)
    assert any("bend the knees" in caution.text for caution in job.cautions)
    assert job.load_kg == 8.0
    assert "soil not wet" in job.needs
    assert job.take[0].what == "fork"
    assert job.done == (kinds.Lifted(),)


def test_potatoes_carry_the_caution_of_green_tubers() -> None:
    job = only(lift.jobs(scene_of(sown("potato", "2026-04-20", ready("2026-08-28")), TODAY)))
    assert sum("green" in caution.text for caution in job.cautions) >= 1
    assert np.all(np.diff(job.mean_loss) >= 0.0)


def test_potatoes_under_frosted_tops_are_still_lifted() -> None:
    frosted = Weather(low_c={TODAY - timedelta(days=2): -3.5})
    entries = sown("potato", "2026-04-20", ready("2026-08-28"))
    assert only(lift.jobs(scene_of(entries, TODAY, frosted))).act.startswith("Lift potatoes")
    assert not list(clear.jobs(scene_of(entries, TODAY, frosted)))


def test_what_is_pulled_by_hand_does_not_wait_for_dry_soil_and_what_is_forked_does() -> None:
    radishes = only(lift.jobs(scene_of(sown("radish", "2026-07-25", ready("2026-08-28")), TODAY)))
    potatoes = only(lift.jobs(scene_of(sown("potato", "2026-05-01", ready("2026-08-28")), TODAY)))
    assert "soil not wet" not in radishes.needs
    assert "soil not wet" in potatoes.needs
