"""Say what was done or seen in a line; it is echoed as it was understood."""

from __future__ import annotations

import sys
from typing import Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError, SpadeworkError
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import ASKED_BACK
from spadework.faces.voice import Voice
from spadework.usecases.keep_book import Asked
from spadework.usecases.note_line import NotedLine, NotedLines, Understood, note_line
from spadework.usecases.say_lines import SaidLines
from spadework.usecases.write_answer import Writing

_SHORT = 6
_MOST_NAMED = 8
"""More beds or plantings than these are not read out."""
_NOTE = ("it would be a note", "it is kept as a note")


def note(
    *words: Annotated[str, Parameter(allow_leading_hyphen=True)],
    by: Annotated[
        str, Parameter(help="Who writes; else SPADEWORK_BY of the environment, or the only keeper.")
    ] = "",
    bed: Annotated[str, Parameter(help="Which bed, where the line leaves it open; or all.")] = "",
    planting: Annotated[
        str, Parameter(help="Which planting or crop, where the line leaves it open; or all.")
    ] = "",
    insist: Annotated[
        bool, Parameter(negative="", help="It is so, although the program asks; the entry is marked.")
    ] = False,
    dry_run: Annotated[bool, Parameter(negative="", help="Only say how it is understood.")] = False,
    together: Annotated[
        bool, Parameter(negative="", help="With -: all lines are written, or none of them.")
    ] = False,
    common: Common | None = None,
) -> None:
    """Tell the book in your own words what was done or seen.

    Parameters
    ----------
    words : str
        "picked 2 kg carrots from bed 3 yesterday". A lone - reads lines from standard input, each written by
        itself.
    """
    common = common or Common()
    how = Writing(today=common.day, by=by, insist=insist)
    said = " ".join(words)
    if said.strip() != "-":
        found = note_line(common.garden, said, how, bed=bed, planting=planting, dry_run=dry_run)
        answer(common, found, lambda: tell_line(found, voice_of(common)))
        if not found.stored and (found.questions or not found.dry_run):
            sys.exit(ASKED_BACK)
        return
    lines = [line for line in sys.stdin.read().splitlines() if line.strip()]
    if not lines:
        raise ParameterError("No line came in.", "Give one line of words to each entry.")
    if together:
        _say_together(common, how, lines, dry_run=dry_run)
        return
    noted: list[NotedLine] = []
    for at, line in enumerate(lines, start=1):
        try:
            noted.append(note_line(common.garden, line, how, bed=bed, planting=planting, dry_run=dry_run))
        except SpadeworkError as error:
            _tell_lines(common, noted)
            raise type(error)(f"Line {at}: {error.message}", error.hint) from None
    _tell_lines(common, noted)
    if any(not each.stored for each in noted) and not dry_run:
        sys.exit(ASKED_BACK)


def _say_together(common: Common, how: Writing, lines: list[str], *, dry_run: bool) -> None:
    """Several lines in one act: each understood in the garden the earlier ones leave."""
    from spadework.usecases.say_lines import say_lines

    found = say_lines(common.garden, "\n".join(lines), how, only_ask=dry_run)
    answer(common, found, lambda: _tell_together(found, voice_of(common), dry_run=dry_run))
    if not found.stored and not dry_run:
        sys.exit(ASKED_BACK)


def _tell_together(found: SaidLines, voice: Voice, *, dry_run: bool) -> None:
    for each in found.lines:
        print(wrapped(f"> {each.line}", 2, first=""))
        for entry in each.understood:
            print(wrapped(_entry(entry, "", voice), 4, first="  "))
        for question in each.questions:
            choices = (
                f" Which: {', '.join(one.name for one in question.choices)}?" if question.choices else ""
            )
            told = voice.told(f"{question.found} {question.why}".strip())
            print(wrapped(f"{told}{choices}", 4, first="  " if found.stored else "  ? "))
        if each.as_note:
            print(wrapped(f"Nothing more was understood in it; {_NOTE[found.stored]}.", 4, first="  "))
        if each.taken:
            taken = "; ".join(voice.told(one) for one in each.taken)
            print(wrapped(f"Taken for granted: {taken}.", 4, first="  "))
        if each.unused:
            print(wrapped(f"Not used: {each.unused}.", 4, first="  "))
    locks = {line.lock + line.subject: line for each in found.lines for line in each.locks}
    locks |= {line.lock + line.subject: line for line in found.locks}
    tell_locks(locks.values(), voice, gap=False)
    if found.stored:
        keys = ", ".join(line.short for line in found.entries)
        print(wrapped(f"Written, all together: {keys}."))
        return
    way = " If it is so all the same, say it again with --insist." if found.can_insist else ""
    print("Nothing was written: --dry-run." if dry_run else f"Nothing was written, of no line.{way}")


def _tell_lines(common: Common, noted: list[NotedLine]) -> None:
    def tell() -> None:
        for each in noted:
            print(wrapped(f"> {each.line}", 2, first=""))
            tell_line(each, voice_of(common))

    if noted:
        answer(common, NotedLines(question="note", today=common.day, lines=noted), tell)


def tell_line(found: NotedLine, voice: Voice) -> None:
    """How a line was understood, what is asked, and what was taken for granted."""
    for question in found.questions:
        if question.act == 0:
            print(wrapped(_question(question, voice), 4, first="  ? "))
    for place, entry in enumerate(found.understood, start=1):
        print(wrapped(_entry(entry, found.written[place - 1] if found.stored else "", voice), 2, first=""))
        for question in found.questions:
            if question.act == place:
                print(wrapped(_question(question, voice), 4, first="  " if found.stored else "  ? "))
    if found.as_note:
        kept = "it is kept as a note" if found.stored else "it would be a note"
        print(wrapped(f"Nothing more was understood in it; {kept}.", 2))
    if found.taken:
        print(wrapped(f"Taken for granted: {'; '.join(voice.told(each) for each in found.taken)}.", 2))
    if found.unused:
        print(wrapped(f"Not used: {found.unused}.", 2))
    if found.stored or found.dry_run:
        tell_locks(found.locks, voice, gap=False)
    if found.stored:
        return
    if found.dry_run:
        print("Nothing was written: --dry-run.")
    elif found.questions:
        way = " If it is so all the same, say it again with --insist." if found.can_insist else ""
        print(f"Nothing was written.{way}")


def _entry(entry: Understood, key: str, voice: Voice) -> str:
    day = "" if entry.on == voice.today else f"{voice.day(entry.on, weekday=True)}: "
    by = f"{entry.by_name}: " if entry.by else ""
    text = f"{day}{by}{voice.told(entry.text)}"
    return f"Written {key[-_SHORT:].lower()}  {text}" if key else text


def _question(question: Asked, voice: Voice) -> str:
    known = question.act == 0 and all(name in question.found + question.why for name in question.nearest)
    near = f" Nearest: {', '.join(question.nearest)}." if question.nearest and not known else ""
    return voice.told(f"{question.found} {question.why}{near}")
