"""The web face as one application: ways in, ways out, and what holds for all of them."""

from __future__ import annotations

import contextlib
import logging
from collections.abc import AsyncIterator, Awaitable, Callable
from dataclasses import replace
from typing import Final
from urllib.parse import quote, unquote

import msgspec
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import ClientDisconnect, Request
from starlette.responses import RedirectResponse, Response, StreamingResponse
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from spadework.errors import EntryConflict, GardenError, RecordError, SpadeworkError, StoreError, UnknownName
from spadework.faces.web.access import STRANGER, caller_of, check_form, check_pace, set_cookie
from spadework.faces.web.api.answer import api_routes, problem
from spadework.faces.web.bounded import Bounded
from spadework.faces.web.headers import SafeHeaders
from spadework.faces.web.house import House
from spadework.faces.web.memory import given_back
from spadework.faces.web.page_words import on_page
from spadework.faces.web.render import STATIC, digest, render
from spadework.faces.web.typed import check_length, field_of, in_short
from spadework.faces.web.visit import (
    RANKS,
    Answer,
    Asks,
    Caller,
    File,
    Go,
    NotAllowed,
    Page,
    Refused,
    TooLong,
    Visit,
    Way,
)
from spadework.faces.web.ways import all_ways
from spadework.usecases.keep_book import Asked
from spadework.usecases.look import last_entry
from spadework.usecases.sent_once import digest_of

log = logging.getLogger("spadework.web")

BEGIN: Final = "/begin"
"""Where a garden is made."""

FAILED: Final = (
    "The program failed here.",
    "What is in the book is safe, and what you just sent was not written unless the book shows it.",
)

MOST_BYTES: Final = 25_000_000
"""Of one message: a photo from a phone is a few megabytes."""


_NOT_TOLD: Final = frozenset({"token", "key", "insist", "on"})
"""Fields of a form that may differ where the same is sent again."""

_OTHER_GARDEN: Final = (
    "This was told of another garden.",
    "It stays on this phone until that garden answers here again.",
)


def build_app(house: House) -> Starlette:
    """The application for one garden."""
    routes = [
        Route("/live", _live(house), methods=["GET"]),
        Route("/healthy", _healthy, methods=["GET"]),
        *api_routes(house),
        Mount(f"/static/{digest()}", StaticFiles(directory=STATIC)),
        *(
            Route(way.path, _endpoint(house, way), methods=["POST" if way.post else "GET"])
            for way in all_ways()
        ),
    ]

    @contextlib.asynccontextmanager
    async def life(_: Starlette) -> AsyncIterator[None]:
        yield
        house.hub.closing = True

    handlers = {404: _not_here(house), 405: _not_so, 500: _broken}
    app = Starlette(routes=routes, lifespan=life, exception_handlers=handlers)
    # a page elsewhere whose name was pointed at this machine is none of ours
    app.add_middleware(TrustedHostMiddleware, allowed_hosts=list(house.names), www_redirect=False)
    app.add_middleware(Bounded, most=MOST_BYTES)
    app.add_middleware(SafeHeaders)
    app.state.house = house
    return app


def _endpoint(house: House, way: Way) -> Callable[[Request], Awaitable[Response]]:
    async def answer(request: Request) -> Response:
        by_script = request.headers.get("x-spadework") == "page"
        visit = Visit(house=house, caller=STRANGER, path=request.url.path)
        try:
            visit = replace(visit, caller=await _caller(house, request, way))
            if RANKS[visit.caller.role] < RANKS[way.least]:
                raise NotAllowed(way.least)
            if not way.without_garden and not (house.garden / "garden.toml").is_file():
                return RedirectResponse(BEGIN, 303)
            visit = await _visit(visit, request)
            if way.post:
                check_form(request, house, visit.caller, visit.form.get("token", ""))
                check_pace(house, visit.caller)
                check_length(visit.form)
                if (meant := request.headers.get("x-garden")) and meant != house.mark:
                    return _refusal(visit, Refused(*_OTHER_GARDEN), 421, by_script)
            found = await run_in_threadpool(_in_turn, house, way, visit)
            if way.post:
                house.hub.tell(await run_in_threadpool(last_entry, house.garden))
            return _response(found, visit, request, by_script)
        except SpadeworkError as error:
            return _refusal(visit, error, _status(error), by_script)
        except ClientDisconnect:
            raise
        except Exception as error:  # a fault of the program: told on this machine, said plainly on the page
            log.error("%s failed", request.url.path, exc_info=error)
            return _refusal(visit, SpadeworkError(*FAILED), 500, by_script)
        finally:
            await request.close()  # files that were sent

    return answer


