"""What a camera hides in a HEIC photo, blanked where it lies: the picture and all lengths stay as they are.

Source
------
memory: ISO/IEC 14496-12 for boxes and the item boxes iinf, iloc and idat; ISO/IEC 23008-12, annex A, for the
items that hold Exif and XMP.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from typing import Final

from spadework.errors import ParameterError

_HIDES: Final = frozenset({b"Exif", b"mime"})
"""Items that say when, where and with what it was taken; XMP is one of those called mime."""

_BOXES: Final = frozenset({b"uuid", b"udta", b"moov", b"free", b"skip", b"xml ", b"bxml"})
"""Boxes of a whole file that may say it too, or hold a film."""

_MOST_BOXES: Final = 10_000


class _Unknown(Exception):
    """It is laid out in a way that is not known here."""


def blanked(data: bytes) -> bytes:
    """A HEIC photo whose tags are nothing but noughts.

    Raises
    ------
    ParameterError
        If they cannot be found for certain, so that the place might stay in it.
    """
    found = bytearray(data)
    try:
        metas = 0
        for kind, start, end in _boxes(data, 0, len(data)):
            if kind in _BOXES:
                found[start:end] = bytes(end - start)
            if kind == b"meta":
                metas += 1
                for first, last in _hiding(data, start, end):
                    found[first:last] = bytes(last - first)
        if not metas:
            raise _Unknown
    except (_Unknown, struct.error, IndexError):
        raise ParameterError(
            "Where it was taken cannot be taken out of this HEIC photo, so it is not kept.",
            "Set the camera to save JPEG (often called most compatible), or send it as a JPEG.",
        ) from None
    return bytes(found)


def _boxes(data: bytes, at: int, end: int) -> Iterator[tuple[bytes, int, int]]:
    """Kind, and where the content begins and ends, of each box in a stretch."""
    for _ in range(_MOST_BOXES):
        if at >= end:
            return
        size, kind = struct.unpack_from(">I4s", data, at)
        head = 8
        if size == 1:
            (size,) = struct.unpack_from(">Q", data, at + 8)
            head = 16
        elif size == 0:
            size = end - at
        if size < head or at + size > end:
            raise _Unknown
        yield kind, at + head, at + size
        at += size
    raise _Unknown


def _hiding(data: bytes, start: int, end: int) -> Iterator[tuple[int, int]]:
    """Stretches of a file that hold tags, as its meta box tells."""
    inside = {kind: (first, last) for kind, first, last in _boxes(data, start + 4, end)}
    for kind in (b"xml ", b"bxml", b"uuid", b"udta"):
        if kind in inside:
            yield inside[kind]
    if b"iinf" not in inside or b"iloc" not in inside:
        raise _Unknown
    wanted = set(_tag_items(data, *inside[b"iinf"]))
    idat = inside.get(b"idat")
    placed = set()
    for item, first, last in _extents(data, inside[b"iloc"][0], idat):
        if item in wanted:
            placed.add(item)
            if not 0 <= first <= last <= len(data):
                raise _Unknown
            yield first, last
    if placed != wanted:
        raise _Unknown


def _tag_items(data: bytes, start: int, end: int) -> Iterator[int]:
    """Numbers of the items that hold tags."""
    version = data[start]
    at = start + (6 if version == 0 else 8)
    for kind, first, _ in _boxes(data, at, end):
        if kind != b"infe":
            continue
        if data[first] not in (2, 3):
            raise _Unknown
        wide = data[first] == 3
        (item,) = struct.unpack_from(">I" if wide else ">H", data, first + 4)
        sort = data[first + (10 if wide else 8) :][:4]
        if sort in _HIDES:
            yield item


def _extents(data: bytes, start: int, idat: tuple[int, int] | None) -> Iterator[tuple[int, int, int]]:
    """Item, and where a stretch of it begins and ends in the file."""
    version = data[start]
    if version > 2:
        raise _Unknown
    sizes = (data[start + 4] >> 4, data[start + 4] & 15, data[start + 5] >> 4, data[start + 5] & 15)
    if any(size not in (0, 4, 8) for size in sizes):
        raise _Unknown
    of_offset, of_length, of_base, of_index = sizes
    at = start + 6

    def number(size: int) -> int:
        nonlocal at
        if at + size > len(data):
            raise _Unknown
        value = int.from_bytes(data[at : at + size])
        at += size
        return value

    for _ in range(number(4 if version == 2 else 2)):
        item = number(4 if version == 2 else 2)
        method = number(2) & 15 if version else 0
        number(2)
        base = number(of_base)
        for _ in range(number(2)):
            if version:
                number(of_index)
            offset, length = number(of_offset), number(of_length)
            if method == 0:
                from_ = base + offset
            elif method == 1 and idat is not None:
                from_ = idat[0] + base + offset
            else:
                # built of other items, which pictures are; tags never
                from_, length = -1, 0
            yield item, from_, from_ + (length or (len(data) - from_ if from_ >= 0 else 0))
