"""The book: say it in a line and see how it is understood, read what was seen and done, take back."""

from __future__ import annotations

from typing import Final
from urllib.parse import urlencode

import msgspec

from spadework.errors import SpadeworkError
from spadework.faces.web.page_words import on_page
from spadework.faces.web.visit import Answer, Asks, File, Go, Page, Refused, Visit, Way
from spadework.usecases.keep_book import Asked
from spadework.usecases.keep_photo import keep_photo, list_photos, read_photo
from spadework.usecases.likely_acts import NUMBERS, likely_acts, tell_likely
from spadework.usecases.say_lines import LineQuestion, SaidLines, say_lines
from spadework.usecases.season_work import season_work
from spadework.usecases.show_beds import list_beds
from spadework.usecases.show_book import read_book
from spadework.usecases.show_people import list_people
from spadework.usecases.show_plantings import list_plantings
from spadework.usecases.take_back import take_back

PAGE: Final = 40
"""Entries shown at once."""

FILTERS: Final = ("bed", "crop", "kind", "by")

KINDS: Final = (
    *(("picked", "picked"), ("lifted", "lifted"), ("sown", "sown"), ("planted out", "planted out")),
    *(("watered", "watered"), ("weeded", "weeded"), ("counted", "counted"), ("thinned", "thinned")),
    *(("measured", "measured"), ("stage", "up, in flower, ready"), ("seen", "pests and signs seen")),
    *(("cover on", "covered"), ("cover off", "uncovered"), ("rain gauge", "rain gauge")),
    *(("thermometer", "thermometer"), ("minutes", "time it took"), ("skipped", "put off")),
    *(("ended", "cleared or lost"), ("photo", "photos"), ("note", "notes"), ("undo", "taken back")),
)
"""Kinds of entry that can be looked for, and what they are called."""


class Pick(msgspec.Struct, frozen=True, kw_only=True):
    """One answer to "which?": the name of the field to send along, its value, and what it is called."""

    field: str
    value: str
    name: str


class Question(msgspec.Struct, frozen=True, kw_only=True):
    """What would be asked first, with answers to choose of where there are some."""

    text: str
    picks: list[Pick]


class Heard(msgspec.Struct, frozen=True, kw_only=True):
    """How lines are understood while they are typed.

    Parameters
    ----------
    entries : list of str
        Sentences as they would be in the book.
    asked : list of Question
    taken : list of str
        What is taken for granted.
    """

    entries: list[str]
    asked: list[Question]
    taken: list[str]


def show_book(visit: Visit) -> Page:
    """What was seen and done, newest first."""
    asked = {name: visit.text(name) for name in FILTERS if visit.text(name)}
    skip = max(int(visit.number("skip", 0) or 0), 0)
    found = read_book(
        visit.garden,
        visit.today,
        bed=asked.get("bed", ""),
        crop=asked.get("crop", ""),
        kind=asked.get("kind", ""),
        by=asked.get("by", ""),
        first=visit.day("first"),
        last=visit.day("last"),
        most=PAGE,
        skip=skip,
    )
    days = {name: visit.text(name) for name in ("first", "last") if visit.text(name)}
    may_write = visit.caller.role != "reader"
    first_page = may_write and not asked and not days and not skip
    return Page(
        "book.html",
        {
            "book": found,
            "asked": asked | days,
            "kinds": KINDS,
            "beds": [(bed.key, bed.name) for bed in list_beds(visit.garden, visit.today).beds],
            "people": [(each.key, each.name) for each in list_people(visit.garden, visit.today).people],
            "older": _address(asked | days, skip + PAGE),
            "newer": _address(asked | days, max(skip - PAGE, 0)),
            "skip": skip,
            "photos": {each.entry: each for each in list_photos(visit.garden, visit.today)}
            if any(line.kind == "photo" for line in found.entries)
            else {},
            "likely": _likely(visit) if first_page else [],
            "may_write": may_write,
        },
    )


def show_sums(visit: Visit) -> Page:
    """What the season gave, and the time it took."""
    return Page("book_sums.html", {"work": season_work(visit.garden, visit.today)})


def hear(visit: Visit) -> Heard:
    """How lines would be understood; nothing is written."""
    if not visit.text("line"):
        return Heard(entries=[], asked=[], taken=[])
    try:
        found = _said(visit, only_ask=True)
    except SpadeworkError as error:  # too many lines
        said = Question(text=visit.voice.told(on_page(f"{error.message} {error.hint}".strip())), picks=[])
        return Heard(entries=[], asked=[said], taken=[])
    told = visit.voice.told
    return Heard(
        entries=[told(each.text) for line in found.lines for each in line.understood],
        asked=[
            Question(text=told(on_page(f"{each.found} {each.why}".strip())), picks=_picks(place, each))
            for place, line in enumerate(found.lines)
            for each in line.questions
        ],
        taken=[told(each) for line in found.lines for each in line.taken],
    )


