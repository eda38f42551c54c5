"""A frosty night in the demo garden: cloth laid in the evening is opened on the next morning's round."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from said import say

EVENING, MORNING = "2026-10-13", "2026-10-14"
"""The demo's made weather is the same for ever, and has a night of frost between them."""


@pytest.fixture(scope="module")
def covered(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[str]]:
    """The demo garden with every bed covered that the evening's jobs ask for."""
    garden = tmp_path_factory.mktemp("frost") / "lane"
    assert say("new", "--demo", "--garden", str(garden), "--today", EVENING).code == 0
    beds: list[str] = []
    # the cloth left is shared out anew after each: what is offered next may be another bed
    while jobs := _jobs(garden, "cover", EVENING):
        beds.append(jobs[0]["bed"])
        done = say("done", jobs[0]["id"], "--by", "Maren", "--garden", str(garden), "--today", EVENING)
        assert done.code == 0, done.err
        assert len(beds) < 20
    return garden, beds


def _jobs(garden: Path, kind: str, day: str) -> list[dict[str, Any]]:
    said = say("jobs", "--kind", kind, "--json", "--garden", str(garden), "--today", day)
    found: list[dict[str, Any]] = said.json["jobs"]
    return found


def test_every_bed_covered_for_the_night_is_opened_in_the_morning_by_an_hour(
    covered: tuple[Path, list[str]],
) -> None:
    garden, beds = covered
    assert len(beds) >= 3
    opened = [*_jobs(garden, "vent", MORNING), *_jobs(garden, "uncover", MORNING)]
    assert {job["bed"] for job in opened} >= set(beds)
    for job in opened:
        if job["bed"] in beds:
            assert "o'clock" in job["act"]
            assert job["window"]["closes"] == MORNING
            assert "last night's frost" in job["reason"]


def test_it_is_on_the_mornings_round_and_not_on_the_evenings(covered: tuple[Path, list[str]]) -> None:
    garden, beds = covered
    walk = ("--minutes", "90", "--json", "--garden", str(garden), "--today", MORNING)

    def shown(*hours: str) -> set[str]:
        stops = say("round", *hours, *walk).json["stops"]
        return {job["bed"] for stop in stops for job in stop["jobs"] if job["kind"] in ("vent", "uncover")}

    assert shown("--at", "08:00") >= set(beds)
    assert not shown("--at", "16:00") & set(beds)


def test_taking_it_off_puts_it_back_on_the_shelf(covered: tuple[Path, list[str]]) -> None:
    garden, beds = covered
    job = next(
        job
        for job in (*_jobs(garden, "vent", MORNING), *_jobs(garden, "uncover", MORNING))
        if job["bed"] == beds[0]
    )
    done = say("done", job["id"], "--by", "Maren", "--garden", str(garden), "--today", MORNING)
    assert done.code == 0, done.err
    again = [*_jobs(garden, "vent", MORNING), *_jobs(garden, "uncover", MORNING)]
    assert beds[0] not in {job["bed"] for job in again}
