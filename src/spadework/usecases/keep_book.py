"""Write acts into the book, all or none, and fold it into the garden."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Final

import msgspec

from spadework.errors import ParameterError
from spadework.garden import entries as kinds
from spadework.garden.ask import Question, questions
from spadework.garden.entries import Entry, Payload
from spadework.garden.fold import fold
from spadework.garden.keys import LUCK_BYTES, keys_from, new_keys
from spadework.garden.lookup import key_of
from spadework.garden.site import Words
from spadework.garden.state import Garden, Lock
from spadework.store.garden_folder import GardenFolder
from spadework.usecases.folded import folded
from spadework.usecases.question_names import names_for_keys

AUTHOR_NAME: Final = "SPADEWORK_BY"
"""Environment variable that names who writes where nobody else is named."""

NOBODY_KNOWN: Final = "keeper"
"""Who writes where no person is known."""

_SETS_LOCKS: Final = (kinds.Locked, kinds.Unlocked, kinds.Treated, kinds.Amended, kinds.Fed)
_ASKED_ALONE: Final = (
    kinds.Stood,
    kinds.Note,
    kinds.Photo,
    kinds.Minutes,
    kinds.Skipped,
    kinds.RainGauge,
    kinds.ThermometerRead,
    kinds.SoilFelt,
)
"""What is asked about a later act does not hang on these, so the book is not folded anew after them."""

_WHOLE_KINDS: Final = frozenset({"root", "bulb", "head"})
_WHOLE_STEMS: Final = frozenset({"kohlrabi", "leek", "bunching-onion"})
_PICKED_AGAIN: Final = frozenset({"broccoli", "brussels-sprouts"})
"""Heads of which one plant gives many pieces. Class: common-practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """Something done or seen, before it is an entry.

    Parameters
    ----------
    payload : Payload or None
        None for one that only withdraws another.
    on : date
        The day it happened.
    bed, planting, batch : str
        What it is about, by key.
    replaces, withdraws : str
        Key of the entry corrected or undone.
    author : str
        Key of who did it; empty for who writes.
    """

    payload: Payload | None
    on: date
    bed: str = ""
    planting: str = ""
    batch: str = ""
    replaces: str = ""
    withdraws: str = ""
    author: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What came of acts.

    Parameters
    ----------
    entries : tuple of Entry
        As they are in the book, one for each act in order; where nothing was written, as they would be.
    stored : bool
        Whether they are in the book.
    questions : tuple of (int, Question)
        What was asked, each with the place of its act; also of what was insisted on.
    locks : tuple of Lock
        Locks the entries set that are in force.
    garden : Garden
        As it was when the last act was asked about.
    """

    entries: tuple[Entry, ...]
    stored: bool
    questions: tuple[tuple[int, Question], ...]
    locks: tuple[Lock, ...]
    garden: Garden


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """The book as read, and the garden it folds into.

    Parameters
    ----------
    garden : Garden
    entries : tuple of Entry
        All that were read, undone ones too, in order of arrival.
    damage : str
        What is wrong with the book and the way back; empty where it is sound.
    """

    garden: Garden
    entries: tuple[Entry, ...]
    damage: str = ""


class Asked(msgspec.Struct, frozen=True, kw_only=True):
    """A question as it is shown.

    Parameters
    ----------
    act : int
        Place of the act it is about, counted from one.
    """

    act: int
    about: str
    found: str
    why: str
    nearest: tuple[str, ...]
    may_insist: bool


def asked_of(written: Written, words: Words = "british") -> list[Asked]:
    """The questions of a writing as they are shown: plantings and packets by their names."""
    named = names_for_keys(written.garden, words)
    return [
        Asked(
            act=place + 1,
            about=question.about,
            found=named(question.found),
            why=named(question.why),
            nearest=question.nearest,
            may_insist=question.may_insist,
        )
        for place, question in written.questions
    ]


def write_acts(
    folder: GardenFolder,
    acts: Sequence[Act],
    *,
    today: date,
    author: str,
    insist: bool = False,
    state: State | None = None,
    only_ask: bool = False,
    first_key: str = "",
) -> Written:
    """Ask about each act in the garden as it would be after the earlier ones, and write all or none.

    Parameters
    ----------
    folder : GardenFolder
    acts : sequence of Act
    today : date
        Nothing later can have happened.
    author : str
        Key of who writes, as from `author_key`; where the first people are among the acts, one of them.
    insist : bool
        Write although something was asked; the entries asked about are marked. What may not be insisted on
        is never written.
    state : State or None
        The book as it was read a moment ago, to spare reading it again.
    only_ask : bool
        Write nothing, whatever comes of it.
    first_key : str
        Key of the first entry where whoever asks made it, so that the same acts sent twice are written
        once; the others follow it. Where it is in the book already, what is there is the answer.

    Returns
    -------
    Written
        Nothing is written where `stored` is False.

    Raises
    ------
    StoreReadOnly, StoreError
        Then nothing was written.
    ParameterError
        If the first key is none.
    """
    now = datetime.now(UTC)
    keys = keys_from(first_key, len(acts)) if first_key else _keys(now, len(acts))
    before = open_state(folder) if state is None else state
    if first_key and first_key in before.garden.keys:
        return _written_before(before, first_key, today)
    made = [
        Entry(
            key=key,
            happened_on=act.on,
            recorded_at=now,
            author=act.author or author,
            act=act.payload,
            bed=act.bed,
            planting=act.planting,
            batch=act.batch,
            replaces=act.replaces,
            withdraws=act.withdraws,
        )
        for act, key in zip(acts, keys, strict=True)
    ]
    garden = before.garden
    whole = garden.picked_whole | picked_whole(entry.act for entry in made)
    known = list(before.entries)
    stale = whole != garden.picked_whole
    asked: list[tuple[int, Question]] = []
    entries: list[Entry] = []
    for place, entry in enumerate(made):
        if stale:
            garden = fold(known, picked_whole=whole)
            stale = False
        found = questions(garden, entry, today)
        asked += [(place, question) for question in found]
        entries.append(msgspec.structs.replace(entry, insisted=bool(found)))
        known.append(entries[-1])
        stale = entry.act is None or bool(entry.replaces) or not isinstance(entry.act, _ASKED_ALONE)
    stored = not only_ask and (not asked or (insist and all(question.may_insist for _, question in asked)))
    locks: tuple[Lock, ...] = ()
    if stored and entries:
        with folder.open_book() as book:
            book.append(entries)
        locks = _locks_set(entries, known, whole, today)
    return Written(entries=tuple(entries), stored=stored, questions=tuple(asked), locks=locks, garden=garden)


def open_state(folder: GardenFolder, *, day: date | None = None, known_on: datetime | None = None) -> State:
    """The whole book and the garden it folds into.

    Parameters
    ----------
    folder : GardenFolder
    day : date or None
        As known now about that day; None for all of it.
    known_on : datetime or None
        As known then; with time zone.

    Raises
    ------
    StoreError
        If the book cannot be opened. Of a damaged one what can be read is read.
    """
    entries: list[Entry] = []
    damage = ""
    if folder.has_book:
        with folder.open_book() as book:
            entries, damage = book.entries(), book.damage
    whole = picked_whole(entry.act for entry in entries)
    garden = folded(folder.path, entries, day=day, known_on=known_on, picked_whole=whole)
    return State(garden=garden, entries=tuple(entries), damage=damage)


def garden_state(
    folder: GardenFolder, *, day: date | None = None, known_on: datetime | None = None
) -> Garden:
    """The garden the whole book tells of; arguments as for `open_state`."""
    return open_state(folder, day=day, known_on=known_on).garden


def end_of(day: date) -> datetime:
    """The last moment of a day where this runs, for "as known on that day"."""
    return datetime.combine(day + timedelta(days=1), time()).astimezone() - timedelta(microseconds=1)


def picked_whole(acts: Iterable[Payload | None]) -> frozenset[str]:
    """Of the crops started by some acts those picked as whole plants.

    Notes
    -----
    Roots, bulbs and heads, with leeks, kohlrabi and bunching onions; not calabrese and sprouts, of which one
    plant gives many pieces, nor leaves and stalks that are pulled from a plant that goes on. A crop without
    a sheet is none of them. Class: common-practice.
    """
    from spadework.crops.loader import load_sheet
    from spadework.crops.names import keys

    started = {act.crop for act in acts if isinstance(act, (kinds.Sown, kinds.PlantedOut))}
    found = started & _WHOLE_STEMS
    for crop in (started & set(keys())) - _PICKED_AGAIN - found:
        if load_sheet(crop).kind in _WHOLE_KINDS:
            found.add(crop)
    return frozenset(found)


def new_planting_key(garden: Garden, crop: str, day: date, taken: Collection[str] = ()) -> str:
    """A name for a new planting: crop, year and a number.

    Parameters
    ----------
    garden : Garden
    crop : str
        By key.
    day : date
        Of sowing or planting.
    taken : collection of str
        Names given already to plantings that are not in the book yet.
    """
    number = 1
    while (key := f"{crop}-{day.year}-{number}") in garden.plantings or key in taken:
        number += 1
    return key


def author_key(garden: Garden, name: str = "") -> str:
    """Key of who writes.

    Parameters
    ----------
    garden : Garden
    name : str
        Name or key; empty for the one named in SPADEWORK_BY, else the only keeper.

    Raises
    ------
    UnknownName
        If nobody known is called that.
    ParameterError
        If nobody is named and there are several keepers, or none.
    """
    name = name.strip() or os.environ.get(AUTHOR_NAME, "").strip()
    if not garden.people:
        return name.casefold() or NOBODY_KNOWN
    if name:
        return key_of(name, {key: person.name for key, person in garden.people.items()}, "person")
    keepers = [key for key, person in garden.people.items() if person.role == "keeper"]
    if len(keepers) == 1:
        return keepers[0]
    raise ParameterError("Who writes?", f"Give --by NAME, or set {AUTHOR_NAME}.")


def _keys(now: datetime, count: int) -> tuple[str, ...]:
    return new_keys(now, os.urandom(LUCK_BYTES), count) if count else ()


def _written_before(state: State, first_key: str, today: date) -> Written:
    """What the same acts wrote when they came the first time: all that was written in that breath."""
    first = next(entry for entry in state.entries if entry.key == first_key)
    entries = tuple(entry for entry in state.entries if entry.recorded_at == first.recorded_at)
    keys = {entry.key for entry in entries}
    locks = tuple(
        lock for lock in state.garden.locks if lock.entry in keys and lock.in_force(max(today, lock.set_on))
    )
    return Written(entries=entries, stored=True, questions=(), locks=locks, garden=state.garden)


def _locks_set(
    entries: Sequence[Entry], known: Sequence[Entry], whole: Collection[str], today: date
) -> tuple[Lock, ...]:
    """Locks in force today that came with some entries."""
    if not any(isinstance(each.act, _SETS_LOCKS) or each.act is None or each.replaces for each in entries):
        return ()
    new = {entry.key for entry in entries}
    return tuple(
        lock
        for lock in fold(known, picked_whole=whole).locks
        if lock.entry in new and lock.in_force(max(today, lock.set_on))
    )
