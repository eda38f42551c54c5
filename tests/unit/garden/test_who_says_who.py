"""Who works here, and as what, is for keepers to say, by whatever way an entry comes into the book."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from msgspec.structs import replace

from garden_book import Pen
from plot_book import TODAY, plot
from said import say
from spadework.garden import entries as kinds
from spadework.garden.ask import questions
from spadework.garden.fold import fold
from spadework.garden.locks import Role
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import Act, garden_state, write_acts

DAY = date.fromisoformat(TODAY)


@pytest.fixture
def pen() -> Pen:
    pen = Pen()
    pen(kinds.PersonSet(person="ann", name="Ann", role="keeper"), author="ann")
    pen(kinds.PersonSet(person="ben", name="Ben", role="helper"), author="ann")
    pen(kinds.PersonSet(person="rea", name="Rea", role="reader"), author="ann")
    return pen


@pytest.mark.parametrize(
    ("author", "person", "asked", "comes_to"),
    [
        ("ben", "ben", "keeper", "helper"),
        ("ben", "rea", "keeper", "reader"),
        ("rea", "rea", "helper", "reader"),
        ("nobody", "zoe", "keeper", "helper"),
        ("ben", "ann", "helper", "keeper"),
        ("ann", "ben", "keeper", "keeper"),
        ("ann", "ann", "keeper", "keeper"),
    ],
)
def test_an_entry_changes_no_role_its_author_may_not(
    pen: Pen, author: str, person: str, asked: Role, comes_to: str
) -> None:
    name = {"zoe": "Zoe"}.get(person, person.title())
    pen(kinds.PersonSet(person=person, name=name, role=asked), author=author, day=1)
    assert fold(pen.written).people[person].role == comes_to


def test_one_who_made_themselves_keeper_lifts_no_lock(pen: Pen) -> None:
    pen(kinds.BedSet(name="b1"), bed="b1")
    pen(kinds.Locked(lock="glass", on="bed", why="glass"), bed="b1", author="ann")
    pen(kinds.PersonSet(person="ben", name="Ben", role="keeper"), author="ben", day=1)
    pen(kinds.Unlocked(lock="glass", why="fine"), bed="b1", author="ben", day=2)
    garden = fold(pen.written)
    assert garden.locks_on(pen.written[-1].happened_on, bed="b1")


def test_it_is_asked_about_and_not_to_be_insisted_on(pen: Pen) -> None:
    garden = fold(pen.written)
    entry = pen(kinds.PersonSet(person="ben", name="Ben", role="keeper"), author="ben")
    (asked,) = questions(garden, entry, entry.happened_on)
    assert "Ben is no keeper" in asked.found
    assert not asked.may_insist


def test_a_helpers_plan_makes_no_keeper(tmp_path: Path) -> None:
    garden, file = plot(tmp_path), tmp_path / "plan.toml"
    where = ("--garden", str(garden), "--today", TODAY)
    assert say("plan", "write", str(file), *where).code == 0
    text = file.read_text(encoding="utf-8")
    before, person, after = text.partition('name = "Ben"')
    assert person
    file.write_text(before + person + after.replace('"helper"', '"keeper"', 1), encoding="utf-8")
    said = say("plan", "load", str(file), "--by", "ben", "--insist", *where)
    assert said.code != 0
    assert "Ben is no keeper" in said.out + said.err
    assert garden_state(open_garden(garden)).people["ben"].role == "helper"
    assert say("plan", "load", str(file), "--by", "ann", *where).code == 0
    assert garden_state(open_garden(garden)).people["ben"].role == "keeper"


def test_an_archive_from_a_helpers_copy_makes_no_keeper(tmp_path: Path) -> None:
    garden = plot(tmp_path)
    where = ("--garden", str(garden), "--today", TODAY)
    copy, other = tmp_path / "copy.zip", tmp_path / "other"
    assert say("export", str(copy), *where).code == 0
    assert say("import", str(copy), "--garden", str(other), "--today", TODAY).code == 0
    act = Act(payload=kinds.PersonSet(person="ben", name="Ben", role="keeper"), on=DAY)
    folder = open_garden(other)
    assert not write_acts(folder, [act], today=DAY, author="ben", insist=True).stored
    entry = garden_state(folder).entries[1]
    with folder.open_book() as book:  # as a program that asks nothing might write it
        book.append(
            [replace(entry, key="01KB0000000000000000000Z01", author="ben", act=act.payload, happened_on=DAY)]
        )
    back = tmp_path / "back.zip"
    assert say("export", str(back), "--garden", str(other), "--today", TODAY).code == 0
    assert say("import", str(back), *where).code == 0
    assert garden_state(open_garden(garden)).people["ben"].role == "helper"
