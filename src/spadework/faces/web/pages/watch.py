"""The watch: what may come in the next weeks, where to look, and what to do before it does."""

from __future__ import annotations

from typing import Final

from spadework.faces.job_words import waiting_said
from spadework.faces.voice import Voice
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.keep_seen import events_of, keep_seen
from spadework.usecases.show_beds import list_beds
from spadework.usecases.show_watch import DAYS, MOST_DAYS
from spadework.usecases.show_watch import show_watch as watch_of
from spadework.usecases.watch_lines import ComingLine

SPANS: Final = (7, 21, 42)
"""How far ahead is offered, in days."""

HEADS: Final = {
    "insect": "Can harm what stands",
    "disease": "Weather for it",
    "animal": "Plants tender for it",
    "disorder": "Weather for it",
}
"""What the weeks of each sort of trouble say."""

MOST: Final = 6
"""Troubles shown at once; the rest are a touch away. Our own rule."""


NONE_FOUND: Final = "none"
"""Said of a look that found nothing."""


def shares(line: ComingLine) -> list[float]:
    """Share of the years in which it comes, week by week."""
    return [week.odds[0] / week.odds[1] for week in line.weeks]


def week_days(line: ComingLine, voice: Voice) -> list[str]:
    """First day of each week, every second where they are many."""
    step = 1 if len(line.weeks) <= 4 else 2
    return [voice.day(week.since) if at % step == 0 else "" for at, week in enumerate(line.weeks)]


def weeks_said(line: ComingLine, voice: Voice) -> str:
    """The same in words; weeks alike are said as one."""
    runs: list[tuple[str, str]] = []
    for week in line.weeks:
        odds = f"in {week.odds[0]} of {week.odds[1]} years"
        if not runs or runs[-1][1] != odds:
            runs.append((voice.day(week.since), odds))
    head = HEADS[line.kind]
    if len(runs) == 1:
        return f"{head}, in each of these weeks, {runs[0][1]}."
    return f"{head}: {', '.join(f'from {since} {odds}' for since, odds in runs)}."


def show_watch(visit: Visit) -> Page:
    """What may come, by week, and what to do about it."""
    days = visit.number("days", float(DAYS))
    if days is None or not 1 <= days <= MOST_DAYS:
        raise Refused(
            f"The watch looks 1 to {MOST_DAYS} days ahead.", "Choose one of the spans.", field="days"
        )
    bed, crop = visit.text("bed"), visit.text("crop")
    found = watch_of(visit.garden, visit.today, days=int(days), bed=bed, crop=crop)
    parts = [(part.title, part.jobs) for part in found.parts if part.jobs]
    said = {caution.text: caution for _, jobs in parts for job in jobs for caution in job.cautions}
    return Page(
        "watch.html",
        {
            "watch": found,
            "news": [line for line in found.coming if line.news],
            "rest": [line for line in found.coming if not line.news and line.kind != "animal"],
            "animals": [line for line in found.coming if not line.news and line.kind == "animal"],
            "parts_of": parts,
            "cautions": list(said.values()),
            "frost": found.frost,
            "waiting": waiting_said,
            "most": MOST,
            "shares": shares,
            "week_days": week_days,
            "weeks_said": weeks_said,
            "spans": SPANS,
            "days": int(days),
            "only": {"bed": bed, "crop": crop},
            "events_of": events_of,
            "bed_keys": {each.name: each.key for each in list_beds(visit.garden, visit.today).beds},
        },
    )


def seen(visit: Visit) -> Answer:
    """One of what is watched for was found, or looked for and not found."""
    trouble, event = visit.text("trouble"), visit.text("event")
    if not trouble:
        raise Refused("What was seen?", "Choose it on the watch.", field="trouble")
    found = keep_seen(
        visit.garden,
        visit.writing,
        trouble,
        event="" if event == NONE_FOUND else event,
        bed=visit.text("bed"),
        there=event != NONE_FOUND,
    )
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    said = " ".join(visit.voice.told(f"{each.text.rstrip('.')}.") for each in found.entries)
    return Go("/watch", f"In the book: {said}", undo=found.entries[-1].key if found.entries else "")


WAYS: Final = (Way("/watch", show_watch), Way("/watch/seen", seen, post=True, least="helper"))
