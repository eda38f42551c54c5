"""Example 35 of FAO56 as it is printed, and the balance here over its twelve days."""

from __future__ import annotations

import numpy as np

from spadework.science import root_zone

# Example 35, twelve days on a sandy loam: ET0, rain, watering, Kcb, 1 - fc, then what is printed: Ke, ETc and
# the depth evaporated by evening. The last of day 12 is not checked: the copy seen repeats day 11's there.
EXAMPLE_35 = np.array(
    [
        [4.5, 0, 40, 0.30, 0.92, 0.91, 5.5, 5],
        [5.0, 0, 0, 0.31, 0.91, 0.90, 6.1, 11],
        [3.9, 0, 0, 0.32, 0.91, 0.64, 3.8, 14],
        [4.2, 0, 0, 0.33, 0.90, 0.36, 2.9, 16],
        [4.8, 0, 0, 0.34, 0.89, 0.19, 2.6, 17],
        [2.7, 6, 0, 0.36, 0.89, 0.60, 2.6, 13],
        [5.8, 0, 0, 0.37, 0.88, 0.44, 4.7, 16],
        [5.1, 0, 0, 0.38, 0.87, 0.19, 2.9, 17],
        [4.7, 0, 0, 0.39, 0.87, 0.10, 2.3, 17],
        [5.2, 0, 0, 0.40, 0.86, 0.05, 2.4, 18],
        [9.2, 0, 0, 0.41, 0.87, 0.03, 4.0, 18],
        [6.4, 0, 28, 0.42, 0.86, 0.79, 7.8, np.nan],
    ]
)
ROOTS_M = np.array([0.30, 0.31, 0.31, 0.32, 0.32, 0.33, 0.33, 0.34, 0.34, 0.35, 0.35, 0.36])


def example_35() -> root_zone.Balance:
    """The twelve days as this program runs them."""
    et0, rain, watering, kcb, bare = EXAMPLE_35[:, :5].T
    return root_zone.water_balance(
        rain,
        et0,
        basal_kc=kcb,
        cover_share=1.0 - bare,
        upper_kc=1.21,
        available_mm=root_zone.available_water_mm(0.23, 0.10, ROOTS_M),
        depletion_table_share=0.6,
        surface_readily_mm=8.0,
        surface_evaporable_mm=18.0,
        watering_mm=watering,
        wetted_share=0.8,
        start_depletion_mm=2.5,
        start_surface_mm=18.0,
        fixed_share=True,
    )
