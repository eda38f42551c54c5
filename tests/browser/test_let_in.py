"""Letting others in, seen: a code is made, the pages of strangers and keepers can be used by anybody."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import Served, picture


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_a_keeper_makes_a_code_and_the_pages_are_fair(
    demo: Served, visit: Callable[..., Page], size: str
) -> None:
    page = visit(f"{demo.address}/people/let-in", size=size)
    page.get_by_label("Odo").check()
    page.get_by_role("button", name="Make a code").click()
    expect(page.locator("#said")).to_contain_text("It lets one device in")
    expect(page.locator(".code")).to_be_visible()
    fair(page)
    picture(page, f"let-others-in-{size}")
    for path in ("/who", "/let-in?code=ABCD-2345", "/trust", "/api"):
        page.goto(demo.address + path)
        fair(page)
        picture(page, f"{path.strip('/').partition('?')[0]}-{size}")
