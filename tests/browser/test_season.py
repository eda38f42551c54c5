"""A sowing tried out in the season: moved by pointer and keys, its odds with it, kept in the address."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import Served, picture


def odds_in(text: str) -> tuple[int, int]:
    found = re.search(r"in (\d+) of (\d+) years", text)
    assert found, text
    return int(found[1]), int(found[2])


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_a_trial_sowing_is_moved_and_its_odds_move(
    demo: Served, visit: Callable[..., Page], size: str
) -> None:
    page = visit(f"{demo.address}/season", size=size)
    page.get_by_label("Try", exact=True).select_option("carrot")
    page.get_by_label("in", exact=True).select_option("gate-1")
    page.get_by_label("on", exact=True).fill("2026-07-10")
    page.get_by_role("button", name="Try it").click()
    expect(page).to_have_url(re.compile(r"try=carrot\.gate-1\.2026-07-10"))
    bar = page.get_by_role("slider", name="Sow carrots in Gate 1")
    expect(bar).to_have_attribute("aria-valuetext", re.compile("10 Jul: in "))
    early = odds_in(bar.get_attribute("aria-valuetext") or "")

    bar.focus()
    page.keyboard.press("ArrowRight")
    expect(page).to_have_url(re.compile(r"2026-07-11"))
    page.keyboard.press("PageUp")
    expect(page).to_have_url(re.compile(r"2026-07-18"))
    expect(page.get_by_role("status").filter(has_text="Sow carrots in Gate 1")).to_contain_text("18 Jul")
    expect(page.locator(".tried h3")).to_contain_text("18 Jul")

    # over two weeks on, by its ring
    bar.locator(".grip-head").scroll_into_view_if_needed()
    ring = bar.locator(".grip-head").bounding_box()
    assert ring is not None
    x, y = ring["x"] + ring["width"] / 2, ring["y"] + ring["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(1, 5):
        page.mouse.move(x + step * 12.0, y)
    page.mouse.up()
    expect(page).to_have_url(re.compile(r"2026-08-0\d"))
    expect(bar).to_have_attribute("aria-valuetext", re.compile(r"\d Aug: in "))
    late = odds_in(bar.get_attribute("aria-valuetext") or "")
    assert late[0] < early[0] - 5
    expect(page.locator(".tried-said")).to_contain_text(f"in {late[0]} of {late[1]} years")
    expect(page.get_by_role("link", name="a day later")).to_have_attribute("href", re.compile("2026-08-0"))
    expect(page.get_by_role("link", name="begin it")).to_have_attribute("href", re.compile("meant=2026-08-0"))
    picture(page, f"season-tried-{size}")
    fair(page)

    # the address is the trial: opened anew it is there, and without script it goes on by links
    page.get_by_role("link", name="take it off").click()
    expect(page.locator(".trial")).to_have_count(0)
