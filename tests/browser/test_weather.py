"""The weather page: an own reading, a told fact and its forgetting, by sentences with blanks."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, picture, served


def test_readings_and_facts_are_told_and_forgotten(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/weather", size="phone")
        said = page.locator("#said")
        page.locator("summary", has_text="The rain gauge").click()
        page.get_by_label("It held").fill("12")
        page.get_by_label("since", exact=True).fill("3")
        page.locator("form[action='/weather/rain'] button").click()
        expect(said).to_contain_text("12 mm")
        expect(page.get_by_label("It held")).to_have_value("")

        page.locator("summary", has_text="A day of a forecast").click()
        picture(page, "weather-telling-phone")
        page.get_by_label("the night is").fill("2")
        page.locator("form[action='/weather/tell/forecast'] button").click()
        wrong = page.locator("form[action='/weather/tell/forecast'] .wrong")
        expect(wrong).to_contain_text("its night and its day")
        page.get_by_label("the day", exact=True).first.fill("14")
        page.locator("form[action='/weather/tell/forecast'] button").click()
        expect(said).to_contain_text("Told: forecast for 12 Jun")
        told = page.locator(".told-list li")
        expect(told).to_have_count(1)
        soil = page.locator("section[aria-labelledby=soil-is]")
        expect(soil.locator("svg").first).to_be_visible()
        expect(soil).to_contain_text("Lake 1 to 4")
        fair(page)
        told.get_by_role("button").click()
        expect(said).to_contain_text("Forgotten")
        expect(told).to_have_count(0)
