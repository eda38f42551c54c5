"""Thinning weighed, on small invented gardens."""

from __future__ import annotations

from datetime import date

import pytest

from scenes import bed, said, scene_of
from spadework.advice.weigh_thin import ThinAnswer, density_of, stand, weigh_thin
from spadework.crops.loader import load_sheet
from spadework.garden import entries as kinds


def _weighed(standing: int, leaves: float = 2.0) -> ThinAnswer:
    sown = kinds.Sown(planting="carrot-1", crop="carrot", rows=2, row_length_m=2.0, seeds=500)
    garden = [
        bed(),
        said(sown, "2026-05-01", bed="bed-1"),
        said(kinds.Counted(standing=standing), "2026-06-01", planting="carrot-1"),
        said(kinds.Measured(leaves=leaves), "2026-06-01", planting="carrot-1"),
    ]
    scene = scene_of(garden, "2026-06-01")
    found = weigh_thin(scene.plots[0], scene.pace, date(2026, 6, 1), crop="carrots", note="")
    assert found is not None
    return found


@pytest.mark.parametrize("crop", ["carrot", "onion", "beet", "lettuce"])
def test_the_law_gives_the_usual_yield_at_the_usual_distance(crop: str) -> None:
    sheet = load_sheet(crop)
    kg_m = sheet.harvest.yield_kg_m.value
    law = density_of(sheet, kg_m)
    usual = 100.0 / sheet.sowing.in_row_cm.value
    row_m = sheet.sowing.row_cm.value / 100.0
    mass_g = (law.alpha + law.beta * usual / row_m) ** (-1.0 / law.theta)
    assert usual * mass_g / 1000.0 == pytest.approx(kg_m)
    assert stand(sheet, law, usual, thinned=True).kg_m <= kg_m * (1.0 + 1e-9)


def test_onions_keep_the_shape_of_the_measured_law() -> None:
    # Ratkowsky 1983, own fit to 42 plots at Purnong Landing: alpha 0.001883, beta 9.159e-05
    sheet = load_sheet("onion")
    law = density_of(sheet, sheet.harvest.yield_kg_m.value)
    assert law.measured
    assert law.beta / law.alpha == pytest.approx(9.15921e-05 / 0.00188257)


def test_wider_gives_larger_roots_and_a_week_later_gives_less() -> None:
    found = _weighed(300)
    now = [option for option in found.options if option.when == "now"]
    later = [option for option in found.options if option.when == "a week later"]
    assert [option.each_g for option in now] == sorted(option.each_g for option in now)
    assert all(b.kg <= a.kg for a, b in zip(now, later, strict=True))
    assert any(b.kg < a.kg for a, b in zip(now, later, strict=True))
    assert all(option.kg_low <= option.kg <= option.kg_high for option in found.options)


def test_a_crowded_row_is_thinned_and_a_thin_one_left() -> None:
    crowded, thin = _weighed(300), _weighed(40)
    assert crowded.options[crowded.best].when == "now"
    assert crowded.options[-1].when == "not at all"
    assert crowded.options[crowded.best].kg > crowded.options[-1].kg
    assert thin.options[thin.best].when == "not at all"


def test_plants_and_minutes_add_up() -> None:
    for option in _weighed(300).options:
        assert option.stay + option.removed == 300
        assert (option.minutes > 0.0) == (option.removed > 0)
