"""Let a program in, and see and end what was let in."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Final, Literal

import msgspec
from msgspec import Meta

from spadework.errors import ParameterError, UnknownName
from spadework.faces.web.access import check_may_let_in
from spadework.faces.web.api.call import Asking, Call, Sent, Text


class LetMeIn(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A code as a keeper gave it, and what the device is called."""

    code: Annotated[Text, Meta(min_length=1)]
    device: Text = ""


class WasLetIn(msgspec.Struct, frozen=True, kw_only=True):
    """The token to send from now on, and until when; it is shown this once."""

    token: str
    person: str
    until: datetime


class DeviceShown(msgspec.Struct, frozen=True, kw_only=True):
    """A device that is let in."""

    key: str
    name: str
    person: str
    sort: Literal["device", "calendar"]
    since: datetime
    until: datetime
    last_seen: datetime


class DeviceList(msgspec.Struct, frozen=True, kw_only=True):
    """All devices let in now, the last seen first."""

    devices: list[DeviceShown]


class NewCode(Sent, frozen=True, kw_only=True):
    """Whom a code is for, by key or name."""

    person: Text = ""


class CodeMade(msgspec.Struct, frozen=True, kw_only=True):
    """A code that lets one device in, once; an older one for the same person is void."""

    code: str
    person: str
    name: str
    until: datetime


class End(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Nothing more is said."""


def _let_in(asking: Asking) -> WasLetIn:
    held = asking.house.let_in
    token = held.let_in(asking.sent.code, asking.sent.device or "A program", asking.from_address)
    device = held.seen(token)
    return WasLetIn(token=token, person=device.person, until=device.until)


def _code(asking: Asking) -> CodeMade:
    people, wanted = asking.house.people, asking.sent.person.strip()
    if people and not wanted:
        raise ParameterError("Whom is it for?", "Name somebody of the garden.")
    found = [key for key, (name, _) in people.items() if wanted.casefold() in (key, name.casefold())]
    if wanted and len(found) != 1:
        raise UnknownName(
            f"{len(found) or 'Nobody'} here {'are' if found else 'is'} called {wanted!r}.",
            "See /api/people.",
        )
    name, role = people[found[0]] if found else ("", "keeper")
    check_may_let_in(asking.caller, role)
    code = asking.house.let_in.code_for(found[0] if found else "", name)
    return CodeMade(code=code.text, person=code.person, name=code.name, until=code.until)


def _devices(asking: Asking) -> DeviceList:
    return DeviceList(
        devices=[
            DeviceShown(**{name: getattr(each, name) for name in DeviceShown.__struct_fields__})
            for each in asking.house.let_in.devices
        ]
    )


def _end(asking: Asking) -> DeviceList:
    asking.house.let_in.end(asking.names["device"])
    return _devices(asking)


DEVICES: Final = (
    Call(
        "/let-in",
        "Let a program in by a code, and get its token.",
        _let_in,
        WasLetIn,
        sends=LetMeIn,
        open=True,
    ),
    Call(
        "/codes",
        "A code for one more device: for a keeper only at the garden's own computer.",
        _code,
        CodeMade,
        sends=NewCode,
        least="keeper",
    ),
    Call("/devices", "What is let in now.", _devices, DeviceList, least="keeper"),
    Call("/devices/{device}/end", "Let a device in no more.", _end, DeviceList, sends=End, least="keeper"),
)
