"""Why does it ail, and who bit it: the guided look on the command line."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.chance_words import chance_said
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import ASKED_BACK, tell_written
from spadework.faces.voice import Voice, in_years

if TYPE_CHECKING:
    from spadework.usecases.ailing_answer import AilingAnswer, Asked, Told


@Parameter(name="*")
@dataclass(frozen=True)
class Guided:
    """What was seen, on which plants, and whether it is for the book."""

    sign: Annotated[
        tuple[str, ...],
        Parameter(name="--sign", negative="", help="What you see, in your own words; many times."),
    ] = ()
    not_there: Annotated[
        tuple[str, ...], Parameter(name="--no", negative="", help="What is plainly not there; many times.")
    ] = ()
    not_known: Annotated[
        tuple[str, ...],
        Parameter(name="--unknown", negative="", help="Key of a sign that cannot be told; many times."),
    ] = ()
    bed: Annotated[str, Parameter(help="In which bed, where several stand.")] = ""
    planting: Annotated[str, Parameter(help="Which planting, by its key.")] = ""
    note: Annotated[
        bool,
        Parameter(negative="", help="Write it into the book, and lock every bed of a load that brought it."),
    ] = False
    held_to_be: Annotated[
        str, Parameter(name="--as", help="Note it as this trouble; else as the likeliest.")
    ] = ""
    by: Annotated[
        str, Parameter(help="Who writes; else SPADEWORK_BY of the environment, or the only keeper.")
    ] = ""


def ailing(crop: str = "", *, guided: Guided | None = None, common: Common | None = None) -> None:
    """Why a plant looks wrong: causes by their chances here and now, and the test that parts them.

    Parameters
    ----------
    crop : str
        Any name of the crop. With no --sign at a terminal it asks, question by question.
    """
    _run("ailing", crop, guided or Guided(), common or Common())


def bitten(crop: str = "", *, guided: Guided | None = None, common: Common | None = None) -> None:
    """Who ate it: only what eats, pecks, bites, bores and digs.

    Parameters
    ----------
    crop : str
        Any name of the crop. With no --sign at a terminal it asks, question by question.
    """
    _run("bitten", crop, guided or Guided(), common or Common())


def _run(asked: Asked, crop: str, guided: Guided, common: Common) -> None:
    from spadework.usecases.ailing import ask_ailing
    from spadework.usecases.ailing_answer import told_of
    from spadework.usecases.note_ailing import note_finding
    from spadework.usecases.write_answer import Writing

    told = told_of(guided.sign, guided.not_there, guided.not_known)
    if not crop and not guided.planting:
        raise ParameterError("Which plant is it?", f"Say: spadework {asked} CROP.")

    def ask(more: Told) -> AilingAnswer:
        return ask_ailing(
            common.garden, common.day, crop, more, bed=guided.bed, planting=guided.planting, asked=asked
        )

    nothing = not (told.words or told.not_there or told.looks)
    at_terminal = nothing and not common.json and sys.stdin.isatty()
    found = _asked(ask, told) if at_terminal else ask(told)
    if not (guided.note or guided.held_to_be):
        answer(common, found, lambda: _tell(found, voice_of(common)))
        return
    how = Writing(today=common.day, by=guided.by)
    written = note_finding(common.garden, how, found, cause=guided.held_to_be)
    if common.json:
        answer(common, written, lambda: None)
    else:
        _tell(found, voice_of(common))
        print()
        tell_written(written, voice_of(common))
    if not written.stored:
        sys.exit(ASKED_BACK)


def _asked(ask: Callable[[Told], AilingAnswer], told: Told) -> AilingAnswer:
    """Ask in words and then question by question, until nothing is worth asking or the person has enough."""
    from dataclasses import replace

    found = ask(told)
    where = f" in {found.where}" if found.where else ""
    print(wrapped(f"{found.name.capitalize()}{where}. Press Enter to leave at any time."))
    try:
        words = input("What do you see? ").strip()
        if not words:
            return found
        told = replace(told, words=(words,))
        found = ask(told)
        _tell_heard(found)
        while found.next_question is not None:
            question = found.next_question
            print(wrapped(f"{_leading(found)} {question.ask}"))
            said = input("  yes, no, ? (cannot tell), Enter for enough: ").strip().casefold()
            if not said:
                break
            told = told.answered(question.sign, said)
            found = ask(told)
    except (EOFError, KeyboardInterrupt):
        pass
    print()
    return found


def _leading(found: AilingAnswer) -> str:
    if not found.causes:
        return ""
    return f"({found.causes[0].name.capitalize()} {chance_said(found.causes[0].chance)} so far.)"


def _tell_heard(found: AilingAnswer) -> None:
    for heard in found.heard:
        meant = " or ".join(heard.meant)
        print(wrapped(f"“{heard.said}”: {'' if heard.there else 'not there: '}{meant}.", 2, first="Heard "))
    for missed in found.not_heard:
        near = f" Nearest: {'; '.join(missed.nearest)}." if missed.nearest else ""
        print(wrapped(f"Not understood: “{missed.said}”.{near}", 2, first=""))


def _tell(found: AilingAnswer, voice: Voice) -> None:
    tell_locks(found.locks, voice)
    where = f" in {found.where}" if found.where else ", which do not stand here by the book"
    print(wrapped(f"{found.name.capitalize()}{where}{_AGE.get(found.age or '', '')}."))
    _tell_heard(found)
    if not found.causes:
        print(wrapped('Say what you see: --sign "holes in the leaves", as often as there are signs.'))
        return
    for cause in found.causes:
        print()
        print(f"{chance_said(cause.chance):>11}  {cause.name.capitalize()}")
        for reason in cause.reasons_for:
            print(wrapped(voice.told(reason), 15, first=" " * 13 + "+ "))
        for reason in cause.against:
            print(wrapped(voice.told(reason), 15, first=" " * 13 + "- "))
        if cause.test:
            print(wrapped(f"Test: {voice.told(cause.test)}", 13))
    print()
    print(f"{chance_said(found.other):>11}  Something not in the list")
    if found.next_question is not None:
        question = found.next_question
        print()
        print(wrapped(f"Look next: {question.ask}"))
        print(f"  Add --sign, --no or --unknown with {question.sign}")
    _tell_doing(found, voice)


def _tell_doing(found: AilingAnswer, voice: Voice) -> None:
    if found.before_dark:
        print("\nBefore dark:")
        for todo in found.before_dark:
            lacking = "" if todo.at_hand else f" (needs {todo.kit}, and none is told of)"
            print(wrapped(f"{voice.told(todo.act)}{lacking}", 4, first="  · "))
    if found.decision is not None:
        print()
        print(wrapped(f"Keep or pull: {voice.told(found.decision.says)}"))
        if found.decision.keep is not None and found.decision.again is not None:
            print(
                wrapped(
                    f"Spared, it gets there {in_years(found.decision.keep)}; started anew today, "
                    f"{in_years(found.decision.again)}."
                )
            )
    for line in found.neighbours:
        print("\n" + wrapped(f"Others are at risk. {voice.told(line)}"))
    if found.load is not None:
        load = found.load
        beds = ", ".join(f"{each.name}{' (locked)' if each.locked else ''}" for each in load.beds)
        print()
        came = f"It may have come with {load.material} of {voice.day(load.came_on)}."
        print(wrapped(f"{came} Beds that had it: {beds}."))
        if load.test and not all(each.locked for each in load.beds):
            print(wrapped(f"--note locks them for planting until this is shown: {load.test}."))
    for line in found.laboratory:
        print("\n" + wrapped(f"To a laboratory: {voice.told(line)}"))
    for line in found.cautions:
        print("\n" + wrapped(f"Mind: {voice.told(line)}"))
    if found.note:
        print("\n" + wrapped(voice.told(found.note)))


_AGE = {
    "seed": ", not yet up",
    "seedling": ", seedlings",
    "young": ", young plants",
    "leafy": ", in leaf",
    "flowering": ", in flower",
    "fruiting": ", setting or swelling",
    "ripe": ", ready",
}
