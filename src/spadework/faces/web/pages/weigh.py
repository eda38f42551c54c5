"""Decisions, each as options side by side: what is best, why, how often it works out, on whose word."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from spadework.advice.job import Job
from spadework.advice.odds import Caution, Fact, Odds
from spadework.faces.web.visit import Page, Refused, Visit, Way
from spadework.usecases.jobs_today import open_day
from spadework.usecases.lock_lines import LockLine, locks_about
from spadework.usecases.show_beds import list_beds
from spadework.usecases.weigh_covering import weigh_covering
from spadework.usecases.weigh_fits import weigh_what_fits
from spadework.usecases.weigh_picking import weigh_picking
from spadework.usecases.weigh_sowing import weigh_sowing
from spadework.usecases.weigh_sowing_next import weigh_sowing_next
from spadework.usecases.weigh_thinning import weigh_thinning

KINDS: Final = (
    ("thin", "Thin"),
    ("pick", "Pick"),
    ("sow", "Sow the next"),
    ("start indoors", "Start the next"),
    ("cover", "Cover"),
)
"""Kinds of jobs that are decisions, as they are headed."""

MOST: Final = 4
"""Decisions of one kind on the first page."""


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One option: its name, what it comes to, and its odds where it has any."""

    name: str
    said: str
    odds: Odds | None = None
    best: bool = False


@dataclass(frozen=True, kw_only=True)
class Weighed:
    """A decision as it is shown."""

    title: str
    lead: str
    reason: str
    about: str = ""
    choices: Sequence[Choice] = ()
    facts: Sequence[Fact] = ()
    cautions: Sequence[Caution] = ()
    assumptions: Sequence[str] = ()
    locks: Sequence[LockLine] = ()
    note: str = ""


def show_weigh(visit: Visit) -> Page:
    """What is to be decided here now, and every decision to be asked freely."""
    day = open_day(visit.garden, visit.today)
    now = [
        (
            title,
            [(visit.voice.told(job.act), _where(job)) for job in day.jobs if job.kind == kind][:MOST],
        )
        for kind, title in KINDS
    ]
    standing = sorted((f"{plot.name} in {plot.where}", plot.key) for plot in day.scene.plots)
    beds = [(bed.key, bed.name) for bed in list_beds(visit.garden, visit.today).beds]
    return Page("weigh.html", {"now": [each for each in now if each[1]], "standing": standing, "beds": beds})


def _where(job: Job) -> str:
    """Where a job's decision is weighed."""
    match job.kind:
        case "thin":
            return f"/weigh/thin?planting={job.planting}"
        case "pick":
            return f"/weigh/pick?crop={job.planting}"
        case "cover":
            return f"/weigh/cover?bed={job.bed}"
        case _:
            return f"/weigh/sow-next?crop={job.crop}"


def thin(visit: Visit) -> Page:
    """Thin now, a week later, or not at all."""
    found = weigh_thinning(visit.garden, visit.today, _asked(visit, "planting"))
    voice = visit.voice
    choices = [
        Choice(
            name="Leave them" if each.to_cm is None else f"Thin {each.when}, to {voice.small(each.to_cm)}",
            said=f"{each.stay} stay, {each.removed} come out in {each.minutes:.0f} min; "
            f"{each.good} worth having, {voice.weight(each.each_g / 1000.0)} each, "
            f"{voice.weight(each.kg)} in all ({voice.weight(each.kg_low)} to {voice.weight(each.kg_high)}"
            " in 8 of 10 years).",
            best=at == found.best,
        )
        for at, each in enumerate(found.options)
    ]
    return _page(
        Weighed(
            title=f"Thin the {found.crop} in {found.bed}?",
            about=f"{found.standing} stand on {voice.length(found.row_m)} of row",
            lead=f"{choices[found.best].name}.",
            reason=found.reason,
            choices=choices,
            facts=found.facts,
            assumptions=found.assumptions,
            locks=locks_about(visit.garden, visit.today, crop=found.crop),
            note=found.note,
        )
    )


def pick(visit: Visit) -> Page:
    """Pick what there is, or wait."""
    found = weigh_picking(visit.garden, visit.today, _asked(visit, "crop"))
    voice = visit.voice
    lead = {
        "pick": "Pick today.",
        "wait": "Wait." if found.day is None else f"Wait until {voice.day(found.day, weekday=True)}.",
        "locked": "Not now: it is locked.",
    }[found.verdict]
    best = max(found.options, key=lambda each: each.keeps)
    return _page(
        Weighed(
            title=f"Pick the {found.crop} in {found.where}?",
            about=f"Ready: {found.sign}",
            lead=lead,
            reason=found.reason,
            choices=[
                Choice(
                    name=f"On {voice.day(each.day, weekday=True)}",
                    said=f"There {_years(each.there)}; {voice.weight(each.good_kg)} in good state, "
                    f"{_tenths(each.past)} of it past its best, {_tenths(each.spoilt)} spoilt by then.",
                    odds=each.there,
                    best=each is best and found.verdict != "locked",
                )
                for each in found.options
            ],
            facts=found.facts,
            cautions=found.cautions,
            locks=locks_about(visit.garden, visit.today, crop=found.key),
            note=found.note,
        )
    )


