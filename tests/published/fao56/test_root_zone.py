"""The worked examples of FAO-56 on crop coefficients, the root zone and the drying surface.

Seen as quoted in public tests and teaching data of the paper's equations; the paper itself was not at hand.
"""

from __future__ import annotations

import numpy as np
import pytest

from fao56_table import EXAMPLE_35, example_35
from spadework.science import crop_water, root_zone

MORNING_GONE_MM = [0, 0, 6, 10, 13, 9, 12, 17, 20, 22, 24, 0]
"""Example 38, the same days in the root zone: gone from it after the morning's water."""


def test_example_27_coefficient_in_a_humid_and_in_a_dry_windy_climate() -> None:
    assert crop_water.adjusted_coefficient(1.2, 4.6, 44.0, 2.0) == pytest.approx(1.30, abs=0.005)
    # the humid case was recalled, not seen
    assert crop_water.adjusted_coefficient(1.2, 1.3, 75.0, 2.0) == pytest.approx(1.07, abs=0.005)
    assert crop_water.adjusted_coefficient(0.35, 4.6, 44.0, 2.0) == 0.35


@pytest.mark.parametrize(("day", "printed"), [(20, 0.15), (40, 0.77), (70, 1.19), (95, 0.56)])
def test_example_28_dry_beans(day: int, printed: float) -> None:
    # stages of 25, 25, 30 and 20 days; day 95 follows from eq. 66 and was not seen in print
    shares = (0.25, 0.50, 0.80)
    found = crop_water.coefficient_course(day / 100.0, 0.15, 1.19, 0.35, shares)
    assert found == pytest.approx(printed, abs=0.006)


def test_upper_coefficient_ofexample_35() -> None:
    # 1.212028 by the tests of a public soil water model of the United States Geological Survey
    assert crop_water.upper_coefficient(0.35, 1.6, 35.0, 0.3) == pytest.approx(1.212028, abs=1e-6)


@pytest.mark.parametrize(
    ("full", "wilting", "available", "readily"),
    [(0.15, 0.06, 72, 29), (0.35, 0.23, 96, 38), (0.32, 0.15, 136, 54)],
)
def test_example_36_tomato_on_three_soils(full: float, wilting: float, available: int, readily: int) -> None:
    # loamy sand, silty clay and, recalled, silt
    held = root_zone.available_water_mm(full, wilting, 0.8)
    assert held == pytest.approx(available, abs=0.5)
    assert root_zone.depletion_share(0.4, 5.0) * held == pytest.approx(readily, abs=0.5)


def test_example_37_going_short() -> None:
    # ten dry days; printed for the first five: gone at the end of the day, and the stress of the day
    found = root_zone.water_balance(
        np.zeros(10),
        np.full(10, 5.0),
        basal_kc=1.2,
        cover_share=1.0,
        upper_kc=1.2,
        available_mm=np.full(10, 160.0),
        depletion_table_share=0.4,
        surface_readily_mm=8.0,
        surface_evaporable_mm=18.0,
        start_depletion_mm=55.0,
        start_surface_mm=18.0,
        fixed_share=True,
    )
    assert found.depletion_mm[:5] == pytest.approx([61.0, 67.0, 72.8, 78.3, 83.4], abs=0.06)
    assert found.stress_share[:5] == pytest.approx([1.0, 1.0, 0.97, 0.91, 0.85], abs=0.0051)
    assert found.readily_mm == pytest.approx(64.0)
    # beyond print: the rest of the ten days decays towards wilting by the same equation
    assert np.all(np.diff(found.depletion_mm) > 0.0)
    assert np.all(np.diff(np.diff(found.depletion_mm)[1:]) < 0.0)


def test_example_35_drying_surface() -> None:
    found = example_35()
    et0, kcb = EXAMPLE_35[:, 0], EXAMPLE_35[:, 3]
    ke, etc, surface = EXAMPLE_35[:, 5:].T
    # printed values come from a table rounded on the way, so a hundredth beyond their own rounding is allowed
    assert found.evaporation_mm / et0 == pytest.approx(ke, abs=0.015)
    assert found.evaporation_mm + kcb * et0 == pytest.approx(etc, abs=0.08)
    assert found.surface_mm[:11] == pytest.approx(surface[:11], abs=0.6)


def test_example_38_the_same_days_in_the_root_zone() -> None:
    found = example_35()
    before = np.concatenate([[2.5], found.depletion_mm[:-1]])
    morning = np.maximum(before - EXAMPLE_35[:, 1] - EXAMPLE_35[:, 2], 0.0)
    assert morning == pytest.approx(MORNING_GONE_MM, abs=0.8)
    assert found.readily_mm[[0, 5, 11]] == pytest.approx([23, 26, 28], abs=0.5)
    assert np.all(found.stress_share == 1.0)
    assert found.drainage_mm[0] == pytest.approx(32.0, abs=0.5)
