"""Packet days become warmth at the place's usual sowing time."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from gardens import make_garden
from spadework.errors import ParameterError
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.packet import Packet, by_packet
from spadework.usecases.setting import Setting, open_setting

TODAY = date(2018, 5, 1)


@pytest.fixture(scope="module")
def north(tmp_path_factory: pytest.TempPathFactory) -> Setting:
    return open_setting(make_garden(tmp_path_factory.mktemp("packet"), "north"), TODAY)


@pytest.mark.parametrize(
    ("crop", "days", "first", "last"),
    [("carrot", 70, (4, 5), (5, 5)), ("bush-bean", 55, (5, 1), (5, 25)), ("spinach", 42, (3, 20), (4, 25))],
)
def test_the_usual_time_is_one_a_grower_would_name(
    north: Setting, crop: str, days: float, first: tuple[int, int], last: tuple[int, int]
) -> None:
    """Common practice on the high plains, no source."""
    _, said = by_packet(north, north.sheet(crop), Packet(days))
    day, month = said.split("sowing about ")[1].split(",")[0].split()
    told = date(2019, ["Jan", "Feb", "Mar", "Apr", "May", "Jun"].index(month) + 1, int(day))
    assert date(2019, *first) <= told <= date(2019, *last)
    assert f"{days:g} days" in said


def test_a_packet_of_more_days_needs_more_warmth(north: Setting) -> None:
    sheet = north.sheet("carrot")
    needs = [by_packet(north, sheet, Packet(days))[0].development.ready_days.value for days in (60, 70, 85)]
    assert needs == sorted(needs)
    assert needs[0] < needs[-1]


def test_days_from_the_usual_sowing_come_back_as_days(north: Setting) -> None:
    """Sown on the day the packet counts from, the middle of the years is the packet's own day."""
    packet = Packet(75, sown=date(2018, 4, 20))
    asked = ask_ready(north.folder.path, date(2018, 4, 19), "carrot", sown=date(2018, 4, 20), packet=packet)
    assert asked.ready.q50 is not None
    assert abs((asked.ready.q50 - date(2018, 4, 20)).days - 75) <= 4
    assert any("packet's 75 days" in said for said in asked.assumptions)


def test_days_from_setting_out_move_that_requirement(north: Setting) -> None:
    sheet = north.sheet("tomato")
    early, _ = by_packet(north, sheet, Packet(60, from_setting_out=True))
    late, _ = by_packet(north, sheet, Packet(85, from_setting_out=True))
    assert early.development.set_out_days is not None
    assert late.development.set_out_days is not None
    assert early.development.set_out_days.value < late.development.set_out_days.value
    assert early.development.set_out_days.own is not None


def test_the_south_counts_from_its_own_spring(tmp_path: Path) -> None:
    south = open_setting(make_garden(tmp_path, "south"), TODAY)
    _, said = by_packet(south, south.sheet("tomato"), Packet(70, from_setting_out=True))
    assert any(month in said for month in ("Sep", "Oct"))


def test_a_variety_in_the_gardens_own_file_counts_the_same(tmp_path: Path) -> None:
    garden = make_garden(tmp_path, "north")
    (garden / "overrides.toml").write_text("[carrot.development]\npacket_days = 60\n", encoding="utf-8")
    plain = ask_ready(garden, TODAY, "carrot", sown=TODAY)
    assert any("packet's 60 days" in said for said in plain.assumptions)


@pytest.mark.parametrize("packet", [Packet(5), Packet(900), Packet(60, from_setting_out=True), Packet(12)])
def test_what_no_packet_prints_is_refused(north: Setting, packet: Packet) -> None:
    with pytest.raises(ParameterError):
        by_packet(north, north.sheet("parsnip"), packet)
