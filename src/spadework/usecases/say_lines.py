"""Say one line or several: each understood in the garden the earlier ones leave, and all written or none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Final

import msgspec

from spadework.errors import ParameterError, SpadeworkError
from spadework.garden.entries import Entry
from spadework.garden.fold import fold
from spadework.garden.phrases import day_text
from spadework.garden.question import Question
from spadework.garden.state import Garden
from spadework.store.garden_folder import GardenFolder
from spadework.usecases.entry_words import sentence
from spadework.usecases.keep_book import Act, Asked, State, author_key, picked_whole, write_acts
from spadework.usecases.line.read import read_line
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.note_line import Understood, asked_in_line, is_only_note, manner_of, understood_act
from spadework.usecases.show_book import BookLine
from spadework.usecases.show_plantings import planting_name
from spadework.usecases.write_answer import Writing, open_for_writing, write

MOST_LINES: Final = 40


class Choice(msgspec.Struct, frozen=True, kw_only=True):
    """One answer to "which?": a bed or a planting by key, and as it is called."""

    key: str
    name: str


class LineQuestion(msgspec.Struct, frozen=True, kw_only=True):
    """What is asked about a line.

    Parameters
    ----------
    about : {"bed", "planting", "line", ...}
        "line" where nothing of the line can be meant.
    choices : list of Choice
        Beds or plantings it may be; empty where it is answered otherwise.
    may_insist : bool
        Whether the person may say that it is so all the same.
    """

    about: str
    found: str
    why: str
    choices: list[Choice]
    may_insist: bool


class SaidLine(msgspec.Struct, frozen=True, kw_only=True):
    """One line as it was understood; fields as in `note_line.NotedLine`."""

    line: str
    understood: list[Understood]
    as_note: bool
    questions: list[LineQuestion]
    taken: list[str]
    unused: str
    locks: list[LockLine]


class SaidLines(msgspec.Struct, frozen=True, kw_only=True):
    """What came of some lines.

    Parameters
    ----------
    stored : bool
        Whether they are in the book: all of them, or none.
    open : bool
        Something has to be answered before they can be written.
    asked : list of Asked
        What was asked when they were to be written.
    entries : list of BookLine
        As they are in the book; empty where nothing was written.
    """

    question: str
    today: date
    lines: list[SaidLine]
    stored: bool
    open: bool
    asked: list[Asked]
    can_insist: bool
    entries: list[BookLine]
    locks: list[LockLine]
    damage: str = ""


def say_lines(
    path: Path,
    text: str,
    how: Writing,
    *,
    where: Mapping[int, tuple[str, str]] | None = None,
    only_ask: bool = False,
) -> SaidLines:
    """Read lines and write what they tell, all or nothing.

    Parameters
    ----------
    path : Path
    text : str
        One entry or several to a line.
    how : Writing
    where : mapping of int to (str, str) or None
        Bed and planting meant, by key, for the line of that place where it does not say.
    only_ask : bool
        Only say how they are understood, and what would be asked.

    Raises
    ------
    ParameterError
        If nothing is said, or more than `MOST_LINES` lines are.
    UnknownName
        If it is not known who writes.
    StoreReadOnly, StoreError
    """
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    if not lines:
        raise ParameterError("Nothing is said yet.", 'Say it as you would: "picked 2 kg carrots from bed 3".')
    if len(lines) > MOST_LINES:
        raise ParameterError(f"{len(lines)} lines are many at once.", f"Send at most {MOST_LINES}.")
    folder, state = open_for_writing(path)
    if how.key and not only_ask and any(entry.key == how.key for entry in state.entries):
        return _said_before(folder, state, how)
    # who writes need not be known only to say how it is understood
    try:
        author = author_key(state.garden, how.by)
    except SpadeworkError:
        if not only_ask:
            raise
        author = how.by
    now, acts, said = state, list[Act](), list[SaidLine]()
    for place, line in enumerate(lines):
        found, told = _read(folder, now, line, how, (where or {}).get(place, ("", "")))
        if told and not found.questions:
            written = write_acts(folder, told, today=how.today, author=author, state=now, only_ask=True)
            found = msgspec.structs.replace(
                found, questions=[_as_asked(question) for _, question in written.questions]
            )
            now = _after(now, written.entries) if place < len(lines) - 1 else now
        said.append(found)
        acts += told
    open_ = any(not each.may_insist for line in said for each in line.questions)
    answer = SaidLines(
        question="say",
        today=how.today,
        lines=said,
        stored=False,
        open=open_,
        asked=[],
        can_insist=not open_ and any(line.questions for line in said),
        entries=[],
        locks=[],
        damage=state.damage,
    )
    if only_ask or open_ or not acts:
        return answer
    done = write(folder, state, acts, how, question="say")
    return msgspec.structs.replace(
        answer,
        stored=done.stored,
        asked=done.questions,
        can_insist=done.can_insist,
        entries=done.entries if done.stored else [],
        locks=done.locks,
    )


def _said_before(folder: GardenFolder, state: State, how: Writing) -> SaidLines:
    """The same lines came before and are in the book: what is there is the answer."""
    done = write(folder, state, [], how, question="say")
    return SaidLines(
        question="say",
        today=how.today,
        lines=[],
        stored=done.stored,
        open=False,
        asked=[],
        can_insist=False,
        entries=done.entries,
        locks=done.locks,
        damage=state.damage,
    )


def _read(
    folder: GardenFolder, state: State, line: str, how: Writing, where: tuple[str, str]
) -> tuple[SaidLine, list[Act]]:
    """A line as it is understood in the garden as it is by then, and its acts where nothing is asked."""
    garden, words = state.garden, folder.site.words
    manner = manner_of(folder.site, how.day)
    try:
        reading = read_line(line, garden, manner, words=words, bed=where[0], planting=where[1])
    except SpadeworkError as error:
        return _not_meant(line, error), []
    locks: dict[str, LockLine] = {}
    for act in reading.acts:
        known = act.planting if act.planting in garden.plantings else ""
        if act.bed or known:
            for each in lock_lines(garden, how.today, bed=act.bed, planting=known, words=words):
                locks[each.lock + each.subject] = each
    found = SaidLine(
        line=line,
        understood=[understood_act(garden, act, sentence(act, garden, words=words)) for act in reading.acts],
        as_note=is_only_note(reading),
        questions=[_line_question(folder, garden, each) for each in reading.questions],
        taken=list(reading.taken),
        unused=reading.unused,
        locks=list(locks.values()),
    )
    return found, [] if reading.questions else list(reading.acts)


def _not_meant(line: str, error: SpadeworkError) -> SaidLine:
    """A line nothing of which can be meant: what is wrong is asked about like anything else."""
    wrong = LineQuestion(about="line", found=error.message, why=error.hint, choices=[], may_insist=False)
    return SaidLine(line=line, understood=[], as_note=False, questions=[wrong], taken=[], unused="", locks=[])


def _line_question(folder: GardenFolder, garden: Garden, question: Question) -> LineQuestion:
    asked = asked_in_line(question)
    choices: list[Choice] = []
    if asked.about == "planting":
        choices = [
            Choice(key=key, name=_called(garden, key, folder))
            for key in asked.nearest
            if key in garden.plantings
        ]
    elif asked.about == "bed":
        near = [key for key, bed in garden.beds.items() if key in asked.nearest or bed.name in asked.nearest]
        keys = near or [key for key, bed in garden.beds.items() if bed.described and bed.gone_on is None]
        choices = [Choice(key=key, name=garden.beds[key].name) for key in keys]
    return LineQuestion(
        about=asked.about,
        found=asked.found,
        why="" if choices else asked.why,
        choices=choices,
        may_insist=asked.may_insist,
    )


def _called(garden: Garden, key: str, folder: GardenFolder) -> str:
    planting = garden.plantings[key]
    bed = garden.beds.get(planting.bed)
    began = "sown" if planting.sown_on is not None and not planting.set_out_on else "planted"
    on = day_text(planting.set_out_on or planting.sown_on or planting.started_on)
    place = "" if bed is None else f", {bed.name}"
    return f"{planting_name(planting, folder.site.words)}{place}, {began} {on}"


def _as_asked(question: Question) -> LineQuestion:
    return LineQuestion(
        about=question.about,
        found=question.found,
        why=question.why,
        choices=[],
        may_insist=question.may_insist,
    )


def _after(state: State, entries: Sequence[Entry]) -> State:
    """The garden as it would be once these were written."""
    known = (*state.entries, *entries)
    garden = fold(known, picked_whole=picked_whole(entry.act for entry in known))
    return State(garden=garden, entries=known, damage=state.damage)
