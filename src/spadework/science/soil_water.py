"""Water in the seed zone: whether seed near the surface can drink, and whether the surface has sealed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Bools, Floats

EVAPORATION_COEFFICIENT = 1.1
"""Evaporation from wet bare ground over reference evapotranspiration [-]. Source: memory."""

WASHING_RAIN_MM = 10.0
"""Rain in a day that beats bare silt or loam down [mm]. Source: memory."""

STRONG_DRYING_MM = 3.0
"""Reference evapotranspiration of a day that bakes the surface [mm]. Source: memory."""

DRYING_DAYS = 3
"""Dry, drying days in a row that set a crust [d]. Source: memory."""

DRY_DAY_MM = 1.0
"""Rain below this leaves a day dry [mm]. Source: common-practice."""

SOFTENING_RAIN_MM = 5.0
"""Rain or watering in a day that softens a crust again [mm]. Source: memory."""

SLACK_DAYS = 2
"""Dull or wet days allowed between the washing rain and the drying days [d]. Source: memory."""


@dataclass(frozen=True)
class SeedbedSoil:
    """Water the surface layer can lose to the air.

    Parameters
    ----------
    readily_mm : float  [mm]
        Lost at full speed, while the surface still looks wet.
    evaporable_mm : float  [mm]
        Lost in all, from wet to air-dry.
    crusts : bool
        Whether rain can seal it.
    """

    readily_mm: float
    evaporable_mm: float
    crusts: bool


SEEDBED_SOILS: dict[str, SeedbedSoil] = {
    "sand": SeedbedSoil(4.5, 9.0, False),
    "loamy sand": SeedbedSoil(6.0, 11.5, False),
    "sandy loam": SeedbedSoil(8.0, 17.5, False),
    "loam": SeedbedSoil(9.0, 19.0, True),
    "silt loam": SeedbedSoil(9.5, 21.5, True),
    "silt": SeedbedSoil(9.5, 24.0, True),
    "silty clay loam": SeedbedSoil(9.5, 24.5, True),
    "silty clay": SeedbedSoil(10.0, 25.0, True),
    "clay": SeedbedSoil(10.0, 25.5, True),
}
"""Middles of the published ranges for a surface layer of 10 cm. Source: FAO56, table 19, published;
`crusts`: memory."""


def seedbed_wetness(
    rain_mm: ArrayLike,
    et0_mm: ArrayLike,
    *,
    soil: SeedbedSoil = SEEDBED_SOILS["loam"],
    start_share: ArrayLike = 1.0,
) -> Floats:
    """Water left in the seed zone at the end of each day, as a share of what it can hold and lose.

    Parameters
    ----------
    rain_mm : array, shape (..., day)  [mm]
        Rain and watering.
    et0_mm : array, shape (..., day)  [mm d-1]
        Reference evapotranspiration. Broadcasts with rain_mm.
    soil : SeedbedSoil
        Which soil.
    start_share : array, shape (...)  [-]
        Share on the evening before the first day, 0 to 1.

    Returns
    -------
    array, shape (..., day)  [-]
        0 to 1. NaN on days with a missing input; the store stands still over them.

    Raises
    ------
    ParameterError
        If there is no day axis, rain or evapotranspiration is below zero, or the starting share is not 0 to
        1.

    Notes
    -----
    The seed zone is the top 2 cm, but its water is not only what it holds itself (1.3 mm in a loam, gone in
    half a spring day): while the surface looks wet, water rises from the layer below. The store is
    therefore the surface layer's evaporable water. At 3 mm a day a loam falls from full to a fifth in six
    days. Rain comes early in the day; the layer then dries at full speed until the readily lost water is
    gone and ever more slowly after. Not scored on measured seedbeds. Water rising from wet ground in
    spring, dew, shade and mulch are left out.

    Source
    ------
    FAO56, eq. 74: two-stage drying of a surface layer (published); its use for the seed zone is memory.
    Checked: tests/unit/science/test_soil_water.py
    """
    rain, et0 = np.broadcast_arrays(
        np.asarray(rain_mm, dtype=np.float64), np.asarray(et0_mm, dtype=np.float64)
    )
    if rain.ndim == 0:
        raise ParameterError(
            "Seedbed water needs a run of days, not a single value.",
            "Give arrays with days as the last axis.",
        )
    if np.any(rain < 0.0) or np.any(et0 < 0.0):
        raise ParameterError("Rain or evapotranspiration is below zero.", "Use 0 mm or more.")
    share = np.asarray(start_share, dtype=np.float64)
    if not np.all((share >= 0.0) & (share <= 1.0)):
        raise ParameterError("A seedbed starts between dry and full.", "Use a share from 0 to 1.")

    missing = np.isnan(rain) | np.isnan(et0)
    rain_by_day = np.moveaxis(np.where(missing, 0.0, rain), -1, 0)
    et0_by_day = np.moveaxis(np.where(missing, 0.0, et0), -1, 0)
    total = soil.evaporable_mm
    slow_span = total - soil.readily_mm
    left: Floats = np.empty(rain_by_day.shape)
    before: Floats = share * total
    steepness = EVAPORATION_COEFFICIENT / slow_span
    drying = np.empty(left.shape[1:])
    for day in range(left.shape[0]):
        now = left[day, ...]
        np.add(before, rain_by_day[day], out=now)
        np.minimum(now, total, out=now)
        np.multiply(now, steepness, out=drying)
        np.minimum(drying, 1.0, out=drying)
        drying *= et0_by_day[day]
        now -= drying
        np.maximum(now, 0.0, out=now)
        before = now
    wet = np.moveaxis(left / total, 0, -1)
    return np.where(missing, np.nan, wet)


def _days_before(values: Bools, days: int) -> Bools:
    """The same row as it stood some days earlier; False before the row began."""
    if days == 0:
        return values
    out = np.zeros_like(values)
    out[..., days:] = values[..., :-days]
    return out


def crusted(rain_mm: ArrayLike, et0_mm: ArrayLike, *, sown_day: int = 0) -> Bools:
    """Days on which a bare silt or loam carries a crust set after sowing.

    Parameters
    ----------
    rain_mm, et0_mm : array, shape (..., day)  [mm], [mm d-1]
        Rain and watering, and reference evapotranspiration.
    sown_day : int
        Position of the sowing day: raking and drilling broke whatever was there before.

    Returns
    -------
    array of bool, shape (..., day)
        A day with missing weather neither washes, dries nor softens.

    Raises
    ------
    ParameterError
        If there is no day axis or sown_day lies outside it.

    Notes
    -----
    A washing rain, at most two dull or wet days, then three dry and drying days set a crust; five millimetres
    soften it. Cover, mulch and a coarse tilth prevent it and are the caller's to know.

    Source
    ------
    memory; CRUST found onion emergence halved on a sealed soil (published).
    Checked: tests/unit/science/test_soil_water.py
    """
    rain, et0 = np.broadcast_arrays(
        np.asarray(rain_mm, dtype=np.float64), np.asarray(et0_mm, dtype=np.float64)
    )
    if rain.ndim == 0 or not 0 <= sown_day < rain.shape[-1]:
        raise ParameterError(
            f"Sowing day {sown_day} is not among the days given.", "Count from 0 within the day axis."
        )
    days = np.arange(rain.shape[-1])
    washed = (rain > WASHING_RAIN_MM) & (days >= sown_day)
    drying = (rain < DRY_DAY_MM) & (et0 > STRONG_DRYING_MM) & (days >= sown_day)
    baked = drying.copy()
    for back in range(1, DRYING_DAYS):
        baked &= _days_before(drying, back)
    recently = np.zeros_like(washed)
    for back in range(DRYING_DAYS, DRYING_DAYS + SLACK_DAYS + 1):
        recently |= _days_before(washed, back)
    last_set = np.maximum.accumulate(np.where(baked & recently, days, -1), axis=-1)
    last_soft = np.maximum.accumulate(np.where(rain >= SOFTENING_RAIN_MM, days, -1), axis=-1)
    return (last_set >= 0) & (last_set > last_soft)


def crust_factor(rain_mm: ArrayLike, et0_mm: ArrayLike, *, factor: float = 0.5, sown_day: int = 0) -> Floats:
    """Share of the seedlings arriving on each day that break through the surface.

    Parameters
    ----------
    rain_mm, et0_mm : array, shape (..., day)  [mm], [mm d-1]
        Rain and watering, and reference evapotranspiration.
    factor : float  [-]
        Share that breaks a crust, 0 to 1: about 0.5 for onion, carrot and lettuce, 0.8 for large seed.
    sown_day : int
        Position of the sowing day.

    Returns
    -------
    array, shape (..., day)  [-]
        1, or factor on crusted days; NaN on days with a missing input.

    Raises
    ------
    ParameterError
        If factor is not 0 to 1, there is no day axis or sown_day lies outside it.

    Source
    ------
    memory, in line with CRUST. Checked: tests/unit/science/test_soil_water.py
    """
    if not 0.0 <= factor <= 1.0:
        raise ParameterError(f"A crust factor of {factor:g} is no share.", "Use 0 to 1.")
    sealed = crusted(rain_mm, et0_mm, sown_day=sown_day)
    missing = np.isnan(np.asarray(rain_mm, dtype=np.float64)) | np.isnan(np.asarray(et0_mm, dtype=np.float64))
    return np.where(missing, np.nan, np.where(sealed, factor, 1.0))
