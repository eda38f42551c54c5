"""A real server on this machine and a real Chromium, at the sizes of a phone and of a desk."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from spadework.usecases.demo_garden import make_demo

# a busy machine is slow, not wrong
expect.set_options(timeout=30_000)

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 800}
SIZES = {"phone": PHONE, "desk": DESK}
DEMO_DAY = date(2026, 6, 12)
PICTURES = Path(os.environ.get("SPADEWORK_PICTURES", Path(__file__).parents[2] / ".pictures"))
"""Where pictures of every page go; the folder is not committed."""


expect.set_options(timeout=25_000)
# a busy machine runs the garden anew after an entry; what comes sooner is not waited for

_EXPECTED = (
    "Failed to load resource",
    "ERR_INCOMPLETE_CHUNKED_ENCODING",
    "Failed to fetch",
    "An unknown error occurred when fetching the script",
    "Cross-Origin-Opener-Policy header has been ignored",
)
"""What a browser says of its own accord when an answer is a refusal or the server stops."""


@dataclass
class Served:
    """A running server."""

    address: str
    garden: Path
    process: subprocess.Popen[bytes]


@contextmanager
def served(garden: Path, *words: str, port: int = 0) -> Iterator[Served]:
    """Serve a garden with the command a person would use, and end it whatever happens."""
    if not port:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
    command = [sys.executable, "-m", "spadework.faces.cli", "serve", "--garden", str(garden)]
    log = garden.parent / f"serve-{port}.log"
    with log.open("wb") as out:
        process = subprocess.Popen([*command, "--port", str(port), *words], stdout=out, stderr=out)
        try:
            address = f"http://127.0.0.1:{port}"
            for _ in range(300):
                if process.poll() is not None:
                    raise AssertionError(log.read_text())
                try:
                    urllib.request.urlopen(f"{address}/healthy", timeout=1).read()
                    break
                except OSError:
                    time.sleep(0.1)
            else:
                raise AssertionError(f"no answer in 30 s\n{log.read_text()}")
            yield Served(address, garden, process)
        finally:
            process.terminate()
            try:
                process.wait(10)
            except subprocess.TimeoutExpired:
                process.kill()


@pytest.fixture(scope="session")
def demo_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo garden on a day in June, made once; never written to."""
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DEMO_DAY)
    return folder


@pytest.fixture
def demo_copy(demo_once: Path, tmp_path: Path) -> Path:
    """A copy of the demo garden to write to."""
    return Path(shutil.copytree(demo_once, tmp_path / "garden"))


@pytest.fixture(scope="session")
def demo(demo_once: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The demo garden served for pages that are only read."""
    folder = Path(shutil.copytree(demo_once, tmp_path_factory.mktemp("read") / "garden"))
    with served(folder, "--today", DEMO_DAY.isoformat()) as found:
        yield found


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One Chromium for all tests of a process."""
    program = shutil.which("chromium")
    if program is None:
        pytest.skip("no chromium on this machine")
    with sync_playwright() as play:
        found = play.chromium.launch(executable_path=program, args=["--no-sandbox"])
        yield found
        found.close()


@pytest.fixture
def visit(browser: Browser) -> Iterator[Callable[..., Page]]:
    """Open a page: `visit(address, size="phone")`; what its scripts complain of fails the test."""
    contexts: list[BrowserContext] = []
    wrongs: list[str] = []

    def open_page(address: str, *, size: str = "phone", context: BrowserContext | None = None) -> Page:
        if context is None:
            context = browser.new_context(viewport=SIZES[size], has_touch=size == "phone", locale="en-GB")
            contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: wrongs.append(str(error)))
        page.on(
            "console",
            lambda said: (
                wrongs.append(said.text)
                if said.type == "error" and not any(each in said.text for each in _EXPECTED)
                else None
            ),
        )
        page.goto(address)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert not wrongs, wrongs


def picture(page: Page, name: str) -> None:
    """Keep a picture of the whole page under a name."""
    PICTURES.mkdir(exist_ok=True)
    page.screenshot(path=PICTURES / f"{name}.png", full_page=True)
