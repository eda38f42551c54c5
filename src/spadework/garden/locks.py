"""A lock: what may not be picked, planted or used, until when, why, and who may lift it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias

Stops: TypeAlias = Literal["picking", "planting", "using"]
Role: TypeAlias = Literal["keeper", "helper", "reader"]
LockedOn: TypeAlias = Literal["bed", "planting", "batch"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lock:
    """One lock with its whole story.

    Parameters
    ----------
    lock : str
        Its name, which an `Unlocked` entry gives. Two locks may share one; lifting lifts both.
    on, subject : str
        What it is on, by key. An empty subject means everywhere: nobody said where.
    stops : {"picking", "planting", "using"}
        Picking includes eating what was picked.
    why : str
    set_on : date
    until : date or None
        First day that is free again; None for a lock that only a test or a person ends.
    off_soil_until : date or None
        The same for crops whose eaten part does not touch the soil, where a rule tells them apart.
    test : str
        What has to be shown before it is lifted; empty where only time counts.
    may_lift : {"keeper", "anyone"}
    rule, source : str
        The rule that set it and the key of its source; empty where a person set it.
    entry, author : str
        Key of the entry it comes from, and who wrote that.
    along_with : str
        Name of another lock that takes this one with it when it is lifted.
    lifted_on : date or None
    lifted_by, lifted_why : str
    refused : tuple of str
        Keys of entries that tried to lift it and might not.
    entry_undone_by : str
        Who withdrew or corrected its entry without the right to lift it; the lock stays.
    """

    lock: str
    on: LockedOn
    subject: str
    stops: Stops
    why: str
    set_on: date
    until: date | None = None
    off_soil_until: date | None = None
    test: str = ""
    may_lift: Literal["keeper", "anyone"] = "keeper"
    rule: str = ""
    source: str = ""
    entry: str = ""
    author: str = ""
    along_with: str = ""
    lifted_on: date | None = None
    lifted_by: str = ""
    lifted_why: str = ""
    refused: tuple[str, ...] = ()
    entry_undone_by: str = ""

    def in_force(self, day: date, *, off_soil: bool = False) -> bool:
        """Whether it holds on a day; on the day it is lifted or runs out it does not.

        Parameters
        ----------
        day : date
        off_soil : bool
            The eaten part of the crop in question is known not to touch the soil.
        """
        until = self.off_soil_until if off_soil and self.off_soil_until is not None else self.until
        return (
            self.set_on <= day
            and (until is None or day < until)
            and (self.lifted_on is None or day < self.lifted_on)
        )

    def answers_to(self, name: str) -> bool:
        """Whether lifting a name lifts this."""
        return bool(name) and name in (self.lock, self.along_with)


def may_lift(lock: Lock, person: str, roles: Mapping[str, Role]) -> bool:
    """Whether a person may lift a lock.

    Parameters
    ----------
    lock : Lock
    person : str
        By key.
    roles : mapping of str to {"keeper", "helper", "reader"}
        Of the people known. Where no keeper is among them, whoever is not known is the keeper.
    """
    role = roles.get(person)
    if role is None:
        return lock.may_lift == "anyone" or "keeper" not in roles.values()
    return role == "keeper" or (role == "helper" and lock.may_lift == "anyone")
