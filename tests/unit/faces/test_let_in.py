"""Who is let in from elsewhere: by a code, once; as whom the code was for; until a keeper ends it."""

from __future__ import annotations

import itertools
import stat
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from locked_garden import TODAY, locked_garden
from spadework.errors import ParameterError, UnknownName
from spadework.faces.web.api.answer import all_calls
from spadework.faces.web.app import build_app
from spadework.faces.web.house import House
from spadework.faces.web.visit import RANKS
from spadework.faces.web.ways import all_ways
from spadework.store.let_in_file import LET_IN_FILE
from spadework.usecases.keep_copies import copy_garden
from spadework.usecases.keep_things import keep_person
from spadework.usecases.let_in import LetIn, Rate
from spadework.usecases.look import last_entry
from spadework.usecases.write_answer import Writing

HOME = "http:" + "//192.168.1.20:8040"
NUMBERS = itertools.count(30)
SENT = {"origin": HOME, "x-spadework": "page"}
OPEN = {"/let-in", "/api/let-in", "/calendar/{token}.ics", "/trust", "/trust/garden.crt"}
"""Addresses that answer who was not let in."""


class Clock:
    """A time that stands until it is moved."""

    def __init__(self) -> None:
        self.now = datetime(2026, 5, 1, 12, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One with a keeper, a helper and a reader."""
    made = locked_garden(tmp_path_factory.mktemp("home") / "garden")
    keeper = House(garden=made).first_keeper[0]
    if not keeper:
        keep_person(made, Writing(today=TODAY), "Ada", role="keeper")
        keeper = House(garden=made).first_keeper[0]
    for name, role in (("Hal", "helper"), ("Rea", "reader")):
        assert keep_person(made, Writing(today=TODAY, by=keeper), name, role=role).stored  # type: ignore[arg-type]
    return made


@pytest.fixture(scope="module")
def house(garden: Path) -> House:
    return House(
        garden=garden,
        fixed_day=TODAY,
        home=True,
        names=("127.0.0.1", "192.168.1.20"),
        reached_by=(HOME,),
    )


def phone(house: House, person: str = "", address: tuple[str, int] | None = None) -> TestClient:
    """A device in the home network, let in for somebody where one is named."""
    client = TestClient(
        build_app(house),
        base_url=HOME,
        client=address or (f"192.168.2.{next(NUMBERS) % 250}", 50000),
        follow_redirects=False,
        raise_server_exceptions=False,
    )
    if person:
        code = house.let_in.code_for(person, person)
        got = client.post("/let-in", data={"code": code.text.lower(), "device": f"{person}'s phone"})
        assert got.status_code == 303, got.text
        cookie = got.headers["set-cookie"]
        assert "HttpOnly" in cookie
        assert "SameSite=strict" in cookie
    return client


def keeper_of(house: House) -> str:
    return house.first_keeper[0]


def filled(path: str) -> str:
    return path.replace("{", "").replace("}", "")


def ways() -> list[tuple[str, str, str]]:
    """Every address of pages and API: how it is asked, where, and who may."""
    pages = [("POST" if way.post else "GET", way.path, way.least) for way in all_ways()]
    calls = [(call.method, f"/api{call.path}", call.least) for call in all_calls()]
    return [*pages, *calls, ("GET", "/live", "reader")]


def test_nothing_is_read_or_written_by_who_was_not_let_in(house: House) -> None:
    client, before = phone(house), last_entry(house.garden)
    name = house.garden.name
    for method, path, _ in ways():
        if path in OPEN:
            continue
        got = client.request(method, filled(path), headers=SENT if method == "POST" else {})
        assert got.status_code == 401, (method, path)
        assert "bed 1" not in got.text.lower(), path
        assert name not in got.text or name == "garden", path
    assert last_entry(house.garden) == before


@given(
    way=st.sampled_from([each for each in ways() if each[0] == "POST" and each[1] not in OPEN]),
    cookie=st.text("abcdefABCDEF0123456789._-", max_size=80),
    bearer=st.booleans(),
)
@settings(max_examples=60, deadline=None, derandomize=True)
def test_no_made_up_token_opens_anything(way: tuple[str, str, str], cookie: str, bearer: bool) -> None:
    house = _HOUSE[0]
    client, before = phone(house), last_entry(house.garden)
    shown = {"authorization": f"Bearer {cookie}"} if bearer else {"cookie": f"spadework={cookie}"}
    got = client.request("POST", filled(way[1]), headers={**SENT, **shown}, content=b"line=weeded")
    assert got.status_code == 401
    assert last_entry(house.garden) == before


_HOUSE: list[House] = []


@pytest.fixture(autouse=True)
def _kept(house: House) -> None:
    # a drawn test takes no fixture of this module anew for each draw
    _HOUSE[:] = [house]


@pytest.mark.parametrize("person", ["hal", "rea"])
def test_everybody_may_only_what_their_part_is(house: House, person: str) -> None:
    client = phone(house, person)
    rank = RANKS[house.people[person][1]]
    for method, path, least in ways():
        if path in (*OPEN, "/live", "/people/leave") or (method == "GET" and RANKS[least] <= rank):
            continue
        got = client.request(method, filled(path), headers=SENT, content=b"{}")
        if RANKS[least] > rank:
            assert got.status_code == 403, (method, path, got.status_code)
        else:
            assert got.status_code not in (401, 500), (method, path)


def test_a_helper_cannot_make_themselves_a_keeper(house: House) -> None:
    client = phone(house, "hal")
    for path, body in (
        ("/api/people", {"name": "Hal", "role": "keeper"}),
        ("/api/book", {"line": "Hal is a keeper"}),
    ):
        client.post(path, json=body, headers=SENT)
    for path in ("/who", "/people/let-in"):
        got = client.post(path, data={"person": keeper_of(house)}, headers=SENT)
        assert got.status_code == 403
    assert house.people["hal"][1] == "helper"


def test_what_is_written_is_written_by_whom_the_device_is_let_in_for(house: House) -> None:
    client = phone(house, "hal")
    got = client.post("/api/book", json={"line": "weeded Bed 1"}, headers=SENT)
    assert got.status_code == 200, got.text
    newest = client.get("/api/book").json()["entries"]
    assert next(each["by"] for each in newest if each["key"] == got.json()["written"][0]) == "hal"


def test_a_code_lets_one_device_in_once(house: House) -> None:
    code = house.let_in.code_for("hal", "Hal").text
    first, second = phone(house, address=("192.168.1.78", 1)), phone(house, address=("192.168.1.79", 1))
    assert first.post("/let-in", data={"code": code}).status_code == 303
    assert first.get("/who").status_code == 200
    got = second.post("/let-in", data={"code": code})
    assert got.status_code == 422
    assert second.get("/who").status_code == 401


def test_a_program_is_let_in_by_a_code_and_shows_its_token(house: House) -> None:
    code = house.let_in.code_for("hal", "Hal").text
    client = phone(house)
    token = client.post("/api/let-in", json={"code": code, "device": "A display"}).json()["token"]
    shown = {"authorization": f"Bearer {token}"}
    assert client.get("/api/garden", headers=shown).json()["you"] == "Hal"
    # no page elsewhere can send a token, so it needs no other header
    assert client.post("/api/book", json={"line": "hoed Bed 1"}, headers=shown).status_code == 200
    assert client.get("/api/devices", headers=shown).status_code == 403
    assert client.post("/api/let-in", json={"code": code}).status_code == 422


def test_a_keepers_phone_makes_codes_for_those_who_help_or_read_but_for_no_keeper(house: House) -> None:
    client, keeper = phone(house, keeper_of(house)), keeper_of(house)
    made = client.post("/people/let-in", data={"person": "hal"}, headers=SENT)
    assert made.status_code == 200, made.text
    (code,) = house.let_in.codes
    assert code.text in client.get("/people/let-in").text
    assert phone(house).post("/let-in", data={"code": code.text}).status_code == 303
    got = client.post("/api/codes", json={"person": "Hal"}, headers=SENT).json()
    assert (got["person"], len(got["code"])) == ("hal", 9)
    for path, sent in (
        ("/people/let-in", {"person": keeper}),
        ("/people/let-in", {"name": "Newcomer", "role": "keeper"}),
    ):
        assert client.post(path, data=sent, headers=SENT).status_code == 403
    for path, sent in (
        ("/api/codes", {"person": keeper}),
        ("/api/people", {"name": "Hal", "role": "keeper"}),
    ):
        assert client.post(path, json=sent, headers=SENT).status_code == 403
    assert [each.person for each in house.let_in.codes] == ["hal"]
    assert house.people["hal"][1] == "helper"
    assert "Newcomer" not in [name for name, _ in house.people.values()]
    # nor is an open code for a keeper shown there
    own = house.let_in.code_for(keeper, "Keeper").text
    assert own not in client.get("/people/let-in").text


def test_looking_at_the_address_of_a_code_does_not_use_it(house: House) -> None:
    code = house.let_in.code_for("hal", "Hal").text
    client = phone(house, address=("192.168.1.80", 1))
    assert code in client.get(f"/let-in?code={code}").text
    assert client.post("/let-in", data={"code": code}).status_code == 303


def test_codes_cannot_be_guessed_fast(house: House) -> None:
    client = phone(house, address=("192.168.1.81", 1))
    said = [client.post("/let-in", data={"code": f"AAAA-AA{n:02d}"}).text for n in range(12)]
    assert "Too many codes" in said[-1]
    good = house.let_in.code_for("hal", "Hal").text
    assert "Too many codes" in client.post("/let-in", data={"code": good}).text


def test_a_code_is_void_after_its_minutes_and_after_many_wrong_ones(garden: Path) -> None:
    clock = Clock()
    held = LetIn(garden, clock)
    code = held.code_for("hal", "Hal").text
    clock.now += timedelta(minutes=11)
    with pytest.raises(ParameterError, match="lets nobody in"):
        held.let_in(code, "", "a")
    code = held.code_for("hal", "Hal").text
    for number in range(40):
        with pytest.raises(ParameterError):
            held.let_in("AAAA-2222", "", f"address {number}")
    with pytest.raises(ParameterError, match="lets nobody in"):
        held.let_in(code, "", "another")


def test_an_ended_device_and_one_whose_time_is_over_are_told_so(garden: Path) -> None:
    clock = Clock()
    held = LetIn(garden, clock)
    token = held.let_in(held.code_for("hal", "Hal").text, "Old phone", "a")
    assert held.seen(token).name == "Old phone"
    clock.now += timedelta(days=201)
    with pytest.raises(UnknownName, match="let in until 17 November 2026"):
        held.seen(token)
    token = held.let_in(held.code_for("hal", "Hal").text, "New phone", "a")
    held.end(held.seen(token).key)
    with pytest.raises(UnknownName, match="ended this on"):
        LetIn(garden, clock).seen(token)


def test_an_ended_device_loses_nothing_typed_and_is_told_where_to_go(house: House) -> None:
    client, keeper = phone(house, "hal"), phone(house, keeper_of(house))
    device = next(each for each in house.let_in.devices if each.person == "hal")
    for each in [each for each in house.let_in.devices if each.person == "hal"]:
        assert keeper.post(f"/people/let-in/{each.key}/end", headers=SENT).status_code == 200
    page = client.get("/book")
    assert page.status_code == 401
    assert "Ask a keeper for a new code" in page.text
    sent = client.post("/book/say", data={"line": "weeded Bed 1"}, headers=SENT)
    assert sent.status_code == 401
    assert "ended" in sent.json()["wrong"]
    assert device.key not in [each.key for each in house.let_in.devices]


def test_the_file_is_its_owners_and_opens_nothing(house: House, tmp_path: Path) -> None:
    client = phone(house, "hal")
    file = house.garden / LET_IN_FILE
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    token = client.cookies["spadework"]
    assert token not in file.read_text()
    copy = tmp_path / "copy.zip"
    copy_garden(house.garden, copy)
    assert LET_IN_FILE.encode() not in copy.read_bytes()


def test_without_the_file_nobody_is_let_in(tmp_path: Path) -> None:
    held = LetIn(tmp_path)
    token = held.let_in(held.code_for("hal", "Hal").text, "", "a")
    (tmp_path / LET_IN_FILE).unlink()
    with pytest.raises(UnknownName):
        held.seen(token)


def test_a_program_on_this_machine_cannot_pass_others_in(house: House) -> None:
    client = phone(house, address=("127.0.0.1", 1))
    assert client.get("http:" + "//127.0.0.1:8040/who").status_code == 200
    for header in ("x-forwarded-for", "forwarded"):
        assert client.get("http:" + "//127.0.0.1:8040/who", headers={header: "10.0.0.1"}).status_code == 401


def test_at_the_machine_one_chooses_who_one_is(garden: Path) -> None:
    house = House(garden=garden, fixed_day=TODAY)
    client = TestClient(build_app(house), base_url="http:" + "//127.0.0.1", follow_redirects=False)
    headers = {"x-spadework": "page"}
    assert client.post("/who", data={"person": "hal"}, headers=headers).status_code == 200
    assert "written by Hal" in client.get("/who").text
    assert client.get("/people/let-in").status_code == 403
    forged = client.cookies["spadework-who"].strip('"').replace("hal.", f"{keeper_of(house)}.")
    client.cookies.clear()
    assert "written by Hal" not in client.get("/who", headers={"cookie": f"spadework-who={forged}"}).text


def test_a_form_without_its_token_is_not_taken(house: House) -> None:
    client = phone(house, "hal")
    plain = {"origin": HOME}
    assert client.post("/book/say", data={"line": "weeded Bed 1"}, headers=plain).status_code == 422
    page = client.get("/book").text
    token = page.split('name="form-token" content="')[1].split('"')[0]
    got = client.post("/book/say", data={"line": "weeded Bed 1", "token": token}, headers=plain)
    assert got.status_code == 303
    other = phone(house, "rea")
    assert other.post("/people/leave", data={"token": token}, headers=plain).status_code == 422


def test_every_form_of_every_page_carries_the_token(house: House) -> None:
    client = phone(house, keeper_of(house))
    for way in all_ways():
        if not way.post and "{" not in way.path and ".pdf" not in way.path:
            text = client.get(way.path).text
            for form in text.split('method="post"')[1:]:
                assert 'name="token"' in form.split("</form>")[0], way.path


def test_a_device_that_sends_too_much_is_slowed(house: House) -> None:
    clock = Clock()
    house.let_in.writes = Rate(20, timedelta(minutes=1), clock)
    client = phone(house, "rea")
    got = [client.post("/who", data={}, headers=SENT).status_code for _ in range(22)]
    assert (got[0], got[-1]) == (403, 429)
    clock.now += timedelta(minutes=2)
    assert client.post("/who", data={}, headers=SENT).status_code == 403


def test_a_calendar_has_an_address_of_its_own_that_opens_nothing_else(house: House) -> None:
    page = phone(house, "rea").post("/paper/calendar", data={"name": "Kitchen wall"}, headers=SENT).text
    address = page.split('readonly value="')[1].split('"')[0]
    assert address.startswith(HOME)
    anybody = phone(house)
    got = anybody.get(address)
    assert got.status_code == 200
    assert got.text.startswith("BEGIN:VCALENDAR")
    token = address.rpartition("/")[2].removesuffix(".ics")
    assert anybody.get("/book", headers={"cookie": f"spadework={token}"}).status_code == 401
    assert anybody.get("/api/jobs", headers={"authorization": f"Bearer {token}"}).status_code == 401
    device = next(each for each in house.let_in.devices if each.name == "Kitchen wall")
    house.let_in.end(device.key)
    assert anybody.get(address).status_code == 401
    assert anybody.get("/calendar/none.ics").status_code == 401
