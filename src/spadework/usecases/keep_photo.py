"""Keep a photo of a bed or a planting, without what the camera hid in it, and write of it."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Final

import msgspec

from spadework.errors import GardenError, ParameterError, UnknownName
from spadework.garden.entries import Photo
from spadework.garden.state import Garden
from spadework.store.photo_strip import stripped
from spadework.store.photos import LARGEST_BYTES, Photos, media_of
from spadework.usecases.bed_names import bed_called
from spadework.usecases.keep_book import Act
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.look import look_at
from spadework.usecases.show_planting import planting_called
from spadework.usecases.show_plantings import planting_name
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

NOT_SHOWN: Final = (
    "It is a HEIC file, which most browsers cannot show; here it can be opened as a file. Set the camera to "
    "save JPEG, often called most compatible, and photos are shown."
)


class PhotoKept(msgspec.Struct, frozen=True, kw_only=True):
    """A photo in the book.

    Parameters
    ----------
    sha256 : str
        What the file is called by.
    answer : WriteAnswer
    note : str
        What is to be known of it: that a place may be in the file.
    """

    sha256: str
    answer: WriteAnswer
    note: str


class PhotoShown(msgspec.Struct, frozen=True, kw_only=True):
    """A photo that stands in the book."""

    sha256: str
    media: str
    on: date
    words: str
    bed: str
    planting: str
    entry: str
    shows: bool
    """Whether a browser can show it; a HEIC file is only given as a file."""
    bed_name: str = ""
    planting_name: str = ""


class PhotoSaved(msgspec.Struct, frozen=True, kw_only=True):
    """Where a photo was written to, and how large it is."""

    question: str
    today: date
    file: str
    media: str
    kilobytes: int


class PhotoList(msgspec.Struct, frozen=True, kw_only=True):
    """Photos that stand in the book, newest first, with the locks on where they were taken."""

    question: str
    today: date
    photos: list[PhotoShown]
    locks: list[LockLine]
    damage: str = ""


def keep_photo(
    path: Path, data: bytes, how: Writing, *, bed: str = "", planting: str = "", words: str = ""
) -> PhotoKept:
    """Keep a photo and write of it.

    Parameters
    ----------
    path : Path
    data : bytes
        The file as the camera wrote it: JPEG, PNG, WebP or HEIC, known by its content and not by its name.
    how : Writing
    bed, planting : str
        What is on it; a planting by key.
    words : str

    Raises
    ------
    ParameterError
        If it is no photo, is broken off, or has more than 50 MB.
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    if not data:
        raise ParameterError("No photo came with it.", "Take or choose one.")
    if len(data) > LARGEST_BYTES:
        raise ParameterError(f"The photo has {len(data) / 1e6:.0f} MB.", "Give one of at most 50 MB.")
    media = media_of(data)
    bed_key = bed_called(state.garden, bed).key if bed else ""
    if planting and planting not in state.garden.plantings:
        raise UnknownName(f"No planting is called {planting!r}.", "Choose one that is in the book.")
    photo = Photos(path).keep(stripped(data, media), words.strip())
    act = Act(payload=photo, on=how.day, bed=bed_key, planting=planting)
    answer = write(folder, state, [act], how, question="photo")
    return PhotoKept(sha256=photo.sha256, answer=answer, note=NOT_SHOWN if media == "image/heic" else "")


def read_photo(path: Path, sha256: str) -> tuple[bytes, str]:
    """A photo and what kind of picture it is.

    Raises
    ------
    UnknownName, StoreDamaged
    """
    data = Photos(path).read(sha256)
    return data, media_of(data)


def save_photo(path: Path, today: date, entry: str, file: Path, *, over: bool = False) -> PhotoSaved:
    """Write a photo of the book to a file.

    Parameters
    ----------
    path : Path
    today : date
    entry : str
        The end of the key of its entry.
    file : Path
    over : bool
        Replace a file that is there.

    Raises
    ------
    UnknownName
        If no photo's key ends so, or several do.
    GardenError
        If the file is there already, or cannot be written.
    StoreDamaged
    """
    asked = entry.strip().upper()
    there = list_photos(path, today, most=100_000)
    found = [each for each in there if asked and each.entry.endswith(asked)]
    if len(found) != 1:
        raise UnknownName(
            f"{len(found)} photos end in {entry!r}." if found else f"No photo ends in {entry!r}.",
            "See them with: spadework photo",
        )
    data, media = read_photo(path, found[0].sha256)
    if file.exists() and not over:
        raise GardenError(f"{file} is there already.", "Choose another name, or give --over to replace it.")
    try:
        file.write_bytes(data)
    except OSError as error:
        raise GardenError(f"{file} cannot be written: {error.strerror}.", "Choose another place.") from None
    return PhotoSaved(
        question="photo save", today=today, file=str(file), media=media, kilobytes=round(len(data) / 1000)
    )


def list_photos(
    path: Path, today: date, *, bed: str = "", planting: str = "", most: int = 200
) -> list[PhotoShown]:
    """Photos that stand in the book, as `photos_of`.

    Raises
    ------
    GardenError, StoreError
    """
    return photos_of(look_at(path, today).garden, bed=bed, planting=planting, most=most)


def show_photos(path: Path, today: date, *, bed: str = "", planting: str = "") -> PhotoList:
    """Photos of a bed or a planting, by any of their names; all where neither is given.

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    look = look_at(path, today)
    garden = look.garden
    bed = bed_called(garden, bed).key if bed else ""
    planting = planting_called(look, planting).key if planting else ""
    found = [
        msgspec.structs.replace(
            each,
            bed_name=garden.beds[each.bed].name if each.bed in garden.beds else "",
            planting_name=planting_name(garden.plantings[each.planting], look.words)
            if each.planting in garden.plantings
            else "",
        )
        for each in photos_of(garden, bed=bed, planting=planting, most=len(garden.entries))
    ]
    locks: dict[str, LockLine] = {}
    for at, of in dict.fromkeys([(bed, planting), *((each.bed, each.planting) for each in found)]):
        for line in lock_lines(garden, today, bed=at, planting=of, words=look.words) if at or of else ():
            locks[line.lock + line.subject] = line
    return PhotoList(
        question="photo", today=today, photos=found, locks=list(locks.values()), damage=look.damage
    )


def photos_of(garden: Garden, *, bed: str = "", planting: str = "", most: int = 24) -> list[PhotoShown]:
    """Photos of a bed or a planting that stand in the book, newest first; all where neither is named.

    Parameters
    ----------
    garden : Garden
    bed, planting : str
        By key.
    most : int
    """
    found = []
    for entry in sorted(garden.entries, key=lambda each: each.happened_on, reverse=True):
        if not isinstance(entry.act, Photo):
            continue
        grown = garden.plantings.get(entry.planting)
        stood = entry.bed or ("" if grown is None else grown.bed_on(entry.happened_on) or grown.bed)
        if (bed and stood != bed) or (planting and entry.planting != planting):
            continue
        found.append(
            PhotoShown(
                sha256=entry.act.sha256,
                media=entry.act.media,
                on=entry.happened_on,
                words=entry.act.words,
                bed=stood,
                planting=entry.planting,
                entry=entry.key,
                shows=entry.act.media != "image/heic",
            )
        )
    return found[:most]
