"""Crops picked again and again, and what holds them up: fruit past its size, and wind on a trellis."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats

AIR_KG_M3 = 1.2
"""Density of air [kg m-3]. Source: common-practice, a mild day at low altitude."""

LEAFY_DRAG_FACTOR = 1.0
"""Force of wind on a leafy screen over that of its full stopping [-]. Source: memory; leaves fold away in
gales."""

GUST_FACTOR = 1.6
"""A gust over the mean wind of the hour [-]. Source: common-practice."""

BURIED_SHARE = 0.25
"""Share of a post's whole length that stands in the ground. Source: common-practice, a quarter to a third."""

HELD_BACK_SHARE = 0.5
"""Share by which a plant loaded with fruit past its size sets fewer. Source: memory."""


def past_size_share(since_pick_cday: ArrayLike, stays_good_cday: ArrayLike) -> Floats:
    """Share of the fruit that came to size since the last picking and is past it by now.

    Parameters
    ----------
    since_pick_cday : array  [degC d]
        Warmth since the last picking, above the crop's base.
    stays_good_cday : array  [degC d]
        Warmth a fruit stays within its best size, above 0.

    Returns
    -------
    array  [-]
        0 while the gap is shorter than that, towards 1.

    Raises
    ------
    ParameterError
        If a sum is below zero or fruit does not stay good at all.

    Source
    ------
    computed: fruit comes to size at an even pace in warmth; the pace itself is the crop's.
    Checked: tests/unit/science/test_picking.py
    """
    gap, good = np.asarray(since_pick_cday, dtype=np.float64), np.asarray(stays_good_cday, dtype=np.float64)
    if np.any(gap < 0.0) or np.any(good <= 0.0):
        raise ParameterError(
            "A sum of warmth is out of range.", "Use 0 or more since picking, above 0 to stay good."
        )
    return np.maximum(1.0 - good / np.maximum(gap, good), 0.0)


def picking_loss_share(since_pick_cday: ArrayLike, stays_good_cday: ArrayLike) -> Floats:
    """Share of the picking to come that a gap costs: fruit past its size, and fewer set behind it.

    Parameters
    ----------
    since_pick_cday, stays_good_cday : array  [degC d]
        As in `past_size_share`.

    Returns
    -------
    array  [-]
        0 to 1.

    Source
    ------
    computed from `past_size_share`; what plants hold back: memory.
    Checked: tests/unit/science/test_picking.py
    """
    past = past_size_share(since_pick_cday, stays_good_cday)
    lost: Floats = past + (1.0 - past) * HELD_BACK_SHARE * past
    return lost


def wind_force_n(wind_m_s: ArrayLike, leaf_area_m2: ArrayLike, *, gusts: bool = True) -> Floats:
    """Force of wind on a leafy screen.

    Parameters
    ----------
    wind_m_s : array  [m s-1]
        Mean wind at the screen.
    leaf_area_m2 : array  [m2]
        Its side, height times length.
    gusts : bool
        Take the gust in place of the mean.

    Returns
    -------
    array  [N]
        Ten newtons are the weight of a kilogram.

    Raises
    ------
    ParameterError
        If wind or area is below zero.

    Source
    ------
    common-practice: pressure of stopped air. Checked: tests/unit/science/test_picking.py
    """
    wind, area = np.asarray(wind_m_s, dtype=np.float64), np.asarray(leaf_area_m2, dtype=np.float64)
    if np.any(wind < 0.0) or np.any(area < 0.0):
        raise ParameterError("Wind or area is below zero.", "Use 0 or more.")
    speed = wind * (GUST_FACTOR if gusts else 1.0)
    force: Floats = 0.5 * AIR_KG_M3 * LEAFY_DRAG_FACTOR * speed**2 * area
    return force


def post_length_m(crop_height_m: ArrayLike) -> Floats:
    """Length of a post for a crop of a height, with what goes into the ground.

    Parameters
    ----------
    crop_height_m : array  [m]
        Above the ground.

    Returns
    -------
    array  [m]

    Raises
    ------
    ParameterError
        If a height is below zero.

    Notes
    -----
    In an exposed place, loose soil or a raised bed more of it belongs in the ground, or a stay on the wind's
    side.

    Source
    ------
    common-practice. Checked: tests/unit/science/test_picking.py
    """
    height = np.asarray(crop_height_m, dtype=np.float64)
    if np.any(height < 0.0):
        raise ParameterError("A height is below zero.", "Use 0 m or more.")
    length: Floats = height / (1.0 - BURIED_SHARE)
    return length


def leaning_share(crop_height_m: ArrayLike, support_height_m: ArrayLike) -> Floats:
    """Share of a crop's height that stands above its support, where it can fall or break.

    Parameters
    ----------
    crop_height_m, support_height_m : array  [m]
        Support 0 for none.

    Returns
    -------
    array  [-]
        0 to 1.

    Raises
    ------
    ParameterError
        If a height is below zero.

    Source
    ------
    common-practice. Checked: tests/unit/science/test_picking.py
    """
    crop, held = np.asarray(crop_height_m, dtype=np.float64), np.asarray(support_height_m, dtype=np.float64)
    if np.any(crop < 0.0) or np.any(held < 0.0):
        raise ParameterError("A height is below zero.", "Use 0 m or more.")
    with np.errstate(divide="ignore", invalid="ignore"):
        above: Floats = np.where(crop > 0.0, np.clip((crop - held) / crop, 0.0, 1.0), 0.0)
    return above
