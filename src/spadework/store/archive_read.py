"""Open an archive and check all of it before anything is taken: a damaged or hostile one is refused whole."""

from __future__ import annotations

import hashlib
import tomllib
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final, TypeVar

import msgspec

from spadework.errors import Fault, InputFileError, ParameterError
from spadework.garden.entries import Entry
from spadework.store.archive_form import ABOUT, BOOK, FORMAT, NAMES, PHOTO, PREDICTIONS, About
from spadework.store.copies import ZIP_FAULTS
from spadework.store.garden_folder import GARDEN_FILE, WEATHER_FILE
from spadework.store.overrides_file import OVERRIDES_FILE
from spadework.store.photos import LARGEST_BYTES as LARGEST_PHOTO
from spadework.store.photos import media_of
from spadework.store.predictions import Kept
from spadework.store.sql_book import as_kept
from spadework.weather.daily_csv import read_daily_csv

MOST_PARTS: Final = 100_000
LARGEST_TEXT: Final = 500_000_000
"""Bytes of one part that is no photo: a book of a million entries. Class: common-practice."""
MOST_PACKED: Final = 200
"""Text of ours packs to a tenth or a twentieth; packed far tighter it is made to swell."""
_FREE: Final = 1_000_000
"""A part no larger than this may be packed as tightly as it will."""

_Record = TypeVar("_Record")


@dataclass(frozen=True)
class OpenArchive:
    """An archive of which every part was checked.

    Parameters
    ----------
    name : str
    about : About
    entries : tuple of Entry
        In order of arrival.
    predictions : tuple of Kept
    garden, overrides, weather : bytes
        The files as they are; empty where there is none.
    photos : tuple of str
        Names of parts.
    """

    name: str
    about: About
    entries: tuple[Entry, ...]
    predictions: tuple[Kept, ...]
    garden: bytes
    overrides: bytes
    weather: bytes
    photos: tuple[str, ...]
    _zip: zipfile.ZipFile

    def photo(self, name: str) -> bytes:
        """The bytes of a photo."""
        return self._zip.read(name)


@contextmanager
def open_archive(path: Path) -> Iterator[OpenArchive]:
    """An archive, checked from end to end.

    Raises
    ------
    InputFileError
        With everything that is wrong with it.
    """
    name = path.name
    try:
        archive = zipfile.ZipFile(path)
    except FileNotFoundError:
        raise _refused(name, "whole file", "no such file", "an archive", "Check the path.") from None
    except (OSError, *ZIP_FAULTS) as error:
        raise _refused(
            name, "whole file", f"no sound zip ({error})", "what spadework export writes"
        ) from None
    with archive:
        yield _checked(name, archive)


def _checked(name: str, archive: zipfile.ZipFile) -> OpenArchive:
    infos = _names_and_sizes(name, archive)
    about = _about(name, archive, infos)
    faults = list(_against_about(infos, about))
    if faults:
        raise InputFileError(name, faults)
    texts: dict[str, bytes] = {}
    for part, said in about.parts.items():
        data = _read(name, archive, infos[part])
        if len(data) != said.bytes or hashlib.sha256(data).hexdigest() != said.sha256:
            faults.append(_fault(part, "other content than about.json says", "what was written"))
        elif found := PHOTO.fullmatch(part):
            faults += _photo_faults(part, found[1], data)
        else:
            texts[part] = data
    if faults:
        raise InputFileError(name, faults)
    entries = _records(texts.get(BOOK, b""), BOOK, Entry, faults)
    predictions = _records(texts.get(PREDICTIONS, b""), PREDICTIONS, Kept, faults)
    faults += _entry_faults(entries)
    for what, there, count in (
        ("entries", len(entries), about.entries),
        ("predictions", len(predictions), about.predictions),
    ):
        if not faults and there != count:
            faults.append(_fault(ABOUT, f"{count} {what}, and {there} are there", "the same number"))
    faults += _file_faults(texts)
    if faults:
        raise InputFileError(name, faults)
    return OpenArchive(
        name,
        about,
        tuple(entries),
        tuple(predictions),
        texts[GARDEN_FILE],
        texts.get(OVERRIDES_FILE, b""),
        texts.get(WEATHER_FILE, b""),
        tuple(part for part in about.parts if PHOTO.fullmatch(part)),
        archive,
    )


