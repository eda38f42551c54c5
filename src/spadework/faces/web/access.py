"""Who asks: whoever sits at the machine, or a device that was let in; and whether a form is our own."""

from __future__ import annotations

from dataclasses import replace
from ipaddress import ip_address
from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from spadework.errors import UnknownName
from spadework.faces.web.house import House
from spadework.faces.web.visit import Caller, NotAllowed, Refused

SESSION: Final = "spadework"
"""Cookie of a device that was let in."""

WHO: Final = "spadework-who"
"""Cookie at the machine itself: which of its people sits there."""

STRANGER: Final = Caller(role="reader", here=False, known=False)
"""Somebody who was not let in: sees how to be, and nothing of the garden."""


def caller_of(house: House, request: Request) -> Caller:
    """Who asks.

    Raises
    ------
    NotAllowed
        Where nobody is let in by what was sent; it says what became of the device.

    Notes
    -----
    A device that shows a token is whom the token says, at the machine too. Without one, whoever sits at the
    machine is the first keeper, or whom they chose to be.
    """
    bearer = _bearer(request)
    token = bearer or request.cookies.get(SESSION, "")
    here = sits_here(house, request)
    if token and (bearer or not here):
        return _let_in(house, token, by_token=bool(bearer))
    if not here:
        raise NotAllowed(
            "", "This device is not let in here.", "Ask a keeper of the garden for a code.", status=401
        )
    return _at_the_machine(house, request)


def sits_here(house: House, request: Request) -> bool:
    """Whether a request comes from this machine itself and was not passed on by another program."""
    if "x-forwarded-for" in request.headers or "forwarded" in request.headers:
        return False
    host = request.client.host if request.client else ""
    try:
        return ip_address(host).is_loopback
    except ValueError:
        # no address at all: asked within this program
        return not house.home


def check_form(request: Request, house: House, caller: Caller, token: str) -> None:
    """Refuse a form that is not of a page this caller was given.

    Raises
    ------
    Refused
    """
    check_origin(request)
    # only a script of our own page can send the header; a form without script carries the token
    if request.headers.get("x-spadework", "").strip() or not caller.known:
        return
    if house.let_in.unsigned(token, "form") != form_for(caller):
        raise Refused("This form is too old.", "Open its page again, and send it from there.")


def check_origin(request: Request) -> None:
    """Refuse what a page of another site sends.

    Raises
    ------
    Refused
    """
    origin = request.headers.get("origin")
    own = f"{request.url.scheme}://{request.url.netloc}"
    from_elsewhere = request.headers.get("sec-fetch-site") in ("cross-site", "same-site")
    if from_elsewhere or (origin is not None and origin != own):
        raise Refused("This came from another page.", "Open the page here and send it again.")


def check_pace(house: House, caller: Caller) -> None:
    """Refuse a device that writes faster than hands do.

    Raises
    ------
    NotAllowed
    """
    if caller.session and not house.let_in.writes.take(caller.session):
        raise NotAllowed("", "This device sends too much at once.", "It can go on in a minute.", status=429)


def check_may_let_in(caller: Caller, role: str) -> None:
    """Refuse to let a keeper in, or to make one, from anywhere but the machine itself.

    Parameters
    ----------
    caller : Caller
        A keeper.
    role : str
        Of whom a code is for, or what somebody is made.

    Raises
    ------
    NotAllowed

    Notes
    -----
    Else a phone that is lost could let in another for as long, which its end would not end.
    """
    if role == "keeper" and not caller.here:
        raise NotAllowed(
            "",
            "A keeper is let in at the garden's own computer only.",
            "Open this page there, or choose somebody who helps or reads.",
        )


def form_for(caller: Caller) -> str:
    """What a form's token is signed for."""
    return caller.session or "here"


def set_cookie(answer: Response, request: Request, name: str, value: str, days: int) -> None:
    """A cookie no script can read and no other site can make a browser send."""
    answer.set_cookie(
        name,
        value,
        max_age=days * 86400,
        httponly=True,
        samesite="strict",
        secure=request.url.scheme == "https",
    )


def _bearer(request: Request) -> str:
    kind, _, token = request.headers.get("authorization", "").partition(" ")
    return token.strip() if kind.lower() == "bearer" else ""


def _let_in(house: House, token: str, *, by_token: bool) -> Caller:
    try:
        device = house.let_in.seen(token)
    except UnknownName as error:
        raise NotAllowed("", error.message, error.hint, status=401) from None
    found = house.person(device.person)
    if found is None:
        raise NotAllowed(
            "", "Whoever this device was let in for is not known here any more.", "Ask a keeper.", status=401
        )
    return _with_token(
        house,
        Caller(
            person=device.person,
            name=found[0],
            role=found[1],
            here=False,
            by_token=by_token,
            session=device.key,
        ),
    )


def _at_the_machine(house: House, request: Request) -> Caller:
    chosen = house.let_in.unsigned(request.cookies.get(WHO, ""), "who")
    found = None if not chosen else house.person(chosen)
    if chosen and found is not None:
        return _with_token(house, Caller(person=chosen, name=found[0], role=found[1]))
    key, name = house.first_keeper
    return _with_token(house, Caller(person=key, name=name, role="keeper"))


def _with_token(house: House, caller: Caller) -> Caller:
    return replace(caller, token=house.let_in.signed(form_for(caller), "form"))
