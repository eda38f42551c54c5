"""Scores on cases whose answer can be done on paper."""

from __future__ import annotations

import numpy as np
import pytest

from grounds import soil_ground, years_of
from spadework.record.hindcast import arrival, course_hindcast, ready_hindcast, seen_until, window
from spadework.record.scores import (
    EVEN_PIT_SD,
    fair_crps,
    from_earlier,
    leave_one_out,
    packet_miss,
    place_among,
    scored,
)


def test_fair_crps_of_two_members() -> None:
    # distances to the truth 1 and 3, mean 2; between the members 4, half of it
    assert fair_crps(np.array([1.0, 5.0]), 2.0) == pytest.approx(2.0 - 4.0 / 2.0)


def test_fair_crps_equals_the_double_sum() -> None:
    members = np.random.default_rng(3).normal(size=17)
    pairs = np.abs(members[:, None] - members).sum() / (2 * 17 * 16)
    assert fair_crps(members, 0.3) == pytest.approx(np.abs(members - 0.3).mean() - pairs)


def test_a_certain_and_right_ensemble_scores_nought() -> None:
    found = scored([np.full(9, 4.0)], np.array([4.0]))
    assert (found.crps, found.held_80, found.mae) == (0.0, 1.0, 0.0)


def test_eighty_of_a_hundred_are_held_where_years_are_alike() -> None:
    values = np.random.default_rng(5).normal(size=400)
    assert leave_one_out(values).held_80 == pytest.approx(0.8, abs=0.03)


def test_a_packet_misses_by_the_spread() -> None:
    assert packet_miss(np.array([1.0, 3.0])) == 2.0


def test_like_years_are_foretold_without_a_miss() -> None:
    stages = ready_hindcast(np.full((5, 40), 0.5), 3, 10.0)
    assert [stage.years.crps for stage in stages] == [0.0] * 4


def test_rows_that_end_too_early_are_refused() -> None:
    with pytest.raises(ValueError, match="longer rows"):
        ready_hindcast(np.full((5, 10), 0.5), 3, 10.0)


def test_places_count_ties_by_half() -> None:
    assert place_among(np.array([1.0, 2.0, 3.0]), 2.0) == pytest.approx(0.5)
    assert place_among(np.array([1.0, 2.0, 3.0]), 0.0) == pytest.approx(0.125)


def test_places_spread_evenly_where_years_are_alike_and_tell_narrow_from_wide() -> None:
    rng = np.random.default_rng(6)
    truths = rng.normal(size=400)
    even, narrow, wide = (
        scored([rng.normal(size=40) * scale for _ in truths], truths).pit_sd for scale in (1.0, 0.5, 2.0)
    )
    assert even == pytest.approx(EVEN_PIT_SD, abs=0.015)
    assert narrow > EVEN_PIT_SD + 0.03
    assert wide < EVEN_PIT_SD - 0.03


def test_arrival_counts_parts_of_days() -> None:
    way = np.array([[0.5, 1.5, 2.0], [0.0, 0.4, 0.8], [-np.inf, 1.0, 1.0], [1.25, 2.0, 2.0]])
    assert arrival(way).tolist() == pytest.approx([1.5, 3.0, 2.0, 0.8])


def test_a_year_is_its_own_until_the_morning_asked_and_the_others_after() -> None:
    low = np.arange(12.0).reshape(3, 4)
    years = years_of(low, low + 5.0)
    found = seen_until(years, 1, 2)
    assert found.tmin_c.tolist() == [[4.0, 5.0, 2.0, 3.0], [4.0, 5.0, 10.0, 11.0]]
    assert found.labels == (1990, 1992)
    assert found.seen_days == 2
    part = window(found, 1, 3)
    assert part.tmax_c.tolist() == [[10.0, 7.0], [10.0, 15.0]]
    assert part.first_day == found.first_day + 1


def test_a_course_known_to_the_end_is_foretold_the_better() -> None:
    rng = np.random.default_rng(4)
    ground = soil_ground(np.cumsum(rng.normal(0.0, 1.0, (12, 120)), axis=1) + 12.0, days=120)

    def way(told):  # type: ignore[no-untyped-def]
        return np.cumsum(np.maximum(told.air_mean_c, 0.0), axis=1) / 600.0

    stages = course_hindcast(ground, 0, way)
    crps = [stage.years.crps for stage in stages]
    assert crps == sorted(crps, reverse=True)
    assert stages[0].left_out == np.count_nonzero(way(ground)[:, -1] < 1.0)


def test_from_earlier_knows_nothing_later() -> None:
    values = np.concatenate([np.arange(20.0), [500.0]])
    assert from_earlier(values).cases == 6
    # the last of them is missed by its distance to the 20 before, less half their own spread
    only = from_earlier(values, fewest=20)
    assert only.crps == pytest.approx(500.0 - 9.5 - 0.5 * 7.0)
    assert from_earlier(values, fewest=20, last=2).crps == pytest.approx(500.0 - 18.5 - 0.5)
