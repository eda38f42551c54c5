"""The garden out into one file, and in again."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.progress import progress
from spadework.faces.cli.say import Voice, wrapped

if TYPE_CHECKING:
    from spadework.usecases.carry_out import LockSaid


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
        whole = (
            f"; {counted(found.photos, 'photo')}, {counted(found.weather_days, 'day')} of weather, "
            f"{counted(found.predictions, 'prediction')}"
        )
        print(
            wrapped(
                f"{found.garden} is written to {found.file}: {counted(found.entries, 'entry', 'entries')}, "
                f"{counted(found.beds, 'bed')}, {counted(found.plantings, 'planting')}"
                f"{whole if found.form == 'archive' else ''}."
            )
        )
        if found.damage:
            print(wrapped("The book is damaged: this holds what could be read of it, and no more."))
        for line in found.left_out:
            print(wrapped(line, 2, "· "))
        if found.form == "archive":
            print(wrapped(f"Bring it back with: spadework import {found.file} --garden NEW-FOLDER"))
        else:
            print(wrapped("To look at, not to bring the garden back: for that, export a .zip."))

    answer(common, found, tell)


def import_(file: Path, *, common: Common | None = None) -> None:
    """Take an archive in: as a new garden, or joined to the one that is there. All of it or nothing.

    Parameters
    ----------
    file : Path
        Made by `spadework export`.
    """
    from spadework.usecases.carry_in import carry_in

    common = common or Common()
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


def tell_locks(locks: list[LockSaid], voice: Voice) -> None:
    """Locks in force, before anything else."""
    for lock in locks:
        until = f"until {voice.day(lock.until)}" if lock.until else ""
        test = f"until tested: {lock.test}" if lock.test else ""
        when = until or test or "until someone who may lifts it"
        print(wrapped(f"LOCKED {lock.subject}: no {lock.stops} {when}. {lock.why.rstrip('.')}.", 2, ""))


def counted(number: int, one: str, more: str = "") -> str:
    """A number with its noun."""
    return f"{number} {one if number == 1 else more or one + 's'}"
