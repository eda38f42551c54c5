"""The sentence with blanks: counted and drawn while it is filled, then written, with and without script."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, PHONE, Served, picture, served

BEETROOT = "/plant?bed=lake-2&crop=beet&lot=beet-26&rows=2"


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_the_sentence_is_fair(demo: Served, visit: Callable[..., Page], size: str) -> None:
    page = visit(demo.address + BEETROOT, size=size)
    picture(page, f"plant-{size}")
    fair(page)


def test_the_count_is_written_while_it_is_filled_and_then_in_the_book(
    demo_copy: Path, visit: Callable[..., Page]
) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/plant?bed=lake-2&meant=2026-06-10", size="phone")
        page.get_by_label("Crop").select_option("beet")
        expect(page.locator(".count")).to_contain_text("3 rows of 1.25 m")
        expect(page.get_by_label("Between rows")).to_have_attribute("placeholder", "38")
        page.get_by_label("Packet").select_option("beet-26")
        expect(page.locator("#comes-to")).to_contain_text("The packet has about")
        page.get_by_label("Rows", exact=True).fill("2")
        expect(page.locator(".count")).to_contain_text("60 seeds for 2 rows of 1.25 m")
        assert page.get_by_label("Rows", exact=True).input_value() == "2"
        expect(page.locator("#comes-to")).not_to_have_attribute("data-old", "")
        page.get_by_role("button", name="Into the book").click()
        expect(page.locator("h1")).to_have_text("Beetroot")
        expect(page.locator("#said")).to_contain_text("Sowed 60 seeds of beetroot in Lake 2, 2 rows")
        expect(page.locator("#said")).to_contain_text("Tried for 10 Jun, done 12 Jun: 2 days later.")


def test_without_script_it_is_worked_out_first(demo: Served, browser: Browser) -> None:
    context = browser.new_context(viewport=PHONE, java_script_enabled=False)
    try:
        page = context.new_page()
        page.goto(f"{demo.address}/plant?bed=lake-2")
        page.get_by_label("Crop").select_option("beet")
        page.get_by_role("button", name="Work it out first").click()
        expect(page.locator(".count")).to_contain_text("3 rows of 1.25 m")
    finally:
        context.close()


def test_a_planting_is_said_otherwise_and_then_moved(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/planting/carrot-2026-2", size="phone")
        page.get_by_role("link", name="Rows, count, variety or day were otherwise").click()
        expect(page.locator(".count")).to_contain_text("4 rows of 2.5 m")
        fair(page)
        page.get_by_label("Seeds").fill("")
        page.get_by_label("Rows", exact=True).fill("3")
        expect(page.locator(".count")).to_contain_text("3 rows of 2.5 m")
        expect(page.locator("#comes-to")).not_to_have_attribute("data-old", "")
        picture(page, "planting-change-phone")
        page.get_by_role("button", name="Into the book").click()
        expect(page.locator("#said")).to_contain_text("3 rows")
        expect(page.locator(".stand")).to_contain_text("3 rows")
        page.get_by_role("link", name="Move it to another bed or place").click()
        page.get_by_label("How many").fill("12")
        page.get_by_label("Bed", exact=True).select_option("shed-3")
        expect(page.locator("#comes-to")).to_contain_text("What it costs")
        expect(page.locator("#comes-to")).not_to_have_attribute("data-old", "")
        fair(page)
        picture(page, "planting-move-phone")
        page.get_by_role("button", name="Into the book").click()
        expect(page.locator("#said")).to_contain_text("Shed 3")
