"""Worth of a planting: metres of row, yield and use, and the garden's own numbers before the sheet's."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scenes import bed, said, scene_of
from spadework.advice.worth import value_kg_m2, worth_of
from spadework.crops.loader import load_sheet
from spadework.garden import entries as kinds

TODAY = "2026-06-01"


def test_rows_times_yield_times_use() -> None:
    act = kinds.Sown(planting="p", crop="bush-bean", rows=2, row_length_m=3.0)
    scene = scene_of([bed(), said(act, "2026-05-20", bed="bed-1")], TODAY)
    (plot,) = scene.plots
    # two rows of 3 m at 1.79 kg a metre, each kilogram as good as 2.2 of carrots: the sheet's own numbers
    assert plot.worth.kg == pytest.approx(2 * 3.0 * 1.79)
    assert plot.worth.value == pytest.approx(2 * 3.0 * 1.79 * 2.2)
    assert plot.worth.provenance == plot.sheet.harvest.yield_kg_m.provenance


def test_area_counts_in_rows_of_the_sheet_and_a_bed_for_what_has_none() -> None:
    act = kinds.Sown(planting="p", crop="carrot", area_m2=1.5)
    (plot,) = scene_of([bed(), said(act, "2026-05-20", bed="bed-1")], TODAY).plots
    row_m = 1.5 / (plot.sheet.sowing.row_cm.value / 100.0)
    assert plot.worth.kg == pytest.approx(row_m * plot.sheet.harvest.yield_kg_m.value)
    assert value_kg_m2(plot.sheet) * 1.5 == pytest.approx(plot.worth.value)


def test_the_growers_own_number_goes_before_and_says_so() -> None:
    act = kinds.Sown(planting="p", crop="carrot", area_m2=1.5)
    (plot,) = scene_of([bed(), said(act, "2026-05-20", bed="bed-1")], TODAY).plots
    sheet = load_sheet("carrot")
    own = replace(sheet.use.worth_kg, value=3.0, provenance="grower", source="", origin="the garden's own")
    worth = worth_of(replace(sheet, use=replace(sheet.use, worth_kg=own)), plot.planting, plot.bed)
    assert worth.value == pytest.approx(3.0 * plot.worth.value)
    assert worth.kg == plot.worth.kg
    assert worth.provenance == "grower"
