"""What a camera hides in a photo is left out, and the picture itself is not touched."""

from __future__ import annotations

import struct
import zlib
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.store.photo_strip import stripped

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


def _box(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I4s", 8 + len(body), kind) + body


def _heic(*, version: int = 0, in_idat: bool = False, item_kind: bytes = b"Exif") -> bytes:
    """An invented HEIC file of one picture and one item of tags, laid out as the standard has it."""
    infe = [
        _box(b"infe", struct.pack(">IHH4s", 2 << 24, number, 0, kind) + b"\0")
        for number, kind in ((1, b"hvc1"), (2, item_kind))
    ]
    iinf = _box(b"iinf", struct.pack(">IH", 0, 2) + b"".join(infe))
    picture, tags = b"picture-as-it-was", b"\0\0\0\6Exif\0\0" + PLACE
    head = _box(b"ftyp", b"heic" + bytes(8))

    def meta(first: int) -> bytes:
        rows = b""
        for number, at, size in ((1, first, len(picture)), (2, first + len(picture), len(tags))):
            method = int(in_idat and number == 2)
            if method:
                at = 0
            extra = struct.pack(">H", method) if version else b""
            rows += struct.pack(">H", number) + extra + struct.pack(">HHII", 0, 1, at, size)
        iloc = _box(b"iloc", struct.pack(">BxxxBBH", version, 0x44, 0, 2) + rows)
        idat = _box(b"idat", tags) if in_idat else b""
        return _box(b"meta", bytes(4) + iinf + iloc + idat)

    first = len(head) + len(meta(0)) + 8
    return head + meta(first) + _box(b"mdat", picture + (b"" if in_idat else tags))


@pytest.mark.parametrize(
    "data",
    [
        _heic(),
        _heic(version=1),
        _heic(version=1, in_idat=True),
        _heic(item_kind=b"mime"),
        _heic() + _box(b"uuid", PLACE),
    ],
)
def test_a_heic_file_keeps_its_picture_and_not_its_place(data: bytes) -> None:
    assert PLACE in data
    found = stripped(data, "image/heic")
    assert PLACE not in found
    assert len(found) == len(data)
    assert b"picture-as-it-was" in found


@pytest.mark.parametrize(
    "data", [b"\x00\x00\x00\x18ftypheic" + PLACE, _heic()[:60], _heic().replace(b"iloc", b"ilox")]
)
def test_a_heic_file_whose_place_is_not_found_is_refused_with_the_way_round(data: bytes) -> None:
    with pytest.raises(ParameterError, match="not kept") as refused:
        stripped(data, "image/heic")
    assert "JPEG" in refused.value.hint


@given(st.binary(max_size=400))
def test_no_heic_file_breaks_it(tail: bytes) -> None:
    for data in (_heic()[:40] + tail, _heic() + tail):
        with suppress(ParameterError):
            assert len(stripped(data, "image/heic")) == len(data)
