"""From nothing to the first round: place, beds drawn as they are typed, weather, what grows."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import picture, served
from spadework.usecases.begin_garden import rests_on
from spadework.usecases.look import site_of
from spadework.usecases.show_beds import list_beds


@dataclass(frozen=True)
class Beginner:
    """Who begins, where, and how they say it."""

    size: str
    today: date
    lat: str
    lon: str
    height: str
    units: str
    beds: str
    winter: tuple[str, str]
    summer: tuple[str, str]
    rain: str
    coldest: str
    grows: str
    understood: str
    round_says: str


BEGINNERS = {
    "metric-phone": Beginner(
        size="phone",
        today=date(2026, 6, 12),
        lat="52.1 N",
        lon="0.1 E",
        height="20 m",
        units="metric",
        beds="6 beds 1.2 x 2.4 m in 2 rows\na tunnel 3 x 6 m",
        winter=("1", "7"),
        summer=("12", "22"),
        rain="50",
        coldest="January",
        grows="sowed 2 rows of carrots in bed 1 on 20 May\nplanted 6 tomatoes in bed 2 on 1 June",
        understood="carrot",
        round_says="Friday’s round",
    ),
    "inches-desk": Beginner(
        size="desk",
        today=date(2026, 6, 12),
        lat="42.5",
        lon="-83.1",
        height="640 ft",
        units="us",
        beds="6 beds 4 x 8 ft in 2 rows",
        winter=("18", "32"),
        summer=("62", "83"),
        rain="2.8",
        coldest="January",
        grows="sowed 2 rows of carrots in bed 1 on May 20",
        understood="May 20",
        round_says="Friday’s round",
    ),
    "south-phone": Beginner(
        size="phone",
        today=date(2026, 11, 20),
        lat="36.8 S",
        lon="174.8 E",
        height="40",
        units="metric",
        beds="4 beds 1 x 3 m",
        winter=("7", "14"),
        summer=("16", "24"),
        rain="95",
        coldest="July",
        grows="sowed 2 rows of carrots in bed 1 on 20 October",
        understood="20 Oct",
        round_says="Friday’s round",
    ),
}


@pytest.mark.parametrize("who", BEGINNERS.values(), ids=list(BEGINNERS))
def test_from_nothing_to_a_first_round(tmp_path: Path, visit: Callable[..., Page], who: Beginner) -> None:
    garden = tmp_path / "new"
    # the pages are the same for all; at each size they are checked once
    checked = fair if who.lat != "36.8 S" else lambda page: page
    with served(garden, "--today", who.today.isoformat()) as here:
        page = visit(here.address, size=who.size)
        head = page.get_by_role("heading", level=1)
        expect(head).to_have_text("Begin a garden")
        page.get_by_label("What do you call it?").fill("First plot")
        page.get_by_label("Who keeps it?").fill("Ada")
        page.get_by_label("Latitude").fill("somewhere")
        page.get_by_label("Longitude").fill(who.lon)
        page.get_by_label("Height above the sea").fill(who.height)
        page.get_by_label("Show numbers in").select_option(who.units)
        page.get_by_role("button", name="Make the garden").click()
        expect(page.get_by_role("alert")).to_contain_text("is not a latitude")
        assert page.get_by_label("What do you call it?").input_value() == "First plot"
        assert not (garden / "garden.toml").exists()
        picture(page, f"begin-{who.size}")
        checked(page)
        page.get_by_label("Latitude").fill(who.lat)
        page.get_by_role("button", name="Make the garden").click()

        expect(head).to_have_text("Its beds")
        lines = page.locator("#bed-lines")
        lines.fill(f"{who.beds}\nsome beds")
        expect(page.locator("#understood .wrong")).to_be_visible()
        lines.fill(who.beds)
        expect(page.locator("#drawn svg")).to_be_visible()
        expect(page.locator("#understood")).to_contain_text("Bed 1")
        picture(page, f"begin-beds-{who.size}")
        checked(page)
        page.get_by_role("button", name="Make the beds").click()

        expect(head).to_have_text("Its weather")
        picture(page, f"begin-weather-{who.size}")
        checked(page)
        page.get_by_label(f"A night in {who.coldest}").fill(who.winter[0])
        page.get_by_label(f"A day in {who.coldest}").fill(who.winter[1])
        warmest = "January" if who.coldest == "July" else "July"
        page.get_by_label(f"A night in {warmest}").fill(who.summer[0])
        page.get_by_role("button", name="Make years from these").click()
        expect(page.get_by_role("alert")).to_contain_text("missing")
        page.get_by_label(f"A day in {warmest}").fill(who.summer[1])
        page.get_by_label("Rain in a usual month").fill(who.rain)
        page.get_by_role("button", name="Make years from these").click()

        expect(head).to_have_text("What grows there now")
        page.locator("#growing").fill(who.grows)
        expect(page.locator("#lines-heard li")).to_have_count(len(who.grows.splitlines()))
        expect(page.locator("#lines-heard")).to_contain_text(who.understood)
        picture(page, f"begin-growing-{who.size}")
        checked(page)
        page.get_by_role("button", name="Go to the first round").click()
        expect(head).to_have_text(who.round_says)
        expect(page.locator("#said")).to_contain_text("This is the first round")
        picture(page, f"first-round-{who.size}")

        # every step can be gone back to, and says what is there
        page.goto(f"{here.address}/begin")
        expect(page.get_by_label("What do you call it?")).to_have_value("First plot")
        page.get_by_label("What do you call it?").fill("Second thoughts")
        page.get_by_role("button", name="Keep it").click()
        expect(head).to_have_text("Its beds")
        expect(page.locator("#drawn svg")).to_be_visible()
    assert site_of(garden).name == "Second thoughts"
    assert site_of(garden).south == (who.lat.endswith("S"))
    assert "known by heart" in rests_on(garden, who.today).means_from
    assert any(bed.standing for bed in list_beds(garden, who.today).beds)
