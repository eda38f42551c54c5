"""The locks on a bed, a planting or a batch, as every outlet shows them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

import msgspec

from spadework.errors import UnknownName
from spadework.garden.locks import Lock
from spadework.garden.phrases import day_text
from spadework.garden.site import Words
from spadework.garden.state import Garden
from spadework.usecases.bed_names import bed_called
from spadework.usecases.crop_words import crop_word
from spadework.usecases.entry_words import short_key


class LockLine(msgspec.Struct, frozen=True, kw_only=True):
    """One lock as it is shown.

    Parameters
    ----------
    lock : str
        Its name.
    key : str
        End of the key of its entry: what a person lifts it by.
    on, subject : str
        What it is on, by key; an empty subject is everywhere.
    text : str
        The whole of it in one sentence or two, in metric and with the day before the month.
    lifters : list of str
        Names of those who may lift it.
    """

    lock: str
    key: str
    on: str
    subject: str
    stops: str
    why: str
    text: str
    set_on: date
    until: date | None
    off_soil_until: date | None
    test: str
    lifters: list[str]
    lifted_on: date | None
    lifted_by: str
    rule: str
    source: str


def lock_lines(
    garden: Garden,
    day: date,
    *,
    bed: str = "",
    planting: str = "",
    batch: str = "",
    words: Words = "british",
) -> list[LockLine]:
    """The locks in force on a day for what is named by key, each once; all where nothing is named."""
    found = garden.locks_on(day, bed=bed, planting=planting, batch=batch)
    return shown_locks(garden, found, words)


def lines_of_beds(
    garden: Garden, day: date, beds: Iterable[str], *, words: Words = "british"
) -> list[LockLine]:
    """The locks in force in any of these beds, each once."""
    found: dict[Lock, None] = {}
    for bed in beds:
        found |= dict.fromkeys(garden.locks_on(day, bed=bed))
    return shown_locks(garden, found, words)


def lines_about(
    garden: Garden,
    day: date,
    *,
    bed: str = "",
    crop: str = "",
    placing: bool = False,
    words: Words = "british",
) -> list[LockLine]:
    """The locks on a bed, or wherever a crop stands; none for what the book does not know.

    Parameters
    ----------
    garden : Garden
    day : date
    bed : str
        By name or key, as a person gives it; then the crop does not matter.
    crop : str
        By key.
    placing : bool
        Something is to be sown or planted, and nobody says where: also what stops that in any bed.
    """
    if bed:
        try:
            key = bed_called(garden, bed).key
        except UnknownName:
            return []
        return lock_lines(garden, day, bed=key, words=words)
    found: dict[Lock, None] = {}
    for planting in garden.standing(day):
        if planting.crop == crop:
            found |= dict.fromkeys(garden.locks_on(day, planting=planting.key))
            here = planting.bed_on(day)
            found |= dict.fromkeys(garden.locks_on(day, bed=here) if here else ())
    if placing:
        found |= dict.fromkeys(garden.locks_on(day, stops="planting"))
    return shown_locks(garden, found, words)


def locks_about(
    path: Path, today: date, *, bed: str = "", crop: str = "", placing: bool = False
) -> list[LockLine]:
    """The same of a garden folder, for answers that do not open the book; the crop by any of its names.

    Raises
    ------
    GardenError, StoreError
    """
    from spadework.crops.names import find
    from spadework.store.garden_folder import open_garden
    from spadework.usecases.keep_book import garden_state

    folder = open_garden(path)
    if not folder.has_book:
        return []
    try:
        key = find(crop) if crop else ""
    except UnknownName:
        key = crop
    garden = garden_state(folder, day=today)
    return lines_about(garden, today, bed=bed.strip(), crop=key, placing=placing, words=folder.site.words)


def shown_locks(garden: Garden, locks: Iterable[Lock], words: Words) -> list[LockLine]:
    """Locks as they are shown, each once, by the day they were set."""
    once = dict.fromkeys(sorted(locks, key=lambda lock: (lock.set_on, lock.lock, lock.on)))
    return [_line(garden, lock, words) for lock in once]


def _line(garden: Garden, lock: Lock, words: Words) -> LockLine:
    lifters = [person.name for person in garden.lifters(lock)]
    return LockLine(
        lock=lock.lock,
        key=short_key(lock.entry),
        on=lock.on,
        subject=lock.subject,
        stops=lock.stops,
        why=lock.why,
        text=_text(garden, lock, lifters, words),
        set_on=lock.set_on,
        until=lock.until,
        off_soil_until=lock.off_soil_until,
        test=lock.test,
        lifters=lifters,
        lifted_on=lock.lifted_on,
        lifted_by=lock.lifted_by,
        rule=lock.rule,
        source=lock.source,
    )


def _text(garden: Garden, lock: Lock, lifters: list[str], words: Words) -> str:
    where = subject_words(garden, lock, words)
    until = "" if lock.until is None else f" before {day_text(lock.until, year=True)}"
    if lock.off_soil_until is not None:
        until += f" ({day_text(lock.off_soil_until, year=True)} for what is known not to touch the soil)"
    if lock.stops == "using":
        what = f"{where} is not to be used{until}"
    elif lock.stops == "planting":
        what = f"No sowing or planting {where}{until}"
    else:
        what = f"No picking or eating {where}{until}"
    parts = [f"{what}: {lock.why}, {day_text(lock.set_on, year=True)}."]
    if lock.test:
        parts.append(f"Until it is shown that {lock.test}.")
    if lock.lifted_on is not None:
        by = garden.people[lock.lifted_by].name if lock.lifted_by in garden.people else lock.lifted_by
        why = f": {lock.lifted_why}" if lock.lifted_why else ""
        parts.append(f"Lifted by {by} on {day_text(lock.lifted_on, year=True)}{why}.")
    else:
        parts.append(f"May be lifted by {' or '.join(lifters) if lifters else 'a keeper'}.")
    if lock.entry_undone_by:
        parts.append("Its entry was taken back by one who may not lift it, so it holds.")
    elif lock.refused and lock.lifted_on is None:
        parts.append("One who may not has tried to lift it.")
    return " ".join(parts)


def subject_words(garden: Garden, lock: Lock, words: Words) -> str:
    """Where a lock holds: "in Bed 3", "of the carrots in Bed 3", "Batch heap-1"."""
    if lock.on == "batch":
        return f"Batch {lock.subject}" if lock.subject else "Any batch"
    if not lock.subject:
        return "anywhere (nobody said where)"
    if lock.on == "bed":
        bed = garden.beds.get(lock.subject)
        return f"in {lock.subject if bed is None else bed.name}"
    planting = garden.plantings.get(lock.subject)
    if planting is None:
        return f"of {lock.subject}"
    bed = garden.beds.get(planting.bed)
    name = crop_word(planting.crop, words, many=True)
    return f"of {name}{'' if bed is None else f' in {bed.name}'}"
