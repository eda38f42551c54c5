"""A planting: what it is, how it stands, when it is ready, what it needs, and telling what was done to it."""

from __future__ import annotations

from typing import Final
from urllib.parse import quote

from spadework.faces.job_words import waiting_said
from spadework.faces.voice import in_years
from spadework.faces.web.pages.round import PUT_OFF
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.job_form import numbers_asked
from spadework.usecases.jobs_today import job_by_id, open_day
from spadework.usecases.keep_photo import list_photos
from spadework.usecases.note_line import note_line
from spadework.usecases.show_ground import show_ground
from spadework.usecases.show_planting import show_planting
from spadework.usecases.tell_planting import NUMBERS, acts_offered, tell_planting

MOST_LINES: Final = 12
"""Lines of its book shown at once. Our own rule."""


def show_one(visit: Visit) -> Page:
    """One planting by key: where the square on its label leads."""
    found = show_planting(visit.garden, visit.today, visit.names["planting"])
    numbers = {}
    if found.jobs:
        day = open_day(visit.garden, visit.today)
        numbers = {job.id: numbers_asked(job_by_id(day, job.id), us=visit.voice.us) for job in found.jobs}
    most = MOST_LINES if not visit.text("all") else len(found.entries)
    bed = found.planting.bed
    return Page(
        "planting.html",
        {
            "page": found,
            "here": found.planting,
            "waits": found.planting.set_out_on is None and bool(found.planting.tray),
            "offers": acts_offered(found, us=visit.voice.us) if visit.caller.role != "reader" else [],
            "photos": list_photos(visit.garden, visit.today, planting=found.planting.key, most=12),
            "ground": show_ground(visit.garden, visit.today, bed=bed) if bed and found.stands else None,
            "numbers": numbers,
            "years": in_years,
            "waiting": waiting_said,
            "put_off": PUT_OFF,
            "lines": list(reversed(found.entries))[:most],
            "older": max(len(found.entries) - most, 0),
        },
    )


def tell(visit: Visit) -> Answer:
    """One act on it goes into the book."""
    what = visit.text("what")
    said = {name: value for name in NUMBERS if (value := visit.number(name)) is not None}
    found = tell_planting(
        visit.garden,
        visit.writing,
        visit.names["planting"],
        what,
        said,
        visit.text("why"),
        us=visit.voice.us,
    )
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    words = [*(line.text for line in found.entries), *(lock.text for lock in found.locks)]
    undo = found.entries[-1].key if found.entries else ""
    return Go(_own(visit), f"In the book: {' '.join(visit.voice.told(each) for each in words)}", undo=undo)


def say(visit: Visit) -> Answer:
    """A line about it, where nothing else is named."""
    line = visit.text("line")
    if not line:
        raise Refused("The line is empty.", "Say what was done or seen.", field="line")
    found = note_line(
        visit.garden, line, visit.writing, bed=visit.text("bed"), planting=visit.names["planting"]
    )
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    words = [*(each.text for each in found.understood), *(lock.text for lock in found.locks)]
    undo = found.written[-1] if found.written else ""
    return Go(_own(visit), f"In the book: {' '.join(visit.voice.told(each) for each in words)}", undo=undo)


def _own(visit: Visit) -> str:
    return f"/planting/{quote(visit.names['planting'])}"


WAYS: Final = (
    Way("/planting/{planting}", show_one),
    Way("/planting/{planting}/tell", tell, post=True, least="helper"),
    Way("/planting/{planting}/say", say, post=True, least="helper"),
)
