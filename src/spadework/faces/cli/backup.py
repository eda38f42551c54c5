"""Copies of the garden, and the way back from one."""

from __future__ import annotations

from pathlib import Path

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.inout import counted
from spadework.faces.cli.progress import progress
from spadework.faces.cli.say import wrapped

_MOST_SHOWN = 8


def backup(file: Path | None = None, *, common: Common | None = None) -> None:
    """Copy the whole garden into one file: book, settings, weather and photos.

    Parameters
    ----------
    file : Path
        A new file, on another disk if you can; by default one in the garden's own folder for copies.
    """
    from spadework.usecases.keep_copies import copy_garden

    common = common or Common()
    with progress("Copying") as step:
        found = copy_garden(common.garden, file, step=step)

    def tell() -> None:
        print(
            wrapped(
                f"{found.garden} is copied to {found.file} ({found.size_mb:.1f} MB) and was read again: "
                f"{counted(found.entries, 'entry', 'entries')}, {counted(found.predictions, 'prediction')}, "
                f"{counted(found.files, 'other file')}."
            )
        )
        print(wrapped(f"The way back: spadework restore {found.file} --garden {common.garden}"))
        if file is None:
            print("A copy on the same disk goes when the disk goes: keep one elsewhere too.")

    answer(common, found, tell)


def restore(file: Path | None = None, *, common: Common | None = None) -> None:
    """Bring the book back from a copy, with everything that can still be read of the book itself.

    Nothing acknowledged is dropped: a sound book gains what only the copy has, a damaged one is set aside and
    kept.

    Parameters
    ----------
    file : Path
        Made by `spadework backup`; by default the newest sound one in the garden's own folder for copies.
    """
    from spadework.usecases.keep_copies import bring_back

    common = common or Common()
    with progress("Bringing back") as step:
        found = bring_back(common.garden, file, step=step)

    def tell() -> None:
        entries = counted(found.entries, "entry", "entries")
        if found.made:
            print(wrapped(f"The garden is in {common.garden}: {entries}, from {found.copy}."))
        elif found.was_damaged:
            came = f"from {found.copy}" if found.copy else "from what could be read of the damaged one"
            print(wrapped(f"The book is whole again: {entries}, {came}."))
        elif not found.copy:
            print(
                wrapped(f"The book is sound ({entries}), and there is no copy in backups. Nothing was done.")
            )
        else:
            print(wrapped(f"The book was sound. It has {entries} now, with what {found.copy} had."))
        if found.copy and not found.made:
            print(
                wrapped(
                    f"{found.from_copy} of the copy, and {found.saved} that only the book itself had.",
                    2,
                    "· ",
                )
            )
        for key in found.disagreeing[:_MOST_SHOWN]:
            print(
                wrapped(
                    f"Entry {key} says one thing in the copy and another in the book; "
                    f"{'the copy' if found.was_damaged else 'the book'} was believed.",
                    2,
                    "· ",
                )
            )
        if len(found.disagreeing) > _MOST_SHOWN:
            print(f"· and {len(found.disagreeing) - _MOST_SHOWN} more like that.")
        if found.files:
            shown = ", ".join(found.files[:_MOST_SHOWN])
            more = f" and {len(found.files) - _MOST_SHOWN} more" if len(found.files) > _MOST_SHOWN else ""
            print(wrapped(f"Missing files brought back: {shown}{more}.", 2, "· "))
        for name in found.unreadable[:_MOST_SHOWN]:
            print(wrapped(f"{name} is missing, and the copy of it cannot be read.", 2, "· "))
        if found.set_aside:
            print(wrapped(f"The damaged book is kept as {found.set_aside}.", 2, "· "))

    answer(common, found, tell)
