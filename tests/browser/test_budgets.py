"""What a phone waits for and a small computer holds: the budgets of the round (docs/performance.md)."""

from __future__ import annotations

import time
import urllib.request
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from browser.conftest import DEMO_DAY, PHONE, Served, served
from browser.test_rooms import PAGES

FIRST_VISIT_BYTES = 150_000
USABLE_S = 1.5
SLOWED = 4
MEMORY_MB = 250
TRIES = 5

USABLE = """() => Math.max(
  performance.getEntriesByType("navigation")[0].domContentLoadedEventEnd,
  performance.getEntriesByName("first-contentful-paint")[0]?.startTime || Infinity) / 1000"""
"""Seconds until the round is drawn and its scripts have run: from then on a tick is heard."""


def busy() -> bool:
    """Whether others take the processors: work of a moment takes plainly longer than it is worked on."""
    wall, own = time.perf_counter(), time.process_time()
    while time.process_time() - own < 0.2:
        sum(range(1000))
    return time.perf_counter() - wall > 1.25 * 0.2


def first_visit(browser: Browser, address: str) -> tuple[float, int]:
    """Seconds until the round can be ticked on a slow phone that never was here, and bytes it was sent."""
    context = browser.new_context(viewport=PHONE, has_touch=True, locale="en-GB")
    try:
        page = context.new_page()
        line = context.new_cdp_session(page)
        sent: list[float] = []
        line.send("Network.enable")
        line.on("Network.loadingFinished", lambda told: sent.append(told["encodedDataLength"]))
        line.send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        page.goto(address, wait_until="load")
        page.locator("button.tick:visible").first.click(trial=True)
        page.wait_for_function(f"({USABLE})() < 1e6")
        return page.evaluate(USABLE), round(sum(sent))
    finally:
        context.close()


def test_the_first_round_is_light_and_soon_usable_on_a_slow_phone(demo: Served, browser: Browser) -> None:
    urllib.request.urlopen(demo.address, timeout=60).read()
    waits = []
    for _ in range(TRIES):
        wait, sent = first_visit(browser, demo.address)
        waits.append(wait)
        assert 20_000 < sent <= FIRST_VISIT_BYTES, sent
        if wait <= USABLE_S:
            return
    # what others do to the machine only ever adds: the least of the tries is nearest the truth
    if busy():
        pytest.skip(f"other work takes the processors: {min(waits):.2f} s at best")
    raise AssertionError(f"usable after {min(waits):.2f} s at best")


def test_the_server_stays_small_through_all_pages(demo_copy: Path) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        status = Path(f"/proc/{here.process.pid}/status")
        if not status.exists():
            pytest.skip("this system does not say what a process holds")
        for address in ("/", *PAGES.values(), "/"):
            urllib.request.urlopen(here.address + address, timeout=120).read()
        held = next(line for line in status.read_text().splitlines() if line.startswith("VmRSS"))
        assert int(held.split()[1]) / 1024 <= MEMORY_MB, held
