"""The round in a browser: read, ticked, put off, opened."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, Served, picture, served


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_the_round_is_there(demo: Served, visit: Callable[..., Page], size: str) -> None:
    page = visit(demo.address, size=size)
    expect(page.get_by_role("heading", level=1)).to_have_text("Friday’s round")
    assert page.locator(".stop").count() >= 3
    picture(page, f"round-{size}")
    fair(page)


def test_a_tick_goes_into_the_book(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(here.address)
        first = page.locator(".job").first
        act = first.get_by_role("heading").inner_text()
        first.locator("button.tick").click()
        expect(page.locator("#said")).to_contain_text("In the book")
        expect(page.locator(".stop-list")).not_to_contain_text(act)
        page.get_by_role("button", name="Take it back").click()
        expect(page.locator("#said")).to_contain_text("Taken back")
        expect(page.locator(".stop-list")).to_contain_text(act)
