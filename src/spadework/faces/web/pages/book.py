"""The book: say it in a line and see how it is understood, read what was seen and done, take back."""

from __future__ import annotations

from typing import Final
from urllib.parse import urlencode

import msgspec

from spadework.errors import SpadeworkError
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.note_line import note_line
from spadework.usecases.show_beds import list_beds
from spadework.usecases.show_book import read_book
from spadework.usecases.show_people import list_people
from spadework.usecases.take_back import take_back

PAGE: Final = 40
"""Entries shown at once."""

MOST: Final = 2000

FILTERS: Final = ("bed", "crop", "kind", "by")


class Heard(msgspec.Struct, frozen=True, kw_only=True):
    """How a line is understood while it is typed.

    Parameters
    ----------
    entries : list of str
        Sentences as they would be in the book.
    asked : list of str
        What would be asked first.
    taken : list of str
        What is taken for granted.
    """

    entries: list[str]
    asked: list[str]
    taken: list[str]


def show_book(visit: Visit) -> Page:
    """What was seen and done, newest first."""
    asked = {name: visit.text(name) for name in FILTERS if visit.text(name)}
    most = int(min(max(visit.number("most", PAGE) or PAGE, 1.0), MOST))
    found = read_book(
        visit.garden,
        visit.today,
        bed=asked.get("bed", ""),
        crop=asked.get("crop", ""),
        kind=asked.get("kind", ""),
        by=asked.get("by", ""),
        first=visit.day("first"),
        last=visit.day("last"),
        most=most,
    )
    days = {name: visit.text(name) for name in ("first", "last") if visit.text(name)}
    return Page(
        "book.html",
        {
            "book": found,
            "asked": asked | days,
            "beds": [(bed.key, bed.name) for bed in list_beds(visit.garden, visit.today).beds],
            "people": [(each.key, each.name) for each in list_people(visit.garden, visit.today).people],
            "older": f"/book?{urlencode({**asked, **days, 'most': most + PAGE})}",
            "may_write": visit.caller.role != "reader",
        },
    )


def hear(visit: Visit) -> Heard:
    """How a line would be understood; nothing is written."""
    line = visit.text("line")
    if not line:
        return Heard(entries=[], asked=[], taken=[])
    try:
        found = note_line(visit.garden, line, visit.writing, dry_run=True)
    except SpadeworkError as error:
        return Heard(entries=[], asked=[visit.voice.told(str(error))], taken=[])
    told = visit.voice.told
    return Heard(
        entries=[told(each.text) for each in found.understood],
        asked=[told(f"{each.found} {each.why}") for each in found.questions],
        taken=[told(each) for each in found.taken],
    )


def say_line(visit: Visit) -> Answer:
    """A line goes into the book, whole or not at all."""
    line = visit.text("line")
    if not line:
        raise Refused("The line is empty.", "Say what was done or seen.", field="line")
    found = note_line(visit.garden, line, visit.writing, bed=visit.text("bed"))
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    said = " ".join(visit.voice.told(f"{entry.text}.") for entry in found.understood)
    locks = " ".join(visit.voice.told(lock.text) for lock in found.locks)
    return Go("/book", f"In the book: {said} {locks}".strip())


def undo(visit: Visit) -> Answer:
    """Take an entry back, or give it back."""
    found = take_back(
        visit.garden, visit.writing, visit.names["entry"], together=bool(visit.text("together"))
    )
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    back = visit.text("back", "/book") or "/book"
    return Go(back, "Taken back: it stands in the book as undone.")


WAYS: Final = (
    Way("/book", show_book),
    Way("/book/hear", hear),
    Way("/book/say", say_line, post=True, least="helper"),
    Way("/book/{entry}/undo", undo, post=True, least="helper"),
)
