"""A bed's water through the years: what the roots can reach, what is gone of it, and what the top holds."""

from __future__ import annotations

from dataclasses import dataclass

from spadework.types import Floats


@dataclass(frozen=True, eq=False)
class BedWater:
    """Water of one bed, arrays [year, day] on the ground's day axis, at the end of each day.

    Parameters
    ----------
    depletion_mm : array  [mm]
        Water gone from the root zone, 0 where it is full.
    readily_mm : array  [mm]
        What may be gone before plants suffer.
    available_mm : array  [mm]
        What the root zone holds between full and wilting.
    surface_mm : array  [mm]
        Water evaporated from the top layer since it was last wetted.
    stress : array
        Share of full water use the plants get, 0 to 1.
    use_mm : array  [mm d-1]
        What the bed loses each day.
    """

    depletion_mm: Floats
    readily_mm: Floats
    available_mm: Floats
    surface_mm: Floats
    stress: Floats
    use_mm: Floats
