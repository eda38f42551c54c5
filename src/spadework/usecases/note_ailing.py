"""Write into the book what a guided look at an ailing planting came to."""

from __future__ import annotations

from pathlib import Path

from spadework.crops.trouble import Trouble
from spadework.crops.troubles import all_troubles, trouble
from spadework.errors import ParameterError
from spadework.garden import entries as kinds
from spadework.garden.lock_rules import SPRAY_CARRIED_OVER
from spadework.usecases.ailing_answer import AilingAnswer, LoadView
from spadework.usecases.keep_book import Act
from spadework.usecases.keep_seen import SORTS
from spadework.usecases.new_names import free_name
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write


def note_finding(garden: Path, how: Writing, found: AilingAnswer, *, cause: str = "") -> WriteAnswer:
    """Write what was found into the book, and lock every bed of a load that may have brought it.

    Parameters
    ----------
    garden : Path
    how : Writing
    found : AilingAnswer
    cause : str
        Any name of the trouble it is held to be; empty for the likeliest.

    Raises
    ------
    ParameterError
        If nothing was found that could be noted.
    UnknownName, StoreReadOnly, StoreError
    """
    each = _held_to_be(found, cause)
    folder, state = open_for_writing(garden)
    said = ", ".join(heard.said for heard in found.heard if heard.there)
    seen = kinds.Seen(
        what=said if each is None else each.name,
        sort="damage" if each is None else SORTS[each.kind],
        trouble="" if each is None else each.key,
    )
    bed = "" if found.planting else found.bed
    acts = [Act(payload=seen, on=how.day, planting=found.planting, bed=bed)]
    load = found.load
    if load is not None and each is not None and load.cause == each.key and load.test:
        names = [lock.lock for lock in state.garden.locks]
        for one in load.beds:
            if not one.locked:
                names.append(free_name(f"{one.bed}-lock", names))
                acts.append(Act(payload=_lock(names[-1], load, each), on=how.day, bed=one.bed))
    return write(folder, state, acts, how, question=found.question)


def _held_to_be(found: AilingAnswer, cause: str) -> Trouble | None:
    if cause:
        return trouble(cause)
    if found.causes and found.causes[0].chance > found.other:
        return all_troubles()[found.causes[0].cause]
    if not any(heard.there for heard in found.heard):
        raise ParameterError("Nothing was found that could be noted.", "Say what you see with --sign.")
    return None


def _lock(name: str, load: LoadView, each: Trouble) -> kinds.Locked:
    return kinds.Locked(
        lock=name,
        on="bed",
        why=f"{load.material} of {load.came_on.isoformat()}, held to be {each.name}",
        stops="planting",
        test=load.test,
        rule=SPRAY_CARRIED_OVER,
    )
