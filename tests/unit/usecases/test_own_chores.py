"""People's own chores: done once a day, put off for a day, never a second time in silence. Invented."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from spadework.errors import ParameterError, UnknownName
from spadework.garden import entries as kinds
from spadework.garden.entries import Payload
from spadework.store.garden_folder import open_garden
from spadework.usecases.do_jobs import Doing, do_job, skip_job
from spadework.usecases.keep_book import Act, write_acts
from spadework.usecases.round_answer import ChoreView
from spadework.usecases.walk_round import walk_round

DAY = date(2018, 6, 4)
KEY = "01KB0000000000000000000A01"


@pytest.fixture
def garden(own_garden: Path) -> Path:
    told: list[Payload] = [
        kinds.PersonSet(person="ann", name="Ann", role="keeper"),
        kinds.PersonSet(person="ben", name="Ben"),
        kinds.ChoreSet(chore="let the hens out", minutes=5.0, person="ann", every_days=1),
        kinds.ChoreSet(chore="mend the gate", minutes=20.0),
    ]
    acts = [Act(payload=payload, on=DAY - timedelta(days=9)) for payload in told]
    assert write_acts(open_garden(own_garden), acts, today=DAY, author="ann", insist=True).stored
    return own_garden


def due(garden: Path, day: date = DAY) -> dict[str, ChoreView]:
    return {each.chore: each for stop in walk_round(garden, day).stops for each in stop.chores}


def test_a_chore_done_is_not_offered_again_that_day_and_comes_round(garden: Path) -> None:
    assert set(due(garden)) == {"let the hens out", "mend the gate"}
    found = do_job(garden, DAY, "hens", {}, minutes=6, how=Doing(by="ann"))
    assert found.stored
    assert found.said == ["Done: let the hens out, in 6 minutes"]
    assert do_job(garden, DAY, "chore:mend the gate", {}, how=Doing(by="ben")).stored
    assert due(garden) == {}
    tomorrow = due(garden, DAY + timedelta(days=1))
    assert list(tomorrow) == ["let the hens out"]
    assert tomorrow["let the hens out"].last_done == DAY


def test_put_off_it_comes_back_tomorrow(garden: Path) -> None:
    assert skip_job(garden, DAY, "mend the gate", "no nails", Doing(by="ben")).stored
    assert list(due(garden)) == ["let the hens out"]
    assert "mend the gate" in due(garden, DAY + timedelta(days=1))


def test_two_who_tell_it_are_asked_and_one_message_counts_once(garden: Path) -> None:
    first = do_job(garden, DAY, "hens", {}, how=Doing(by="ann", key=KEY))
    assert do_job(garden, DAY, "hens", {}, how=Doing(by="ann", key=KEY)).written == first.written
    second = do_job(garden, DAY, "hens", {}, how=Doing(by="ben"))
    assert not second.stored
    assert "Ann" in second.questions[0].found
    assert do_job(garden, DAY, "hens", {}, how=Doing(by="ben", insist=True)).stored


def test_what_does_not_go_with_a_chore_is_refused(garden: Path) -> None:
    with pytest.raises(ParameterError, match="kg"):
        do_job(garden, DAY, "hens", {"kg": 2.0}, how=Doing(by="ann"))
    with pytest.raises(UnknownName):
        do_job(garden, DAY, "chore:feed the moon", {}, how=Doing(by="ann"))


def test_one_that_nobody_did_is_over_after_its_last_day(garden: Path) -> None:
    act = kinds.ChoreSet(chore="shade the frame", minutes=5.0, last=DAY)
    write_acts(open_garden(garden), [Act(payload=act, on=DAY)], today=DAY, author="ann", insist=True)
    assert "shade the frame" in due(garden)
    assert "shade the frame" not in due(garden, DAY + timedelta(days=1))
