"""One's own chores: show them, tell one, take one off."""

from __future__ import annotations

from typing import Annotated, Any

from cyclopts import Parameter

from spadework.faces.cli.common import Common, Writes, answer, read_date
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import answer_written
from spadework.faces.job_words import often_said
from spadework.faces.voice import Voice
from spadework.usecases.keep_chore import ChoreShown


def tell_chores(common: Common) -> None:
    """All chores, what is due first."""
    from spadework.usecases.keep_chore import list_chores

    found = list_chores(common.garden, common.day)

    def tell() -> None:
        voice = voice_of(common)
        tell_locks(found.locks, voice)
        if not found.chores:
            print('No chore is told yet. Tell one: spadework chore add "Turn the compost" --minutes 20')
        for chore in found.chores:
            print(wrapped(_chore(chore, voice), 4, first="  "))

    answer(common, found, tell)


def add(
    chore: str,
    *,
    minutes: Annotated[float | None, Parameter(help="Minutes it takes; needed for a new one.")] = None,
    person: Annotated[str | None, Parameter(help="Whose it is; anyone's without it.")] = None,
    bed: Annotated[str | None, Parameter(help="Where; anywhere without it.")] = None,
    every: Annotated[int | None, Parameter(help="Days between; once without it.")] = None,
    from_: Annotated[str | None, Parameter(name="--from", help="Not before this day.")] = None,
    until: Annotated[str | None, Parameter(help="Not after this day.")] = None,
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Tell of a chore that no planting asks for, or say something else of one; the round brings it.

    Parameters
    ----------
    chore : str
        What it is called.
    """
    from spadework.usecases.keep_chore import keep_chore

    common, writes = common or Common(), writes or Writes()
    said: dict[str, Any] = {
        field: value
        for field, value in (
            ("minutes", minutes),
            ("person", person),
            ("bed", bed),
            ("every_days", every),
            ("first", None if from_ is None else read_date(from_, "--from", common.day)),
            ("last", None if until is None else read_date(until, "--until", common.day)),
        )
        if value is not None
    }
    answer_written(common, keep_chore(common.garden, writes.writing(common), chore, said))


def end(chore: str, *, writes: Writes | None = None, common: Common | None = None) -> None:
    """Take a chore off; when it was done stays in the book.

    Parameters
    ----------
    chore : str
        What it is called.
    """
    from spadework.usecases.keep_chore import end_chore

    common, writes = common or Common(), writes or Writes()
    answer_written(common, end_chore(common.garden, writes.writing(common), chore))


def _chore(chore: ChoreShown, voice: Voice) -> str:
    often = "once" if chore.every_days is None else often_said(chore.every_days)
    parts = [f"{chore.chore}: {chore.minutes:g} min, {often}"]
    if chore.person or chore.bed:
        parts.append(" ".join([chore.person, f"in {chore.bed}" if chore.bed else ""]).strip())
    if chore.done_on is not None:
        parts.append(f"last done {voice.day(chore.done_on)}")
    if chore.due:
        parts.append("due now")
    elif chore.next_on is None:
        parts.append("done for good")
    else:
        parts.append(f"next {voice.day(chore.next_on)}")
    if chore.last is not None:
        parts.append(f"until {voice.day(chore.last)}")
    return "; ".join(parts)
