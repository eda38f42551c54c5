"""On paper: the round, a bed's card, labels for rows; and the calendar of windows."""

from __future__ import annotations

from typing import Final

from spadework.errors import UnknownName
from spadework.faces.calendar.windows import windows_calendar
from spadework.faces.paper.sheets import bed_card, round_sheet, row_labels
from spadework.faces.web.visit import File, NotAllowed, Page, Visit, Way
from spadework.usecases.show_beds import list_beds

PDF: Final = "application/pdf"
CALENDAR: Final = "text/calendar; charset=utf-8"


def show_paper(visit: Visit) -> Page:
    """What can be printed."""
    beds = [(bed.key, bed.name) for bed in list_beds(visit.garden, visit.today).beds]
    reached = bool(visit.house.reached_by) or not visit.caller.here
    return Page("paper.html", {"beds": beds, "calendar": f"{visit.address}/calendar.ics", "reached": reached})


def print_round(visit: Visit) -> File:
    """The round."""
    names = [name for name in visit.text("people").split(",") if name]
    minutes = visit.number("minutes", 60.0) or 60.0
    return File(round_sheet(visit.garden, visit.today, minutes=minutes, people=names), PDF)


def print_bed(visit: Visit) -> File:
    """A bed's card, its square leading to its page here."""
    bed = visit.names.get("bed") or visit.text("bed")
    return File(bed_card(visit.garden, visit.today, bed, address=f"{visit.address}/"), PDF)


def print_labels(visit: Visit) -> File:
    """Labels for the rows that stand."""
    return File(
        row_labels(visit.garden, visit.today, bed=visit.text("bed"), address=f"{visit.address}/"), PDF
    )


def calendar(visit: Visit) -> File:
    """The windows of jobs."""
    return File(windows_calendar(visit.garden, visit.today), CALENDAR)


def make_address(visit: Visit) -> Page:
    """An address for a calendar on another device: whoever has it reads the windows, and nothing else."""
    name = visit.text("name") or "A calendar"
    token = visit.house.let_in.calendar_for(visit.caller.person, name)
    here = (*visit.house.reached_by, visit.address)[0] if visit.caller.here else visit.address
    return Page("calendar.html", {"address": f"{here}/calendar/{token}.ics", "name": name})


def calendar_by_address(visit: Visit) -> File:
    """The windows for whoever has such an address, as long as it stands and its person is known."""
    try:
        device = visit.house.let_in.seen(visit.names["token"], "calendar")
    except UnknownName as error:
        raise NotAllowed("", error.message, error.hint, status=401) from None
    if visit.house.person(device.person) is None:
        raise NotAllowed("", "Whoever this was made for is not known here any more.", status=401)
    return calendar(visit)


WAYS: Final = (
    Way("/paper", show_paper),
    Way("/paper/round.pdf", print_round),
    Way("/paper/bed.pdf", print_bed),
    Way("/paper/bed/{bed}.pdf", print_bed),
    Way("/paper/labels.pdf", print_labels),
    Way("/paper/calendar", make_address, post=True),
    Way("/calendar.ics", calendar),
    Way("/calendar/{token}.ics", calendar_by_address, open=True),
)
