"""A sowing's way to emergence in weather that changes: progress, the moisture gate, who is up, what rots."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats

SIGMA = 0.25
"""Log spread of the requirement between seeds of one sowing. Source: memory (shape of emergence counts)."""

TAU = 0.20
"""Log spread of the median requirement between sowings: lot, depth, bed. Source: memory."""

WET_ENOUGH = 0.20
"""Share of the 20 mm seed-zone store below which progress stops. Source: memory (a threshold, not a slowing,
is the published finding for carrot in the field: FINCH1998)."""


def wet_gate(wetness: ArrayLike, closed_below_share: float = WET_ENOUGH) -> Floats:
    """1 on days when the seed zone is wet enough for progress, else 0; NaN stays NaN.

    Parameters
    ----------
    wetness : array, shape (..., day)
        Share 0 to 1 of the seed-zone store that is filled.
    closed_below_share : float
        Share below which progress stops.

    Returns
    -------
    array, shape (..., day)

    Source
    ------
    Threshold rather than slowing: FINCH1998 (Finch-Savage, Steckel and Phelps, 1998, New Phytologist
    139), published finding; the threshold's value: memory.
    """
    wet = np.asarray(wetness, dtype=np.float64)
    gate: Floats = np.where(np.isnan(wet), np.nan, (wet >= closed_below_share).astype(np.float64))
    return gate


def progress(rate: ArrayLike, gate: ArrayLike = 1.0) -> Floats:
    """Progress since the first day of the array, in units of the median requirement.

    Parameters
    ----------
    rate : array, shape (..., day)  [per day]
        Already averaged over the daily wave.
    gate : array broadcasting with rate
        From `wet_gate`.

    Returns
    -------
    array, shape (..., day)
        Value at the end of each day; 1 where half of the able seed is up. NaN from the first missing day on.

    Source
    ------
    computed: a running sum.
    """
    total: Floats = np.cumsum(
        np.asarray(rate, dtype=np.float64) * np.asarray(gate, dtype=np.float64), axis=-1
    )
    return total


def share_emerged(progress_done: ArrayLike, sigma: float = SIGMA, log_requirement: ArrayLike = 0.0) -> Floats:
    """Share of the able seed that is up at a given progress.

    Parameters
    ----------
    progress_done : array, any shape
        In units of the median requirement; zero or more.
    sigma : float
        Log spread between seeds of the sowing, above 0.
    log_requirement : array broadcasting with progress_done
        Log of this sowing's requirement over the crop's median; 0 is the median sowing.

    Returns
    -------
    array, broadcast shape
        0 to 1; NaN stays NaN.

    Raises
    ------
    ParameterError
        If sigma is not above 0.

    Source
    ------
    Log-normal spread of thermal time, as in hydrothermal-time models: memory.
    """
    from scipy.special import ndtr

    if not sigma > 0:
        raise ParameterError(f"The spread between seeds is {sigma:g}.", "It must be above 0.")
    done = np.asarray(progress_done, dtype=np.float64)
    with np.errstate(divide="ignore"):
        share: Floats = ndtr((np.log(done) - np.asarray(log_requirement, dtype=np.float64)) / sigma)
    return share


def progress_weighted(value: ArrayLike, rate: ArrayLike, until_share: float = 1.0) -> Floats:
    """Running mean of a daily value over the way to emergence, each day weighted by the progress made in it.

    Parameters
    ----------
    value : array, shape (..., day)
        Such as `percent_normal` averaged over the daily wave.
    rate : array, shape (..., day)  [per day]
        Gated rate of progress.
    until_share : float
        Progress at which the mean stops changing; 1 is half emerged.

    Returns
    -------
    array, shape (..., day)
        NaN until progress begins.

    Notes
    -----
    A seed decides by the temperatures under which it moves, so a cold week in which nothing moved counts
    for little. The error of the rule has not been measured. Slow rotting is a separate law.

    Source
    ------
    memory.
    """
    step = np.asarray(rate, dtype=np.float64)
    before = np.cumsum(step, axis=-1) - step
    weight = np.clip(until_share - before, 0.0, step)
    with np.errstate(invalid="ignore", divide="ignore"):
        mean: Floats = np.cumsum(weight * np.asarray(value, dtype=np.float64), axis=-1) / np.cumsum(
            weight, axis=-1
        )
    return mean


def rot_survival(
    soil_mean_c: ArrayLike,
    wetness: ArrayLike,
    progress_done: ArrayLike,
    rot_c: float,
    loss_per_c: float = 0.012,
) -> Floats:
    """Share of the seed still sound after lying cold and wet.

    Parameters
    ----------
    soil_mean_c : array, shape (..., day)  [degC]
        Daily mean at seed depth.
    wetness : array, shape (..., day)
        Share 0 to 1 of the seed-zone store.
    progress_done : array, shape (..., day)
        Losses stop when half of the able seed is up.
    rot_c : float  [degC]
        Soil mean below which wet seed of this crop rots.
    loss_per_c : float  [per day per degC]
        Hazard for every degree below rot_c in a seed zone more than half full.

    Returns
    -------
    array, shape (..., day)
        1 falling towards 0.

    Notes
    -----
    Ten days 4 C too cold and wet lose 38 percent. Meant for ranking sowing days, not for a count.

    Source
    ------
    memory: that beans and sweet corn rot in cold wet soil is common practice, the hazard's size is a guess.
    """
    cold = np.clip(rot_c - np.asarray(soil_mean_c, dtype=np.float64), 0.0, None)
    wet = np.clip((np.asarray(wetness, dtype=np.float64) - 0.5) / 0.25, 0.0, 1.0)
    waiting = np.clip(1.0 - np.asarray(progress_done, dtype=np.float64), 0.0, None) > 0
    hazard = np.where(np.isnan(cold * wet), np.nan, loss_per_c * cold * wet * waiting)
    sound: Floats = np.exp(-np.cumsum(hazard, axis=-1))
    return sound
