"""Chances said beside what was seen."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.record.reliability import largest_miss, reliability


def test_groups_by_hand() -> None:
    found = reliability(np.array([0.1, 0.2, 0.3, 1.0]), np.array([0.0, 1.0, 0.0, 1.0]), edges=(0.0, 0.2, 1.0))
    assert [(g.weight, g.said, g.seen) for g in found] == [
        (1.0, pytest.approx(0.1), 0.0),
        (3.0, pytest.approx(0.5), pytest.approx(2 / 3)),
    ]
    assert largest_miss(found) == pytest.approx(1 / 6)


def test_weights_count() -> None:
    found = reliability(np.array([0.4, 0.6]), np.array([0.0, 1.0]), np.array([3.0, 1.0]), (0.0, 1.0))
    assert (found[0].said, found[0].seen) == (pytest.approx(0.45), pytest.approx(0.25))


def test_an_empty_group_is_not_a_number_and_no_miss() -> None:
    found = reliability(np.array([0.1]), np.array([0.0]))
    assert np.isnan(found[-1].said)
    assert largest_miss(found) == pytest.approx(0.1)


def test_few_cases_are_no_miss() -> None:
    found = reliability(np.array([0.01] * 200 + [0.9]), np.array([0.0] * 200 + [0.0]))
    assert largest_miss(found) == pytest.approx(0.01)


def test_honest_chances_show_no_miss_and_boasts_do() -> None:
    rng = np.random.default_rng(2)
    chance = rng.random(20_000)
    came = (rng.random(20_000) < chance).astype(float)
    assert largest_miss(reliability(chance, came)) < 0.03
    assert largest_miss(reliability(np.clip(2 * chance - 0.5, 0, 1), came)) > 0.1
