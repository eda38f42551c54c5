"""Take a line as a person says it into the book: ask what is not clear, write all of it or nothing."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from spadework.crops.names import find
from spadework.errors import ParameterError, UnknownName
from spadework.garden.entries import Note
from spadework.garden.lookup import key_of
from spadework.garden.question import Question
from spadework.garden.site import Site
from spadework.garden.state import Garden
from spadework.store.garden_folder import GardenFolder
from spadework.usecases.bed_names import bed_called
from spadework.usecases.entry_words import sentence
from spadework.usecases.keep_book import Act, Asked, State
from spadework.usecases.line.marking import Manner
from spadework.usecases.line.read import Reading, read_line
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.write_answer import Writing, open_for_writing, write

ALL = "all"


class Understood(msgspec.Struct, frozen=True, kw_only=True):
    """One entry as it was understood.

    Parameters
    ----------
    text : str
        In metric and with the day before the month.
    by : str
        Key of who did it; empty for who writes.
    by_name : str
    fields : dict
        What the entry says, as it is kept.
    """

    text: str
    kind: str
    bed: str
    planting: str
    on: date
    by: str
    by_name: str
    fields: dict[str, Any]


class NotedLine(msgspec.Struct, frozen=True, kw_only=True):
    """What came of one line.

    Parameters
    ----------
    understood : list of Understood
        Empty where it could mean several things.
    as_note : bool
        Nothing of it was understood; its own words are kept.
    questions : list of Asked
        About the line (`act` 0) or about an entry.
    taken : list of str
        What was taken for granted: mistyped words, sizes of cans, middles of ranges.
    unused : str
        Words nothing was made of.
    written : list of str
        Keys; empty where nothing was written.
    """

    line: str
    today: date
    understood: list[Understood]
    as_note: bool
    questions: list[Asked]
    can_insist: bool
    taken: list[str]
    unused: str
    stored: bool
    written: list[str]
    locks: list[LockLine]
    dry_run: bool = False
    damage: str = ""


class NotedLines(msgspec.Struct, frozen=True, kw_only=True):
    """What came of several lines, each written by itself."""

    question: str
    today: date
    lines: list[NotedLine]


def note_line(
    garden: Path,
    line: str,
    how: Writing,
    *,
    bed: str = "",
    planting: str = "",
    dry_run: bool = False,
) -> NotedLine:
    """Read a line and write what it tells.

    Parameters
    ----------
    garden : Path
    line : str
    how : Writing
    bed, planting : str
        Which one is meant, where the line does not say: names, or "all".
    dry_run : bool
        Only say how it is understood.

    Raises
    ------
    ParameterError
        If the line is empty.
    UnknownName
        If no bed, planting or person is called that.
    StoreReadOnly, StoreError
    """
    if not line.strip():
        raise ParameterError("The line is empty.", 'Say it as you would: "picked 2 kg carrots from bed 3".')
    folder, state = open_for_writing(garden)
    site = folder.site
    reading = read_line(
        line,
        state.garden,
        manner_of(site, how.today),
        words=site.words,
        bed=_bed(state.garden, bed),
        planting=_planting(state.garden, planting),
    )
    if dry_run or reading.questions:
        return _unwritten(folder, state, line, reading, how.today, dry_run=dry_run)
    return _written(folder, state, line, reading, how)


def manner_of(site: Site, today: date) -> Manner:
    """What a degree, a gallon and 6/7 mean in this garden."""
    us = site.units == "us"
    return Manner(today, fahrenheit=us, us_gallon=us or site.words == "american", month_first=us)


def _bed(garden: Garden, name: str) -> str:
    return name if name in ("", ALL) else bed_called(garden, name).key


def _planting(garden: Garden, name: str) -> str:
    """A planting's key, or a crop's; "all" for all."""
    if name in ("", ALL) or name in garden.plantings:
        return name
    try:
        return find(name)
    except UnknownName:
        return key_of(name, {key: key for key in garden.plantings}, "planting")


def _unwritten(
    folder: GardenFolder, state: State, line: str, reading: Reading, today: date, *, dry_run: bool
) -> NotedLine:
    words = folder.site.words
    locks: dict[str, LockLine] = {}
    for act in reading.acts:
        known = act.planting if act.planting in state.garden.plantings else ""
        if act.bed or known:
            for each in lock_lines(state.garden, today, bed=act.bed, planting=known, words=words):
                locks[each.lock + each.subject] = each
    return NotedLine(
        line=line,
        today=today,
        understood=[
            understood_act(state.garden, act, sentence(act, state.garden, words=words))
            for act in reading.acts
        ],
        as_note=is_only_note(reading),
        questions=[asked_in_line(question) for question in reading.questions],
        can_insist=False,
        taken=list(reading.taken),
        unused=reading.unused,
        stored=False,
        written=[],
        locks=list(locks.values()),
        dry_run=dry_run,
        damage=state.damage,
    )


def _written(folder: GardenFolder, state: State, line: str, reading: Reading, how: Writing) -> NotedLine:
    acts = list(reading.acts)
    found = write(folder, state, acts, how, question="note")
    return NotedLine(
        line=line,
        today=how.today,
        understood=[
            # fewer where the same line came before and was read otherwise then
            understood_act(state.garden, act, told.text)
            for act, told in zip(acts, found.entries, strict=False)
        ],
        as_note=is_only_note(reading),
        questions=found.questions,
        can_insist=found.can_insist,
        taken=list(reading.taken),
        unused=reading.unused,
        stored=found.stored,
        written=[entry.key for entry in found.entries] if found.stored else [],
        locks=found.locks,
        damage=found.damage,
    )


def understood_act(garden: Garden, act: Act, text: str) -> Understood:
    """One act of a line as it is shown, with its sentence."""
    told: dict[str, Any] = msgspec.to_builtins(act.payload)
    kind = str(told.pop("kind"))
    said = {name: value for name, value in told.items() if value not in (None, "", (), [], False)}
    person = garden.people.get(act.author)
    return Understood(
        text=text,
        kind=kind,
        bed=act.bed,
        planting=act.planting,
        on=act.on,
        by=act.author,
        by_name=act.author if person is None else person.name,
        fields=said,
    )


def is_only_note(reading: Reading) -> bool:
    """Whether nothing of a line was understood, so that its own words are kept."""
    return bool(reading.acts) and all(isinstance(act.payload, Note) for act in reading.acts)


def asked_in_line(question: Question) -> Asked:
    """A question about a line as it is shown."""
    return Asked(
        act=0,
        about=question.about,
        found=question.found,
        why=question.why,
        nearest=question.nearest,
        may_insist=question.may_insist,
    )
