"""Water by can, hose and drip: how much a depth is, how long it takes, and how fast a seed row dries."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science.soil_water import EVAPORATION_COEFFICIENT
from spadework.types import Floats

WATERING_SHARES = {"drip": 0.90, "sprinkler": 0.78, "can": 0.85, "hose": 0.85}
"""Share of the water given that reaches the roots. Source: common-practice."""

SEED_ZONE_MM = 20.0
"""Depth of soil a small seed drinks from [mm]. Source: memory."""

SEED_ZONE_USED_SHARE = 0.8
"""Share of the seed zone's water gone when a germinating seed stops drinking. Source: memory."""

RISING_SHARE = 0.6
"""Share of the surface's loss that wet soil below makes good. Source: memory."""


def litres_for_depth(depth_mm: ArrayLike, area_m2: ArrayLike, reaching_share: ArrayLike = 1.0) -> Floats:
    """Litres to give so that a depth of water reaches the roots of an area.

    Parameters
    ----------
    depth_mm : array  [mm]
    area_m2 : array  [m2]
    reaching_share : array  [-]
        From `WATERING_SHARES`, above 0 to 1.

    Returns
    -------
    array  [l]

    Raises
    ------
    ParameterError
        If depth or area is below zero, or nothing reaches the roots.

    Source
    ------
    computed: a millimetre on a square metre is a litre. Checked: tests/unit/science/test_watering.py
    """
    depth, area = np.asarray(depth_mm, dtype=np.float64), np.asarray(area_m2, dtype=np.float64)
    share = np.asarray(reaching_share, dtype=np.float64)
    if np.any(depth < 0.0) or np.any(area < 0.0) or np.any(share <= 0.0) or np.any(share > 1.0):
        raise ParameterError(
            "A depth or area is below zero, or no water reaches the roots.",
            "Depth and area must be 0 or more, the share above 0 and at most 1.",
        )
    litres: Floats = depth * area / share
    return litres


def minutes_for_litres(litres_l: ArrayLike, flow_l_min: ArrayLike) -> Floats:
    """Minutes a flow takes to give some litres.

    Parameters
    ----------
    litres_l : array  [l]
    flow_l_min : array  [l min-1]
        Above 0.

    Returns
    -------
    array  [min]

    Raises
    ------
    ParameterError
        If nothing flows.

    Source
    ------
    computed. Checked: tests/unit/science/test_watering.py
    """
    flow = np.asarray(flow_l_min, dtype=np.float64)
    if not np.all(flow > 0.0):
        raise ParameterError("Nothing flows.", "Give a flow above 0 litres a minute.")
    minutes: Floats = np.asarray(litres_l, dtype=np.float64) / flow
    return minutes


def seed_zone_store_mm(full_share: ArrayLike, wilting_share: ArrayLike) -> Floats:
    """Water the top 2 cm can lose before a germinating seed stops drinking.

    Parameters
    ----------
    full_share, wilting_share : array  [m3 m-3]
        Water contents of the soil, as in `root_soils.ROOT_SOILS`.

    Returns
    -------
    array  [mm]
        A loam gives 1.0.

    Source
    ------
    memory: half of what roots could take from the layer, four fifths of it used.
    Checked: tests/unit/science/test_watering.py
    """
    held = np.asarray(full_share, dtype=np.float64) - np.asarray(wilting_share, dtype=np.float64)
    store: Floats = SEED_ZONE_USED_SHARE * 0.5 * held * SEED_ZONE_MM
    return store


