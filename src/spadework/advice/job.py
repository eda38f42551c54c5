"""A job: one thing worth doing at one bed, with its window, its minutes, and what waiting forfeits."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Final, Literal, TypeAlias, get_args

import msgspec

from spadework.advice.odds import Caution, DateOdds, Fact
from spadework.garden.entries import Payload
from spadework.types import Floats

AHEAD_DAYS: Final = 21
"""Days after today over which waiting is weighed."""

MINUTE_KG: Final = 0.02
"""Worth of a minute of a person's time, in kilograms of carrots: a good kilogram an hour. Our own rule."""

SHOWN_DAYS: Final = (1, 3, 7, 14, 21)
"""Days of waiting whose forfeit is shown."""

Kind: TypeAlias = Literal[
    "keep damp",
    "lid",
    "count",
    "prepare",
    "sow",
    "sow again",
    "start indoors",
    "prick out",
    "pot on",
    "harden off",
    "plant out",
    "thin",
    "weed",
    "earth up",
    "support",
    "mulch",
    "water",
    "cover",
    "uncover",
    "vent",
    "guard",
    "pick",
    "lift",
    "clear",
    "look",
    "scout",
    "crush",
    "refuges",
]
KINDS: Final[tuple[Kind, ...]] = get_args(Kind)

Condition: TypeAlias = Literal[
    "dawn",
    "morning",
    "evening",
    "before sunset",
    "daylight",
    "dry leaves",
    "dry soil surface",
    "soil not wet",
    "not in heat",
    "not in strong sun",
    "not freezing",
    "no thunder",
    "still air",
]
"""What an hour must be like for a job; the round finds the hours."""

Strain: TypeAlias = Literal[
    "stooping", "kneeling", "lifting", "reaching", "blades", "heat", "sun", "chemicals", "manure", "wet"
]
"""What a job asks of a body, for people who should not do it."""


class Window(msgspec.Struct, frozen=True, kw_only=True):
    """When a job opens, is best, and closes.

    Parameters
    ----------
    opens : date
        First day it makes sense, at the middle of the years.
    best : date
        The day least is lost by.
    closes : date
        Last day it still saves at least half of what it can save, at the middle of the years.
    open_ended : bool
        Nothing closes it within the days looked at; `closes` is then the last of them.
    opens_odds, closes_odds : DateOdds or None
        The same over the years; None where the weather does not move it.
    """

    opens: date
    best: date
    closes: date
    open_ended: bool = False
    opens_odds: DateOdds | None = None
    closes_odds: DateOdds | None = None


class Take(msgspec.Struct, frozen=True, kw_only=True):
    """Something to take along: a piece of kit by key, a lot from the tin, or a tool in words."""

    what: str
    length_m: float | None = None
    pieces: int | None = None
    litres: float | None = None
    seeds: int | None = None


@dataclass(frozen=True, kw_only=True, eq=False)
class Job:
    """One thing worth doing.

    Parameters
    ----------
    id : str
        Kind and subject, the same from day to day until it is done: "thin-carrot-2026-1".
    kind : Kind
    act : str
        What to do in a line, verb first: "Thin carrots in Bed 3 to 4 cm".
    bed, planting, crop : str
        Keys; empty where it is not about one.
    minutes : float  [min]
        For one person at the garden's own pace, without walking.
    minutes_by_day : array, shape (AHEAD_DAYS + 1,), or None  [min]
        The same if it is first done so many days from today; None where the day makes no difference.
    worth : float
        Of what the job serves, as kilograms of carrots (advice.worth).
    loss : array, shape (year, AHEAD_DAYS + 1)
        Share of that worth lost if it is first done so many days from today, in each year, net of what can
        still replace the loss. Column 0 is today; it never falls along the days it may be done.
    window : Window
    reason : str
        One sentence with the one or two numbers that decide.
    facts : tuple of Fact
        The two that decide first.
    cautions : tuple of Caution
    needs : tuple of Condition
        What an hour must be like.
    strains : tuple of Strain
    load_kg : float  [kg]
        Heaviest single load.
    take : tuple of Take
    test : str
        The test in the hand, where there is one: "Squeeze a handful: it should crumble."
    done : tuple of Payload
        The entries that doing it as said would write.
    settles : str
        Jobs that settle the same thing exclude each other: "cover:bed-3".
    from_hour, until_hour : float or None  [h]
        Clock hours it is bound to, beside `needs`.
    """

    id: str
    kind: Kind
    act: str
    bed: str = ""
    planting: str = ""
    crop: str = ""
    minutes: float
    worth: float
    loss: Floats
    window: Window
    reason: str
    facts: tuple[Fact, ...] = ()
    cautions: tuple[Caution, ...] = ()
    needs: tuple[Condition, ...] = ("daylight",)
    strains: tuple[Strain, ...] = ()
    minutes_by_day: Floats | None = None
    load_kg: float = 0.0
    take: tuple[Take, ...] = ()
    test: str = ""
    done: tuple[Payload, ...] = ()
    settles: str = ""
    from_hour: float | None = None
    until_hour: float | None = None
    _mean: list[Floats] = field(default_factory=list, repr=False)

    @property
    def mean_loss(self) -> Floats:
        """Expected share lost by each day of waiting, shape (AHEAD_DAYS + 1,)."""
        if not self._mean:
            self._mean.append(self.loss.mean(axis=0))
        return self._mean[0]

    def forfeit(self, days: int) -> float:
        """Share of the worth expected to be lost by waiting so many days instead of doing it today."""
        mean = self.mean_loss
        return float(max(mean[min(days, AHEAD_DAYS)] - mean[0], 0.0))

    def more_minutes(self, days: int) -> float:
        """Minutes more it takes so many days from today; below zero where waiting makes it quicker."""
        if self.minutes_by_day is None:
            return 0.0
        return float(self.minutes_by_day[min(days, AHEAD_DAYS)]) - self.minutes

    def saves(self, days: int) -> float:
        """What doing it today saves against so many days later, in kilograms of carrots: crop and minutes."""
        return max(self.worth * self.forfeit(days) + MINUTE_KG * self.more_minutes(days), 0.0)
