"""The windows of what is to be done, as days of a calendar with names that stay."""

from __future__ import annotations

import hashlib
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Final

from spadework import __version__
from spadework.faces.job_words import waiting_said
from spadework.faces.voice import Voice
from spadework.usecases.jobs_today import JobView, jobs_today
from spadework.usecases.lock_lines import LockLine
from spadework.usecases.look import site_of
from spadework.usecases.show_locks import list_locks
from spadework.usecases.walk_round import WORTH_GOING_KG

if TYPE_CHECKING:
    from icalendar import Event

MOST: Final = 40
"""Windows in the calendar, those with most at stake: more would hide everything else in it. Our own rule."""

NOT_SHOWN: Final = frozenset({"look"})
"""Kinds that come every day."""


def windows_calendar(garden: Path, today: date) -> bytes:
    """The windows open or about to open, and the locks in force, as iCalendar.

    Raises
    ------
    GardenError, RecordError, StoreError

    Notes
    -----
    An event keeps its name as long as its job does, so that a calendar that takes the file again moves it
    instead of showing it twice. It is stamped by the day it is computed for: the same day gives the same
    bytes.
    """
    from icalendar import Calendar

    site = site_of(garden)
    voice = Voice(us=site.units == "us", today=today)
    found = jobs_today(garden, today)
    worth = [
        job
        for job in found.jobs
        if job.kind not in NOT_SHOWN and job.worth_kg * job.forfeit["7"] >= WORTH_GOING_KG
    ][:MOST]
    calendar = Calendar()
    calendar.add("prodid", f"-//Spadework//{__version__}//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("name", site.name)
    calendar.add("x-wr-calname", site.name)
    calendar.add("refresh-interval", timedelta(hours=6), parameters={"value": "DURATION"})
    place = hashlib.sha256(f"{site.name}{site.lat_deg:.4f}{site.lon_deg:.4f}".encode()).hexdigest()[:12]
    for job in sorted(worth, key=lambda job: (job.window.opens, job.id)):
        calendar.add_component(_event(job, place, voice))
    for lock in list_locks(garden, today).locks:
        calendar.add_component(_locked(lock, place, voice))
    return bytes(calendar.to_ical())


def _locked(lock: LockLine, place: str, voice: Voice) -> Event:
    """A lock from today to its last day; one without a known end stands at today, day after day."""
    from icalendar import Event

    event = Event()
    event.add("uid", f"lock-{lock.key}-{lock.subject or 'all'}.{place}.spadework")
    event.add("dtstamp", datetime.combine(voice.today, time(), UTC))
    event.add("dtstart", lock.set_on if lock.until else voice.today)
    event.add("dtend", max(lock.until or voice.today, lock.set_on) + timedelta(days=1))
    event.add("summary", f"Locked: {voice.told(lock.text)}")
    event.add("transp", "TRANSPARENT")
    event.add("categories", ["locked"])
    return event


def _event(job: JobView, place: str, voice: Voice) -> Event:
    from icalendar import Event

    event = Event()
    event.add("uid", f"{job.id}.{place}.spadework")
    event.add("dtstamp", datetime.combine(voice.today, time(), UTC))
    event.add("dtstart", job.window.opens)
    event.add("dtend", max(job.window.closes, job.window.opens) + timedelta(days=1))
    event.add("summary", voice.told(job.act))
    cautions = " ".join(voice.told(each.text) for each in job.cautions)
    said = f"{voice.told(job.reason)} {voice.told(waiting_said(job, voice))} {cautions}".strip()
    event.add("description", f"{said} About {max(job.minutes, 1):.0f} minutes.")
    event.add("transp", "TRANSPARENT")
    event.add("categories", [job.kind])
    return event
