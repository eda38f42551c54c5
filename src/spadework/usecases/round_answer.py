"""The round as it is shown."""

from __future__ import annotations

from datetime import date

import msgspec

from spadework.usecases.jobs_today import JobView
from spadework.usecases.lock_lines import LockLine


class ChoreView(msgspec.Struct, frozen=True, kw_only=True):
    """A person's own chore that is due.

    Parameters
    ----------
    id : str
        What it is ticked by, as a job is by its own.
    person : str
        Name of whose it is; empty for anyone's.
    every_days : int or None
        None for once.
    last_done : date or None
    """

    id: str
    chore: str
    minutes: float
    person: str
    every_days: int | None
    last_done: date | None


class StopView(msgspec.Struct, frozen=True, kw_only=True):
    """One bed on the round."""

    bed: str
    name: str
    who: str
    jobs: list[JobView]
    chores: list[ChoreView]
    minutes: float
    locks: list[LockLine]


class LeftOut(msgspec.Struct, frozen=True, kw_only=True):
    """A job that is not on the round, and why."""

    id: str
    act: str
    minutes: float
    why: str
    forfeit_7: float


class HourView(msgspec.Struct, frozen=True, kw_only=True):
    """What an hour is like; `shut` where nobody is sent outside."""

    hour: int
    temp_c: float
    light: bool
    dry_leaves: bool
    heat_index_c: float
    uv: float
    shut: bool


class RoundAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """The walk for today.

    Parameters
    ----------
    minutes : float
        Given, for each person.
    minutes_used, minutes_walking : float
        Of all people together.
    clock : str
        The clock of all hours: a time zone, or standard time by longitude.
    turn_days : int
        When the turn of a job put off comes again, by how much there is to do.
    """

    question: str
    today: date
    minutes: float
    at: str
    until: str
    people: list[str]
    stops: list[StopView]
    left_out: list[LeftOut]
    minutes_used: float
    minutes_walking: float
    turn_days: int
    conditions: list[str]
    clock: str
    hours: list[HourView]
    locks: list[LockLine]
    damage: str
    note: str