async def _caller(house: House, request: Request, way: Way) -> Caller:
    try:
        return await run_in_threadpool(caller_of, house, request)
    except NotAllowed:
        if way.open:
            return STRANGER
        raise


def _in_turn(house: House, way: Way, visit: Visit) -> Answer:
    with contextlib.nullcontext() if way.waits else house.turn, given_back():
        key = visit.text("key") if way.post else ""
        if not key:
            return way.do(visit)
        digest = _digest(visit)
        house.sent.check(key, digest)
        found = way.do(visit)
        if isinstance(found, Go):
            house.sent.keep(key, digest)
        return found


def _digest(visit: Visit) -> str:
    """What tells one form from another. A phone that sends it later adds the day it was told on."""
    parts = [
        f"{name}={value}".encode()
        for name, values in sorted(visit.many.items())
        if name not in _NOT_TOLD
        for value in values
    ]
    for name, file in sorted(visit.files.items()):
        parts += [name.encode(), file.file.read()]
        file.file.seek(0)
    return digest_of(visit.path, parts)


async def _visit(visit: Visit, request: Request) -> Visit:
    """What was asked, once it is known by whom."""
    form: dict[str, str] = {}
    many: dict[str, list[str]] = {}
    files: dict[str, UploadFile] = {}
    body = b""
    kind = request.headers.get("content-type", "")
    if request.method == "POST" and kind.startswith(("multipart/", "application/x-www-form")):
        for name, value in await _fields(request):
            if isinstance(value, UploadFile):
                if value.filename:
                    files[name] = value
            else:
                form[name] = value
                many.setdefault(name, []).append(value)
    elif request.method == "POST":
        body = await request.body()
    return replace(
        visit,
        names=request.path_params,
        query={name: _typed(value) for name, value in request.query_params.items()},
        form=form,
        many=many,
        files=files,
        body=body,
        address=f"{request.url.scheme}://{request.url.netloc}",
        from_address=request.client.host if request.client else "",
        browser=request.headers.get("user-agent", "")[:300],
    )


async def _fields(request: Request) -> list[tuple[str, str | UploadFile]]:
    try:
        found = (await request.form(max_part_size=MOST_BYTES, max_fields=500)).multi_items()
    except (HTTPException, UnicodeDecodeError):
        raise Refused(
            "What was sent cannot be read.", "Open the page again, and send it from there."
        ) from None
    return [(name, value if isinstance(value, UploadFile) else _typed(value)) for name, value in found]


def _typed(text: str) -> str:
    """A text without signs that no keyboard has, and that no book keeps."""
    return (
        "".join(sign for sign in text if sign >= " " or sign in "\n\r\t").encode("utf-8", "replace").decode()
    )


def _response(found: Answer, visit: Visit, request: Request, by_script: bool) -> Response:
    match found:
        case Page():
            said = unquote(request.cookies.get("said", ""))
            shown = Response(
                render(found.template, visit, found.with_, said), found.status, media_type="text/html"
            )
            if said:
                shown.delete_cookie("said")
            return shown
        case Go():
            if by_script:
                said_so = _json({"go": found.to, "say": found.say, "undo": found.undo})
                return _with_cookie(said_so, request, found)
            gone = _with_cookie(RedirectResponse(found.to, 303), request, found)
            if found.say:
                gone.set_cookie("said", quote(found.say[:600]), max_age=20, httponly=True, samesite="strict")
            return gone
        case Asks():
            if by_script:
                asked = [_asked(visit, each) for each in found.questions]
                return _json({"asks": asked, "can_insist": found.can_insist}, 409)
            with_ = {"asks": found, "fields": visit.many, "back": request.headers.get("referer", "/")}
            return Response(render("asks.html", visit, with_), 409, media_type="text/html")
        case File():
            kept = {"cache-control": "private, max-age=31536000, immutable" if found.keep else "no-store"}
            if found.name:
                kept["content-disposition"] = f"attachment; filename*=UTF-8''{quote(found.name)}"
            return Response(found.content, media_type=found.kind, headers=kept)
        case _:
            return Response(msgspec.json.encode(found), media_type="application/json")


