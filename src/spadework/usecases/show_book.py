"""Read the book: entries as sentences, those undone or corrected shown as such."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Final, get_args

import msgspec

from spadework.garden.acts import act_word
from spadework.garden.entries import Entry, Payload, Unlocked
from spadework.garden.lookup import key_of
from spadework.garden.state import Garden
from spadework.usecases.bed_names import bed_called
from spadework.usecases.entry_words import sentence, short_key
from spadework.usecases.lock_lines import LockLine, lines_about, lock_lines
from spadework.usecases.look import Look, look_at
from spadework.usecases.show_plantings import crop_key

_TAGS: Final = tuple(str(kind.__struct_config__.tag) for kind in get_args(Payload))
_MORE_WORDS: Final = (
    *("weeded", "hoed", "earthed up", "supported", "mulched", "hardened off", "pruned", "prepared"),
    "looked over",
    *("cured", "stored", "cover on", "cover off", "cover opened", "cover shut", "undo"),
)
_DEEPEST: Final = 3


class BookLine(msgspec.Struct, frozen=True, kw_only=True):
    """One entry as it is read.

    Parameters
    ----------
    key, short : str
        Its key, and the end of it.
    by, by_name : str
        Who did it.
    kind : str
        As stored; "undo" for one that takes another back.
    bed, planting, crop, batch : str
        By key.
    text : str
        In metric and with the day before the month.
    state : {"", "undone", "corrected"}
        Empty where it stands.
    by_entry : str
        Key of the entry that undid or corrected it.
    insisted : bool
        It was asked about, and the person said it is so.
    """

    key: str
    short: str
    on: date
    recorded_at: datetime
    by: str
    by_name: str
    kind: str
    bed: str
    planting: str
    crop: str
    batch: str
    text: str
    state: str
    by_entry: str
    insisted: bool


class BookPage(msgspec.Struct, frozen=True, kw_only=True):
    """Entries looked for, by the day they happened, newest last.

    Parameters
    ----------
    earlier : int
        Entries that were found and left out, being older.
    """

    question: str
    today: date
    known_on: date | None
    locks: list[LockLine]
    entries: list[BookLine]
    earlier: int
    damage: str = ""


def read_book(
    path: Path,
    today: date,
    *,
    bed: str = "",
    crop: str = "",
    kind: str = "",
    by: str = "",
    first: date | None = None,
    last: date | None = None,
    known_on: date | None = None,
    most: int | None = None,
    skip: int = 0,
) -> BookPage:
    """Entries by what they are about, by kind, person and day.

    Parameters
    ----------
    path : Path
    today : date
        What happened later is left out, unless `last` asks for it.
    bed, crop, kind, by : str
        By any name; empty for all.
    first, last : date or None
        Of the day they happened.
    known_on : date or None
        As known at the end of that day.
    most : int or None
        Only so many, the newest.
    skip : int
        So many of the newest are passed over first.

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    look = look_at(path, last or today, known_on=known_on)
    garden = look.garden
    bed_key = bed_called(garden, bed).key if bed else ""
    wanted_crop = crop_key(garden, crop) if crop else ""
    person = _person(look, by) if by else ""
    word = _kind(kind) if kind else ""
    found = [
        entry
        for entry in look.entries
        if entry.happened_on <= look.day
        and (first is None or entry.happened_on >= first)
        and (not person or entry.author == person)
        and (not word or word in (tag_of(entry), act_word(entry.act)))
        and (not bed_key or bed_of(garden, entry) == bed_key)
        and (not wanted_crop or crop_of(garden, entry) == wanted_crop)
    ]
    # A stable order by day keeps what was written first first.
    found.sort(key=lambda entry: entry.happened_on)
    ended = max(0, len(found) - max(0, skip))
    kept = found[:ended] if most is None else found[max(0, ended - most) : ended]
    return BookPage(
        question="book",
        today=today,
        known_on=known_on,
        locks=_locks(look, bed_key, wanted_crop),
        entries=book_lines(look, kept),
        earlier=ended - len(kept),
        damage=look.damage,
    )


