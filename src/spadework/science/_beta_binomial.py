"""Betas on a grid of shares and counts whose chance of success is itself uncertain (beta-binomial)."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from spadework.types import Floats

_CHANCES, _SMALL = 161, 2000  # chances of a table; seeds of one that is kept


def beta_weights(share: Floats, shape: tuple[float, float]) -> Floats:
    """Weights of a beta at given shares, summing to 1."""
    log_density = (shape[0] - 1.0) * np.log(share) + (shape[1] - 1.0) * np.log1p(-share)
    weights: Floats = np.exp(log_density - log_density.max())
    weights /= weights.sum()
    return weights


def log_chance(arrived: int, seeds: int, chance: Floats, clumping: float) -> Floats:
    """Log chance of a number of seedlings, less what does not depend on the chance of each."""
    from scipy.special import gammaln

    size = 1.0 / clumping - 1.0
    first = np.clip(chance, 1e-9, 1.0 - 1e-9) * size
    second = size - first
    log_like: Floats = (
        gammaln(arrived + first) - gammaln(first) + gammaln(seeds - arrived + second) - gammaln(second)
    )
    return log_like


def chance_table(seeds: int, chance: Floats, clumping: float) -> Floats:
    """Chance of 0..seeds seedlings for each chance of one, shape (chance, seeds + 1)."""
    size = 1.0 / clumping - 1.0
    first = chance[:, None] * size
    second = size - first
    count = np.arange(seeds, dtype=np.float64)
    with np.errstate(divide="ignore"):
        step = np.log((seeds - count) * (count + first)) - np.log(
            (count + 1.0) * (seeds - count - 1.0 + second)
        )
    log_odds = np.zeros((chance.size, seeds + 1))
    log_odds[:, 1:] = np.cumsum(step, axis=1)
    return _normalised(log_odds)


def odds_table(seeds: int, clumping: float) -> tuple[Floats, Floats]:
    """Chances of one seed, close together near none, and `chance_table` of them; small ones are kept."""
    return _kept_table(seeds, clumping) if seeds <= _SMALL else _made_table(seeds, clumping)


def _made_table(seeds: int, clumping: float) -> tuple[Floats, Floats]:
    chance = np.linspace(0.0, 1.0, _CHANCES) ** 2
    return chance, chance_table(seeds, chance, clumping)


_kept_table = lru_cache(maxsize=48)(_made_table)


def _normalised(log_odds: Floats) -> Floats:
    top = log_odds.max(axis=1, keepdims=True)
    certain = np.isposinf(top)
    chance = np.exp(np.where(certain, 0.0, log_odds - np.where(certain, 0.0, top)))
    if certain.any():  # every seed comes: the last step is without bound
        rows = certain[:, 0]
        chance[rows] = 0.0
        chance[rows, -1] = 1.0
    normal: Floats = chance / chance.sum(axis=1, keepdims=True)
    return normal
