"""Photos by the command line: into the book, listed with their place, and out again as a file."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from locked_garden import TODAY, locked_garden
from said import Said, say

PHOTO = Path(__file__).parent / "grey.png"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return locked_garden(tmp_path_factory.mktemp("photo"))


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


def test_a_photo_goes_in_is_listed_and_comes_out(garden: Path, tmp_path: Path) -> None:
    def ask(*words: str) -> Said:
        return say(*words, "--garden", str(garden), "--today", str(TODAY))

    assert "No photo" in ask("photo").out
    added = ask("photo", "add", str(PHOTO), "--bed", "Bed 1", "--words", "the first leaves")
    assert added.code == 0, added.err
    listed = ask("photo", "--bed", "Bed 1", "--json").json["photos"]
    assert [(each["bed_name"], each["words"]) for each in listed] == [("Bed 1", "the first leaves")]
    assert "Bed 1: the first leaves" in ask("photo").out
    assert "No photo" in ask("photo", "--bed", "Bed 2").out
    short, out = listed[0]["entry"][-6:], tmp_path / "out.png"
    assert ask("photo", "save", short, str(out)).code == 0
    assert out.read_bytes() == PHOTO.read_bytes()
    again = ask("photo", "save", short, str(out))
    assert (again.code, "is there already" in again.err) == (2, True)
    assert ask("photo", "save", short, str(out), "--over").code == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["photo", "add", "nowhere.jpg"], "cannot be read"),
        (["photo", "add", __file__], "This is no photo"),
        (["photo", "save", "zzzzzz", "out.png"], "No photo ends"),
        (["photo", "--bed", "nowhere"], "No bed"),
        (["photo", "--planting", "nowhere"], "No planting"),
    ],
)
def test_what_is_no_photo_is_refused_in_a_line(garden: Path, words: list[str], said: str) -> None:
    got = say(*words, "--garden", str(garden), "--today", str(TODAY))
    assert got.code == 2
    assert said in got.err
