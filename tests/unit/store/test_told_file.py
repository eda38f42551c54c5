"""Told facts in the book, and the file they were kept in before: taken over once, refused whole when torn."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from book_entries import entry as book_entry
from spadework.errors import EntryConflict, InputFileError, ParameterError, StoreError
from spadework.garden.entries import FactTold
from spadework.garden.site import Site
from spadework.garden.told import (
    Event,
    Fact,
    ForecastDay,
    FrostTable,
    MonthlyNormals,
    PairedMinima,
    SoilWarmth,
    Thermometer,
    WarmthTotal,
)
from spadework.store import told_book
from spadework.store.book import Wanted
from spadework.store.garden_folder import GardenFolder, create, open_garden
from spadework.store.open_book import BOOK_FILE
from spadework.store.sql_book import SqlBook
from spadework.store.told_book import TAKEN
from spadework.store.told_file import TOLD_FILE, new_key
from tellings import told

DAY = date(2026, 5, 20)
LATER = date(2026, 6, 1)
TWELVE = tuple(float(month) for month in range(12))

FACTS: list[Fact] = [
    ForecastDay(day=DAY, high_c=18.0, low_c=6.0, rain_mm=4.0, rain_odds=0.7, wind_m_s=5.0, cloud_share=0.8),
    ForecastDay(day=DAY, mean_c=-1.5, dew_c=-3.0),
    SoilWarmth(temp_c=9.0, depth_cm=10.0, first=DAY, last=DAY, hour=8.5, bed='the "long" bed ü'),
    SoilWarmth(temp_c=9.0, depth_cm=10.0, first=date(2026, 5, 1), last=DAY),
    WarmthTotal(total_cday=120.0, base_c=10.0, since=date(2026, 4, 1), until=DAY, upper_c=30.0),
    FrostTable(below_c=-2.0, season="spring", dates=((0.1, DAY), (0.5, date(2026, 5, 1)))),
    FrostTable(below_c=0.0, season="autumn", median=date(2026, 9, 25), spread_days=12.0),
    PairedMinima(difference_c=-2.5, nights=20, spread_c=1.2, own=Thermometer(height_m=0.3, shelter="open")),
    PairedMinima(difference_c=1.0, on=DAY),
    MonthlyNormals(tmin_c=TWELVE, tmax_c=TWELVE, rain_mm=TWELVE, climate="maritime"),
    Event(crop="carrot", what="came up", started=date(2026, 4, 20), on=DAY, not_yet_on=date(2026, 5, 15)),
]


@pytest.fixture
def garden(tmp_path: Path) -> GardenFolder:
    return create(tmp_path / "g", Site("Plot", 50.0, 0.0, 10.0))


def test_every_kind_comes_back_as_it_was_told(garden: GardenFolder) -> None:
    said = [told(fact, DAY, source="paper") for fact in FACTS]
    garden.tell(*said)
    assert open_garden(garden.path).told(DAY) == tuple(said)
    with garden.open_book() as book:
        assert [each.key for each in book.find(Wanted(kinds=("told",)))] == [each.key for each in said]


def test_a_garden_told_nothing_has_no_book(garden: GardenFolder) -> None:
    garden.tell()
    assert garden.told(DAY) == ()
    assert not (garden.path / BOOK_FILE).exists()


def test_the_book_only_grows(garden: GardenFolder) -> None:
    garden.tell(told(FACTS[0], DAY))
    garden.tell(told(FACTS[2], DAY))
    with garden.open_book() as book:
        before = book.entries()
    garden.withdraw(garden.told(DAY)[1].key, DAY)
    with garden.open_book() as book:
        assert book.entries()[:-1] == before
    assert [entry.fact for entry in garden.told(DAY)] == [FACTS[0]]


def test_undoing_a_withdrawal_gives_back_what_was_told(garden: GardenFolder) -> None:
    entry = told(FACTS[2], DAY)
    garden.tell(entry)
    garden.withdraw(entry.key, DAY)
    with garden.open_book() as book:
        gone = book.entries()[-1]
        book.append([book_entry(None, withdraws=gone.key, happened_on=LATER)])
    assert garden.told(DAY) == ()
    assert garden.told(LATER) == (entry,)


def test_the_same_key_twice_counts_once(garden: GardenFolder) -> None:
    entry = told(FACTS[0], DAY)
    garden.tell(entry, entry)
    garden.tell(entry)
    assert garden.told(DAY) == (entry,)
    with garden.open_book() as book:
        assert book.count() == 1
    with pytest.raises(EntryConflict, match=entry.key):
        garden.tell(replace(entry, source="another"))


def test_what_is_told_or_withdrawn_later_is_not_known_yet(garden: GardenFolder) -> None:
    first, second = told(FACTS[2], DAY), told(FACTS[4], LATER)
    garden.tell(first, second)
    garden.withdraw(first.key, LATER)
    assert garden.told(date(2026, 5, 19)) == ()
    assert garden.told(DAY) == (first,)
    assert garden.told(LATER) == (second,)


def test_only_what_was_told_by_then_can_be_withdrawn(garden: GardenFolder) -> None:
    entry = told(FACTS[2], LATER)
    garden.tell(entry)
    with pytest.raises(ParameterError, match="Nothing told has the key"):
        garden.withdraw("K", LATER)
    with pytest.raises(ParameterError, match="was told on 2026-06-01"):
        garden.withdraw(entry.key, DAY)
    assert garden.told(LATER) == (entry,)


LINES = (
    '{"key":"01KRTAEV00000000000000000A","told_on":"2026-05-20","source":"paper","kind":"soil",'
    '"payload":{"temp_c":9.0,"depth_cm":10.0,"first":"2026-05-20","last":"2026-05-20","hour":8.5}}',
    '{"key":"K2","told_on":"2026-05-20","source":"x","kind":"warmth",'
    '"payload":{"total_cday":120.0,"base_c":10.0,"since":"2026-04-01","until":"2026-05-20"}}',
    '{"key":"K3","told_on":"2026-06-01","withdraws":"K2"}',
)
SOIL = SoilWarmth(temp_c=9.0, depth_cm=10.0, first=DAY, last=DAY, hour=8.5)


def test_the_earlier_file_is_taken_over_once(garden: GardenFolder) -> None:
    # a copied line, as a merge of two folders leaves it, counts once
    text = "\n".join((*LINES, LINES[0])) + "\n"
    (garden.path / TOLD_FILE).write_text(text)
    assert [entry.fact for entry in garden.told(DAY)][:1] == [SOIL]
    assert len(garden.told(DAY)) == 2
    assert [entry.source for entry in garden.told(LATER)] == ["paper"]
    assert not (garden.path / TOLD_FILE).exists()
    assert (garden.path / TAKEN).read_text() == text
    with garden.open_book() as book:
        first = book.entries()
    assert [each.key for each in first] == ["01KRTAEV00000000000000000A", "K2", "K3"]
    # by its key where that fits the day, else noon
    assert [each.recorded_at.date() for each in first] == [DAY, DAY, LATER]
    assert first[1].recorded_at.hour == 12
    # the same file once more, as a copy of the folder brings it back, doubles nothing and overwrites nothing
    (garden.path / TOLD_FILE).write_text(text)
    assert len(garden.told(DAY)) == 2
    with garden.open_book() as book:
        assert book.entries() == first
    assert len(list(garden.path.glob("told-taken-over*.jsonl"))) == 2


def test_stopped_between_taking_over_and_renaming(
    garden: GardenFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    (garden.path / TOLD_FILE).write_text("\n".join(LINES) + "\n")

    def stopped(*_: Any) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(told_book.os, "replace", stopped)
        with pytest.raises(KeyboardInterrupt):
            garden.told(DAY)
    assert len(garden.told(DAY)) == 2
    with garden.open_book() as book:
        assert book.count() == 3


def test_the_earlier_file_is_read_where_the_book_cannot_be_written(
    garden: GardenFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    with garden.open_book():
        pass
    (garden.path / TOLD_FILE).write_text("\n".join(LINES) + "\n")
    monkeypatch.setattr(SqlBook, "read_only", property(lambda _: True))
    assert len(garden.told(DAY)) == 2
    assert (garden.path / TOLD_FILE).exists()


def test_a_torn_last_line_is_refused_with_its_number(garden: GardenFolder) -> None:
    path = garden.path / TOLD_FILE
    path.write_text("\n".join(LINES[:2])[:-30])
    before = path.read_bytes()
    with pytest.raises(InputFileError, match=r"line 2: found half a line.*never acknowledged"):
        garden.told(DAY)
    with pytest.raises(InputFileError, match="line 2"):
        garden.tell(told(FACTS[4], DAY))
    assert path.read_bytes() == before
    path.unlink()
    assert garden.told(DAY) == ()


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ("{}", "key"),
        ('{"key":"A","told_on":"2026-05-20","kind":"rumour","payload":{}}', "kind 'rumour'"),
        ('{"key":"A","told_on":"2026-05-20","kind":"soil"}', "without payload"),
        (
            '{"key":"A","told_on":"2026-05-20","kind":"forecast","payload":{"day":"2026-05-20","hot":1}}',
            "'hot'",
        ),
        ('{"key":"A","told_on":"2026-05-20","kind":"forecast","payload":{"day":"20 May"}}', "day"),
        ('{"key":"A","told_on":"2026-05-20","withdraws":"B","kind":"soil"}', "also withdraws"),
        ('{"key":"A","told_on":"2026-05-20","colour":"red"}', "colour"),
        ("not json", "line 1"),
    ],
)
def test_lines_that_cannot_be_meant(garden: GardenFolder, line: str, wrong: str) -> None:
    (garden.path / TOLD_FILE).write_text(line + "\n")
    with pytest.raises(InputFileError) as caught:
        garden.told(DAY)
    assert "line 1" in str(caught.value)
    assert wrong in str(caught.value)


def test_what_another_program_told_and_this_one_cannot_read_is_named(garden: GardenFolder) -> None:
    with garden.open_book() as book:
        book.append([book_entry(FactTold(source="x", sort="rumour", fact={}), key="K9")])
    with pytest.raises(StoreError, match="K9 cannot be read: 'rumour'"):
        garden.told(DAY)


def test_keys_sort_by_their_time_and_never_repeat() -> None:
    keys = [new_key() for _ in range(200)]
    assert len(set(keys)) == 200
    assert {len(key) for key in keys} == {26}
    assert sorted(key[:10] for key in keys) == [key[:10] for key in keys]
