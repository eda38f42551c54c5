"""Keep a photo of a bed or a planting, without what the camera hid in it, and write of it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.errors import ParameterError, UnknownName
from spadework.garden.entries import Photo
from spadework.garden.state import Garden
from spadework.store.photo_strip import keeps_place, stripped
from spadework.store.photos import LARGEST_BYTES, Photos, media_of
from spadework.usecases.bed_names import bed_called
from spadework.usecases.keep_book import Act
from spadework.usecases.look import look_at
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

PLACE_KEPT = (
    "It is a HEIC file: what the camera wrote into it, the place too where it does that, stays in it."
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
    return PhotoKept(sha256=photo.sha256, answer=answer, note=PLACE_KEPT if keeps_place(media) else "")


def read_photo(path: Path, sha256: str) -> tuple[bytes, str]:
    """A photo and what kind of picture it is.

    Raises
    ------
    UnknownName, StoreDamaged
    """
    data = Photos(path).read(sha256)
    return data, media_of(data)


def list_photos(
    path: Path, today: date, *, bed: str = "", planting: str = "", most: int = 200
) -> list[PhotoShown]:
    """Photos that stand in the book, as `photos_of`.

    Raises
    ------
    GardenError, StoreError
    """
    return photos_of(look_at(path, today).garden, bed=bed, planting=planting, most=most)


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
