"""A phone that is let in no more: what was typed stays, what was told waits, and both go in afterwards."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from browser.conftest import DEMO_DAY, PHONE, picture, served
from spadework.garden.entries import Note
from spadework.store.garden_folder import open_garden

SOON_MS = 40_000
"""The line is looked for anew every ten seconds."""


def notes(garden: Path, words: str) -> int:
    """How many notes of the book hold some words."""
    with open_garden(garden).open_book() as book:
        return sum(isinstance(each.act, Note) and words in each.act.text for each in book.entries())


def let_in(desk: Page, phone: Page, address: str) -> None:
    """A code made at the machine, typed on the phone."""
    desk.goto(f"{address}/people/let-in")
    desk.get_by_label("Odo").check()
    desk.get_by_role("button", name="Make a code").click()
    expect(desk.locator("#said")).to_contain_text("It lets one device in")
    phone.goto(f"{address}/let-in")
    phone.get_by_label("Code").fill(desk.locator(".code").inner_text())
    phone.get_by_label("What is this device called?").fill("a phone")
    phone.get_by_role("button", name="Let it in").click()
    expect(phone.locator(".stop").first).to_be_visible()


def end(desk: Page, address: str) -> None:
    """A keeper ends the phone."""
    desk.goto(f"{address}/people/let-in")
    desk.get_by_role("button", name="End it").first.click()
    expect(desk.locator("#said")).to_contain_text("a phone")


def test_two_phones_lose_nothing_when_one_is_ended(
    demo_copy: Path, browser: Browser, visit: Callable[..., Page]
) -> None:
    # passed on by another program, so nobody at the machine itself
    far = {"x-forwarded-for": "192.0.2.7"}
    context = browser.new_context(viewport=PHONE, locale="en-GB", extra_http_headers=far)
    try:
        with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
            desk, phone = visit(here.address, size="desk"), visit(f"{here.address}/let-in", context=context)
            let_in(desk, phone, here.address)

            # a form that is not kept on the phone: what was typed stays beside what is wrong
            phone.goto(f"{here.address}/weather")
            phone.locator("summary", has_text="The rain gauge").click()
            phone.get_by_label("It held").fill("12")
            end(desk, here.address)
            phone.locator("form[action='/weather/rain'] button").click()
            wrong = phone.locator("form[action='/weather/rain'] .wrong")
            expect(wrong).to_contain_text("What you typed stays here")
            expect(phone.get_by_label("It held")).to_have_value("12")
            picture(phone, "ended-typed-phone")
            with context.expect_page() as opened:
                wrong.get_by_role("link", name="Let this device in").click()
            let_in(desk, opened.value, here.address)
            phone.locator("form[action='/weather/rain'] button").click()
            expect(phone.locator("#said")).to_contain_text("12 mm")

            # one that is kept: it waits on the phone, and is sent once when it is let in again
            phone.goto(f"{here.address}/book")
            phone.get_by_label("Say it in a line").fill("note: the robin sings by the tunnel")
            end(desk, here.address)
            phone.get_by_role("button", name="Into the book").click()
            expect(phone.locator("#said")).to_contain_text("It is sent when this device is let in again")
            expect(phone.locator("#state")).to_have_text("1 unsent")
            assert notes(demo_copy, "robin") == 0
            let_in(desk, opened.value, here.address)
            expect(phone.locator("#state")).not_to_contain_text("unsent", timeout=SOON_MS)
            assert notes(demo_copy, "robin") == 1
    finally:
        context.close()
