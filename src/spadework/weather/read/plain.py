"""From bytes to text: compression, encodings, and files that are no text at all."""

from __future__ import annotations

import zlib
from typing import Final

from spadework.weather.read.result import refuse

LARGEST_BYTES: Final = 200_000_000
"""No daily record of one station comes near this; beyond it something else was given."""

_MAGIC: Final = {
    b"PK\x03\x04": "a spreadsheet or zip archive",
    b"%PDF": "a PDF document",
    b"\xd0\xcf\x11\xe0": "an old office document",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"SQLite format 3": "a database",
    b"BZh": "a bzip2 archive",
    b"\xfd7zXZ": "an xz archive",
}


def unpacked(data: bytes, name: str) -> bytes:
    """The bytes themselves, gunzipped when they are gzip.

    Raises
    ------
    InputFileError
        If the file is empty, broken in its packing, or of a kind that holds no text.
    """
    if data[:2] == b"\x1f\x8b":
        opener = zlib.decompressobj(wbits=31)
        try:
            data = opener.decompress(data, LARGEST_BYTES)
        except zlib.error:
            raise refuse(
                name,
                "whole file",
                "a damaged gzip file",
                "a whole gzip file or plain text",
                "Fetch it again.",
            ) from None
        if opener.unconsumed_tail or not opener.eof:
            raise refuse(
                name,
                "whole file",
                "a gzip file cut short or far too large",
                "a whole station file",
                "Fetch it again.",
            )
    for magic, what in _MAGIC.items():
        if data.startswith(magic):
            raise refuse(
                name,
                "whole file",
                what,
                "text: .dly, CSV or a table with tabs or semicolons",
                "Save the sheet as CSV and add that.",
            )
    if len(data) > LARGEST_BYTES:
        raise refuse(
            name, "whole file", f"{len(data)} bytes", f"at most {LARGEST_BYTES}", "Give one station's file."
        )
    if not data.strip(b"\x00 \t\r\n\xef\xbb\xbf\xff\xfe"):
        raise refuse(
            name, "whole file", "an empty file", "a daily weather record", "Check the file and add it again."
        )
    return data


def decoded(data: bytes, name: str) -> tuple[str, tuple[str, ...]]:
    """Text and a note when the encoding had to be taken for something other than UTF-8.

    Raises
    ------
    InputFileError
        If the bytes are not text.
    """
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        try:
            return data.decode("utf-16"), ("Read as UTF-16.",)
        except UnicodeDecodeError:
            raise _not_text(name, 0) from None
    junk = next(
        (i for i, byte in enumerate(data[:4096]) if byte < 32 and byte not in (9, 10, 11, 12, 13, 26)), None
    )
    if junk is not None or b"\x00" in data:
        raise _not_text(name, data.find(b"\x00") if junk is None else junk)
    try:
        return data.decode("utf-8-sig"), ()
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace"), (
            "Not UTF-8; letters beyond ASCII were read as Windows-1252.",
        )


def _not_text(name: str, at: int) -> Exception:
    return refuse(
        name,
        f"byte {at + 1}",
        "bytes that are not text",
        "text in UTF-8, UTF-16 or Windows-1252",
        "Save the record as plain text or CSV and add that.",
    )
