"""Nonsense in every field of every form: refused beside a field of that form, in words, and never written."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from locked_garden import TODAY, locked_garden
from spadework.faces.web.app import build_app
from spadework.faces.web.house import House
from spadework.faces.web.ways import all_ways
from spadework.usecases.look import last_entry

HERE = "http:" + "//127.0.0.1"
SENT = {"x-spadework": "page", "origin": HERE}

NONSENSE = {
    "number": ["many", "-7e300", "nan"],
    "date": ["1800-01-01", "soon"],
    "select": ["nowhere"],
    "text": ["a" * 9000],
    "textarea": ["a" * 9000],
}

INSIDE = re.compile(r"[a-z]_[a-z]|--[a-z]|\b01[0-9A-Z]{24}\b|Traceback|\.py\b")
"""Names of fields, options, keys of entries: nothing of it is said to a person."""

Field = tuple[str, str]
Form = tuple[str, dict[str, Field]]


class Forms(HTMLParser):
    """Forms that write: where each is sent, and its fields with their kinds and what stands in them."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.page = page
        self.found: list[Form] = []
        self._fields: dict[str, Field] | None = None
        self._choosing = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A form, a field of it, or a choice."""
        said = {name: value or "" for name, value in attrs}
        if tag == "form":
            self._fields = {}
            if said.get("method") == "post":
                self.found.append((said.get("action") or self.page.partition("?")[0], self._fields))
        elif self._fields is not None and tag in ("input", "textarea", "select") and said.get("name"):
            kind = said.get("type", "text") if tag == "input" else tag
            kind = "number" if said.get("inputmode") in ("decimal", "numeric") else kind
            self._fields[said["name"]] = (kind, said.get("value", ""))
            self._choosing = said["name"] if tag == "select" else ""
        elif tag == "option" and self._choosing and self._fields is not None:
            before = self._fields[self._choosing][1]
            chosen = said.get("value", "") if "selected" in said or not before else before
            self._fields[self._choosing] = ("select", chosen)

    def handle_endtag(self, tag: str) -> None:
        """The end of a form."""
        if tag == "form":
            self._fields = None


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return locked_garden(tmp_path_factory.mktemp("nonsense") / "garden")


@pytest.fixture(scope="module")
def client(garden: Path) -> TestClient:
    app = build_app(House(garden=garden, fixed_day=TODAY))
    return TestClient(app, base_url=HERE, follow_redirects=False, raise_server_exceptions=False)


@pytest.fixture(scope="module")
def forms(client: TestClient) -> list[Form]:
    """Every form of the pages, each kind of form once."""
    planting = client.get("/api/plantings").json()["plantings"][0]["key"]
    entry = client.get("/api/book").json()["entries"][0]["key"]
    pages = [
        *(way.path for way in all_ways() if not way.post and "{" not in way.path and "." not in way.path),
        *("/bed/bed-3", "/sheet/carrot", "/plant?way=tray", "/plant?way=bought"),
        *(f"/planting/{planting}", f"/planting/{planting}/change", f"/book/{entry}/correct"),
    ]
    found: dict[tuple[str, ...], Form] = {}
    for page in pages:
        reader = Forms(page)
        reader.feed(client.get(page).text)
        for action, fields in reader.found:
            kind = re.sub(r"(?<=/)[^/]*\d[^/]*", "*", action)
            kind = "/job/*/done" if action.startswith("/job/") and action.endswith("/done") else kind
            found.setdefault((kind, *fields), (action, fields))
    return list(found.values())


@pytest.mark.parametrize("kind", ["number", "date", "select", "text"])
def test_nonsense_is_refused_beside_its_field_and_never_written(
    client: TestClient, garden: Path, forms: list[Form], kind: str
) -> None:
    tried, faults, before = 0, list[str](), last_entry(garden)
    for action, fields in forms:
        usual = {
            name: value
            for name, (sort, value) in fields.items()
            if sort not in ("submit", "checkbox", "radio", "file")
        }
        for name, (sort, _) in fields.items():
            if sort != kind and (sort, kind) != ("textarea", "text"):
                continue
            for bad in NONSENSE[sort]:
                tried += 1
                got = client.post(action, data={**usual, name: bad, "key": ""}, headers=SENT)
                where = f"{action}, {name} = {bad[:12]}: {got.status_code}"
                if not 400 <= got.status_code < 500:
                    faults.append(f"{where} {got.text[:200]}")
                    continue
                told = got.json()
                said = f"{told.get('wrong', '')} {told.get('hint', '')}"
                said += " ".join(each["found"] + each["why"] for each in told.get("asks", ()))
                if INSIDE.search(said) or not 10 < len(said) < 600:
                    faults.append(f"{where} says {said[:200]!r}")
                # another field may be missing too, and is then asked for first
                if "asks" not in told and told["field"] not in fields:
                    faults.append(f"{where} is said beside {told['field']!r}: {said[:200]}")
    assert faults == []
    assert tried > 10
    assert last_entry(garden) == before
