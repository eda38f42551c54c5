"""A stage that was looked for and not seen comes later than the weather alone has it."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from scenes import Weather, bed, said, scene_of
from spadework.advice.ready_odds import median_emergence_chance
from spadework.advice.scene import Plot
from spadework.clock.seen_course import later_than
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

CORN = kinds.Sown(planting="p", crop="sweet-corn", rows=2, row_length_m=2.0, seeds=20)
TURNIP = kinds.Sown(planting="p", crop="turnip", rows=2, row_length_m=2.0, seeds=80)
COOL = Weather(mean_c=9.0)


def plot_of(act: kinds.Sown, sown: str, today: str, *more: Entry) -> Plot:
    (plot,) = scene_of([bed(), said(act, sown, bed="bed-1"), *more], today, COOL).plots
    return plot


def vain(what: str, on: str) -> Entry:
    return said(kinds.Stage(what=what, reached=False), on, bed="bed-1", planting="p")


def test_cut_off_at_its_middle_the_curve_moves_by_less_than_a_spread() -> None:
    # a logistic curve cut at its middle has its new median where three quarters of the whole lay
    assert later_than(0.0)[0] == pytest.approx(np.sqrt(3.0) / np.pi * np.log(3.0))
    middle, spread = later_than(-6.0)
    assert middle == pytest.approx(0.0, abs=1e-4)
    assert spread == pytest.approx(np.sqrt(3.0) / np.pi * np.log(0.84 / 0.16), abs=1e-3)
    waits = [later_than(float(late))[0] - late for late in range(7)]
    assert waits == sorted(waits, reverse=True)
    assert waits[-1] > 0.35  # long tails: each look in vain puts the next off by about as much


def test_a_row_nothing_of_which_is_up_is_expected_later() -> None:
    today = "2026-06-20"
    usual = plot_of(CORN, "2026-06-01", today)
    looked = plot_of(CORN, "2026-06-01", today, vain("up", today))
    at = usual.column
    assert median_emergence_chance(usual.course)[:, at].mean() > 0.6
    assert median_emergence_chance(looked.course)[:, at].mean() < 0.4
    assert np.median(looked.course.begin_day) > np.median(usual.course.begin_day)
    early = plot_of(CORN, "2026-06-01", "2026-06-03", vain("up", "2026-06-02"))
    as_before = plot_of(CORN, "2026-06-01", "2026-06-03")
    assert early.course.begin_day == pytest.approx(as_before.course.begin_day, abs=1)


def test_a_crop_found_unready_is_expected_later_and_what_is_then_seen_stands_over_it() -> None:
    today = "2026-07-25"
    usual, looked = (
        plot_of(TURNIP, "2026-05-10", today, *more) for more in ((), (vain("ready", "2026-07-24"),))
    )
    assert usual.course.ready[:, usual.column].mean() > 0.7
    assert looked.course.ready[:, looked.column].mean() < 0.5
    assert looked.course.ready[:, looked.column + 14].mean() > 0.6
    seen = said(kinds.Stage(what="ready"), today, bed="bed-1", planting="p")
    found = plot_of(TURNIP, "2026-05-10", today, vain("ready", "2026-07-20"), seen)
    assert found.course.ready[:, found.column].mean() == pytest.approx(0.5, abs=0.2)


def test_a_row_counted_before_all_was_up_is_expected_to_fill() -> None:
    counted = said(kinds.Counted(standing=30), "2026-05-18", planting="p")
    then = plot_of(TURNIP, "2026-05-10", "2026-05-18", counted)
    later = plot_of(TURNIP, "2026-05-10", "2026-06-05", counted)
    assert then.plants == pytest.approx(30.0)
    assert then.course.emerged[:, then.column].mean() < later.course.emerged[:, later.column].mean()
    assert later.plants is not None
    assert later.plants > 30.0
    assert later.course.sprout is not None
    assert later.plants <= 80 * later.course.sprout.able.mean() + 1e-6
    thinned = said(kinds.Thinned(left=20), "2026-05-25", planting="p")
    assert plot_of(TURNIP, "2026-05-10", "2026-06-05", counted, thinned).plants == 20.0


def test_a_row_sown_anew_is_waited_for_from_then_on() -> None:
    counted = said(kinds.Counted(standing=3), "2026-05-30", planting="p")
    again = said(TURNIP, "2026-05-31", bed="bed-1")
    plot = plot_of(TURNIP, "2026-05-10", "2026-06-01", counted, again)
    assert plot.planting.grows_since == date(2026, 5, 31)
    assert plot.course.way[:, plot.column].max() <= 0.0
    assert plot.planting.plants.basis == "seeds"
