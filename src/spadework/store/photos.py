"""Photos as files named by their content: the same photo twice is one, and a changed one is noticed."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final

from spadework.errors import ParameterError, StoreDamaged, StoreError, UnknownName
from spadework.garden.entries import Photo
from spadework.store.copies import discard, keep_file

PHOTOS: Final = "photos"
LARGEST_BYTES: Final = 50_000_000

_ENDINGS: Final = {
    "image/jpeg": ".jpg",
    "image/png": ".png",
    "image/webp": ".webp",
    "image/heic": ".heic",
}


class Photos:
    """The photos of a garden folder.

    Parameters
    ----------
    garden : Path
    """

    def __init__(self, garden: Path) -> None:
        self.folder = garden / PHOTOS

    def keep(self, data: bytes, words: str = "") -> Photo:
        """Keep a photo and wait for the disk; gives what the book says of it.

        Parameters
        ----------
        data : bytes
            The file as the camera wrote it.
        words : str
            What is on it.

        Raises
        ------
        ParameterError
            If it is no picture of a kind a camera writes, or larger than 50 MB.
        StoreError
            If it cannot be written.
        """
        if len(data) > LARGEST_BYTES:
            raise ParameterError(f"The photo has {len(data) / 1e6:.0f} MB.", "Give one of at most 50 MB.")
        media = media_of(data)
        name = hashlib.sha256(data).hexdigest()
        path = self.folder / f"{name}{_ENDINGS[media]}"
        if not (path.is_file() and path.read_bytes() == data):
            self._write(path, data)
        return Photo(sha256=name, media=media, words=words)

    def read(self, sha256: str) -> bytes:
        """A photo by its name.

        Raises
        ------
        UnknownName
            If there is none.
        StoreDamaged
            If the file is not what was kept.
        """
        path = self.path(sha256)
        data = path.read_bytes()
        if hashlib.sha256(data).hexdigest() != sha256:
            raise StoreDamaged(
                f"The photo {path.name} is not what was kept.", "Bring it back from a copy of the garden."
            )
        return data

    def path(self, sha256: str) -> Path:
        """Where a photo lies.

        Raises
        ------
        UnknownName
            If there is none.
        """
        if len(sha256) == 64 and set(sha256) <= set("0123456789abcdef"):
            for ending in _ENDINGS.values():
                path = self.folder / f"{sha256}{ending}"
                if path.is_file():
                    return path
        raise UnknownName(f"There is no photo {sha256}.", "Bring it back from a copy of the garden.")

    def faults(self, named: Iterable[str]) -> Iterator[str]:
        """What is wrong with the photos the book names: one line for each that is missing or changed."""
        for sha256 in named:
            try:
                self.read(sha256)
            except (UnknownName, StoreDamaged) as error:
                yield error.message

    def _write(self, path: Path, data: bytes) -> None:
        part = ""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            handle, part = tempfile.mkstemp(dir=self.folder, prefix=".", suffix=".part")
            with os.fdopen(handle, "wb") as file:
                file.write(data)
            keep_file(Path(part), path)
        except OSError as error:
            raise StoreError(
                f"The photo cannot be written to {self.folder}: {error.strerror}.", "Check folder and disk."
            ) from None
        finally:
            if part:
                discard(Path(part))


def media_of(data: bytes) -> str:
    """What kind of picture a file is, by its first bytes.

    Raises
    ------
    ParameterError
        If it is none that is known.
    """
    if data[:3] == b"\xff\xd8\xff":
        return "image/jpeg"
    if data[:8] == b"\x89PNG\r\n\x1a\n":
        return "image/png"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "image/webp"
    if data[4:8] == b"ftyp" and data[8:12] in (b"heic", b"heix", b"mif1", b"msf1"):
        return "image/heic"
    raise ParameterError("This is no photo.", "Give a JPEG, PNG, WebP or HEIC file.")
