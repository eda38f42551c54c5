"""What a count of seedlings says: how many more will come, and whether the sowing has failed.

Few seedlings may mean a late sowing or a dead one. A belief that knows only lateness keeps promising
seedlings that will never come, so a share of sowings is held able to fail outright, and each count, and
what is dug up, moves that share.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science._beta_binomial import beta_weights, log_chance, odds_table
from spadework.science.emergence_course import SIGMA, TAU
from spadework.types import Floats, Ints

Finding = Literal["firm", "sprouted", "soft", "gone"]

PRIOR_STRENGTH = 16.0
"""How firmly the able share of a sound sowing is known: as if from this many seeds. Source: memory."""

FAIL_SHARE = 0.15
"""Share of sowings that fail: dry, crusted, eaten, rotten. Source: memory."""

FAILED_BETA = (1.0, 8.0)
"""Able share of a failed sowing, a beta with mean 1 in 9. Source: memory."""

CLUMPING = 0.03
"""Correlation between the fates of seeds in one row. Source: memory."""

DUG: dict[Finding, tuple[float, float]] = {
    "firm": (0.45, 0.20),
    "sprouted": (0.45, 0.10),
    "soft": (0.05, 0.35),
    "gone": (0.05, 0.35),
}
"""Chance of each finding where nothing shows, in a sound and in a failed sowing. Source: memory.
Firm seed is also what a dry, failed seedbed keeps, so it speaks less than a sprout does."""

TOO_EARLY = 0.5
"""A seedling before this share of the median requirement is a slip in the date, or a weed. Source: memory."""

_REQUIREMENTS, _SHARES = 121, 200  # nodes of the belief
_REACH = 4.0  # spreads to either side of the median requirement
_FUTURES = 96  # progresses worked out before the rest is read between them
_KEPT = 4  # distributions kept by a belief
_SLACK_SHARE = 0.03  # a fall within this, or of one seedling, is a slip in counting


@dataclass(frozen=True)
class AblePrior:
    """Belief about the able share of a sowing before any count: a sound part and a failed part."""

    sound: tuple[float, float]
    failed: tuple[float, float] = FAILED_BETA
    fail_share: float = FAIL_SHARE


def able_prior(
    mean_share: float, strength: float = PRIOR_STRENGTH, fail_share: float = FAIL_SHARE
) -> AblePrior:
    """Belief with a given mean for sound sowings.

    Parameters
    ----------
    mean_share : float
        Able share expected in a sound sowing: germination of the lot times what the field keeps. Between
        0 and 1.
    strength : float
        Seeds' worth of knowledge behind that mean, above 0.
    fail_share : float
        Share of sowings that fail, 0 up to but not 1.

    Returns
    -------
    AblePrior

    Raises
    ------
    ParameterError
        If a number is out of range.

    Source
    ------
    memory: a mean of 0.75 with strength 16 is a beta of 12 and 4.
    """
    if not (0 < mean_share < 1 and strength > 0 and 0 <= fail_share < 1):
        raise ParameterError(
            f"Able share {mean_share:g}, strength {strength:g}, failing share {fail_share:g}.",
            "The able share lies between 0 and 1, the strength above 0, the failing share from 0 to below 1.",
        )
    return AblePrior((mean_share * strength, (1.0 - mean_share) * strength), FAILED_BETA, fail_share)


@dataclass(frozen=True)
class Coming:
    """Seedlings still to come by a later progress, one value a future."""

    mean_count: Floats
    q10: Ints
    q50: Ints
    q90: Ints
    enough_chance: Floats | None


@dataclass(frozen=True, eq=False)
class Belief:
    """What is believed of one sowing after its counts.

    Parameters
    ----------
    log_requirement : array, shape (requirement,)
        Log of this sowing's requirement over the crop's median.
    able_share : array, shape (share,)
        Share of the seed that can emerge.
    weight : array, shape (requirement, share)
        Posterior, sums to 1.
    failed_chance : float
        Chance that the sowing belongs to the failed part.
    seeds, emerged, standing, lost : int
        Sown; come up so far as far as was seen; up at the last count; seen to have gone again.
    progress_done : float
        Progress at the last count, in units of the median requirement.
    too_early : bool
        Seedlings were counted before any could be up: a wrong date, or weeds.
    """

    log_requirement: Floats
    able_share: Floats
    weight: Floats
    failed_chance: float
    seeds: int
    emerged: int
    standing: int
    lost: int
    progress_done: float
    sigma: float
    clumping: float
    too_early: bool

    @property
    def real_loss(self) -> bool:
        """Whether seedlings have gone, beyond a slip in counting."""
        return self.lost > max(1.0, _SLACK_SHARE * self.emerged)

    @property
    def mean_able_share(self) -> float:
        """Expected able share of the sowing."""
        return float(self.weight.sum(axis=0) @ self.able_share)

    @cached_property
    def _table(self) -> tuple[Floats, Floats]:
        return odds_table(self.seeds - self.emerged, self.clumping)

    @cached_property
    def _worked_out(self) -> dict[bytes, Floats]:
        """Distributions asked for before, by the progresses they are of."""
        return {}

    def coming(self, progress_by: ArrayLike, wanted: int | None = None) -> Coming:
        """Seedlings still to come by a later progress.

        Parameters
        ----------
        progress_by : array, any shape, such as (year, day)
            Progress in units of the median requirement; below that of the last count counts as it.
            Infinity asks for all that will ever come. NaN is refused.
        wanted : int
            Plants wanted standing in all.

        Returns
        -------
        Coming
            enough_chance is None without wanted.

        Raises
        ------
        ParameterError
            If a progress is NaN.
        """
        asked = np.asarray(progress_by, dtype=np.float64)
        if np.isnan(asked).any():
            raise ParameterError(
                "Progress is not a number in some future.", "Fill the gap in the weather first."
            )
        later = np.maximum(asked, self.progress_done).ravel()
        nodes, place, back = _nodes(later)
        pmf = self._distribution(nodes)
        counts = np.arange(pmf.shape[1])
        cdf = np.cumsum(pmf, axis=1)

        def read(values: Floats) -> Floats:
            low = values[place]
            return np.asarray(low + (values[np.minimum(place + 1, values.size - 1)] - low) * back)

        mean = read(pmf @ counts)
        quantiles = [_quantile(cdf, place, back, level) for level in (0.1, 0.5, 0.9)]
        chance = None
        if wanted is not None:
            short = wanted - self.standing
            if short <= 0:
                enough = np.ones(nodes.size)
            elif short >= counts.size:
                enough = np.zeros(nodes.size)
            else:
                enough = 1.0 - cdf[:, short - 1]
            chance = np.clip(read(enough), 0.0, 1.0).reshape(asked.shape)
        shaped = [one.reshape(asked.shape) for one in quantiles]
        return Coming(mean.reshape(asked.shape), shaped[0], shaped[1], shaped[2], chance)

    def _distribution(self, progress_by: Floats) -> Floats:
        """Chance of each number of further seedlings, shape (future, 0..left); the last few are kept."""
        name = progress_by.tobytes()
        if name not in self._worked_out:
            while len(self._worked_out) >= _KEPT:
                self._worked_out.pop(next(iter(self._worked_out)))
            self._worked_out[name] = self._work_out(progress_by)
        return self._worked_out[name]

    def _work_out(self, progress_by: Floats) -> Floats:
        odds, table = self._table
        keep = self.weight > 1e-7 * self.weight.max()
        row, column = np.nonzero(keep)
        weight = self.weight[keep] / self.weight[keep].sum()
        able = self.able_share[column]
        now = _share_up(self.progress_done, self.log_requirement, self.sigma)
        free = able / (1.0 - able * now[row])
        gap, most = np.diff(odds), odds.size - 1
        mixed = np.zeros((progress_by.size, odds.size))
        for future, done in enumerate(progress_by):
            chance = free * (_share_up(done, self.log_requirement, self.sigma) - now)[row]
            spot = np.sqrt(np.clip(chance, 0.0, 1.0))
            spot *= most
            low = spot.astype(np.int64)
            np.minimum(low, most - 1, out=low)
            upper = weight * (chance - odds[low]) / gap[low]
            mixed[future] = np.bincount(low, weight - upper, odds.size)
            mixed[future, 1:] += np.bincount(low, upper, most)
        pmf: Floats = mixed @ table
        return pmf


def believe(
    counts: Sequence[tuple[float, int]],
    seeds: int,
    prior: AblePrior,
    tau: float = TAU,
    sigma: float = SIGMA,
    clumping: float = CLUMPING,
    dug: Finding | None = None,
) -> Belief:
    """Belief about a sowing from its counts, taken as one series, and from what was dug up.

    Parameters
    ----------
    counts : sequence of (progress, seedlings standing)
        In order of time; progress in units of the median requirement. May be empty.
    seeds : int
        Seeds sown, above 0.
    prior : AblePrior
    tau, sigma : float
        Log spread of the requirement between sowings and between seeds, above 0.
    clumping : float
        Correlation between seeds of the row, between 0 and 1.
    dug : str
        What lies where nothing shows: "firm", "sprouted", "soft" or "gone".

    Returns
    -------
    Belief

    Raises
    ------
    ParameterError
        For counts out of order, above the seeds or below zero, or a number out of range.

    Notes
    -----
    Each count after the first speaks only through the seedlings new since the one before. A falling count
    is a loss of seedlings, not lateness: that interval says nothing about emergence, because what came up
    in it cannot be told from what was lost. A fall of one seedling, or of 3 in 100, is taken as a slip in
    counting and as nothing new. The belief lives on 121 requirements by 200 able shares.

    Source
    ------
    memory for the prior's shape, spreads and findings; computed from there: beta-binomial counts of seed
    with a log-normal requirement. Checked: tests/unit/science/test_counts.py
    """
    _check(counts, seeds, tau, sigma, clumping, dug)
    log_requirement = np.linspace(-_REACH * tau, _REACH * tau, _REQUIREMENTS)
    able = (np.arange(_SHARES) + 0.5) / _SHARES
    seen = (1.0, 1.0) if dug is None else DUG[dug]
    sound = (1.0 - prior.fail_share) * seen[0] * beta_weights(able, prior.sound)
    failed = prior.fail_share * seen[1] * beta_weights(able, prior.failed)
    late = np.exp(-0.5 * (log_requirement / tau) ** 2)
    log_like = np.zeros((_REQUIREMENTS, _SHARES))
    up_before, emerged, standing, early = np.zeros(_REQUIREMENTS), 0, 0, False
    done = 0.0
    for done, counted in counts:
        up = _share_up(done, log_requirement, sigma)
        new = counted - standing
        fell = -new > max(1.0, _SLACK_SHARE * standing)
        if not fell:
            arrived = max(new, 0)
            chance = able * (up - up_before)[:, None] / (1.0 - able * up_before[:, None])
            log_like += log_chance(arrived, seeds - emerged, chance, clumping)
            early |= arrived > 0 and done < TOO_EARLY
            emerged += arrived
        standing, up_before = counted, up
    like = late[:, None] * np.exp(log_like - log_like.max())
    parts = like * sound, like * failed
    total = float(parts[0].sum() + parts[1].sum())
    return Belief(
        log_requirement=log_requirement,
        able_share=able,
        weight=(parts[0] + parts[1]) / total,
        failed_chance=float(parts[1].sum()) / total,
        seeds=seeds,
        emerged=emerged,
        standing=standing,
        lost=emerged - standing,
        progress_done=done,
        sigma=sigma,
        clumping=clumping,
        too_early=early,
    )


def _check(
    counts: Sequence[tuple[float, int]],
    seeds: int,
    tau: float,
    sigma: float,
    clumping: float,
    dug: Finding | None,
) -> None:
    if seeds < 1:
        raise ParameterError(f"{seeds} seeds were sown.", "Give the number of seeds sown, 1 or more.")
    if not (tau > 0 and sigma > 0 and 0 < clumping < 1):
        raise ParameterError(
            f"Spreads {tau:g} and {sigma:g}, clumping {clumping:g}.",
            "Spreads must be above 0, clumping between 0 and 1.",
        )
    if dug is not None and dug not in DUG:
        raise ParameterError(f"Seed dug up was {dug!r}.", f"Say one of: {', '.join(DUG)}.")
    before, risen, standing = 0.0, 0, 0
    for done, counted in counts:
        if not (np.isfinite(done) and done >= before):
            raise ParameterError(
                f"A count stands at progress {done:g} after one at {before:g}.",
                "Give counts in order of time.",
            )
        if counted < 0:
            raise ParameterError(f"{counted} seedlings were counted.", "A count is 0 or more.")
        risen += max(counted - standing, 0)
        if risen > seeds:
            raise ParameterError(
                f"{counted} seedlings were counted, {risen} come up in all, of {seeds} seeds sown.",
                "Correct the count or the number of seeds; weeds may have been counted.",
            )
        before, standing = done, counted


def _share_up(progress_done: float, log_requirement: Floats, sigma: float) -> Floats:
    from scipy.special import ndtr

    if progress_done <= 0:
        return np.zeros_like(log_requirement)
    share: Floats = ndtr((np.log(progress_done) - log_requirement) / sigma)
    return share


def _nodes(later: Floats) -> tuple[Floats, Ints, Floats]:
    """Progresses to work out, and for each future the node below it and its place before the next."""
    unique, inverse = np.unique(later, return_inverse=True)
    if unique.size <= _FUTURES:
        return unique, inverse.astype(np.int64), np.zeros(later.size)
    finite = unique[np.isfinite(unique)]
    low, high = max(float(finite[0]), 1e-3), max(float(finite[-1]), 2e-3)
    nodes = np.geomspace(low, high, _FUTURES - 1)
    nodes = np.append(nodes, np.inf)
    place = np.clip(np.searchsorted(nodes, later, side="right") - 1, 0, nodes.size - 2)
    with np.errstate(invalid="ignore"):
        back = (later - nodes[place]) / (nodes[place + 1] - nodes[place])
    back = np.where(np.isinf(later), 1.0, np.where(place == nodes.size - 2, 0.0, np.clip(back, 0.0, 1.0)))
    return nodes, place.astype(np.int64), back


def _quantile(cdf: Floats, place: Ints, back: Floats, level: float) -> Ints:
    """Smallest number reached with at least a chance, read at the nearer node."""
    nearer = np.where(back > 0.5, np.minimum(place + 1, cdf.shape[0] - 1), place)
    at_node = (cdf < level - 1e-12).sum(axis=1)
    picked: Ints = np.minimum(at_node, cdf.shape[1] - 1)[nearer].astype(np.int64)
    return picked
