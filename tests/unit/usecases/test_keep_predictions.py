"""What is shown is kept, once a day, and an answer never hangs on whether it could be."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from book_entries import entry
from gardens import make_garden
from spadework import __version__
from spadework.errors import StoreError, StoreReadOnly
from spadework.garden.told import SoilWarmth
from spadework.store import sqlite_database
from spadework.store.garden_folder import open_garden
from spadework.store.open_book import BOOK_FILE
from spadework.store.predictions import Prediction
from spadework.store.sql_book import SqlBook
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.weigh_fits import weigh_what_fits
from spadework.usecases.weigh_planting_out import weigh_planting_out
from spadework.usecases.weigh_resowing import weigh_resowing
from spadework.usecases.weigh_sowing import rank_sowings, weigh_sowing
from tellings import told

TODAY = date(2018, 5, 20)
SOWN = date(2018, 5, 1)


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return make_garden(tmp_path, "north")


def kept(garden: Path) -> list[Prediction]:
    with open_garden(garden).open_book() as book:
        return [each.prediction for each in book.predictions()]


def test_what_is_said_of_a_planting_is_kept_as_it_was_said(garden: Path) -> None:
    shown = ask_ready(
        garden, TODAY, "carrot", sown=SOWN, by=date(2018, 8, 1), depth_mm=20.0, watered=False, bed="long bed"
    )
    found = kept(garden)
    assert {each.made_on for each in found} == {TODAY}
    assert {each.program for each in found} == {__version__}
    assert {(each.subject.crop, each.subject.bed, each.subject.started) for each in found} == {
        ("carrot", "long bed", SOWN)
    }
    assert {each.subject.means for each in found} == {"rain alone; 20 mm deep"}
    (up,) = (each for each in found if each.kind == "emergence")
    assert shown.emergence is not None
    assert up.quantiles == {
        "0.1": shown.emergence.q10,
        "0.5": shown.emergence.q50,
        "0.9": shown.emergence.q90,
    }
    ready = {(each.subject.event, each.by): each for each in found if each.kind == "ready"}
    assert ready["", None].quantiles["0.5"] == shown.ready.q50
    assert ready["", None].chance == pytest.approx(1.0 - shown.ready.never, abs=1e-4)
    assert shown.ready_by is not None
    assert ready["", date(2018, 8, 1)].chance == shown.ready_by.chance
    assert ready["ready before anything takes it", None].chance == shown.ready_before_loss.chance
    assert all(each.years == shown.ready.years for each in found)


def test_frost_odds_are_kept_with_their_limit_place_and_side(garden: Path) -> None:
    shown = ask_frost(garden, TODAY, below_c=-1.5, by=date(2018, 5, 25), at_odds=("1 in 10", 0.1))
    found = kept(garden)
    assert {each.subject.limit_c for each in found} == {-1.5}
    spring = next(
        each
        for each in found
        if (each.subject.event, each.subject.place) == ("last in spring", "leaf") and len(each.quantiles) == 3
    )
    leaf = next(dates for dates in shown.dates if dates.place == "leaf")
    assert spring.quantiles["0.9"] == leaf.last_spring.q90
    by = [each for each in found if each.by == date(2018, 5, 25)]
    assert [each.chance for each in by] == [one.frost.chance for one in shown.by]
    assert {each.subject.event for each in by} == {"on or after"}
    asked = {
        (each.subject.event, each.subject.place): each.quantiles for each in found if len(each.quantiles) == 1
    }
    assert asked["last in spring", "shelter"] == {"0.9": shown.at_odds[0].spring_after}
    assert asked["first in autumn", "shelter"] == {"0.1": shown.at_odds[0].autumn_before}


QUESTIONS: dict[str, Callable[[Path], Any]] = {
    "sow": lambda garden: weigh_sowing(garden, TODAY, "carrot").options,
    "rank": lambda garden: rank_sowings(garden, TODAY).crops,
    "fits": lambda garden: weigh_what_fits(garden, TODAY).crops,
    "plant out": lambda garden: weigh_planting_out(garden, TODAY, "tomato").options,
    "again": lambda garden: weigh_resowing(garden, TODAY, "carrot", sown=SOWN, seeds=200, up=20).options,
}


@pytest.mark.parametrize("question", QUESTIONS)
def test_every_option_that_is_shown_is_kept_and_once(garden: Path, question: str) -> None:
    shown = QUESTIONS[question](garden)
    chances = [getattr(one, "overall", None) or one.odds for one in shown]
    found = kept(garden)
    whole = [each.chance for each in found if each.subject.event]
    assert sorted(whole) == sorted(odds.chance for odds in chances)
    middles = {each.quantiles["0.5"] for each in found if each.kind == "ready" and each.quantiles}
    for one in shown:
        ready = one.option.ready if question == "rank" else one.ready
        assert ready is None or ready.q50 in middles
    QUESTIONS[question](garden)
    assert kept(garden) == found


def test_the_inputs_are_told_apart(garden: Path) -> None:
    ask_ready(garden, TODAY, "carrot", sown=SOWN)
    first = {each.inputs for each in kept(garden)}
    open_garden(garden).tell(told(SoilWarmth(temp_c=30.0, depth_cm=5.0, first=TODAY, last=TODAY), TODAY))
    ask_ready(garden, TODAY, "carrot", sown=SOWN)
    both = {each.inputs for each in kept(garden)}
    assert len(first) == 1
    assert len(both) == 2


def test_an_answer_does_not_change_when_the_book_fills(garden: Path) -> None:
    first = ask_ready(garden, TODAY, "carrot", sown=SOWN)
    with open_garden(garden).open_book() as book:
        book.append([entry() for _ in range(20)])
    assert ask_ready(garden, TODAY, "carrot", sown=SOWN) == first


def test_a_book_that_cannot_be_written_withholds_no_answer(
    garden: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    ask_ready(garden, TODAY, "carrot", sown=SOWN)
    found = kept(garden)
    connected = sqlite_database.connect

    def on_a_locked_disk(path: Path, *, read_only: bool = False) -> sqlite3.Connection:
        if not read_only:
            raise StoreReadOnly(f"{path} cannot be written.", "")
        return connected(path, read_only=True)

    with monkeypatch.context() as patch:
        patch.setattr(sqlite_database, "connect", on_a_locked_disk)
        shown = ask_ready(garden, TODAY, "beetroot", sown=SOWN)
    assert kept(garden) == found
    assert not [record for record in caplog.records if record.name == "spadework"]
    assert ask_ready(garden, TODAY, "beetroot", sown=SOWN) == shown
    assert len(kept(garden)) > len(found)


def test_a_fault_of_the_store_is_said_beside_the_answer(
    garden: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def full(*_: object) -> int:
        raise StoreError("The disk is full.", "Make room.")

    monkeypatch.setattr(SqlBook, "keep", full)
    assert ask_ready(garden, TODAY, "carrot", sown=SOWN).ready.q50 is not None
    assert "was not kept: The disk is full" in caplog.text


def test_a_damaged_book_is_said_beside_the_answer(garden: Path, caplog: pytest.LogCaptureFixture) -> None:
    first = ask_ready(garden, TODAY, "carrot", sown=SOWN)
    (garden / BOOK_FILE).write_bytes(b"no longer a database" * 500)
    assert ask_ready(garden, TODAY, "carrot", sown=SOWN) == first
    assert "open for reading only" in caplog.text
