"""A person's own chore on the round: ticked, taken back, put off, and told without a line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Locator, Page, expect

from browser.conftest import DEMO_DAY, served
from spadework.garden.entries import ChoreSet, Minutes, Skipped
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import Act, write_acts

CHORE = "rinse trays / pots"
"""Invented; with a stroke in its name, as people write them."""


def told(garden: Path) -> list[Minutes | Skipped]:
    """What the book says of the chore and still holds."""
    folder = open_garden(garden)
    with folder.open_book() as book:
        entries = book.entries()
    undone = {entry.withdraws for entry in entries}
    return [
        entry.act
        for entry in entries
        if isinstance(entry.act, (Minutes, Skipped)) and entry.act.job == CHORE and entry.key not in undone
    ]


def opened(article: Locator) -> None:
    """Open what more can be said, also where news of the book has just put the page in anew."""
    field = article.get_by_label("Minutes it took")
    for _ in range(5):
        article.locator("details.more").evaluate("each => { each.open = true }")
        if field.is_visible():
            return
    expect(field).to_be_visible()


def test_a_chore_is_ticked_like_a_stop(demo_copy: Path, visit: Callable[..., Page]) -> None:
    chore = ChoreSet(chore=CHORE, minutes=1.0, every_days=1, first=DEMO_DAY)
    assert write_acts(
        open_garden(demo_copy), [Act(payload=chore, on=DEMO_DAY)], today=DEMO_DAY, author="maren"
    ).stored
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        # as many minutes as there can be: a chore of a minute comes behind all that a crop would lose
        page = visit(f"{here.address}/?minutes=720")
        article = page.locator(".chore")
        expect(article.get_by_role("heading")).to_have_text("Rinse trays / pots")
        expect(article).to_contain_text("comes round every day")
        article.locator("button.tick").click()
        expect(page.locator("#said")).to_contain_text(f"In the book: Done: {CHORE}.")
        expect(article).to_have_count(0)
        page.get_by_role("button", name="Take it back").click()
        expect(page.locator("#said")).to_contain_text("Taken back")
        expect(article).to_have_count(1)
        assert told(demo_copy) == []

        opened(article)
        article.get_by_label("Minutes it took").fill("4")
        article.get_by_role("button", name="Done", exact=True).click()
        expect(page.locator("#said")).to_contain_text("in 4 minutes")
        expect(article).to_have_count(0)
        page.get_by_role("button", name="Take it back").click()
        expect(page.locator("#said")).to_contain_text("Taken back")
        expect(article).to_have_count(1)

        # without a line: kept, marked at the chore itself, and sent once
        page.context.set_offline(True)
        opened(article)
        article.get_by_role("button", name="No time").click()
        expect(article.locator(".kept-note")).to_contain_text("Kept on this phone")
        page.context.set_offline(False)
        expect(page.locator("#said")).to_contain_text("Put off", timeout=40_000)
        expect(article).to_have_count(0)
        expect(page.locator("#state")).not_to_contain_text("unsent")
        assert told(demo_copy) == [Skipped(job=CHORE, why="No time")]
