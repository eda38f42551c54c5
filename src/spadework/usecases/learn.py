"""Learn from what the person saw: it came up on, it was ready on."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import msgspec
import numpy as np

from spadework.clock.course import Course, set_out, sow
from spadework.clock.ground import Ground
from spadework.clock.learning import Belief, Learned, Observation, learn
from spadework.clock.sprout import Sowing
from spadework.crops.loader import load_sheet
from spadework.crops.overrides import apply_overrides
from spadework.crops.sheet import Sheet
from spadework.errors import ParameterError, RecordError
from spadework.garden.told import Event, Told
from spadework.store.told_file import new_key
from spadework.usecases.setting import Setting, check_ahead, column_of, open_setting

OFFSETS_C = np.linspace(-4.0, 4.0, 9)
"""Bed offsets at which what was gathered is worked out [degC]."""

READY_SPREAD_FLOOR = 0.05
"""Spread that is left of a requirement however many events there are: season and eye. Source: memory."""


class LearnedLine(msgspec.Struct, frozen=True, kw_only=True):
    """One thing learned: before and after."""

    crop: str
    variety: str
    what: str
    before: float
    after: float
    unit: str
    spread_before: float
    spread_after: float
    events: list[str]


class BedLine(msgspec.Struct, frozen=True, kw_only=True):
    """How much warmer a bed is than the garden's usual."""

    bed: str
    offset_c: float
    sd_c: float
    events: list[str]


class LearnedAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """What is learned so far; after telling an event, with what it changed."""

    question: str
    today: date
    stored: bool
    key: str
    doubts: list[str]
    crops: list[LearnedLine]
    beds: list[BedLine]


def tell_event(garden: Path, today: date, event: Event, *, sure: bool = False) -> LearnedAnswer:
    """Keep an event and learn from it.

    Parameters
    ----------
    garden : Path
    today : date
    event : Event
        Its crop as a person names it.
    sure : bool
        Keep it although it lies far from what is believed.

    Raises
    ------
    ParameterError, UnknownName, RecordError, GardenError
        For what cannot be, or where the weather since its start is not known.
    """
    setting = open_setting(garden, today)
    sheet = load_sheet(event.crop)
    event = replace(event, crop=sheet.key)
    _check(event, today)
    told = Told(key=new_key(), told_on=today, source="own eyes" + (", sure" if sure else ""), fact=event)
    observation = observe(setting, told)
    assert observation is not None
    before = learned_by(setting)
    after = learned_by(replace(setting, also=(*setting.also, told)))
    surprise = next((one for one in after.surprises if one.observation.event == told.key), None)
    doubts = []
    if surprise is not None and not sure:
        gathered = 100.0 * float(np.exp(surprise.seen_log - surprise.expected_log))
        doubts.append(
            f"By {event.on.isoformat()} it had gathered {gathered:.0f} % of the warmth believed to be "
            f"needed, {surprise.sds:.1f} spreads off. Is the date right, or was it picked early or late?"
        )
    if not doubts:
        setting.folder.tell(told)
    lines = [] if doubts else _changed(setting, before, after, event)
    return LearnedAnswer(
        question="learn",
        today=today,
        stored=not doubts,
        key="" if doubts else told.key,
        doubts=doubts,
        crops=lines,
        beds=[] if doubts else _beds(after),
    )


def list_learned(garden: Path, today: date) -> LearnedAnswer:
    """All that is learned, with the events behind it."""
    setting = open_setting(garden, today)
    learned = learned_by(setting)
    lines = [
        _line(setting, crop, variety, what, belief)
        for (crop, variety, what), belief in sorted(learned.requirements.items())
    ]
    return LearnedAnswer(
        question="learned",
        today=today,
        stored=False,
        key="",
        doubts=[],
        crops=lines,
        beds=_beds(learned),
    )


def learned_by(setting: Setting) -> Learned:
    """What the events told up to the day of asking teach."""
    events = [entry for entry in setting.told if isinstance(entry.fact, Event)]
    if not events:
        return Learned()
    observations = [seen for entry in events if (seen := observe(setting, entry)) is not None]
    sure = frozenset(entry.key for entry in events if entry.source.endswith(", sure"))
    return learn(observations, sure=sure, today=setting.today)


def observe(setting: Setting, entry: Told) -> Observation | None:
    """What had been gathered by the day of an event; None where the record no longer holds its days."""
    event = entry.fact
    assert isinstance(event, Event)
    sheet = setting.own(event.crop)
    then = replace(setting, today=event.on, also=())
    try:
        years = then.years(event.started, (event.on - event.started).days + 1)
    except RecordError:
        if entry.told_on == setting.today:
            raise
        return None
    ground = Ground(setting.site, years, setting.site.surface)
    start, end = column_of(ground, event.started), column_of(ground, event.on)
    before = None if event.not_yet_on is None else column_of(ground, event.not_yet_on)
    logs, logs_before = [], []
    for offset in OFFSETS_C:
        warmed = replace(years, tmin_c=years.tmin_c + offset, tmax_c=years.tmax_c + offset)
        course = _course(sheet, replace(ground, years=warmed, _kept={}), start, event)
        gathered = _gathered(course, event)
        logs.append(_log(gathered[end]))
        logs_before.append(np.nan if before is None else _log(gathered[before]))
    usual = int(np.argmin(np.abs(OFFSETS_C)))
    return Observation(
        event=entry.key,
        crop=event.crop,
        variety=event.variety,
        bed=event.bed,
        what=event.what,
        on=event.on,
        prior_sd=_own_spread(sheet, event.what),
        offsets_c=OFFSETS_C,
        log_gathered=np.array(logs),
        log_gathered_before=None if before is None else float(logs_before[usual]),
    )


