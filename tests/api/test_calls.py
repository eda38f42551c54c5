"""What the API answers and writes: the same as the command line, once, and asked where something is odd."""

from __future__ import annotations

import json
import struct
import zlib
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from api.conftest import DAY, HERE
from said import say
from spadework.faces.web.app import build_app
from spadework.faces.web.house import House
from spadework.usecases.look import last_entry

PROBLEM = "application/problem+json"
IMAGE = {"content-type": "image/png"}


def made_png() -> bytes:
    """A picture of one grey point."""

    def part(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + part(b"IHDR", head)
        + part(b"IDAT", zlib.compress(b"\0\x80"))
        + part(b"IEND", b"")
    )


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
        ("/api/chores", ["chore"]),
        ("/api/photos", ["photo"]),
        ("/api/soil", ["soil"]),
        ("/api/weigh/try?crop=carrot&bed=shed-3", ["weigh", "try", "carrot", "--bed", "shed-3"]),
        (
            "/api/plant?crop=beetroot&bed=shed-3&rows=2",
            ["plant", "beetroot", "--bed", "shed-3", "--rows", "2", "--look"],
        ),
        ("/api/plantings/carrot-2026-2", ["planting", "carrot-2026-2"]),
    ],
)
def test_it_answers_what_the_command_line_answers(
    client: TestClient, garden: Path, path: str, words: list[str]
) -> None:
    told = say(*words, "--garden", str(garden), "--today", DAY.isoformat(), "--json")
    assert client.get(path).json() == json.loads(told.out)


def test_a_chore_is_done_as_a_job_is_and_is_off_the_round(client: TestClient) -> None:
    told = {"chore": "rinse the trays", "minutes": 1.0, "every_days": 7}
    assert client.post("/api/chores", json=told).status_code == 200

    def due() -> list[str]:
        stops = client.get("/api/round?minutes=720").json()["stops"]
        return [chore["id"] for stop in stops for chore in stop["chores"]]

    assert "chore:rinse the trays" in due()
    done = client.post("/api/jobs/chore:rinse%20the%20trays/done", json={"minutes": 3.0, "key": key(71)})
    assert done.status_code == 200
    assert done.json()["said"] == ["Done: rinse the trays, in 3 minutes"]
    assert "chore:rinse the trays" not in due()


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
    assert "Still standing there" in asked.json()["asks"][0]["found"]
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


def test_a_key_used_for_another_message_is_refused_and_writes_nothing(
    client: TestClient, garden: Path
) -> None:
    head = {"idempotency-key": key(3)}
    assert client.post("/api/book", json={"line": "weeded Lake 2"}, headers=head).status_code == 200
    for path, sent in (("book", {"line": "weeded Lake 3"}), ("people", {"name": "Somebody"})):
        got = client.post(f"/api/{path}", json=sent, headers=head)
        assert (got.status_code, got.headers["content-type"]) == (409, PROBLEM)
        assert "was used for another" in got.json()["detail"]
        assert got.json().get("asks", []) == []
    assert last_entry(garden) == key(3)
    # also by another server of the same garden, and the right one is answered still
    anew = TestClient(build_app(House(garden=garden, fixed_day=DAY)), base_url=HERE, headers=client.headers)
    assert anew.post("/api/book", json={"line": "weeded Lake 3"}, headers=head).status_code == 409
    assert anew.post("/api/book", json={"line": "weeded Lake 2"}, headers=head).status_code == 200


def test_a_photo_is_sent_listed_and_given_back(client: TestClient) -> None:
    png = made_png()
    sent = client.post(
        "/api/photos", params={"bed": "asparagus", "words": "ferns"}, content=png, headers=IMAGE
    )
    assert sent.status_code == 200, sent.text
    name = sent.json()["sha256"]
    shown = client.get("/api/photos", params={"bed": "asparagus"}).json()["photos"]
    assert [(each["sha256"], each["words"]) for each in shown] == [(name, "ferns")]
    got = client.get(f"/api/photos/{name}")
    assert got.headers["content-type"] == "image/png"
    assert got.content[:4] == png[:4]
    assert client.post("/api/photos", content=b"no photo", headers=IMAGE).status_code == 422
    assert client.post("/api/photos", content=png, headers={"content-type": "text/csv"}).status_code == 415


