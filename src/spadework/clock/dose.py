"""How to give a bed its water: litres and minutes for a depth, and how often a seed row wants some."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from spadework.clock.bed_ground import BedGround, reaching_share
from spadework.clock.bed_water import BedWater
from spadework.clock.ground import Ground
from spadework.garden.records import Bed
from spadework.science import root_zone, sun, watering
from spadework.types import Floats

HOSE_L_MIN: Final = 12.0
"""Flow of a garden hose with a rose, where the bed's own is not known [l min-1]. Source: common-practice."""

CAN_L: Final = 10.0
"""A full watering can [l]. Source: common-practice."""


@dataclass(frozen=True, kw_only=True)
class Dose:
    """Water to give.

    Parameters
    ----------
    depth_mm : float  [mm]
        That reaches the roots.
    litres : float  [l]
        To give, with what is lost on the way.
    minutes : float  [min]
        At the bed's own flow, or a hose's.
    cans : float
        Full cans of `CAN_L` instead.
    flow_known : bool
        False where a usual hose was taken.
    """

    depth_mm: float
    litres: float
    minutes: float
    cans: float
    flow_known: bool


def dose(bed: Bed, depth_mm: float, area_m2: float | None = None) -> Dose | None:
    """Litres and minutes for a depth of water.

    Parameters
    ----------
    bed : Bed
    depth_mm : float  [mm]
    area_m2 : float or None  [m2]
        Of the planting alone; None for the whole bed.

    Returns
    -------
    Dose or None
        None where the bed's size is not known.
    """
    ground = bed.area_m2 if area_m2 is None else area_m2
    if ground is None:
        return None
    litres = float(watering.litres_for_depth(depth_mm, ground, reaching_share(bed)))
    flow = bed.flow_l_min
    known = flow is not None and flow > 0.0
    minutes = float(watering.minutes_for_litres(litres, flow if known and flow else HOSE_L_MIN))
    return Dose(depth_mm=depth_mm, litres=litres, minutes=minutes, cans=litres / CAN_L, flow_known=known)


def at_most(give: Dose, litres: float) -> Dose:
    """The same, or as much of it as so many litres are  [l]."""
    share = min(litres / give.litres, 1.0) if give.litres > 0.0 else 1.0
    return replace(
        give,
        depth_mm=give.depth_mm * share,
        litres=give.litres * share,
        minutes=give.minutes * share,
        cans=give.cans * share,
    )


@dataclass(frozen=True, kw_only=True, eq=False)
class SeedRow:
    """A seed row on one day.

    Parameters
    ----------
    hours : array, shape (year,)  [h]
        From a watering until it is too dry; infinite where it lasts until the next morning.
    times : array, shape (year,)
        Waterings that day so that it never dries; 0 where rain does it.
    """

    hours: Floats
    times: Floats


def seed_row(
    ground: Ground, bed: BedGround, water: BedWater | None, column: int, from_h: float = 8.0
) -> SeedRow:
    """How long a seed row stays damp on a day, and how often it wants water.

    Parameters
    ----------
    ground : Ground
    bed : BedGround
    water : BedWater or None
        Of the bed: wet soil below feeds the surface. None counts as dry below.
    column : int
        The day.
    from_h : float  [h, solar time]
        When it is watered.
    """
    store = watering.seed_zone_store_mm(bed.soil.full.middle, bed.soil.wilting.middle)
    below: Floats | float = 0.0
    if water is not None:
        before = max(column - 1, 0)
        below = 1.0 - np.clip(water.depletion_mm[:, before] / water.readily_mm[:, before], 0.0, 1.0)
    rise, fall = sun.sunrise_sunset_solar_h(ground.site.lat_deg, ground.day_of_year[column])
    days = ground.dates.size
    share = float(np.broadcast_to(np.asarray(bed.et0_share, dtype=np.float64), (days,))[column])
    falling = float(np.broadcast_to(np.asarray(bed.rain_share, dtype=np.float64), (days,))[column])
    rain = np.nan_to_num(ground.years.rain_mm[:, column]) * falling
    shelter = share * root_zone.MULCH_FACTORS[bed.mulch]
    et0 = np.nan_to_num(ground.et0_mm[:, column])
    hours = watering.drying_hours(
        store,
        et0,
        sunrise_h=rise,
        sunset_h=fall,
        from_h=from_h,
        damp_below_share=below,
        shelter_factor=shelter,
    )
    times = watering.waterings_a_day(store, et0, damp_below_share=below, shelter_factor=shelter)
    return SeedRow(hours=hours, times=np.where(rain >= root_zone.SOAKING_RAIN_MM, 0.0, times))
