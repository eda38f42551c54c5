"""A planting opened up, and what may be told of it where it stands."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest

from spadework import units
from spadework.errors import ParameterError, UnknownName
from spadework.usecases.demo_garden import make_demo
from spadework.usecases.note_line import note_line
from spadework.usecases.show_planting import PlantingPage, show_planting
from spadework.usecases.tell_planting import acts_offered, tell_planting
from spadework.usecases.write_answer import Writing

DAY = date(2026, 6, 12)
HOW = Writing(today=DAY, by="maren")
CORN = "sweet-corn-2026-2"
CARROTS = "carrot-2026-2"
RHUBARB = "rhubarb-2021-1"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


def _offered(page: PlantingPage) -> set[str]:
    return {each.what for each in acts_offered(page, us=False)}


def test_what_was_seen_is_said_and_what_was_not_is_foreseen(made: Path) -> None:
    page = show_planting(made, DAY, CARROTS)
    up, ready = page.steps
    assert (up.name, up.seen_on, up.odds) == ("up", date(2026, 5, 26), None)
    assert ready.odds is not None
    assert ready.odds.q50 is not None
    assert ready.odds.q50 > DAY
    assert page.reeds is not None
    assert all(year[0] == 0.0 for year in page.reeds.ways)
    assert len({tuple(year[:3]) for year in page.reeds.ways}) == 1  # the season so far is one for all years


def test_a_late_crop_says_what_may_take_it(made: Path) -> None:
    page = show_planting(made, DAY, CORN)
    assert page.reaches is not None
    assert [each.cause for each in page.losses] == ["frost"]
    assert page.reeds is not None
    assert 0 < sum(page.reeds.lost) < page.reaches.years
    assert page.planting.locks  # manured this spring


def test_what_is_picked_already_has_no_odds_of_being_ready(made: Path) -> None:
    page = show_planting(made, DAY, RHUBARB)
    assert page.reeds is None
    assert page.reaches is None
    ready = next(step for step in page.steps if step.name == "ready")
    assert ready.seen_on is not None
    assert ready.seen_on.year == DAY.year


def test_only_what_can_have_happened_is_offered(made: Path) -> None:
    assert _offered(show_planting(made, DAY, CORN)) == {"up", "counted", "cleared", "lost"}
    carrots = _offered(show_planting(made, DAY, CARROTS))
    assert "lifted" in carrots
    assert "picked" not in carrots
    assert "up" not in carrots
    assert "picked" in _offered(show_planting(made, DAY, RHUBARB))


def test_told_in_pounds_it_is_kept_in_kilograms(garden: Path) -> None:
    before = show_planting(garden, DAY, RHUBARB).planting.picked_kg
    answer = tell_planting(garden, HOW, RHUBARB, "picked", {"kg": 2.0}, us=True)
    assert answer.stored
    after = show_planting(garden, DAY, RHUBARB).planting.picked_kg
    assert after - before == pytest.approx(2 * units.KG_PER_POUND)


def test_lost_it_stands_no_more_and_nothing_more_is_offered(garden: Path) -> None:
    tell_planting(garden, HOW, CORN, "lost", {}, "birds took the seed")
    page = show_planting(garden, DAY, CORN)
    assert not page.stands
    assert (page.planting.ended_how, page.planting.ended_why) == ("lost", "birds took the seed")
    assert page.steps == []
    assert acts_offered(page, us=False) == []


def test_what_cannot_be_is_refused_or_asked(garden: Path) -> None:
    with pytest.raises(ParameterError, match="missing"):
        tell_planting(garden, HOW, CORN, "counted", {})
    with pytest.raises(ParameterError, match="cannot be"):
        tell_planting(garden, HOW, CORN, "counted", {"standing": 2.5})
    assert not tell_planting(garden, HOW, CORN, "counted", {"standing": 4000}).stored
    with pytest.raises(UnknownName):
        show_planting(garden, DAY, "no-such-row")


def test_its_book_has_what_was_done_to_the_whole_bed_while_it_stood_there(garden: Path) -> None:
    before = show_planting(garden, DAY, CARROTS)
    bed = before.planting.bed
    note_line(garden, f"watered {bed} 40 l", HOW)
    note_line(garden, "watered gate 2 40 l", HOW)
    after = show_planting(garden, DAY, CARROTS)
    new = [line for line in after.entries if line.key not in {each.key for each in before.entries}]
    assert [(line.bed, line.kind, line.planting) for line in new] == [(bed, "watered", "")]
    assert new[0].key in after.of_bed
    begun = before.planting.started_on
    assert all(line.on >= begun for line in after.entries if line.key in after.of_bed)
    assert [line.on for line in after.entries] == sorted(line.on for line in after.entries)
