"""What the book's page rests on: lines said all or none, likely acts, photos, weights and minutes."""

from __future__ import annotations

import shutil
import struct
import zlib
from datetime import date, timedelta
from pathlib import Path

import pytest

from spadework import units
from spadework.errors import ParameterError
from spadework.garden.entries import Minutes, Picked, RainGauge
from spadework.usecases.demo_garden import make_demo
from spadework.usecases.keep_photo import keep_photo, list_photos, read_photo
from spadework.usecases.likely_acts import likely_acts, tell_likely
from spadework.usecases.look import last_entry, look_at
from spadework.usecases.say_lines import say_lines
from spadework.usecases.season_work import kind_of_work, season_work
from spadework.usecases.take_back import take_back
from spadework.usecases.write_answer import Writing

DAY = date(2026, 6, 12)
HOW = Writing(today=DAY, by="maren")
KEY = "01KB0000000000000000000A01"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


# -- lines -----------------------------------------------------------------------------------------


def test_several_lines_are_written_together(garden: Path) -> None:
    found = say_lines(garden, "picked 900 g rhubarb\n\nweeded Lake 2, 10 minutes\n", HOW)
    assert found.stored
    assert [line.kind for line in found.entries] == ["picked", "tended", "minutes"]


def test_one_line_that_is_asked_about_keeps_the_others_out(garden: Path) -> None:
    end = last_entry(garden)
    found = say_lines(garden, "picked 900 g rhubarb\nweeded", HOW)
    assert (found.stored, found.open) == (False, True)
    assert last_entry(garden) == end


def test_what_is_asked_has_answers_to_choose_of(garden: Path) -> None:
    asked = say_lines(garden, "tied up peas", HOW, only_ask=True)
    question = asked.lines[0].questions[0]
    assert question.about == "planting"
    assert {each.key for each in question.choices} == {"pea-2026-1", "pea-2026-2", "pea-2026-3"}
    assert "Shed 2" in next(each.name for each in question.choices if each.key == "pea-2026-3")
    found = say_lines(garden, "tied up peas", HOW, where={0: ("", "pea-2026-3")})
    assert found.stored
    assert found.entries[0].planting == "pea-2026-3"


def test_a_later_line_sees_what_an_earlier_one_did(garden: Path) -> None:
    found = say_lines(garden, "cleared the courgettes in Gate 3\npicked 300 g courgettes from Gate 3", HOW)
    assert not found.stored
    assert found.lines[1].questions
    assert not found.lines[0].questions


def test_sent_twice_lines_are_written_once(garden: Path) -> None:
    how = Writing(today=DAY, by="maren", key=KEY)
    first = say_lines(garden, "picked 900 g rhubarb\ncleared the courgettes in Gate 3", how)
    end = last_entry(garden)
    again = say_lines(garden, "picked 900 g rhubarb\ncleared the courgettes in Gate 3", how)
    assert first.stored
    assert again.stored
    assert [each.key for each in again.entries] == [each.key for each in first.entries]
    assert last_entry(garden) == end


def test_nothing_is_refused(garden: Path) -> None:
    with pytest.raises(ParameterError, match="Nothing is said"):
        say_lines(garden, " \n ", HOW)
    with pytest.raises(ParameterError, match="many at once"):
        say_lines(garden, "weeded Lake 2\n" * 41, HOW)


# -- likely acts -----------------------------------------------------------------------------------


def test_what_is_told_again_and_again_is_offered_when_it_is_due(made: Path) -> None:
    offered = likely_acts(made, DAY)
    assert 3 <= len(offered) <= 8
    assert len({each.label for each in offered}) == len(offered)
    jobs = [each.sort == "job" for each in offered]
    assert jobs == sorted(jobs, reverse=True)  # the round's come first


def test_a_picking_of_today_is_not_offered_again(garden: Path) -> None:
    picked = next(
        (each for each in likely_acts(garden, DAY, most=40) if each.sort == "picked" and each.planting), None
    )
    assert picked is not None
    answer = tell_likely(garden, HOW, "picked", planting=picked.planting, numbers={"kg": 0.8})
    assert answer.stored
    act = look_at(garden, DAY).garden.plantings[picked.planting].history[-1].act
    assert isinstance(act, Picked)
    assert act.kg == 0.8
    assert picked.planting not in {each.planting for each in likely_acts(garden, DAY, most=40)}


