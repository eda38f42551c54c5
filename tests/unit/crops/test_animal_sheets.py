"""Sheets of birds and mammals: barriers come first, the law is named, and nothing is harmed."""

from __future__ import annotations

import re

import pytest

from spadework.crops.care_fields import EATERS
from spadework.crops.trouble import Trouble
from spadework.crops.troubles import all_troubles, trouble

NOT_ANIMALS = {"slugs", "cutworms", "flea beetles"}

HARM = re.compile(r"\b(kill\w*|poison\w*|shoot\w* (?:it|them)|glue|drown\w*|snare\w*)\b", re.IGNORECASE)


def _animals() -> list[Trouble]:
    return [each for each in all_troubles().values() if each.kind == "animal"]


@pytest.mark.parametrize("eater", [each for each in EATERS if each not in NOT_ANIMALS])
def test_everyone_crop_sheets_guard_against_has_a_sheet(eater: str) -> None:
    assert trouble(eater).kind == "animal"


@pytest.mark.parametrize("each", _animals(), ids=lambda each: each.key)
def test_kept_out_within_the_law(each: Trouble) -> None:
    assert each.barrier
    assert each.legal
    assert each.tender_days is not None
    assert max(shown.often.value for shown in each.signs) >= 0.65
    assert all(item.kit in ("", "fleece", "netting", "mesh", "screen") for item in each.barrier)
    for item in (*each.barrier, *each.remedies):
        assert not HARM.search(item.act), item.act


def test_fences_keep_to_what_was_tried() -> None:
    """Rabbit fence trials of 1986 (RABBIT_VPC1986): 0.75 m, hexagonal mesh of 31 mm; deer: WVU_FENCE2020."""
    rabbit = trouble("rabbits")
    assert "75 cm" in rabbit.barrier[0].act
    assert rabbit.mesh_mm is not None
    assert rabbit.mesh_mm.most == 31
    assert "2.4 m" in trouble("deer").barrier[0].act
    assert trouble("groundhogs").barrier[0].source == "WVU_FENCE2020"


def test_mesh_shuts_out_the_smallest_that_comes() -> None:
    wide = {each.key: each.mesh_mm.value for each in _animals() if each.mesh_mm}
    assert wide["voles"] < wide["sparrows"] < wide["pigeons"] <= wide["rabbits"]
