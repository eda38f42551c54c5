"""The round at the command line, on a small invented garden."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from said import say
from spadework.garden import entries as kinds
from spadework.garden.site import Site
from spadework.store.garden_folder import create, open_garden
from spadework.usecases.keep_book import Act, garden_state, write_acts
from spadework.weather.demo_normals import demo_record
from spadework.weather.read.result import ReadResult

TODAY = date(2026, 6, 15)

do = say


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    path = tmp_path / "garden"
    create(path, Site(name="Invented", lat_deg=47.2, lon_deg=-93.4, elevation_m=320.0))
    folder = open_garden(path)
    folder.add_weather(ReadResult(demo_record(TODAY, years=16), "made weather", "daily-csv"))
    beds = [
        Act(payload=kinds.BedSet(name=f"Bed {n}", x_m=2.0 * n), on=date(2026, 3, 1), bed=f"bed-{n}")
        for n in range(1, 4)
    ]
    people = [
        Act(payload=kinds.PersonSet(person="ann", name="Ann", role="keeper"), on=date(2026, 3, 1)),
        Act(payload=kinds.PersonSet(person="ben", name="Ben", not_for=("stooping",)), on=date(2026, 3, 1)),
    ]
    sown = [
        Act(
            payload=kinds.Sown(planting=f"corn-{n}", crop="sweet-corn", rows=2, row_cm=60.0, seeds=60),
            on=date(2026, 5, 20),
            bed=f"bed-{n}",
            planting=f"corn-{n}",
        )
        for n in range(1, 4)
    ]
    locked = Act(
        payload=kinds.Locked(lock="l1", on="bed", why="glass in the soil"), on=date(2026, 6, 1), bed="bed-1"
    )
    assert write_acts(folder, [*beds, *people, *sown, locked], today=TODAY, author="ann").stored
    return path


def at(garden: Path, *words: str) -> list[str]:
    return [*words, "--garden", str(garden), "--today", TODAY.isoformat()]


def test_a_round_keeps_its_minutes_and_says_why(garden: Path) -> None:
    told = do(*at(garden, "round", "--minutes", "30", "--json"))
    found = json.loads(told.out)
    assert found["stops"]
    assert 0.0 < found["minutes_used"] <= 30.0
    for stop in found["stops"]:
        assert stop["bed"] or stop["name"] == "The whole garden"
        for job in stop["jobs"]:
            window = job["window"]
            assert window["opens"] <= TODAY.isoformat() <= window["closes"]
            assert window["opens"] <= window["best"] <= window["closes"]
            assert {"1", "3", "7"} <= set(job["forfeit"])
            assert job["reason"]
    assert "conditions" in found


def test_the_locks_are_said_whatever_is_asked(garden: Path) -> None:
    for words in (("round",), ("jobs",)):
        assert "glass in the soil" in do(*at(garden, *words)).out


def test_what_is_done_is_not_asked_again(garden: Path) -> None:
    jobs = json.loads(do(*at(garden, "jobs", "--kind", "count", "--json")).out)["jobs"]
    assert [job["id"] for job in jobs if job["id"] == "count-corn-2"]
    refused = do(*at(garden, "done", "count-corn-2", "--by", "ann"))
    assert refused.code == 2
    assert "--standing" in refused.err
    done = do(*at(garden, "done", "count-corn-2", "--standing", "41", "--minutes", "4", "--by", "Ann"))
    assert done.code == 0, done.err
    assert garden_state(open_garden(garden)).plantings["corn-2"].plants.number == 41
    left = json.loads(do(*at(garden, "jobs", "--kind", "count", "--json")).out)["jobs"]
    assert "count-corn-2" not in [job["id"] for job in left]


def test_what_is_put_off_comes_again_tomorrow(garden: Path) -> None:
    assert do(*at(garden, "skip", "count-corn-3", "--because", "raining", "--by", "ann")).code == 0
    today = json.loads(do(*at(garden, "jobs", "--json")).out)["jobs"]
    assert "count-corn-3" not in [job["id"] for job in today]
    words = ["jobs", "--json", "--garden", str(garden), "--today", "2026-06-16"]
    assert "count-corn-3" in [job["id"] for job in json.loads(do(*words).out)["jobs"]]


def test_nobody_is_sent_to_what_they_should_not_do(garden: Path) -> None:
    found = json.loads(do(*at(garden, "round", "--people", "Ben", "--json")).out)
    assert all("stooping" not in job["strains"] for stop in found["stops"] for job in stop["jobs"])
    assert any("not for Ben" in each["why"] for each in found["left_out"])


def test_a_job_opened_up(garden: Path) -> None:
    told = do(*at(garden, "why", "count-corn-2"))
    assert "It rests on:" in told.out
    assert "Waiting costs" in told.out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("round", "--minutes", "0"), "is not a round"),
        (("round", "--at", "25:00"), "is not an hour"),
        (("round", "--until", "18:00"), "without --at"),
        (("round", "--at", "18:00", "--until", "17:00"), "is not after"),
        (("round", "--people", "Bem"), "Ben"),
        (("why", "weed-corn"), "No job today"),
        (("jobs", "--bed", "Bed 9"), "Nearest"),
        (("jobs", "--kind", "cuont"), "count"),
        (("done", "count"), "could be several"),
        (("skip", "count-corn-2", "--because", " "), "Why is it put off"),
    ],
)
def test_what_cannot_be_is_said_in_a_line(garden: Path, words: tuple[str, ...], says: str) -> None:
    told = do(*at(garden, *words))
    assert told.code == 2
    assert says in told.err


def test_thunder_told_keeps_the_round_in_and_is_taken_back(garden: Path) -> None:
    kept = do(*at(garden, "tell", "thunder", "--from", "9:00", "--until", "13:00"))
    assert "thunder on 15 Jun from 09:00 to 13:00" in " ".join(kept.out.split())
    told = do(*at(garden, "round", "--at", "9:30", "--until", "12:30", "--json"))
    found = json.loads(told.out)
    assert [stop for stop in found["stops"] if stop["jobs"]] == []
    assert any("Thunder told" in said for said in found["conditions"])
    assert found["hours"][11]["shut"]
    other = ("hours are wrong", "it can wait", "it opens on")
    assert all(left["why"].removeprefix("these ").startswith(other) for left in found["left_out"])
    key = json.loads(do(*at(garden, "told", "--json")).out)["told"][0]["key"]
    do(*at(garden, "told", "forget", key))
    open_again = json.loads(do(*at(garden, "round", "--at", "9:30", "--until", "12:30", "--json")).out)
    assert not open_again["hours"][11]["shut"]


def test_thunder_that_ends_before_it_begins_is_refused(garden: Path) -> None:
    said = do(*at(garden, "tell", "smoke", "--from", "13", "--until", "9"))
    assert said.code == 2
    assert "ends before it begins" in said.err


def test_pick_now_is_weighed_for_a_planting_or_refused_with_the_choice(garden: Path) -> None:
    found = json.loads(do(*at(garden, "weigh", "pick-now", "corn-2", "--json")).out)
    assert found["verdict"] in ("pick", "wait")
    assert found["options"][0]["day"] == TODAY.isoformat()
    told = do(*at(garden, "weigh", "pick-now", "corn-1")).out
    assert "not now: it is locked" in told
    several = do(*at(garden, "weigh", "pick-now", "sweetcorn"))
    assert several.code == 2
    assert "corn-1 (Bed 1)" in several.err


def test_what_is_cleared_says_at_once_what_still_fits(garden: Path) -> None:
    over = Act(payload=kinds.Picked(kg=1.0, last=True), on=TODAY, bed="bed-2", planting="corn-2")
    assert write_acts(open_garden(garden), [over], today=TODAY, author="ann").stored
    cleared = " ".join(do(*at(garden, "done", "clear-corn-2", "--insist")).out.split())
    assert "Still fits there:" in cleared
    assert "of 16 years" in cleared
    assert "corn-2" not in do(*at(garden, "jobs", "--bed", "bed-2")).out


def test_what_the_round_rests_on_is_kept_to_be_scored(garden: Path) -> None:
    do(*at(garden, "round"))
    do(*at(garden, "jobs"))
    with open_garden(garden).open_book() as book:
        kept = [each.prediction for each in book.predictions()]
    assert {each.kind for each in kept} == {"emergence", "ready"}
    assert {each.subject.planting for each in kept} == {"corn-1", "corn-2", "corn-3"}
    assert all(each.made_on == TODAY for each in kept)
    assert len(kept) == 6  # asked twice, kept once


def test_the_water_of_a_bed_shows_what_is_left_of_its_allowance(garden: Path) -> None:
    common = ("--garden", str(garden), "--today", str(TODAY))
    free = do("water", "bed 1", *common, "--json").json["beds"][0]
    assert (free["week_allowance_l"], free["week_left_l"], free["allowance"]) == (None, None, "")
    assert do("bed", "change", "bed 1", "--allowance", "6", *common, "--by", "ann").code == 0
    given = Act(payload=kinds.Watered(litres=4.0), on=date(2026, 6, 12), bed="bed-1")
    assert write_acts(open_garden(garden), [given], today=TODAY, author="ann").stored
    held = do("water", "bed 1", *common, "--json").json["beds"][0]
    assert (held["week_allowance_l"], held["week_left_l"]) == (6.0, 2.0)
    assert "Of its allowance of 6 l a week 2 l are left." in " ".join(
        do("water", "bed 1", *common).out.split()
    )
