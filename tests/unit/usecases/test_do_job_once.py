"""A job said to be done: once, whoever says it and how often."""

from __future__ import annotations

import shutil
from datetime import date, timedelta
from pathlib import Path

import pytest

from spadework.errors import ParameterError
from spadework.usecases.demo_garden import make_demo
from spadework.usecases.do_jobs import Doing, do_job, skip_job
from spadework.usecases.job_names import job_said
from spadework.usecases.jobs_today import open_day
from spadework.usecases.kept_round import kept_round
from spadework.usecases.look import last_entry
from spadework.usecases.walk_round import round_of

DAY = date(2026, 6, 12)
KEY = "01KB0000000000000000000A01"
OTHER = "01KB0000000000000000000B01"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


def weeding(garden: Path) -> str:
    return next(job.id for job in open_day(garden, DAY).jobs if job.kind == "weed")


def test_sent_twice_it_is_written_once(garden: Path) -> None:
    name = weeding(garden)
    how = Doing(by="maren", key=KEY)
    first = do_job(garden, DAY, name, {}, minutes=8, how=how)
    end = last_entry(garden)
    again = do_job(garden, DAY, name, {}, minutes=8, how=how)
    assert first.stored
    assert again.stored
    assert again.written == first.written
    assert last_entry(garden) == end


def test_two_who_say_the_same_get_one_done_and_one_question(garden: Path) -> None:
    name = weeding(garden)
    assert do_job(garden, DAY, name, {}, how=Doing(by="maren", key=KEY)).stored
    end = last_entry(garden)
    second = do_job(garden, DAY, name, {}, how=Doing(by="odo", key=OTHER))
    assert not second.stored
    assert "Maren" in second.questions[0].found
    assert second.questions[0].may_insist
    assert last_entry(garden) == end


def test_a_done_job_is_off_the_day_without_minutes_too(garden: Path) -> None:
    name = weeding(garden)
    assert do_job(garden, DAY, name, {}, how=Doing(by="maren")).stored
    assert name not in [job.id for job in open_day(garden, DAY).jobs]


def test_a_job_the_day_has_no_more_is_asked_about_and_kept_in_its_own_words(garden: Path) -> None:
    how = Doing(by="maren", key=KEY, act="Thin the moonbeams in Lake 9")
    asked = do_job(garden, DAY, "thin-moonbeam-2026-1", {}, how=how)
    assert not asked.stored
    assert "moonbeams" in asked.questions[0].found
    kept = do_job(
        garden, DAY, "thin-moonbeam-2026-1", {}, how=Doing(by="maren", key=KEY, act=how.act, insist=True)
    )
    assert kept.stored
    assert "moonbeams" in " ".join(kept.said)


def test_the_round_is_kept_until_something_is_told(garden: Path) -> None:
    def ids() -> list[str]:
        return [job.id for stop in kept_round(open_day(garden, DAY)).stops for job in stop.jobs]

    first = kept_round(open_day(garden, DAY))
    assert kept_round(open_day(garden, DAY)) is first
    assert first == round_of(open_day(garden, DAY))
    assert kept_round(open_day(garden, DAY), minutes=15.0) != first
    done = next(job for job in open_day(garden, DAY).jobs if job.id in ids() and job.kind == "weed").id
    assert do_job(garden, DAY, done, {}, how=Doing(by="maren")).stored
    assert done not in ids()


@pytest.mark.parametrize("day", [date(2026, 4, 20), DAY, date(2026, 9, 10)])
def test_the_book_says_what_a_job_was_and_never_its_name(made: Path, day: date) -> None:
    for job in open_day(made, day).jobs:
        said = job_said(job.id)
        assert said != job.id
        assert "-" not in said, job.id
    assert job_said("rinse the trays") == "rinse the trays"


def test_put_off_without_reception_goes_to_the_day_it_was_said(garden: Path) -> None:
    name = weeding(garden)
    found = skip_job(garden, DAY + timedelta(days=1), name, "too wet", Doing(by="odo", on=DAY, key=KEY))
    assert found.stored
    assert name not in [job.id for job in open_day(garden, DAY).jobs]


def test_a_day_to_come_is_refused(garden: Path) -> None:
    with pytest.raises(ParameterError):
        do_job(garden, DAY, "look", {}, how=Doing(by="maren", on=DAY + timedelta(days=1)))
