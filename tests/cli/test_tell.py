"""Telling at the command line: as a person writes it, in either units, with plain refusals."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from spadework.errors import ParameterError
from spadework.faces.cli.tell_words import read_forecast, read_hour
from spadework.garden.told import ForecastDay
from tellings import is_told_nothing

Say = Callable[..., Any]

TODAY = "2018-05-20"
NEAR = date(2018, 5, 20)


@pytest.fixture
def plot(gardens: dict[str, Path], tmp_path: Path) -> Path:
    return Path(shutil.copytree(gardens["north"], tmp_path / "plot"))


@pytest.fixture
def american(gardens: dict[str, Path], tmp_path: Path) -> Path:
    return Path(shutil.copytree(gardens["us"], tmp_path / "us"))


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        (
            "2018-05-21 18/6 rain 4 70% wind 5 cloud 80% dew 3",
            ForecastDay(
                day=date(2018, 5, 21), high_c=18.0, low_c=6.0, rain_mm=4.0, rain_odds=0.7, wind_m_s=5.0,
                cloud_share=0.8, dew_c=3.0,
            ),
        ),
        ("22 May 15/-3", ForecastDay(day=date(2018, 5, 22), high_c=15.0, low_c=-3.0)),
        ("May 22, 2018 mean 12.5", ForecastDay(day=date(2018, 5, 22), mean_c=12.5)),
        ("22 May dry", ForecastDay(day=date(2018, 5, 22), rain_mm=0.0)),
        ("22 May rain 70%", ForecastDay(day=date(2018, 5, 22), rain_odds=0.7)),
        ("22 May rain 70% 4mm", ForecastDay(day=date(2018, 5, 22), rain_odds=0.7, rain_mm=4.0)),
        ("22 May rain 4mm 1in5", ForecastDay(day=date(2018, 5, 22), rain_odds=0.2, rain_mm=4.0)),
        ("today rain 1in", ForecastDay(day=NEAR, rain_mm=25.4)),
        ("22 May wind 18 km/h, cloud 50", ForecastDay(day=date(2018, 5, 22), wind_m_s=5.0, cloud_share=0.5)),
    ],
)  # fmt: skip
def test_forecast_lines(line: str, meant: ForecastDay) -> None:
    assert read_forecast(line, NEAR) == meant


def test_fahrenheit_stands_behind_the_numbers() -> None:
    day = read_forecast("May 22 64F/41F dew 32F", NEAR)
    assert (day.high_c, day.low_c, day.dew_c) == (pytest.approx(17.778, abs=0.001), 5.0, 0.0)
    assert read_forecast("May 22 59/41F", NEAR) == read_forecast("May 22 15/5", NEAR)


@pytest.mark.parametrize(
    "line",
    ["", "18/6", "22 May 18", "22 May 18/6/2", "22 May 18/6 sunny", "22 May rain", "22 May 18/6 17/5",
     "22 May rain 4 170%", "22 May rain 1in0", "31 June 18/6", "22 May wind 5 knots", "22 May mean"],
)  # fmt: skip
def test_lines_that_are_no_forecast(line: str) -> None:
    with pytest.raises(ParameterError):
        read_forecast(line, NEAR)


def test_hours() -> None:
    assert [read_hour(text, "--hour") for text in ("8", "8:30", "8.5", "2pm", "12am", "12 pm", "14h")] == [
        8.0, 8.5, 8.5, 14.0, 0.0, 12.0, 14.0,
    ]  # fmt: skip
    for text in ("noon", "8:75", "-1"):
        with pytest.raises(ParameterError):
            read_hour(text, "--hour")


COMMANDS = (
    ('tell forecast "2018-05-21 18/6 rain 4 70% wind 5" "22 May 15/3"', 2),
    ("tell forecast --on 2018-05-23 --mean 12 --rain-odds 30 --cloud 90", 1),
    ("tell soil 14 --depth 10 --on 2018-05-20 --hour 8:30", 1),
    ("tell soil 15 --depth 5 --from 2018-05-10 --to 2018-05-18 --bed tunnel", 1),
    ("tell warmth 170 --base 10 --since 2018-04-01 --until 2018-05-19 --upper 30 --method single-sine", 1),
    ('tell frost-table --season spring --below -1 --date "1in10=20 May" --date "1in2=5 May"', 1),
    ("tell frost-table --season autumn --below 0 --median 2018-09-28 --spread 10", 1),
    ('tell minimum --difference -1.5 --nights 9 --spread 1 --where "in the hollow"', 1),
    ("tell minimum --own 4 --station 7 --on 2018-05-20 --open --height 0.1", 1),
)


def test_everything_is_told_listed_and_forgotten(plot: Path, do: Say) -> None:
    import shlex

    where = ("--garden", str(plot), "--today", TODAY)
    count = 0
    for line, facts in COMMANDS:
        told = do(*shlex.split(line), *where, "--json")
        assert told.code == 0, told.err
        found = told.json
        assert found["stored"]
        assert len(found["told"]) == facts
        assert found["does"]
        assert all(fact["law"] and fact["unit"] for fact in found["facts"])
        count += facts
    listed = do("told", *where)
    assert listed.code == 0
    assert max(len(row) for row in listed.out.splitlines()) <= 80
    entries = do("told", *where, "--json").json["told"]
    assert len(entries) == count
    assert all(entry["key"][-6:].lower() in listed.out for entry in entries)
    gone = do("told", "forget", entries[0]["key"], *where, "--json")
    assert gone.json["forgotten"] == entries[0]
    assert len(do("told", *where, "--json").json["told"]) == count - 1
    human = do("tell", "soil", "14", "--depth", "10", "--on", TODAY, "--hour", "8:30", *where)
    assert human.code == 0
    assert "Known already" in human.out


def test_a_doubt_is_exit_2_with_both_values_and_sure_is_believed(plot: Path, do: Say) -> None:
    words = (
        "tell",
        "soil",
        "35",
        "--depth",
        "5",
        "--on",
        TODAY,
        "--mean",
        "--garden",
        str(plot),
        "--today",
        TODAY,
    )
    asked = do(*words)
    assert asked.code == 2
    assert "35.0 °C" in asked.err
    assert "16.5 °C" in asked.err
    assert "--sure" in asked.err
    assert is_told_nothing(plot)
    as_json = do(*words, "--json")
    assert as_json.code == 2
    assert "35.0 °C" in as_json.json["error"]
    assert do(*words, "--sure").code == 0
    assert do("told", "--garden", str(plot), "--today", TODAY, "--json").json["told"][0]["kind"] == "soil"


def test_american_gardens_are_answered_in_their_units(american: Path, do: Say) -> None:
    where = ("--garden", str(american), "--today", TODAY)
    said = [
        do("tell", "soil", "58F", "--depth", "4in", "--on", "May 20", "--hour", "9:30am", *where),
        do("tell", "warmth", "216F", "--base", "50F", "--since", "Apr 1", "--until", "May 19", *where),
        do("tell", "minimum", "--difference", "-3.6F", "--nights", "10", *where),
        do("tell", "forecast", "May 21 64F/43F rain 0.2in", *where),
        do("tell", "frost-table", "--season", "spring", "--below", "28.4F", "--date", "1in2=May 1", *where),
        do("told", *where),
        do("odds", "frost", *where),
        do("odds", "ready", "carrot", "--sown", TODAY, *where),
    ]
    for one in said:
        assert one.code == 0, one.err
        assert "°C" not in one.out
        assert " mm" not in one.out
    assert "58 °F at 4 in" in said[0].out
    assert "216 degree-days above 50 °F" in said[1].out
    assert "3.6 degrees colder" in said[2].out
    assert "43 °F to 64 °F, rain 0.20 in" in said[3].out
    assert "28 °F on or after May 1" in said[4].out
    doubt = do("tell", "soil", "95F", "--depth", "4in", "--on", "May 19", "--mean", *where)
    assert doubt.code == 2
    assert "95 °F" in doubt.err
    assert "°C" not in doubt.err


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ("tell forecast", "No day is told"),
        ("tell forecast --high 12 --low 3", "Of which day"),
        ("tell forecast --on 2018-05-21 --high 3 --low 12", "above the high"),
        ("tell forecast --on 2018-05-21 --rain-odds 140", "140 %"),
        ("tell forecast --on 2018-05-19 --mean 9", "is past"),
        ("tell soil 9 --depth 5", "When was it read"),
        ("tell soil 9 --depth 5 --on 2018-05-20", "an hour or the mean"),
        ("tell soil 9 --depth 5 --on 2018-05-20 --hour 8 --mean", "an hour or the mean"),
        ("tell soil 9 --depth 5 --from 2018-05-01", "When was it read"),
        ("tell soil 9 --depth 5 --on 2018-05-21 --mean", "not over yet"),
        ("tell soil warm --depth 5 --on 2018-05-20 --mean", "not a temperature"),
        ("tell warmth 120 --base 10 --since 2018-06-01 --until 2018-05-01", "is after"),
        ("tell frost-table --season spring", "needs its dates"),
        ("tell frost-table --season spring --date 2018-05-01", "no odds"),
        ("tell frost-table --season summer --median 2018-05-01 --spread 9", "--season"),
        ("tell minimum --own 3", "A pair is needed"),
        ("tell minimum --own 3 --station 4", "Of which night"),
        ("tell minimum --own 3 --station 4 --difference 1", "A pair is needed"),
        ("told forget", "Which one"),
        ("told forget NOTAKEY", "Nothing told"),
        ("told lose", "lose"),
    ],
)
def test_what_is_not_understood_is_one_plain_line(
    gardens: dict[str, Path], do: Say, words: str, wrong: str
) -> None:
    said = do(*words.split(), "--garden", str(gardens["north"]), "--today", TODAY)
    assert said.code == 2
    assert wrong in said.err
    assert len(said.err.strip().splitlines()) == 1
    assert is_told_nothing(gardens["north"])
