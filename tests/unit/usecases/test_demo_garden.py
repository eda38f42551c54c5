"""The demo garden in its folder: its book, and what was really foretold last year."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from spadework.store.garden_folder import open_garden
from spadework.store.predictions import Kept
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.demo_garden import DemoMade, make_demo

TODAY = date(2027, 3, 2)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[DemoMade, Path]:
    folder = tmp_path_factory.mktemp("demo") / "there"
    return make_demo(folder, TODAY), folder


def kept(folder: Path) -> list[Kept]:
    with open_garden(folder).open_book() as book:
        return book.predictions()


def test_the_book_is_in_the_folder(made: tuple[DemoMade, Path]) -> None:
    answer, folder = made
    with open_garden(folder).open_book() as book:
        assert book.count() == answer.entries
        assert book.damage == ""


def test_last_year_was_foretold_on_its_days(made: tuple[DemoMade, Path]) -> None:
    answer, folder = made
    found = kept(folder)
    assert len(found) == answer.predictions
    assert {one.prediction.made_on.year for one in found} == {TODAY.year - 1}
    assert all(one.foretold for one in found)
    assert {one.prediction.kind for one in found} == {"emergence", "stage", "ready", "frost"}


def test_what_was_foretold_is_what_the_program_says_as_of_that_day(made: tuple[DemoMade, Path]) -> None:
    _, folder = made
    spring = [
        one.prediction
        for one in kept(folder)
        if one.prediction.kind == "frost"
        and one.prediction.made_on == date(2026, 5, 5)
        and one.prediction.subject.event == "last in spring"
        and one.prediction.subject.place == "shelter"
        and "0.9" in one.prediction.quantiles
    ]
    said = next(dates for dates in ask_frost(folder, date(2026, 5, 5)).dates if dates.place == "shelter")
    assert [one.quantiles["0.5"] for one in spring] == [said.last_spring.q50]


def test_made_again_it_is_the_same(made: tuple[DemoMade, Path], tmp_path: Path) -> None:
    answer, folder = made
    again = make_demo(tmp_path / "other", TODAY)
    assert (again.entries, again.predictions) == (answer.entries, answer.predictions)
    with open_garden(folder).open_book() as one, open_garden(tmp_path / "other").open_book() as other:
        assert one.entries() == other.entries()
