"""Packet days become warmth at the place's usual sowing time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from gardens import make_garden
from spadework.errors import GardenError, ParameterError
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.packet import Packet, packet_said
from spadework.usecases.setting import Setting, open_setting
from spadework.usecases.weigh_sowing import weigh_sowing

TODAY = date(2018, 5, 1)
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


@pytest.fixture(scope="module")
def north(tmp_path_factory: pytest.TempPathFactory) -> Setting:
    return open_setting(make_garden(tmp_path_factory.mktemp("packet"), "north"), TODAY)


def counted_from(said: str) -> date:
    day, month = said.split(" about ")[1].split(":")[0].split()
    return date(2019, MONTHS.index(month) + 1, int(day))


@pytest.mark.parametrize(
    ("crop", "days", "first", "last"),
    [
        ("carrot", 70, (4, 10), (5, 5)),
        ("spinach", 42, (4, 5), (5, 5)),
        ("bush-bean", 55, (5, 10), (5, 30)),
        ("sweet-corn", 80, (5, 1), (5, 20)),
        ("cabbage", 85, (4, 10), (5, 10)),
        ("tomato", 75, (5, 15), (6, 1)),
    ],
)
def test_the_usual_time_is_one_a_grower_would_name(
    north: Setting, crop: str, days: float, first: tuple[int, int], last: tuple[int, int]
) -> None:
    """Common practice on the high plains, no source."""
    said = packet_said(north.sheet(crop, packet=Packet(days)))
    assert date(2019, *first) <= counted_from(said) <= date(2019, *last)
    assert said.startswith(f"{days:g} packet days")
    assert ("setting out" in said) == (crop in ("cabbage", "tomato"))


def test_a_packet_of_more_days_needs_more_warmth(north: Setting) -> None:
    sheets = [north.sheet("carrot", packet=Packet(days)) for days in (60, 70, 85)]
    needs = [sheet.development.ready_days.value for sheet in sheets]
    assert needs == sorted(needs)
    assert needs[0] < needs[-1]


@pytest.mark.parametrize(("crop", "days"), [("carrot", 75), ("bush-bean", 55), ("tomato", 80)])
def test_days_from_the_usual_day_come_back_as_days(north: Setting, crop: str, days: int) -> None:
    """Started on the day the packet counts from, the middle of the years is the packet's own day."""
    packet = Packet(days)
    usual = counted_from(packet_said(north.sheet(crop, packet=packet)))
    start = usual.replace(year=2018)
    ask = replace(north, today=start - timedelta(days=1))
    when = {"set_out_on": start} if crop == "tomato" else {"sown": start}
    found = ask_ready(ask.folder.path, ask.today, crop, packet=packet, **when)
    assert found.ready.q50 is not None
    assert abs((found.ready.q50 - start).days - days) <= 3


def test_counted_from_setting_out_both_requirements_move_together(north: Setting) -> None:
    plain = north.sheet("tomato").development
    packed = north.sheet("tomato", packet=Packet(60)).development
    assert plain.set_out_days is not None
    assert packed.set_out_days is not None
    assert packed.set_out_days.value < plain.set_out_days.value
    assert packed.set_out_days.own is not None
    ratio = packed.set_out_days.value / plain.set_out_days.value
    assert packed.ready_days.value == pytest.approx(plain.ready_days.value * ratio)


def test_days_counted_from_sowing_under_cover_leave_the_weeks_there_out(north: Setting) -> None:
    weeks = north.sheet("tomato").sowing.weeks_to_set_out
    assert weeks is not None
    planted = north.sheet("tomato", packet=Packet(80)).development.ready_days.value
    sown = north.sheet("tomato", packet=Packet(80 + 7 * weeks.value, False)).development.ready_days.value
    assert sown == pytest.approx(planted, rel=0.02)


def test_the_day_can_be_changed(north: Setting) -> None:
    early = north.sheet("carrot", packet=Packet(70, sown=date(2018, 4, 1)))
    late = north.sheet("carrot", packet=Packet(70, sown=date(2018, 6, 1)))
    assert "1 Apr" in packet_said(early)
    assert early.development.ready_days.value < late.development.ready_days.value


def test_the_south_counts_from_its_own_spring(tmp_path: Path) -> None:
    south = open_setting(make_garden(tmp_path, "south"), TODAY)
    said = packet_said(south.sheet("tomato", packet=Packet(70)))
    assert counted_from(said).month in (9, 10)


def test_a_garden_may_set_packet_days_for_good(tmp_path: Path) -> None:
    garden = make_garden(tmp_path, "north")
    plain = ask_ready(garden, TODAY, "carrot", sown=TODAY)
    (garden / "overrides.toml").write_text("[carrot.development]\npacket_days = 60\n", encoding="utf-8")
    packed = ask_ready(garden, TODAY, "carrot", sown=TODAY)
    assert plain.ready.q50 is not None
    assert packed.ready.q50 is not None
    assert packed.ready.q50 < plain.ready.q50
    assert packed.assumptions[0].startswith("60 packet days counted from a sowing about")
    assert any("60 packet days" in said for said in weigh_sowing(garden, TODAY, "carrot").assumptions)
    (garden / "overrides.toml").write_text(
        "[carrot.development]\npacket_days = 60\nready_days = 40\n", encoding="utf-8"
    )
    with pytest.raises(GardenError, match="packet_days and ready_days"):
        ask_ready(garden, TODAY, "carrot", sown=TODAY)


@pytest.mark.parametrize(
    ("crop", "packet"),
    [
        ("parsnip", Packet(5)),
        ("parsnip", Packet(900)),
        ("parsnip", Packet(60, from_setting_out=True)),
        ("parsnip", Packet(12)),
        ("tomato", Packet(40, from_setting_out=False)),
        ("garlic", Packet(200)),
        ("okra", Packet(20, sown=date(2018, 1, 5))),
    ],
)
def test_what_cannot_be_counted_is_refused(north: Setting, crop: str, packet: Packet) -> None:
    with pytest.raises(ParameterError):
        north.sheet(crop, packet=packet)


def test_garlic_counts_from_the_autumn_day_that_is_named(north: Setting) -> None:
    sheet = north.sheet("garlic", packet=Packet(250, sown=date(2017, 10, 10)))
    assert sheet.development.ready_days.value > 20