def _names_and_sizes(name: str, archive: zipfile.ZipFile) -> dict[str, zipfile.ZipInfo]:
    """Parts by name; only names that can be, each once, of a size that can be, before any is unpacked."""
    found: dict[str, zipfile.ZipInfo] = {}
    faults = []
    infos = archive.infolist()
    if len(infos) > MOST_PARTS:
        raise _refused(name, "whole file", f"{len(infos)} parts", f"at most {MOST_PARTS}")
    for info in infos:
        part = info.filename
        photo = PHOTO.fullmatch(part) is not None
        if part not in NAMES and not photo:
            faults.append(_fault(repr(part), "a part no garden has", ", ".join(sorted(NAMES))))
        elif part in found:
            faults.append(_fault(part, "two parts of one name", "one"))
        elif info.flag_bits & 1 or info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            faults.append(_fault(part, "a part that is locked or packed in another way", "open, deflated"))
        elif info.file_size > (LARGEST_PHOTO if photo else LARGEST_TEXT):
            faults.append(_fault(part, f"{info.file_size / 1e6:.0f} MB", "less"))
        elif info.file_size > _FREE and info.file_size > MOST_PACKED * info.compress_size:
            faults.append(_fault(part, f"{info.file_size} bytes out of {info.compress_size}", "a real text"))
        found[part] = info
    if ABOUT not in found:
        faults.insert(0, _fault("whole file", f"no {ABOUT}", "an archive made by spadework export"))
    if faults:
        raise InputFileError(name, faults)
    return found


def _about(name: str, archive: zipfile.ZipFile, infos: dict[str, zipfile.ZipInfo]) -> About:
    try:
        plain: Any = msgspec.json.decode(_read(name, archive, infos[ABOUT]))
        stated = plain.get("format") if isinstance(plain, dict) else None
        if isinstance(stated, int) and stated > FORMAT:
            raise _refused(
                name, ABOUT, f"format {stated}", f"up to {FORMAT}", "It is of a newer program: use that one."
            )
        return msgspec.convert(plain, About)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise _refused(name, ABOUT, str(error), "what spadework export writes") from None


def _against_about(infos: dict[str, zipfile.ZipInfo], about: About) -> Iterator[Fault]:
    for part in sorted(set(infos) - {ABOUT} - set(about.parts)):
        yield _fault(part, f"a part {ABOUT} does not name", "only parts it names")
    for part in sorted(set(about.parts) - set(infos)):
        yield _fault(part, "nothing", f"every part {ABOUT} names")
    for part in (BOOK, PREDICTIONS, GARDEN_FILE):
        if part not in about.parts:
            yield _fault(part, "nothing", "this part in every archive")


def _read(name: str, archive: zipfile.ZipFile, info: zipfile.ZipInfo) -> bytes:
    """A part, never more of it than it says it is: a stream that swells past that is cut and found out."""
    try:
        with archive.open(info) as part:
            return part.read(info.file_size + 1)
    except (OSError, *ZIP_FAULTS) as error:
        raise _refused(name, info.filename, f"a damaged part ({error})", "what was written") from None


def _photo_faults(part: str, sha256: str, data: bytes) -> Iterator[Fault]:
    if hashlib.sha256(data).hexdigest() != sha256:
        yield _fault(part, "a photo of another content than its name", "the SHA-256 of its content as name")
    try:
        media_of(data)
    except ParameterError as error:
        yield _fault(part, error.message, error.hint)


def _records(data: bytes, part: str, form: type[_Record], faults: list[Fault]) -> list[_Record]:
    found = []
    decoder = msgspec.json.Decoder(form)
    for number, line in enumerate(data.split(b"\n"), start=1):
        if not line:
            continue
        try:
            found.append(decoder.decode(line))
        except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
            faults.append(_fault(f"{part} line {number}", str(error), "one whole record a line"))
    return found


def _entry_faults(entries: list[Entry]) -> Iterator[Fault]:
    seen: dict[str, Entry] = {}
    for number, entry in enumerate(entries, start=1):
        where = f"{BOOK} line {number}"
        if seen.setdefault(entry.key, entry) != entry:
            yield _fault(where, f"another entry with the key {entry.key}", "a key for each entry")
        try:
            as_kept(entry)
        except ParameterError as error:
            yield _fault(where, error.message, error.hint)


def _file_faults(texts: dict[str, bytes]) -> Iterator[Fault]:
    for part in (GARDEN_FILE, OVERRIDES_FILE):
        try:
            table = tomllib.loads(texts.get(part, b"").decode("utf-8-sig"))
        except (ValueError, RecursionError) as error:
            yield _fault(part, str(error), "TOML")
            continue
        if part == GARDEN_FILE and "store" in table:
            # It would have the program speak to a server somebody else named.
            yield _fault(part, "the address of a server for the book", "none", "Take [store] out.")
    if WEATHER_FILE in texts:
        try:
            read_daily_csv(texts[WEATHER_FILE].decode("utf-8-sig"), WEATHER_FILE)
        except UnicodeDecodeError:
            yield _fault(WEATHER_FILE, "no UTF-8 text", "a daily CSV")
        except InputFileError as error:
            yield from (replace(fault, where=f"{WEATHER_FILE} {fault.where}") for fault in error.faults)


def _fault(where: str, found: str, allowed: str, do: str = "Export the garden again.") -> Fault:
    return Fault(where=where, found=found, allowed=allowed, do=do)


def _refused(
    name: str, where: str, found: str, allowed: str, do: str = "Export the garden again."
) -> InputFileError:
    return InputFileError(name, [_fault(where, found, allowed, do)])
