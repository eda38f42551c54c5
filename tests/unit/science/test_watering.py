"""Litres, minutes, and how fast a seed row dries."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.errors import ParameterError
from spadework.science import watering
from spadework.science.root_soils import ROOT_SOILS

LOAM = watering.seed_zone_store_mm(ROOT_SOILS["loam"].full.middle, ROOT_SOILS["loam"].wilting.middle)
LONG_DAY = {"sunrise_h": 4.0, "sunset_h": 20.0}


def test_a_millimetre_on_a_square_metre_is_a_litre() -> None:
    assert watering.litres_for_depth(12.0, 2.88) == pytest.approx(34.56)
    assert watering.litres_for_depth(12.0, 2.88, 0.9) == pytest.approx(38.4)
    assert watering.minutes_for_litres(38.4, 9.6) == pytest.approx(4.0)


def test_a_seed_row_in_loam() -> None:
    assert pytest.approx(1.04) == LOAM
    morning = watering.drying_hours(LOAM, 5.0, from_h=8.0, **LONG_DAY)
    noon = watering.drying_hours(LOAM, 5.0, from_h=12.0, **LONG_DAY)
    evening = watering.drying_hours(LOAM, 5.0, from_h=19.0, **LONG_DAY)
    assert 1.5 < float(noon) < float(morning) < 6.0
    assert np.isinf(evening)
    assert watering.waterings_a_day(LOAM, 5.0) == 6
    assert watering.waterings_a_day(LOAM, 5.0, damp_below_share=1.0) == 3
    assert watering.waterings_a_day(LOAM, 1.0, damp_below_share=1.0, shelter_factor=0.8) == 1
    assert watering.waterings_a_day(LOAM, 0.0) == 0


def test_hours_add_up_to_the_day_whatever_the_step() -> None:
    # what is lost between two hours is the same whether asked in one step or two
    rng = np.random.default_rng(5)
    for _ in range(30):
        first, second, et0, start = rng.uniform([0.1, 0.1, 2.0, 4.5], [0.6, 0.6, 7.0, 10.0])
        one = watering.drying_hours(first, et0, from_h=start, **LONG_DAY)
        two = watering.drying_hours(second, et0, from_h=start + one, **LONG_DAY)
        both = watering.drying_hours(first + second, et0, from_h=start, **LONG_DAY)
        assert one + two == pytest.approx(both)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ParameterError):
        watering.litres_for_depth(-1.0, 1.0)
    with pytest.raises(ParameterError):
        watering.minutes_for_litres(10.0, 0.0)
    with pytest.raises(ParameterError):
        watering.drying_hours(1.0, 4.0, sunrise_h=12.0, sunset_h=12.0, from_h=12.0)
    with pytest.raises(ParameterError):
        watering.surface_loss_mm(4.0, damp_below_share=1.5)
