"""The law of density taken from how wide a crop grows, beside published trials and handbook distances."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.advice.weigh_thin import density_of, stand
from spadework.crops.loader import load_sheet
from spadework.errors import ParameterError
from spadework.science import crowding

INCH_CM = 2.54


def _half(crop: str) -> float:
    return float(crowding.half_yield_plants_m2(load_sheet(crop).room.spread_cm.value))


def _mass(crop: str, plants_m2: float) -> float:
    """Mean mass at a density over that of a plant alone."""
    half = _half(crop)
    return float(crowding.plant_mass_g(plants_m2, half, 1.0)) * half


@pytest.mark.parametrize(("alpha", "beta"), [(0.00188257, 9.15921e-5), (0.00180881, 1.41971e-4)])
def test_onions_of_two_sites(alpha: float, beta: float) -> None:
    """Ratkowsky 1983, fits at Purnong Landing and Virginia: half of the most at 20.6 and 12.7 on a m2."""
    assert 0.5 <= _half("onion") / (alpha / beta) <= 2.0
    # masses over the range of the trials, 20 to 150 a square metre, against those of 80: within a fifth
    many = np.array([20.0, 40.0, 60.0, 100.0, 150.0])
    half = _half("onion")
    here = (half + 80.0) / (half + many)
    there = (alpha / beta + 80.0) / (alpha / beta + many)
    assert here == pytest.approx(there, rel=0.20)


def test_onions_for_pickling_and_for_the_kitchen() -> None:
    """McGeary 1985: 625 a square metre for bulbs of 25 to 45 mm; Bleasdale 1966: 75 for dry bulbs.

    Bulbs of 35 mm at the one become 66 mm at the other, mass going by the cube of the width.
    """
    wide_mm = 35.0 * (_mass("onion", 75.0) / _mass("onion", 625.0)) ** (1.0 / 3.0)
    assert 55.0 <= wide_mm <= 75.0


def test_parsnips_by_the_width_of_the_crown() -> None:
    """Bleasdale and Thompson 1966: at 21.5 a square metre most crowns are above 2 inches wide; those of 1.5
    to 2.5 come best from 43 to 65."""

    def share(plants_m2: float, low_in: float, high_in: float) -> float:
        # crowns of 2 inches in the middle at 54 a square metre; mass goes by the cube of the width
        mean = (2.0 * INCH_CM) ** 3 * _mass("parsnip", plants_m2) / _mass("parsnip", 54.0)
        return float(crowding.share_in_grade(mean, (low_in * INCH_CM) ** 3, (high_in * INCH_CM) ** 3))

    assert share(21.5, 2.0, np.inf) > 0.5 > share(54.0, 2.0, np.inf)
    middle = {plants: share(plants, 1.5, 2.5) for plants in (21.5, 43.0, 54.0, 65.0, 215.0)}
    assert min(middle[43.0], middle[54.0], middle[65.0]) > 0.8
    assert max(middle[21.5], middle[215.0]) < min(middle[43.0], middle[65.0])


@pytest.mark.parametrize("crop", ["carrot", "beet", "leek", "parsnip", "radish", "turnip", "lettuce"])
def test_handbook_distances(crop: str) -> None:
    """Small produce from the near distance, large from the wide one, and kilos that change less than either.

    The distances are common practice; the sheets have them. Over the whole range of distances a square metre
    keeps most of its kilos, which is why growers thin by size.
    """
    sheet = load_sheet(crop)
    assert sheet.thin.in_row_small_cm is not None
    assert sheet.thin.in_row_large_cm is not None
    near, wide = sheet.thin.in_row_small_cm.value, sheet.thin.in_row_large_cm.value
    law = density_of(sheet, sheet.harvest.yield_kg_m.value)
    assert law.closed is not None
    assert 0.4 <= law.closed <= 0.85
    small, large = (stand(sheet, law, 100.0 / cm, thinned=True) for cm in (near, wide))
    heavier, fewer_kg = large.each_g / small.each_g, small.kg_m / large.kg_m
    assert heavier > 1.25
    assert 1.0 < fewer_kg < wide / near
    assert heavier * fewer_kg == pytest.approx(wide / near, rel=0.25)


def test_more_leaf_crop_from_more_plants_and_less_from_each() -> None:
    """A leaf vegetable of 10, 16, 20, 25 and 40 a square metre gave most at 40 (abstract of a trial)."""
    many, half = np.array([10.0, 16.0, 20.0, 25.0, 40.0]), _half("lettuce")
    mass = crowding.plant_mass_g(many, half, 1.0)
    assert np.all(np.diff(many * mass) > 0.0)
    assert np.all(np.diff(mass) < 0.0)


def test_turnips_of_a_trial_are_the_known_miss() -> None:
    """Mead 1988: half of the most at 2.54 pounds of seed an acre. With half to three quarters of it up that
    is six to nine times the plants said here: docs/accuracy.md."""
    grams_m2 = 0.164742 / 0.0647653 * 453.592 / 4046.86
    per_gram = load_sheet("turnip").sowing.seeds_per_gram
    assert per_gram is not None
    there = [up * grams_m2 * per_gram.value / _half("turnip") for up in (0.5, 0.75)]
    assert there == pytest.approx([6.0, 9.1], abs=0.1)


def test_a_plant_takes_room() -> None:
    with pytest.raises(ParameterError, match="room"):
        crowding.half_yield_plants_m2(0.0)