def sow_next(visit: Visit) -> Page:
    """When to sow the next, so that picking goes on."""
    found = weigh_sowing_next(visit.garden, visit.today, _asked(visit, "crop"))
    voice, verb = visit.voice, "Sow" if found.way == "sown" else "Start"
    choices = []
    for at, each in enumerate(found.options):
        days = ["today" if day == found.today else f"on {voice.day(day)}" for day in each.days]
        ready = " and ".join(voice.day(one.q50) for one in each.ready)
        name = f"{verb} {days[0]}" if len(days) == 1 else f"{verb} half {days[0]}, half {days[1]}"
        choices.append(
            Choice(
                name=name,
                said=f"Ready about {ready}, {each.gap_days:.0f} days after what stands is over; of the "
                f"{found.wanted_days:.0f} days wanted it feeds you {each.fed_days:.0f}. "
                f"It gets there {_years(each.overall)}.",
                odds=each.overall,
                best=at == found.best,
            )
        )
    before = found.before.q50 if found.before is not None else None
    return _page(
        Weighed(
            title=f"Sow the next {found.crop}?",
            about=f"The last that stands is ready about {voice.day(before)}" if before else "None stands now",
            lead=f"{choices[found.best].name}.",
            reason=found.reason[:1].upper() + found.reason[1:],
            choices=choices,
            facts=found.facts,
            cautions=found.cautions,
            assumptions=found.assumptions,
            locks=locks_about(visit.garden, visit.today, crop=_asked(visit, "crop"), placing=True),
            note=found.note,
        )
    )


def sow(visit: Visit) -> Page:
    """May it be sown now, or on which day."""
    crop = _asked(visit, "crop")
    found = weigh_sowing(visit.garden, visit.today, crop)
    voice = visit.voice
    return _page(
        Weighed(
            title=f"Sow {found.crop}?",
            about=f"Last good day {voice.day(found.last_good_day)}" if found.last_good_day else "",
            lead=f"Best on {voice.day(found.best_day, weekday=True)}.",
            reason=found.reason[:1].upper() + found.reason[1:],
            choices=[
                Choice(
                    name=f"On {voice.day(each.day, weekday=True)}",
                    said=f"Soil about {voice.temp(each.soil_c)}; ready about {voice.day(each.ready.q50)}. "
                    f"A full stand that is ready before anything takes it {_years(each.overall)}.",
                    odds=each.overall,
                    best=each.day == found.best_day,
                )
                for each in found.options
            ],
            facts=found.facts,
            cautions=found.cautions,
            assumptions=found.assumptions,
            locks=locks_about(visit.garden, visit.today, crop=crop, placing=True),
            note=found.note,
        )
    )


def cover(visit: Visit) -> Page:
    """A bed's cover: shut, open by day, or off."""
    found = weigh_covering(visit.garden, visit.today, _asked(visit, "bed"))
    lies = "lies there" if found.lies else "does not lie there now"
    return _page(
        Weighed(
            title=f"{found.cover[:1].upper()}{found.cover[1:]} on {found.name}?",
            about=f"It {lies}",
            lead=f"Best {found.verdict}, then {found.second}.",
            reason=found.reason,
            choices=[
                Choice(
                    name=f"{each.state[:1].upper()}{each.state[1:]}",
                    said=f"It costs {each.costs * 100:.1f} in 100 of what stands there.",
                    best=each.state == found.verdict,
                )
                for each in found.options
            ],
            facts=found.facts,
            locks=locks_about(visit.garden, visit.today, bed=found.bed),
            note=found.note,
        )
    )


def fits(visit: Visit) -> Page:
    """What still fits a free place."""
    found = weigh_what_fits(visit.garden, visit.today, on=visit.day("on"))
    voice = visit.voice
    good = [each for each in found.crops if each.overall.chance >= found.accepted]
    return _page(
        Weighed(
            title="What still fits a free place?",
            about=f"Free from {voice.day(found.on, weekday=True)}",
            lead=f"{len(good)} crops still get there." if good else "Nothing gets there any more this year.",
            reason="Each with a full stand that is ready before anything takes it.",
            choices=[
                Choice(
                    name=each.crop,
                    said=f"Ready about {voice.day(each.ready.q50)}, {_years(each.overall)}; "
                    f"last day to sow it {voice.day(each.last_day)}.",
                    odds=each.overall,
                )
                for each in good
            ],
            assumptions=found.assumptions,
            locks=locks_about(visit.garden, visit.today, placing=True),
            note=found.note,
        )
    )


def _page(weighed: Weighed) -> Page:
    return Page("weighed.html", {"weighed": weighed})


def _asked(visit: Visit, name: str) -> str:
    text = visit.text(name)
    if not text:
        raise Refused("What is it about?", "Choose or name it.", field=name)
    return text


def _years(odds: Odds) -> str:
    return f"in {odds.years_yes} of {odds.years} years"


def _tenths(share: float) -> str:
    tenths = round(share * 10.0)
    return "none" if share < 0.005 else "a little" if tenths == 0 else f"{tenths} in 10"


WAYS: Final = (
    Way("/weigh", show_weigh),
    Way("/weigh/cover", cover),
    Way("/weigh/fits", fits),
    Way("/weigh/pick", pick),
    Way("/weigh/sow", sow),
    Way("/weigh/sow-next", sow_next),
    Way("/weigh/thin", thin),
)
