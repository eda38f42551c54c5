"""Belief about a sowing from its counts: check values, order, losses, digging, calibration, speed."""

from __future__ import annotations

import time
from typing import Any

import numpy as np
import pytest
from scipy.special import ndtr
from scipy.stats import betabinom

from spadework.errors import ParameterError
from spadework.science.counts import FAIL_SHARE, Belief, able_prior, believe

PRIOR = able_prior(0.75)
DEGREE_DAYS = 132.0  # carrot's median requirement in the check values


@pytest.mark.parametrize(
    ("warmth", "mean", "q10", "q50", "q90"),
    [
        (106.2, 89.9, 41, 97, 122),
        (142.2, 54.5, 0, 60, 114),
        (178.2, 11.6, 0, 1, 36),
        (232.2, 0.7, 0, 0, 1),
    ],
)
def test_twelve_of_a_hundred_and_fifty_carrots(
    warmth: float, mean: float, q10: int, q50: int, q90: int
) -> None:
    """Computed on a grid of 121 by 200 with tau 0.20, sigma 0.25, rho 0.03; tolerance 1.5 and 2 seedlings."""
    coming = believe([(warmth / DEGREE_DAYS, 12)], 150, PRIOR).coming(np.inf)
    assert float(coming.mean_count) == pytest.approx(mean, abs=1.5)
    assert [int(coming.q10), int(coming.q50), int(coming.q90)] == pytest.approx([q10, q50, q90], abs=2)


def test_against_a_plain_sum_over_the_belief() -> None:
    belief = believe([(1.1, 20)], 60, PRIOR)
    by = 1.5
    now = ndtr((np.log(1.1) - belief.log_requirement) / belief.sigma)[:, None]
    then = ndtr((np.log(by) - belief.log_requirement) / belief.sigma)[:, None]
    chance = belief.able_share * (then - now) / (1 - belief.able_share * now)
    size = 1 / belief.clumping - 1
    first = np.clip(chance, 1e-12, 1) * size
    pmf = np.array([(betabinom.pmf(k, 40, first, size - first) * belief.weight).sum() for k in range(41)])
    got = belief.coming(by, wanted=30)
    assert float(got.mean_count) == pytest.approx(pmf @ np.arange(41), abs=0.02)
    assert got.enough_chance is not None
    assert float(got.enough_chance) == pytest.approx(pmf[10:].sum(), abs=0.003)
    assert int(got.q50) == pytest.approx(int((np.cumsum(pmf) < 0.5).sum()), abs=1)


def test_before_any_count_the_prior_speaks() -> None:
    belief = believe([], 200, PRIOR)
    assert belief.failed_chance == pytest.approx(FAIL_SHARE, abs=1e-9)
    assert belief.mean_able_share == pytest.approx(0.85 * 0.75 + 0.15 / 9, abs=0.002)
    assert float(belief.coming(np.inf).mean_count) == pytest.approx(200 * belief.mean_able_share, abs=0.1)


def test_fewer_seedlings_late_mean_failure_and_many_do_not() -> None:
    failed = [believe([(1.4, up)], 150, PRIOR).failed_chance for up in (0, 10, 40, 90)]
    assert (np.diff(failed) < 0).all()
    assert failed[0] > 0.9
    assert failed[-1] < 0.01
    waiting = [believe([(done, 5)], 150, PRIOR).failed_chance for done in (0.7, 1.0, 1.3, 1.6)]
    assert (np.diff(waiting) > 0).all()


def test_repeated_counts_are_one_series() -> None:
    """The same count again some days later is news; a count split in two at one time is not."""
    once = believe([(1.2, 30)], 150, PRIOR)
    stuck = believe([(1.2, 30), (1.5, 30)], 150, PRIOR)
    rising = believe([(1.2, 30), (1.5, 70)], 150, PRIOR)
    twice = believe([(1.2, 30), (1.2, 30)], 150, PRIOR)
    ends = [float(b.coming(np.inf).mean_count) + b.standing for b in (stuck, once, rising)]
    assert (np.diff(ends) > 0).all()
    np.testing.assert_allclose(once.weight, twice.weight, atol=1e-9)


def test_a_falling_count_is_loss_not_lateness() -> None:
    before = believe([(1.1, 60)], 150, PRIOR)
    after = believe([(1.1, 60), (1.3, 40)], 150, PRIOR)
    assert (after.lost, after.standing, after.emerged) == (20, 40, 60)
    np.testing.assert_allclose(after.weight, before.weight)
    later = believe([(1.1, 60), (1.3, 40), (1.5, 55)], 150, PRIOR)
    assert (later.lost, later.standing, later.emerged) == (20, 55, 75)
    assert later.failed_chance < 0.02


def test_a_slip_in_counting_is_not_a_loss_of_evidence() -> None:
    slip, same = (believe([(1.2, 40), (1.5, up)], 150, PRIOR) for up in (39, 40))
    np.testing.assert_allclose(slip.weight, same.weight)
    assert slip.lost == 1


def test_digging() -> None:
    plain = believe([(1.08, 12)], 150, PRIOR).failed_chance
    dug = {
        what: believe([(1.08, 12)], 150, PRIOR, dug=what).failed_chance
        for what in ("firm", "sprouted", "soft", "gone")
    }  # type: ignore[arg-type]
    assert dug["sprouted"] < dug["firm"] < plain < dug["soft"] == dug["gone"]


