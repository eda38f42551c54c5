"""Room for plants: what density does to their size, what thinning saves, and when leaves close over the
soil."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats

THINNED_CV_SHARE = 0.4
UNTHINNED_CV_SHARE = 0.7
"""Spread of plant weights over their mean, in a thinned and in an unthinned row [-]. Source: memory."""

CROWDED_FROM_SHARE = 0.5
"""Leaf cover of the soil from which neighbours take from each other [-]. Source: memory."""

ROOT_THINNING_DAYS = 15.0
LEAF_THINNING_DAYS = 25.0
"""Days past crowding at which late thinning has cost 63 percent of what thinning gains, for roots and for
leaf crops [d]. Source: memory."""

CLUMP_CM = 3.0
"""Plants nearer than this in a row come to one marketable root [cm]. Source: memory."""


HALF_OF_TOUCHING = 0.5
"""Plants at which a square metre gives half of the most it can, over those that stand side by side on it at
the distance a crop is usually given all round [-]. Source: computed. Fits to onions at two sites have 0.46
and 0.29, the sizes of parsnips at two densities about 1; the middle of the three as ratios."""


def half_yield_plants_m2(spread_cm: ArrayLike) -> Floats:
    """Plants on a square metre that give half of the most it can, by the room a crop takes.

    Parameters
    ----------
    spread_cm : array  [cm]
        Distance all round at which the crop's leaves close, above 0.

    Returns
    -------
    array  [m-2]
        It is alpha over beta in the laws below, for crops of which no trial was fitted.

    Raises
    ------
    ParameterError
        If a spread is not above 0.

    Source
    ------
    computed: the middle of three trials, as the constant says.
    Checked: tests/published/crowding/test_crowding_by_spread.py
    """
    spread_m = np.asarray(spread_cm, dtype=np.float64) / 100.0
    if np.any(spread_m <= 0.0):
        raise ParameterError("A plant takes no room.", "Use a spread above 0 cm.")
    return np.asarray(HALF_OF_TOUCHING / spread_m**2)


def plant_mass_g(
    plants_m2: ArrayLike, alpha_density: ArrayLike, beta_density: ArrayLike, theta_density: ArrayLike = 1.0
) -> Floats:
    """Mass of a plant by the number on a square metre.

    Parameters
    ----------
    plants_m2 : array  [m-2]
        Plants that stand, zero or more.
    alpha_density, beta_density, theta_density : array
        Of w^-theta = alpha + beta rho, w in g; theta 1 gives a yield that levels off, less than 1 one that
        falls again. Each above 0, beta 0 or more.

    Returns
    -------
    array  [g]

    Raises
    ------
    ParameterError
        If a parameter or density is out of range.

    Notes
    -----
    The numbers belong to one variety, site and harvest date. Bolted and split plants are not in it.

    Source
    ------
    SHINOZAKI_KIRA1956 and BLEASDALE_NELDER1960 (memory). Checked: tests/published/crowding/test_crowding.py
    """
    density, alpha = np.asarray(plants_m2, dtype=np.float64), np.asarray(alpha_density, dtype=np.float64)
    beta, theta = np.asarray(beta_density, dtype=np.float64), np.asarray(theta_density, dtype=np.float64)
    if np.any(density < 0.0) or np.any(alpha <= 0.0) or np.any(beta < 0.0) or np.any(theta <= 0.0):
        raise ParameterError(
            "A law of density has a number out of range.",
            "Density and beta must be 0 or more, alpha and theta above 0.",
        )
    mass: Floats = (alpha + beta * density) ** (-1.0 / theta)
    return mass


def yield_kg_m2(
    plants_m2: ArrayLike, alpha_density: ArrayLike, beta_density: ArrayLike, theta_density: ArrayLike = 1.0
) -> Floats:
    """Whole yield by the number of plants on a square metre.

    Parameters
    ----------
    plants_m2, alpha_density, beta_density, theta_density : array
        As in `plant_mass_g`.

    Returns
    -------
    array  [kg m-2]

    Source
    ------
    SHINOZAKI_KIRA1956 and BLEASDALE_NELDER1960 (memory). Checked: tests/published/crowding/test_crowding.py
    """
    mass = plant_mass_g(plants_m2, alpha_density, beta_density, theta_density)
    return np.asarray(plants_m2, dtype=np.float64) * mass / 1000.0


def plants_for_mass_m2(
    mass_g: ArrayLike, alpha_density: ArrayLike, beta_density: ArrayLike, theta_density: ArrayLike = 1.0
) -> Floats:
    """Plants on a square metre that bring each to a mass.

    Parameters
    ----------
    mass_g : array  [g]
        Wanted, above 0.
    alpha_density, beta_density, theta_density : array
        As in `plant_mass_g`; beta above 0.

    Returns
    -------
    array  [m-2]
        0 where even a lone plant stays smaller.

    Raises
    ------
    ParameterError
        If a number is out of range.

    Source
    ------
    computed: `plant_mass_g` turned round. Checked: tests/published/crowding/test_crowding.py
    """
    mass, beta = np.asarray(mass_g, dtype=np.float64), np.asarray(beta_density, dtype=np.float64)
    if np.any(mass <= 0.0) or np.any(beta <= 0.0):
        raise ParameterError("A mass or beta is not above 0.", "Both must be above 0.")
    alpha, theta = np.asarray(alpha_density, dtype=np.float64), np.asarray(theta_density, dtype=np.float64)
    return np.maximum((mass**-theta - alpha) / beta, 0.0)


def share_in_grade(
    mass_g: ArrayLike,
    low_g: ArrayLike,
    high_g: ArrayLike = np.inf,
    cv_share: ArrayLike = THINNED_CV_SHARE,
) -> Floats:
    """Share of plants whose mass lies in a grade.

    Parameters
    ----------
    mass_g : array  [g]
        Mean of all.
    low_g, high_g : array  [g]
        The grade; 0 and infinity leave a side open.
    cv_share : array  [-]
        Spread over the mean, above 0.

    Returns
    -------
    array  [-]

    Raises
    ------
    ParameterError
        If mean or spread is not above 0, or the grade's ends are crossed.

    Source
    ------
    computed: lognormal masses (the spread: memory). Checked: tests/published/crowding/test_crowding.py
    """
    from scipy.special import ndtr

    mean, cv = np.asarray(mass_g, dtype=np.float64), np.asarray(cv_share, dtype=np.float64)
    low, high = np.asarray(low_g, dtype=np.float64), np.asarray(high_g, dtype=np.float64)
    if np.any(mean <= 0.0) or np.any(cv <= 0.0) or np.any(high < low) or np.any(low < 0.0):
        raise ParameterError(
            "A grade, mean or spread is out of range.", "Use 0 <= low <= high, the rest above 0."
        )
    sd = np.sqrt(np.log1p(cv**2))
    middle = np.log(mean) - sd**2 / 2.0
    with np.errstate(divide="ignore"):
        share: Floats = ndtr((np.log(high) - middle) / sd) - ndtr((np.log(low) - middle) / sd)
    return share


def late_thinning_share(days_past: ArrayLike, slack_days: ArrayLike = ROOT_THINNING_DAYS) -> Floats:
    """Share of what thinning gains that is gone when it is done late.

    Parameters
    ----------
    days_past : array  [d]
        Since neighbours began to crowd; below zero before.
    slack_days : array  [d]
        `ROOT_THINNING_DAYS` or `LEAF_THINNING_DAYS`, above 0.

    Returns
    -------
    array  [-]
        0 until crowding, towards 1.

    Raises
    ------
    ParameterError
        If slack_days is not above 0.

    Source
    ------
    memory. Checked: tests/published/crowding/test_crowding.py
    """
    slack = np.asarray(slack_days, dtype=np.float64)
    if np.any(slack <= 0.0):
        raise ParameterError("Thinning has no slack.", "Use more than 0 days.")
    late: Floats = 1.0 - np.exp(-np.maximum(np.asarray(days_past, dtype=np.float64), 0.0) / slack)
    return late


def sound_plants_per_m(plants_per_m: ArrayLike, clump_cm: ArrayLike = CLUMP_CM) -> Floats:
    """Plants of an unthinned row that have room to become one marketable root each.

    Parameters
    ----------
    plants_per_m : array  [m-1]
        Standing in the row, scattered by chance.
    clump_cm : array  [cm]
        Nearer than this they come to one.

    Returns
    -------
    array  [m-1]
        Walking along the row: each plant counts that is at least so far from the last that counted.

    Raises
    ------
    ParameterError
        If a number is below zero.

    Source
    ------
    computed: renewal along a row scattered by chance. Checked: tests/published/crowding/test_crowding.py
    """
    standing, apart = (
        np.asarray(plants_per_m, dtype=np.float64),
        np.asarray(clump_cm, dtype=np.float64) / 100.0,
    )
    if np.any(standing < 0.0) or np.any(apart < 0.0):
        raise ParameterError("Plants or a distance below zero.", "Use 0 or more.")
    sound: Floats = standing / (1.0 + standing * apart)
    return sound


def leaf_cover_share(spread_cm: ArrayLike, plants_m2: ArrayLike, *, scattered: bool = False) -> Floats:
    """Share of the ground under leaves, from the width of the plants and how many stand.

    Parameters
    ----------
    spread_cm : array  [cm]
        Width of a plant on the day.
    plants_m2 : array  [m-2]
    scattered : bool
        Sown broadcast or unthinned; otherwise evenly spaced.

    Returns
    -------
    array  [-]
        0 to 1.

    Raises
    ------
    ParameterError
        If a number is below zero.

    Source
    ------
    computed: round plants side by side, or scattered by chance.
    Checked: tests/published/crowding/test_crowding.py
    """
    width, density = np.asarray(spread_cm, dtype=np.float64) / 100.0, np.asarray(plants_m2, dtype=np.float64)
    if np.any(width < 0.0) or np.any(density < 0.0):
        raise ParameterError("A width or number of plants is below zero.", "Use 0 or more.")
    leaves = density * np.pi / 4.0 * width**2
    return -np.expm1(-leaves) if scattered else np.minimum(leaves, 1.0)


def spread_on_way_cm(way_share: ArrayLike, final_spread_cm: ArrayLike, full_share: float = 0.5) -> Floats:
    """Width of a plant on its way to ready.

    Parameters
    ----------
    way_share : array  [-]
        Share of the way; below zero before emergence. NaN gives NaN.
    final_spread_cm : array  [cm]
        When full-grown.
    full_share : float  [-]
        Share of the way at which it is as wide as it gets, above 0.

    Returns
    -------
    array  [cm]

    Raises
    ------
    ParameterError
        If full_share is not above 0.

    Source
    ------
    memory: width grows steadily until the leaf is full. Checked: tests/published/crowding/test_crowding.py
    """
    if not full_share > 0.0:
        raise ParameterError("Plants are full-grown from the first.", "Use a share above 0.")
    done = np.asarray(way_share, dtype=np.float64) / full_share
    return np.asarray(final_spread_cm, dtype=np.float64) * np.clip(done, 0.0, 1.0)
