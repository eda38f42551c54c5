"""Water in the root zone, day by day: what roots can reach, what is gone of it, and when plants go short.

Crop water use is split in two: what the leaves breathe out and what the bare, wet surface loses. Both draw on
one store of water as deep as the roots; the surface loses less as its own top layer dries.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science.crop_water import upper_coefficient
from spadework.types import Floats

SOAKING_RAIN_MM = 3.0
"""Rain of a day that wets the whole surface again [mm]. Source: memory."""

MULCH_FACTORS = {"": 1.0, "organic": 0.5, "film": 0.3}
"""Evaporation from the surface under a mulch over that of bare ground [-]. Source: memory; FAO56, ch. 10,
points the same way."""

_LEAST_BARE = 0.01


def available_water_mm(full: ArrayLike, wilting: ArrayLike, roots_m: ArrayLike) -> Floats:
    """Water the root zone holds between full and wilting.

    Parameters
    ----------
    full, wilting : array  [m3 m-3]
        Water contents, as in `root_soils.ROOT_SOILS`.
    roots_m : array  [m]
        Depth of the roots. Broadcasts.

    Returns
    -------
    array  [mm]

    Raises
    ------
    ParameterError
        If a soil holds no more when full than when wilting, or roots have a depth below zero.

    Source
    ------
    FAO56, eq. 82 (published). Checked: tests/published/fao56/test_root_zone.py
    """
    most, least = np.asarray(full, dtype=np.float64), np.asarray(wilting, dtype=np.float64)
    depth = np.asarray(roots_m, dtype=np.float64)
    if np.any(most <= least) or np.any(least < 0.0):
        raise ParameterError("A soil holds no water for roots.", "Full must be above wilting, both above 0.")
    if np.any(depth < 0.0):
        raise ParameterError(f"Roots of {np.nanmin(depth):g} m.", "Use 0 m or more.")
    return 1000.0 * (most - least) * depth


def depletion_share(table_share: ArrayLike, use_mm: ArrayLike) -> Floats:
    """Share of the root zone's water that may be gone before plants go short, by the thirst of the day.

    Parameters
    ----------
    table_share : array  [-]
        The crop's printed share, for a use of 5 mm a day.
    use_mm : array  [mm d-1]
        Water use of the well-watered crop that day.

    Returns
    -------
    array  [-]
        0.1 to 0.8: less on thirsty days.

    Source
    ------
    FAO56, ch. 8 and table 22 (published). Checked: tests/published/fao56/test_root_zone.py
    """
    share: Floats = np.asarray(table_share, dtype=np.float64) + 0.04 * (
        5.0 - np.asarray(use_mm, dtype=np.float64)
    )
    return np.clip(share, 0.1, 0.8)


def stress_share(depletion_mm: ArrayLike, available_mm: ArrayLike, readily_mm: ArrayLike) -> Floats:
    """Share of full water use that plants get.

    Parameters
    ----------
    depletion_mm : array  [mm]
        Water gone from the root zone at the start of the day.
    available_mm, readily_mm : array  [mm]
        What the root zone holds, and what may be gone before plants go short.

    Returns
    -------
    array  [-]
        1 while there is enough, 0 at wilting.

    Raises
    ------
    ParameterError
        If all that is held could be taken readily.

    Source
    ------
    FAO56, eq. 84 (published). Checked: tests/published/fao56/test_root_zone.py
    """
    held, ready = np.asarray(available_mm, dtype=np.float64), np.asarray(readily_mm, dtype=np.float64)
    if np.any(ready >= held):
        raise ParameterError("Plants could take all the water there is.", "Readily must be below available.")
    gone = np.asarray(depletion_mm, dtype=np.float64)
    return np.clip((held - gone) / (held - ready), 0.0, 1.0)


class Balance(NamedTuple):
    """A season of water, each array [..., day] and, but for stress, in mm; stores at the end of the day."""

    depletion_mm: Floats
    surface_mm: Floats
    readily_mm: Floats
    stress_share: Floats
    use_mm: Floats
    evaporation_mm: Floats
    drainage_mm: Floats


def water_balance(
    rain_mm: ArrayLike,
    et0_mm: ArrayLike,
    *,
    basal_kc: ArrayLike,
    cover_share: ArrayLike,
    available_mm: ArrayLike,
    depletion_table_share: ArrayLike,
    surface_readily_mm: ArrayLike,
    surface_evaporable_mm: ArrayLike,
    upper_kc: ArrayLike | None = None,
    watering_mm: ArrayLike = 0.0,
    wetted_share: ArrayLike = 1.0,
    mulch_factor: ArrayLike = 1.0,
    start_depletion_mm: ArrayLike = 0.0,
    start_surface_mm: ArrayLike = 0.0,
    felt_low_share: ArrayLike | None = None,
    felt_high_share: ArrayLike | None = None,
    fixed_share: bool = False,
) -> Balance:
    """Root zone and surface through a run of days.

    Parameters
    ----------
    rain_mm, et0_mm : array, shape (..., day)  [mm], [mm d-1]
        Rain that reaches the ground, and reference evapotranspiration; under a cover both as it is there.
    basal_kc : array, shape (..., day)  [-]
        Basal coefficient of what stands; 0 on bare ground.
    cover_share : array, shape (..., day)  [-]
        Ground under leaves, 0 to 1.
    available_mm : array, shape (..., day)  [mm]
        Water between full and wilting as deep as the roots are that day, above 0.
    depletion_table_share : array  [-]
        The crop's printed share p, for a use of 5 mm a day.
    surface_readily_mm, surface_evaporable_mm : array, shape (...) without the day axis  [mm]
        Of the top layer; the second larger than the first.
    upper_kc : array, shape (..., day), or None  [-]
        From `upper_coefficient`; None for the standard climate and a low crop.
    watering_mm : array, shape (..., day)  [mm]
        Water that reaches the ground, over the whole ground.
    wetted_share : array, shape (..., day)  [-]
        Share of the surface a watering wets, above 0 to 1: about 0.4 with drip lines.
    mulch_factor : array, shape (..., day)  [-]
        As in `MULCH_FACTORS`.
    start_depletion_mm, start_surface_mm : array, shape (...)  [mm]
        Gone from the root zone and from the top layer on the evening before.
    felt_low_share, felt_high_share : array, shape (..., day), or None  [-]
        Bounds a finger in the soil sets in the morning, as shares of what may readily be gone; NaN on days
        without one. Given together.
    fixed_share : bool
        Hold the depletion share at the printed one whatever the day's use.

    Returns
    -------
    Balance

    Raises
    ------
    ParameterError
        If there is no day axis, rain, watering or evapotranspiration is below zero, or a store holds nothing.

    Notes
    -----
    Rain and watering come early in the day: first the stores are filled, then evaporation, stress and use
    follow from what is missing. Water beyond full drains within the day. Roots that grow deeper find that
    soil full. Days with missing weather are NaN; only watering moves the stores on them. Run-off, water
    rising from below and trees' roots are left out. A season beside an independent program of the same paper
    (pyfao56): see docs/accuracy.md.

    Source
    ------
    FAO56, ch. 7 and 8, eq. 69 to 88 (published); the morning's bounds are ours (memory).
    Checked: tests/published/fao56/test_root_zone.py, tests/published/fao56/test_season_beside_another.py
    """
    rain, et0 = np.asarray(rain_mm, dtype=np.float64), np.asarray(et0_mm, dtype=np.float64)
    water = np.asarray(watering_mm, dtype=np.float64)
    kcb, held = np.asarray(basal_kc, dtype=np.float64), np.asarray(available_mm, dtype=np.float64)
    wetted = np.asarray(wetted_share, dtype=np.float64)
    tew = np.asarray(surface_evaporable_mm, dtype=np.float64)
    rew = np.asarray(surface_readily_mm, dtype=np.float64)
    if rain.ndim == 0 and et0.ndim == 0:
        raise ParameterError(
            "A water balance needs a run of days.", "Give arrays with days as the last axis."
        )
    if np.any(rain < 0.0) or np.any(et0 < 0.0) or np.any(water < 0.0):
        raise ParameterError("Rain, watering or evapotranspiration is below zero.", "Use 0 mm or more.")
    if np.any(held <= 0.0) or np.any(rew < 0.0) or np.any(tew <= rew) or np.any(wetted <= 0.0):
        raise ParameterError(
            "A store of water holds nothing, or a watering wets nothing.",
            "Available water and wetted share must be above 0, evaporable water above readily evaporable.",
        )
    most = upper_coefficient(kcb) if upper_kc is None else np.asarray(upper_kc, dtype=np.float64)
    covered = np.asarray(cover_share, dtype=np.float64)
    mulch = np.asarray(mulch_factor, dtype=np.float64)
    table = np.asarray(depletion_table_share, dtype=np.float64)
    p0 = table if table.ndim else table[None]
    by_row = (tew, rew, start_depletion_mm, start_surface_mm)
    shape = np.broadcast_shapes(
        *(each.shape for each in (rain, et0, water, kcb, covered, held, most, mulch)),
        *((*np.shape(each), 1) for each in by_row),
    )
    unknown = np.isnan(rain) | np.isnan(et0)
    rain, et0 = np.where(unknown, 0.0, rain), np.where(unknown, 0.0, et0)
    wet_now = _wetted_now(rain, water, wetted)
    bare = np.maximum(np.minimum(1.0 - covered, wet_now), _LEAST_BARE)

    def by_day(values: Floats) -> Floats:
        return np.moveaxis(np.broadcast_to(values, np.broadcast_shapes(values.shape, (shape[-1],))), -1, 0)

    given = by_day(rain + water)
    on_top = by_day(rain + water / wetted)
    room, limit = by_day((most - kcb) * mulch), by_day(bare * most * mulch)
    thirst, et0_day, bare_day = by_day(kcb * et0), by_day(et0), by_day(bare)
    held_day, share_day = by_day(held), by_day(p0)
    low = None if felt_low_share is None else by_day(np.asarray(felt_low_share, dtype=np.float64))
    high = None if felt_high_share is None else by_day(np.asarray(felt_high_share, dtype=np.float64))

    rows = shape[:-1] or (1,)  # a single run of days is worked as one row
    out: Floats = np.empty((7, shape[-1], *rows))
    gone = np.broadcast_to(np.asarray(start_depletion_mm, dtype=np.float64), rows).copy()
    top = np.broadcast_to(np.asarray(start_surface_mm, dtype=np.float64), rows).copy()
    drying = 1.0 / (tew - rew)
    for day in range(shape[-1]):
        depletion, surface, readily, stress, use, lost, drained = out[:, day]
        store = held_day[day]
        if low is not None and high is not None:
            _morning_bounds(gone, top, low[day], high[day], share_day[day] * store, rew, tew)
        np.subtract(top, on_top[day], out=surface)
        np.maximum(surface, 0.0, out=surface)
        speed = np.clip((tew - surface) * drying, 0.0, 1.0)
        np.minimum(speed * room[day], limit[day], out=lost)
        lost *= et0_day[day]
        surface += lost / bare_day[day]
        np.minimum(surface, tew, out=surface)
        np.multiply(
            share_day[day] if fixed_share else depletion_share(share_day[day], thirst[day] + lost),
            store,
            out=readily,
        )
        start = np.maximum(gone - given[day], 0.0)
        np.clip((store - start) / (store - readily), 0.0, 1.0, out=stress)
        np.multiply(stress, thirst[day], out=use)
        use += lost
        np.subtract(gone, given[day], out=depletion)
        depletion += use
        np.maximum(-depletion, 0.0, out=drained)
        np.clip(depletion, 0.0, store, out=depletion)
        gone, top = depletion.copy(), surface.copy()
    found = [np.ascontiguousarray(np.moveaxis(each, 0, -1)).reshape(shape) for each in out]
    if unknown.any():
        found = [np.where(unknown, np.nan, each) for each in found]
    return Balance(*found)


def _wetted_now(rain: Floats, water: Floats, wetted: Floats) -> Floats:
    """Share of the surface wetted by the last rain or watering, [..., day]; all of it before the first."""
    told = np.where(rain >= SOAKING_RAIN_MM, 1.0, np.where(water > 0.0, wetted, np.nan))
    days = np.arange(told.shape[-1])
    last = np.maximum.accumulate(np.where(np.isnan(told), -1, days), axis=-1)
    return np.where(last < 0, 1.0, np.take_along_axis(told, np.maximum(last, 0), axis=-1))


def _morning_bounds(
    gone: Floats, top: Floats, low: Floats, high: Floats, readily: Floats, rew: Floats, tew: Floats
) -> None:
    """Move the stores, in place, to what a finger felt; nothing moves where the bounds are NaN."""
    if np.all(np.isnan(low)):
        return
    felt = ~np.isnan(low)
    np.copyto(gone, np.clip(gone, low * readily, high * readily), where=felt)
    # a dry finger says that the top layer is past its quick drying; a wet one that it is not
    np.copyto(
        top, np.clip(top, np.minimum(low, 1.0) * rew, np.where(high < 1.0, high * rew, tew)), where=felt
    )