def say(visit: Visit) -> Answer:
    """Lines go into the book, all of them or none."""
    if not visit.text("line"):
        raise Refused("Nothing is said yet.", "Say what was done or seen.", field="line")
    found = _said(visit, only_ask=False)
    if not found.stored:
        asked = [_asked(place, each) for place, line in enumerate(found.lines) for each in line.questions]
        return Asks(asked or found.asked, found.can_insist)
    words = [*(line.text for line in found.entries), *(lock.text for lock in found.locks)]
    said = " ".join(visit.voice.told(each) for each in words)
    return Go("/book", f"In the book: {said}", undo=found.entries[-1].key if found.entries else "")


def tell_one(visit: Visit) -> Answer:
    """One of the acts that were offered as likely."""
    numbers = {name: value for name in NUMBERS if (value := visit.number(name)) is not None}
    found = tell_likely(
        visit.garden,
        visit.writing,
        visit.text("sort"),
        bed=visit.text("bed"),
        planting=visit.text("planting"),
        what=visit.text("what"),
        numbers=numbers,
        choice=visit.text("choice"),
    )
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    words = [*(line.text for line in found.entries), *(lock.text for lock in found.locks)]
    return Go(
        "/book",
        f"In the book: {' '.join(visit.voice.told(each) for each in words)}",
        undo=found.entries[-1].key,
    )


def add_photo(visit: Visit) -> Answer:
    """A photo of a bed, or of a planting in it."""
    file = visit.files.get("photo")
    if file is None:
        raise Refused("No photo came with it.", "Take or choose one.", field="photo")
    bed, _, planting = visit.text("of").partition("/")
    found = keep_photo(
        visit.garden,
        file.file.read(),
        visit.writing,
        bed="" if planting else bed,
        planting=planting,
        words=visit.text("words"),
    )
    if not found.answer.stored:
        return Asks(found.answer.questions, found.answer.can_insist)
    said = " ".join(visit.voice.told(line.text) for line in found.answer.entries)
    back = visit.text("back", "/book") or "/book"
    return Go(back, f"In the book: {said} {found.note}".strip(), undo=found.answer.entries[-1].key)


def ask_photo(visit: Visit) -> Page:
    """The form for a photo: of what, and which."""
    beds = list_beds(visit.garden, visit.today).beds
    standing = list_plantings(visit.garden, visit.today).plantings
    of = [
        (
            bed.key,
            bed.name,
            [(f"{bed.key}/{each.key}", each.name) for each in standing if each.bed == bed.key],
        )
        for bed in beds
    ]
    return Page("book_photo.html", {"of": of, "chosen": visit.text("of")})


def show_photo(visit: Visit) -> File:
    """A photo itself; named by what is in it, so that a browser may keep it."""
    data, media = read_photo(visit.garden, visit.names["photo"])
    return File(data, media, keep=True)


def undo(visit: Visit) -> Answer:
    """Take an entry back, or give it back."""
    found = take_back(
        visit.garden, visit.writing, visit.names["entry"], together=bool(visit.text("together"))
    )
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    back = visit.text("back", "/book") or "/book"
    return Go(back, "Taken back: it stands in the book as undone.")


def _likely(visit: Visit) -> list[object]:
    try:
        return list(likely_acts(visit.garden, visit.today))
    except SpadeworkError:
        return []  # without weather there are no jobs, and the line is enough


def _said(visit: Visit, *, only_ask: bool) -> SaidLines:
    """The lines as they are understood, with what was answered to "which?"."""
    fields = {**visit.query, **visit.form}
    where: dict[int, tuple[str, str]] = {}
    for name, value in fields.items():
        about, _, place = name.partition("-")
        if about in ("bed", "planting") and place.isdigit() and value:
            bed, planting = where.get(int(place), ("", ""))
            where[int(place)] = (value, planting) if about == "bed" else (bed, value)
    if visit.text("bed"):
        where.setdefault(0, (visit.text("bed"), ""))
    return say_lines(visit.garden, visit.text("line"), visit.writing, where=where, only_ask=only_ask)


def _picks(place: int, question: LineQuestion) -> list[Pick]:
    return [
        Pick(field=f"{question.about}-{place}", value=each.key, name=each.name) for each in question.choices
    ]


def _asked(place: int, question: LineQuestion) -> Asked:
    """A question as a page shows it that has no script: what it may be is named in words."""
    names = tuple(each.name for each in question.choices)
    why = question.why or (f"Name it in the line: {', '.join(names[:6])}." if names else "")
    return Asked(
        act=place + 1,
        about=question.about,
        found=question.found,
        why=why,
        nearest=names,
        may_insist=question.may_insist,
    )


def _address(asked: dict[str, str], skip: int) -> str:
    fields = asked | ({"skip": str(skip)} if skip else {})
    return f"/book?{urlencode(fields)}" if fields else "/book"


WAYS: Final = (
    Way("/book", show_book),
    Way("/book/sums", show_sums),
    Way("/book/hear", hear),
    Way("/book/photo", ask_photo),
    Way("/book/photo/keep", add_photo, post=True, least="helper"),
    Way("/book/say", say, post=True, least="helper"),
    Way("/book/likely", tell_one, post=True, least="helper"),
    Way("/book/{entry}/undo", undo, post=True, least="helper"),
    Way("/photo/{photo}", show_photo),
)
