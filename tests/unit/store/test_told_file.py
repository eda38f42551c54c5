"""The file of told facts: it only grows, counts a key once, and is refused whole when a line is torn."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from spadework.errors import GardenError, InputFileError, ParameterError
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
from spadework.store import told_file
from spadework.store.garden_folder import GardenFolder, create, open_garden
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
    lines = (garden.path / TOLD_FILE).read_text(encoding="utf-8").splitlines()
    assert len(lines) == len(FACTS)
    assert list(json.loads(lines[0])) == ["key", "told_on", "source", "kind", "payload"]


def test_a_garden_told_nothing_has_no_file(garden: GardenFolder) -> None:
    assert garden.told(DAY) == ()
    assert not (garden.path / TOLD_FILE).exists()


def test_the_file_only_grows(garden: GardenFolder) -> None:
    garden.tell(told(FACTS[0], DAY))
    before = (garden.path / TOLD_FILE).read_bytes()
    garden.tell(told(FACTS[2], DAY))
    second = garden.told(DAY)[1]
    garden.withdraw(second.key, DAY)
    assert (garden.path / TOLD_FILE).read_bytes().startswith(before)
    assert [entry.fact for entry in garden.told(DAY)] == [FACTS[0]]


def test_the_same_key_twice_counts_once(garden: GardenFolder) -> None:
    entry = told(FACTS[0], DAY)
    garden.tell(entry, entry)
    garden.tell(entry)
    assert garden.told(DAY) == (entry,)
    assert (garden.path / TOLD_FILE).read_text().count("\n") == 1
    # a copy of the line, as a merge of two folders leaves it
    text = (garden.path / TOLD_FILE).read_text()
    (garden.path / TOLD_FILE).write_text(text + text)
    assert garden.told(DAY) == (entry,)


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


def test_a_torn_last_line_is_refused_with_its_number(garden: GardenFolder) -> None:
    garden.tell(told(FACTS[0], DAY), told(FACTS[2], DAY))
    path = garden.path / TOLD_FILE
    path.write_bytes(path.read_bytes()[:-30])
    with pytest.raises(InputFileError, match=r"line 2: found half a line.*never acknowledged"):
        garden.told(DAY)
    before = path.read_bytes()
    with pytest.raises(InputFileError, match="line 2"):
        garden.tell(told(FACTS[4], DAY))
    assert path.read_bytes() == before


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


def test_a_full_disk_leaves_the_file_as_it_was(garden: GardenFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    garden.tell(told(FACTS[0], DAY))
    before = (garden.path / TOLD_FILE).read_bytes()

    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(told_file.os, "fsync", full)
    with pytest.raises(GardenError, match="cannot be written: No space left"):
        garden.tell(told(FACTS[2], DAY))
    assert (garden.path / TOLD_FILE).read_bytes() == before


def test_keys_sort_by_their_time_and_never_repeat() -> None:
    keys = [new_key() for _ in range(200)]
    assert len(set(keys)) == 200
    assert {len(key) for key in keys} == {26}
    assert sorted(key[:10] for key in keys) == [key[:10] for key in keys]
