"""Litres and minutes for a bed, and waterings of a seed row. Bed and weather are made."""

from __future__ import annotations

import numpy as np
import pytest

from garden_book import Pen
from grounds import EVEN, years_of
from spadework.clock.bed_ground import BedGround
from spadework.clock.bed_water import beds_water
from spadework.clock.dose import CAN_L, HOSE_L_MIN, dose, seed_row
from spadework.clock.ground import Ground
from spadework.garden import entries as kinds
from spadework.garden.fold import fold
from spadework.garden.records import Bed


def bed(**more: float) -> Bed:
    pen = Pen()
    pen(kinds.BedSet(name="One", width_m=1.0, length_m=3.0, **more), bed="one")  # type: ignore[arg-type]  # numbers
    return fold(pen.written).beds["one"]


def test_litres_and_minutes_by_the_beds_own_flow() -> None:
    drip = dose(bed(emitters=20, emitter_l_h=2.0), 12.0)
    assert drip is not None
    assert drip.litres == pytest.approx(12.0 * 3.0 / 0.9)
    assert drip.minutes == pytest.approx(60.0 * drip.litres / (20 * 2.0))
    assert drip.flow_known
    hose = dose(bed(), 12.0)
    assert hose is not None
    assert hose.litres == pytest.approx(12.0 * 3.0 / 0.85)
    assert hose.minutes == pytest.approx(hose.litres / HOSE_L_MIN)
    assert hose.cans == pytest.approx(hose.litres / CAN_L)
    assert not hose.flow_known
    part = dose(bed(), 12.0, area_m2=1.5)
    assert part is not None
    assert part.litres == pytest.approx(hose.litres / 2.0)


def test_a_measured_flow_comes_before_the_rated_one() -> None:
    told = dose(bed(flow_l_min=10.0, measured_l_min=5.0), 10.0)
    assert told is not None
    assert told.minutes == pytest.approx(told.litres / 5.0)


def test_a_seed_row_wants_water_oftener_on_hot_dry_days() -> None:
    low, high = np.full((2, 30), 8.0), np.stack([np.full(30, 14.0), np.full(30, 30.0)])
    ground = Ground(EVEN, years_of(low, high), "bare-moist")
    one = BedGround()
    found = seed_row(ground, one, None, 20)
    assert found.times[0] < found.times[1]
    assert found.hours[0] > found.hours[1]
    water = beds_water(ground, {"one": one}, from_column=19)["one"]
    fed = seed_row(ground, one, water, 20)
    assert np.all(fed.times <= found.times)
    assert np.all(fed.hours >= found.hours)
    fleeced = seed_row(ground, BedGround(et0_share=0.8), None, 20)
    assert np.all(fleeced.hours > found.hours)


def test_rain_does_it_but_not_under_a_roof() -> None:
    ground = Ground(EVEN, years_of(np.full((1, 30), 8.0), np.full((1, 30), 22.0), rain_mm=6.0), "bare-moist")
    assert seed_row(ground, BedGround(), None, 10).times[0] == 0.0
    assert seed_row(ground, BedGround(rain_share=0.0), None, 10).times[0] > 0.0
