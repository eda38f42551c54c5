"""The soil of the beds: those alike together, a bed that was read by itself, and what is said of it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from locked_garden import TODAY, locked_garden
from spadework.faces.soil_words import learnt_said, names_said
from spadework.faces.voice import Voice
from spadework.garden.told import SoilWarmth
from spadework.usecases.show_soil import show_soil
from spadework.usecases.tell import tell


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return locked_garden(tmp_path_factory.mktemp("soil"))


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


def test_beds_that_are_alike_stand_together_and_one_that_was_read_by_itself(garden: Path) -> None:
    voice = Voice(us=False, today=TODAY)
    before = show_soil(garden, TODAY)
    whole, under = before.groups
    assert (whole.told, whole.warmer_c) == (0, 0.0)
    assert len(whole.beds) > 3
    assert "No reading of the soil" in learnt_said(whole, voice)

    warm_c = whole.soil.now_c + 3.0
    read = SoilWarmth(temp_c=warm_c, depth_cm=5.0, first=TODAY, last=TODAY, bed="bed-3")
    assert tell(garden, TODAY, [read], source="own", sure=True).stored
    after = show_soil(garden, TODAY)
    rest, *others = after.groups
    (own,) = (each for each in others if each.beds[0][1] == "Bed 3")
    assert [name for _, name in own.beds] == ["Bed 3"]
    assert (names_said(under), len(others)) == ("Inner bed, as the tunnel or frame makes it", 2)
    assert own.told == 1
    # a reading of one bed corrects the others too, by less
    assert whole.soil.now_c < rest.soil.now_c < own.soil.now_c <= warm_c + 0.5
    assert (rest.told, rest.told_elsewhere) == (0, 1)
    assert "1 reading of other beds, which count for less" in learnt_said(rest, voice)
    assert own.soil.readings == [(TODAY, round(warm_c, 1))]
    assert "corrected by 1 reading told of this soil" in learnt_said(own, voice)
    (only,) = show_soil(garden, TODAY, bed="Bed 3").groups
    assert only.soil.past == own.soil.past
    assert "Bed 1 and 2 and Bed 4 to 10" in names_said(rest)
