"""Sowing and planting as a sentence, one planting opened up, a sowing tried, and the soil, in words."""

from __future__ import annotations

import io
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from locked_garden import TODAY, locked_garden
from said import Said, say

Ask = Callable[..., Said]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("plant")
    return {place: locked_garden(folder, place) for place in ("north", "us")}


@pytest.fixture
def ask(made: dict[str, Path], tmp_path: Path) -> Ask:
    """Commands about a copy of the garden."""
    garden = Path(shutil.copytree(made["north"], tmp_path / "garden"))
    return lambda *words: say(*words, "--garden", str(garden), "--today", str(TODAY))


def test_a_sentence_is_looked_at_and_then_written_as_it_was_counted(ask: Ask) -> None:
    words = ["plant", "turnip", "--bed", "Bed 10", "--rows", "2", "--length", "1m", "--apart", "5cm"]
    looked = ask(*words, "--look", "--json").json
    comes = looked["comes_to"]
    assert (comes["rows"], comes["plants"], comes["piece"]) == (2, 40, "seeds")
    assert looked["odds"]["ready"]["q50"] is not None
    said = ask(*words, "--look")
    assert f"{comes['pieces']} seeds for 2 rows of 1 m" in said.out
    assert "Nothing was written" in said.out
    assert "turnip" not in ask("book", "--bed", "Bed 10").out.lower()
    written = ask(*words)
    assert written.code == 0, written.err
    assert f"Sowed {comes['pieces']} seeds of turnip" in " ".join(written.out.split())
    (one,) = ask("standing", "--crop", "turnip", "--json").json["plantings"]
    assert (one["rows"], one["seeds"]) == (2, comes["pieces"])
    shown = ask("planting", one["key"])
    assert "Its course" in shown.out
    assert "ready:" in shown.out
    # a crop of which one planting stands is enough
    assert ask("planting", "turnip", "--json").json["planting"]["key"] == one["key"]


def test_a_sentence_takes_inches_where_the_garden_does(made: dict[str, Path]) -> None:
    words = ["plant", "radish", "--bed", "Bed 10", "--rows", "1", "--length", "3", "--apart", "2", "--look"]
    comes = say(*words, "--garden", str(made["us"]), "--today", str(TODAY), "--json").json["comes_to"]
    assert (round(comes["length_m"], 2), comes["spacing_cm"]) == (0.91, 5.08)
    told = say(*words, "--garden", str(made["us"]), "--today", str(TODAY)).out
    assert "1 row of 3 ft" in told
    assert "2 in apart" in told
    assert " cm" not in told


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["plant"], "What is it?"),
        (["plant", "radish"], "in which bed"),
        (["plant", "radish", "--bed", "Bed 10", "--tray", "--bought"], "one way"),
        (["plant", "radish", "--bed", "Bed 10", "--apart", "near"], "--apart"),
        (["planting", "nowhere"], "No planting"),
        (["weigh", "try", "carrot", "--bed", "Bed 10", "--on", "2017-01-01"], "past"),
        (["soil", "nowhere"], "No bed"),
        (["law", "emergence-days", "crop=carrot", "soil_c=10", "--over", "crop"], "no blank"),
        (["sheet", "set", "carrot", "nothing", "3", "--why", "x"], "no number called"),
        (["sheet", "set", "carrot", "sowing depth mm", "-3", "--why", "x"], "cannot be"),
        (["sheet", "reset", "carrot", "sowing depth mm"], "No own number"),
        (["tell", "normals", "--coldest", "-4"], "By heart it takes"),
    ],
)
def test_what_cannot_be_is_refused_in_a_line(ask: Ask, words: list[str], said: str) -> None:
    got = ask(*words)
    assert got.code == 2, got.out
    assert said in got.err
    assert len(got.err.splitlines()) == 1


def test_a_sowing_tried_later_is_ready_later(ask: Ask) -> None:
    trials = ask("weigh", "try", "carrot", "--bed", "Bed 10", "--json").json["trials"]
    ready = [each["ready"]["q50"] for each in trials]
    assert len(trials) == 8
    assert ready[0] < ready[1] < ready[2]
    assert trials[0]["overall"]["years_yes"] >= trials[-1]["overall"]["years_yes"]
    told = ask("weigh", "try", "carrot", "--bed", "Bed 10", "--on", "2018-06-20").out
    assert "Wed 20 Jun" in told


def test_a_law_is_told_as_a_table_over_one_blank_at_round_values(ask: Ask) -> None:
    found = ask("law", "emergence-days", "crop=carrot", "soil_c=10", "--over", "soil_c", "--json").json
    values = [each["value"] for each in found["points"]]
    assert values == [2.0 * at for at in range(21)]
    alone = ask("law", "emergence-days", "crop=carrot", "soil_c=10", "--json").json["result"]["days"]
    assert next(each["result"] for each in found["points"] if each["value"] == 10.0) == alone
    assert f"{alone:.4g}" in ask("law", "emergence-days", "crop=carrot", "soil_c=10", "--over", "soil_c").out


def test_an_own_number_is_set_with_its_reason_and_taken_off(ask: Ask) -> None:
    def depth() -> float:
        values = ask("sheet", "carrot", "--json").json["values"]
        return float(next(each["value"] for each in values if each["field"] == "sowing.depth_mm"))

    before = depth()
    assert ask("sheet", "set", "carrot", "depth mm", "20", "--why", "heavy soil").code == 0
    assert (before, depth()) == (before, 20.0)
    assert ask("sheet", "reset", "carrot", "sowing.depth_mm").code == 0
    assert depth() == before


def test_several_lines_are_written_all_or_none(ask: Ask, monkeypatch: pytest.MonkeyPatch) -> None:
    def lines(text: str, *more: str) -> Said:
        monkeypatch.setattr("sys.stdin", io.StringIO(text))
        return ask("note", "-", "--together", *more)

    def last() -> str:
        return str(ask("book", "--last", "1", "--json").json["entries"][0]["key"])

    before = last()
    got = lines("weeded Bed 10\nwatered Nowhere 20 l\n")
    assert (got.code, last()) == (3, before)
    assert "of no line" in got.out
    assert lines("weeded Bed 10\nhoed Bed 9\n", "--dry-run").code == 0
    assert last() == before
    done = lines("weeded Bed 10\nhoed Bed 10\n", "--json")
    assert done.code == 0, done.out
    assert [each["text"] for each in done.json["entries"]] == ["Weeded Bed 10.", "Hoed Bed 10."]


def test_means_known_by_heart_make_twelve(ask: Ask) -> None:
    words = ["tell", "normals", "--coldest", "-9 -1", "--warmest", "57 79F", "--rain", "2.5 in", "--sure"]
    found = ask(*words, "--json").json
    assert (found["tmin_c"][0], found["tmax_c"][0]) == (-9.0, -1.0)
    assert (found["tmin_c"][6], found["tmax_c"][6]) == (13.9, 26.1)
    assert found["rain_mm"] == [63.5] * 12


def test_the_soil_is_told_by_bed(ask: Ask) -> None:
    found = ask("soil", "Bed 3", "--json").json
    (group,) = found["groups"]
    assert group["beds"] == [["bed-3", "Bed 3"]]
    told = ask("soil", "Bed 3").out
    assert "coldest and warmest year" in told
    assert "dog dung" in told