def _locks(look: Look, bed: str, crop: str) -> list[LockLine]:
    """Locks on what was looked for; all where neither a bed nor a crop was."""
    if bed or crop:
        return lines_about(look.garden, look.day, bed=bed, crop=crop, words=look.words)
    return lock_lines(look.garden, look.day, words=look.words)


def book_lines(look: Look, entries: list[Entry]) -> list[BookLine]:
    """Entries as they are read."""
    by_key = {entry.key: entry for entry in look.entries}
    undoing = {
        target: entry
        for entry in look.entries
        if entry.key not in look.garden.undone
        for target in (entry.withdraws, entry.replaces)
        if target
    }
    return [_line(look, entry, by_key, undoing) for entry in entries]


def _line(look: Look, entry: Entry, by_key: Mapping[str, Entry], undoing: Mapping[str, Entry]) -> BookLine:
    garden = look.garden
    state, by_entry = "", ""
    if entry.key in garden.undone:
        after = undoing.get(entry.key)
        state = "corrected" if after is not None and after.replaces == entry.key else "undone"
        by_entry = "" if after is None else after.key
    return BookLine(
        key=entry.key,
        short=short_key(entry.key),
        on=entry.happened_on,
        recorded_at=entry.recorded_at,
        by=entry.author,
        by_name=name_of(garden, entry.author),
        kind=tag_of(entry),
        bed=bed_of(garden, entry),
        planting=entry.planting,
        crop=crop_of(garden, entry),
        batch=entry.batch,
        text=text_of(look, entry, by_key),
        state=state,
        by_entry=by_entry,
        insisted=entry.insisted,
    )


def text_of(look: Look, entry: Entry, by_key: Mapping[str, Entry], depth: int = 0) -> str:
    """An entry in a sentence; one that undoes or corrects says what."""
    target = by_key.get(entry.withdraws or entry.replaces)
    if entry.act is None:
        if target is None or depth >= _DEEPEST:
            return sentence(entry, look.garden, words=look.words)
        before = text_of(look, target, by_key, depth + 1)
        if target.act is None:
            return f"Took back an undo: {before[:1].lower()}{before[1:]}"
        return f"Took back: {before}"
    said = sentence(entry, look.garden, words=look.words)
    if isinstance(entry.act, Unlocked) and any(entry.key in each.refused for each in look.garden.locks):
        said = f"Tried to lift a lock, which holds: {said[:1].lower()}{said[1:]}"
    return said if not entry.replaces else f"{said} (In place of {short_key(entry.replaces)}.)"


def name_of(garden: Garden, person: str) -> str:
    """A person by name; the key where nobody knows them."""
    return garden.people[person].name if person in garden.people else person


def tag_of(entry: Entry) -> str:
    """The kind of an entry; "undo" for one that takes another back."""
    return "undo" if entry.act is None else str(entry.act.__struct_config__.tag)


def bed_of(garden: Garden, entry: Entry) -> str:
    """The bed an entry is about: its own, or where its planting stood that day, or stood last."""
    planting = garden.plantings.get(entry.planting)
    if entry.bed or planting is None:
        return entry.bed
    return planting.bed_on(entry.happened_on) or planting.bed


def crop_of(garden: Garden, entry: Entry) -> str:
    """The crop an entry is about; empty where it is about none."""
    named = getattr(entry.act, "crop", "")
    if named:
        return str(named)
    planting = garden.plantings.get(entry.planting)
    return "" if planting is None else planting.crop


def _person(look: Look, by: str) -> str:
    names = {entry.author: name_of(look.garden, entry.author) for entry in look.entries if entry.author}
    names |= {key: person.name for key, person in look.garden.people.items()}
    return key_of(by, names, "person")


def _kind(kind: str) -> str:
    return key_of(kind, {word: word for word in (*_TAGS, *_MORE_WORDS)}, "kind of entry")