def with_learned(setting: Setting, sheet: Sheet, *, requirement: bool = True) -> Sheet:
    """The sheet with what the garden's own events taught, the sheet's own numbers kept beside it.

    Parameters
    ----------
    setting : Setting
    sheet : Sheet
    requirement : bool
        False where a packet gives the requirement: then only coming up is learned.
    """
    if not any(isinstance(entry.fact, Event) and entry.fact.crop == sheet.key for entry in setting.told):
        return sheet
    learned = learned_by(setting)
    values: dict[str, object] = {}
    variety = sheet.variety or ""
    ready = learned.requirement(sheet.key, variety, "ready") if requirement else None
    count = 0
    if ready is not None:
        factor = float(np.exp(ready.mean))
        count += len(ready.events)
        values["development.ready_days"] = sheet.development.ready_days.value * factor
        if sheet.development.set_out_days is not None:
            values["development.set_out_days"] = sheet.development.set_out_days.value * factor
        values["development.cv"] = min(_spread_left(ready), sheet.development.cv.value)
    up = learned.requirement(sheet.key, variety, "came up")
    if up is not None:
        count += len(up.events)
        values["emergence.field_sum_factor"] = sheet.emergence.field_sum_factor.value * float(np.exp(up.mean))
        values["emergence.tau"] = min(_spread_left(up), sheet.emergence.tau.value)
    if not values:
        return sheet
    return apply_overrides(sheet, values, f"learned from {count} event{'s' if count > 1 else ''}")


def _spread_left(belief: Belief) -> float:
    return max(float(np.hypot(belief.sd, READY_SPREAD_FLOOR)), READY_SPREAD_FLOOR)


def _own_spread(sheet: Sheet, what: str) -> float:
    return sheet.development.cv.value if what == "ready" else sheet.emergence.tau.value


def _course(sheet: Sheet, ground: Ground, start: int, event: Event) -> Course:
    return set_out(sheet, ground, start) if event.start == "set-out" else sow(sheet, ground, Sowing(start))


def _gathered(course: Course, event: Event) -> np.ndarray:
    """What was gathered by each day over the sheet's median requirement, [day]."""
    if event.what == "came up":
        assert course.sprout is not None
        return np.asarray(course.sprout.progress[0])
    return np.asarray((course.grown_days[0] - course.head_days) / course.ready_days)


def _log(gathered: float) -> float:
    return float(np.log(max(gathered, 1e-3)))


def _check(event: Event, today: date) -> None:
    if event.what == "came up" and event.start == "set-out":
        raise ParameterError("Plants set out have come up already.", "Give --sown for seed sown in place.")
    check_ahead(event.started, today, "--sown")
    if not event.started < event.on <= today:
        raise ParameterError(
            f"--on {event.on.isoformat()} is not between the start ({event.started.isoformat()}) and today "
            f"({today.isoformat()}).",
            "Give the day it was seen.",
        )
    if event.not_yet_on is not None and not event.started <= event.not_yet_on < event.on:
        raise ParameterError(
            f"--not-yet-on {event.not_yet_on.isoformat()} is not between the start and "
            f"{event.on.isoformat()}.",
            "Give the last day it was looked at and had not happened.",
        )


def _changed(setting: Setting, before: Learned, after: Learned, event: Event) -> list[LearnedLine]:
    """The crop's requirement before and after one event."""
    belief = after.requirement(event.crop, event.variety, event.what)
    if belief is None:
        return []
    line = _line(setting, event.crop, event.variety, event.what, belief)
    old = before.requirement(event.crop, event.variety, event.what)
    if old is None:
        return [line]
    earlier = _line(setting, event.crop, event.variety, event.what, old)
    return [msgspec.structs.replace(line, before=earlier.after, spread_before=earlier.spread_after)]


def _line(setting: Setting, crop: str, variety: str, what: str, belief: Belief) -> LearnedLine:
    sheet = setting.own(crop)
    need = sheet.development.ready_days if what == "ready" else sheet.emergence.field_sum_factor
    base = need.value if what == "ready" else need.value * sheet.emergence.sum_cd.value
    own = _own_spread(sheet, what)
    return LearnedLine(
        crop=sheet.word(setting.site.words),
        variety=variety,
        what=what,
        before=round(base, 1),
        after=round(base * float(np.exp(belief.mean)), 1),
        unit="days of best warmth" if what == "ready" else "degC day",
        spread_before=round(own, 3),
        spread_after=round(min(_spread_left(belief), own), 3),
        events=list(belief.events),
    )


def _beds(learned: Learned) -> list[BedLine]:
    return [
        BedLine(bed=bed, offset_c=round(one.mean, 2), sd_c=round(one.sd, 2), events=list(one.events))
        for bed, one in sorted(learned.beds.items())
    ]
