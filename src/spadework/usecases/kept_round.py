"""The round worked out once for as long as nothing changes: every phone and every look asks for the same."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Hashable, Sequence
from typing import Final
from weakref import WeakKeyDictionary

from spadework.advice.scene import Scene
from spadework.garden.records import Person
from spadework.usecases.jobs_today import Day
from spadework.usecases.round_answer import RoundAnswer
from spadework.usecases.walk_round import round_of

KEPT: Final = 8
"""Rounds kept of one state of the garden: as many choices of minutes and people as are looked at in turn."""

_ROUNDS: WeakKeyDictionary[Scene, OrderedDict[Hashable, RoundAnswer]] = WeakKeyDictionary()


def kept_round(
    day: Day,
    *,
    minutes: float = 60.0,
    at_hour: float | None = None,
    until_hour: float | None = None,
    people: Sequence[Person] = (),
) -> RoundAnswer:
    """The round of an open day, as from `walk_round.round_of`; its arguments and errors too."""
    rounds = _ROUNDS.setdefault(day.scene, OrderedDict())
    key = (minutes, at_hour, until_hour, tuple(people), day.state.damage)
    found = rounds.get(key)
    if found is None:
        found = rounds[key] = round_of(
            day, minutes=minutes, at_hour=at_hour, until_hour=until_hour, people=people
        )
        while len(rounds) > KEPT:
            rounds.popitem(last=False)
    return found
