"""The round: conditions, the plan with the garden line, minutes and people to choose, stops to tick."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final
from urllib.parse import urlencode

from spadework.faces.charts.plan import Peg
from spadework.faces.job_words import chore_said, chore_title, share_text, take_said, waiting_said
from spadework.faces.voice import in_years
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.do_jobs import JobDone, do_job, skip_job
from spadework.usecases.job_form import NAMES, numbers_asked, numbers_given
from spadework.usecases.jobs_today import job_by_id, keep_what_is_shown, open_day
from spadework.usecases.kept_round import kept_round
from spadework.usecases.lock_lines import lock_lines
from spadework.usecases.open_job import open_job
from spadework.usecases.round_answer import HourView, RoundAnswer
from spadework.usecases.show_ground import show_ground
from spadework.usecases.walk_round import with_people

MINUTES: Final = (15, 30, 45, 60, 90)
USUAL_MINUTES: Final = 60
PUT_OFF: Final = ("Too wet", "Too hot", "No time", "Not needed: I looked", "Something is missing")
"""Reasons offered for putting a job off; any other can be typed."""


def show_round(visit: Visit) -> Page:
    """The walk for today."""
    minutes = visit.number("minutes", USUAL_MINUTES) or USUAL_MINUTES
    names = [name for name in visit.text("people").split(",") if name]
    hours = {name: text for name in ("at", "until") if (text := visit.text(name))}
    day = open_day(visit.garden, visit.today)
    keep_what_is_shown(day)
    found = kept_round(
        day,
        minutes=minutes,
        at_hour=_hour(hours, "at"),
        until_hour=_hour(hours, "until"),
        people=with_people(day.garden, names),
    )
    ground = show_ground(visit.garden, visit.today)
    pegs = [Peg(number=at, bed=stop.bed) for at, stop in enumerate(found.stops, start=1)]
    return Page(
        "round.html",
        {
            "round": found,
            "ground": ground,
            "pegs": pegs,
            "choices": [(each, _address(each, names, hours)) for each in MINUTES],
            "asked_minutes": minutes,
            "names": names,
            "hours": hours,
            "whole_day": _address(minutes, names, {}),
            "people": [
                (
                    person.name,
                    key in names or person.name in names,
                    _address(minutes, _turned(names, key), hours),
                )
                for key, person in day.garden.people.items()
                if person.role != "reader"
            ],
            "sky": _sky(found),
            "take": take_said,
            "waiting": waiting_said,
            "chore_said": chore_said,
            "chore_title": chore_title,
            "jobs": sum(len(stop.jobs) + len(stop.chores) for stop in found.stops),
            "numbers": {
                job.id: numbers_asked(job_by_id(day, job.id), us=visit.voice.us)
                for stop in found.stops
                for job in stop.jobs
            },
            "put_off": PUT_OFF,
        },
    )


def show_job(visit: Visit) -> Page:
    """One job opened up: facts, odds, sources, what waiting costs."""
    day = open_day(visit.garden, visit.today)
    job = job_by_id(day, visit.names["job"])
    return Page(
        "job.html",
        {
            "job": open_job(job, day.scene),
            "locks": lock_lines(
                day.garden, visit.today, bed=job.bed, planting=job.planting, words=day.scene.site.words
            )
            if job.bed or job.planting
            else [],
            "waiting": waiting_said,
            "share": share_text,
            "in_years": in_years,
            "take": take_said,
            "numbers": numbers_asked(job, us=visit.voice.us),
            "put_off": PUT_OFF,
        },
    )


def tick(visit: Visit) -> Answer:
    """A job done, with the minutes it took and what only the person can know."""
    said = {name: value for name in NAMES if (value := visit.number(name)) is not None}
    done = do_job(
        visit.garden,
        visit.today,
        visit.names["job"],
        numbers_given(said, us=visit.voice.us),
        minutes=visit.number("minutes"),
        how=visit.doing,
    )
    return _after(visit, done)


def put_off(visit: Visit) -> Answer:
    """A job put off for today, with the reason."""
    because = visit.text("because") or visit.text("because_other")
    if not because:
        raise Refused("Why is it put off?", "Choose a reason or type one.", field="because_other")
    return _after(visit, skip_job(visit.garden, visit.today, visit.names["job"], because, visit.doing))


def _after(visit: Visit, done: JobDone) -> Answer:
    if not done.stored:
        return Asks(done.questions, all(each.may_insist for each in done.questions))
    locks = [line.text for line in done.locks]
    said = " ".join(visit.voice.told(f"{each}.") for each in (*done.said, *locks))
    undo = done.written[-1] if done.written else ""
    return Go(visit.text("back", "/") or "/", f"In the book: {said}", undo=undo)


def _address(minutes: float, names: list[str], hours: Mapping[str, str]) -> str:
    asked = {"minutes": f"{minutes:g}"} | ({"people": ",".join(names)} if names else {})
    return f"/?{urlencode({**asked, **hours})}"


def _hour(hours: Mapping[str, str], name: str) -> float | None:
    """An hour of the clock as it was typed or chosen."""
    if name not in hours:
        return None
    hour, _, minute = hours[name].replace(".", ":").partition(":")
    if hour.isdigit() and (minute or "0").isdigit() and int(hour) < 24 and int(minute or 0) < 60:
        return int(hour) + int(minute or 0) / 60.0
    raise Refused(f"{hours[name]!r} is not an hour.", "Write it as 7:30.", field=name)


def _turned(names: list[str], key: str) -> list[str]:
    return [name for name in names if name != key] if key in names else [*names, key]


def _sky(found: RoundAnswer) -> list[HourView]:
    """The hours of light."""
    return [hour for hour in found.hours if hour.light]


WAYS: Final = (
    Way("/", show_round),
    Way("/job/{job}", show_job),
    # a chore is called what a person calls it, which may have a stroke in it
    Way("/job/{job:path}/done", tick, post=True, least="helper"),
    Way("/job/{job:path}/skip", put_off, post=True, least="helper"),
)
