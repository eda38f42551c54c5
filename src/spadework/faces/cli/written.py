"""What is said after writing into the book."""

from __future__ import annotations

import sys

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.voice import Voice
from spadework.usecases.keep_book import Asked
from spadework.usecases.show_book import BookLine
from spadework.usecases.write_answer import WriteAnswer

ASKED_BACK = 3
"""Exit code where something was asked and nothing was written."""


def answer_written(common: Common, found: WriteAnswer) -> None:
    """Say what was written or asked; leaves with 3 where nothing was written."""
    answer(common, found, lambda: tell_written(found, voice_of(common)))
    if not found.stored:
        sys.exit(ASKED_BACK)


def tell_written(found: WriteAnswer, voice: Voice) -> None:
    """The entries, what was asked about each, and the locks."""
    for place, line in enumerate(found.entries, start=1):
        asked = [question for question in found.questions if question.act == place]
        if found.stored or asked:
            print(wrapped(_entry(line, found.stored, voice), 2, first=""))
        for question in asked:
            print(wrapped(f"{'' if found.stored else '? '}{_question(question, voice)}", 4, first="  "))
    if found.stored:
        tell_locks(found.locks, voice, gap=False)
        return
    way = (
        "If it is so all the same, say it again with --insist."
        if found.can_insist
        else "It cannot be written like that."
    )
    print(wrapped(f"Nothing was written. {way}"))


def _entry(line: BookLine, stored: bool, voice: Voice) -> str:
    day = "" if line.on == voice.today else f"{voice.day(line.on, weekday=True)}: "
    text = f"{day}{voice.told(line.text)}"
    return f"Written {line.short}  {text}" if stored else text


def _question(question: Asked, voice: Voice) -> str:
    near = f" Nearest: {', '.join(question.nearest)}." if question.nearest else ""
    return voice.told(f"{question.found} {question.why}{near}")
