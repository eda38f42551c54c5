"""What the garden's own events teach: each crop's requirement, and how warm each bed is.

One Gaussian state holds the log factor of every crop's requirement and the offset of every bed; each event
moves them together by one extended Kalman step. Pure: events come in as what was gathered by the day they
were seen.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

import numpy as np

from spadework.types import Floats

EVENT_LOG_SD = 0.06
"""Spread of an event about its requirement, log: the day seen is not the day it came. Source: memory."""

BED_SD_C = 1.2
"""Spread of beds about the garden's usual warmth [degC]. Source: memory."""

GATE_SDS = 3.5
"""An event farther than this from what is believed is a question, not a lesson. Source: memory."""

VARIETY_SHARE = 0.5
"""Share of a crop's variance that lies between its varieties. Source: memory."""

CROP_DRIFT, BED_DRIFT_C = 0.02, 0.3
"""Slow forgetting: spread that a year adds to a log factor, and to a bed's offset [degC]. Source: memory."""


@dataclass(frozen=True, eq=False)
class Observation:
    """One event, as what had been gathered by its day.

    Parameters
    ----------
    event : str
        Key of the told fact.
    crop, variety, bed : str
        Sheet key; variety and bed may be empty.
    what : "came up" or "ready"
    on : date
    prior_sd : float
        Spread of the crop's requirement before anything was learned, log.
    offsets_c : array, shape (offset,)  [degC]
        Bed offsets tried, rising.
    log_gathered : array, shape (offset,)
        Log of what was gathered by the day, over the sheet's median requirement, were the bed so much warmer.
    log_gathered_before : float or None
        The same without offset by the last day on which it had not happened.
    """

    event: str
    crop: str
    variety: str
    bed: str
    what: str
    on: date
    prior_sd: float
    offsets_c: Floats
    log_gathered: Floats
    log_gathered_before: float | None = None


@dataclass(frozen=True)
class Belief:
    """Mean and spread of one thing learned, and the events behind it."""

    mean: float
    sd: float
    events: tuple[str, ...] = ()


@dataclass(frozen=True)
class Surprise:
    """An event that lies too far from what was believed to be learned from."""

    observation: Observation
    expected_log: float
    seen_log: float
    sds: float


@dataclass(frozen=True)
class Learned:
    """All that is believed after some events.

    Parameters
    ----------
    requirements : mapping of (crop, variety, what) to Belief
        Log factor of the requirement over the sheet's median. Variety is empty for the crop itself.
    beds : mapping of str to Belief
        Offset of each bed [degC].
    surprises : tuple of Surprise
        Events left out.
    """

    requirements: Mapping[tuple[str, str, str], Belief] = field(default_factory=dict)
    beds: Mapping[str, Belief] = field(default_factory=dict)
    surprises: tuple[Surprise, ...] = ()

    def requirement(self, crop: str, variety: str, what: str) -> Belief | None:
        """What is believed of a crop, or of one variety of it; None where nothing was learned."""
        return self.requirements.get((crop, variety, what)) or self.requirements.get((crop, "", what))


def learn(
    observations: Sequence[Observation],
    *,
    sure: frozenset[str] = frozenset(),
    today: date | None = None,
    event_sd: float = EVENT_LOG_SD,
) -> Learned:
    """Learn from events, in order of their days.

    Parameters
    ----------
    observations : sequence of Observation
    sure : frozenset of str
        Keys of events to learn from however far they lie.
    today : date or None
        Up to when to forget slowly; the last event's day by default.
    event_sd : float
        Log spread of an event about its requirement.

    Returns
    -------
    Learned

    Notes
    -----
    Two beds that always grow one crop cannot be told apart from it; their sum is right. An event known only
    to lie between two days counts at the middle of what was gathered on both, with the interval's own spread.
    """
    state = _State()
    surprises: list[Surprise] = []
    last: date | None = None
    for seen in sorted(observations, key=lambda one: (one.on, one.event)):
        if last is not None:
            state.forget((seen.on - last).days / 365.25)
        last = seen.on
        parts = state.parts_of(seen)
        bed = state.bed_of(seen)
        offset = 0.0 if bed is None else float(state.mean[bed])
        gathered = float(np.interp(offset, seen.offsets_c, seen.log_gathered))
        slope = float(np.interp(offset, seen.offsets_c, np.gradient(seen.log_gathered, seen.offsets_c)))
        noise = event_sd**2
        if seen.log_gathered_before is not None and np.isfinite(seen.log_gathered_before):
            width = max(
                float(np.interp(0.0, seen.offsets_c, seen.log_gathered)) - seen.log_gathered_before, 0.0
            )
            gathered -= width / 2.0
            noise += width**2 / 12.0
        jacobian = np.zeros(state.mean.size)
        jacobian[parts] = 1.0
        if bed is not None:
            jacobian[bed] = -slope
        expected = float(state.mean[parts].sum())
        spread = float(jacobian @ state.cov @ jacobian) + noise
        innovation = gathered - expected
        if not np.isfinite(innovation) or (
            abs(innovation) > GATE_SDS * np.sqrt(spread) and seen.event not in sure
        ):
            sds = abs(innovation) / np.sqrt(spread) if np.isfinite(innovation) else float("inf")
            surprises.append(Surprise(seen, expected, gathered, float(sds)))
            continue
        state.step(jacobian, innovation, spread)
        state.note(parts if bed is None else [*parts, bed], seen.event)
    if last is not None and today is not None and today > last:
        state.forget((today - last).days / 365.25)
    return state.learned(tuple(surprises))


