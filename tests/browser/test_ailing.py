"""The guided look: a part touched, questions answered, the finding in the book; the watch and its sheets."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, Served, picture, served

LEEK = "/ailing?planting=leek-2026-1"


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_a_look_from_the_part_to_the_book(demo_copy: Path, visit: Callable[..., Page], size: str) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/planting/leek-2026-1", size=size)
        page.get_by_role("link", name="It looks wrong").click()
        expect(page.get_by_role("heading", name="What ails it?")).to_be_visible()
        picture(page, f"ailing-plant-{size}")
        fair(page)
        # the parts of the drawing are reached one by one, and one is chosen by the keyboard
        page.locator(".part-plant").get_by_role("link", name="The leaves").focus()
        page.keyboard.press("Enter")
        expect(page.get_by_role("heading", name="The leaves: what do you see?")).to_be_visible()
        picture(page, f"ailing-signs-{size}")
        fair(page)
        page.get_by_role("link", name="Orange to brown pustules that smear").click()
        expect(page.get_by_role("heading", name="What it may be")).to_be_visible()
        expect(page.get_by_text("something that is not in the list")).to_be_visible()
        expect(page.locator(".cause").first).to_be_visible()
        picture(page, f"ailing-causes-{size}")
        fair(page)
        if page.locator(".question").count():
            page.locator(".answers").get_by_role("link", name="Cannot tell").click()
            expect(page.locator(".told")).to_contain_text("cannot tell")
        page.locator(".cause").first.get_by_role("button", name="Note").click()
        expect(page.locator("#said")).to_contain_text("In the book")


def test_words_are_echoed_and_taken_back(demo: Served, visit: Callable[..., Page]) -> None:
    page = visit(demo.address + LEEK)
    page.get_by_label("Or say it in your own words").fill("rusty spots")
    page.get_by_role("button", name="Say it").click()
    expect(page.locator(".told")).to_contain_text("rusty spots")
    page.get_by_role("link", name="Take back").first.click()
    expect(page.get_by_role("heading", name="Where is it?")).to_be_visible()


def test_a_look_at_a_trouble_is_told_on_its_card(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/watch")
        card = page.locator("article", has=page.get_by_role("link", name="Late blight"))
        card.get_by_text("I looked").click()
        card.get_by_role("button", name="Into the book").click()
        expect(page.locator("#said")).to_contain_text("In the book")
        page.goto(f"{here.address}/watch")
        expect(card).to_contain_text("Last looked for 12 Jun")


def test_the_look_works_without_script(demo: Served, browser: Browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{demo.address}/bitten?planting=cabbage-2026-1&part=leaf")
    page.get_by_role("link", name="Many small round holes, as if shot").click()
    expect(page.get_by_role("heading", name="What it may be")).to_be_visible()
    expect(page.locator(".cause h3").first).to_be_visible()
    # a crop that stands in several places is asked about, with what was said kept
    page.goto(f"{demo.address}/ailing?crop=tomato&say=rusty+spots")
    page.get_by_label("The", exact=True).select_option(index=1)
    page.get_by_role("button", name="Look").click()
    expect(page.locator(".told")).to_contain_text("rusty spots")
    context.close()


@pytest.mark.parametrize("size", ["phone", "desk"])
@pytest.mark.parametrize(
    "address", ["/ailing", "/sheet/cabbage-maggot", "/sheets?find=mesh", "/watch?days=42"]
)
def test_pages_of_the_watch_are_fair(
    demo: Served, visit: Callable[..., Page], address: str, size: str
) -> None:
    page = visit(demo.address + address, size=size)
    fair(page)
