"""Scores on cases whose answer can be done on paper."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.record.hindcast import ready_hindcast
from spadework.record.scores import fair_crps, leave_one_out, packet_miss, scored


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
