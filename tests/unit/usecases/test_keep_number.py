"""Own numbers: set with a reason, read back by every answer, taken off, the rest of the file untouched."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from spadework.errors import GardenError, ParameterError
from spadework.store.overrides_file import keep_overrides, overrides_text
from spadework.usecases.keep_number import drop_number, own_reasons, set_number
from spadework.usecases.read_sheets import read_sheet
from spadework.usecases.receipt_words import receipt_said

TODAY = date(2024, 6, 12)
FIELD = "development.ready_days"


def shown(garden: Path, field: str = FIELD) -> tuple[float | str, float | None, str]:
    sheet = read_sheet("carrot", garden, TODAY)
    each = next(each for each in sheet.values if each.field == field)
    return each.value, each.sheet_value, each.provenance


def test_a_number_is_set_read_back_and_taken_off(own_garden: Path) -> None:
    keep_overrides(
        own_garden,
        "# mine\n[carrot.emergence]\ntau = 0.2 # as it was\n\n[leek.development]\nready_days = 90\n",
    )
    before = shown(own_garden)
    set_number(own_garden, TODAY, "carrots", FIELD, 66.0, 'our packet says "66"\nso there')
    assert shown(own_garden) == (66.0, before[0], "grower")
    assert own_reasons(own_garden, "carrot", [FIELD])[FIELD] == 'our packet says "66" so there'
    set_number(own_garden, TODAY, "carrot", FIELD, 68.0, "weighed again")
    text = overrides_text(own_garden)
    assert text.count("ready_days = 6") == 1
    assert "tau = 0.2 # as it was" in text
    assert "ready_days = 90" in text
    drop_number(own_garden, TODAY, "carrot", FIELD)
    assert shown(own_garden) == before
    assert own_reasons(own_garden, "carrot", [FIELD]) == {}
    with pytest.raises(ParameterError, match="No own number"):
        drop_number(own_garden, TODAY, "carrot", FIELD)
    keep_overrides(own_garden, "[carrot]\ndevelopment = { ready_days = 66 }\n")
    with pytest.raises(GardenError, match="elsewhere"):
        drop_number(own_garden, TODAY, "carrot", FIELD)


@pytest.mark.parametrize(("field", "value"), [(FIELD, -3.0), ("development.no_such", 3.0)])
def test_what_cannot_be_changes_nothing(own_garden: Path, field: str, value: float) -> None:
    before = overrides_text(own_garden)
    with pytest.raises(ParameterError):
        set_number(own_garden, TODAY, "carrot", field, value, "no")
    with pytest.raises(ParameterError, match="Why"):
        set_number(own_garden, TODAY, "carrot", FIELD, 66.0, "  ")
    assert overrides_text(own_garden) == before


def test_receipts_are_said_in_words() -> None:
    said = receipt_said("published AH66-T202; FAO56")
    assert said.startswith("published: ")
    assert "AH66" not in said
    assert "FAO Irrigation and Drainage Paper 56" in said
    assert receipt_said("common-practice") == "common practice"
    assert receipt_said("measured USCRN") == "measured by us: USCRN"
    assert receipt_said("the book") == "the book"
    assert receipt_said("") == ""
