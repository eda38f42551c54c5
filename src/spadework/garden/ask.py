"""What has to be asked about an entry before it is written: impossible and odd acts, never a dead end."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

from spadework.garden import entries as kinds
from spadework.garden.acts import act_word
from spadework.garden.ask_form import form_questions
from spadework.garden.ask_place import bed_questions, place_questions
from spadework.garden.ask_plants import plant_questions
from spadework.garden.entries import Entry, Payload
from spadework.garden.fold import fold
from spadework.garden.lock_rules import locks_set_by
from spadework.garden.locks import Lock, Stops
from spadework.garden.lookup import nearest, plain
from spadework.garden.phrases import day_text
from spadework.garden.question import Question
from spadework.garden.records import Person
from spadework.garden.state import Garden

__all__ = ["Question", "questions"]

_COUNTS_TWICE: Final = (
    kinds.PlantedOut,
    kinds.PrickedOut,
    kinds.Counted,
    kinds.Thinned,
    kinds.Amended,
    kinds.Treated,
    kinds.Picked,
    kinds.Lifted,
    kinds.Ended,
)

_WORK: Final[dict[type, tuple[str, ...]]] = {
    kinds.Treated: ("treat", "spray"),
    kinds.Amended: ("amend", "manur", "dig"),
    kinds.Lifted: ("lift", "dig"),
    kinds.Sown: ("sow",),
    kinds.PlantedOut: ("plant",),
    kinds.Moved: ("cover", "net"),
    kinds.Fed: ("feed",),
    kinds.Picked: ("pick", "harvest"),
}
"""How work is called of which the record's own word is another, by its first letters."""


def questions(garden: Garden, entry: Entry, today: date) -> list[Question]:
    """What to ask about an entry; none where it is plain, or is in the book already.

    Parameters
    ----------
    garden : Garden
        Folded from the whole book, without the entry.
    entry : Entry
    today : date

    Returns
    -------
    list of Question
        Where one may not be insisted on, only such.

    Notes
    -----
    A correction is asked about in the garden as it is without what it corrects. Numbers are those of the
    garden now, also for an entry of an earlier day.
    """
    form = list(form_questions(entry, today))
    if form or entry.key in garden.keys:
        return form
    found = [*_points_at(garden, entry), *_who(garden, entry), *_day(entry, today)]
    if entry.act is None:
        return found
    if entry.replaces:
        left = [each for each in garden.entries if each.key != entry.replaces]
        garden = fold(left, day=garden.day, picked_whole=garden.picked_whole)
    found += [
        *bed_questions(garden, entry),
        *plant_questions(garden, entry),
        *place_questions(garden, entry),
        *_locks(garden, entry),
        *_double(garden, entry),
    ]
    return found


def _points_at(garden: Garden, entry: Entry) -> Iterator[Question]:
    for key, does in ((entry.withdraws, "undo"), (entry.replaces, "correct")):
        if not key:
            continue
        if key not in garden.keys:
            yield Question(
                about="entry", found=f"No entry {key} is in the book.", why=f"There is nothing to {does}."
            )
        elif key in garden.undone:
            yield Question(
                about="entry",
                found=f"Entry {key} was undone or corrected already.",
                why=f"There is nothing left to {does}.",
            )
    undoes = {entry.withdraws, entry.replaces} - {""}
    for lock in garden.locks:
        if lock.entry in undoes and entry.author != lock.author and not garden.may_lift(lock, entry.author):
            yield Question(
                about="lock",
                found=f"That entry set a lock: {lock.why}.",
                why=f"It stays until it is lifted by {_lifters(garden, lock)}.",
            )


def _who(garden: Garden, entry: Entry) -> Iterator[Question]:
    if isinstance(entry.act, kinds.PersonSet):
        yield from _says_who(garden, entry.author)
        return
    if not garden.people:
        return
    person = garden.people.get(entry.author)
    if person is None:
        yield Question(
            about="person",
            found=f"Nobody called {entry.author} works here.",
            why="The book names who did what.",
            nearest=nearest(entry.author, garden.people),
        )
    elif person.role == "reader":
        yield Question(
            about="person", found=f"{person.name} only reads here.", why="A keeper or helper writes the book."
        )
    elif work := _barred(person, entry.act):
        yield Question(
            about="person",
            found=f"{person.name} is not for {work}, as the book says.",
            why="Either somebody else did it, or that has changed.",
        )