class _State:
    """Mean and covariance of all factors and offsets; grows as crops and beds are met."""

    def __init__(self) -> None:
        self.mean: Floats = np.zeros(0)
        self.cov: Floats = np.zeros((0, 0))
        self.place: dict[tuple[str, ...], int] = {}
        self.drift: list[float] = []
        self.events: dict[int, list[str]] = {}

    def _add(self, key: tuple[str, ...], sd: float, drift: float) -> int:
        if key not in self.place:
            size = self.mean.size
            self.place[key] = size
            self.mean = np.append(self.mean, 0.0)
            grown = np.zeros((size + 1, size + 1))
            grown[:size, :size] = self.cov
            grown[size, size] = sd**2
            self.cov = grown
            self.drift.append(drift)
            self.events[size] = []
        return self.place[key]

    def parts_of(self, seen: Observation) -> list[int]:
        """Places of the log factors that add up to this event's requirement."""
        if not seen.variety:
            return [self._add(("crop", seen.crop, seen.what), seen.prior_sd, CROP_DRIFT)]
        half = seen.prior_sd * float(np.sqrt(VARIETY_SHARE))
        crop = self._add(("crop", seen.crop, seen.what), seen.prior_sd, CROP_DRIFT)
        variety = self._add(("variety", seen.crop, seen.variety, seen.what), half, CROP_DRIFT)
        return [crop, variety]

    def bed_of(self, seen: Observation) -> int | None:
        """Place of the bed's offset; None where beds are not told apart."""
        return self._add(("bed", seen.bed), BED_SD_C, BED_DRIFT_C) if seen.bed else None

    def forget(self, years: float) -> None:
        """Let time widen every spread a little."""
        self.cov = self.cov + np.diag(np.square(self.drift) * max(years, 0.0))

    def step(self, jacobian: Floats, innovation: float, spread: float) -> None:
        """One Kalman step."""
        gain = self.cov @ jacobian / spread
        self.mean = self.mean + gain * innovation
        self.cov = self.cov - np.outer(gain, jacobian @ self.cov)

    def note(self, places: Sequence[int], event: str) -> None:
        """Remember which events moved what."""
        for place in places:
            self.events[place].append(event)

    def learned(self, surprises: tuple[Surprise, ...]) -> Learned:
        """What is believed now of everything that an event has moved."""
        requirements: dict[tuple[str, str, str], Belief] = {}
        beds: dict[str, Belief] = {}
        for key, place in self.place.items():
            events = tuple(self.events[place])
            if not events:
                continue
            sd = float(np.sqrt(max(self.cov[place, place], 0.0)))
            if key[0] == "bed":
                beds[key[1]] = Belief(float(self.mean[place]), sd, events)
            elif key[0] == "crop":
                requirements[key[1], "", key[2]] = Belief(float(self.mean[place]), sd, events)
            else:
                parent = self.place["crop", key[1], key[3]]
                both = [parent, place]
                variance = float(self.cov[np.ix_(both, both)].sum())
                requirements[key[1], key[2], key[3]] = Belief(
                    float(self.mean[both].sum()), float(np.sqrt(max(variance, 0.0))), events
                )
        return Learned(requirements, beds, surprises)
