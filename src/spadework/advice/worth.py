"""What a planting is worth to a kitchen when all goes well, in kilograms of carrots."""

from __future__ import annotations

from typing import Final

from spadework.advice.scene import Worth
from spadework.crops.sheet import Sheet
from spadework.garden.planting import Planting
from spadework.garden.records import Bed

USUAL_KG_M2: Final = 3.0
"""Harvest of a square metre where a sheet gives no yield: between 2.4 and 3.7, the means of mixed stands and
of community gardens. Source: published, RUTGERS-2012; UCCE-SJ."""


def worth_of(sheet: Sheet, planting: Planting, bed: Bed | None) -> Worth:
    """The worth of a planting.

    Parameters
    ----------
    sheet : Sheet
    planting : Planting
        Its area, or its rows and their length, decide.
    bed : Bed or None
        Its whole area counts where the planting's is not known.
    """
    area_m2 = planting.area_m2
    if area_m2 is None:
        area_m2 = 1.0 if bed is None or bed.area_m2 is None else bed.area_m2
    usual = sheet.harvest.yield_kg_m
    if usual is None:
        kg, provenance, source = area_m2 * USUAL_KG_M2, "published", "RUTGERS-2012; UCCE-SJ"
    else:
        row_m = area_m2 / (sheet.sowing.row_cm.value / 100.0)
        kg, provenance, source = row_m * usual.value, usual.provenance, usual.source
    return Worth(value=kg, kg=kg, provenance=provenance, source=source)
