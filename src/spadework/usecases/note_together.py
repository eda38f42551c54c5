"""Several lines told at once: each heard as the lines before it leave the garden; all written, or none."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

import msgspec

from spadework.errors import SpadeworkError
from spadework.garden.fold import fold
from spadework.usecases.entry_words import sentence
from spadework.usecases.keep_book import Act, Asked, State, asked_of, author_key, picked_whole, write_acts
from spadework.usecases.line.read import read_line
from spadework.usecases.note_line import asked_in_line, manner_of
from spadework.usecases.write_answer import Writing, open_for_writing, write


class LineHeard(msgspec.Struct, frozen=True, kw_only=True):
    """One of several lines.

    Parameters
    ----------
    line : str
    understood : list of str
        Sentences as they would be in the book.
    days : list of date
        The day of each.
    asked : list of Asked
    taken : list of str
        What was taken for granted.
    wrong : str
        Why nothing of it can be meant; empty where it can.
    """

    line: str
    understood: list[str]
    days: list[date]
    asked: list[Asked]
    taken: list[str]
    wrong: str = ""


class LinesHeard(msgspec.Struct, frozen=True, kw_only=True):
    """What came of several lines.

    Parameters
    ----------
    stored : bool
        Whether all of them are in the book; else none is.
    can_insist : bool
        Whether the person may say that it is so all the same.
    first : str
        Key of the first entry written; empty where none was.
    """

    lines: list[LineHeard]
    stored: bool
    can_insist: bool
    first: str = ""


def note_together(path: Path, lines: Sequence[str], how: Writing, *, dry_run: bool = False) -> LinesHeard:
    """Hear several lines and write them in one breath.

    Parameters
    ----------
    path : Path
    lines : sequence of str
        Empty ones are left out.
    how : Writing
    dry_run : bool
        Only say how they are understood.

    Raises
    ------
    StoreReadOnly, StoreError
    """
    folder, before = open_for_writing(path)
    words = folder.site.words
    author = author_key(before.garden, how.by)
    manner = manner_of(folder.site, how.today)
    state = before
    heard: list[LineHeard] = []
    acts: list[Act] = []
    may = True
    for line in (each.strip() for each in lines if each.strip()):
        try:
            reading = read_line(line, state.garden, manner, words=words, bed="", planting="")
        except SpadeworkError as error:
            heard.append(LineHeard(line=line, understood=[], days=[], asked=[], taken=[], wrong=str(error)))
            may = False
            continue
        told = [sentence(act, state.garden, words=words) for act in reading.acts]
        asked = [asked_in_line(question) for question in reading.questions]
        may = may and not asked
        if not asked:
            tried = write_acts(
                folder, reading.acts, today=how.today, author=author, state=state, only_ask=True
            )
            asked = asked_of(tried)
            may = may and all(each.may_insist for each in asked)
            entries = (*state.entries, *tried.entries)
            whole = picked_whole(entry.act for entry in entries)
            state = State(garden=fold(entries, picked_whole=whole), entries=entries, damage=state.damage)
            acts += reading.acts
        heard.append(
            LineHeard(
                line=line,
                understood=told,
                days=[act.on for act in reading.acts],
                asked=asked,
                taken=list(reading.taken),
            )
        )
    asks = any(each.asked or each.wrong for each in heard)
    if dry_run or not acts or (asks and not (how.insist and may)):
        return LinesHeard(lines=heard, stored=False, can_insist=may)
    done = write(folder, before, acts, how, question="note")
    return LinesHeard(
        lines=heard,
        stored=done.stored,
        can_insist=done.can_insist,
        first=done.entries[0].key if done.stored and done.entries else "",
    )