def test_the_plan_goes_out_and_comes_in_again_whole(client: TestClient, garden: Path) -> None:
    text, before = client.get("/api/plan").json()["text"], last_entry(garden)
    same = client.post("/api/plan", json={"text": text})
    assert same.status_code == 200, same.text
    assert (same.json()["changes"], last_entry(garden)) == ([], before)
    more = text + '\n[[chore]]\nchore = "Oil the gate"\nminutes = 10\n'
    tried = client.post("/api/plan", json={"text": more, "trial": True}).json()
    assert [each["name"] for each in tried["changes"]] == ["Oil the gate"]
    assert last_entry(garden) == before
    wrong = client.post("/api/plan", json={"text": text + "\n[[bed]]\nwidth = 'wide'\n"})
    assert (wrong.status_code, wrong.headers["content-type"]) == (422, PROBLEM)
    assert client.post("/api/plan", json={"text": more}).json()["stored"] is True
    assert "Oil the gate" in client.get("/api/chores").text


def test_a_chore_is_told_changed_and_taken_off(client: TestClient) -> None:
    told = {"chore": "Oil the hinges", "minutes": 25, "every_days": 14, "first": "2026-06-12"}
    assert client.post("/api/chores", json=told).status_code == 200
    assert client.post("/api/chores", json={"chore": "oil the hinges", "minutes": 20}).status_code == 200
    chore = next(each for each in client.get("/api/chores").json()["chores"] if "hinges" in each["chore"])
    assert (chore["chore"], chore["minutes"], chore["every_days"]) == ("Oil the hinges", 20, 14)
    assert chore["due"] is True
    assert client.post("/api/chores/Oil the hinges/end", json={}).status_code == 200
    assert "hinges" not in client.get("/api/chores").text


def test_facts_are_told_doubted_and_taken_back(client: TestClient) -> None:
    told = {"source": "radio", "forecast": [{"day": "2026-06-13", "low_c": 9, "high_c": 21}]}
    got = client.post("/api/told", json=told)
    assert got.status_code == 200, got.text
    (line,) = got.json()["told"]
    assert line["key"] in client.get("/api/told").text
    odd = {"source": "radio", "forecast": [{"day": "2026-06-14", "low_c": -19, "high_c": -8}]}
    asked = client.post("/api/told", json=odd)
    assert asked.status_code == 409, asked.text
    assert asked.json()["can_insist"] is True
    assert client.post("/api/told", json={"source": "radio"}).status_code == 422
    assert client.post(f"/api/told/{line['key']}/forget", json={}).status_code == 200
    assert line["key"] not in client.get("/api/told").text


def test_the_watch_shows_what_may_come(client: TestClient) -> None:
    found = client.get("/api/watch").json()
    assert found["frost"]["question"] == "frost"
    assert any(part["jobs"] for part in found["parts"])
    assert found["locks"]
    assert found["days"] == 21
    farther = client.get("/api/watch", params={"days": 28}).json()
    assert all(len(line["weeks"]) == 4 for line in farther["coming"])
    assert client.get("/api/watch", params={"days": 90}).status_code == 422


def test_a_planting_is_said_otherwise_moved_and_given_back(client: TestClient) -> None:
    def standing() -> dict[str, Any]:
        return {each["key"]: each for each in client.get("/api/plantings").json()["plantings"]}

    was = standing()["carrot-2026-2"]
    changed = client.post("/api/plantings/carrot-2026-2/change", json={"rows": was["rows"] - 1})
    assert changed.status_code == 200, changed.text
    now = standing()["carrot-2026-2"]
    assert (now["rows"], now["seeds"] < was["seeds"]) == (was["rows"] - 1, True)
    moved = client.post("/api/plantings/carrot-2026-2/move", json={"bed": "shed-3", "insist": True})
    assert moved.status_code == 200, moved.text
    assert standing()["carrot-2026-2"]["bed"] == "shed-3"
    for each in (moved, changed):
        key = each.json()["entries"][0]["key"]
        assert client.post(f"/api/book/{key}/undo", json={}).status_code == 200
    again = standing()["carrot-2026-2"]
    assert (again["rows"], again["bed"], again["seeds"]) == (was["rows"], was["bed"], was["seeds"])
    assert client.post("/api/plantings/carrot-2026-2/change", json={}).status_code == 422
