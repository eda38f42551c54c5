"""What a bed's water needs to know of the bed: its soil, what stands in it, and the water it was given."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.clock.cover_kinds import cover_of
from spadework.clock.finger import Felt
from spadework.clock.ground import Ground
from spadework.errors import UnknownName
from spadework.garden.entries import RainGauge, SoilFelt
from spadework.garden.records import Bed
from spadework.garden.state import Garden
from spadework.science import watering
from spadework.science.root_soils import ROOT_SOILS, RootSoil, root_soil
from spadework.types import Floats

TUB_DEPLETION_SHARE: Final = 0.3
"""What may be gone from a tub before plants go short. Source: memory."""

TUNNEL_ET0_SHARE: Final = 0.75
"""Evapotranspiration under a tunnel's or a frame's film over that in the open. Source: memory."""

DRIP_WETTED_SHARE: Final = 0.4
"""Of the surface, by emitters. Source: FAO56, table 20, memory."""

COVER_AHEAD_DAYS: Final = 7
"""A cover that lies now is taken to lie this much longer. Our own rule."""

_ROOFED: Final = frozenset({"tunnel", "frame", "shelf"})
_FILM_WORDS: Final = ("film", "plastic", "polythene", "fabric", "membrane", "sheet")

FIRST_ROOTS_M: Final = 0.15
"""Depth a seedling or a fresh plug draws on [m]. Source: memory."""

ROOTED_SHARE: Final = 0.5
"""Share of the way to ready at which roots are as deep as they go. Source: memory; FAO56 lets them grow until
the crop covers the ground."""

LEAST_ROOTS_M: Final = 0.05


@dataclass(frozen=True, kw_only=True)
class CropWater:
    """How a crop uses water.

    Parameters
    ----------
    ini_kc, mid_kc, end_kc : float  [-]
        Basal coefficients: leaves alone, a dry surface.
    roots_m : float  [m]
        As deep as they go.
    depletion_share : float  [-]
        What may be gone before it goes short, at a use of 5 mm a day.
    """

    ini_kc: float = 0.15
    mid_kc: float = 0.95
    end_kc: float = 0.85
    roots_m: float = 0.4
    depletion_share: float = 0.35


SMALL_VEGETABLE: Final = CropWater()
"""Where a sheet says nothing: the group of small vegetables. Source: FAO56, tables 17 and 22, published."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Grown:
    """A planting as its bed's water sees it.

    Parameters
    ----------
    way : array, shape (year, day)
        As `Course.way`: below zero before emergence or setting out.
    water : CropWater
    area_m2 : float
        Its ground, for the mean over a bed; any number in the same unit will do.
    """

    way: Floats
    water: CropWater = SMALL_VEGETABLE
    area_m2: float = 1.0


@dataclass(frozen=True, kw_only=True, eq=False)
class BedGround:
    """What a bed's water needs to know of the bed.

    Parameters
    ----------
    soil : RootSoil
    mulch : "", "organic" or "film"
        Keys of `root_zone.MULCH_FACTORS`.
    most_roots_m : float or None  [m]
        Depth of the mix where roots cannot go deeper: a tub.
    rain_share : array, shape (day,), or float
        Rain that falls on it: none in a tunnel, a frame or a room.
    et0_share : array, shape (day,), or float
        Evapotranspiration there over that in the open.
    watering_mm : array, shape (day,)  [mm]
        Depth that reached the ground, over the whole bed.
    wetted_share : float
        Of the surface, by a watering.
    felt : sequence of Felt
    grown : sequence of Grown
        Empty for bare ground.
    most_depletion_share : float or None
        What may be gone at most before plants go short, whatever the crop: a tub.
    assumed : tuple of str
        What had to be assumed, in sentences.
    """

    soil: RootSoil = ROOT_SOILS["loam"]
    mulch: str = ""
    most_roots_m: float | None = None
    rain_share: Floats | float = 1.0
    et0_share: Floats | float = 1.0
    watering_mm: Floats | float = 0.0
    wetted_share: float = 1.0
    felt: Sequence[Felt] = ()
    grown: Sequence[Grown] = ()
    most_depletion_share: float | None = None
    assumed: tuple[str, ...] = ()


