"""For those without a mouse, with colours of their own, on the other side of the world, and in Fahrenheit."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, Served, picture, served
from locked_garden import TODAY, locked_garden


def test_a_job_is_ticked_by_keys_alone(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(here.address, size="desk")
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.className") == "skip"
        for _ in range(120):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.matches('button.tick')"):
                break
        page.keyboard.press("Enter")
        expect(page.locator("#said")).to_contain_text("In the book")


def test_own_colours_lose_nothing(demo: Served, visit: Callable[..., Page]) -> None:
    page = visit(demo.address)
    page.emulate_media(forced_colors="active")
    picture(page, "round-own-colours")
    border = "getComputedStyle(document.querySelector('button.tick')).borderTopWidth"
    assert page.evaluate(border) != "0px"
    current = page.locator(".rooms a[aria-current]")
    assert current.evaluate("each => getComputedStyle(each).borderTopStyle") == "solid"


def test_a_southern_garden_in_fahrenheit(tmp_path: Path, visit: Callable[..., Page]) -> None:
    garden = locked_garden(tmp_path / "g", "south")
    settings = garden / "garden.toml"
    settings.write_text(settings.read_text().replace('units = "metric"', 'units = "us"'))
    with served(garden, "--today", TODAY.isoformat()) as here:
        page = visit(here.address)
        expect(page.locator(".sky")).to_contain_text("°F")
        assert "°C" not in page.locator("main").inner_text()
        fair(page)
        page.goto(f"{here.address}/season")
        assert page.locator(".month-word").first.text_content() == "Jul"
        picture(page, "season-south-us")
        page.goto(f"{here.address}/weather")
        assert "°C" not in page.locator("main").inner_text()