def _says_who(garden: Garden, author: str) -> Iterator[Question]:
    """Who works here, and as what, is for keepers to say, by whatever way it comes into the book."""
    keepers = [person for person in garden.people.values() if person.role == "keeper"]
    if keepers and author not in {person.key for person in keepers}:
        names = " or ".join(person.name for person in keepers)
        yield Question(
            about="person",
            found=f"{_name(garden, author)} is no keeper.",
            why=f"Who works here is said by {names}.",
            may_insist=False,
        )


def _barred(person: Person, act: Payload | None) -> str:
    """Which of the kinds of work a person is not for an act is; empty where it is none."""
    stems = _WORK.get(type(act), ()) or (act_word(act).split(" ")[-1][:4],)
    return next((work for work in person.not_for if _is_work(work, stems)), "")


def _is_work(work: str, stems: tuple[str, ...]) -> bool:
    return any(word.startswith(stem) for word in plain(work).split() for stem in stems if stem)


def _day(entry: Entry, today: date) -> Iterator[Question]:
    if entry.act is not None and entry.happened_on > today:
        yield Question(
            about="day",
            found=f"{day_text(entry.happened_on, year=True)} is still to come.",
            why="The book holds what has happened.",
        )


def _locks(garden: Garden, entry: Entry) -> Iterator[Question]:
    act = entry.act
    if isinstance(act, kinds.Unlocked):
        yield from _unlocked(garden, entry, act)
        return
    if isinstance(act, kinds.Locked):
        yield from _locked(garden, entry, act)
    stops: Stops | None = None
    planting = entry.planting
    if isinstance(act, (kinds.Picked, kinds.Lifted)):
        stops = "picking"
    elif isinstance(act, (kinds.Sown, kinds.PlantedOut)):
        stops, planting = "planting", ""
    if stops is None or not (entry.bed or planting):
        return
    bed = "" if planting in garden.plantings else entry.bed
    for lock in garden.locks_on(entry.happened_on, bed=bed, planting=planting, stops=stops):
        until = lock.test or (day_text(lock.until, year=True) if lock.until else "")
        yield Question(
            about="lock",
            found=f"A lock is on it since {day_text(lock.set_on, year=True)}: {lock.why}.",
            why=(f"No {stops} until {until}; " if until else f"No {stops}; ")
            + f"it is lifted by {_lifters(garden, lock)}.",
        )


def _unlocked(garden: Garden, entry: Entry, act: kinds.Unlocked) -> Iterator[Question]:
    named = [lock for lock in garden.locks if lock.answers_to(act.lock)]
    in_force = [lock for lock in named if lock.in_force(entry.happened_on)]
    if not in_force:
        there = [lock.lock for lock in garden.locks if lock.in_force(entry.happened_on)]
        yield Question(
            about="lock",
            found=f"No lock {act.lock} is in force." if not named else f"Lock {act.lock} is over already.",
            why="There is nothing to lift.",
            nearest=nearest(act.lock, there),
        )
    for lock in in_force:
        if not garden.may_lift(lock, entry.author):
            yield Question(
                about="lock",
                found=f"{_name(garden, entry.author)} may not lift this lock: {lock.why}.",
                why=f"It stays in force until it is lifted by {_lifters(garden, lock)}.",
            )
        elif lock.test and not act.why.strip():
            yield Question(
                about="lock", found=f"The lock asks for a test: {lock.test}.", why="Say how it came out."
            )


def _locked(garden: Garden, entry: Entry, act: kinds.Locked) -> Iterator[Question]:
    for lock in locks_set_by(entry, entry.bed):
        if any(other.answers_to(lock.lock) and other.in_force(entry.happened_on) for other in garden.locks):
            yield Question(
                about="lock",
                found=f"A lock {lock.lock} is in force already.",
                why="Both hold, and are lifted together.",
            )
    if act.until is not None and act.until <= entry.happened_on:
        yield Question(
            about="day",
            found=f"The lock ends on {day_text(act.until, year=True)}.",
            why="It would be over before it begins.",
        )


def _double(garden: Garden, entry: Entry) -> Iterator[Question]:
    if not isinstance(entry.act, _COUNTS_TWICE):
        return
    for other in reversed(garden.entries):
        if other.happened_on < entry.happened_on:
            return
        same = (other.happened_on, other.bed, other.planting, other.batch, other.act)
        if same == (entry.happened_on, entry.bed, entry.planting, entry.batch, entry.act):
            who = _name(garden, other.author)
            yield Question(
                about="double",
                found=f"{who} wrote the very same for that day.",
                why="Written twice it counts twice.",
            )
            return


def _name(garden: Garden, person: str) -> str:
    return garden.people[person].name if person in garden.people else person


def _lifters(garden: Garden, lock: Lock) -> str:
    names = [person.name for person in garden.lifters(lock)]
    return " or ".join(names) if names else "a keeper"
