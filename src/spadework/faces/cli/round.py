"""The round, the jobs, why, done and skip."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.job_words import chore_said, chore_title, take_said, waiting_said
from spadework.faces.voice import Voice, in_years

if TYPE_CHECKING:
    from spadework.usecases.do_jobs import JobDone
    from spadework.usecases.jobs_today import JobView


def walk(
    *,
    minutes: Annotated[float, Parameter(help="Minutes there are, for each person.")] = 60.0,
    at: Annotated[str | None, Parameter(help="Hour the round begins, HH:MM.")] = None,
    until: Annotated[str | None, Parameter(help="Hour it must end, HH:MM.")] = None,
    people: Annotated[str | None, Parameter(help="Who goes, names with commas between.")] = None,
    common: Common | None = None,
) -> None:
    """The walk for today: which jobs, in which order along the paths, within the minutes given."""
    from spadework.usecases.own_chores import MARK
    from spadework.usecases.walk_round import walk_round

    common = common or Common()
    names = [name.strip() for name in (people or "").split(",") if name.strip()]
    found = walk_round(
        common.garden,
        common.day,
        minutes=minutes,
        at_hour=read_hour(at, "--at"),
        until_hour=read_hour(until, "--until"),
        people=names,
    )

    def tell() -> None:
        voice = voice_of(common)
        jobs = sum(len(stop.jobs) + len(stop.chores) for stop in found.stops)
        at_stops = {line.text for stop in found.stops for line in stop.locks}
        tell_locks((line for line in found.locks if line.text not in at_stops), voice)
        if not found.stops:
            print(wrapped(f"Nothing is worth going out for on {voice.day(found.today)}."))
        else:
            given = f"{found.minutes:.0f} minutes" + (f" each for {', '.join(found.people)}" if names else "")
            print(
                wrapped(
                    f"{voice.day(found.today, weekday=True)}: {_counted(jobs, 'job')} at "
                    f"{_counted(len(found.stops), 'stop')}, {found.minutes_used:.0f} of {given}, "
                    f"{found.minutes_walking:.0f} of them walking."
                )
            )
        for said in found.conditions:
            print(wrapped(voice.told(said)))
        if found.at:
            print(wrapped(f"Hours by the clock: {found.clock}."))
        for number, stop in enumerate(found.stops, start=1):
            print()
            who = f" · {stop.who}" if stop.who else ""
            print(f"{number}. {stop.name}{who} · {stop.minutes:.0f} min")
            tell_locks(stop.locks, voice, gap=False, indent=3)
            for job in stop.jobs:
                _tell_job(job, voice)
            for chore in stop.chores:
                print(wrapped(f"{chore_title(chore)} ({chore.minutes:.0f} min)", 5, "   · "))
                print(wrapped(chore_said(chore, voice), 5))
        later = [each for each in found.left_out if each.forfeit_7 >= 0.01][:5]
        later += [each for each in found.left_out if each.id.startswith(MARK)]
        if later:
            print("\nNot today:")
            for each in later:
                print(wrapped(f"{voice.told(each.act)} ({each.minutes:.0f} min): {each.why}.", 4, "  · "))
        rest = len(found.left_out) - len(later)
        if rest:
            print(f"\n{_counted(rest, 'more job')} can wait; see: spadework jobs")
        if found.note:
            print(wrapped(voice.told(found.note)))

    answer(common, found, tell)


def jobs(
    *,
    bed: Annotated[str, Parameter(help="Only of this bed.")] = "",
    kind: Annotated[str, Parameter(help="Only of this kind.")] = "",
    crop: Annotated[str, Parameter(help="Only of this crop.")] = "",
    common: Common | None = None,
) -> None:
    """Every job worth doing, most at stake first."""
    from spadework.usecases.jobs_today import jobs_today

    common = common or Common()
    found = jobs_today(common.garden, common.day, bed=bed, kind=kind, crop=crop)

    def tell() -> None:
        voice = voice_of(common)
        tell_locks(found.locks, voice)
        if not found.jobs:
            print("No job.")
        for job in found.jobs:
            _tell_job(job, voice, name=True)

    answer(common, found, tell)


def why(
    job: Annotated[str, Parameter(help="Its id, or enough of it.")], *, common: Common | None = None
) -> None:
    """One job opened up: what it rests on, and what waiting costs."""
    from spadework.usecases.crop_words import crop_word
    from spadework.usecases.jobs_today import job_by_id, open_day
    from spadework.usecases.lock_lines import lock_lines
    from spadework.usecases.open_job import open_job

    common = common or Common()
    day = open_day(common.garden, common.day)
    found = open_job(job_by_id(day, job), day.scene)
    words = day.scene.site.words
    of_crop = f" of {crop_word(found.crop, words, many=True)}" if found.crop else ""

    def tell() -> None:
        voice = voice_of(common)
        _tell_job(found, voice, name=True)
        print("\nIt rests on:")
        for fact in found.facts:
            origin = "; ".join(part for part in (fact.law, fact.source) if part)
            print(wrapped(f"{fact.name}: {voice.fact(fact)}{f' ({origin})' if origin else ''}", 4, "  · "))
        print("\nWaiting costs, of what it is worth:")
        for days, share in found.forfeit.items():
            print(f"  {days:>2} days  {share * 100:5.1f} %   {share * found.worth_kg:.2f} kg{of_crop}")
        for each in found.ahead.after:
            print(
                wrapped(
                    f"Left until {voice.day(each.on)}, nearly all of it is still there {in_years(each.odds)}."
                )
            )
        if found.window.opens_odds is not None and found.window.closes_odds is not None:
            closes = found.window.closes_odds
            print(
                wrapped(
                    f"It closes between {voice.day(closes.q10)} and {voice.day(closes.q90)} in 8 of 10 years."
                    if closes.q10 and closes.q90
                    else "Nothing closes it in the next three weeks in most years."
                )
            )

    answer(
        common,
        found,
        tell,
        locks=lambda: (
            lock_lines(day.garden, common.day, bed=found.bed, planting=found.planting, words=words)
            if found.bed or found.planting
            else []
        ),
    )


def done(
    job: Annotated[str, Parameter(help="Its id, or enough of it; of a chore its name.")],
    *,
    minutes: Annotated[float | None, Parameter(help="Minutes it took.")] = None,
    standing: Annotated[float | None, Parameter(help="Plants counted.")] = None,
    left: Annotated[float | None, Parameter(help="Plants left standing.")] = None,
    removed: Annotated[float | None, Parameter(help="Plants taken out.")] = None,
    plants: Annotated[float | None, Parameter(help="Plants set out.")] = None,
    seeds: Annotated[float | None, Parameter(help="Seeds sown.")] = None,
    kg: Annotated[float | None, Parameter(help="Harvest, kg.")] = None,
    pieces: Annotated[float | None, Parameter(help="Harvest, pieces.")] = None,
    litres: Annotated[float | None, Parameter(help="Water given.")] = None,
    by: Annotated[str, Parameter(help="Who did it.")] = "",
    insist: Annotated[bool, Parameter(negative="", help="It was so, whatever is asked.")] = False,
    common: Common | None = None,
) -> None:
    """A job done: it goes into the book, and later dates move at once."""
    from spadework.usecases.do_jobs import Doing, do_job

    common = common or Common()
    given = {
        "standing": standing, "left": left, "removed": removed, "plants": plants, "seeds": seeds, "kg": kg,
        "pieces": pieces, "litres": litres,
    }  # fmt: skip
    numbers = {name: value for name, value in given.items() if value is not None}
    found = do_job(common.garden, common.day, job, numbers, minutes=minutes, how=Doing(by=by, insist=insist))
    answer(common, found, lambda: _tell_done(found, voice_of(common)))


def skip(
    job: Annotated[str, Parameter(help="Its id, or enough of it; of a chore its name.")],
    *,
    because: Annotated[str, Parameter(help="Why it is put off.")],
    by: Annotated[str, Parameter(help="Who says so.")] = "",
    common: Common | None = None,
) -> None:
    """Put a job off for today, with the reason."""
    from spadework.usecases.do_jobs import Doing, skip_job

    common = common or Common()
    found = skip_job(common.garden, common.day, job, because, Doing(by=by))
    answer(common, found, lambda: _tell_done(found, voice_of(common)))


def read_hour(text: str | None, name: str) -> float | None:
    """An hour of the day from HH:MM, or None.

    Raises
    ------
    ParameterError
    """
    if text is None:
        return None
    match = re.fullmatch(r"\s*(\d{1,2})(?:[:.h](\d{2}))?\s*(am|pm)?\s*", text.lower())
    hour = -1.0
    if match is not None:
        hour = int(match[1]) + int(match[2] or 0) / 60.0
        if match[3]:
            hour = hour % 12.0 + (12.0 if match[3] == "pm" else 0.0)
    if not 0.0 <= hour < 24.0 or (match is not None and int(match[2] or 0) > 59):
        raise ParameterError(f"{name} {text!r} is not an hour.", "Write it as 17:30 or 5:30pm.")
    return hour


def _tell_job(job: JobView, voice: Voice, *, name: bool = False) -> None:
    at = "" if job.at_hour is None else f"{int(job.at_hour):02d}:{round((job.at_hour % 1) * 60):02d} "
    print(wrapped(f"{at}{voice.told(job.act)} ({job.minutes:.0f} min)", 5, "   · "))
    print(wrapped(voice.told(job.reason), 5))
    print(wrapped(waiting_said(job, voice), 5))
    if job.take:
        print(wrapped("Take: " + take_said(job.take, voice) + ".", 5))
    if job.test:
        print(wrapped(voice.told(job.test), 5))
    for caution in job.cautions:
        print(wrapped(voice.told(caution.text), 7, "     ! "))
    if name:
        print(f"     [{job.id}]")


def _tell_done(found: JobDone, voice: Voice) -> None:
    for said in found.said:
        print(wrapped(voice.told(said)))
    for asked in found.questions:
        print(wrapped(voice.told(f"{asked.found} {asked.why}"), 2, "? "))
    if not found.stored:
        print("Nothing was written. Where it is so all the same, say it again with --insist.")
    tell_locks(found.locks, voice, gap=False)


def _counted(number: int, thing: str) -> str:
    return f"{number} {thing}{'' if number == 1 else 's'}"


__all__: Sequence[str] = ("done", "jobs", "read_hour", "skip", "walk", "why")
