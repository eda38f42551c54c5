"""Tell what was seen, it came up on or it was ready on, and see what that has taught."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import msgspec
import numpy as np

from spadework.advice.odds import DateOdds, date_odds
from spadework.advice.ready_odds import median_emergence_chance, usual_way
from spadework.clock.course import Course, set_out, sow
from spadework.clock.ground import Ground
from spadework.clock.learning import Belief, Learned, Surprise
from spadework.clock.observation import noise_sd
from spadework.clock.sprout import Sowing, field_requirement_cd
from spadework.crops.loader import load_sheet
from spadework.crops.sheet import Sheet
from spadework.errors import ParameterError, RecordError
from spadework.garden.phrases import day_text
from spadework.garden.told import Event, Told
from spadework.garden.told_words import fact_text
from spadework.store.told_file import new_key
from spadework.usecases.ask_ready import RUN_DAYS
from spadework.usecases.lessons import (
    MOST_TIMES,
    event_ground,
    events_of,
    observation_of,
    same_planting,
)
from spadework.usecases.setting import Setting, column_of, open_setting

LONGEST_EVENT_DAYS = 500
"""An event this long after its start is a slip in the year."""


class EventLine(msgspec.Struct, frozen=True, kw_only=True):
    """One event behind what is learned."""

    key: str
    text: str


class LearnedLine(msgspec.Struct, frozen=True, kw_only=True):
    """One requirement: before and after. `spread` is that of a coming event, as a share."""

    crop: str
    variety: str
    bed: str
    what: str
    before: float
    after: float
    unit: str
    spread_before: float
    spread_after: float
    events: list[EventLine]


class BedLine(msgspec.Struct, frozen=True, kw_only=True):
    """How much warmer a bed is than the rest of the garden [degC]."""

    bed: str
    offset_before_c: float
    offset_c: float
    sd_c: float
    events: list[EventLine]


class MovedLine(msgspec.Struct, frozen=True, kw_only=True):
    """What an event moves: the middle day of one started today, before and after."""

    what: str
    before: date | None
    after: date | None


class LearnedAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """What is learned; after telling an event, what that event changed.

    Parameters
    ----------
    key, text : str
        Of the event just told; empty in a list.
    stored : bool
        Whether the event was kept now.
    doubts : list of str
        What speaks against it; then nothing was kept.
    withdrawn : list of str
        Keys of events it took the place of.
    moves : list of MovedLine
        What it does to one started today.
    unused : list of EventLine
        Events that teach nothing, since their weather is not known.
    """

    question: str
    today: date
    key: str = ""
    text: str = ""
    stored: bool = False
    doubts: list[str] = []
    withdrawn: list[str] = []
    crops: list[LearnedLine] = []
    beds: list[BedLine] = []
    moves: list[MovedLine] = []
    unused: list[EventLine] = []


def tell_event(garden: Path, today: date, event: Event, *, sure: bool = False) -> LearnedAnswer:
    """Keep an event and learn from it.

    Parameters
    ----------
    garden : Path
    today : date
        The day of telling.
    event : Event
        Its crop as a person names it.
    sure : bool
        Keep it although something speaks against it; an event of the same planting it disagrees with is
        withdrawn.

    Raises
    ------
    ParameterError, UnknownName, RecordError, GardenError
        For what is impossible, or where the weather since its start is not known. What is only doubtful comes
        back in the answer.
    """
    setting = open_setting(garden, today)
    named = load_sheet(event.crop)
    event = replace(
        event, crop=named.key, variety=event.variety.strip() or named.variety, bed=event.bed.strip()
    )
    _refuse_impossible(event, today)
    told = Told(key=new_key(), told_on=today, source="own eyes", fact=event)
    known = next((entry for entry in events_of(setting) if entry.fact == event), None)
    if known is not None:
        return _answer(setting, known, stored=False)
    event_ground(setting, event)  # says at once where the weather is missing
    older = [
        entry
        for entry in events_of(setting)
        if isinstance(entry.fact, Event)
        and entry.fact.what == event.what
        and same_planting(entry.fact, event)
    ]
    told_before = tuple(entry for entry in setting.told if entry not in older)
    trial = replace(setting, instead=(*told_before, told))
    seen = observation_of(trial, told)
    if seen is None:
        raise ParameterError(
            f"By {_day(event.on, today)} it can have gathered nothing at all.",
            "Check both dates: they are too near each other, or the ground was too cold.",
        )
    before = replace(setting, instead=told_before)
    surprise = before.learned.surprise(seen)
    doubts = [f"Told already: {fact_text(entry.fact)}; now: {fact_text(event)}." for entry in older]
    if surprise is not None:
        doubts.append(_doubt(before, event, surprise))
    if doubts and not sure:
        return LearnedAnswer(question="tell", today=today, key=told.key, text=fact_text(event), doubts=doubts)
    _refuse_absurd(trial, event)
    setting.folder.tell(told)
    for entry in older:
        setting.folder.withdraw(entry.key, today)
    return _answer(setting, told, stored=True, withdrawn=[entry.key for entry in older])


def list_learned(garden: Path, today: date) -> LearnedAnswer:
    """All that is learned, with the events behind it."""
    setting = open_setting(garden, today)
    learned = setting.learned
    texts = _texts(setting)
    crops = [
        _listed(setting, crop, variety, what, belief, texts)
        for (crop, variety, what), belief in sorted(learned.requirements.items())
    ]
    beds = [_bed(bed, Learned(), learned, texts) for bed in sorted(learned.beds)]
    taught = {event for belief in learned.requirements.values() for event in belief.events}
    return LearnedAnswer(
        question="learned",
        today=today,
        crops=crops,
        beds=beds,
        unused=[EventLine(key=key, text=text) for key, text in texts.items() if key not in taught],
    )


def _answer(
    setting: Setting, told: Told, *, stored: bool, withdrawn: list[str] | None = None
) -> LearnedAnswer:
    """What one event that is kept has changed, against the same garden without it."""
    event = told.fact
    assert isinstance(event, Event)
    gone = withdrawn or []
    others = tuple(entry for entry in setting.told if entry.key != told.key)
    after = replace(setting, instead=(*(entry for entry in others if entry.key not in gone), told))
    before = replace(setting, instead=others)
    old, new = before.learned, after.learned
    texts = _texts(after)
    sheet = after.own(event.crop, variety=event.variety)
    belief = new.requirement(event.crop, event.variety, event.what)
    crops, planted = [], event.start == "set-out"
    if belief is not None:
        line = _line(after, sheet, event.variety, event.bed, event.what, belief, new, texts, planted)
        earlier = old.requirement(event.crop, event.variety, event.what)
        if earlier is not None:
            was = _line(before, sheet, event.variety, event.bed, event.what, earlier, old, {}, planted)
            line = msgspec.structs.replace(line, before=was.after, spread_before=was.spread_after)
        crops.append(line)
    return LearnedAnswer(
        question="tell",
        today=setting.today,
        key=told.key,
        text=fact_text(event),
        stored=stored,
        withdrawn=gone,
        crops=crops,
        beds=[_bed(event.bed, old, new, texts)] if event.bed in new.beds else [],
        moves=_moves(before, after, event),
    )


def _listed(
    setting: Setting, crop: str, variety: str, what: str, belief: Belief, texts: dict[str, str]
) -> LearnedLine:
    sheet = setting.own(crop, variety=variety)
    planted = usual_way(sheet) == "raised"
    return _line(setting, sheet, variety, "", what, belief, setting.learned, texts, planted)


def _refuse_impossible(event: Event, today: date) -> None:
    if event.what == "came up" and event.start == "set-out":
        raise ParameterError("Plants set out have come up already.", "Give --sown for seed sown in place.")
    began = "--sown" if event.start == "sown" else "--set-out"
    if not event.started < event.on <= today:
        raise ParameterError(
            f"--on {event.on.isoformat()} is not after {began} {event.started.isoformat()} and by today "
            f"({today.isoformat()}).",
            "Give the day it was seen.",
        )
    if (event.on - event.started).days > LONGEST_EVENT_DAYS:
        raise ParameterError(
            f"From {event.started.isoformat()} to {event.on.isoformat()} are "
            f"{(event.on - event.started).days} days.",
            f"At most {LONGEST_EVENT_DAYS}; check the years.",
        )
    if event.not_yet_on is not None and not event.started <= event.not_yet_on < event.on:
        raise ParameterError(
            f"--not-yet-on {event.not_yet_on.isoformat()} is not from {event.started.isoformat()} to the day "
            f"before {event.on.isoformat()}.",
            "Give the last day it was looked at and had not happened.",
        )


def _refuse_absurd(trial: Setting, event: Event) -> None:
    """Refuse, sure or not, what would make another crop of it."""
    belief = trial.learned.requirement(event.crop, event.variety, event.what)
    if belief is not None and abs(belief.mean) > np.log(MOST_TIMES):
        raise ParameterError(
            f"With that it would need {np.exp(belief.mean):.1f} times what its sheet says.",
            f"Up to {MOST_TIMES:g} times more or less is learned; check the dates, or set the sheet's own "
            "number in overrides.toml.",
        )


def _doubt(before: Setting, event: Event, surprise: Surprise) -> str:
    """What was told beside what was expected, both as days and as what was gathered."""
    sheet = before.sheet(event.crop, variety=event.variety, bed=event.bed)
    own = before.own(event.crop, variety=event.variety)
    need, unit = _need(own, event.what, event.start == "set-out")
    seen, expected = (need * float(np.exp(log)) for log in (surprise.seen_log, surprise.expected_log))
    ground = event_ground(before, event, RUN_DAYS)(before.bed_offset_c(event.bed))
    usual = _dates(_course(sheet, ground, event.started, event.start), event.what)
    name, what = sheet.word(before.site.words), event.what
    days = "never" if usual.q50 is None else f"about {_day(usual.q50, before.today)}"
    if usual.q10 is not None and usual.q90 is not None:
        days += f" ({_day(usual.q10, before.today)} to {_day(usual.q90, before.today)})"
    slip = "Picked small or late" if what == "ready" else "Only the first or the last of it"
    began = "sown" if event.start == "sown" else "set out"
    state = "ready" if what == "ready" else "half up"
    return (
        f"{name.capitalize()} {began} {_day(event.started, before.today)} was to be {state} {days}, with "
        f"{expected:.1f} {unit}; by {_day(event.on, before.today)} it had {seen:.1f}. {slip}, or a slip in "
        "the date?"
    )


def _day(day: date, today: date) -> str:
    return day_text(day, year=day.year != today.year)


def _moves(before: Setting, after: Setting, event: Event) -> list[MovedLine]:
    """Middle days of one started today, without and with the event."""
    found = []
    whats = ("came up", "ready") if event.start == "sown" else ("ready",)
    try:
        courses = [_today(setting, event) for setting in (before, after)]
    except RecordError:
        return []
    for what in whats:
        old, new = (_dates(course, what).q50 for course in courses)
        if old is not None or new is not None:
            found.append(MovedLine(what=what, before=old, after=new))
    return found


def _today(setting: Setting, event: Event) -> Course:
    sheet = setting.sheet(event.crop, variety=event.variety, bed=event.bed)
    ground, _ = setting.ground(setting.today, RUN_DAYS, bed=event.bed)
    return _course(sheet, ground, setting.today, event.start)


def _course(sheet: Sheet, ground: Ground, start: date, how: str) -> Course:
    column = column_of(ground, start)
    return set_out(sheet, ground, column) if how == "set-out" else sow(sheet, ground, Sowing(column))


def _dates(course: Course, what: str) -> DateOdds:
    chance = course.ready if what == "ready" else median_emergence_chance(course)
    return date_odds(chance, course.ground.dates, course.ground.years.made)


def _texts(setting: Setting) -> dict[str, str]:
    return {entry.key: fact_text(entry.fact) for entry in events_of(setting)}


def _need(sheet: Sheet, what: str, planted: bool = False) -> tuple[float, str]:
    """What a sheet's crop needs, and in what."""
    if what == "came up":
        return field_requirement_cd(sheet, None), "degree-days in the soil"
    pace = sheet.development
    need = pace.set_out_days if planted and pace.set_out_days is not None else pace.ready_days
    return need.value, "days of best warmth"


