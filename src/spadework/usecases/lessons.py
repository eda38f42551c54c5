"""What the garden's own events teach, and the sheets and beds that carry it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING

import numpy as np

from spadework.clock.conditioning import condition_ground, condition_years
from spadework.clock.ground import Ground
from spadework.clock.learning import Learned, Observation, learn
from spadework.clock.observation import noise_sd, observe
from spadework.crops.fields import by_path
from spadework.crops.overrides import apply_overrides
from spadework.crops.sheet import Sheet
from spadework.errors import RecordError
from spadework.garden.told import Event, Told

if TYPE_CHECKING:
    from spadework.usecases.setting import Setting

MOST_TIMES = 2.5
"""A requirement learned lies within this many times the sheet's own, up or down; beyond it something else is
wrong. Common practice."""

_LEARNED = "learned from"


def learned_by(setting: Setting) -> Learned:
    """What the events told up to the day of asking teach.

    Notes
    -----
    Each was believed when it was told, so none is doubted again. Events whose weather is not known any more
    teach nothing.
    """
    entries = events_of(setting)
    if not entries:
        return Learned()
    seen = [found for entry in entries if (found := observation_of(setting, entry)) is not None]
    return learn(seen, sure=frozenset(entry.key for entry in entries), today=setting.today)


def events_of(setting: Setting) -> list[Told]:
    """The events told that stand, in order of telling."""
    return [entry for entry in setting.told if isinstance(entry.fact, Event)]


def observation_of(setting: Setting, entry: Told) -> Observation | None:
    """What had been gathered by the day of an event; None where its weather is not known, or nothing was."""
    event = entry.fact
    assert isinstance(event, Event)
    try:
        ground_at = event_ground(setting, event)
    except RecordError:
        return None
    up_on = _up_on(event, events_of(setting))
    return observe(entry.key, event, setting.own(event.crop, variety=event.variety), ground_at, up_on)


def event_ground(setting: Setting, event: Event, days: int | None = None) -> Callable[[float], Ground]:
    """The bed's ground over an event's days, or `days` from its start, by the bed's offset.

    Raises
    ------
    RecordError
        Where the weather of those days is not known.
    """
    length = (event.on - event.started).days + 1 if days is None else days
    years = setting.years(event.started, length)
    told = [entry for entry in setting.told if not isinstance(entry.fact, Event)]
    conditioned = condition_years(years, told, setting.site, event.on)

    def at(offset_c: float) -> Ground:
        return condition_ground(conditioned, told, setting.site, event.on, event.bed, offset_c)[0]

    return at


def with_learned(
    setting: Setting, sheet: Sheet, *, variety: str = "", bed: str = "", requirement: bool = True
) -> Sheet:
    """The sheet with what the garden's own events taught, the sheet's own numbers kept beside it.

    Parameters
    ----------
    setting : Setting
    sheet : Sheet
        With its own requirement.
    variety, bed : str
        Those asked about; empty where none is named.
    requirement : bool
        False where a packet gives the requirement: then only coming up is learned.
    """
    if not any(isinstance(entry.fact, Event) and entry.fact.crop == sheet.key for entry in setting.told):
        return sheet
    learned = setting.learned
    for what in ("ready", "came up") if requirement else ("came up",):
        belief = learned.requirement(sheet.key, variety, what)
        if belief is None:
            continue
        spread = learned.spread(sheet.key, variety, what, bed, noise_sd(sheet, what, bed))
        assert spread is not None
        values = learned_values(sheet, what, belief.mean, spread)
        sheet = apply_overrides(sheet, values, f"{_LEARNED} {counted_events(len(belief.events))}")
    return sheet


def learned_values(sheet: Sheet, what: str, log_factor: float, spread: float) -> dict[str, object]:
    """The numbers of a sheet that a learned factor and its spread change, within what a field allows."""
    factor = float(np.clip(np.exp(log_factor), 1.0 / MOST_TIMES, MOST_TIMES))
    pace, up = sheet.development, sheet.emergence
    if what == "came up":
        return {
            "emergence.field_sum_factor": _allowed(
                "emergence.field_sum_factor", up.field_sum_factor.value * factor
            ),
            "emergence.tau": min(spread, up.tau.value),
        }
    ready = _allowed("development.ready_days", pace.ready_days.value * factor)
    values: dict[str, object] = {
        "development.ready_days": ready,
        "development.cv": min(spread, pace.cv.value),
    }
    if pace.set_out_days is not None:
        values["development.set_out_days"] = pace.set_out_days.value * ready / pace.ready_days.value
    return values


def learned_said(sheet: Sheet, *, planted: bool = False) -> str:
    """What an answer owes to what was learned, as a sentence; empty where nothing was.

    Parameters
    ----------
    sheet : Sheet
    planted : bool
        Whether the answer counts from setting out.
    """
    pace, up = sheet.development, sheet.emergence.field_sum_factor
    need = pace.set_out_days if planted and pace.set_out_days is not None else pace.ready_days
    said = []
    if need.origin.startswith(_LEARNED) and need.own is not None:
        said.append(
            f"Ready as {need.origin} here: {need.value:.1f} days of best warmth (the sheet has "
            f"{need.own.value:.1f})."
        )
    if up.origin.startswith(_LEARNED) and up.own is not None and not planted:
        said.append(f"Coming up as {up.origin} here: {up.value / up.own.value:.2f} times the sheet's warmth.")
    return " ".join(said)


def counted_events(number: int) -> str:
    """A number of events in words."""
    return "1 event" if number == 1 else f"{number} events"


def _allowed(path: str, value: float) -> float:
    field = by_path()[path]
    return float(np.clip(value, field.lowest, field.highest))


def _up_on(event: Event, entries: Sequence[Told]) -> date | None:
    """When the sowing of a ready event was seen to come up, where that was told."""
    if event.what != "ready" or event.start != "sown":
        return None
    for entry in entries:
        other = entry.fact
        if isinstance(other, Event) and other.what == "came up" and same_planting(event, other):
            return other.on
    return None


def same_planting(one: Event, other: Event) -> bool:
    """Whether two events speak of the same plants."""
    return (one.crop, one.variety, one.bed, one.start, one.started) == (
        other.crop,
        other.variety,
        other.bed,
        other.start,
        other.started,
    )
