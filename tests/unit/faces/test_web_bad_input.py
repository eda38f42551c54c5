"""What goes wrong has a plain answer, loses nothing, and never shows the inside of the program."""

from __future__ import annotations

import contextlib
import logging
import resource
import shutil
import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from locked_garden import TODAY, locked_garden
from spadework.errors import StoreReadOnly
from spadework.faces.web import app as web_app
from spadework.faces.web.api.answer import all_calls
from spadework.faces.web.app import MOST_BYTES, build_app
from spadework.faces.web.house import House
from spadework.faces.web.ways import all_ways
from spadework.usecases.look import last_entry

HERE = "http:" + "//127.0.0.1"
SENT = {"x-spadework": "page", "origin": HERE}


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return locked_garden(tmp_path_factory.mktemp("bad") / "garden")


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


def client_of(garden: Path) -> TestClient:
    app = build_app(House(garden=garden, fixed_day=TODAY))
    return TestClient(app, base_url=HERE, follow_redirects=False, raise_server_exceptions=False)


@contextlib.contextmanager
def full_disk(room: int = 2048) -> Iterator[None]:
    """No file can grow past a size, as on a disk that is full."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (room, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


def plain(text: str) -> bool:
    """Whether it shows nothing of the program's inside."""
    return not any(word in text for word in ("Traceback", "Error:", ".py", "sqlite3", "Errno"))


def test_a_full_disk_is_said_and_what_was_sent_can_be_sent_again(garden: Path) -> None:
    client, before = client_of(garden), last_entry(garden)
    sent = {"line": "weeded Bed 1", "key": "01KB0000000000000000000007"}
    with full_disk():
        assert "Bed 1" in client.get("/book").text
        page = client.post("/book/say", data=sent, headers=SENT)
        call = client.post("/api/book", json=sent, headers=SENT)
    assert (page.status_code, call.status_code) == (503, 503), (page.text, call.text)
    assert plain(page.text + call.text)
    assert last_entry(garden) == before
    assert client.post("/book/say", data=sent, headers=SENT).status_code == 200
    assert last_entry(garden) == sent["key"]


