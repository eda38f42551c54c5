"""Every command on two real records, in JSON and as it is spoken."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest

TODAY = {"north": "2018-05-10", "south": "2020-10-10", "us": "2018-05-10"}
SOWN = {"north": "2018-04-25", "south": "2020-09-25", "us": "2018-04-25"}
BY = {"north": "2018-08-15", "south": "2021-01-15", "us": "2018-08-15"}

COMMANDS: dict[str, str] = {
    "laws": "law",
    "law": "law emergence-days crop=parsnip soil_c=10",
    "sheets": "sheets",
    "sheet": "sheet carrot",
    "weather": "weather show",
    "frost": "odds frost",
    "frost with all": "odds frost --below -2 --by {by} --at-odds 1in5 --years all",
    "ready sown": "odds ready carrot --sown {sown} --by {by}",
    "ready set out": "odds ready tomato --set-out {today}",
    "ready to come": "odds ready leek --sown {by}",
    "ready rain only": "odds ready beetroot --sown {sown} --rain-only --depth 30 --germination 60",
    "sow": "weigh sow carrot",
    "sow a tender crop": "weigh sow courgette --on {by}",
    "sow raised": "weigh sow cabbage --raised",
    "rank": "weigh sow",
    "again": "weigh sow-again carrot --sown {sown} --seeds 150 --up 12",
    "again told more": "weigh sow-again carrot --sown {sown} --seeds 150 --up 30 --germination 70 --depth 15 "
    "--dug firm --wanted 60 --up-on {sown}=0",
    "fits": "weigh fits --until {by}",
    "plant out": "weigh plant-out tomato",
    "sow next": "weigh sow-next lettuce",
}
ODDS = {"chance", "years_yes", "years", "made_years"}
DATES = {"q10", "q50", "q90", "never", "years", "made_years"}
PLACES = ("north", "south", "us")


def words_of(name: str, place: str, gardens: dict[str, Path]) -> list[str]:
    line = COMMANDS[name].format(today=TODAY[place], sown=SOWN[place], by=BY[place])
    return [*line.split(), "--garden", str(gardens[place]), "--today", TODAY[place]]


def walk(value: Any, path: str = "") -> list[tuple[str, dict[str, Any]]]:
    """Every record within an answer, with its place."""
    found: list[tuple[str, dict[str, Any]]] = []
    if isinstance(value, dict):
        found.append((path, value))
        for key, part in value.items():
            found.extend(walk(part, f"{path}.{key}"))
    elif isinstance(value, list):
        for at, part in enumerate(value):
            found.extend(walk(part, f"{path}[{at}]"))
    return found


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_answers_in_json(name: str, place: str, ask: Any, gardens: dict[str, Path]) -> None:
    said = ask(*words_of(name, place, gardens), "--json")
    assert said.err == ""
    assert said.code == 0
    for path, record in walk(said.json):
        if "years_yes" in record:
            assert set(record) == ODDS, path
            assert 0.0 <= record["chance"] <= 1.0, path
            assert abs(record["chance"] * record["years"] - record["years_yes"]) <= 0.5 + 1e-3, path
            assert record["years"] >= 20, path
            assert record["made_years"] == 0, path
        if "q50" in record and "never" in record:
            assert set(record) == DATES, path
            days = [date.fromisoformat(record[q]) for q in ("q10", "q50", "q90") if record[q] is not None]
            assert days == sorted(days), path
            assert 0.0 <= record["never"] <= 1.0, path
            assert all(date(2010, 1, 1) < day < date(2025, 1, 1) for day in days), path
        if "by_year" in record:
            assert all(0.0 <= chance <= 1.0 for chance in record["by_year"]), path
        for key, value in record.items():
            # what could not be counted would be written as null
            assert value is not None or key in NULL_ALLOWED, (path, key)


NULL_ALLOWED = {
    # no such date, or nothing to say
    "q10", "q50", "q90", "spring_after", "autumn_before", "last_good_day", "last_day", "clear_by",
    "stands_to", "autumn", "last_day_that_pays", "now", "emergence", "flowering", "by", "ready_by", "ready",
    "days_later", "before",
    # what an option of another kind has
    "recount_on", "keep_at", "sow_again_below", "if_firm", "if_soft", "sow_seeds", "crop",
    # a sheet's value without a range, and the sheet's own beside no other
    "low", "high", "sheet_value", "reason", "days", "value", "lowest", "highest", "mean",
}  # fmt: skip


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_speaks_plainly(name: str, place: str, ask: Any, gardens: dict[str, Path]) -> None:
    said = ask(*words_of(name, place, gardens))
    assert said.code == 0
    assert said.err == ""
    assert said.out.strip()
    for word in (
        "nan",
        "NaN",
        "None",
        "inf",
        "Traceback",
        "dtype",
        "datetime",
        "null",
        "True",
        "False",
        "[]",
    ):
        assert not re.search(rf"(?<![\w-]){re.escape(word)}(?!\w)", said.out), word
    for line in said.out.splitlines():
        assert len(line) <= 80, line
        assert line == line.rstrip(), line
    assert "-0 " not in said.out
    assert not re.search(r"\b1 true leaves\b|\b1 days\b|\b1 seeds\b|\b1 years\b", said.out)


@pytest.mark.parametrize("name", ["frost", "ready sown", "sow", "again", "rank", "weather"])
def test_american_gardens_are_spoken_to_in_their_own_units(
    name: str, ask: Any, gardens: dict[str, Path]
) -> None:
    american = ask(*words_of(name, "us", gardens)).out
    metric = ask(*words_of(name, "north", gardens)).out
    assert "°C" not in american
    assert " mm" not in american
    assert "°F" not in metric
    if name in ("frost", "ready sown", "sow"):
        assert re.search(r"\b(May|Jun|Jul|Aug) \d", american)
        assert re.search(r"\d (May|Jun|Jul|Aug)\b", metric)
    assert "°F" in american or name in ("ready sown", "rank")


def test_american_gardens_hear_american_names(ask: Any, gardens: dict[str, Path]) -> None:
    assert "eggplant" in ask(*words_of("rank", "us", gardens)).out
    assert "aubergine" in ask(*words_of("rank", "north", gardens)).out


@pytest.mark.parametrize("name", ["frost with all", "ready sown", "sow", "again"])
def test_units_change_no_answer(name: str, ask: Any, gardens: dict[str, Path]) -> None:
    first, second = (ask(*words_of(name, place, gardens), "--json").json for place in ("north", "us"))
    assert [record for _, record in walk(first) if "chance" in record] == [
        record for _, record in walk(second) if "chance" in record
    ]


@pytest.mark.parametrize("name", ["frost with all", "rank", "again"])
def test_the_same_question_gives_the_same_answer(
    name: str, do: Any, ask: Any, gardens: dict[str, Path]
) -> None:
    words = [*words_of(name, "north", gardens), "--json"]
    assert do(*words) == ask(*words)


@pytest.mark.parametrize("place", ["north", "south"])
def test_frost_fields(place: str, ask: Any, gardens: dict[str, Path]) -> None:
    found = ask(*words_of("frost with all", place, gardens), "--json").json
    assert found["below_c"] == -2.0
    assert [entry["place"] for entry in found["dates"]] == ["shelter", "leaf"]
    assert [entry["place"] for entry in found["by"]] == ["shelter", "leaf"]
    assert found["at_odds"][0]["odds"] == "1 in 5"
    assert found["at_odds"][0]["chance"] == 0.2
    assert found["years"] == found["last_year"] - found["first_year"] + 1
    assert found["years"] > 25


def test_southern_frost_ends_before_the_new_year(ask: Any, gardens: dict[str, Path]) -> None:
    found = ask(*words_of("frost", "south", gardens), "--json").json["dates"][0]
    assert "2020-07-01" <= found["last_spring"]["q50"] <= "2020-12-31"
    assert "2021-01-01" <= found["first_autumn"]["q50"] <= "2021-06-30"


def test_southern_plantings_run_over_the_new_year(ask: Any, gardens: dict[str, Path]) -> None:
    found = ask(*words_of("ready set out", "south", gardens), "--json").json
    assert "2020-11-15" < found["ready"]["q50"] < "2021-03-01"


@pytest.mark.parametrize("place", ["north", "south"])
def test_ready_fields(place: str, ask: Any, gardens: dict[str, Path]) -> None:
    found = ask(*words_of("ready sown", place, gardens), "--json").json
    assert found["start"] == "sown"
    assert found["started_on"] == SOWN[place]
    assert found["by"] == BY[place]
    for name in (
        "ready_before_loss",
        "lost_to_frost_first",
        "lost_to_heat_first",
        "bolted_first",
        "ready_by",
    ):
        assert set(found[name]) == ODDS
    assert set(found["emergence"]) == DATES
    assert SOWN[place] < found["emergence"]["q50"] < found["ready"]["q50"]
    assert found["facts"]


@pytest.mark.parametrize("place", ["north", "south"])
def test_sowing_fields_and_the_ranking(place: str, ask: Any, gardens: dict[str, Path]) -> None:
    found = ask(*words_of("sow", place, gardens), "--json").json
    assert found["verdict"] in ("sow", "wait", "do not sow")
    assert found["options"][0]["day"] == TODAY[place]
    assert found["best_day"] in [option["day"] for option in found["options"]]
    ranking = ask(*words_of("rank", place, gardens), "--json").json
    crops = [entry["key"] for entry in ranking["crops"]]
    listed = [entry["key"] for entry in ask("sheets", "--json").json]
    assert len(set(crops)) == len(crops)
    assert set(crops) <= set(listed)
    assert len(crops) >= 30
    chances = [entry["overall"]["chance"] for entry in ranking["crops"]]
    assert chances == sorted(chances, reverse=True)
    assert chances[0] > 0.5 > chances[-1]
    one = next(entry for entry in ranking["crops"] if entry["key"] == "carrot")
    assert one["overall"] == found["options"][0]["overall"]


@pytest.mark.parametrize("place", ["north", "south"])
def test_sowing_again_fields(place: str, ask: Any, gardens: dict[str, Path]) -> None:
    found = ask(*words_of("again", place, gardens), "--json").json
    assert found["verdict"] == found["options"][0]["act"]
    acts = {option["act"] for option in found["options"]}
    assert {"wait", "fill gaps", "sow again", "give up the place"} <= acts
    wait = next(option for option in found["options"] if option["act"] == "wait")
    assert wait["recount_on"] > TODAY[place]
    again = next(option for option in found["options"] if option["act"] == "sow again")
    assert again["stops_same_loss"]
    assert 0.0 <= found["failed_chance"] <= 1.0
    assert (found["seeds"], found["up"], found["day"]) == (150, 12, 15)


def test_counts_are_one_series_on_the_command_line(ask: Any, gardens: dict[str, Path]) -> None:
    base = words_of("again", "north", gardens)
    fell = ask(*base, "--up-on", "2018-05-06=40", "--json").json
    assert fell["lost"] == 28
    assert ask(*base, "--json").json["lost"] == 0
    twice = ask(*base, "--up-on", "2018-05-06=4", "--up-on", "5 May=2", "--json").json
    assert twice["lost"] == 0
    assert fell["failed_chance"] < 0.5 * twice["failed_chance"]


def test_dates_may_be_written_as_people_write_them(ask: Any, gardens: dict[str, Path]) -> None:
    base = ["odds", "frost", "--garden", str(gardens["north"]), "--json", "--today"]
    first = ask(*base, "2018-05-10").json
    for text in ("10 May 2018", "May 10, 2018", "2018-5-10"):
        assert ask(*base, text).json == first
    by = [
        ask(*base, "2018-05-10", "--by", text).json["by"][0]["on"]
        for text in ("15 May", "May 15", "2018-05-15")
    ]
    assert by == ["2018-05-15"] * 3


def test_a_frost_limit_may_be_told_in_fahrenheit(ask: Any, gardens: dict[str, Path]) -> None:
    base = ["odds", "frost", "--garden", str(gardens["north"]), "--json", "--today", "2018-05-10", "--below"]
    assert ask(*base, "28.4F").json["dates"] == ask(*base, "-2").json["dates"]
    assert ask(*base, "−2C").json["below_c"] == -2.0


@pytest.mark.parametrize(("text", "chance"), [("1in5", 0.2), ("1 in 5", 0.2), ("20%", 0.2), ("0.2", 0.2)])
def test_odds_may_be_spoken_in_several_ways(
    text: str, chance: float, ask: Any, gardens: dict[str, Path]
) -> None:
    found = ask(
        "odds",
        "frost",
        "--garden",
        str(gardens["north"]),
        "--today",
        "2018-05-10",
        "--at-odds",
        text,
        "--json",
    ).json
    assert found["at_odds"][0]["chance"] == pytest.approx(chance)


def test_a_record_that_ended_long_ago_still_plans_and_says_so(ask: Any, gardens: dict[str, Path]) -> None:
    for line in ("weigh sow carrot", "weigh sow", "weigh fits"):
        said = ask(*line.split(), "--garden", str(gardens["north"]), "--today", "2026-05-10", "--json")
        assert said.code == 0
        assert "2018-12-31" in said.json["note"]
