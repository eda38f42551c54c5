"""The watch by the command line: what may come, with odds, where to look; in JSON the same."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from said import say
from spadework.garden import entries as kinds
from spadework.garden.site import Site
from spadework.store.garden_folder import create, open_garden
from spadework.usecases.keep_book import Act, write_acts
from spadework.weather.demo_normals import demo_record
from spadework.weather.read.result import ReadResult

TODAY = date(2026, 6, 15)


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Cabbages in one bed and potatoes in the other; invented, as its weather is."""
    path = tmp_path_factory.mktemp("watch") / "garden"
    create(path, Site(name="Invented", lat_deg=47.2, lon_deg=-93.4, elevation_m=320.0))
    folder = open_garden(path)
    folder.add_weather(ReadResult(demo_record(TODAY, years=16), "made weather", "daily-csv"))
    acts = [
        Act(payload=kinds.PersonSet(person="ann", name="Ann", role="keeper"), on=date(2026, 3, 1)),
        *(Act(payload=kinds.BedSet(name=f"Bed {n}"), on=date(2026, 3, 1), bed=f"bed-{n}") for n in (1, 2)),
        Act(
            payload=kinds.PlantedOut(planting="cabbage-1", crop="cabbage", plants=12),
            on=date(2026, 5, 20),
            bed="bed-1",
            planting="cabbage-1",
        ),
        Act(
            payload=kinds.Sown(planting="potato-1", crop="potato", seeds=20),
            on=date(2026, 5, 1),
            bed="bed-2",
            planting="potato-1",
        ),
    ]
    assert write_acts(folder, acts, today=TODAY, author="ann", insist=True).stored
    return path


def at(garden: Path, *words: str) -> list[str]:
    return [*words, "--garden", str(garden), "--today", TODAY.isoformat()]


def test_what_may_come_with_odds_and_where_to_look(garden: Path) -> None:
    found = say(*at(garden, "watch", "--json")).json
    assert found["days"] == 21
    coming = {line["trouble"]: line for line in found["coming"]}
    assert "imported-cabbageworm" in coming
    assert "colorado-potato-beetle" in coming
    assert not {"carrot-rust-fly", "onion-maggot", "squash-bug"} & set(coming)  # no host stands
    line = coming["imported-cabbageworm"]
    assert line["beds"] == ["Bed 1"]
    assert [week["from"] for week in line["weeks"]] == ["2026-06-15", "2026-06-22", "2026-06-29"]
    assert all(0 <= week["odds"][0] <= week["odds"][1] for week in line["weeks"])
    assert line["look"]
    assert line["too_many"]
    assert "Wet hours are worked out" in found["note"]


def test_one_bed_one_crop_and_farther_ahead(garden: Path) -> None:
    potatoes = say(*at(garden, "watch", "--bed", "bed 2", "--days", "35", "--json")).json["coming"]
    assert {tuple(line["beds"]) for line in potatoes} == {("Bed 2",)}
    assert len(potatoes[0]["weeks"]) == 5
    by_crop = say(*at(garden, "watch", "--crop", "potatoes", "--days", "35", "--json")).json["coming"]
    assert by_crop == potatoes


def test_said_in_words(garden: Path) -> None:
    said = say(*at(garden, "watch"))
    assert said.code == 0
    assert "Look at 10 plants: underside of the" in said.out
    assert "Too many:" in said.out
    assert "of 16 years" in said.out


def test_the_jobs_hold_the_looks(garden: Path) -> None:
    jobs = say(*at(garden, "jobs", "--kind", "scout", "--json")).json["jobs"]
    assert jobs
    assert len({job["id"] for job in jobs}) == len(jobs) <= 8
    assert all(job["test"] and job["reason"] and job["minutes"] > 0 for job in jobs)


def test_too_far_ahead_is_refused(garden: Path) -> None:
    said = say(*at(garden, "watch", "--days", "90"))
    assert said.code == 2
    assert "1 to 60 days" in said.err


def test_a_first_one_seen_starts_its_clock(garden: Path) -> None:
    told = say(*at(garden, "note", "saw the first cabbage white on the cabbages", "--json", "--dry-run"))
    act = told.json["understood"][0]["fields"]
    assert (act["trouble"], act["event"]) == ("imported-cabbageworm", "butterflies")
    later = say(*at(garden, "note", "saw cabbage white on the cabbages", "--json", "--dry-run"))
    assert "event" not in later.json["understood"][0]["fields"]
