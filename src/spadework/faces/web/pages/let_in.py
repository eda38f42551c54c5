"""Let others in: a code for a phone, the page it is typed on, who sits here, and the end of a device."""

from __future__ import annotations

import base64
import contextlib
import hashlib
from typing import Final

import segno

from spadework.errors import StoreError, UnknownName
from spadework.faces.web.access import SESSION, WHO, check_may_let_in
from spadework.faces.web.visit import Answer, Asks, File, Go, NotAllowed, Page, Refused, Visit, Way
from spadework.usecases.keep_things import keep_person
from spadework.usecases.let_in import CODE_MINUTES, DAYS, Code
from spadework.usecases.look import Role

ROLES: Final[dict[str, Role]] = {"keeper": "keeper", "helper": "helper", "reader": "reader"}


def ask_code(visit: Visit) -> Page | Go:
    """Where a code is typed, or comes with the square."""
    if visit.caller.known and not visit.caller.here:
        return Go("/")
    return Page("let_in.html", {"why": None, "code": visit.text("code")[:20]})


def take_code(visit: Visit) -> Go:
    """Let the device in that shows a code."""
    code = visit.text("code")
    if not code:
        raise Refused("The code is missing.", "It has eight letters and figures.", field="code")
    device = visit.text("device") or _device(visit.browser)
    token = visit.house.let_in.let_in(code, device, visit.from_address)
    name = visit.house.person(visit.house.let_in.seen(token).person)
    who = f", {name[0]}" if name and name[0] else ""
    return Go("/", f"You are let in{who}.", cookie=(SESSION, token, DAYS))


def show_devices(visit: Visit) -> Page:
    """Who is let in, and a code for one more: for a keeper at the machine itself only."""
    people = visit.house.people
    here = visit.caller.here
    devices = [(each, (people.get(each.person) or ("", ""))[0]) for each in visit.house.let_in.devices]
    codes = [
        (code, [_square(address, code) for address in visit.house.reached_by])
        for code in visit.house.let_in.codes
        if here or people.get(code.person, ("", "keeper"))[1] != "keeper"
    ]
    return Page(
        "devices.html",
        {
            "devices": devices,
            "codes": codes,
            "people": [(key, name, role) for key, (name, role) in people.items() if here or role != "keeper"],
            "minutes": CODE_MINUTES,
            "days": DAYS,
        },
    )


def make_code(visit: Visit) -> Answer:
    """A code for somebody known, or somebody new."""
    people = visit.house.people
    name = visit.text("name")
    person = visit.text("person")
    if name:
        role = ROLES.get(visit.text("role"))
        if role is None:
            raise Refused("May they read, help or keep?", "Choose one.", field="role")
        check_may_let_in(visit.caller, role)
        found = keep_person(visit.garden, visit.writing, name, role=role)
        if not found.stored:
            return Asks(found.questions, found.can_insist)
        people = visit.house.people
        person = next((key for key, (known, _) in people.items() if known == name), "")
    if people and person not in people:
        raise Refused("Whom is it for?", "Choose somebody, or give a name.", field="person")
    check_may_let_in(visit.caller, people[person][1] if person else "keeper")
    code = visit.house.let_in.code_for(person, people[person][0] if person else "")
    return Go(
        "/people/let-in", f"The code is {code.text}. It lets one device in, within {CODE_MINUTES} minutes."
    )


def end_device(visit: Visit) -> Go:
    """Let a device in no more, at once."""
    ended = visit.house.let_in.end(visit.names["device"])
    return Go("/people/let-in", f"{ended.name} is let in no more. What it wrote stays in the book.")


def leave(visit: Visit) -> Go:
    """Sign this device out."""
    if visit.caller.session:
        visit.house.let_in.end(visit.caller.session)
    return Go("/let-in", "This device is let in no more.", cookie=(SESSION, "", 0))


def show_who(visit: Visit) -> Page:
    """Who writes from here."""
    return Page("who.html", {"people": [(key, *each) for key, each in visit.house.people.items()]})


def choose_who(visit: Visit) -> Go:
    """At the machine itself: be another of its people."""
    if not visit.caller.here:
        raise NotAllowed("", "This device was let in for one person.", "Ask a keeper for another code.")
    person = visit.text("person")
    found = visit.house.people.get(person)
    if found is None:
        raise Refused("Who are you?", "Choose one.", field="person")
    with contextlib.suppress(StoreError):  # a folder that cannot be written: good until the server stops
        visit.house.let_in.keep()
    signed = visit.house.let_in.signed(person, "who")
    return Go(
        "/who", f"From now on what is written here is written by {found[0]}.", cookie=(WHO, signed, 365)
    )


def show_trust(visit: Visit) -> Page:
    """How a device learns to know the garden's own authority."""
    digest = hashlib.sha256(authority_of(visit.house.authority)).hexdigest().upper()
    figures = " ".join(digest[at : at + 4] for at in range(0, len(digest), 4))
    return Page("trust.html", {"figures": figures})


def give_authority(visit: Visit) -> File:
    """The authority's certificate, which anybody may have; its key never leaves the folder."""
    if not visit.house.authority:
        raise UnknownName("This server has no authority of its own.", "It is served without https.")
    return File(authority_of(visit.house.authority), "application/x-x509-ca-cert", name="garden.crt")


def authority_of(pem: bytes) -> bytes:
    """A certificate as devices take it, from its text form."""
    lines = [line for line in pem.decode().splitlines() if line and not line.startswith("-")]
    return base64.b64decode("".join(lines))


def address_of(address: str, code: Code) -> str:
    """Where a phone takes a code."""
    return f"{address}/let-in?code={code.text}"


def _square(address: str, code: Code) -> tuple[str, str]:
    whole = address_of(address, code)
    picture = segno.make(whole, error="m", micro=False)
    drawn = picture.svg_inline(
        scale=5, border=3, dark="#1e2a2c", light="#ffffff", title=f"Square with {whole}"
    )
    return address, drawn


def _device(browser: str) -> str:
    if "Tablet" in browser:
        return "A tablet"
    return "A phone" if "Mobi" in browser else "A computer"


WAYS: Final = (
    Way("/let-in", ask_code, without_garden=True, open=True),
    Way("/let-in", take_code, post=True, without_garden=True, open=True),
    Way("/people/let-in", show_devices, least="keeper"),
    Way("/people/let-in", make_code, post=True, least="keeper"),
    Way("/people/let-in/{device}/end", end_device, post=True, least="keeper"),
    Way("/people/leave", leave, post=True),
    Way("/trust", show_trust, without_garden=True, open=True),
    Way("/trust/garden.crt", give_authority, without_garden=True, open=True),
    Way("/who", show_who),
    Way("/who", choose_who, post=True),
)
