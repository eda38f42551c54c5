"""Wet hours by three published rules, at their printed limits."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.errors import ParameterError
from spadework.science import comfort, leaf_wetness


def test_humid_or_rained_on() -> None:
    # Sentelhas and others: 90 percent or more, or rain in the hour
    assert leaf_wetness.wet_by_humidity([89.9, 90.0, 50.0, np.nan], [0, 0, 0.2, 0]).tolist() == [
        False,
        True,
        True,
        False,
    ]
    # dry places have used 87 percent
    assert leaf_wetness.wet_by_humidity(88.0, limit_pct=87.0)


def test_depression_has_a_memory() -> None:
    # Gillespie and others: wet from 1.8 degC, dry from 2.2 degC
    gaps = [2.0, 1.8, 2.1, 2.2, 2.0, 1.5, 3.0]
    found = leaf_wetness.wet_by_depression(gaps)
    assert found.tolist() == [False, True, True, False, False, True, False]


@pytest.mark.parametrize(
    ("temp", "rh", "wind", "gap", "wet"),
    [
        (15.0, 98.0, 0.5, 0.3, True),
        (15.0, 98.0, 0.5, 3.7, False),  # first node
        (-1.0, 98.0, 0.5, 0.3, False),
        # calm score by hand: 6.2216 + 0.81 + 12.248 - 0.9198 - 4.2 = 14.1598, below 14.4674
        (15.0, 80.0, 1.0, 2.0, False),
        (15.0, 90.0, 1.0, 1.6, True),
        (15.0, 87.0, 3.0, 2.1, False),  # wind, and not humid enough
        (15.0, 95.0, 3.0, 0.8, False),  # the windy score is seldom reached
    ],
)
def test_tree_of_three_questions(temp: float, rh: float, wind: float, gap: float, wet: bool) -> None:
    assert bool(leaf_wetness.wet_by_tree(temp, rh, wind, gap)) is wet


def test_dew_point_is_the_inverse_of_humidity() -> None:
    temps = np.array([0.0, 10.0, 25.0])
    dew = leaf_wetness.dew_point_c(temps, 60.0)
    assert comfort.relative_humidity_pct(temps, dew) == pytest.approx(60.0)
    with pytest.raises(ParameterError):
        leaf_wetness.dew_point_c(10.0, 0.0)


def test_humid_hours_of_a_plain_day() -> None:
    # dew point 10 degC: air is at 90 percent up to about 11.6 degC
    found = leaf_wetness.humid_hours(np.arange(24.0)[None, :], np.array([10.0]))
    assert found.hours_h.tolist() == [12.0]
    assert found.mean_c.tolist() == [5.5]
    dry = leaf_wetness.humid_hours(np.full((1, 24), 30.0), np.array([10.0]))
    assert dry.hours_h.tolist() == [0.0]
    assert np.isnan(dry.mean_c).all()


def test_longest_run() -> None:
    wet = [[1, 1, 0, 1, 1, 1], [0] * 6, [1] * 6]
    length, end = leaf_wetness.longest_run(wet)
    assert length.tolist() == [3, 0, 6]
    assert end.tolist() == [6, 0, 6]
