"""A keeper's own number: set with its reason on the sheet's page, and taken off."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, picture, served


def test_an_own_number_is_set_and_taken_off(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/sheet/carrot?own=development.ready_days", size="phone")
        page.get_by_label("Here it is").fill("66")
        page.get_by_role("button", name="Set it").click()
        expect(page.locator(".own .wrong")).to_contain_text("Why this number")
        page.get_by_label("because").fill("our packet says so")
        picture(page, "sheet-own-phone")
        fair(page)
        page.get_by_role("button", name="Set it").click()
        mine = page.locator(".value.mine", has_text="our packet says so")
        expect(mine).to_contain_text("66")
        assert "own=" not in page.url
        mine.get_by_role("button").click()
        expect(page.locator("#said")).to_contain_text("holds again")
        expect(mine).to_have_count(0)
