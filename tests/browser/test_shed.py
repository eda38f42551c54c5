"""The shed: kit and seed told of by sentences with blanks, and the garden's units changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, served


def test_kit_and_seed_are_told_and_units_changed(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/kit", size="phone")
        said = page.locator("#said")
        page.get_by_label("We have").fill("Blue net")
        page.get_by_label("which is").select_option("netting")
        page.get_by_label("long", exact=True).fill("12")
        page.get_by_role("button", name="Into the book").click()
        expect(said).to_contain_text("Blue net")
        expect(page.get_by_role("row", name="Blue net")).to_contain_text("12 m")

        page.goto(f"{here.address}/tin")
        page.get_by_label("Seed of").select_option("carrot")
        page.get_by_label("variety").fill("Inventa")
        page.get_by_label("about", exact=True).fill("half a packet")
        page.locator("form[action='/tin/add'] button").click()
        expect(page.locator("form[action='/tin/add'] .wrong")).to_contain_text("not a number")
        page.get_by_label("about", exact=True).fill("900")
        page.locator("form[action='/tin/add'] button").click()
        expect(page.locator(".packet", has_text="Inventa")).to_have_count(1)
        page.get_by_label("Find a packet").fill("inventa")
        expect(page.locator(".packet:visible")).to_have_count(1)
        expect(page.locator(".packet:visible")).to_contain_text("900 seeds")
        fair(page)

        page.goto(f"{here.address}/settings")
        page.get_by_label("Measure in").select_option("us")
        page.get_by_role("button", name="So be it").click()
        expect(said).to_contain_text("from now on")
        page.goto(f"{here.address}/kit")
        expect(page.get_by_role("row", name="Blue net")).to_contain_text("39.4 ft")
