"""Who may reach the pages: this machine by its own names, and forms of our own pages only."""

from __future__ import annotations

from pathlib import Path

import pytest
from starlette.testclient import TestClient

from locked_garden import TODAY, locked_garden
from spadework.faces.web.app import build_app
from spadework.faces.web.house import House
from spadework.faces.web.ways import all_ways
from spadework.usecases.look import last_entry

HERE = "http:" + "//127.0.0.1"
ELSEWHERE = "http:" + "//elsewhere.test"


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return locked_garden(tmp_path_factory.mktemp("web") / "garden")


@pytest.fixture(scope="module")
def client(garden: Path) -> TestClient:
    app = build_app(House(garden=garden, fixed_day=TODAY))
    return TestClient(app, base_url=HERE, follow_redirects=False, raise_server_exceptions=False)


def filled(path: str) -> str:
    """An address with something in place of its names."""
    return path.replace("{", "").replace("}", "")


def test_another_name_is_not_answered(garden: Path) -> None:
    app = build_app(House(garden=garden, fixed_day=TODAY))
    for path in ("/", "/live", "/calendar.ics", "/book/say"):
        assert TestClient(app, base_url=ELSEWHERE).get(path).status_code == 400


@pytest.mark.parametrize(
    "headers", [{"origin": ELSEWHERE}, {"origin": "null"}, {"sec-fetch-site": "cross-site"}]
)
def test_no_form_of_another_page_is_taken(client: TestClient, garden: Path, headers: dict[str, str]) -> None:
    before = last_entry(garden)
    for way in all_ways():
        if way.post:
            got = client.post(filled(way.path), data={"line": "weeded bed 1"}, headers=headers)
            assert got.status_code == 422, way.path
    assert last_entry(garden) == before


def test_every_answer_carries_the_headers(client: TestClient) -> None:
    for path in ("/", "/shed", "/nowhere", "/healthy"):
        policy = client.get(path).headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy


def test_no_page_has_script_or_style_in_it(client: TestClient) -> None:
    for way in all_ways():
        if not way.post and "{" not in way.path and ".pdf" not in way.path:
            text = client.get(way.path).text
            assert " style=" not in text, way.path
            assert "<style" not in text, way.path
            assert " onclick=" not in text, way.path


@pytest.mark.parametrize(
    "path", ["/bed/none", "/job/none", "/sheet/none", "/law/none", "/weigh/thin?planting=none"]
)
def test_what_is_not_there_is_said_plainly(client: TestClient, path: str) -> None:
    got = client.get(path)
    assert got.status_code == 404
    assert "That did not work" in got.text


@pytest.mark.parametrize(
    ("path", "status"),
    [
        ("/weigh/thin?planting=", 200),
        ("/?minutes=many", 422),
        ("/?minutes=-5", 422),
        ("/book?first=soon", 422),
    ],
)
def test_what_makes_no_sense_is_said_plainly(client: TestClient, path: str, status: int) -> None:
    assert client.get(path).status_code == status


def test_the_same_act_sent_twice_is_one_entry(client: TestClient, garden: Path) -> None:
    sent = {"line": "weeded Bed 1", "key": "01KB0000000000000000000001"}
    answers = [
        client.post("/book/say", data=sent, headers={"x-spadework": "page", "origin": HERE}) for _ in range(2)
    ]
    assert [each.status_code for each in answers] == [200, 200], answers[0].text
    assert last_entry(garden) == sent["key"]


def test_a_form_under_a_key_that_another_was_sent_with_is_refused(client: TestClient, garden: Path) -> None:
    key, page = "01KB0000000000000000000002", {"x-spadework": "page", "origin": HERE}
    sent = {"line": "weeded Bed 2", "key": key}
    assert client.post("/book/say", data=sent, headers=page).status_code == 200
    other = client.post("/book/say", data={**sent, "line": "weeded Bed 3"}, headers=page)
    assert other.status_code == 409
    assert "used for another" in other.json()["wrong"]
    # a phone that sends it later adds the day; that it is insisted on is no other form
    later = {**sent, "on": TODAY.isoformat(), "insist": "1", "token": "another"}
    assert client.post("/book/say", data=later, headers=page).status_code == 200
    assert last_entry(garden) == key
