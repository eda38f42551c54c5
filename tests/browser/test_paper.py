"""The page of papers, and the papers as the browser gets them."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from browser.checks import fair
from browser.conftest import Served, picture


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_what_can_be_printed(demo: Served, visit: Callable[..., Page], size: str) -> None:
    page = visit(f"{demo.address}/paper", size=size)
    picture(page, f"paper-{size}")
    fair(page)
    for address, kind in (
        ("/paper/round.pdf?minutes=30", "application/pdf"),
        ("/paper/bed.pdf?bed=gate-2", "application/pdf"),
        ("/paper/labels.pdf?bed=", "application/pdf"),
        ("/calendar.ics", "text/calendar"),
    ):
        got = page.request.get(f"{demo.address}{address}")
        assert got.ok, address
        assert got.headers["content-type"].startswith(kind)
        assert len(got.body()) > 1000
