"""A grower's own numbers: they change the answers and are shown beside the sheet's."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from spadework.errors import GardenError, InputFileError
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.read_sheets import ShownSheet, ShownValue, list_sheets, read_sheet
from spadework.usecases.setting import open_setting
from spadework.usecases.weigh_sowing import weigh_sowing

TODAY = date(2018, 5, 10)


def write(garden: Path, text: str) -> None:
    (garden / "overrides.toml").write_text(text, encoding="utf-8")


def shown(sheet: ShownSheet, field: str) -> ShownValue:
    return next(value for value in sheet.values if value.field == field)


def test_own_days_to_ready_move_the_answer(own_garden: Path) -> None:
    first = ask_ready(own_garden, TODAY, "carrot", sown=date(2018, 5, 1))
    write(own_garden, "[carrot.development]\nready_days = 70\n")
    second = ask_ready(own_garden, TODAY, "carrot", sown=date(2018, 5, 1))
    assert first.ready.q50 is not None
    assert second.ready.q50 is not None
    assert 15 < (second.ready.q50 - first.ready.q50).days < 60
    assert second.emergence == first.emergence


def test_own_emergence_moves_the_sowing(own_garden: Path) -> None:
    first = weigh_sowing(own_garden, TODAY, "carrot").options[0].emergence
    write(own_garden, "[carrot.emergence]\nsum_cd = 260\n")
    second = weigh_sowing(own_garden, TODAY, "carrot").options[0].emergence
    assert first is not None
    assert second is not None
    assert first.q50 is not None
    assert second.q50 is not None
    assert second.q50 > first.q50


def test_any_name_of_the_crop_reaches_the_sheet(own_garden: Path) -> None:
    write(own_garden, "[zucchini.development]\nready_days = 40\n")
    sheet = open_setting(own_garden, TODAY).sheet("courgette")
    assert sheet.development.ready_days.value == 40.0
    assert sheet.development.ready_days.provenance == "grower"
    assert open_setting(own_garden, TODAY).sheet("carrot").development.ready_days.provenance != "grower"


def test_own_numbers_are_shown_beside_the_sheets(own_garden: Path) -> None:
    plain = shown(read_sheet("carrot", own_garden, TODAY), "development.ready_days")
    assert plain.sheet_value is None
    write(own_garden, "[carrot.development]\nready_days = 70\n")
    own = shown(read_sheet("carrot", own_garden, TODAY), "development.ready_days")
    assert (own.value, own.sheet_value, own.provenance) == (70.0, plain.value, "grower")
    assert own.unit == plain.unit
    others = [
        value for value in read_sheet("carrot", own_garden, TODAY).values if value.sheet_value is not None
    ]
    assert len(others) == 1


def test_a_sheet_is_read_without_a_garden_but_not_past_a_broken_one(tmp_path: Path) -> None:
    assert read_sheet("carrot", tmp_path, TODAY).key == "carrot"
    (tmp_path / "garden.toml").write_text('format = 1\n[site]\nname = "x"\n', encoding="utf-8")
    with pytest.raises(GardenError, match="lat_deg"):
        read_sheet("carrot", tmp_path, TODAY)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[carrot.development]\nready_dys = 70\n", "ready_days"),
        ("[carrot.development]\nready_days = 7000\n", "400"),
        ("[carrot.emergence]\nbase_c = 39\noptimum_c = 10\n", "base_c"),
    ],
)
def test_wrong_own_numbers_are_refused_with_the_place(own_garden: Path, text: str, said: str) -> None:
    write(own_garden, text)
    for question in (
        lambda: read_sheet("carrot", own_garden, TODAY),
        lambda: ask_ready(own_garden, TODAY, "carrot", sown=TODAY),
    ):
        with pytest.raises(InputFileError, match=r"overrides\.toml, carrot was not taken") as caught:
            question()
        assert said in str(caught.value)


def test_own_numbers_for_no_known_crop_are_told_with_the_file(own_garden: Path) -> None:
    write(own_garden, "[carot.development]\nready_days = 70\n")
    with pytest.raises(GardenError, match=r"overrides\.toml.*carot") as caught:
        ask_ready(own_garden, TODAY, "leek", sown=TODAY)
    assert "carrot" in caught.value.hint


def test_every_number_shown_has_a_receipt() -> None:
    for listed in list_sheets():
        for value in read_sheet(listed.key, Path("/nonexistent"), TODAY).values:
            if isinstance(value.value, float):
                assert value.provenance
                assert value.sources or value.provenance == "common-practice", (listed.key, value.field)
                for source in value.sources:
                    assert "://" not in source
                    assert "www." not in source
