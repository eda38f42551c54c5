"""Writing acts: all or none, asked about in turn, on both engines."""

from __future__ import annotations

from datetime import date

import pytest

from book_servers import Place
from spadework.errors import ParameterError, UnknownName
from spadework.garden import entries as kinds
from spadework.garden.site import Site
from spadework.store.garden_folder import GardenFolder
from spadework.usecases.keep_book import (
    Act,
    author_key,
    end_of,
    garden_state,
    new_planting_key,
    open_state,
    write_acts,
)

DAY = date(2026, 5, 20)
SITE = Site("Plot", 50.0, 10.0, 100.0)


@pytest.fixture
def folder(place: Place) -> GardenFolder:
    return GardenFolder(place.garden, SITE)


BED = Act(payload=kinds.BedSet(name="Bed 1"), on=DAY, bed="bed-1")
SOWN = Act(
    payload=kinds.Sown(planting="carrot-2026-1", crop="carrot", seeds=100),
    on=DAY,
    bed="bed-1",
    planting="carrot-2026-1",
)


def test_later_acts_know_the_earlier_ones(folder: GardenFolder) -> None:
    thinned = Act(payload=kinds.Thinned(removed=40), on=DAY, planting="carrot-2026-1")
    done = write_acts(folder, [BED, SOWN, thinned], today=DAY, author="ann")
    assert done.stored
    assert not done.questions
    assert [each.key for each in done.entries] == sorted(each.key for each in done.entries)
    garden = garden_state(folder)
    assert garden.plantings["carrot-2026-1"].plants.at_most == 60
    assert garden.entries == done.entries


def test_one_question_holds_back_all(folder: GardenFolder) -> None:
    write_acts(folder, [BED], today=DAY, author="ann")
    too_many = Act(payload=kinds.Thinned(removed=140), on=DAY, planting="carrot-2026-1")
    done = write_acts(folder, [SOWN, too_many], today=DAY, author="ann")
    assert not done.stored
    assert [place for place, _ in done.questions] == [1]
    assert not garden_state(folder).plantings
    insisted = write_acts(folder, [SOWN, too_many], today=DAY, author="ann", insist=True)
    assert [each.insisted for each in insisted.entries] == [False, True]
    assert garden_state(folder).plantings["carrot-2026-1"].plants.at_most == 0


def test_what_says_nothing_is_never_written(folder: GardenFolder) -> None:
    empty = Act(payload=kinds.Note(text=" "), on=DAY)
    done = write_acts(folder, [BED, empty], today=DAY, author="ann", insist=True)
    assert not done.stored
    assert not done.questions[0][1].may_insist
    assert not garden_state(folder).beds


def test_pieces_of_what_is_picked_whole_leave_fewer(folder: GardenFolder) -> None:
    peas = Act(
        payload=kinds.Sown(planting="pea-2026-1", crop="pea", seeds=100),
        on=DAY,
        bed="bed-1",
        planting="pea-2026-1",
    )
    picked = [
        Act(payload=kinds.Picked(pieces=30), on=DAY, planting=name)
        for name in ("carrot-2026-1", "pea-2026-1")
    ]
    assert write_acts(folder, [BED, SOWN, peas, *picked], today=DAY, author="ann").stored
    garden = garden_state(folder)
    assert garden.plantings["carrot-2026-1"].plants.at_most == 70
    assert garden.plantings["pea-2026-1"].plants.at_most == 100


def test_locks_newly_set_are_told(folder: GardenFolder) -> None:
    raw = Act(
        payload=kinds.Amended(material="manure", state="raw", spray_history="clean"), on=DAY, bed="bed-1"
    )
    done = write_acts(folder, [BED, raw], today=DAY, author="ann")
    assert [(lock.subject, lock.until) for lock in done.locks] == [("bed-1", date(2026, 9, 17))]
    note = Act(payload=kinds.Note(text="fine"), on=DAY, bed="bed-1")
    assert not write_acts(folder, [note], today=DAY, author="ann").locks


def test_a_state_read_before_is_enough(folder: GardenFolder) -> None:
    write_acts(folder, [BED], today=DAY, author="ann")
    state = open_state(folder)
    assert write_acts(folder, [SOWN], today=DAY, author="ann", state=state).stored
    assert set(garden_state(folder).plantings) == {"carrot-2026-1"}


def test_as_known_on_an_earlier_day(folder: GardenFolder) -> None:
    write_acts(folder, [BED, SOWN], today=DAY, author="ann")
    assert not garden_state(folder, known_on=end_of(date(2020, 1, 1))).beds
    assert not garden_state(folder, day=date(2026, 5, 19)).beds
    assert garden_state(folder, day=DAY, known_on=end_of(date(2200, 1, 1))).beds


def test_names_of_plantings_and_people(folder: GardenFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SPADEWORK_BY", raising=False)
    assert author_key(garden_state(folder)) == "keeper"
    people = [
        Act(payload=kinds.PersonSet(person="ann", name="Ann", role="keeper"), on=DAY),
        Act(payload=kinds.PersonSet(person="ben", name="Ben"), on=DAY),
    ]
    write_acts(folder, [*people, BED, SOWN], today=DAY, author="ann")
    garden = garden_state(folder)
    assert (author_key(garden), author_key(garden, "ben")) == ("ann", "ben")
    with pytest.raises(UnknownName, match="Nearest: Ben"):
        author_key(garden, "Bem")
    monkeypatch.setenv("SPADEWORK_BY", "Ben")
    assert author_key(garden) == "ben"
    assert new_planting_key(garden, "carrot", DAY) == "carrot-2026-2"
    assert new_planting_key(garden, "carrot", DAY, {"carrot-2026-2"}) == "carrot-2026-3"
    monkeypatch.delenv("SPADEWORK_BY")
    two = Act(payload=kinds.PersonSet(person="kim", name="Kim", role="keeper"), on=DAY)
    write_acts(folder, [two], today=DAY, author="ann")
    with pytest.raises(ParameterError, match="Who writes"):
        author_key(garden_state(folder))
