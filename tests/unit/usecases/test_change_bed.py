"""A bed changed as one act: what it takes along, and what two keepers do to it at once."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from spadework.errors import ParameterError
from spadework.usecases.change_bed import bed_now, change_bed, read_side
from spadework.usecases.keep_garden import make_garden
from spadework.usecases.keep_things import end_bed, keep_bed
from spadework.usecases.show_beds import show_bed
from spadework.usecases.take_back import take_back
from spadework.usecases.write_answer import Writing

DAY = date(2026, 6, 12)
MAREN = Writing(today=DAY, by="maren")
ODO = Writing(today=DAY, by="odo")


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "garden"
    make_garden(
        folder,
        "Plot",
        52.0,
        0.0,
        20.0,
        bed_lines=["2 beds 1.2 x 2.4 m"],
        keepers=["Maren", "Odo"],
        today=DAY,
    )
    return folder


def _at(garden: Path, bed: str) -> tuple[float | None, float | None, float | None]:
    found = show_bed(garden, DAY, bed)
    return found.x_m, found.y_m, found.turn_deg


def test_what_is_not_said_stays(garden: Path) -> None:
    before = show_bed(garden, DAY, "bed-1")
    assert change_bed(garden, MAREN, "bed-1", {"y_m": 5.0}).stored
    after = show_bed(garden, DAY, "bed-1")
    assert (after.y_m, after.x_m, after.soil) == (5.0, before.x_m, before.soil)


def test_a_tunnel_takes_its_beds_along_and_one_undo_brings_all_back(garden: Path) -> None:
    keep_bed(
        garden,
        MAREN,
        "Tunnel",
        {"shape": "tunnel", "x_m": 10.0, "y_m": 0.0, "width_m": 3.0, "length_m": 6.0},
        new=True,
    )
    for name, x_m in (("West", 10.2), ("East", 11.8)):
        said = {"x_m": x_m, "y_m": 0.5, "width_m": 1.0, "length_m": 5.0, "inside": "tunnel"}
        assert keep_bed(garden, MAREN, name, said, new=True).stored
    moved = change_bed(garden, MAREN, "tunnel", {"x_m": 11.7, "turn_deg": 90.0})
    assert moved.stored
    assert len(moved.entries) == 3
    # a quarter turn about its corner: what lay 0.2 east and 0.5 north of it lies 0.5 west and 0.2 north
    assert _at(garden, "west") == pytest.approx((11.2, 0.2, 90.0))
    assert _at(garden, "east") == pytest.approx((11.2, 1.8, 90.0))
    assert take_back(garden, MAREN, moved.entries[0].key, together=True).stored
    assert _at(garden, "tunnel") == (10.0, 0.0, 0.0)
    assert _at(garden, "west") == (10.2, 0.5, 0.0)


def test_the_same_changed_meanwhile_is_asked_about_and_neither_is_lost(garden: Path) -> None:
    was = bed_now(garden, "bed-1").said
    assert change_bed(garden, ODO, "bed-1", {"y_m": 4.0}).stored
    found = change_bed(garden, MAREN, "bed-1", {"y_m": 7.0}, was=was)
    assert not found.stored
    assert found.can_insist
    assert "Odo" in found.questions[0].found
    assert "north 4.00 m" in found.questions[0].found
    assert "north 7.00 m" in found.questions[0].why
    assert _at(garden, "bed-1")[1] == 4.0
    assert change_bed(
        garden, Writing(today=DAY, by="maren", insist=True), "bed-1", {"y_m": 7.0}, was=was
    ).stored
    assert _at(garden, "bed-1")[1] == 7.0


def test_what_each_changed_alone_goes_together_without_a_question(garden: Path) -> None:
    was = bed_now(garden, "bed-1").said
    assert change_bed(garden, ODO, "bed-1", {"soil": "clay loam"}).stored
    assert change_bed(garden, MAREN, "bed-1", {"y_m": 7.0, "soil": was["soil"]}, was=was).stored
    found = show_bed(garden, DAY, "bed-1")
    assert (found.y_m, found.soil) == (7.0, "clay loam")


def test_a_bed_taken_up_meanwhile_is_asked_about(garden: Path) -> None:
    was = bed_now(garden, "bed-1").said
    assert end_bed(garden, ODO, "bed-1", "a path").stored
    found = change_bed(garden, MAREN, "bed-1", {"y_m": 7.0}, was=was)
    assert not found.stored
    assert "took" in found.questions[0].found


def test_nothing_changed_is_said(garden: Path) -> None:
    was = bed_now(garden, "bed-1").said
    with pytest.raises(ParameterError, match="Nothing is changed"):
        change_bed(garden, MAREN, "bed-1", dict(was), was=was)


@pytest.mark.parametrize(
    ("text", "units", "side_m"),
    [
        ("1.2 m", "metric", 1.2),
        ("120 cm", "metric", 1.2),
        ("-3", "metric", -3.0),
        ("4 ft 6 in", "us", 1.3716),
        ("-4", "us", -1.2192),
        ("3 ft 11.2 in", "us", 1.19888),
    ],
)
def test_sides_are_read_in_either_unit(text: str, units: str, side_m: float) -> None:
    assert read_side(text, "us" if units == "us" else "metric") == pytest.approx(side_m, abs=1e-4)


@pytest.mark.parametrize("text", ["", "wide", "1e9 m", "12 stone"])
def test_what_is_no_length_is_said(text: str) -> None:
    with pytest.raises(ParameterError):
        read_side(text, "metric")
