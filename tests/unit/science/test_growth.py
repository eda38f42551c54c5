"""Leaves and height."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.errors import ParameterError
from spadework.science import growth


def test_leaves_come_at_a_steady_pace() -> None:
    grown = np.array([-3.0, 0.0, 4.0, 10.0, 400.0, np.nan])
    leaves = growth.leaf_number(grown, 2.0, 1.0, 20.0)
    assert leaves[:5].tolist() == [0.0, 1.0, 3.0, 6.0, 20.0]
    assert np.isnan(leaves[5])
    with pytest.raises(ParameterError):
        growth.leaf_number(grown, 0.0)


def test_a_count_overrides_and_the_pace_goes_on() -> None:
    grown = np.array([0.0, 4.0, 6.0, 50.0, np.nan])
    leaves = growth.leaves_from_count(grown, 5.0, 4.0, 2.0, 12.0)
    assert leaves[:4].tolist() == [3.0, 5.0, 6.0, 12.0]
    assert np.isnan(leaves[4])
    assert float(growth.leaves_from_count(4.0, 15.0, 4.0, 2.0, 12.0)) == 15.0
    with pytest.raises(ParameterError):
        growth.leaves_from_count(grown, -1.0, 4.0, 2.0)


def test_height_runs_from_nothing_to_full() -> None:
    way = np.linspace(-0.5, 1.5, 81)
    height = growth.height_cm(way, 60.0)
    assert height[0] == height[20] == 0.0
    assert height[-1] == height[60] == pytest.approx(60.0)
    assert (np.diff(height) >= 0).all()
    assert 20 < float(growth.height_cm(growth.HALF_HEIGHT_SHARE, 60.0)) < 35
    assert np.isnan(growth.height_cm(np.nan, 60.0))
    with pytest.raises(ParameterError):
        growth.height_cm(way, -1.0)
