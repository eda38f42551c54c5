"""Two people at once: each sees the other's ticks, and nobody is disturbed by them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from browser.conftest import DEMO_DAY, served


def test_two_see_each_others_ticks_and_are_not_disturbed(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        one, other = visit(here.address), visit(here.address, size="desk")
        jobs = one.locator(".job:has(button.tick:visible)")
        first, second = (jobs.nth(at).get_attribute("id") for at in (0, 1))
        can_wait = other.locator("details.left-out")
        can_wait.locator("summary").click()
        more = other.locator(f"[id='{second}'] details.more")
        more.locator("summary").click()
        expect(can_wait).to_have_attribute("open", "")

        one.locator(f"[id='{first}'] button.tick").click()
        expect(one.locator("#said")).to_contain_text("In the book")
        expect(other.locator(f"[id='{first}']")).to_have_count(0)
        expect(can_wait).to_have_attribute("open", "")
        expect(more).to_have_attribute("open", "")
        expect(more.locator("summary")).to_be_focused()

        # who types is left alone until they are done
        reason = more.get_by_label("Another reason")
        reason.fill("the hose is lent")
        one.get_by_role("button", name="Take it back").click()
        expect(one.locator("#said")).to_contain_text("Taken back")
        expect(one.locator(f"[id='{first}']")).to_be_visible()
        expect(reason).to_have_value("the hose is lent")
        expect(reason).to_be_focused()
        expect(other.locator(f"[id='{first}']")).to_have_count(0)
        more.get_by_role("button", name="Put off", exact=True).click()
        expect(other.locator("#said")).to_contain_text("In the book")
        expect(other.locator(f"[id='{first}']")).to_be_visible()
        expect(one.locator(f"[id='{second}']")).to_have_count(0)