def mulch_kind(words: str) -> str:
    """Key of `root_zone.MULCH_FACTORS` for a mulch as a person calls it; empty for none."""
    said = words.strip().lower()
    if said in ("", "none", "bare"):
        return ""
    return "film" if any(word in said for word in _FILM_WORDS) else "organic"


def bed_ground(garden: Garden, bed: Bed, ground: Ground, column: int, grown: Sequence[Grown]) -> BedGround:
    """A bed of the garden as its water needs it.

    Parameters
    ----------
    garden : Garden
    bed : Bed
    ground : Ground
        Whose day axis the columns are on.
    column : int
        Today's.
    grown : sequence of Grown
        What stands in it.

    Returns
    -------
    BedGround
        What had to be assumed is told in it.
    """
    days = ground.dates.size
    assumed = []
    try:
        soil = root_soil(bed.soil)
    except UnknownName:
        soil = ROOT_SOILS["loam"]
        assumed.append(f"Soil {bed.soil!r} is taken as loam.")
    holder = garden.beds.get(bed.inside)
    around = holder.shape if bed.inside and holder is not None else bed.shape
    tub = bed.shape == "tub"
    rain_share, et0_share = _sheltered(garden, bed, ground, column, around in _ROOFED)
    given, unmeasured = _given(garden, bed, ground)
    if unmeasured:
        times = "once" if unmeasured == 1 else f"{unmeasured} times"
        assumed.append(f"Watered {times} without saying how much; not counted.")
    return BedGround(
        soil=soil,
        mulch=mulch_kind(bed.mulch),
        most_roots_m=bed.depth_m if tub else None,
        most_depletion_share=TUB_DEPLETION_SHARE if tub else None,
        rain_share=rain_share,
        et0_share=et0_share,
        watering_mm=given,
        wetted_share=DRIP_WETTED_SHARE if bed.emitters else 1.0,
        felt=tuple(
            Felt(column=at, finger=entry.act.finger, depth_cm=entry.act.depth_cm)
            for entry in bed.history
            if isinstance(entry.act, SoilFelt)
            and entry.act.finger is not None
            and 0 <= (at := _column(ground, entry.happened_on)) < days
        ),
        grown=grown,
        assumed=tuple(assumed),
    )


def reaching_share(bed: Bed) -> float:
    """Share of the water given that reaches the roots: drip lines where it has emitters, else can or hose."""
    return watering.WATERING_SHARES["drip" if bed.emitters else "can"]


def gauge_readings(garden: Garden, ground: Ground) -> list[tuple[int, float, int]]:
    """The garden's own gauge, for `bed_water.with_gauge`."""
    return [
        (at, entry.act.rain_mm, entry.act.days)
        for entry in garden.entries
        if isinstance(entry.act, RainGauge)
        and 0 <= (at := _column(ground, entry.happened_on)) < ground.dates.size
    ]


def _column(ground: Ground, day: object) -> int:
    return int((np.datetime64(str(day), "D") - ground.years.first_day).astype(int))


def _given(garden: Garden, bed: Bed, ground: Ground) -> tuple[Floats, int]:
    """Depth over the whole bed that reached the roots, by day, and waterings of unknown amount."""
    given = np.zeros(ground.dates.size)
    unmeasured = 0
    for each in garden.waterings(bed.key):
        at = _column(ground, each.on)
        if not 0 <= at < given.size:
            continue
        if each.litres is not None and bed.area_m2:
            given[at] += each.litres / bed.area_m2 * reaching_share(bed)
        elif each.depth_mm is not None:
            given[at] += each.depth_mm * reaching_share(bed)
        else:
            unmeasured += 1
    return given, unmeasured


def _sheltered(garden: Garden, bed: Bed, ground: Ground, column: int, roofed: bool) -> tuple[Floats, Floats]:
    """Rain and evapotranspiration there over those in the open, by day."""
    rain = np.full(ground.dates.size, 0.0 if roofed else 1.0)
    et0 = np.full(ground.dates.size, TUNNEL_ET0_SHARE if roofed else 1.0)
    for placed in garden.covers(bed=bed.key):
        item = garden.kit[placed.item]
        cover = cover_of(item.sort, item.grade, item.item)
        if cover is None or placed.opened or placed.planting:
            continue
        span = slice(max(_column(ground, placed.since), 0), column + COVER_AHEAD_DAYS + 1)
        et0[span] *= cover.et0_share
        if cover.roof:
            rain[span] = 0.0
    return rain, et0
