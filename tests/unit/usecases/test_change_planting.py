"""A planting said otherwise by its own sentence, and a planting moved."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from spadework.advice.moving import STANDS_STILL_DAYS, days_lost, days_put_back, moving_cost
from spadework.crops.loader import load_sheet
from spadework.errors import ParameterError
from spadework.usecases.change_planting import (
    begun,
    change_comes_to,
    change_planting,
    move_comes_to,
    move_planting,
)
from spadework.usecases.demo_garden import make_demo
from spadework.usecases.jobs_today import open_day
from spadework.usecases.look import look_at
from spadework.usecases.plant_sentence import Blanks, write_sentence
from spadework.usecases.take_back import take_back
from spadework.usecases.tell_planting import tell_planting
from spadework.usecases.write_answer import Writing

DAY = date(2026, 6, 12)
HOW = Writing(today=DAY, by="maren")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


def _beet(garden: Path) -> str:
    """Two rows of beetroot sown today from a packet."""
    answer = write_sentence(garden, Blanks(crop="beet", bed="lake-2", lot="beet-26", rows=2), HOW)
    assert answer.stored
    return answer.entries[0].planting


def _left(garden: Path, lot: str = "beet-26") -> float:
    left = look_at(garden, DAY).garden.tin[lot].left()
    assert left is not None
    return left


def test_rows_said_otherwise_move_counts_places_and_the_packet(garden: Path) -> None:
    before = _left(garden)
    key = _beet(garden)
    begin = begun(garden, DAY, key)
    assert (begin.blanks.way, begin.blanks.rows, begin.blanks.lot) == ("here", 2, "beet-26")
    said = replace(begin.blanks, rows=1, seeds=None)
    found = change_comes_to(begin, said, DAY, "british")
    assert found.left == before  # its own sowing is taken back before it is counted
    answer = change_planting(garden, key, said, HOW)
    assert answer.stored
    planting = look_at(garden, DAY).garden.plantings[key]
    assert (planting.rows, planting.seeds) == (1, found.pieces)
    assert planting.stays[-1].blocks == (found.block,)
    assert _left(garden) == before - found.pieces
    assert take_back(garden, HOW, answer.entries[-1].key).stored
    assert look_at(garden, DAY).garden.plantings[key].rows == 2


def test_variety_and_day_leave_the_ground_alone(garden: Path) -> None:
    key = _beet(garden)
    was = look_at(garden, DAY).garden.plantings[key]
    begin = begun(garden, DAY, key)
    earlier = DAY - timedelta(days=3)
    said = replace(begin.blanks, variety="Old Red")
    assert change_planting(garden, key, said, replace(HOW, on=earlier)).stored
    now = look_at(garden, DAY).garden.plantings[key]
    assert (now.variety, now.sown_on) == ("Old Red", earlier)
    assert (now.seeds, now.rows, now.stays[-1].blocks) == (was.seeds, was.rows, was.stays[-1].blocks)


def test_nothing_otherwise_is_said(garden: Path) -> None:
    key = _beet(garden)
    with pytest.raises(ParameterError, match="Nothing would be different"):
        change_planting(garden, key, begun(garden, DAY, key).blanks, HOW)


def test_every_planting_that_stands_can_be_read_as_its_sentence(garden: Path) -> None:
    look = look_at(garden, DAY)
    for planting in look.garden.standing(DAY):
        begin = begun(garden, DAY, planting.key)
        assert begin.blanks.crop == planting.crop
        if planting.bed:
            assert begin.blanks.bed == planting.bed


def test_moved_to_another_bed_it_stands_there_alone(garden: Path) -> None:
    key = _beet(garden)
    counted = replace(HOW, on=DAY)
    assert tell_planting(garden, counted, key, "counted", {"standing": 20}, us=False).stored
    moved = move_comes_to(garden, DAY, key, Blanks(bed="shed-3"), DAY, "british")
    assert moved.all_of_it
    assert moved.found.plants == 20
    answer = move_planting(garden, key, Blanks(bed="shed-3"), HOW)
    assert answer.stored, answer.questions
    assert "Moved 20" in answer.entries[0].text
    now = look_at(garden, DAY).garden
    planting = now.plantings[key]
    assert planting.bed_on(DAY) == "shed-3"
    assert planting.plants.number == 20
    assert planting.moved_on == (DAY,)
    assert key not in {each.key for each in now.standing(DAY, bed="lake-2")}
    assert take_back(garden, HOW, answer.entries[-1].key).stored
    assert look_at(garden, DAY).garden.plantings[key].bed_on(DAY) == "lake-2"


def test_within_its_bed_its_own_ground_is_free(garden: Path) -> None:
    key = _beet(garden)
    there = Blanks(bed="lake-2", number=20, rows=1, across_m=0.0, along_m=0.5)
    answer = move_planting(garden, key, there, replace(HOW, insist=True))
    assert answer.stored
    stay = look_at(garden, DAY).garden.plantings[key].stays[-1]
    assert len(stay.blocks) == 1
    assert stay.blocks[0].along_m == 0.5


def test_some_of_it_becomes_a_planting_of_its_own(garden: Path) -> None:
    key = _beet(garden)
    assert tell_planting(garden, HOW, key, "counted", {"standing": 20}, us=False).stored
    later = Writing(today=DAY + timedelta(days=1), by="maren")
    answer = move_planting(garden, key, Blanks(bed="shed-3", number=5), later)
    assert answer.stored
    now = look_at(garden, later.today).garden
    new = now.plantings[answer.entries[0].planting]
    assert (new.from_planting, new.plants.number, new.bed) == (key, 5, "shed-3")
    assert now.plantings[key].plants.number == 15


def test_uncounted_plants_are_counted_first(garden: Path) -> None:
    with pytest.raises(ParameterError, match="counted"):
        move_planting(garden, _beet(garden), Blanks(bed="shed-3"), HOW)


def test_moving_puts_it_back_by_the_days_it_stands_still(garden: Path) -> None:
    kale, carrot = load_sheet("kale"), load_sheet("carrot")
    check = kale.chill.set_out_check_days
    assert check is not None
    assert days_lost(kale) == check.value
    assert days_lost(carrot) == STANDS_STILL_DAYS
    assert days_put_back(carrot, (DAY, DAY), DAY) == 2 * STANDS_STILL_DAYS
    assert days_put_back(carrot, (DAY,), DAY + timedelta(days=1)) == 0
    assert any("fork" in said for said in moving_cost(carrot, perennial=False).said)
    key = next(
        each.key
        for each in look_at(garden, DAY).garden.standing(DAY)
        if each.crop == "carrot" and "up" in each.stages and each.plants.number
    )

    def grown() -> float:
        plot = next(each for each in open_day(garden, DAY).scene.plots if each.key == key)
        return float(plot.course.grown_days[:, plot.column].mean())

    before = grown()
    assert move_planting(garden, key, Blanks(bed="shed-3"), replace(HOW, insist=True)).stored
    assert 0.0 <= grown() < before