def test_a_book_that_cannot_be_written_is_read_and_says_so(
    garden: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from spadework.store import sqlite_database

    client = client_of(garden)
    connected = sqlite_database.connect

    def on_a_locked_disk(path: Path, *, read_only: bool = False) -> sqlite3.Connection:
        if not read_only:
            raise StoreReadOnly(f"{path} cannot be written.", "")
        return connected(path, read_only=True)

    monkeypatch.setattr(sqlite_database, "connect", on_a_locked_disk)
    assert client.get("/book").status_code == 200
    got = client.post("/book/say", data={"line": "weeded Bed 1"}, headers=SENT)
    assert got.status_code == 503
    assert plain(got.text)


def test_a_damaged_book_is_said_on_every_page(garden: Path) -> None:
    book = garden / "book.sqlite"
    book.write_bytes(b"no book at all" * 1000)
    client, before = client_of(garden), book.read_bytes()
    for way in all_ways():
        if "{" not in way.path and not way.open and not way.post:
            got = client.get(way.path)
            assert got.status_code != 500, (way.path, got.text)
            assert plain(got.text), way.path
    assert client.post("/book/say", data={"line": "weeded Bed 1"}, headers=SENT).status_code != 200
    for call in all_calls():
        got = client.request(call.method, f"/api{call.path}", headers=SENT, content=b"{}")
        assert got.status_code != 500, call.path
    assert book.read_bytes() == before


@pytest.mark.parametrize("text", ["this is no toml", "[site]\nname = 3\n", ""])
def test_a_damaged_settings_file_is_said_on_every_page(garden: Path, text: str) -> None:
    (garden / "garden.toml").write_text(text)
    client = client_of(garden)
    for path in ("/", "/book", "/garden", "/shed", "/api/round"):
        got = client.get(path)
        assert got.status_code == 503, (path, got.text)
        assert "garden.toml" in got.text
        assert plain(got.text)


def test_where_there_is_no_garden_pages_lead_to_the_beginning_and_calls_say_so(tmp_path: Path) -> None:
    client = client_of(tmp_path / "none")
    assert client.get("/book").headers["location"] == "/begin"
    got = client.get("/api/round")
    assert (got.status_code, got.headers["content-type"]) == (503, "application/problem+json")
    assert "No garden" in got.json()["detail"]


def test_too_long_a_message_is_refused_whether_or_not_it_says_how_long(garden: Path) -> None:
    client, before = client_of(garden), last_entry(garden)
    said = client.post("/book/say", content=b"x", headers={**SENT, "content-length": str(MOST_BYTES + 1)})
    assert said.status_code == 413

    def parts() -> Iterator[bytes]:
        for _ in range(MOST_BYTES // 1_000_000 + 2):
            yield b"x" * 1_000_000

    for kind in ("application/octet-stream", "application/x-www-form-urlencoded"):
        got = client.post("/book/say", content=parts(), headers={**SENT, "content-type": kind})
        assert got.status_code == 413, got.text
        assert plain(got.text)
    assert last_entry(garden) == before


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("multipart/form-data", b"line=weeded"),
        ("multipart/form-data; boundary=x", b"--x\r\nContent-Disposition: form-data\r\n\r\nweeded\r\n--x--"),
        ("multipart/form-data; boundary=x", b"--y\r\nnothing of it\r\n"),
        (
            "multipart/form-data; boundary=x",
            b'--x\r\nContent-Disposition: form-data; name="line"\r\n\r\n\xff\xfe\r\n--x--\r\n',
        ),
        ("application/x-www-form-urlencoded", b"line=%ff%fe&&&=%00"),
        ("application/x-www-form-urlencoded", b"line=%00%01%02"),
        ("application/x-www-form-urlencoded; charset=none", b"line=weeded"),
        ("text/plain", b"line=weeded"),
        ("", b"\xff\xff"),
        ("application/x-www-form-urlencoded", b"&".join(b"a%d=1" % n for n in range(3000))),
    ],
)
def test_what_cannot_be_read_is_refused_plainly(garden: Path, kind: str, body: bytes) -> None:
    client = client_of(garden)
    for path in ("/book/say", "/begin/weather/take", "/who"):
        got = client.post(path, content=body, headers={**SENT, "content-type": kind})
        assert got.status_code < 500, (path, got.text)
        assert plain(got.text)


@pytest.mark.parametrize(
    "path", ["/book?first=%ff%fe", "/bed/%ff%fe", "/bed/%00", "/?minutes=%ed%a0%80", "/bed/" + "a" * 5000]
)
def test_odd_signs_in_an_address_are_answered_plainly(garden: Path, path: str) -> None:
    got = client_of(garden).get(path)
    assert got.status_code < 500
    assert plain(got.text)


@pytest.mark.parametrize("name", ["photo.exe", "weather.csv", "..%2f..%2fgarden.toml", "a" * 300])
def test_a_weather_file_that_is_none_changes_nothing(garden: Path, name: str) -> None:
    client = client_of(garden)
    before = {path: path.read_bytes() for path in garden.rglob("*") if path.is_file()}
    sent = {"file": (name, b"\x89PNG\r\n\x00\xff" * 50, "image/png")}
    got = client.post("/begin/weather/take", files=sent, headers=SENT)
    assert got.status_code == 422, got.text
    assert plain(got.text)
    assert {path: path.read_bytes() for path in garden.rglob("*") if path.is_file()} == before


def test_a_fault_of_the_program_is_said_plainly_and_told_on_this_machine(
    garden: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fails(*_: object) -> None:
        raise ZeroDivisionError("something inside")

    client = client_of(garden)
    monkeypatch.setattr(web_app, "_in_turn", fails)
    with caplog.at_level(logging.ERROR):
        page = client.get("/book")
        sent = client.post("/book/say", data={"line": "weeded Bed 1"}, headers=SENT)
    assert (page.status_code, sent.status_code) == (500, 500)
    assert "What is in the book is safe" in page.text
    assert "What is in the book is safe" in sent.json()["hint"]
    assert "something inside" not in page.text + sent.text
    assert "something inside" in caplog.text
    assert "default-src 'none'" in page.headers["content-security-policy"]