def drying_hours(
    store_mm: ArrayLike,
    et0_mm: ArrayLike,
    *,
    sunrise_h: ArrayLike,
    sunset_h: ArrayLike,
    from_h: ArrayLike,
    damp_below_share: ArrayLike = 0.0,
    shelter_factor: ArrayLike = 1.0,
) -> Floats:
    """Hours from a watering until a bare seed row is too dry, on the same day.

    Parameters
    ----------
    store_mm : array  [mm]
        From `seed_zone_store_mm`.
    et0_mm : array, shape (..., day)  [mm d-1]
        Reference evapotranspiration of the day.
    sunrise_h, sunset_h : array  [h, solar time]
    from_h : array  [h, solar time]
        When it was watered.
    damp_below_share : array  [-]
        How full the soil below is, 0 to 1: a wet bed feeds its surface.
    shelter_factor : array  [-]
        Loss under fleece, shade or a board over that in the open.

    Returns
    -------
    array  [h]
        Infinite where it lasts until the next morning.

    Raises
    ------
    ParameterError
        If there is no day between sunrise and sunset, or a store is not above 0.

    Notes
    -----
    The day's loss is spread over the hours of sun as half a sine wave, the night loses nothing. Wind, clouds
    that come and go, and a crust are not seen.

    Source
    ------
    computed: the integral of a half sine, with the surface's coefficient (memory).
    Checked: tests/unit/science/test_watering.py
    """
    store = np.asarray(store_mm, dtype=np.float64)
    rise, fall = np.asarray(sunrise_h, dtype=np.float64), np.asarray(sunset_h, dtype=np.float64)
    if np.any(fall <= rise) or np.any(store <= 0.0):
        raise ParameterError("No daylight, or a seed row that holds nothing.", "Both must be above 0.")
    start = np.clip(np.asarray(from_h, dtype=np.float64), rise, fall)
    lost = surface_loss_mm(et0_mm, damp_below_share=damp_below_share, shelter_factor=shelter_factor)
    begun = (1.0 - np.cos(np.pi * (start - rise) / (fall - rise))) / 2.0
    with np.errstate(divide="ignore"):
        ended = begun + store / lost
    hour = rise + (fall - rise) / np.pi * np.arccos(1.0 - 2.0 * np.minimum(ended, 1.0))
    hours: Floats = np.where(ended > 1.0, np.inf, hour - np.asarray(from_h, dtype=np.float64))
    return hours


def surface_loss_mm(
    et0_mm: ArrayLike, *, damp_below_share: ArrayLike = 0.0, shelter_factor: ArrayLike = 1.0
) -> Floats:
    """Water the wet surface of a bare seed row loses in a day, less what rises from below.

    Parameters
    ----------
    et0_mm, damp_below_share, shelter_factor : array
        As in `drying_hours`.

    Returns
    -------
    array  [mm d-1]

    Raises
    ------
    ParameterError
        If a share is not 0 to 1, or a factor or evapotranspiration is below zero.

    Source
    ------
    memory. Checked: tests/unit/science/test_watering.py
    """
    below = np.asarray(damp_below_share, dtype=np.float64)
    et0, shelter = np.asarray(et0_mm, dtype=np.float64), np.asarray(shelter_factor, dtype=np.float64)
    if np.any((below < 0.0) | (below > 1.0)) or np.any(et0 < 0.0) or np.any(shelter < 0.0):
        raise ParameterError(
            "A share lies outside 0 to 1, or a loss is below zero.", "Use shares of 0 to 1 and 0 mm or more."
        )
    lost: Floats = EVAPORATION_COEFFICIENT * et0 * shelter * (1.0 - RISING_SHARE * below)
    return lost


def waterings_a_day(
    store_mm: ArrayLike,
    et0_mm: ArrayLike,
    *,
    damp_below_share: ArrayLike = 0.0,
    shelter_factor: ArrayLike = 1.0,
) -> Floats:
    """How often a seed row must be watered on a day so that it never dries.

    Parameters
    ----------
    store_mm, et0_mm, damp_below_share, shelter_factor : array
        As in `drying_hours`.

    Returns
    -------
    array
        Whole numbers, 0 on a day that takes nothing.

    Source
    ------
    computed from `surface_loss_mm`. Checked: tests/unit/science/test_watering.py
    """
    lost = surface_loss_mm(et0_mm, damp_below_share=damp_below_share, shelter_factor=shelter_factor)
    times: Floats = np.ceil(lost / np.asarray(store_mm, dtype=np.float64) - 1e-9)
    return times
