"""Copy the whole garden, and bring the book back from a copy."""

from __future__ import annotations

from pathlib import Path

import msgspec

from spadework.errors import GardenError
from spadework.store.backup import back_up
from spadework.store.copies import Step, unheard
from spadework.store.garden_folder import GARDEN_FILE, open_garden
from spadework.store.restore import restore


class CopyMade(msgspec.Struct, frozen=True, kw_only=True):
    """A copy that was written and read again.

    Parameters
    ----------
    garden, file : str
    entries, predictions : int
        Of the book, as read from the copy.
    files : int
        Others: settings, weather, photos.
    size_mb : float  [MB]
    """

    garden: str
    file: str
    entries: int
    predictions: int
    files: int
    size_mb: float


class BroughtBack(msgspec.Struct, frozen=True, kw_only=True):
    """A book brought back.

    Parameters
    ----------
    copy : str
        What it came from; empty where all of it was read from the damaged book.
    made : bool
        There was no garden before.
    was_damaged : bool
    entries : int
        In the book now, read again.
    from_copy, saved : int
        Entries of the copy; entries that only the book itself had.
    disagreeing : list of str
        Keys of entries that say one thing in the copy and another in the book.
    set_aside : str
        Where the damaged book now lies.
    files : list of str
        Other files brought back because they were missing.
    unreadable : list of str
        Files that are missing too and cannot be read of the copy.
    """

    copy: str
    made: bool
    was_damaged: bool
    entries: int
    from_copy: int
    saved: int
    disagreeing: list[str]
    set_aside: str
    files: list[str]
    unreadable: list[str]


def copy_garden(folder: Path, to: Path | None = None, *, step: Step = unheard) -> CopyMade:
    """Copy everything of a garden into one file.

    Parameters
    ----------
    folder : Path
    to : Path or None
        A new file; by default one in the garden's own folder for copies.
    step : Step

    Raises
    ------
    GardenError, StoreError
        If there is no garden, its book is damaged, or the file exists or cannot be written.
    """
    site = open_garden(folder).site
    done = back_up(folder, to, step=step)
    return CopyMade(
        garden=site.name,
        file=str(done.path),
        entries=done.entries,
        predictions=done.predictions,
        files=done.files,
        size_mb=round(done.path.stat().st_size / 1e6, 3),
    )


def bring_back(folder: Path, copy: Path | None = None, *, step: Step = unheard) -> BroughtBack:
    """Bring the book back from a copy, and every other file that is missing.

    Parameters
    ----------
    folder : Path
        A garden, damaged or not; or with a copy of a whole garden an empty folder, or none.
    copy : Path or None
        By default the newest in the garden's own folder for copies; the path may go from there or from the
        garden.
    step : Step

    Raises
    ------
    GardenError
        If there is neither a garden nor a copy named.
    StoreError
        If the copy is not sound, or nothing can be brought back.
    """
    made = not (folder / GARDEN_FILE).exists()
    if copy is not None and not copy.exists() and (folder / copy).exists():
        copy = folder / copy
    if made:
        if copy is None:
            raise GardenError(f"No garden in {folder}.", "Name the copy to bring it back from.")
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise GardenError(f"{folder} cannot be made: {error.strerror}.", "Name another folder.") from None
    done = restore(folder, copy, step=step)
    return BroughtBack(
        copy="" if done.backup is None else str(done.backup),
        made=made,
        was_damaged=bool(done.set_aside),
        entries=done.entries,
        from_copy=done.from_backup,
        saved=done.saved,
        disagreeing=list(done.disagreeing),
        set_aside=done.set_aside,
        files=list(done.files),
        unreadable=list(done.unreadable),
    )
