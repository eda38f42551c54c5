"""People's own chores, which no planting asks for: how they are shown, and which one is meant."""

from __future__ import annotations

from typing import Final

from spadework.garden.records import Chore
from spadework.garden.state import Garden
from spadework.usecases.round_answer import ChoreView, LeftOut

MARK: Final = "chore:"
"""Stands before a chore's name where the name of a job could stand."""


def chore_id(chore: Chore) -> str:
    """What a chore is ticked by, told from every job."""
    return f"{MARK}{chore.chore}"


def chore_view(chore: Chore, garden: Garden) -> ChoreView:
    """A chore as it is shown."""
    who = garden.people.get(chore.person)
    return ChoreView(
        id=chore_id(chore),
        chore=chore.chore,
        minutes=round(chore.minutes, 1),
        person=who.name if who is not None else chore.person,
        every_days=chore.every_days,
        last_done=chore.done_on,
    )


def chore_left(chore: Chore, why: str) -> LeftOut:
    """A chore that is due and not on the round."""
    return LeftOut(
        id=chore_id(chore), act=chore.chore, minutes=round(chore.minutes, 1), why=why, forfeit_7=0.0
    )


def chore_called(garden: Garden, name: str, *, whole: bool = True) -> Chore | None:
    """The chore somebody means; None where it is none.

    Parameters
    ----------
    garden : Garden
    name : str
        Its name, with or without the mark.
    whole : bool
        The whole name is asked for; else enough of it that only one has.
    """
    asked = name.strip().removeprefix(MARK).strip().casefold()
    if not asked:
        return None
    named = {key.casefold(): chore for key, chore in garden.chores.items()}
    if whole or asked in named:
        return named.get(asked)
    found = [chore for key, chore in named.items() if asked in key]
    return found[0] if len(found) == 1 else None
