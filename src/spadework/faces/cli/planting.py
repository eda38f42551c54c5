"""One planting opened up."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import span_said, voice_of
from spadework.faces.cli.say import dots, wrapped
from spadework.faces.cli.standing import planting_lines
from spadework.faces.job_words import waiting_said
from spadework.faces.voice import Voice, in_years
from spadework.usecases.show_planting import PlantingPage


def planting(
    name: str,
    *,
    last: Annotated[int, Parameter(help="How many lines of its book, the newest.")] = 10,
    common: Common | None = None,
) -> None:
    """One planting: its course with dates and odds, counts, jobs, locks and book.

    Parameters
    ----------
    name : str
        Its key in `standing`, or the crop where only one planting of it stands.
    """
    from spadework.usecases.show_planting import show_planting

    common = common or Common()
    found = show_planting(common.garden, common.day, name)
    answer(common, found, lambda: _tell(found, voice_of(common), last))


def _tell(found: PlantingPage, voice: Voice, last: int) -> None:
    tell_locks(found.planting.locks, voice)
    print(planting_lines(found.planting, voice))
    for key, name in found.came_from:
        print(wrapped(f"Raised as {name} [{key}].", 4, first="  "))
    for key, name in found.went_to:
        print(wrapped(f"Planted out as {name} [{key}].", 4, first="  "))
    print("\nIts course")
    for step in found.steps:
        if step.seen_on is not None:
            print(f"  {step.name}: seen {voice.day(step.seen_on)}")
        elif step.odds is not None:
            print(wrapped(f"{step.name}: {span_said(step.odds, voice)}", 4, first="  "))
    if found.reaches is not None:
        print(wrapped(f"It gets there {in_years(found.reaches)}.", 2))
        print(f"  {dots(found.reaches)}")
    for loss in found.losses:
        print(wrapped(f"Lost to {loss.cause} first {in_years(loss.odds)}.", 2))
    if found.why_no_course:
        print(wrapped(found.why_no_course, 2))
    print("\nWhat it needs" if found.jobs else "\nIt needs nothing just now.")
    for job in found.jobs:
        minutes = f"{job.minutes:.0f}" if job.minutes >= 1 else "under 1"
        print(wrapped(voice.told(f"{job.act}, {minutes} min. {job.reason}"), 4, first="  · "))
        print(wrapped(voice.told(waiting_said(job, voice)), 4))
        for caution in job.cautions:
            print(wrapped(voice.told(caution.text), 6, first="    ! "))
    for caution in found.cautions:
        print(wrapped(voice.told(caution.text), 4, first="  ! "))
    shown = found.entries[-max(last, 0) :] if last else []
    older = len(found.entries) - len(shown)
    print(f"\nIts book{f' ({older} earlier: --last {len(found.entries)})' if older else ''}")
    for line in shown:
        state = f" ({line.state})" if line.state else ""
        head = f"{voice.day(line.on)}  {line.short}  {line.by_name}: "
        print(wrapped(f"{head}{voice.told(line.text)}{state}", 6, first="  "))
    if found.note:
        print(f"\n{wrapped(voice.told(found.note))}")
