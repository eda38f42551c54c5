"""Doubles, corrections and undoing."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import permutations

import msgspec
import pytest

from garden_book import Pen
from spadework.errors import ParameterError
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry
from spadework.garden.resolve import standing

NOTE = kinds.Note(text="x")


def left(entries: list[Entry], known_on: datetime | None = None) -> set[str]:
    """Keys of the entries with an act that stand; the same in every order."""
    found = {
        frozenset(entry.key for _, entry in standing(order, known_on).entries if entry.act is not None)
        for order in (permutations(entries) if len(entries) < 6 else [entries, entries[::-1]])
    }
    assert len(found) == 1
    return set(found.pop())


def test_the_same_key_twice_is_one_entry() -> None:
    note = Pen()(NOTE)
    assert left([note, note, msgspec.structs.replace(note)]) == {note.key}


def test_two_contents_of_one_key_give_one_whatever_the_order() -> None:
    pen = Pen()
    note = pen(NOTE)
    assert len(left([note, msgspec.structs.replace(note, bed="b2"), pen(NOTE)])) == 2


def test_a_withdrawn_entry_does_not_stand_and_undoing_the_undo_gives_it_back() -> None:
    pen = Pen()
    note = pen(NOTE)
    undo = pen(withdraws=note.key)
    assert left([note, undo]) == set()
    redo = pen(withdraws=undo.key)
    assert left([note, undo, redo]) == {note.key}
    again = pen(withdraws=redo.key)
    assert left([note, undo, redo, again]) == set()


def test_two_withdrawals_must_both_be_undone() -> None:
    pen = Pen()
    note = pen(NOTE)
    one, two = pen(withdraws=note.key), pen(withdraws=note.key)
    undo_one = pen(withdraws=one.key)
    assert left([note, one, two, undo_one]) == set()
    assert left([note, one, two, undo_one, pen(withdraws=two.key)]) == {note.key}


def test_a_correction_stands_in_place_and_withdrawing_it_gives_back_the_first() -> None:
    pen = Pen()
    first = pen(NOTE)
    second = pen(NOTE, replaces=first.key)
    third = pen(NOTE, replaces=second.key)
    assert left([first, second]) == {second.key}
    assert left([first, second, third]) == {third.key}
    assert left([first, second, third, pen(withdraws=third.key)]) == {second.key}
    assert {e.key: line for line, e in standing([first, second, third]).entries} == {third.key: first.key}


def test_withdrawing_what_was_corrected_withdraws_its_corrections() -> None:
    pen = Pen()
    first = pen(NOTE)
    second = pen(NOTE, replaces=first.key)
    undo = pen(withdraws=first.key)
    assert left([first, second, undo]) == set()
    assert left([first, second, undo, pen(withdraws=undo.key)]) == {second.key}


def test_withdrawing_the_middle_of_a_line_gives_back_the_first() -> None:
    pen = Pen()
    first = pen(NOTE)
    second = pen(NOTE, replaces=first.key)
    third = pen(NOTE, replaces=second.key)
    assert left([first, second, third, pen(withdraws=second.key)]) == {first.key}


def test_of_two_corrections_the_later_stands() -> None:
    pen = Pen()
    first = pen(NOTE)
    one, two = pen(NOTE, replaces=first.key), pen(NOTE, replaces=first.key)
    assert left([first, one, two]) == {two.key}
    assert left([first, one, two, pen(withdraws=two.key)]) == {one.key}


def test_a_corrected_undo_undoes_the_other() -> None:
    pen = Pen()
    one, two = pen(NOTE), pen(NOTE)
    wrong = pen(withdraws=one.key)
    right = pen(withdraws=two.key, replaces=wrong.key)
    assert left([one, two, wrong, right]) == {one.key}


def test_pointing_nowhere_or_at_itself_does_nothing() -> None:
    pen = Pen()
    note = pen(NOTE, replaces="01ZZZZZZZZZZZZZZZZZZZZZZZZ")
    lost = pen(withdraws="01ZZZZZZZZZZZZZZZZZZZZZZZZ")
    selfish = pen(NOTE, key="01AAAAAAAAAAAAAAAAAAAAAAAA", withdraws="01AAAAAAAAAAAAAAAAAAAAAAAA")
    vain = pen(NOTE, key="01BBBBBBBBBBBBBBBBBBBBBBBB", replaces="01BBBBBBBBBBBBBBBBBBBBBBBB")
    assert left([note, lost, selfish, vain]) == {note.key, selfish.key, vain.key}


def test_rings_are_cut_the_same_way_in_every_order() -> None:
    pen = Pen()
    keys = [f"01{letter * 24}" for letter in "ABC"]
    ring = [pen(NOTE, key=key, withdraws=keys[place - 1]) for place, key in enumerate(keys)]
    assert len(left(ring)) in (1, 2)
    line = [pen(NOTE, key=key, replaces=keys[place - 1]) for place, key in enumerate(keys)]
    assert len(left(line)) == 1


def test_long_chains_of_undoing() -> None:
    pen = Pen()
    note = pen(NOTE)
    before = note
    for _ in range(3001):
        before = pen(withdraws=before.key)
    assert left(pen.written) == set()
    assert left(pen.written[:-1]) == {note.key}


def test_as_known_then() -> None:
    pen = Pen()
    note = pen(NOTE)
    fixed = pen(NOTE, replaces=note.key)
    undo = pen(withdraws=note.key)
    book = [note, fixed, undo]
    assert left(book, note.recorded_at - timedelta(seconds=1)) == set()
    assert left(book, note.recorded_at) == {note.key}
    assert left(book, fixed.recorded_at) == {fixed.key}
    assert left(book, undo.recorded_at) == set()


def test_who_undid_what_is_told() -> None:
    pen = Pen()
    note, other = pen(NOTE), pen(NOTE)
    pen(NOTE, replaces=note.key, author="bob")
    pen(withdraws=other.key, author="cy")
    pen(withdraws=other.key, author="dee")
    undone = {entry.key: by for entry, by in standing(pen.written).undone}
    assert undone == {note.key: {"bob"}, other.key: {"cy", "dee"}}


def test_times_need_a_zone() -> None:
    pen = Pen()
    with pytest.raises(ParameterError, match="no time zone"):
        standing([], datetime(2026, 5, 1))
    bare = pen(NOTE, recorded_at=datetime(2026, 5, 1))
    with pytest.raises(ParameterError, match="without a time zone"):
        standing([bare], pen(NOTE).recorded_at)
    assert left([bare, pen(NOTE, replaces=bare.key)]) != set()
