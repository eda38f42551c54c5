"""What the garden's own events teach: each crop's requirement, and how warm each bed is.

One Gaussian state holds the log factor of every crop's requirement, of every variety's beside its crop, and
the offset of every bed; each event moves them together by one extended Kalman step. Pure: an event comes in
as what had been gathered by the day it was seen.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass, field
from datetime import date
from typing import NamedTuple

import numpy as np

from spadework.types import Floats

EVENT_LOG_SD = 0.06
"""Spread of a ready day about its requirement, log, where beds are not told apart: eye, day and bed together.
Source: memory."""

BED_EVENT_LOG_SD = 0.05
"""The same where the bed is told and has its own offset. Source: memory."""

BED_SD_C = 1.2
"""Spread of beds about the garden's usual warmth [degC]. Source: memory."""

GATE_SDS = 3.5
"""An event farther than this from what is believed is a question, not a lesson. Source: memory."""

VARIETY_SHARE = 0.5
"""Share of a crop's variance that lies between its varieties. Source: memory."""

DRIFT, BED_DRIFT_C = 0.02, 0.3
"""Slow forgetting: spread that a year adds to a requirement's log factor, and to a bed's offset [degC].
Source: memory."""

GRID_POINTS = 200
"""Points, at least, on which an event known only to lie between two days is weighed."""

DAYS_OF_YEAR = 365.25


@dataclass(frozen=True, eq=False)
class Observation:
    """One event, as what had been gathered by its day.

    Parameters
    ----------
    event : str
        Key of the told fact.
    crop, variety, bed : str
        Sheet key; the variety is empty where none is named, the bed where beds are not told apart.
    what : "came up" or "ready"
    on : date
    prior_sd : float
        Lasting spread of the requirement before anything was learned, log.
    noise_sd : float
        Spread of this event about the requirement, log.
    offsets_c : array, shape (offset,)  [degC]
        Bed offsets tried, rising.
    log_gathered : array, shape (offset,)
        Log of what was gathered by the day, over the sheet's median requirement, were the bed so much warmer.
    log_gathered_before : array, shape (offset,), or None
        The same by the last day on which it had not happened; minus infinity where nothing was gathered then.
    """

    event: str
    crop: str
    variety: str
    bed: str
    what: str
    on: date
    prior_sd: float
    noise_sd: float
    offsets_c: Floats
    log_gathered: Floats
    log_gathered_before: Floats | None = None

    def at(self, offset_c: float) -> tuple[float, float, float]:
        """Lowest and highest log factor it speaks for, equal for an exact day, and the slope per degree."""
        high = float(np.interp(offset_c, self.offsets_c, self.log_gathered))
        slopes = np.gradient(self.log_gathered, self.offsets_c)
        slope = float(np.interp(offset_c, self.offsets_c, slopes))
        if self.log_gathered_before is None:
            return high, high, slope
        near = int(np.argmin(np.abs(self.offsets_c - offset_c)))
        before = self.log_gathered_before
        low = (
            float(np.interp(offset_c, self.offsets_c, before)) if np.isfinite(before).all() else before[near]
        )
        return min(float(low), high), high, slope


@dataclass(frozen=True)
class Belief:
    """Mean and spread of one thing learned, and the events behind it."""

    mean: float
    sd: float
    events: tuple[str, ...] = ()


@dataclass(frozen=True)
class Surprise:
    """An event that lies too far from what was believed to be learned from.

    Parameters
    ----------
    observation : Observation
    expected_log, seen_log : float
        Log factor believed, and the nearest the event speaks for.
    sds : float
        How many spreads apart they are.
    """

    observation: Observation
    expected_log: float
    seen_log: float
    sds: float


@dataclass(frozen=True, eq=False)
class Learned:
    """All that is believed after some events.

    Parameters
    ----------
    requirements : mapping of (crop, variety, what) to Belief
        Log factor of the requirement over the sheet's median, for each variety an event has named; the
        variety is empty for plants whose variety was not named.
    beds : mapping of str to Belief
        Offset of each bed [degC].
    surprises : tuple of Surprise
        Events left out.
    """

    requirements: Mapping[tuple[str, str, str], Belief] = field(default_factory=dict)
    beds: Mapping[str, Belief] = field(default_factory=dict)
    surprises: tuple[Surprise, ...] = ()
    _state: _State | None = None

    def requirement(self, crop: str, variety: str, what: str) -> Belief | None:
        """What is believed of a variety; of one that no event has named, by its crop; None if nothing is."""
        known = self.requirements.get((crop, variety, what))
        if known is not None or self._state is None:
            return known
        return self._state.crop_belief(crop, what)

    def spread(self, crop: str, variety: str, what: str, bed: str, noise_sd: float) -> float | None:
        """Log spread of a coming event about what is believed of crop, variety and bed together.

        Parameters
        ----------
        crop, variety, what, bed : str
            As in `Observation`.
        noise_sd : float
            Spread of an event about its requirement.
        """
        if self._state is None or self._state.crop_belief(crop, what) is None:
            return None
        return float(np.hypot(self._state.spread(crop, variety, what, bed), noise_sd))

    def surprise(self, seen: Observation) -> Surprise | None:
        """Whether one more event lies too far from all that is believed; None where it does not."""
        return _State.like(self._state).surprise(seen)