def _line(
    setting: Setting,
    sheet: Sheet,
    variety: str,
    bed: str,
    what: str,
    belief: Belief,
    learned: Learned,
    texts: dict[str, str],
    planted: bool,
) -> LearnedLine:
    events = [EventLine(key=key, text=texts[key]) for key in belief.events if key in texts]
    need, unit = _need(sheet, what, planted)
    own = sheet.development.cv.value if what == "ready" else sheet.emergence.tau.value
    spread = learned.spread(sheet.key, variety, what, bed, noise_sd(sheet, what, bed))
    return LearnedLine(
        crop=sheet.word(setting.site.words),
        variety=variety,
        bed=bed,
        what=what,
        before=round(need, 1),
        after=round(need * float(np.exp(belief.mean)), 1),
        unit=unit,
        spread_before=round(own, 3),
        spread_after=round(own if spread is None else min(spread, own), 3),
        events=events,
    )


def _bed(bed: str, old: Learned, new: Learned, texts: dict[str, str]) -> BedLine:
    belief, before = new.beds[bed], old.beds.get(bed)
    return BedLine(
        bed=bed,
        offset_before_c=0.0 if before is None else round(before.mean, 2),
        offset_c=round(belief.mean, 2),
        sd_c=round(belief.sd, 2),
        events=[EventLine(key=key, text=texts[key]) for key in belief.events if key in texts],
    )
