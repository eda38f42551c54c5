"""Lines told at the command line: written, asked, echoed in the garden's units. The garden is invented."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest

from line_garden import line_book
from said import Said, say
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_garden import make_garden

TODAY = "2026-06-15"


def place(folder: Path, units: Any = "metric") -> Path:
    words: Any = "american" if units == "us" else "british"
    make_garden(folder, "Line garden, invented", 47.0, 8.0, 400.0, units=units, words=words)
    with open_garden(folder).open_book() as book:
        book.append(line_book())
    return folder


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return place(tmp_path / "garden")


def note(garden: Path, *words: str) -> Said:
    return say("note", *words, "--garden", str(garden), "--today", TODAY)


def told(garden: Path, *words: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(note(garden, *words, "--json").out)
    return found


def entries(garden: Path) -> int:
    with open_garden(garden).open_book() as book:
        return len(book.entries())


def test_a_line_is_written_and_echoed(garden: Path) -> None:
    said = note(garden, "picked 2 kg kale from bed 6 yesterday")
    assert said.code == 0
    assert "Sun 14 Jun: Picked 2 kg of kale from Bed 6." in said.out
    assert "Picked 2 kg" in say("book", "--garden", str(garden), "--today", TODAY).out


def test_what_is_asked_is_not_written(garden: Path) -> None:
    before = entries(garden)
    said = note(garden, "thinned carrots to 5cm")
    assert said.code == 3
    assert "Which carrots: Bed 3 or Bed 7?" in said.out
    assert entries(garden) == before
    assert note(garden, "thinned carrots to 5cm", "--bed", "7").code == 0


def test_all_of_a_line_or_nothing(garden: Path) -> None:
    before = entries(garden)
    said = note(garden, "hoed bed 1, sprayed the cabbages with soap")
    assert said.code == 3
    assert "label" in said.out
    assert entries(garden) == before
    assert note(garden, "hoed bed 1, sprayed the cabbages with soap", "--insist").code == 0
    assert entries(garden) == before + 2


def test_json_has_what_was_understood(garden: Path) -> None:
    found = told(garden, "Ben watered the tunnel, two cans, splendid clouds")
    (understood,) = found["understood"]
    assert (understood["kind"], understood["bed"], understood["by"]) == ("watered", "tunnel", "ben")
    assert understood["fields"] == {"litres": 20.0}
    assert found["taken"] == ["a can taken as 10 litres"]
    assert found["unused"] == "splendid clouds"
    assert len(found["written"]) == 1


def test_a_line_that_is_not_understood_is_kept_as_a_note(garden: Path) -> None:
    said = note(garden, "robin singing in the hedge")
    assert said.code == 0
    assert "kept as a note" in said.out


def test_dry_run_writes_nothing(garden: Path) -> None:
    before = entries(garden)
    assert note(garden, "hoed bed 1", "--dry-run").code == 0
    assert entries(garden) == before


def test_the_same_line_twice_is_asked(garden: Path) -> None:
    assert note(garden, "picked 2 kg kale").code == 0
    said = note(garden, "picked 2 kg kale")
    assert said.code == 3
    assert "twice" in said.out


def test_several_lines_are_answered_one_by_one(garden: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = entries(garden)
    monkeypatch.setattr("sys.stdin", io.StringIO("watered the tunnel 40 l\n\npicked beans\nhoed bed 9\n"))
    said = note(garden, "-")
    assert said.code == 3
    assert "> picked beans" in said.out
    assert entries(garden) == before + 2


def test_american_words_and_units(tmp_path: Path) -> None:
    garden = place(tmp_path / "us", units="us")
    said = note(garden, "picked 2 lb zucchini on 6/13")
    assert said.code == 0
    assert "Sat Jun 13" in said.out
    assert "2 lb of summer squash" in said.out
    found = told(garden, "low 41 high 77")
    assert found["understood"][0]["fields"] == {"place": "air", "min_c": 5.0, "max_c": 25.0}


@pytest.mark.parametrize(
    "words", [("",), ("hoed bed 1", "--bed", "nowhere"), ("hoed bed 1", "--by", "nobody")]
)
def test_what_cannot_be_is_one_line(garden: Path, words: tuple[str, ...]) -> None:
    said = note(garden, *words)
    assert said.code == 2
    assert len(said.err.strip().splitlines()) == 1
