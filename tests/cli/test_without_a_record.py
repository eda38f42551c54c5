"""A garden that has no record: told normals, fetched weather, and what is said of both."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import httpx2
import pytest
import stamina

from service_answers import Service
from spadework.usecases import fetch_weather as use
from spadework.weather.fetch.service import FetchSettings, Question, ask
from tellings import is_told_nothing

TODAY = ("--today", "2026-05-20")
TMIN = "12.5 15.7 23.5 32.2 44.3 54.4 59.2 57.3 46.7 33.4 21.1 12.4 F"
TMAX = "41 44 55 62.5 72.4 83.4 89.8 87.4 79.6 66.3 52.3 41.4 F"
RAIN = "0.3 0.5 1.1 1.9 2.9 2.9 2.8 2.2 1.2 1.1 0.6 0.4 in"
ROWS = ("--tmin", TMIN, "--tmax", TMAX, "--rain", RAIN)


@pytest.fixture
def garden(do: Any, tmp_path: Path) -> str:
    folder = str(tmp_path / "plot")
    do("new", "--name", "Prairie", "--lat", "40.4", "--lon", "-101.7", "--elevation", "1000",
       "--units", "us", "--garden", folder)  # fmt: skip
    return folder


@pytest.fixture
def service(monkeypatch: pytest.MonkeyPatch) -> Service:
    """The service in place of the network."""
    found = Service()

    def asked(question: Question, settings: FetchSettings, _: object = None) -> bytes:
        return ask(question, settings, found.transport)

    monkeypatch.setattr(use, "ask", asked)
    return found


QUESTIONS = [
    ("odds", "frost", "--at-odds", "1in5", "--by", "2026-05-25"),
    ("odds", "ready", "carrot", "--sown", "2026-05-01"),
    ("weigh", "sow", "carrot"),
    ("weigh", "sow"),
    ("weigh", "sow-again", "carrot", "--sown", "2026-05-01", "--seeds", "150", "--up", "12"),
    ("weigh", "fits", "--on", "2026-07-01"),
    ("weigh", "plant-out", "tomato"),
    ("weigh", "sow-next", "lettuce"),
]


@pytest.mark.parametrize("words", QUESTIONS, ids=lambda words: " ".join(words[:3]))
def test_every_question_is_answered_from_normals_alone(do: Any, garden: str, words: tuple[str, ...]) -> None:
    refused = do(*words, "--garden", garden, *TODAY)
    assert refused.code == 2
    assert "tell normals" in refused.err
    assert len(refused.err.strip().splitlines()) == 1
    told = do("tell", "normals", *ROWS, "--garden", garden, *TODAY)
    assert told.code == 0, told.err
    said = do(*words, "--garden", garden, *TODAY)
    assert said.code == 0, said.err
    flat = " ".join(said.out.split())
    assert "all 30 years are drawn from told monthly normals" in flat
    assert "in a steppe climate" in flat
    assert max(len(line) for line in said.out.splitlines()) <= 80
    answer = do(*words, "--garden", garden, *TODAY, "--json").json
    assert "made" in str(answer)


def test_normals_are_shown_as_told_and_say_what_comes_of_them(do: Any, garden: str) -> None:
    said = do("tell", "normals", *ROWS, "--source", "county table", "--garden", garden, *TODAY)
    assert max(len(line) for line in said.out.splitlines()) <= 80
    assert "Jul  59 °F  90 °F" in said.out
    assert "steppe" in said.out
    frost = do("odds", "frost", "--garden", garden, *TODAY)
    assert frost.out.splitlines()[0] == "Nights at or below 32 °F, from 30 made years"
    found = do(
        "tell", "normals", *ROWS, "--source", "county table", "--garden", garden, *TODAY, "--json"
    ).json
    assert (found["stored"], found["used"], found["replaced"]) == (True, True, 0)
    last = next(entry for entry in found["freezes"] if entry["which"] == "last in spring")
    dates = do("odds", "frost", "--garden", garden, *TODAY, "--json").json["dates"][0]["last_spring"]
    assert last["middle"] == dates["q50"]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("--tmin", TMIN), "Normals need --tmin, --tmax and --rain."),
        ((*ROWS[:4], "--rain", "1 2 3"), "--rain has 3 numbers."),
        ((*ROWS, "--climate", "lunar"), "Climate 'lunar' is not known."),
        ((*ROWS, "--file", "normals.csv"), "A table and rows were both given."),
        (("--file", "nowhere.csv"), "nowhere.csv cannot be read"),
        (("--tmin", TMAX, "--tmax", TMIN, "--rain", RAIN), "the minimum is not below the maximum"),
    ],
)
def test_normals_that_cannot_be(do: Any, garden: str, words: tuple[str, ...], message: str) -> None:
    said = do("tell", "normals", *words, "--garden", garden, *TODAY)
    assert said.code == 2
    assert message in said.err
    assert is_told_nothing(Path(garden))


def test_a_forecast_is_fetched_and_borne_in_mind(do: Any, garden: str, service: Service) -> None:
    do("tell", "normals", *ROWS, "--garden", garden, *TODAY)
    said = do("weather", "fetch", "--garden", garden, *TODAY)
    assert said.code == 0, said.err
    flat = " ".join(said.out.split())
    assert "Forecast kept for 10 days, May 20 to May 29" in flat
    assert "Asked api.open-meteo.com; sent only 40.40, -101.70." in flat
    assert "CC BY 4.0" in flat
    assert "non-commercial" in flat
    assert max(len(line) for line in said.out.splitlines()) <= 80
    sow = do("weigh", "sow", "carrot", "--garden", garden, *TODAY)
    assert "Open-Meteo forecast fetched" in " ".join(sow.out.split()).replace("- ", "-")
    again = do("weather", "fetch", "--if-older", "6", "--garden", garden, *TODAY)
    assert "it was not asked again" in " ".join(again.out.split())
    assert len(service.asked) == 1


def test_thirty_fetched_years_answer_without_made_ones(do: Any, garden: str, service: Service) -> None:
    said = do("weather", "fetch", "--archive", "--garden", garden, *TODAY)
    assert said.code == 0, said.err
    assert "11092 days added to the record" in said.out
    assert service.asked[0].url.params["start_date"] == "1996-01-01"
    frost = do("odds", "frost", "--garden", garden, *TODAY, "--json").json
    assert (frost["years"], frost["made_years"]) == (30, 0)


def test_offline_is_one_clear_line(do: Any, garden: str, service: Service) -> None:
    service.failures = [httpx2.ConnectError] * 3
    with stamina.set_testing(True, attempts=3):
        said = do("weather", "fetch", "--garden", garden, *TODAY)
    assert said.code == 2
    assert said.out == ""
    assert said.err.startswith("api.open-meteo.com cannot be reached; nothing was changed.")
    assert len(said.err.strip().splitlines()) == 1


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("--from", "2026-01-01"), "--from and --to are of past days. Add --archive."),
        (("--if-older", "0"), "--if-older 0 is no length of time."),
        (("--archive", "--to", "2026-06-01"), "is not past on 2026-05-20"),
    ],
)
def test_fetches_that_cannot_be(
    do: Any, garden: str, service: Service, words: tuple[str, ...], message: str
) -> None:
    said = do("weather", "fetch", *words, "--garden", garden, *TODAY)
    assert said.code == 2
    assert message in said.err
    assert service.asked == []
