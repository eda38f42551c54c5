"""The normal curve by table: courses ask for it a hundred thousand times a question."""

from __future__ import annotations

from functools import lru_cache
from math import erf, sqrt

import numpy as np

from spadework.types import Floats, Ints

_REACH = 5.0
_STEP = 0.005


@lru_cache(maxsize=1)
def _nodes() -> Floats:
    # the standard library's error function: scipy.special would cost a question half a second to load
    deviates = np.arange(-_REACH, _REACH + _STEP / 2, _STEP)
    return np.array([0.5 * (1.0 + erf(deviate / sqrt(2.0))) for deviate in deviates])


def normal_share(deviate: Floats) -> Floats:
    """Share of a standard normal below each deviate, nearest node of a table of step 0.005.

    Parameters
    ----------
    deviate : array
        Standard deviates; infinities allowed, NaN gives NaN.

    Returns
    -------
    array
        0 to 1, within 0.001 of the exact value (half a step times the peak density, 0.3989).
    """
    nodes = _nodes()
    place = np.clip((deviate + _REACH) / _STEP + 0.5, 0.0, nodes.size - 1)
    unknown = np.isnan(place)
    if unknown.any():
        place = np.where(unknown, 0.0, place)
        return np.where(unknown, np.nan, nodes[place.astype(np.intp)])
    return nodes[place.astype(np.intp)]


def log_normal_share(amount: Floats, median: float | Floats, log_sd: float | Floats) -> Floats:
    """Share of a log-normal requirement met by an amount; zero where nothing has been gathered.

    Parameters
    ----------
    amount : array
        What has been gathered so far, zero or more, in the unit of the median.
    median, log_sd : float or array
        Median of the requirement and spread of its logarithm. Broadcast with the amount.
    """
    spread, middle = np.asarray(log_sd, dtype=np.float64), np.asarray(median, dtype=np.float64)
    low, high = middle * np.exp(-_REACH * spread), middle * np.exp(_REACH * spread)
    share: Floats = (amount >= high).astype(np.float64)
    # only the days on which some but not all have met it need the curve
    between = np.flatnonzero((amount > low) & (amount < high))
    chosen = np.log(np.ravel(amount)[between])
    chosen -= _at(np.log(middle), between, amount.shape)
    chosen /= _at(spread, between, amount.shape)
    share.reshape(-1)[between] = normal_share(chosen)
    if np.isnan(amount.sum()):
        share[np.isnan(amount)] = np.nan
    return share


def _at(values: Floats, places: Ints, shape: tuple[int, ...]) -> Floats:
    """Values that broadcast to a shape, at places of it flattened."""
    if values.size == 1:
        return np.asarray(values.reshape(()))
    if values.shape == (shape[0], 1):
        return np.asarray(values[places // shape[1], 0])
    return np.asarray(np.broadcast_to(values, shape).reshape(-1)[places])


@lru_cache(maxsize=4)
def hermite(nodes: int) -> tuple[Floats, Floats]:
    """Nodes and weights that stand for a standard normal.

    Returns
    -------
    deviates, weights : array, shape (nodes,)
        Weights sum to 1.
    """
    place, weight = np.polynomial.hermite_e.hermegauss(nodes)
    return place, weight / weight.sum()


@lru_cache(maxsize=4)
def equal_shares(nodes: int) -> tuple[Floats, Floats]:
    """Nodes of equal weight that stand for a standard normal, where what is averaged is steep.

    Each is the mean of its own share of the curve; together they are stretched to a spread of 1.

    Returns
    -------
    deviates, weights : array, shape (nodes,)
        Weights sum to 1.
    """
    from scipy.special import ndtri

    edges = ndtri(np.linspace(0.0, 1.0, nodes + 1))
    density = np.exp(-(edges**2) / 2.0) / np.sqrt(2.0 * np.pi)
    means = (density[:-1] - density[1:]) * nodes
    return means / np.sqrt(np.mean(means**2)), np.full(nodes, 1.0 / nodes)