def test_a_gauge_counts_the_days_since_it_was_read(garden: Path) -> None:
    before = Writing(today=DAY, by="maren", on=DAY - timedelta(days=1))
    tell_likely(garden, before, "rain gauge", numbers={"rain_mm": 3.0})
    answer = tell_likely(garden, HOW, "rain gauge", numbers={"rain_mm": 4.0})
    assert answer.stored
    act = look_at(garden, DAY).garden.entries[-1].act
    assert act == RainGauge(rain_mm=4.0, days=1)


def test_inches_are_kept_in_millimetres(garden: Path) -> None:
    settings = garden / "garden.toml"
    settings.write_text(settings.read_text().replace('units = "metric"', 'units = "us"'))
    tell_likely(garden, HOW, "rain gauge", numbers={"rain_mm": 0.5})
    act = look_at(garden, DAY).garden.entries[-1].act
    assert isinstance(act, RainGauge)
    assert act.rain_mm == pytest.approx(0.5 * units.MM_PER_INCH)


def test_without_its_number_nothing_is_written(garden: Path) -> None:
    with pytest.raises(ParameterError, match="How much"):
        tell_likely(garden, HOW, "watered", bed="lake-2")
    with pytest.raises(ParameterError, match="none of the acts"):
        tell_likely(garden, HOW, "soil felt", bed="lake-2", choice="muddy")


# -- what came in, what it took --------------------------------------------------------------------


def test_weights_are_those_of_the_book(made: Path) -> None:
    work = season_work(made, DAY)
    entries = look_at(made, DAY).garden.entries
    kg = sum(
        each.act.kg or 0.0
        for each in entries
        if isinstance(each.act, Picked)
        and each.planting == "rhubarb-2021-1"
        and each.happened_on.year == 2026
    )
    rhubarb = next(each for each in work.crops if each.crop == "rhubarb")
    assert rhubarb.kg == pytest.approx(kg, abs=0.001)
    assert work.since == date(2026, 1, 1)


def test_every_minute_is_in_one_week_and_one_kind(made: Path) -> None:
    work = season_work(made, DAY)
    assert len(work.weeks) == 8
    assert all(week.first.weekday() == 0 for week in work.weeks)
    first = work.weeks[0].first
    told = sum(
        each.act.minutes * max(1, each.act.people)
        for each in look_at(made, DAY).garden.entries
        if isinstance(each.act, Minutes) and first <= each.happened_on <= DAY
    )
    assert sum(week.minutes for week in work.weeks) == pytest.approx(told, abs=1.0)
    assert all(sum(week.kinds.values()) == pytest.approx(week.minutes, abs=0.5) for week in work.weeks)


def test_a_job_is_called_by_its_kind_of_work() -> None:
    assert kind_of_work("weed-lake-2") == "weeding"
    assert kind_of_work("plant-out-kale-2026-1") == "planting out"
    assert kind_of_work("mending the gate") == "mending the gate"
    assert kind_of_work("") == "other work"


# -- photos ----------------------------------------------------------------------------------------


def _png(shade: int) -> bytes:
    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
    words = chunk(b"tEXt", b"place\x00N 52 30 0")
    return head + words + chunk(b"IDAT", zlib.compress(bytes([0, shade]))) + chunk(b"IEND", b"")


def test_a_photo_is_kept_without_its_place_and_stands_at_its_bed(garden: Path) -> None:
    kept = keep_photo(garden, _png(128), HOW, planting="pea-2026-3", words="yellow leaves")
    data, media = read_photo(garden, kept.sha256)
    assert media == "image/png"
    assert b"N 52 30 0" not in data
    at_bed = list_photos(garden, DAY, bed="shed-2")
    assert [(each.sha256, each.words) for each in at_bed] == [(kept.sha256, "yellow leaves")]
    assert list_photos(garden, DAY, bed="lake-1") == []
    take_back(garden, HOW, kept.answer.entries[0].key)
    assert list_photos(garden, DAY) == []


def test_what_is_no_photo_is_refused_and_nothing_is_written(garden: Path) -> None:
    end = last_entry(garden)
    with pytest.raises(ParameterError, match="no photo"):
        keep_photo(garden, b"GIF89a" + bytes(20), HOW)
    with pytest.raises(ParameterError, match="No photo"):
        keep_photo(garden, b"", HOW)
    assert last_entry(garden) == end
