"""Events and packets at the command line: before and after, questions, and plain refusals."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from spadework.faces.cli.say import SCREEN
from tellings import is_told_nothing

Say = Callable[..., Any]

TODAY = "2018-05-20"
EVENT = ("tell", "ready", "carrot", "--sown", "2017-04-20", "--on", "2017-07-03")


@pytest.fixture
def plot(gardens: dict[str, Path], tmp_path: Path) -> Path:
    return Path(shutil.copytree(gardens["north"], tmp_path / "plot"))


@pytest.fixture
def american(gardens: dict[str, Path], tmp_path: Path) -> Path:
    return Path(shutil.copytree(gardens["us"], tmp_path / "us"))


def at(garden: Path, *words: str) -> tuple[str, ...]:
    return (*words, "--garden", str(garden), "--today", TODAY)


def test_an_event_is_kept_listed_and_forgotten(do: Say, plot: Path) -> None:
    ask = at(plot, "odds", "ready", "carrot", "--sown", TODAY, "--json")
    before = do(*ask).out
    told = do(*at(plot, *EVENT))
    assert told.code == 0
    assert "46 -> " in told.out
    assert "spread 12% -> " in told.out
    assert "ready: " in told.out
    assert " before, " in told.out
    assert all(len(line) <= SCREEN for line in told.out.splitlines())
    after = do(*ask)
    assert after.out != before
    assert any("learned from 1 event" in fact["source"] for fact in after.json["facts"])
    listed = do(*at(plot, "learned", "--json")).json
    (line,) = listed["crops"]
    (event,) = line["events"]
    assert line["what"] == "ready"
    assert "carrot, sown 20 Apr 2017, ready 3 Jul" in do(*at(plot, "learned")).out
    assert do(*at(plot, "told", "forget", event["key"])).code == 0
    assert do(*ask).out == before
    assert "Nothing yet" in do(*at(plot, "learned")).out


def test_a_slip_is_a_question_with_both_values(do: Say, plot: Path) -> None:
    slip = ("tell", "ready", "carrot", "--sown", "2017-04-20", "--on", "2017-06-01")
    asked = do(*at(plot, *slip))
    assert asked.code == 2
    assert asked.out == ""
    assert "46.0 days of best warmth; by 1 Jun 2017 it had 15.6" in asked.err
    assert "--sure" in asked.err
    assert "error" in do(*at(plot, *slip, "--json")).json
    assert do(*at(plot, *slip, "--sure")).code == 0


def test_american_gardens_are_spoken_to_in_their_own_units(do: Say, american: Path) -> None:
    told = do(*at(american, "tell", "came-up", "carrot", "--sown", "Apr 20", "--on", "May 9", "--bed", "B2"))
    assert told.code == 0
    assert "sown Apr 20, 2018, came up May 9" in told.out
    assert "bed B2: " in told.out
    assert "°C" not in told.out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("tell", "ready", "carrot", "--on", "2017-07-03"), "One start is needed"),
        (("tell", "ready", "carrott", "--sown", "2017-04-20", "--on", "2017-07-03"), "carrot"),
        (("tell", "ready", "carrot", "--sown", "2017-04-20", "--on", "2018-07-03"), "--on 2018-07-03"),
        (("tell", "came-up", "carrot", "--sown", "1970-04-20", "--on", "1970-05-10"), "record"),
        (("tell", "came-up", "carrot", "--sown", "2018-05-01", "--on", "soon"), "not a date"),
        (
            ("tell", "came-up", "beet", "--sown", "1 May", "--on", "12 May", "--not-yet-on", "14 May"),
            "--not-yet-on",
        ),
        (("odds", "ready", "carrot", "--sown", TODAY, "--packet-days", "3"), "3 packet days"),
        (("odds", "ready", "carrot", "--sown", TODAY, "--from-setting-out"), "--packet-days"),
        (("odds", "ready", "dill", "--sown", TODAY, "--packet-days", "90", "--from-setting-out"), "set out"),
        (("odds", "ready", "garlic", "--sown", TODAY, "--packet-days", "240"), "--packet-sown"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_a_line(do: Say, plot: Path, words: tuple[str, ...], says: str) -> None:
    refused = do(*at(plot, *words))
    assert refused.code == 2
    assert says in refused.err
    assert "Traceback" not in refused.err
    assert is_told_nothing(plot)


def test_packet_days_are_said_with_their_day(do: Say, plot: Path, american: Path) -> None:
    words = ("odds", "ready", "carrot", "--sown", TODAY, "--packet-days", "70")
    said = " ".join(do(*at(plot, *words)).out.split())
    assert "70 packet days counted from a sowing about 2" in said
    assert "days of best warmth (the sheet has 46.0)" in said
    assert "--packet-sown" in said
    assert "sowing about Apr 2" in " ".join(do(*at(american, *words)).out.split())
    weighed = do(*at(plot, "weigh", "sow", "tomato", "--packet-days", "65", "--json")).json
    assert any("65 packet days counted from setting out" in text for text in weighed["assumptions"])
