"""How big the plants are: leaves and height, for jobs that wait on a size.

Rough laws: a look in the bed beats them, and a count taken there moves them.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats

HALF_HEIGHT_SHARE = 0.55
"""Share of the way to ready at which a plant has half its height. Source: memory."""

HEIGHT_STEEPNESS = 7.0
"""Steepness of the height curve, per whole way. Source: memory."""


def leaf_number(
    grown_days: ArrayLike, leaf_days: float, first_leaves: float = 0.0, leaves_max: float = np.inf
) -> Floats:
    """True leaves from the physiological days since emergence.

    Parameters
    ----------
    grown_days : array, any shape  [physiological day]
        Below zero before emergence. NaN gives NaN.
    leaf_days : float  [physiological day]
        Days at the optimum for one more leaf, above 0.
    first_leaves : float
        True leaves at emergence, cotyledons not counted.
    leaves_max : float
        Where the number stops, at the last leaf before the flower or the heart.

    Returns
    -------
    array, shape of grown_days
        Zero before emergence.

    Raises
    ------
    ParameterError
        If leaf_days is not above 0.

    Notes
    -----
    Seedlings short of light or water lag by a leaf or two, which this does not see.

    Source
    ------
    memory: leaves appear at a steady pace in thermal time.
    """
    if not leaf_days > 0:
        raise ParameterError(f"A leaf takes {leaf_days:g} days.", "It must take more than 0.")
    grown = np.asarray(grown_days, dtype=np.float64)
    leaves = np.minimum(first_leaves + np.maximum(grown, 0.0) / leaf_days, leaves_max)
    number: Floats = np.where(grown < 0.0, 0.0, leaves)
    return number


def leaves_from_count(
    grown_days: ArrayLike,
    counted_leaves: float,
    counted_grown_days: ArrayLike,
    leaf_days: float,
    leaves_max: float = np.inf,
) -> Floats:
    """True leaves once they have been counted in the bed: the count holds, the pace goes on from it.

    Parameters
    ----------
    grown_days : array, shape (..., day)  [physiological day]
        Since emergence by the model. NaN gives NaN.
    counted_leaves : float
        True leaves seen on a typical plant.
    counted_grown_days : array broadcasting with grown_days  [physiological day]
        Value of grown_days on the day of the count.
    leaf_days : float  [physiological day]
    leaves_max : float

    Returns
    -------
    array, broadcast shape
        Zero or more.

    Raises
    ------
    ParameterError
        If leaf_days is not above 0 or the count below 0.

    Source
    ------
    computed: a shift of `leaf_number`.
    """
    if not (leaf_days > 0 and counted_leaves >= 0):
        raise ParameterError(
            f"Counted {counted_leaves:g} leaves, a leaf taking {leaf_days:g} days.",
            "The count must be 0 or more and a leaf take more than 0 days.",
        )
    since = np.asarray(grown_days, dtype=np.float64) - np.asarray(counted_grown_days, dtype=np.float64)
    number: Floats = np.clip(counted_leaves + since / leaf_days, 0.0, max(leaves_max, counted_leaves))
    return number


def height_cm(progress_share: ArrayLike, final_height_cm: float) -> Floats:
    """Height of a planting on its way to ready.

    Parameters
    ----------
    progress_share : array, any shape
        Share of the way from emergence to ready; below zero before emergence. NaN gives NaN.
    final_height_cm : float  [cm]
        Height when ready, zero or more.

    Returns
    -------
    array, shape of progress_share  [cm]
        Zero until emergence, the final height from ready on.

    Raises
    ------
    ParameterError
        If the final height is below 0.

    Notes
    -----
    A logistic curve stretched to start at nothing and end at the full height. Climbing plants that keep
    growing while they are picked are not followed past ready.

    Source
    ------
    memory.
    """
    if not final_height_cm >= 0:
        raise ParameterError(f"The final height is {final_height_cm:g} cm.", "It must be 0 or more.")
    way = np.clip(np.asarray(progress_share, dtype=np.float64), 0.0, 1.0)
    ends = 1.0 / (1.0 + np.exp(-HEIGHT_STEEPNESS * (np.array([0.0, 1.0]) - HALF_HEIGHT_SHARE)))
    curve = 1.0 / (1.0 + np.exp(-HEIGHT_STEEPNESS * (way - HALF_HEIGHT_SHARE)))
    height: Floats = final_height_cm * (curve - ends[0]) / (ends[1] - ends[0])
    return height
