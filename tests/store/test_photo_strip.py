"""What a camera hides in a photo is left out, and the picture itself is not touched."""

from __future__ import annotations

import struct
import zlib

import pytest

from spadework.errors import ParameterError
from spadework.store.photo_strip import keeps_place, stripped

PLACE = b"N 52 30 0"


def _segment(marker: int, body: bytes) -> bytes:
    return struct.pack(">BBH", 0xFF, marker, len(body) + 2) + body


def _exif(turn: int, order: str = ">") -> bytes:
    mark = b"MM" if order == ">" else b"II"
    tiff = mark + struct.pack(f"{order}HIHHHIHHI", 42, 8, 1, 0x0112, 3, 1, turn, 0, 0)
    return b"Exif\x00\x00" + tiff + PLACE


JFIF = _segment(0xE0, b"JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00")
TABLE = _segment(0xDB, bytes(65))
SCAN = _segment(0xDA, b"\x01\x01\x00\x00\x3f\x00") + b"\x12\xff\x00\x34\xff\xd9"


def _jpeg(*extra: bytes) -> bytes:
    return b"\xff\xd8" + JFIF + b"".join(extra) + TABLE + SCAN


@pytest.mark.parametrize("order", [">", "<"])
def test_of_a_jpeg_only_the_way_it_is_turned_stays(order: str) -> None:
    data = _jpeg(_segment(0xE1, _exif(6, order)), _segment(0xED, b"a name"), _segment(0xFE, b"a comment"))
    found = stripped(data, "image/jpeg")
    assert PLACE not in found
    assert b"a name" not in found
    assert b"a comment" not in found
    assert found.endswith(JFIF + TABLE + SCAN)
    assert struct.pack(">HHIHH", 0x0112, 3, 1, 6, 0) in found


def test_what_is_not_turned_has_no_tags_at_all() -> None:
    assert stripped(_jpeg(_segment(0xE1, _exif(1))), "image/jpeg") == _jpeg()


def test_what_hangs_behind_a_jpeg_goes_too() -> None:
    second = _jpeg(_segment(0xE1, _exif(1)))
    found = stripped(_jpeg() + second, "image/jpeg")
    assert PLACE not in found


def _chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def test_of_a_png_the_words_go_and_the_picture_stays() -> None:
    head = b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
    picture = _chunk(b"IDAT", zlib.compress(b"\x00\x80")) + _chunk(b"IEND", b"")
    data = head + _chunk(b"eXIf", _exif(1)) + _chunk(b"tEXt", b"place\x00" + PLACE) + picture
    assert stripped(data, "image/png") == head + picture


def test_of_a_webp_the_tags_go_and_its_head_says_so() -> None:
    def chunk(kind: bytes, body: bytes) -> bytes:
        return kind + struct.pack("<I", len(body)) + body + b"\x00" * (len(body) % 2)

    head = chunk(b"VP8X", bytes([0x0C]) + bytes(9))
    picture = chunk(b"VP8L", b"\x2f" + bytes(6))
    tags = chunk(b"EXIF", PLACE) + chunk(b"XMP ", PLACE)
    body = b"WEBP" + head + picture + tags
    found = stripped(b"RIFF" + struct.pack("<I", len(body)) + body, "image/webp")
    assert PLACE not in found
    assert found[4:8] == struct.pack("<I", len(found) - 8)
    assert found[20] == 0
    assert picture in found


@pytest.mark.parametrize("cut", [3, 9, 40])
def test_a_broken_photo_is_refused(cut: int) -> None:
    with pytest.raises(ParameterError, match="broken off"):
        stripped(_jpeg(_segment(0xE1, _exif(6)))[:cut], "image/jpeg")


def test_a_heic_file_is_kept_whole_and_that_is_said() -> None:
    data = b"\x00\x00\x00\x18ftypheic" + PLACE
    assert stripped(data, "image/heic") == data
    assert keeps_place("image/heic")
    assert not keeps_place("image/jpeg")
