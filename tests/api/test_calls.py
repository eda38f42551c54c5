"""What the API answers and writes: the same as the command line, once, and asked where something is odd."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from api.conftest import DAY
from said import say
from spadework.usecases.look import last_entry

PROBLEM = "application/problem+json"


def key(number: int) -> str:
    """A key as a phone makes it."""
    return f"01KB{number:022d}"


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("/api/jobs", ["jobs"]),
        ("/api/beds", ["bed"]),
        ("/api/plantings", ["standing"]),
        ("/api/water", ["water"]),
        ("/api/locks", ["lock"]),
        ("/api/kit", ["kit"]),
        ("/api/tin", ["tin"]),
        ("/api/people", ["people"]),
        ("/api/weather", ["weather", "show"]),
        ("/api/sheets/carrot", ["sheet", "carrot"]),
    ],
)
def test_it_answers_what_the_command_line_answers(
    client: TestClient, garden: Path, path: str, words: list[str]
) -> None:
    told = say(*words, "--garden", str(garden), "--today", DAY.isoformat(), "--json")
    assert client.get(path).json() == json.loads(told.out)


def test_the_same_message_sent_twice_is_written_once(client: TestClient, garden: Path) -> None:
    sent = {"line": "weeded Lake 1"}
    first, second = (client.post("/api/book", json=sent, headers={"idempotency-key": key(1)}) for _ in "12")
    assert (first.status_code, second.status_code) == (200, 200), first.text
    assert first.json()["written"] == second.json()["written"] == [key(1)]
    assert last_entry(garden) == key(1)


def test_a_bed_made_twice_with_one_key_is_one_bed(client: TestClient) -> None:
    sent = {"name": "Added by a program", "width_m": 1.0, "length_m": 2.0, "key": key(2)}
    first, second = client.post("/api/beds", json=sent), client.post("/api/beds", json=sent)
    assert (first.status_code, second.status_code) == (200, 200), first.text
    assert first.json()["entries"] == second.json()["entries"]
    again = client.post("/api/beds", json={**sent, "key": ""})
    assert again.status_code == 422
    assert again.headers["content-type"] == PROBLEM


def test_what_is_odd_is_asked_first_and_written_where_insisted_on(client: TestClient, garden: Path) -> None:
    before = last_entry(garden)
    asked = client.post("/api/beds/asparagus/end", json={"why": "moved"})
    assert asked.status_code == 409, asked.text
    assert asked.headers["content-type"] == PROBLEM
    assert "still stands there" in asked.json()["asks"][0]["found"]
    assert asked.json()["can_insist"] is True
    assert last_entry(garden) == before
    sent = client.post("/api/beds/asparagus/end", json={"why": "moved", "insist": True})
    assert sent.status_code == 200, sent.text
    assert last_entry(garden) != before


def test_a_job_said_twice_by_two_is_asked_about(client: TestClient) -> None:
    job = next(each for each in client.get("/api/jobs").json()["jobs"] if each["kind"] == "weed")
    said = {"because": "too wet", "act": job["act"]}
    assert client.post(f"/api/jobs/{job['id']}/skip", json=said).status_code == 200
    other = client.post(f"/api/jobs/{job['id']}/skip", json=said)
    assert other.status_code == 409
    assert other.json()["asks"][0]["about"] == "done before"


def test_what_was_written_can_be_taken_back(client: TestClient) -> None:
    entry = client.post("/api/book", json={"line": "hoed Lake 1"}).json()["written"][0]
    assert client.post(f"/api/book/{entry}/undo", json={}).status_code == 200
    lines = {each["key"]: each for each in client.get("/api/book").json()["entries"]}
    assert lines[entry]["state"] == "undone"


def test_decisions_come_with_the_locks_on_them(client: TestClient) -> None:
    lock = client.get("/api/locks").json()["locks"][0]
    assert lock["text"] in client.get("/api/ground").text
    assert lock["text"] in client.get("/api/season").text
    assert client.get("/api/weigh/fits").json().keys() == {"found", "locks"}


def test_nothing_is_written_without_the_header(client: TestClient, garden: Path) -> None:
    before = last_entry(garden)
    for headers in (
        {"x-spadework": ""},
        {"origin": "http:" + "//elsewhere.test"},
        {"sec-fetch-site": "cross-site"},
    ):
        got = client.post("/api/book", json={"line": "weeded bed 3"}, headers=headers)
        assert got.status_code in (403, 422), headers
    assert last_entry(garden) == before


@pytest.mark.parametrize(
    ("body", "kind", "status"),
    [
        (b"{", "application/json", 400),
        (b'{"line": "\xff\xfe"}', "application/json", 400),
        (b"[" * 150_000, "application/json", 422),
        (b"line=weeded", "application/x-www-form-urlencoded", 415),
        (b'{"line": "weeded bed 3"}', "text/plain", 415),
        (b'{"line": "' + b"a" * 300_000 + b'"}', "application/json", 413),
        (b'{"line": "weeded \\u0000 bed 3"}', "application/json", 422),
        (b'{"line": "weeded bed 3", "by": "somebody"}', "application/json", 422),
        (b'{"line": "weeded bed 3", "on": "0001-01-01"}', "application/json", 422),
        (b'{"line": "weeded bed 3", "key": "none"}', "application/json", 422),
    ],
)
def test_what_cannot_be_read_is_a_problem(
    client: TestClient, garden: Path, body: bytes, kind: str, status: int
) -> None:
    before = last_entry(garden)
    got = client.post("/api/book", content=body, headers={"content-type": kind})
    assert got.status_code == status, got.text
    assert got.headers["content-type"] == PROBLEM
    assert got.json()["status"] == status
    assert last_entry(garden) == before


@pytest.mark.parametrize(
    ("path", "status"), [("/api/nothing", 404), ("/api/beds/none", 404), ("/api/jobs/none", 404)]
)
def test_what_is_not_there_is_a_problem(client: TestClient, path: str, status: int) -> None:
    got = client.get(path)
    assert got.status_code == status
    assert got.headers["content-type"] == PROBLEM


def test_a_way_it_is_not_asked_is_a_problem(client: TestClient) -> None:
    got = client.delete("/api/beds")
    assert got.status_code == 405
    assert got.headers["content-type"] == PROBLEM
    assert "GET" in got.headers["allow"]
