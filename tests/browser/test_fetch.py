"""A forecast fetched on a button: who is asked, what is sent, a slow answer, and answers that are none.

The service is a stand-in on this machine that answers in the real one's form with invented numbers.
"""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import httpx2
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, picture, served
from service_answers import answer_to
from spadework.garden.told import ForecastDay, Told
from spadework.store.garden_folder import open_garden


@dataclass
class StandIn:
    """What it was asked, and how it answers next; it waits for the gate."""

    asked: list[dict[str, list[str]]] = field(default_factory=list)
    manner: str = "well"
    gate: threading.Event = field(default_factory=threading.Event)
    address: str = ""


@contextmanager
def stand_in() -> Iterator[StandIn]:
    """A service of our own at a free port."""
    state = StandIn()

    class Answers(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            state.asked.append(parse_qs(urlsplit(self.path).query))
            state.gate.wait(60)
            whole = json.dumps(answer_to(httpx2.Request("GET", f"http://127.0.0.1{self.path}"))).encode()
            if state.manner == "half":
                # the line breaks in the middle of the answer
                self.send_response(200)
                self.send_header("Content-Length", str(len(whole)))
                self.end_headers()
                self.wfile.write(whole[: len(whole) // 2])
                self.close_connection = True
                return
            body = {"well": whole, "other": b'{"daily": "none today"}', "broken": b"no"}[state.manner]
            self.send_response(503 if state.manner == "broken" else 200)
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *_: object) -> None:
            """Quiet."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Answers)
    state.address = f"http://127.0.0.1:{server.server_address[1]}/v1/forecast"
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield state
    finally:
        state.gate.set()
        server.shutdown()
        server.server_close()
        thread.join(10)


def forecasts(garden: Path) -> list[Told]:
    """What the garden holds of a forecast."""
    return [each for each in open_garden(garden).told(DEMO_DAY) if isinstance(each.fact, ForecastDay)]


def test_a_forecast_is_fetched_or_nothing_is_changed(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with stand_in() as service, served_with(demo_copy, service) as address:
        page = visit(f"{address}/weather", size="phone")
        form = page.locator("form.fetching")
        expect(form).to_contain_text("(127.0.0.1)")
        button, said = form.get_by_role("button"), page.locator("#said")
        before = forecasts(demo_copy)
        service.gate.set()
        for manner, words in (
            ("broken", "is out of order"),
            ("half", "cannot be reached"),
            ("other", "was not taken"),
        ):
            service.manner = manner
            button.click()
            wrong = form.locator(".wrong")
            expect(wrong).to_contain_text(words)
            expect(wrong).to_contain_text("nothing was changed")
            expect(button).to_be_enabled()
            assert forecasts(demo_copy) == before, manner
        picture(page, "weather-fetch-refused-phone")
        fair(page)

        # while it is slow, the page says so and the others go on
        service.manner = "well"
        service.gate.clear()
        button.click()
        expect(said).to_contain_text("Asking 127.0.0.1")
        expect(button).to_be_disabled()
        other = visit(address, size="phone")
        expect(other.locator(".stop").first).to_be_visible()
        assert forecasts(demo_copy) == before
        service.gate.set()
        expect(said).to_contain_text("Forecast kept for 10 days")
        expect(said).to_contain_text("Asked 127.0.0.1; sent only")
        assert (
            len({each.fact.day for each in forecasts(demo_copy) if isinstance(each.fact, ForecastDay)}) >= 10
        )
        expect(button).to_be_enabled()
        # two rounded coordinates, two days, and the names of what is wanted
        sent = service.asked[-1]
        assert {name for name in sent if name.endswith("itude")} == {"latitude", "longitude"}
        assert all(len(sent[name][0].partition(".")[2]) <= 2 for name in ("latitude", "longitude"))


@contextmanager
def served_with(garden: Path, service: StandIn) -> Iterator[str]:
    """Serve a garden that asks the stand-in."""
    with (garden / "garden.toml").open("a", encoding="utf-8") as settings:
        settings.write(f'\n[fetch]\nforecast = "{service.address}"\ntimeout_s = 20\n')
    with served(garden, "--today", DEMO_DAY.isoformat()) as here:
        yield here.address
