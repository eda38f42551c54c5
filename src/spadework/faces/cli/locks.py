"""The locks: show them, set one, lift one."""

from __future__ import annotations

from typing import Annotated, Literal

from cyclopts import Parameter

from spadework.faces.cli.common import Common, Looking, Writes, answer, read_date
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import answer_written


def tell_all_locks(common: Common, looking: Looking, bed: str, over: bool) -> None:
    """Locks in force, and those over."""
    from spadework.usecases.show_locks import list_locks

    found = list_locks(common.garden, common.day, bed=bed, over=over, **looking.days(common))

    def tell() -> None:
        voice = voice_of(common)
        tell_locks(found.locks, voice)
        if not found.locks:
            print("No lock is in force.")
        for line in found.over:
            print(wrapped(f"over  {voice.told(line.text)}", 8, first="  "))
        if found.locks:
            print(wrapped('Lift one by the end of its key: spadework lock lift KEY --why "..."'))

    answer(common, found, tell)


def add(
    *,
    why: Annotated[str, Parameter(help="Why.")],
    bed: Annotated[str, Parameter(help="The bed locked.")] = "",
    planting: Annotated[str, Parameter(help="Or the planting, by its key in `standing`.")] = "",
    batch: Annotated[str, Parameter(help="Or the batch of manure and the like.")] = "",
    until: Annotated[str | None, Parameter(help="First day that is free again.")] = None,
    test: Annotated[str, Parameter(help="Or what has to be shown first.")] = "",
    stops: Annotated[Literal["picking", "planting", "using"], Parameter(help="What it stops.")] = "picking",
    anyone: Annotated[bool, Parameter(negative="", help="Helpers may lift it too.")] = False,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Lock a bed, a planting or a batch until a day, a test, or until it is lifted."""
    from spadework.usecases.keep_locks import set_lock

    common, writes = common or Common(), writes or Writes()
    found = set_lock(
        common.garden,
        writes.writing(common),
        why,
        bed=bed,
        planting=planting,
        batch=batch,
        until=None if until is None else read_date(until, "--until", common.day),
        test=test,
        stops=stops,
        anyone=anyone,
    )
    answer_written(common, found)


def lift(
    name: str,
    *,
    why: Annotated[str, Parameter(help="Why, or how the test came out.")],
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Lift a lock.

    Parameters
    ----------
    name : str
        The end of its key, its name, or the bed where it is the only one.
    """
    from spadework.usecases.keep_locks import lift_lock

    common, writes = common or Common(), writes or Writes()
    answer_written(common, lift_lock(common.garden, writes.writing(common), name, why))
