"""Sheets of what is no crop: each can be read whole, by any of its names, with its receipts in words."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from spadework.errors import UnknownName
from spadework.usecases.other_sheets import OtherSheet, any_sheet, list_others, other_sheet
from spadework.usecases.read_sheets import ShownSheet
from spadework.usecases.receipt_words import CLASSES

DAY = date(2026, 6, 12)


def test_every_sheet_is_read_by_its_key_and_each_of_its_names() -> None:
    for group in list_others():
        assert group.sheets
        for listed in group.sheets:
            found = other_sheet(listed.key)
            assert found is not None
            assert found.about.text
            for name in (listed.name, *listed.names):
                assert other_sheet(name) is not None, name


def test_every_number_says_on_whose_word_it_stands() -> None:
    for group in list_others():
        for listed in group.sheets:
            found = other_sheet(listed.key)
            assert found is not None
            for value in (*found.values, *(sign.often for sign in found.signs)):
                assert value.provenance in CLASSES
                assert value.meaning


def test_crops_come_first_and_what_is_unknown_has_its_nearest(tmp_path: Path) -> None:
    assert isinstance(any_sheet("carrot", tmp_path, DAY), ShownSheet)
    assert isinstance(any_sheet("late blight", tmp_path, DAY), OtherSheet)
    with pytest.raises(UnknownName) as said:
        any_sheet("late blyght", tmp_path, DAY)
    assert "late blight" in said.value.hint


def test_hosts_are_named_in_the_words_of_the_garden_and_where_it_lives_is_said() -> None:
    american, british = other_sheet("squash bug", "american"), other_sheet("squash bug")
    assert american is not None
    assert british is not None
    assert (american.hosts[0], british.hosts[0]) == ("summer squash", "courgette")
    (lives,) = [part for part in british.parts if part.title == "Where it lives"]
    assert lives.lines[0].provenance == "memory"
