"""An entry is corrected in one act; kit and seed are taken off the books. The garden is invented."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from plot_book import TODAY, plot
from said import Said, say
from spadework.errors import ParameterError
from spadework.garden.state import Garden
from spadework.store.garden_folder import open_garden
from spadework.usecases.correct_entry import correct_entry, correctable
from spadework.usecases.keep_book import garden_state
from spadework.usecases.write_answer import Writing

DAY = date.fromisoformat(TODAY)
CARROTS = "carrot-2026-1"


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return plot(tmp_path)


def ask(garden: Path, *words: str) -> Said:
    return say(*words, "--garden", str(garden), "--today", TODAY)


def told(garden: Path, *words: str) -> dict[str, Any]:
    said = ask(garden, *words, "--json")
    assert said.code == 0, said.out + said.err
    found: dict[str, Any] = json.loads(said.out)
    return found


def held_of(garden: Path) -> Garden:
    return garden_state(open_garden(garden))


def last(garden: Path, kind: str) -> dict[str, Any]:
    found: dict[str, Any] = told(garden, "book", "--kind", kind, "--last", "all")["entries"][-1]
    return found


def test_a_count_is_corrected_and_the_old_one_is_shown_as_such(garden: Path) -> None:
    key = last(garden, "counted")["short"]
    before = len(told(garden, "book", "--last", "all")["entries"])
    assert told(garden, "correct", key, "--standing", "150")["stored"]
    # the thinning of 60 comes after the count, as before
    assert held_of(garden).plantings[CARROTS].plants.number == 90
    entries = told(garden, "book", "--last", "all")["entries"]
    assert len(entries) == before + 1
    old = next(each for each in entries if each["short"] == key)
    assert old["state"] == "corrected"
    assert f"In place of {key}" in last(garden, "counted")["text"]


def test_day_bed_and_minutes_go_together_in_one_act(garden: Path) -> None:
    assert ask(garden, "note", "weeded bed 2 in 20 minutes", "--by", "ben").code == 0
    key = last(garden, "weeded")["key"]
    words = ("--on", "14 June", "--bed", "Bed 1", "--minutes", "35", "--by", "ann")
    found = told(garden, "correct", key, *words)
    assert [each["kind"] for each in found["entries"]] == ["tended", "minutes"]
    assert {(each["on"], each["bed"], each["by"]) for each in found["entries"]} == {
        ("2026-06-14", "bed-1", "ben")
    }
    held = held_of(garden)
    assert held.beds["bed-2"].minutes == 0
    assert held.beds["bed-1"].minutes == 35
    assert "weeded" not in held.beds["bed-2"].last


def test_minutes_nobody_told_are_added(garden: Path) -> None:
    assert ask(garden, "note", "weeded bed 2", "--by", "ann").code == 0
    found = told(garden, "correct", last(garden, "weeded")["key"], "--minutes", "12")
    assert found["entries"][0]["text"] == "12 minutes on hand weeding, Bed 2."
    assert held_of(garden).beds["bed-2"].minutes == 12


def test_another_way_of_saying_how_much_takes_the_place_of_the_first(garden: Path) -> None:
    assert told(garden, "correct", last(garden, "watered")["key"], "--litres", "14")["stored"]
    (watering,) = held_of(garden).waterings("bed-1")
    assert watering.litres == 14
    assert "minutes" not in last(garden, "watered")["text"]


def test_a_crop_in_another_bed_is_its_planting_there(garden: Path) -> None:
    assert ask(garden, "note", "sowed carrots in bed 2 on 1 May", "--insist", "--by", "ann").code == 0
    key = last(garden, "picked")["key"]
    assert told(garden, "correct", key, "--bed", "Bed 2", "--insist")["stored"]
    assert last(garden, "picked")["planting"] == "carrot-2026-2"
    said = ask(garden, "correct", last(garden, "picked")["key"], "--planting", "leek")
    assert said.code == 2
    assert "No leeks stood" in said.err


def test_what_is_odd_is_asked_about_as_of_any_act(garden: Path) -> None:
    key = last(garden, "picked")["key"]
    asked = ask(garden, "correct", key, "--on", "20 June")
    assert asked.code == 3
    assert "still to come" in asked.out
    assert last(garden, "picked")["on"] == "2026-06-13"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--standing", "180"), "Nothing would be different"),
        (("--standing", "12.5"), "whole number"),
        (("--kg", "2"), "is not said in that entry"),
        (("--say", "standing"), "name=value"),
        (("--bed", "nowhere"), "nowhere"),
        (("--who", "zoe"), "zoe"),
    ],
)
def test_what_cannot_be_is_refused_in_a_line(garden: Path, words: tuple[str, ...], says: str) -> None:
    said = ask(garden, "correct", last(garden, "counted")["key"], *words)
    assert said.code == 2
    assert says in said.err


def test_an_entry_corrected_once_is_corrected_again_in_its_new_form(garden: Path) -> None:
    first = last(garden, "counted")["key"]
    assert told(garden, "correct", first, "--standing", "150")["stored"]
    assert "corrected already" in ask(garden, "correct", first, "--standing", "140").err
    assert told(garden, "correct", last(garden, "counted")["key"], "--standing", "140")["stored"]
    assert held_of(garden).plantings[CARROTS].plants.number == 80


def test_taking_the_correction_back_gives_the_first_entry_back(garden: Path) -> None:
    assert told(garden, "correct", last(garden, "counted")["key"], "--standing", "150")["stored"]
    assert told(garden, "undo", last(garden, "counted")["key"])["stored"]
    assert held_of(garden).plantings[CARROTS].plants.number == 120


def test_a_reader_corrects_nothing_and_nobody_corrects_what_a_person_may(garden: Path) -> None:
    assert ask(garden, "people", "add", "Rea", "--role", "reader", "--by", "ann").code == 0
    key = last(garden, "counted")["key"]
    assert "only reads" in ask(garden, "correct", key, "--standing", "9", "--by", "rea").err
    said = ask(garden, "correct", last(garden, "person")["key"], "--say", "role=keeper", "--by", "ben")
    assert said.code == 2
    assert "people add" in said.err


def test_without_anything_said_it_shows_what_can_be(garden: Path) -> None:
    said = ask(garden, "correct", last(garden, "picked")["key"])
    assert said.code == 0
    assert "kg=0.4" in said.out
    assert "quality=not said (good, fair, poor)" in said.out
    fields = {each.name: each for each in correctable(garden, DAY, last(garden, "sown")["key"]).fields}
    assert fields["seeds"].value == 300
    assert fields["seeds"].sort == "whole"
    assert "crop" not in fields


def test_words_as_a_form_sends_them_are_read(garden: Path) -> None:
    key, how = last(garden, "picked")["key"], Writing(today=DAY, by="ann")
    assert correct_entry(garden, how, key, {"kg": "0,75", "pieces": "", "last": "true"}).stored
    entry = next(each for each in reversed(held_of(garden).entries) if each.replaces == key)
    assert (entry.act.kg, entry.act.pieces, entry.act.last) == (0.75, None, True)  # type: ignore[union-attr]
    with pytest.raises(ParameterError, match="quality"):
        correct_entry(garden, how, entry.key, {"quality": "superb"})


def test_kit_and_seed_are_taken_off_the_books_and_come_back(garden: Path) -> None:
    assert ask(garden, "note", "took the fleece off bed 1", "--by", "ann").code == 0
    assert "No fleece in the kit any more" in ask(garden, "kit", "end", "fleece", "--by", "ann").out
    assert told(garden, "kit")["kit"] == []
    assert ask(garden, "kit", "add", "fleece", "--sort", "fleece", "--length", "8", "--by", "ann").code == 0
    assert told(garden, "kit")["kit"][0]["length_m"] == 8
    assert "no carrot seed left" in ask(garden, "tin", "end", "carrot-25", "--by", "ann").out
    assert told(garden, "tin")["lots"] == []
    assert held_of(garden).plantings[CARROTS].lot == "carrot-25"


def test_kit_that_is_in_use_is_asked_about_before_it_goes(garden: Path) -> None:
    said = ask(garden, "kit", "end", "fleece", "--by", "ann")
    assert said.code == 3
    assert "Fleece is still on Bed 1." in said.out
