"""Flushes of weeds, their cost, and hoeing."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.errors import ParameterError
from spadework.science import weeds

# Forcella and others 1997, five sites: soil warmth above 4.4 degC at half emergence, weeds that come first.
EARLY_WEEDS_CDAY = {
    "smartweed": 80,
    "kochia": 155,
    "buckwheat": 172,
    "thistle": 195,
    "lambsquarters": 200,
    "foxtail": 265,
}


def test_the_flush_lies_within_the_published_range_of_early_weeds() -> None:
    half = np.interp(0.5, weeds.flush_share(np.arange(1000.0)), np.arange(1000.0))
    assert min(EARLY_WEEDS_CDAY.values()) <= half <= max(EARLY_WEEDS_CDAY.values())
    sums = list(weeds.FLUSH_SUMS_CDAY.values())
    assert sums == sorted(sums)


def test_warmth_counts_from_the_day_after_weeding_on_damp_days() -> None:
    soil, wet = np.full(10, 14.4), np.ones(10)
    assert weeds.flush_warmth_cday(soil, wet, 2)[[2, 3, 9]] == pytest.approx([0.0, 10.0, 70.0])
    wet[5:8] = 0.1
    assert weeds.flush_warmth_cday(soil, wet, 2)[9] == pytest.approx(50.0)
    soil[4] = np.nan
    assert weeds.flush_warmth_cday(soil, wet, 2)[9] == pytest.approx(40.0)
    years = weeds.flush_warmth_cday(np.full((2, 10), 14.4), np.ones((2, 10)), np.array([0, 5]))
    assert years[:, 9] == pytest.approx([90.0, 40.0])


def test_dry_days_hold_seed_back_but_not_what_has_rooted() -> None:
    soil, dry = np.full(40, 14.4), np.zeros(40)
    damp_first = np.where(np.arange(40) <= 14, 1.0, 0.0)
    # 14 damp days bring the second leaf; from then on it grows as in damp ground
    assert weeds.flush_warmth_cday(soil, damp_first)[-1] == pytest.approx(390.0)
    assert weeds.flush_warmth_cday(soil, dry)[-1] == pytest.approx(130.0)
    rising = weeds.flush_warmth_cday(soil, np.tile([0.0, 1.0], 20))
    assert np.all(np.diff(rising) > 0.0)


def test_stages_by_warmth() -> None:
    assert weeds.flush_stage([0.0, 59.9, 60.0, 140.0, 299.0, 300.0]).tolist() == [0, 0, 1, 2, 2, 3]


def test_time_grows_with_the_weeds_and_half_as_much_again_when_late() -> None:
    area = 3.0
    early, late = weeds.weeding_minutes(area, 140.0), weeds.weeding_minutes(area, 300.0)
    assert late / weeds.flush_share(300.0) == pytest.approx(1.5 * early / weeds.flush_share(140.0))
    assert weeds.weeding_minutes(area, 140.0, 2.0) == pytest.approx(2.0 * early)
    # between the 0.6 and 3.6 minutes a square metre of drilled alliums (Melander and others 2005)
    assert 0.6 < early / area < 3.6
    assert weeds.weeding_minutes(area, 0.0) == 0.0


def test_weeks_of_weeds_cost_in_step() -> None:
    weeks = np.array([0.0, 1.0, 2.0, 4.0, 9.0])
    assert weeds.weedy_loss_share(weeks, 4.0) == pytest.approx([0.0, 0.15, 0.3, 0.6, 0.6])
    # cabbage set out early: the first flush may stand for four weeks (Weaver 1984)
    assert weeds.weedy_loss_share(4.0, 6.0, 0.6, 4.0) == 0.0


def test_hoed_weeds_die_small_and_on_dry_days() -> None:
    small, leafy, large = weeds.hoed_die_chance([1, 2, 3], 5.0)
    assert small > leafy > large
    assert weeds.hoed_die_chance(1, 5.0, rain_chance=1.0) < 0.5 * small
    assert weeds.hoed_die_chance(1, 1.0) < 0.5 * small
    assert weeds.hoed_die_chance(1, 5.0, surface_wet_share=1.0) == pytest.approx(0.5 * small)
    assert weeds.hoed_die_chance(0, 5.0) == small


def test_hours_for_the_hoe() -> None:
    first, last = weeds.hoeing_hours(5.0, 19.0)
    assert (float(first), float(last)) == (8.0, 15.0)
    first, last = weeds.hoeing_hours(8.0, 16.0, dew=[True, False])
    assert np.all(last >= first)


def test_what_cannot_be_is_refused() -> None:
    for wrong in (
        lambda: weeds.flush_warmth_cday(10.0, 1.0),
        lambda: weeds.weeding_minutes(-1.0, 10.0),
        lambda: weeds.weedy_loss_share(1.0, 2.0, 0.6, 2.0),
        lambda: weeds.hoed_die_chance(1, 5.0, rain_chance=2.0),
    ):
        with pytest.raises(ParameterError):
            wrong()
