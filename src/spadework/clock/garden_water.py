"""The water of every bed in which something grows, from the garden's book and the sheets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from spadework.clock.bed_ground import CropWater, Grown, bed_ground, gauge_readings
from spadework.clock.bed_water import BedWater, beds_water, with_gauge
from spadework.clock.ground import Ground
from spadework.crops.sheet import Sheet
from spadework.garden.state import Garden

SEEDLING_KC: Final = 0.15
"""Basal coefficient of ground with next to no leaf. Source: FAO56, table 17, published."""

BARE_PART_KC: Final = 0.10
"""What the wet surface adds to a printed single coefficient, where no basal one is printed. Source: FAO56,
tables 12 and 17, whose values differ by 0.05 to 0.10; memory."""


def crop_water(sheet: Sheet) -> CropWater:
    """How a crop uses water, by its sheet.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    CropWater
        Basal coefficients: the sheet's own for full leaf where it has one, else its single one less the part
        of the wet surface; the end falls by the same part.
    """
    water = sheet.water
    mid = water.kc_mid.value - BARE_PART_KC if water.kcb_mid is None else water.kcb_mid.value
    part = water.kc_mid.value - mid
    return CropWater(
        ini_kc=min(SEEDLING_KC, mid),
        mid_kc=mid,
        end_kc=max(water.kc_end.value - part, min(SEEDLING_KC, mid)),
        roots_m=water.roots_m.value,
        depletion_share=water.depletion.value,
    )


def garden_water(
    garden: Garden, ground: Ground, column: int, grown: Mapping[str, Sequence[Grown]], *, ahead_days: int
) -> dict[str, BedWater]:
    """Water of the beds in which something grows, through the years.

    Parameters
    ----------
    garden : Garden
    ground : Ground
        The garden's usual ground; every planting's way lies on its day axis.
    column : int
        Today's.
    grown : mapping of str to sequence of Grown
        What stands, by bed key. Keys that name no bed are left out.
    ahead_days : int  [d]
        How far past today the water is followed; later days are NaN.

    Returns
    -------
    dict of str to BedWater
    """
    beds = {
        key: bed_ground(garden, garden.beds[key], ground, column, stands)
        for key, stands in grown.items()
        if key in garden.beds and stands
    }
    readings = gauge_readings(garden, ground)
    rain = with_gauge(ground.years.rain_mm, readings) if readings else None
    return beds_water(ground, beds, rain_mm=rain, until=column + ahead_days)
