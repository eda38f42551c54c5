"""The people."""

from __future__ import annotations

from typing import Annotated, Literal

from cyclopts import Parameter

from spadework.faces.cli.common import Common, Writes, answer
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import answer_written


def tell_people(common: Common) -> None:
    """All people."""
    from spadework.usecases.show_people import list_people

    found = list_people(common.garden, common.day)

    def tell() -> None:
        voice = voice_of(common)
        if not found.people:
            print("Nobody is told yet. Tell of yourself: spadework people add NAME")
        for person in found.people:
            can = f"; knows {', '.join(person.can)}" if person.can else ""
            not_for = f"; not for {', '.join(person.not_for)}" if person.not_for else ""
            count = "1 entry" if person.entries == 1 else f"{person.entries} entries"
            wrote = f"; {count}, last {voice.day(person.last_on)}" if person.entries else ""
            print(wrapped(f"{person.name}, {person.role}{can}{not_for}{wrote}", 4, first="  "))

    answer(common, found, tell)


def add(
    name: str,
    *,
    role: Annotated[
        Literal["keeper", "helper", "reader"] | None,
        Parameter(help="Keepers lift locks and say who is what. The first told is keeper, others helpers."),
    ] = None,
    can: Annotated[list[str] | None, Parameter(negative="", help="Work they know. Repeat.")] = None,
    not_for: Annotated[
        list[str] | None,
        Parameter(negative="", help="What they cannot or should not do: lifting, heat, blades. Repeat."),
    ] = None,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Tell of someone who works or reads here, or something else about them.

    Parameters
    ----------
    name : str
        What they are called.
    """
    from spadework.usecases.keep_things import keep_person

    common, writes = common or Common(), writes or Writes()
    found = keep_person(
        common.garden,
        writes.writing(common),
        name,
        role=role,
        can=None if can is None else tuple(can),
        not_for=None if not_for is None else tuple(not_for),
    )
    answer_written(common, found)
