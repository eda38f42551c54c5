"""Why a job is worth doing: what waiting leaves, drawn and in a table, odds as year dots, and the tick."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import Served, picture


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_a_job_is_opened_up(demo: Served, visit: Callable[..., Page], size: str) -> None:
    page = visit(demo.address, size=size)
    page.locator(".why-link").nth(1).click()
    expect(page.get_by_role("heading", name="If it waits")).to_be_visible()
    drops = page.locator("svg.waiting-drops")
    expect(drops).to_be_visible()
    assert "in a week" in (drops.get_attribute("aria-label") or "")
    expect(page.locator(".by-years svg.year-dots")).to_have_count(3)
    page.get_by_text("As a table").click()
    expect(page.get_by_role("columnheader", name="Lost of it, on average")).to_be_visible()
    page.locator("summary", has_text="As a table").click()
    picture(page, f"why-{size}")
    fair(page)
