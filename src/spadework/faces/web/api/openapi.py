"""The API told to machines: an OpenAPI 3.1 document made from the same types that read and write it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from typing import Any, Final

import msgspec

from spadework import __version__
from spadework.faces.web.api.call import Call, Key, Problem

PROBLEMS: Final = {
    400: "It cannot be read at all.",
    401: "Nobody is let in by what was sent.",
    403: "Who asks may not do that.",
    404: "There is no such thing here.",
    409: "Nothing was written: something is asked first, or the key was used for another message.",
    413: "It is too long.",
    415: "It is of another kind than is taken.",
    422: "What it says cannot be taken.",
    429: "Too much in a short time.",
    503: "The garden or its book cannot be used now; nothing was written.",
}
"""Status codes by what they mean here."""

READING: Final = frozenset({401, 403, 404, 422, 429, 503})


def names_in(path: str) -> list[str]:
    """Names of the parts of an address that stand for something."""
    return re.findall(r"{(\w+)}", path)


@cache
def document(calls: tuple[Call, ...]) -> bytes:
    """The whole document as JSON."""
    types: list[Any] = [Problem, Key]
    for call in calls:
        types += [call.answers, call.asks, *([] if call.sends is None else [call.sends])]
    refs, schemas = msgspec.json.schema_components(types, ref_template="#/components/schemas/{name}")
    ref_of = {id(kind): ref for kind, ref in zip(types, refs, strict=True)}
    paths: dict[str, dict[str, Any]] = {}
    asked: set[str] = set()
    for call in calls:
        query = ref_of[id(call.asks)]["$ref"].rpartition("/")[2]
        asked.add(query)
        paths.setdefault(f"/api{call.path}", {})[call.method.lower()] = {
            "operationId": _operation(call),
            "summary": call.says,
            "description": f"For a {call.least}, and whoever may more."
            if call.least != "reader"
            else call.says,
            "parameters": [
                *(_in_path(name) for name in names_in(call.path)),
                *_in_query(schemas[query]),
                *(_in_head(ref_of[id(Key)]) if call.writes else []),
            ],
            **_body(call, ref_of),
            "responses": {
                "200": {
                    "description": "Answered.",
                    "content": _files(call.gives) if call.gives else _json(ref_of[id(call.answers)]),
                },
                **{
                    str(status): {"$ref": f"#/components/responses/Problem{status}"}
                    for status in PROBLEMS
                    if call.writes or status in READING
                },
            },
        }
    told = {
        "openapi": "3.1.0",
        "info": {
            "title": "Spadework",
            "version": __version__,
            "description": "One garden: what to do today, what stands, what was seen, and what the odds are. "
            "Temperatures are in °C, lengths in the unit at the end of a name, days as year-month-day.",
        },
        "paths": paths,
        "components": {
            "schemas": {name: each for name, each in schemas.items() if name not in asked},
            "responses": {f"Problem{status}": _problem(says) for status, says in PROBLEMS.items()},
            "securitySchemes": {
                "device": {"type": "http", "scheme": "bearer"},
                "session": {"type": "apiKey", "in": "cookie", "name": "spadework"},
            },
        },
        "security": [{}, {"device": []}, {"session": []}],
    }
    return msgspec.json.encode(told)


def _operation(call: Call) -> str:
    words = re.findall(r"[a-z]+", call.path.replace("{", "of-").replace("}", ""))
    return "_".join(["write" if call.writes else "read", *words])


def _in_path(name: str) -> dict[str, Any]:
    return {"name": name, "in": "path", "required": True, "schema": {"type": "string", "minLength": 1}}


def _in_query(schema: dict[str, Any]) -> Iterable[dict[str, Any]]:
    needed = schema.get("required", [])
    for name, told in schema.get("properties", {}).items():
        yield {"name": name, "in": "query", "required": name in needed, "schema": _without_null(told)}


def _without_null(told: dict[str, Any]) -> dict[str, Any]:
    """In an address what is left out is not sent as null."""
    rest = [each for each in told.get("anyOf", ()) if each.get("type") != "null"]
    if len(rest) != 1:
        return told
    return {**{name: value for name, value in told.items() if name not in ("anyOf", "default")}, **rest[0]}


def _in_head(key: dict[str, Any]) -> list[dict[str, Any]]:
    return [
        {
            "name": "X-Spadework",
            "in": "header",
            "required": False,
            "description": "Any word. Needed where no bearer token is sent: no page elsewhere can send it.",
            "schema": {"type": "string", "minLength": 1},
        },
        {"name": "Idempotency-Key", "in": "header", "required": False, "schema": key},
    ]


def _body(call: Call, ref_of: dict[int, dict[str, Any]]) -> dict[str, Any]:
    if not call.writes:
        return {}
    content = _files(call.takes) if call.sends is None else _json(ref_of[id(call.sends)])
    return {"requestBody": {"required": True, "content": content}}


def _files(kinds: tuple[str, ...]) -> dict[str, Any]:
    return {kind: {"schema": {"type": "string", "format": "binary"}} for kind in kinds}


def _json(ref: dict[str, Any]) -> dict[str, Any]:
    return {"application/json": {"schema": ref}}


def _problem(says: str) -> dict[str, Any]:
    schema = {"$ref": "#/components/schemas/Problem"}
    return {"description": says, "content": {"application/problem+json": {"schema": schema}}}
