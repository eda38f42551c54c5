"""A sowing tried on several days: nothing is written."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer, read_date
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import tail, voice_of
from spadework.faces.cli.say import table, wrapped
from spadework.faces.voice import Voice
from spadework.usecases.try_sowing import Trials


def try_(
    crop: str,
    *,
    bed: Annotated[str, Parameter(help="In which bed.")],
    on: Annotated[
        list[str] | None, Parameter(negative="", help="A day it goes in. Repeat; else week by week.")
    ] = None,
    common: Common | None = None,
) -> None:
    """Move a sowing through the season and see its odds move: in one bed, on several days.

    Parameters
    ----------
    crop : str
        Any name of the crop.
    """
    from spadework.usecases.try_sowing import try_days

    common = common or Common()
    days = [read_date(text, "--on", common.day) for text in on or ()]
    found = try_days(common.garden, common.day, crop, bed, days)
    answer(common, found, lambda: _tell(found, voice_of(common)))


def _tell(found: Trials, voice: Voice) -> None:
    first = found.trials[0]
    tell_locks(first.locks, voice)
    verb = "set out" if first.set_out else "sown"
    print(f"{first.name[:1].upper()}{first.name[1:]}, {verb} in {first.bed_name}\n")
    rows = [
        [
            voice.day(each.on, weekday=True),
            voice.day(each.ready.q50) if each.ready.q50 is not None else "not in most years",
            str(each.overall.years_yes),
            str(each.before_frost.years_yes),
        ]
        for each in found.trials
    ]
    many = f"of {first.overall.years}"
    head = [verb, "ready about", f"gets there, {many}", f"before frost, {many}"]
    print(table(head, rows, frozenset({2, 3})))
    raised = first.raised_from
    print()
    if raised is not None:
        weeks = round((first.on - raised).days / 7)
        print(wrapped(f"Plants for it are sown under cover {weeks} weeks before."))
    there = [f"until about {voice.day(until)} {name}" for name, until in first.until_there]
    if there:
        print(wrapped(f"Also in this bed: {'; '.join(there)}."))
    if not first.set_out:
        print(wrapped("Gets there: a full stand that is ready before frost, heat or seeding takes it."))
    tail([voice.told(said) for said in first.assumptions], [], first.note, voice)
