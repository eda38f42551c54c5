"""On a home network without https: no worker, but the open tab goes on and nothing told is lost."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urlparse

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.conftest import DEMO_DAY, PHONE, served
from browser.test_outbox import SOON_MS, UNSENT_PAGE, tick_first, told

NAME = "garden.test"
TODAY = ("--today", DEMO_DAY.isoformat(), "--name", NAME)


def test_the_open_tab_goes_on_without_a_line(
    demo_copy: Path, browser: Browser, visit: Callable[..., Page]
) -> None:
    program = shutil.which("chromium")
    if program is None:
        pytest.skip("no chromium on this machine")
    names = ["--no-sandbox", f"--host-resolver-rules=MAP {NAME} 127.0.0.1"]
    plain = browser.browser_type.launch(executable_path=program, args=names)
    try:
        context = plain.new_context(viewport=PHONE, locale="en-GB")
        with served(demo_copy, *TODAY) as here:
            port = urlparse(here.address).port
            assert port is not None
            page = visit(f"http://{NAME}:{port}/", context=context)
            assert page.evaluate("isSecureContext") is False
            expect(page.locator("#state")).to_have_text("keep this tab open")
            page.evaluate(UNSENT_PAGE)
            before = told(demo_copy)
            here.process.kill()
            here.process.wait(10)
            name, job = tick_first(page)
            expect(job.locator(".kept-note")).to_contain_text("Kept on this phone at")
            page.get_by_role("link", name="Season", exact=True).click()
            expect(page.locator("#said")).to_contain_text("There is no connection")
            page.locator("#state").click()
            expect(page.get_by_role("heading", level=1)).to_have_text("Not sent yet")
            expect(page.locator("#unsent-list")).to_contain_text("Waiting for a connection")
            page.get_by_role("link", name="Round", exact=True).click()
            expect(page.get_by_role("heading", level=1)).to_have_text("Friday’s round")
            expect(job.locator("button.tick")).to_be_disabled()
            with served(demo_copy, *TODAY, port=port):
                expect(page.locator("#said")).to_contain_text(re.compile("In the book"), timeout=SOON_MS)
                expect(page.locator("#state")).to_have_text("keep this tab open")
                expect(job).to_have_count(0)
                assert told(demo_copy)[name] - before[name] == 1
        context.close()
    finally:
        plain.close()
