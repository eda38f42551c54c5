"""A person's own chore on the round: ticked, taken back, and told without a line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from browser.conftest import DEMO_DAY, served
from spadework.garden.entries import ChoreSet, Minutes
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import Act, write_acts

CHORE = "rinse trays / pots"
"""Invented; with a stroke in its name, as people write them."""


def told(garden: Path) -> list[Minutes]:
    """What the book says was done of the chore and still holds."""
    with open_garden(garden).open_book() as book:
        entries = book.entries()
    undone = {entry.withdraws for entry in entries}
    return [
        entry.act
        for entry in entries
        if isinstance(entry.act, Minutes) and entry.act.job == CHORE and entry.key not in undone
    ]


def test_a_chore_is_ticked_like_a_stop(demo_copy: Path, visit: Callable[..., Page]) -> None:
    chore = ChoreSet(chore=CHORE, minutes=1.0, every_days=1, first=DEMO_DAY)
    assert write_acts(
        open_garden(demo_copy), [Act(payload=chore, on=DEMO_DAY)], today=DEMO_DAY, author="maren"
    ).stored
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        # as many minutes as there can be: a chore of a minute comes behind all that a crop would lose
        address = f"{here.address}/?minutes=720"
        page = visit(address)
        article = page.locator(".chore")
        expect(article.get_by_role("heading")).to_have_text("Rinse trays / pots")
        article.locator("button.tick").click()
        expect(page.locator("#said")).to_contain_text(f"In the book: Done: {CHORE}.")
        expect(article).to_have_count(0)
        page.get_by_role("button", name="Take it back").click()
        expect(page.locator("#said")).to_contain_text("Taken back")
        expect(article).to_have_count(1)
        assert told(demo_copy) == []

        # without a line: kept on the phone, and sent once when there is one again
        page.goto(address)
        expect(article.get_by_role("heading")).to_have_text("Rinse trays / pots")
        page.context.set_offline(True)
        article.locator("button.tick").click()
        expect(article.locator(".kept-note")).to_contain_text("Kept on this phone")
        page.context.set_offline(False)
        expect(page.locator("#said")).to_contain_text("Done", timeout=40_000)
        expect(article).to_have_count(0)
        assert [each.job for each in told(demo_copy)] == [CHORE]
