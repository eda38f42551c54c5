"""Every room and every page of the shed: there, fair to everybody, and with the locks where they belong."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, Served, picture, served
from locked_garden import LOCKED, TODAY, locked_garden

PAGES = {
    "garden": "/garden",
    "bed": "/bed/gate-2",
    "book": "/book",
    "book-sums": "/book/sums",
    "book-photo": "/book/photo",
    "watch": "/watch",
    "shed": "/shed",
    "kit": "/kit",
    "tin": "/tin",
    "people": "/people",
    "settings": "/settings",
    "locks": "/locks",
    "sheets": "/sheets",
    "sheet": "/sheet/carrot",
    "laws": "/laws",
    "law": "/law/emergence-days?crop=carrot&soil_c=10",
    "weather": "/weather",
    "season": "/season",
    "weigh": "/weigh",
    "weigh-sow": "/weigh/sow?crop=carrot",
    "weigh-next": "/weigh/sow-next?crop=lettuce",
    "weigh-thin": "/weigh/thin?planting=carrot-2026-2",
    "weigh-pick": "/weigh/pick?crop=rhubarb",
    "weigh-cover": "/weigh/cover?bed=hill-3",
    "weigh-fits": "/weigh/fits",
    "weigh-out": "/weigh/plant-out?crop=tomato",
    "weigh-again": "/weigh/sow-again?crop=parsnip&sown=2026-05-22&seeds=140&up=11",
}


HREFS = "all => all.map(each => each.getAttribute('href'))"


@pytest.mark.parametrize("size", ["phone", "desk"])
@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_fair(demo: Served, visit: Callable[..., Page], name: str, size: str) -> None:
    page = visit(demo.address + PAGES[name], size=size)
    picture(page, f"{name}-{size}")
    fair(page)


def test_no_page_leads_nowhere(demo: Served, visit: Callable[..., Page]) -> None:
    seen = set()
    for address in PAGES.values():
        page = visit(demo.address + address)
        for href in page.eval_on_selector_all(
            "a[href^='/']", "all => all.map(each => each.getAttribute('href'))"
        ):
            if href.partition("?")[0].count("/") <= 1 and href not in seen:
                seen.add(href)
                assert page.request.get(demo.address + href).ok, href
        page.close()
    assert len(seen) > 15


def test_every_lock_is_on_the_pages_of_its_bed_and_its_book(
    tmp_path: Path, visit: Callable[..., Page]
) -> None:
    with served(locked_garden(tmp_path / "g"), "--today", TODAY.isoformat()) as here:
        for each in LOCKED:
            for address in (f"/bed/{each.bed_key}", "/garden", "/locks", f"/book?bed={each.bed_key}", "/"):
                got = visit(here.address + "/healthy").request.get(here.address + address)
                assert each.word in got.text(), (each.sort, address)


def test_a_line_is_heard_said_and_taken_back(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/book", size="desk")
        page.get_by_label("Say it in a line").fill("picked 1.2 kg rhubarb from Rhubarb bed")
        expect(page.locator("#heard .understood").first).to_contain_text("1.2 kg")
        page.get_by_role("button", name="Into the book").click()
        expect(page.locator("#said")).to_contain_text("In the book")
        first = page.locator(".entry").first
        expect(first).to_contain_text("1.2 kg")
        first.locator("summary").press("Enter")
        first.get_by_role("button", name="Take back").click()
        expect(page.locator(".entry.undone").first).to_contain_text("1.2 kg")


def test_a_line_said_without_a_connection_is_kept(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/book", size="phone")
        here.process.kill()
        page.get_by_label("Say it in a line").fill("picked 1.2 kg rhubarb from Rhubarb bed")
        page.get_by_role("button", name="Into the book").click()
        expect(page.locator("#said")).to_contain_text("Kept on this phone: Said in a line.")
        expect(page.locator("#line-bar")).to_contain_text("No connection")
