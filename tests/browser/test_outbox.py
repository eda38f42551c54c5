"""Told without reception: kept on the phone, sent once, asked about where somebody was there before."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urlparse

from playwright.sync_api import Browser, Locator, Page, Route, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, PHONE, picture, served
from spadework.garden.entries import Minutes, Note
from spadework.store.garden_folder import open_garden

TODAY = ("--today", DEMO_DAY.isoformat())
PLAIN_TICK = ".job:has(button.tick:visible)"
"""A job that asks no number before it is done."""
SOON_MS = 40_000
"""The line is looked for anew every ten seconds."""
UNSENT_PAGE = """async () => {
  while (!sessionStorage.getItem("unsent")) await new Promise((done) => setTimeout(done, 50)) }"""
"""Waits until the page of what is unsent can be read without a line."""


def told(garden: Path) -> Counter[str]:
    """How often each job is said to be done in the book on the day."""
    with open_garden(garden).open_book() as book:
        return Counter(
            entry.act.job
            for entry in book.entries()
            if isinstance(entry.act, Minutes) and entry.happened_on == DEMO_DAY and entry.act.job
        )


def tick_first(page: Page) -> tuple[str, Locator]:
    """Tick the first job that asks nothing; gives its id and where it stands."""
    job = page.locator(PLAIN_TICK).first
    name = (job.get_attribute("id") or "").removeprefix("job-")
    job.locator("button.tick").click()
    return name, page.locator(f"[id='job-{name}']")


def has_worker(page: Page) -> None:
    """Wait until the pages can be read without a server."""
    expect(page.locator("#state")).to_have_text("works offline", timeout=SOON_MS)


def test_a_tick_outlives_a_killed_server_and_a_reload(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, *TODAY) as here:
        page = visit(here.address)
        has_worker(page)
        page.evaluate(UNSENT_PAGE)
        before = told(demo_copy)
        here.process.kill()
        here.process.wait(10)
        name, job = tick_first(page)
        expect(page.locator("#said")).to_contain_text("Kept on this phone")
        expect(job.locator(".kept-note")).to_contain_text("Kept on this phone at")
        expect(page.locator("#line-bar")).to_contain_text("No connection. This is the page as of")
        page.reload()
        expect(page.locator("#state")).to_have_text("1 unsent")
        expect(job.locator(".kept-note")).to_be_visible()
        expect(job.locator("button.tick")).to_be_disabled()
        picture(page, "round-without-a-line")
        page.locator("#state").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Not sent yet")
        expect(page.locator("#unsent-list")).to_contain_text("Waiting for a connection")
        page.goto(f"{here.address}/season")
        expect(page.get_by_role("heading", level=1)).to_have_text("No connection")
        page.get_by_role("link", name="To the round").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Friday’s round")
        port = urlparse(here.address).port
        assert port is not None
        with served(demo_copy, *TODAY, port=port):
            expect(page.locator("#said")).to_contain_text("In the book", timeout=SOON_MS)
            expect(page.locator("#state")).to_have_text("works offline")
            expect(page.locator("#line-bar")).to_be_empty()
            expect(job).to_have_count(0)
            assert told(demo_copy) - before == Counter({name: 1})


def test_an_answer_that_was_lost_on_the_way_makes_no_second_entry(
    demo_copy: Path, visit: Callable[..., Page]
) -> None:
    with served(demo_copy, *TODAY) as here:
        page = visit(here.address)
        before = told(demo_copy)

        def lose(route: Route) -> None:
            route.fetch()
            route.abort("connectionreset")

        page.route(re.compile(r"/job/.*/done"), lose, times=1)
        name, job = tick_first(page)
        expect(page.locator("#said")).to_contain_text(re.compile("Kept on this phone|In the book"))
        expect(page.locator("#said")).to_contain_text("In the book", timeout=SOON_MS)
        expect(page.locator("#state")).not_to_contain_text("unsent")
        expect(job).to_have_count(0)
        assert told(demo_copy) - before == Counter({name: 1})


def test_two_phones_that_told_the_same_get_one_job_done_and_one_question(
    demo_copy: Path, browser: Browser, visit: Callable[..., Page]
) -> None:
    contexts = [browser.new_context(viewport=PHONE, locale="en-GB") for _ in range(3)]
    try:
        with served(demo_copy, *TODAY) as here:
            pages = [visit(here.address, context=context) for context in contexts]
            before = told(demo_copy)
            names = []
            for page, context in zip(pages, contexts, strict=True):
                context.set_offline(True)
                names.append(tick_first(page)[0])
                expect(page.locator("#said")).to_contain_text("Kept on this phone")
            assert len(set(names)) == 1
            first, second, third = pages
            contexts[0].set_offline(False)
            expect(first.locator("#said")).to_contain_text("In the book", timeout=SOON_MS)
            for page, context in zip(pages[1:], contexts[1:], strict=True):
                context.set_offline(False)
                expect(page.locator("#state")).to_have_text("1 to answer", timeout=SOON_MS)
                page.goto(f"{here.address}/unsent")
                expect(page.locator("#unsent-list")).to_contain_text("A job is done once.")
            fair(second)
            picture(second, "unsent-phone")
            second.get_by_role("button", name="It is the same: leave mine out").click()
            expect(second.locator("#unsent-list")).to_contain_text("Nothing waits on this phone")
            assert told(demo_copy) - before == Counter({names[0]: 1})
            third.get_by_role("button", name="Mine is another: write it too").click()
            expect(third.locator("#unsent-list")).to_contain_text("Nothing waits on this phone")
            assert told(demo_copy) - before == Counter({names[0]: 2})
    finally:
        for context in contexts:
            context.close()


def test_what_is_not_taken_stays_with_its_words_and_can_be_changed(
    demo_copy: Path, browser: Browser, visit: Callable[..., Page]
) -> None:
    context = browser.new_context(viewport=PHONE, locale="en-GB")
    try:
        with served(demo_copy, *TODAY) as here:
            page = visit(f"{here.address}/book", context=context)
            context.set_offline(True)
            page.get_by_label("Say it in a line").fill("sowed carrots in Lake 99")
            page.get_by_role("button", name="Into the book").click()
            expect(page.locator("#said")).to_contain_text("Kept on this phone")
            context.set_offline(False)
            expect(page.locator("#state")).to_have_text("1 to answer", timeout=SOON_MS)
            page.goto(f"{here.address}/unsent")
            expect(page.locator("#unsent-list")).to_contain_text("Lake 99")
            page.get_by_text("Change it").click()
            page.get_by_label("Say it in a line").fill("note: the robin sings by the tunnel")
            page.get_by_role("button", name="Send it so").click()
            expect(page.locator("#unsent-list")).to_contain_text("Nothing waits on this phone")
            with open_garden(demo_copy).open_book() as book:
                notes = [each for each in book.entries() if isinstance(each.act, Note)]
            assert sum("robin" in note.act.text for note in notes if isinstance(note.act, Note)) == 1
    finally:
        context.close()