def test_futures_are_in_order_and_in_shape() -> None:
    belief = believe([(0.9, 10)], 100, PRIOR)
    futures = np.linspace(0.5, 3.0, 600).reshape(20, 30)
    coming = belief.coming(futures, wanted=50)
    assert coming.enough_chance is not None
    for part in (coming.mean_count, coming.q10, coming.q50, coming.q90, coming.enough_chance):
        assert part.shape == (20, 30)
        assert (np.diff(part.ravel()) >= -1e-9).all()
    assert (coming.q10 <= coming.q50).all()
    assert (coming.q50 <= coming.q90).all()
    assert float(coming.mean_count[0, 0]) == 0.0
    few = belief.coming(futures.ravel()[::40], wanted=50)
    assert few.enough_chance is not None
    np.testing.assert_allclose(coming.mean_count.ravel()[::40], few.mean_count, atol=0.05)
    np.testing.assert_allclose(coming.enough_chance.ravel()[::40], few.enough_chance, atol=0.005)
    assert np.abs(coming.q50.ravel()[::40] - few.q50).max() <= 2


def test_wanted_at_its_ends() -> None:
    belief = believe([(1.2, 30)], 40, PRIOR)
    for wanted, chance in ((30, 1.0), (41, 0.0), (5, 1.0)):
        got = belief.coming(np.array([2.0]), wanted=wanted).enough_chance
        assert got is not None
        assert got.tolist() == [chance]


def test_all_up_leaves_none_to_come() -> None:
    coming = believe([(1.5, 40)], 40, PRIOR).coming(np.array([1.6, np.inf]), wanted=40)
    assert coming.mean_count.tolist() == [0.0, 0.0]
    assert coming.q90.tolist() == [0, 0]


def test_seedlings_too_early_are_flagged() -> None:
    assert believe([(0.3, 5)], 150, PRIOR).too_early
    assert not believe([(0.3, 0), (1.0, 30)], 150, PRIOR).too_early


@pytest.mark.parametrize(
    ("counts", "seeds", "told"),
    [
        ([(1.0, 60)], 50, "60 seedlings were counted, 60 come up in all, of 50 seeds"),
        ([(1.0, 30), (1.2, 10), (1.4, 35)], 50, "55 come up in all"),
        ([(1.2, 3), (1.0, 4)], 50, "order of time"),
        ([(1.0, -1)], 50, "-1 seedlings"),
        ([(float("nan"), 1)], 50, "order of time"),
        ([], 0, "0 seeds"),
    ],
)
def test_refusals(counts: list[tuple[float, int]], seeds: int, told: str) -> None:
    with pytest.raises(ParameterError, match=told):
        believe(counts, seeds, PRIOR)


def test_other_refusals() -> None:
    with pytest.raises(ParameterError, match="able share"):
        able_prior(1.0)
    with pytest.raises(ParameterError, match="'mouldy'"):
        believe([], 10, PRIOR, dug="mouldy")  # type: ignore[arg-type]
    with pytest.raises(ParameterError, match="Spreads"):
        believe([], 10, PRIOR, tau=0.0)
    with pytest.raises(ParameterError, match="not a number"):
        believe([], 10, PRIOR).coming(np.array([1.0, np.nan]))


def _crps(belief: Belief, truth: int) -> tuple[float, bool, float]:
    pmf = belief._distribution(np.array([np.inf]))[0]
    cdf = np.cumsum(pmf)
    crps = float(((cdf - (np.arange(cdf.size) >= truth)) ** 2).sum())
    low, high = (int((cdf < level).sum()) for level in (0.1, 0.9))
    return crps, low <= truth <= high, abs(int((cdf < 0.5).sum()) - truth)


def simulate(sowings: int, seed: int) -> tuple[list[int], list[Belief]]:
    """Sowings drawn from the prior, counted once between 90 and 260 degree-days, and what came later."""
    rng: Any = np.random.default_rng(seed)
    truths, beliefs = [], []
    for _ in range(sowings):
        able = rng.beta(1, 8) if rng.random() < FAIL_SHARE else rng.beta(12, 4)
        late, done = rng.normal(0, 0.2), rng.uniform(90, 260) / DEGREE_DAYS
        share = float(ndtr((np.log(done) - late) / 0.25))
        size = 1 / 0.03 - 1
        up = int(rng.binomial(150, rng.beta(*_shape(able * share, size))))
        more = able * (1 - share) / (1 - able * share)
        truths.append(int(rng.binomial(150 - up, rng.beta(*_shape(more, size)))))
        beliefs.append(believe([(done, up)], 150, PRIOR))
    return truths, beliefs


def _shape(chance: float, size: float) -> tuple[float, float]:
    chance = min(max(chance, 1e-9), 1 - 1e-9)
    return chance * size, (1 - chance) * size


@pytest.mark.slow
def test_calibration_on_sowings_drawn_from_the_prior() -> None:
    """Right by construction: guards the arithmetic, says nothing about real rows."""
    truths, beliefs = simulate(400, 11)
    scored = [_crps(belief, truth) for belief, truth in zip(beliefs, truths, strict=True)]
    crps, held, miss = (np.mean([one[part] for one in scored]) for part in range(3))
    assert 6.5 < crps < 10.5
    assert 0.76 < held < 0.92
    assert 9 < miss < 17


def test_thirty_futures_in_time() -> None:
    """Regression guard with room for a busy machine: the aim is 40 ms."""
    futures = np.linspace(1.1, 2.5, 30)
    believe([(1.0, 12)], 150, PRIOR).coming(futures, wanted=100)
    best = np.inf
    for _ in range(5):
        start = time.process_time()
        believe([(0.9, 5), (1.0, 12)], 150, PRIOR).coming(futures, wanted=100)
        best = min(best, time.process_time() - start)
    assert best < 0.12
