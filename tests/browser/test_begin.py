"""From nothing to the first round, with a place, some beds and twelve means."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, picture, served

NIGHT = "-2 -1 2 5 9 12 14 14 11 7 3 0"
DAY = "4 6 10 15 19 22 24 24 20 14 8 5"
RAIN = "55 45 50 50 60 60 65 60 55 60 60 60"


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_a_first_garden(tmp_path: Path, visit: Callable[..., Page], size: str) -> None:
    with served(tmp_path / "new", "--today", DEMO_DAY.isoformat()) as here:
        page = visit(here.address, size=size)
        expect(page.get_by_role("heading", level=1)).to_have_text("Begin a garden")
        picture(page, f"begin-{size}")
        fair(page)
        page.get_by_label("What do you call it?").fill("First plot")
        page.get_by_label("Who keeps it?").fill("Ada")
        page.get_by_label("Latitude").fill("52.1")
        page.get_by_label("Longitude").fill("0.1")
        page.get_by_label("Its beds").fill("6 beds 1.2 x 2.4 m in 2 rows")
        page.get_by_role("button", name="Make the garden").click()
        expect(page.get_by_role("alert")).to_contain_text("height above the sea")
        assert page.get_by_label("What do you call it?").input_value() == "First plot"
        page.get_by_label("Height above the sea").fill("20")
        page.get_by_role("button", name="Make the garden").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Weather to begin with")
        fair(page)
        page.get_by_label("Night").fill(NIGHT)
        page.get_by_label("Day,").fill(DAY)
        page.get_by_label("Rain of the month").fill(RAIN)
        page.get_by_role("button", name="Make the years").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Friday’s round")
        picture(page, f"first-round-{size}")
        fair(page)
