"""The normal curve by table, and the nodes that stand for it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ndtr

from spadework.clock.normal import equal_shares, hermite, log_normal_share, normal_share


def test_within_a_thousandth_of_the_exact_curve() -> None:
    deviates = np.linspace(-9.0, 9.0, 200_001)
    assert np.abs(normal_share(deviates) - ndtr(deviates)).max() < 0.001


@given(st.floats(-50, 50))
def test_within_a_thousandth_anywhere(deviate: float) -> None:
    assert abs(float(normal_share(np.array([deviate]))[0]) - float(ndtr(deviate))) < 0.001


def test_infinities_and_what_is_not_known() -> None:
    found = normal_share(np.array([-np.inf, 0.0, np.inf, np.nan]))
    assert found[:3] == pytest.approx([0.0, 0.5, 1.0], abs=1e-6)
    assert np.isnan(found[3])


def test_never_falls() -> None:
    assert (np.diff(normal_share(np.linspace(-7, 7, 30_001))) >= 0).all()


def test_log_normal_is_a_half_at_its_median() -> None:
    amounts = np.array([0.0, -1.0, -np.inf, 5.0, 10.0, 20.0])
    found = log_normal_share(amounts, 10.0, 0.3)
    assert (found[:3] < 1e-6).all()
    assert found[4] == pytest.approx(0.5, abs=0.001)
    assert found[3] + found[5] == pytest.approx(1.0, abs=0.002)
    assert found[5] == pytest.approx(float(ndtr(np.log(2.0) / 0.3)), abs=0.001)


def test_log_normal_broadcasts_its_spread_by_year() -> None:
    found = log_normal_share(np.array([[20.0], [20.0]]), 10.0, np.array([[0.1], [1.0]]))
    assert found[0, 0] > found[1, 0] > 0.5


@pytest.mark.parametrize("make", [hermite, equal_shares])
@pytest.mark.parametrize("nodes", [3, 5, 7, 9, 99])
def test_nodes_have_the_mean_and_spread_of_a_standard_normal(make, nodes: int) -> None:  # type: ignore[no-untyped-def]
    place, weight = make(nodes)
    assert weight.sum() == pytest.approx(1.0)
    assert weight @ place == pytest.approx(0.0, abs=1e-12)
    assert weight @ place**2 == pytest.approx(1.0)
    assert place == pytest.approx(-place[::-1], abs=1e-12)
