"""What a sentence with blanks comes to, and what it writes."""

from __future__ import annotations

import shutil
from datetime import date, timedelta
from pathlib import Path

import pytest

from spadework.advice.stand_wanted import SPARE
from spadework.clock.sprout import able_share
from spadework.crops.loader import load_sheet
from spadework.errors import ParameterError
from spadework.garden.blocks import area_m2, overlap
from spadework.usecases.demo_garden import make_demo
from spadework.usecases.look import Look, look_at
from spadework.usecases.plant_ground import free_beds
from spadework.usecases.plant_odds import plant_odds
from spadework.usecases.plant_sentence import Blanks, ComesTo, comes_to, write_sentence
from spadework.usecases.tell_planting import tell_planting
from spadework.usecases.write_answer import Writing

DAY = date(2026, 6, 12)
HOW = Writing(today=DAY, by="maren")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


@pytest.fixture(scope="module")
def look(made: Path) -> Look:
    return look_at(made, DAY)


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


def _of(look: Look, blanks: Blanks) -> ComesTo:
    return comes_to(look.garden, blanks, DAY, "british")


def test_what_is_left_blank_is_as_the_sheet_and_the_bed_have_it(look: Look) -> None:
    found = _of(look, Blanks(crop="beetroot", bed="Lake 2"))
    sheet = load_sheet("beet").sowing
    assert (found.row_cm, found.spacing_cm) == (sheet.row_cm.value, sheet.in_row_cm.value)
    assert (found.rows, found.length_m) == (3, 1.25)  # 1.2 m by 1.25 m are free, rows 38 cm apart
    assert found.plants == 3 * 15
    assert len(found.places) == found.plants


def test_seed_is_counted_by_the_metre_and_the_lots_germination(look: Look) -> None:
    found = _of(look, Blanks(crop="beet", bed="lake-2", lot="beet-26", rows=2, spacing_cm=10.0))
    share = able_share(load_sheet("beet"), found.germination)
    assert found.per_m == pytest.approx(100.0 / 10.0 / share * SPARE)
    assert found.row_m == pytest.approx(2.5)
    assert found.per_m is not None
    assert 0 <= found.pieces - found.per_m * 2.5 < 10
    assert found.left is not None
    assert found.left_after == found.left - found.pieces


def test_its_ground_is_free_ground(look: Look) -> None:
    found = _of(look, Blanks(crop="beet", bed="lake-2", rows=2))
    assert found.block is not None
    others = [block for each in look.garden.standing(DAY, bed="lake-2") for block in each.stays[-1].blocks]
    assert others
    assert not any(overlap(found.block, each) for each in others)
    free = {key: m2 for key, _, m2 in free_beds(look.garden, DAY)}["lake-2"]
    assert found.free_m2 == pytest.approx(free - area_m2(found.block), abs=0.01)


def test_where_nothing_is_free_it_says_so(look: Look) -> None:
    found = _of(look, Blanks(crop="kale", bed="Gate 3"))
    assert (found.fits, found.block, found.places) == (False, None, [])


def test_a_number_of_plants_takes_as_much_as_it_needs(look: Look) -> None:
    found = _of(look, Blanks(way="bought", crop="kale", bed="shed-3", number=4))
    assert (found.rows, found.plants, found.pieces, found.piece) == (2, 4, 4, "plants")
    assert found.block is not None
    assert (found.block.width_m, found.block.length_m) == (1.0, 0.8)  # two rows at 50 cm, two at 40 cm


def test_cloves_are_one_to_a_place(look: Look) -> None:
    found = _of(look, Blanks(crop="garlic", bed="shed-3", rows=1, length_m=1.0))
    assert (found.piece, found.pieces, found.per_m) == ("cloves", found.plants, None)


def test_what_is_written_stands_where_it_was_drawn(garden: Path, look: Look) -> None:
    blanks = Blanks(crop="beet", bed="lake-2", lot="beet-26", rows=2)
    found = _of(look, blanks)
    answer = write_sentence(garden, blanks, HOW)
    assert answer.stored
    planting = look_at(garden, DAY).garden.plantings[answer.entries[0].planting]
    assert planting.stays[-1].blocks == (found.block,)
    assert (planting.rows, planting.seeds, planting.lot) == (2, found.pieces, "beet-26")


def test_plants_from_a_tray_move_all_or_in_part(garden: Path) -> None:
    key = "kohlrabi-2026-2"
    with pytest.raises(ParameterError, match="how many"):
        write_sentence(garden, Blanks(way="out", source=key, bed="lake-2"), HOW)
    before = Writing(today=DAY, by="maren", on=DAY - timedelta(days=1))
    tell_planting(garden, before, key, "counted", {"standing": 20})
    part = Blanks(way="out", source=key, bed="shed-3", number=6)
    some = write_sentence(garden, part, HOW)
    assert some.stored
    after = look_at(garden, DAY).garden
    assert after.plantings[key].plants.number == 14
    assert some.entries[0].planting != key
    rest = write_sentence(garden, Blanks(way="out", source=key, bed="lake-2"), HOW)
    assert rest.entries[0].planting == key
    moved = look_at(garden, DAY).garden.plantings[key]
    assert (moved.bed, moved.plants.number) == ("lake-2", 14)


def test_more_than_there_are_is_asked_about(garden: Path) -> None:
    answer = write_sentence(garden, Blanks(way="bought", crop="kale", bed="shed-3", number=900), HOW)
    assert not answer.stored
    assert answer.questions


def test_what_cannot_be_is_refused(look: Look) -> None:
    with pytest.raises(ParameterError, match="another crop"):
        _of(look, Blanks(crop="carrot", bed="lake-2", lot="beet-26"))
    with pytest.raises(ParameterError, match="cannot be: rows"):
        _of(look, Blanks(crop="carrot", bed="lake-2", rows=0))
    with pytest.raises(ParameterError, match="in which bed"):
        _of(look, Blanks(crop="carrot"))


def test_it_says_when_it_would_be_ready(made: Path, look: Look) -> None:
    odds = plant_odds(made, DAY, _of(look, Blanks(crop="radish", bed="shed-3")), DAY)
    assert odds is not None
    assert odds.emergence is not None
    assert odds.emergence.q50 is not None
    assert odds.ready.q50 is not None
    assert DAY < odds.emergence.q50 < odds.ready.q50
