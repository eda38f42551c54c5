"""Severity tables cell by cell, and two curves at their published points.

Leaf spots: Madden, Pennypacker and MacNab (1978), recalled. Late blight: hour bands as described by Michigan
State University (Baker and others 2002). Potato days: curve of a university routine; form of Pscheidt and
Stevenson (1988). Grey mould: Bulger, Ellis and Madden (1987), recalled."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.science import infection, infection_moulds

LEAF_SPOTS = [
    # warmest and coolest whole degree, then the hours of severity 0, 1, 2, 3, 4
    ((13, 17), [(0, 6), (7, 15), (16, 20), (21, 24), None]),
    ((18, 20), [(0, 3), (4, 8), (9, 15), (16, 22), (23, 24)]),
    ((21, 25), [(0, 2), (3, 5), (6, 12), (13, 20), (21, 24)]),
    ((26, 29), [(0, 3), (4, 8), (9, 15), (16, 22), (23, 24)]),
]

LATE_BLIGHT = [
    ((7.2, 11.6), [(0, 15), (16, 18), (19, 21), (22, 24), (25, 40)]),
    ((11.7, 15.0), [(0, 12), (13, 15), (16, 18), (19, 21), (22, 40)]),
    ((15.1, 26.6), [(0, 9), (10, 12), (13, 15), (16, 18), (19, 40)]),
]


@pytest.mark.parametrize(("temps", "bands"), LEAF_SPOTS)
def test_leaf_spot_cells(temps: tuple[int, int], bands: list[tuple[int, int] | None]) -> None:
    for temp in range(temps[0], temps[1] + 1):
        for value, band in enumerate(bands):
            if band is not None:
                hours = np.arange(band[0], band[1] + 1)
                assert (infection.leaf_spot_severity(hours, float(temp)) == value).all(), (temp, value)


@pytest.mark.parametrize("temp", [12.4, 29.6, 35.0, np.nan])
def test_no_leaf_spot_outside_13_to_29(temp: float) -> None:
    assert infection.leaf_spot_severity(24.0, temp) == 0


@pytest.mark.parametrize(("temps", "bands"), LATE_BLIGHT)
def test_late_blight_cells(temps: tuple[float, float], bands: list[tuple[int, int]]) -> None:
    for temp in (*temps, sum(temps) / 2):
        for value, (low, high) in enumerate(bands):
            hours = np.arange(low, high + 1)
            assert (infection.late_blight_severity(hours, temp) == value).all(), (temp, value)


@pytest.mark.parametrize("temp", [7.1, 26.7, np.nan])
def test_no_late_blight_outside_its_warmth(temp: float) -> None:
    assert infection.late_blight_severity(30.0, temp) == 0


@pytest.mark.parametrize(
    ("low", "high", "days"),
    [(21, 21, 10.0), (7, 7, 7.5 * 0.0), (30, 30, 0.0), (14, 14, 7.5), (31, 31, 0.0), (6, 6, 0.0)],
)
def test_potato_days_at_points_of_the_curve(low: float, high: float, days: float) -> None:
    assert infection.potato_days(low, high) == pytest.approx(days)


def test_potato_day_weighs_four_temperatures() -> None:
    # 9, 15, 21, 27 degC: 10*(1-(12/14)^2), 10*(1-(6/14)^2), 10, 10*(1-(6/9)^2), weighed 5, 8, 8, 3
    parts = (5 * 2.65306, 8 * 8.16327, 8 * 10.0, 3 * 5.55556)
    assert infection.potato_days(9.0, 27.0) == pytest.approx(sum(parts) / 24.0, abs=1e-4)


def test_grey_mould_by_hand() -> None:
    # 24 h at 20 degC: -4.268 - 2.1624 + 14.112 - 4.512 = 3.1696
    assert infection_moulds.grey_mould_share(24.0, 20.0) == pytest.approx(1 / (1 + np.exp(-3.1696)), abs=1e-6)
    assert infection_moulds.grey_mould_share(0.0, 20.0) == 0.0
    # the field text gives 12 to 14 h at 16 to 20 degC as what it takes
    assert infection_moulds.grey_mould_share(14.0, 20.0) > 0.5 > infection_moulds.grey_mould_share(8.0, 16.0)
