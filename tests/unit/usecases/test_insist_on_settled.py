"""Insisting on a job that somebody else settled that day. The garden is invented, its weather a station's."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest

from gardens import make_garden
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.store.garden_folder import open_garden
from spadework.usecases.do_jobs import Doing, JobDone, do_job, skip_job
from spadework.usecases.jobs_today import open_day
from spadework.usecases.keep_book import Act, garden_state, write_acts

DAY = date(2018, 6, 4)
SOWN = date(2018, 5, 1)
OTHER = "01KB0000000000000000000B01"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = make_garden(tmp_path_factory.mktemp("insist"), "north")
    told: list[tuple[Payload, str, str]] = [
        (kinds.PersonSet(person="ann", name="Ann", role="keeper"), "", ""),
        (kinds.PersonSet(person="ben", name="Ben"), "", ""),
        (kinds.BedSet(name="Bed 1"), "bed-1", ""),
        (kinds.BedSet(name="Bed 2", x_m=2.0), "bed-2", ""),
        (kinds.LotSet(lot="radish-18", crop="radish", year=2018, seeds=900), "", ""),
        (
            kinds.Sown(planting="carrot-1", crop="carrot", seeds=300, rows=3, row_length_m=2.0),
            "bed-1",
            "carrot-1",
        ),
    ]
    acts = [Act(payload=payload, on=SOWN, bed=bed, planting=planting) for payload, bed, planting in told]
    assert write_acts(open_garden(path), acts, today=DAY, author="ann", insist=True).stored
    return path


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


def weeding(garden: Path) -> str:
    return next(job.id for job in open_day(garden, DAY).jobs if job.id == "weed-bed-1")


def by_other(name: str, garden: Path, *, insist: bool, act: str = "", **numbers: float) -> JobDone:
    how = Doing(by="ben", key="" if not act else OTHER, act=act, insist=insist)
    return do_job(garden, DAY, name, numbers, minutes=12, how=how)


def entries_of(garden: Path, found: JobDone) -> list[Entry]:
    by_key = {entry.key: entry for entry in garden_state(open_garden(garden)).entries}
    return [by_key[key] for key in found.written]


@pytest.mark.parametrize("shown", [False, True], ids=["at the desk", "from a page shown before"])
def test_what_was_put_off_is_done_all_the_same_and_written_as_the_job_it_is(
    garden: Path, shown: bool
) -> None:
    name = weeding(garden)
    job = next(job for job in open_day(garden, DAY).jobs if job.id == name)
    act = job.act if shown else ""
    assert skip_job(garden, DAY, name, "too wet", Doing(by="ann")).stored
    asked = by_other(name, garden, insist=False, act=act)
    assert not asked.stored
    assert "too wet" in asked.questions[0].found
    done = by_other(name, garden, insist=True, act=act)
    assert done.stored
    written = entries_of(garden, done)
    assert [entry.act for entry in written] == [*job.done, kinds.Minutes(minutes=12, job=name)]
    assert {(entry.author, entry.bed) for entry in written} == {("ben", job.bed)}
    after = garden_state(open_garden(garden)).beds[job.bed]
    assert DAY in (after.last.get("weeded"), after.last.get("hoed"))


def test_enough_of_the_name_of_a_settled_job_asks_the_same(garden: Path) -> None:
    name = weeding(garden)
    assert skip_job(garden, DAY, name, "too wet", Doing(by="ann")).stored
    asked = by_other("eed-bed-1", garden, insist=False)
    assert "Ann" in asked.questions[0].found


def test_what_was_done_is_done_again_with_numbers_of_its_own(garden: Path) -> None:
    job = next(job for job in open_day(garden, DAY).jobs if job.kind == "count")
    assert do_job(garden, DAY, job.id, {"standing": 50}, how=Doing(by="ann")).stored
    assert not by_other(job.id, garden, insist=False, standing=48).stored
    done = by_other(job.id, garden, insist=True, standing=48)
    assert done.stored
    counted, _ = entries_of(garden, done)
    assert counted.act == kinds.Counted(standing=48)
    assert counted.planting == job.planting


def test_a_sowing_done_twice_is_two_plantings(garden: Path) -> None:
    job = next(job for job in open_day(garden, DAY).jobs if job.kind == "sow")
    one = do_job(garden, DAY, job.id, {}, how=Doing(by="ann", insist=True))
    two = by_other(job.id, garden, insist=True)
    assert one.stored
    assert two.stored
    sown = [entry for found in (one, two) for entry in entries_of(garden, found)]
    keys = [entry.act.planting for entry in sown if isinstance(entry.act, kinds.Sown)]
    assert len(set(keys)) == 2


def test_putting_off_what_another_did_needs_insisting_and_takes_nothing_back(garden: Path) -> None:
    name = weeding(garden)
    done = do_job(garden, DAY, name, {}, how=Doing(by="ann"))
    assert done.stored
    assert not skip_job(garden, DAY, name, "too wet", Doing(by="ben")).stored
    assert skip_job(garden, DAY, name, "too wet", Doing(by="ben", insist=True)).stored
    standing = garden_state(open_garden(garden)).entries
    assert set(done.written) <= {entry.key for entry in standing}
