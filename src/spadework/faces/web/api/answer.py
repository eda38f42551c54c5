"""Calls answered: read what was sent, ask the use case, and say as a problem what went wrong."""

from __future__ import annotations

import logging
from collections.abc import Awaitable, Callable, Iterator
from datetime import date, datetime
from functools import cache
from typing import Any, Final

import msgspec
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from spadework.errors import (
    EntryConflict,
    GardenError,
    ParameterError,
    SpadeworkError,
    StoreError,
    UnknownName,
)
from spadework.faces.web.access import STRANGER, caller_of, check_origin, check_pace
from spadework.faces.web.api.call import Asking, Bytes, Call, Problem, Questions, Sent
from spadework.faces.web.api.openapi import document
from spadework.faces.web.house import House
from spadework.faces.web.visit import RANKS, NotAllowed, TooLong
from spadework.usecases.look import last_entry
from spadework.usecases.sent_once import digest_of

log = logging.getLogger("spadework.web")

MOST_BYTES: Final = 200_000
"""Of one message to the API."""

FIRST_YEAR, LAST_YEAR = 1700, 2300
"""Years a day may lie in: the oldest daily records begin in the 1700s."""

TITLES: Final = {
    400: "Cannot be read",
    401: "Not let in",
    403: "Not allowed",
    404: "Not here",
    405: "Not in this way",
    409: "Asked first",
    413: "Too long",
    415: "Another kind of file",
    422: "Cannot be taken",
    429: "Too much at once",
    500: "The program failed",
    503: "Cannot be used now",
}


class NotReadable(ParameterError):
    """What was sent is no JSON."""


class NotJson(ParameterError):
    """What was sent says that it is no JSON, or no file of the kinds a call takes."""


@cache
def all_calls() -> tuple[Call, ...]:
    """Every call."""
    from spadework.faces.web.api.devices import DEVICES
    from spadework.faces.web.api.laws import LAW_CALLS
    from spadework.faces.web.api.photos import PHOTOS
    from spadework.faces.web.api.plan import PLAN
    from spadework.faces.web.api.planting import PLANTING
    from spadework.faces.web.api.reads import READS
    from spadework.faces.web.api.telling import TELLING
    from spadework.faces.web.api.weighs import WEIGHS
    from spadework.faces.web.api.writes import WRITES

    return (
        *(*DEVICES, *LAW_CALLS, *PHOTOS, *PLAN, *PLANTING),
        *(*READS, *TELLING, *WEIGHS, *WRITES),
    )


def api_routes(house: House) -> list[Route]:
    """A route for each address, and the document of them all."""
    by_path: dict[str, dict[str, Call]] = {}
    for call in all_calls():
        by_path.setdefault(call.path, {})[call.method] = call
    # what is spelled out goes before what stands for something
    ordered = sorted(by_path.items(), key=lambda each: each[0].count("{"))
    return [
        Route("/api/openapi.json", _document, methods=["GET"]),
        *(Route(f"/api{path}", _endpoint(house, calls), methods=list(calls)) for path, calls in ordered),
    ]


def problem(status: int, detail: str, hint: str = "", title: str = "", **more: Any) -> Response:
    """A problem as an answer."""
    title = title or TITLES.get(status, "Problem")
    told = Problem(title=title, status=status, detail=detail, hint=hint, **more)
    return Response(msgspec.json.encode(told), status, media_type="application/problem+json")


async def _document(_: Request) -> Response:
    return Response(document(all_calls()), media_type="application/json")


def _endpoint(house: House, calls: dict[str, Call]) -> Callable[[Request], Awaitable[Response]]:
    async def answer(request: Request) -> Response:
        call = calls.get(request.method) or calls["GET"]
        try:
            asking = await _asking(house, call, request)
            found = await run_in_threadpool(_in_turn, call, asking)
        except Questions as error:
            return problem(409, error.message, error.hint, asks=error.asks, can_insist=error.can_insist)
        except EntryConflict as error:
            return problem(409, error.message, error.hint, title="Key used before")
        except SpadeworkError as error:
            return problem(status_of(error), error.message, error.hint)
        except Exception as error:  # a fault of the program: told as a problem too, and logged
            log.error("A call failed", exc_info=error)
            return problem(500, "The program failed here. What is in the book is safe; nothing was written.")
        if call.writes:
            house.hub.tell(await run_in_threadpool(last_entry, house.garden))
        return Response(found.content, media_type=found.kind)

    return answer


