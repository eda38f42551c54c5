"""The API keeps to what it says of itself, whatever is sent: an independent reader of its document tries it.

What is sent is drawn with a fixed seed and is the same every time; half of all names are ones the garden has.
"""

from __future__ import annotations

from typing import Any, Final

import msgspec
import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi import checks
from starlette.testclient import TestClient

from api.conftest import HERE
from spadework.faces.web.api.answer import all_calls
from spadework.faces.web.api.openapi import document

CHECKS: Final = [
    not_a_server_error,
    checks.status_code_conformance,
    checks.content_type_conformance,
    checks.response_schema_conformance,
    checks.negative_data_rejection,
]
"""Left out: that all that fits the document is taken. A garden may refuse what it cannot mean."""

DOCUMENT: Final = msgspec.json.decode(document(all_calls()))
SCHEMA: Final = schemathesis.openapi.from_dict(DOCUMENT)
OPERATIONS: Final = {each.ok().label: each.ok() for each in SCHEMA.get_all_operations()}

CALM: Final = settings(
    max_examples=3,
    derandomize=True,
    deadline=None,
    database=None,
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)


@pytest.fixture(scope="module")
def known(client: TestClient) -> dict[str, list[Any]]:
    """Names the garden has, by the name of the field they go into."""
    beds = [bed["key"] for bed in client.get("/api/beds").json()["beds"]]
    standing = client.get("/api/plantings").json()["plantings"]
    jobs = client.get("/api/jobs").json()["jobs"]
    return {
        "bed": beds[:6],
        "inside": beds[:2],
        "crop": ["carrot", "beetroot", "tomato", "lettuce", "garlic", "potato"],
        "planting": [each["key"] for each in standing][:8],
        "job": [each["id"] for each in jobs][:8],
        "lot": [each["lot"] for each in client.get("/api/tin").json()["lots"]][:3],
        "entry": [each["key"] for each in client.get("/api/book").json()["entries"]][:5],
        "law": ["frost", "degree-days"],
        "on": ["2026-06-12", "2026-05-01"],
        "by": ["2026-09-30"],
        "line": ["weeded bed 3", "picked 2 kg carrots", "2 rows of radish sown in bed 4, 20 cm apart"],
    }


def can_be_wrong(label: str) -> bool:
    """Whether anything beside the address is sent with a call."""
    of = OPERATIONS[label].definition.raw
    return "requestBody" in of or any(each["in"] == "query" for each in of["parameters"])


@pytest.mark.parametrize(
    ("label", "mode"),
    [
        *(pytest.param(each, GenerationMode.POSITIVE, id=f"fits-{each}") for each in sorted(OPERATIONS)),
        *(
            pytest.param(each, GenerationMode.NEGATIVE, id=f"does-not-{each}")
            for each in sorted(filter(can_be_wrong, OPERATIONS))
        ),
    ],
)
def test_every_call_keeps_to_its_document(
    client: TestClient, known: dict[str, list[Any]], label: str, mode: GenerationMode
) -> None:
    operation = OPERATIONS[label]

    @CALM
    @given(data=st.data(), case=operation.as_strategy(mode))
    def tried(data: st.DataObject, case: schemathesis.Case) -> None:
        if mode is GenerationMode.POSITIVE:
            for part in (case.path_parameters, case.query, case.body):
                for name in part if isinstance(part, dict) else ():
                    if name in known and data.draw(st.booleans()):
                        part[name] = data.draw(st.sampled_from(known[name]))
        answer = case.call(base_url=HERE, app=client.app, headers={"x-spadework": "test"})
        case.validate_response(answer, checks=CHECKS)

    tried()


def test_the_document_names_every_call() -> None:
    told = {(path, method.upper()) for path, of in DOCUMENT["paths"].items() for method in of}
    assert told == {(f"/api{call.path}", call.method) for call in all_calls()}
    names = [of["operationId"] for each in DOCUMENT["paths"].values() for of in each.values()]
    assert len(names) == len(set(names))
