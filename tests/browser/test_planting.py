"""The page a row's label leads to: what stands there, when it is ready, and telling of it by the row."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, Served, picture, served

CORN = "/planting/sweet-corn-2026-2"


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_a_plantings_page_is_fair(demo: Served, visit: Callable[..., Page], size: str) -> None:
    page = visit(demo.address + CORN, size=size)
    expect(page.locator(".lock-line").first).to_contain_text("No picking")
    picture(page, f"planting-{size}")
    fair(page)


def test_a_label_that_is_not_of_this_garden_is_said_to_be_so(
    demo: Served, visit: Callable[..., Page]
) -> None:
    page = visit(f"{demo.address}/planting/no-such-row")
    expect(page.locator("main")).to_contain_text("No planting in this garden's book answers to that label.")


def test_a_count_is_told_by_the_row_and_taken_back(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(here.address + CORN)
        page.locator("summary", has_text="Counted").press("Enter")
        counted = page.locator("#tell-counted").get_by_label("Plants counted")
        counted.fill("4000")
        page.locator("#tell-counted button").click()
        expect(page.locator("#tell-counted [role=alert]")).to_contain_text("More cannot have come of it")
        counted.fill("17")
        page.locator("#tell-counted > form > button").click()
        expect(page.locator(".stand")).to_contain_text("17 plants, counted 12 Jun")
        page.get_by_role("button", name="Take it back").click()
        expect(page.locator(".stand")).to_contain_text("not counted")
        page.get_by_label("Or say it in a line").fill("weeded, 10 minutes")
        page.locator(".say-of button").click()
        expect(page.locator("#said")).to_contain_text("Weeded Gate 4")