def _in_turn(call: Call, asking: Asking) -> Bytes:
    with asking.house.turn:
        once, digest = asking.house.sent, _digest(call, asking) if asking.key else ""
        once.check(asking.key, digest)
        found = call.do(asking)
        answer = found if isinstance(found, Bytes) else Bytes(msgspec.json.encode(found), "application/json")
        once.keep(asking.key, digest)
        return answer


def _digest(call: Call, asking: Asking) -> str:
    """What tells one message from another; that it is insisted on is no other message."""
    sent = asking.sent
    if isinstance(sent, Sent):
        sent = msgspec.structs.replace(sent, key="", insist=False)
    names = msgspec.json.encode(dict(asking.names), order="sorted")
    return digest_of(call.path, (names, msgspec.json.encode(sent, order="sorted"), asking.body))


async def _asking(house: House, call: Call, request: Request) -> Asking:
    try:
        caller = await run_in_threadpool(caller_of, house, request)
    except NotAllowed:
        if not call.open:
            raise
        caller = STRANGER
    if RANKS[caller.role] < RANKS[call.least]:
        raise NotAllowed(call.least)
    given = _converted(dict(request.query_params), call.asks)
    if not call.writes:
        return Asking(house=house, caller=caller, names=request.path_params, given=given)
    check_origin(request)
    if not call.open and not caller.by_token and not request.headers.get("x-spadework", "").strip():
        raise NotAllowed("", "The header X-Spadework is missing.", "Send it with any word in it.")
    check_pace(house, caller)
    body = b""
    if call.sends is None:
        body, sent = await _file(request, call.takes), given
    else:
        sent = await _sent(request, call.sends)
    return Asking(
        house=house,
        caller=caller,
        names=request.path_params,
        given=given,
        sent=sent,
        key=_key(request.headers.get("idempotency-key", ""), getattr(sent, "key", "")),
        body=body,
        from_address=request.client.host if request.client else "",
    )


async def _file(request: Request, kinds: tuple[str, ...]) -> bytes:
    """A file as it was sent; how large it may be is bounded for the whole application."""
    kind = _kind(request)
    if kind not in kinds:
        raise NotJson(f"{kind or 'Nothing'} was sent.", f"Send one of: {', '.join(kinds)}.")
    return await request.body()


def _kind(request: Request) -> str:
    return request.headers.get("content-type", "").partition(";")[0].strip().lower()


async def _sent(request: Request, form: type[msgspec.Struct]) -> Any:
    kind = _kind(request)
    if kind != "application/json":
        raise NotJson(f"{kind or 'Nothing'} was sent.", "Send application/json.")
    body = b""
    async for part in request.stream():
        body += part
        if len(body) > MOST_BYTES:
            raise TooLong(f"More than {MOST_BYTES // 1000} kB were sent.", "Send less at once.")
    try:
        found = msgspec.json.decode(body, type=form)
    except msgspec.ValidationError as error:
        raise ParameterError(f"{error}.", "See /api/openapi.json.") from None
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        raise NotReadable(f"It is no JSON: {error}.") from None
    _check_days(found)
    return found


def _converted(given: dict[str, str], form: type[msgspec.Struct]) -> Any:
    try:
        found = msgspec.convert(given, form, strict=False)
    except msgspec.ValidationError as error:
        raise ParameterError(f"{error}.", "See /api/openapi.json.") from None
    _check_days(found)
    return found


def _check_days(found: msgspec.Struct) -> None:
    told = msgspec.to_builtins(found, builtin_types=(date, datetime))
    for name, value in told.items():
        for day in _days_in(value):
            if not FIRST_YEAR <= day.year <= LAST_YEAR:
                raise ParameterError(
                    f"{name}: {day} is a date no weather record reaches.",
                    f"Give a year from {FIRST_YEAR} to {LAST_YEAR}.",
                )


def _days_in(value: Any) -> Iterator[date]:
    if isinstance(value, date):
        yield value
    elif isinstance(value, dict | list | tuple):
        for each in value.values() if isinstance(value, dict) else value:
            yield from _days_in(each)


def _key(head: str, body: str) -> str:
    if head and body and head != body:
        raise ParameterError("The header and the body name two keys.", "Send one.")
    return head or body


def status_of(error: SpadeworkError) -> int:
    """The status that says what sort of problem it is."""
    match error:
        case NotAllowed():
            return error.status
        case TooLong():
            return 413
        case NotJson():
            return 415
        case NotReadable():
            return 400
        case UnknownName():
            return 404
        case EntryConflict():
            return 409
        case StoreError() | GardenError():
            return 503
        case _:
            return 422
