"""The garden out into one file, and in again."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.progress import progress
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import ASKED_BACK
from spadework.faces.voice import Voice

if TYPE_CHECKING:
    from spadework.usecases.carry_lists import ListTaken

_MOST_QUESTIONS = 12


def export(file: Path, *, common: Common | None = None) -> None:
    """Write the garden to a new file: FILE.zip for all of it, FILE.xlsx to look at.

    Parameters
    ----------
    file : Path
        .zip: book, predictions, settings, own numbers, weather, photos, plan and tables, to be read back.
        .xlsx: locks, beds, plantings, harvests, kit, seed, people and the book in the garden's own units.
    """
    from spadework.usecases.carry_out import carry_out

    common = common or Common()
    voice = voice_of(common)
    with progress("Writing") as step:
        found = carry_out(common.garden, file, common.day, told=voice.told, step=step)

    def tell() -> None:
        tell_locks(found.locks, voice)
        held = [
            counted(number, *words)
            for number, words in (
                (found.entries, ("entry", "entries")),
                (found.beds, ("bed",)),
                (found.plantings, ("planting",)),
                (found.photos, ("photo",)),
                (found.weather_days, ("day of weather", "days of weather")),
                (found.predictions, ("prediction",)),
            )
            if number
        ]
        print(wrapped(f"{found.garden} is written to {found.file}: {', '.join(held) or 'an empty book'}."))
        if found.damage:
            print(wrapped("The book is damaged: this holds what could be read of it, and no more."))
        for line in found.left_out:
            print(wrapped(line, 2, "· "))
        if found.form == "archive":
            print(wrapped(f"Bring it back with: spadework import {found.file} --garden NEW-FOLDER"))
        else:
            print(wrapped("To look at, not to bring the garden back: for that, export a .zip."))

    answer(common, found, tell)


def import_(
    file: Path,
    *,
    as_: Annotated[
        Literal["beds", "years"] | None,
        Parameter(name="--as", help="What a spreadsheet or CSV file is a list of."),
    ] = None,
    units: Annotated[
        Literal["m", "cm", "mm", "ft", "in"] | None,
        Parameter(help="Of lengths in a list of beds, where neither title nor cell says."),
    ] = None,
    sheet: Annotated[str | None, Parameter(help="Which sheet of a spreadsheet.")] = None,
    as_entries: Annotated[
        bool,
        Parameter(negative="", help="Past years with days of sowing and last picking as plantings."),
    ] = False,
    dry_run: Annotated[bool, Parameter(negative="", help="Only say what would be written.")] = False,
    insist: Annotated[bool, Parameter(negative="", help="Write although something was asked.")] = False,
    by: Annotated[str | None, Parameter(help="Who writes.")] = None,
    common: Common | None = None,
) -> None:
    """Take in an archive (FILE.zip), a list of beds or of past years (FILE.xlsx, FILE.csv). All or nothing.

    Parameters
    ----------
    file : Path
        Made by `spadework export`, or a table with a row of titles.
    """
    common = common or Common()
    asked = (as_, units, sheet, as_entries or None, dry_run or None, insist or None, by)
    if file.suffix.lower() == ".zip":
        if any(word is not None for word in asked):
            raise ParameterError("An archive is taken in whole.", "Give nothing but the file and --garden.")
        _import_archive(file, common)
    elif as_ is None:
        raise ParameterError(
            f"{file.name} does not say what it is a list of.", "Give --as beds or --as years."
        )
    elif as_ == "beds":
        if as_entries:
            raise ParameterError("--as-entries is for past years.", "Leave it out.")
        from spadework.usecases.carry_beds import carry_beds

        found = carry_beds(
            file, common.garden, common.day,
            units=units or "", sheet=sheet or "", by=by or "", insist=insist, trial=dry_run,
        )  # fmt: skip
        _answer_list(common, found, "bed")
    else:
        if units is not None:
            raise ParameterError("--units is for a list of beds.", "Name the unit of weights in the title.")
        from spadework.usecases.carry_years import carry_years

        found = carry_years(
            file, common.garden, common.day,
            as_entries=as_entries, sheet=sheet or "", by=by or "", insist=insist, trial=dry_run,
        )  # fmt: skip
        _answer_list(common, found, "row")


def _answer_list(common: Common, found: ListTaken, thing: str) -> None:
    """Say what a list brought; where something was asked and nothing written, leave saying so."""
    answer(common, found, lambda: _tell_list(found, thing))
    if found.questions and not found.stored:
        sys.exit(ASKED_BACK)


def _tell_list(found: ListTaken, thing: str) -> None:
    parts = [
        f"{counted(number, thing)} {word}"
        for number, word in ((found.new, "new"), (found.changed, "changed"), (found.known, "known already"))
        if number
    ]
    said = ", ".join(parts) or f"no {thing}"
    if found.stored:
        print(
            wrapped(
                f"{found.file}: {said}."
                if found.new or found.changed
                else f"{found.file}: {said}. Nothing to write."
            )
        )
    elif found.trial and not found.questions:
        print(wrapped(f"{found.file} would bring: {said}. Nothing was written."))
    else:
        print(wrapped(f"{found.file}: {said}. Nothing was written."))
    for note in found.notes:
        print(wrapped(note, 2, "· "))
    for question in found.questions[:_MOST_QUESTIONS]:
        near = f" Nearest: {', '.join(question.nearest)}." if question.nearest else ""
        print(wrapped(f"Row {question.row}: {question.found} {question.why}{near}", 2, "? "))
    if len(found.questions) > _MOST_QUESTIONS:
        print(f"? and {len(found.questions) - _MOST_QUESTIONS} more.")
    if found.questions and not found.stored:
        if all(question.may_insist for question in found.questions):
            print("If it is so all the same, add --insist.")
        else:
            print("Correct the list first.")


def _import_archive(file: Path, common: Common) -> None:
    from spadework.usecases.carry_in import carry_in

    with progress("Reading") as step:
        found = carry_in(file, common.garden, common.day, step=step)

    def tell() -> None:
        voice = Voice(us=found.units == "us", today=common.day)
        tell_locks(found.locks, voice)
        if found.made:
            print(wrapped(f"{found.garden} is in {found.folder}."))
        brought = [
            counted(number, *words)
            for number, words in (
                (found.entries, ("entry", "entries")),
                (found.predictions, ("prediction",)),
                (found.photos, ("photo",)),
                (found.weather_days, ("day of weather", "days of weather")),
            )
            if number
        ]
        print(wrapped(f"New: {', '.join(brought)}." if brought else "All of it was here already."))
        if found.known:
            print(wrapped(f"{counted(found.known, 'entry was', 'entries were')} here already."))
        for name in found.stayed:
            print(wrapped(f"{name} says something else here and was left as it is here."))
        if found.damage:
            print(wrapped("The book it was made from was damaged, so this is what could be read of it."))
        for line in found.left_out:
            print(wrapped(line, 2, "· "))

    answer(common, found, tell)


def counted(number: int, one: str, more: str = "") -> str:
    """A number with its noun."""
    return f"{number} {one if number == 1 else more or one + 's'}"