def _with_cookie(answer: Response, request: Request, found: Go) -> Response:
    if found.cookie is not None:
        name, value, days = found.cookie
        if value:
            set_cookie(answer, request, name, value, days)
        else:
            answer.delete_cookie(name)
    return answer


def _asked(visit: Visit, question: Asked) -> dict[str, str]:
    told = visit.voice.told if (visit.garden / "garden.toml").is_file() else str
    return {
        "found": on_page(told(question.found)),
        "why": on_page(told(question.why)),
        "about": question.about,
    }


def _refusal(visit: Visit, error: SpadeworkError, status: int, by_script: bool) -> Response:
    if by_script:
        wrong, hint = in_short(on_page(error.message)), in_short(on_page(error.hint))
        return _json({"wrong": wrong, "hint": hint, "field": field_of(error, visit.form)}, status)
    if status == 401:
        return Response(
            render("let_in.html", visit, {"why": error, "code": ""}), status, media_type="text/html"
        )
    return Response(
        render("wrong.html", visit, {"error": error, "no_weather": isinstance(error, RecordError)}),
        status,
        media_type="text/html",
    )


def _status(error: SpadeworkError) -> int:
    if isinstance(error, NotAllowed):
        return error.status
    if isinstance(error, TooLong):
        return 413
    if isinstance(error, UnknownName):
        return 404
    if isinstance(error, EntryConflict):
        return 409
    return 503 if isinstance(error, (StoreError, GardenError)) else 422


def _json(what: object, status: int = 200) -> Response:
    return Response(msgspec.json.encode(what), status, media_type="application/json")


async def _not_so(request: Request, error: Exception) -> Response:
    """An address asked in a way it does not answer."""
    said = problem(405, "This address is not asked in this way.", "See /api.")
    said.headers.update(getattr(error, "headers", None) or {})
    del request
    return said


async def _broken(_: Request, error: Exception) -> Response:
    """A fault of the program: said plainly, and where it can be read on this machine."""
    log.error("A page failed", exc_info=error)
    return Response(" ".join(FAILED), 500, media_type="text/plain")


async def _healthy(_: Request) -> Response:
    """Whether anybody answers; tells nothing of the garden."""
    return Response(b"spadework", media_type="text/plain")


def _live(house: House) -> Callable[[Request], Awaitable[Response]]:
    async def stream(request: Request) -> Response:
        try:
            caller = await run_in_threadpool(caller_of, house, request)
        except NotAllowed as error:
            return _json({"wrong": error.message, "hint": error.hint}, error.status)

        async def events() -> AsyncIterator[bytes]:
            async for event in house.hub.listen(lambda: last_entry(house.garden)):
                if caller.session and not house.let_in.stands(caller.session):
                    return  # ended meanwhile: not a word more
                yield event

        return StreamingResponse(
            events(), media_type="text/event-stream", headers={"cache-control": "no-store"}
        )

    return stream


def _not_here(house: House) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def show(request: Request, _: Exception) -> Response:
        if request.url.path.startswith("/api/"):
            return problem(404, "There is no such call.", "See /api.")
        try:
            caller = await run_in_threadpool(caller_of, house, request)
        except NotAllowed:
            caller = STRANGER
        visit = Visit(house=house, caller=caller, path=request.url.path)
        error = UnknownName("There is no such page here.", "The rooms are below." if caller.known else "")
        return Response(
            render("wrong.html", visit, {"error": error, "no_weather": False}), 404, media_type="text/html"
        )

    return show