def learn(
    observations: Sequence[Observation], *, sure: frozenset[str] = frozenset(), today: date | None = None
) -> Learned:
    """Learn from events, in order of their days.

    Parameters
    ----------
    observations : sequence of Observation
    sure : frozenset of str
        Keys of events to learn from however far they lie.
    today : date or None
        Up to when to forget slowly; the last event's day by default.

    Returns
    -------
    Learned

    Notes
    -----
    An event known only to lie between two days is weighed on a grid of the requirement, and its mean and
    spread are carried to crop and bed. Two beds that always grow one crop cannot be told apart from it; their
    sum is right. Each event's step takes warmth to be linear in the bed's offset; in simulated gardens the
    middle 80 % held 0.77 to 0.79 (measured).
    """
    state = _State()
    surprises: list[Surprise] = []
    last: date | None = None
    for seen in sorted(observations, key=lambda one: (one.on, one.event)):
        if last is not None:
            state.forget((seen.on - last).days / DAYS_OF_YEAR)
        last = seen.on
        surprise = state.surprise(seen)
        if surprise is not None and seen.event not in sure:
            surprises.append(surprise)
        else:
            state.learn(seen)
    if last is not None and today is not None and today > last:
        state.forget((today - last).days / DAYS_OF_YEAR)
    return state.learned(tuple(surprises))


def _between(mean: float, variance: float, low: float, high: float, noise_sd: float) -> tuple[float, float]:
    """Mean and variance of a normal belief once its event is known to lie between two amounts."""
    from scipy.special import ndtr

    sd = float(np.sqrt(variance))
    ends = [mean - 6.0 * sd, mean + 6.0 * sd]
    if np.isfinite(low):
        ends += [low - 4.0 * noise_sd, low + 4.0 * noise_sd]
    if np.isfinite(high):
        ends += [high - 4.0 * noise_sd, high + 4.0 * noise_sd]
    points = max(GRID_POINTS, int(np.ceil((max(ends) - min(ends)) / (noise_sd / 4.0))) + 1)
    grid = np.linspace(min(ends), max(ends), points)
    inside = ndtr((high - grid) / noise_sd) - ndtr((low - grid) / noise_sd)
    log_weight = np.log(np.maximum(inside, 1e-300)) - 0.5 * ((grid - mean) / sd) ** 2
    weight = np.exp(log_weight - log_weight.max())
    weight /= weight.sum()
    found = float(weight @ grid)
    return found, float(weight @ (grid - found) ** 2)


class _Look(NamedTuple):
    """An event against the state as it stands."""

    low: float
    high: float
    slope: float
    jacobian: Floats
    places: list[int]
    expected: float
    variance: float


