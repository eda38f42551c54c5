"""What a camera hides in a photo, such as where it was taken, left out before it is kept.

Of a JPEG only the way it is to be turned is kept. The picture itself is not touched.

Source
------
published: JEITA CP-3451 (2002) Exif 2.2, for the orientation tag 0x0112; ITU-T T.81 (1992), annex B, for the
segments of a JPEG; W3C (2003) Portable Network Graphics, section 4.7, for the chunks of a PNG.
memory: the RIFF container of WebP, with its EXIF and XMP chunks and their two flags.
"""

from __future__ import annotations

import struct
from typing import Final

from spadework.errors import ParameterError
from spadework.store.photo_heic import blanked

_EXIF: Final = b"Exif\x00\x00"
_ORIENTATION: Final = 0x0112
_SHORT: Final = 3
_KEPT_SEGMENTS: Final = frozenset({0xE0, 0xE2, 0xEE})
"""JFIF, colour profile, and how the colours are kept: without them it would look otherwise."""
_DROPPED_CHUNKS: Final = frozenset({b"eXIf", b"tEXt", b"iTXt", b"zTXt", b"tIME"})
_WEBP_FLAGS: Final = 0x0C
"""EXIF and XMP, in the first byte of VP8X."""


def stripped(data: bytes, media: str) -> bytes:
    """A photo without what the camera wrote beside the picture.

    Parameters
    ----------
    data : bytes
    media : str
        As `store.photos.media_of` says.

    Raises
    ------
    ParameterError
        If the file is broken off or not what it says, or where it was taken cannot be left out.
    """
    try:
        if media == "image/jpeg":
            return _jpeg(data)
        if media == "image/png":
            return _png(data)
        if media == "image/webp":
            return _webp(data)
        if media == "image/heic":
            return blanked(data)
    except (IndexError, struct.error):
        raise ParameterError("The photo is broken off.", "Send it again, or take it anew.") from None
    return data


def _jpeg(data: bytes) -> bytes:
    parts = [data[:2]]
    at, turn = 2, 0
    while True:
        while data[at] == 0xFF and data[at + 1] == 0xFF:  # padding
            at += 1
        if data[at] != 0xFF:
            raise IndexError
        marker = data[at + 1]
        if marker == 0xD9:
            # what hangs behind the end, such as a second picture with its own tags, goes too
            parts.append(data[at : at + 2])
            break
        (size,) = struct.unpack_from(">H", data, at + 2)
        segment = data[at : at + 2 + size]
        if size < 2 or len(segment) < 2 + size:
            raise IndexError
        is_extra = 0xE0 <= marker <= 0xEF and marker not in _KEPT_SEGMENTS
        if marker == 0xE1 and segment[4:10] == _EXIF:
            turn = _turn(segment[10:]) or turn
        if not is_extra and marker != 0xFE:
            parts.append(segment)
        at += 2 + size
        if marker == 0xDA:
            end = _scan_end(data, at)
            parts.append(data[at:end])
            at = end
    if turn > 1:
        parts.insert(1, _only_turn(turn))
    return b"".join(parts)


def _scan_end(data: bytes, at: int) -> int:
    """Where the picture's own data end: at the next mark that is no part of them."""
    while True:
        at = data.find(b"\xff", at)
        if at < 0:
            raise IndexError
        follows = data[at + 1]
        if follows not in (0x00, 0xFF) and not 0xD0 <= follows <= 0xD7:
            return at
        at += 1 if follows == 0xFF else 2


def _turn(tiff: bytes) -> int:
    """The orientation of an Exif block, 1 to 8; 0 where it says none."""
    order = {b"II": "<", b"MM": ">"}.get(tiff[:2])
    if order is None:
        return 0
    try:
        (first,) = struct.unpack_from(f"{order}I", tiff, 4)
        (count,) = struct.unpack_from(f"{order}H", tiff, first)
        for place in range(count):
            tag, kind = struct.unpack_from(f"{order}HH", tiff, first + 2 + 12 * place)
            if tag == _ORIENTATION and kind == _SHORT:
                (turn,) = struct.unpack_from(f"{order}H", tiff, first + 2 + 12 * place + 8)
                return int(turn) if 1 <= turn <= 8 else 0
    except struct.error:
        return 0
    return 0


def _only_turn(turn: int) -> bytes:
    body = _EXIF + struct.pack(">2sHIHHHIHHI", b"MM", 42, 8, 1, _ORIENTATION, _SHORT, 1, turn, 0, 0)
    return struct.pack(">HH", 0xFFE1, len(body) + 2) + body


def _png(data: bytes) -> bytes:
    parts, at = [data[:8]], 8
    while True:
        size, kind = struct.unpack_from(">I4s", data, at)
        chunk = data[at : at + 12 + size]
        if len(chunk) < 12 + size:
            raise IndexError
        if kind not in _DROPPED_CHUNKS:
            parts.append(chunk)
        if kind == b"IEND":
            return b"".join(parts)
        at += 12 + size


def _webp(data: bytes) -> bytes:
    parts, at = list[bytes](), 12
    (whole,) = struct.unpack_from("<I", data, 4)
    if len(data) < 8 + whole:
        raise IndexError
    while at + 8 <= 8 + whole:
        kind, size = struct.unpack_from("<4sI", data, at)
        chunk = data[at : at + 8 + size + size % 2]
        if len(chunk) < 8 + size:
            raise IndexError
        if kind == b"VP8X":
            chunk = chunk[:8] + bytes([chunk[8] & ~_WEBP_FLAGS & 0xFF]) + chunk[9:]
        if kind not in (b"EXIF", b"XMP "):
            parts.append(chunk)
        at += 8 + size + size % 2
    body = b"WEBP" + b"".join(parts)
    return b"RIFF" + struct.pack("<I", len(body)) + body
