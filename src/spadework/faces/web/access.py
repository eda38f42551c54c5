"""Who asks, and whether a form came from our own page."""

from __future__ import annotations

from starlette.requests import Request

from spadework.faces.web.house import House
from spadework.faces.web.visit import Caller, Refused, Visit
from spadework.usecases.look import first_keeper


def caller_of(house: House, request: Request) -> Caller:  # noqa: ARG001
    """Whoever sits at this machine is a keeper."""
    key, name = first_keeper(house.garden)
    return Caller(person=key, name=name, role="keeper")


def check_form(request: Request, visit: Visit) -> None:
    """Refuse what another site's page sends.

    Raises
    ------
    Refused
    """
    check_origin(request)
    del visit


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