class _State:
    """Mean and covariance of all factors and offsets; grows as crops, varieties and beds are met."""

    def __init__(self) -> None:
        self.mean: Floats = np.zeros(0)
        self.cov: Floats = np.zeros((0, 0))
        self.place: dict[tuple[str, ...], int] = {}
        self.drift: list[float] = []
        self.events: dict[int, list[str]] = {}
        self.prior_sd: dict[tuple[str, str], float] = {}
        self.slopes: dict[tuple[str, str], list[float]] = {}

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
        """Places of the log factors that add up to an event's requirement: the crop's, and its variety's."""
        prior = self.prior_sd.setdefault((seen.crop, seen.what), seen.prior_sd)
        shares = (("crop", 1.0 - VARIETY_SHARE), ("variety", VARIETY_SHARE))
        keys = {"crop": (seen.crop, seen.what), "variety": (seen.crop, seen.what, seen.variety)}
        return [
            self._add((kind, *keys[kind]), prior * float(np.sqrt(share)), DRIFT * float(np.sqrt(share)))
            for kind, share in shares
        ]

    def bed_of(self, seen: Observation) -> int | None:
        """Place of the bed's offset; None where beds are not told apart."""
        return self._add(("bed", seen.bed), BED_SD_C, BED_DRIFT_C) if seen.bed else None

    @classmethod
    def like(cls, other: _State | None) -> _State:
        """A copy that can be tried on; an empty one of nothing."""
        return cls() if other is None else deepcopy(other)

    def _look(self, seen: Observation) -> _Look:
        parts, bed = self.parts_of(seen), self.bed_of(seen)
        low, high, slope = seen.at(0.0 if bed is None else float(self.mean[bed]))
        jacobian = np.zeros(self.mean.size)
        jacobian[parts] = 1.0
        if bed is not None:
            jacobian[bed] = -slope
        places = parts if bed is None else [*parts, bed]
        expected, variance = float(self.mean[parts].sum()), float(jacobian @ self.cov @ jacobian)
        return _Look(low, high, slope, jacobian, places, expected, variance)

    def surprise(self, seen: Observation) -> Surprise | None:
        """The event, where it lies too far from what is believed."""
        look = self._look(seen)
        nearest = min(max(look.expected, look.low), look.high)
        apart = abs(nearest - look.expected) / float(np.hypot(np.sqrt(look.variance), seen.noise_sd))
        return Surprise(seen, look.expected, nearest, apart) if apart > GATE_SDS else None

    def learn(self, seen: Observation) -> None:
        """Let one event move crop, variety and bed."""
        look = self._look(seen)
        if look.low < look.high:
            mean, left = _between(look.expected, look.variance, look.low, look.high, seen.noise_sd)
        else:
            gain = look.variance / (look.variance + seen.noise_sd**2)
            mean, left = look.expected + gain * (look.high - look.expected), look.variance * (1.0 - gain)
        # what the event did to the sum it speaks of is carried to every part of the state
        carried = self.cov @ look.jacobian / look.variance
        self.mean = self.mean + carried * (mean - look.expected)
        self.cov = self.cov - np.outer(carried, carried) * (look.variance - left)
        for place in look.places:
            self.events[place].append(seen.event)
        self.slopes.setdefault((seen.crop, seen.what), []).append(look.slope)

    def forget(self, years: float) -> None:
        """Let time widen every spread a little."""
        self.cov = self.cov + np.diag(np.square(self.drift) * max(years, 0.0))

    def crop_belief(self, crop: str, what: str) -> Belief | None:
        """What is believed of a variety of a crop that no event has named."""
        place = self.place.get(("crop", crop, what))
        if place is None or not self.events[place]:
            return None
        between = VARIETY_SHARE * self.prior_sd[crop, what] ** 2
        sd = float(np.sqrt(max(self.cov[place, place], 0.0) + between))
        return Belief(float(self.mean[place]), sd, tuple(self.events[place]))

    def spread(self, crop: str, variety: str, what: str, bed: str) -> float:
        """Spread of crop, variety and bed together about what is believed of them, log."""
        jacobian = np.zeros(self.mean.size)
        jacobian[self.place["crop", crop, what]] = 1.0
        own = self.place.get(("variety", crop, what, variety))
        more = 0.0
        if own is None:
            more += VARIETY_SHARE * self.prior_sd[crop, what] ** 2
        else:
            jacobian[own] = 1.0
        slope = float(np.mean(self.slopes[crop, what]))
        place = self.place.get(("bed", bed))
        if place is not None:
            jacobian[place] = -slope
        elif bed:
            more += (slope * BED_SD_C) ** 2
        return float(np.sqrt(max(float(jacobian @ self.cov @ jacobian), 0.0) + more))

    def learned(self, surprises: tuple[Surprise, ...]) -> Learned:
        """What is believed now of everything that an event has moved."""
        requirements: dict[tuple[str, str, str], Belief] = {}
        beds: dict[str, Belief] = {}
        for key, place in self.place.items():
            events = tuple(self.events[place])
            if not events or key[0] == "crop":
                continue
            parts = [place] if key[0] == "bed" else [self.place["crop", key[1], key[2]], place]
            variance = float(self.cov[np.ix_(parts, parts)].sum())
            belief = Belief(float(self.mean[parts].sum()), float(np.sqrt(max(variance, 0.0))), events)
            if key[0] == "bed":
                beds[key[1]] = belief
            else:
                requirements[key[1], key[3], key[2]] = belief
        return Learned(requirements, beds, surprises, self)
