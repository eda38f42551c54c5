"""Germination tests and what they leave open."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import betaincinv

from spadework.errors import ParameterError
from spadework.garden.tin import Germination

TESTS = st.integers(0, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@given(TESTS, st.floats(0.01, 0.99))
def test_quantiles_are_those_of_the_beta_distribution(test: tuple[int, int], chance: float) -> None:
    sprouted, tested = test
    expected = betaincinv(sprouted + 1, tested - sprouted + 1, chance)
    assert Germination(sprouted, tested).share_at(chance) == pytest.approx(float(expected), abs=1e-9)


def test_an_even_prior_is_all_that_is_known_without_a_test() -> None:
    nothing = Germination(0, 0)
    assert nothing.share == 0.5
    assert nothing.likely == pytest.approx((0.1, 0.9))
    assert (nothing.share_at(0.0), nothing.share_at(1.0)) == pytest.approx((0.0, 1.0))


def test_ten_of_ten_is_not_all() -> None:
    assert Germination(10, 10).share == pytest.approx(11 / 12)
    assert Germination(10, 10).likely[0] == pytest.approx(0.1 ** (1 / 11))


def test_more_seeds_make_it_surer() -> None:
    few, many = Germination(8, 10), Germination(80, 100)
    assert few.likely[0] < many.likely[0] < many.share < many.likely[1] < few.likely[1]


@pytest.mark.parametrize(("sprouted", "tested"), [(11, 10), (-1, 10), (0, -1)])
def test_impossible_tests(sprouted: int, tested: int) -> None:
    with pytest.raises(ParameterError, match="cannot have sprouted"):
        Germination(sprouted, tested)


@pytest.mark.parametrize("chance", [-0.1, 1.1, float("nan")])
def test_impossible_chances(chance: float) -> None:
    with pytest.raises(ParameterError, match="chance"):
        Germination(8, 10).share_at(chance)
