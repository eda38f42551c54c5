"""Photos: list them, put one into the book, write one out as a file."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from spadework.errors import GardenError
from spadework.faces.cli.common import Common, Writes, answer
from spadework.faces.cli.lock_say import tell_locks
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.written import answer_written

SHORT = 6
"""So many signs from the end of an entry's key name its photo."""


def tell_photos(common: Common, bed: str, planting: str) -> None:
    """Photos of a bed or planting, or all, newest first."""
    from spadework.usecases.keep_photo import show_photos

    found = show_photos(common.garden, common.day, bed=bed, planting=planting)

    def tell() -> None:
        voice = voice_of(common)
        tell_locks(found.locks, voice)
        if not found.photos:
            print("No photo. Put one into the book: spadework photo add FILE --bed BED")
        for photo in found.photos:
            where = ", ".join(part for part in (photo.bed_name, photo.planting_name) if part)
            words = f": {photo.words}" if photo.words else ""
            head = f"{photo.entry[-SHORT:].lower()}  {voice.day(photo.on)}  "
            print(wrapped(f"{head}{where or 'the garden'}{words}", 10, first="  "))
        if found.photos:
            print("\nWrite one out by its signs: spadework photo save SIGNS FILE")

    answer(common, found, tell)


def add(
    file: Path,
    *,
    bed: Annotated[str, Parameter(help="Which bed is on it.")] = "",
    planting: Annotated[str, Parameter(help="Or which planting, by its key in `standing`.")] = "",
    words: Annotated[str, Parameter(help="What is on it.")] = "",
    writes: Writes | None = None,
    common: Common | None = None,
) -> None:
    """Put a photo into the book, without what the camera wrote into it.

    Parameters
    ----------
    file : Path
        JPEG, PNG, WebP or HEIC; it stays where it is, a copy is kept.
    """
    from spadework.usecases.keep_photo import keep_photo

    common, writes = common or Common(), writes or Writes()
    try:
        data = file.read_bytes()
    except OSError as error:
        raise GardenError(f"{file} cannot be read ({error.strerror}).", "Give the path of a photo.") from None
    found = keep_photo(common.garden, data, writes.writing(common), bed=bed, planting=planting, words=words)
    if found.note and not common.json:
        print(wrapped(found.note, 2, first="! "))
    answer_written(common, found.answer)


def save(
    photo: str,
    file: Path,
    *,
    over: Annotated[bool, Parameter(negative="", help="Replace a file that is there.")] = False,
    common: Common | None = None,
) -> None:
    """Write a photo of the book out as a file.

    Parameters
    ----------
    photo : str
        Its signs as `spadework photo` lists them.
    file : Path
        Such as bed3.jpg.
    """
    from spadework.usecases.keep_photo import save_photo

    common = common or Common()
    found = save_photo(common.garden, common.day, photo, file, over=over)
    answer(common, found, lambda: print(wrapped(f"Written to {found.file}: {found.kilobytes} kB.")))
