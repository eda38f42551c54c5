"""The people: who keeps, helps or reads here, and what each should not do."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.usecases.look import look_at


class PersonShown(msgspec.Struct, frozen=True, kw_only=True):
    """One person; `entries` counts what they wrote, `last_on` is the last day of it."""

    key: str
    name: str
    role: str
    can: list[str]
    not_for: list[str]
    entries: int
    last_on: date | None


class PeopleList(msgspec.Struct, frozen=True, kw_only=True):
    """All people."""

    question: str
    today: date
    people: list[PersonShown]
    damage: str = ""


def list_people(path: Path, today: date) -> PeopleList:
    """All people, in the order they were told.

    Raises
    ------
    GardenError, StoreError
    """
    look = look_at(path, today)
    people = []
    for key, person in look.garden.people.items():
        days = [entry.happened_on for entry in look.garden.entries if entry.author == key]
        people.append(
            PersonShown(
                key=key,
                name=person.name,
                role=person.role,
                can=list(person.can),
                not_for=list(person.not_for),
                entries=len(days),
                last_on=max(days, default=None),
            )
        )
    return PeopleList(question="people", today=today, people=people, damage=look.damage)
