"""What comes out when a poor sowing is weighed: options, belief, causes."""

from __future__ import annotations

from datetime import date
from typing import Literal

import msgspec

from spadework.advice.again_causes import Cause
from spadework.advice.odds import Caution, DateOdds, Fact, Odds

Act = Literal["wait", "dig", "fill gaps", "sow again", "give up the place"]


class AgainOption(msgspec.Struct, frozen=True, kw_only=True):
    """One thing to do, with the odds of enough plants that are ready before anything takes them.

    Parameters
    ----------
    worth : float
        The chance less what lateness, seed and work take; the verdict goes by it.
    recount_on, keep_at, sow_again_below
        Waiting: the day to count again; the count from which to leave the row for good; the count below which
        waiting is over.
    if_firm, if_soft
        Digging: the odds of leaving the row after either finding.
    """

    act: Act
    title: str
    means: str
    odds: Odds
    by_year: list[float]
    worth: float
    lines: list[str]
    recount_on: date | None = None
    keep_at: int | None = None
    sow_again_below: int | None = None
    if_firm: Odds | None = None
    if_soft: Odds | None = None
    sow_seeds: int | None = None
    ready: DateOdds | None = None
    days_later: int | None = None
    stops_same_loss: tuple[str, ...] = ()
    crop: str | None = None


class MoreToCome(msgspec.Struct, frozen=True, kw_only=True):
    """Seedlings still to come, over belief and years."""

    mean: float
    q10: int
    q50: int
    q90: int


class OtherCrop(msgspec.Struct, frozen=True, kw_only=True):
    """A crop that could have the place instead."""

    name: str
    overall: Odds
    by_year: list[float]
    ready: DateOdds


class Seedlings(msgspec.Struct, frozen=True, kw_only=True):
    """Seedlings standing, a line for each year: as counted, then as the years have it.

    Parameters
    ----------
    counted : list of (date, int)
        From nothing on the day of sowing to the count of today.
    days : list of date
        From today on.
    standing : list of list of float
        By year and day.
    short : list of bool
        Years in which fewer come than make a full stand.
    wanted : int
    """

    counted: list[tuple[date, int]]
    days: list[date]
    standing: list[list[float]]
    short: list[bool]
    wanted: int


class AgainAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """The decision with its options side by side, best first."""

    question: str
    crop: str
    today: date
    sown: date
    day: int
    seeds: int
    up: int
    lost: int
    wanted: int
    expected_up_share: float
    more_to_come: MoreToCome
    failed_chance: float
    verdict: Act
    act: str
    reason: str
    options: list[AgainOption]
    causes: list[Cause]
    facts: list[Fact]
    assumptions: list[str]
    cautions: list[Caution]
    note: str
    seedlings: Seedlings | None = None
