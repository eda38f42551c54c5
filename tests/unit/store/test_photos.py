"""Photos are files named by their content."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Any

import pytest

from spadework.errors import ParameterError, StoreDamaged, StoreError, UnknownName
from spadework.garden.entries import Photo
from spadework.store import copies, photos
from spadework.store.photos import Photos

KINDS = {
    "image/jpeg": b"\xff\xd8\xff\xe0 made up",
    "image/png": b"\x89PNG\r\n\x1a\n made up",
    "image/webp": b"RIFF\x10\0\0\0WEBP made up",
    "image/heic": b"\0\0\0\x18ftypheic made up",
}
JPEG = KINDS["image/jpeg"]


@pytest.mark.parametrize("media", KINDS)
def test_a_photo_comes_back_by_the_digest_of_its_content(tmp_path: Path, media: str) -> None:
    kept = Photos(tmp_path).keep(KINDS[media], "leek, rust")
    digest = hashlib.sha256(KINDS[media]).hexdigest()
    assert kept == Photo(sha256=digest, media=media, words="leek, rust")
    assert Photos(tmp_path).read(digest) == KINDS[media]
    assert Photos(tmp_path).path(digest).stem == digest


def test_the_same_photo_twice_is_one_file(tmp_path: Path) -> None:
    kept = Photos(tmp_path)
    assert kept.keep(JPEG) == kept.keep(JPEG)
    assert len(list((tmp_path / "photos").iterdir())) == 1


def test_a_changed_or_missing_photo_is_noticed_and_keeping_it_again_mends_it(tmp_path: Path) -> None:
    kept = Photos(tmp_path)
    name = kept.keep(JPEG).sha256
    kept.path(name).write_bytes(JPEG + b"!")
    with pytest.raises(StoreDamaged, match="not what was kept"):
        kept.read(name)
    missing = "0" * 64
    assert len(list(kept.faults([name, missing]))) == 2
    kept.keep(JPEG)
    assert list(kept.faults([name])) == []
    with pytest.raises(UnknownName):
        kept.read(missing)


@pytest.mark.parametrize("name", ["", "x", "../garden.toml", "A" * 64, "0" * 63])
def test_only_names_of_photos_are_looked_for(tmp_path: Path, name: str) -> None:
    (tmp_path / "photos").mkdir()
    with pytest.raises(UnknownName):
        Photos(tmp_path).path(name)


@pytest.mark.parametrize("data", [b"", b"GIF89a", b"<svg/>", b"RIFF\0\0\0\0WAVE", b"\xff\xd8"])
def test_what_is_no_photo_is_refused(tmp_path: Path, data: bytes) -> None:
    with pytest.raises(ParameterError, match="no photo"):
        Photos(tmp_path).keep(data)
    assert not (tmp_path / "photos").exists()


def test_a_photo_too_large_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(photos, "LARGEST_BYTES", 4)
    with pytest.raises(ParameterError, match="at most"):
        Photos(tmp_path).keep(JPEG)


def test_a_full_disk_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(copies.os, "fsync", full)
    with pytest.raises(StoreError, match="No space left"):
        Photos(tmp_path).keep(JPEG)
    assert list((tmp_path / "photos").iterdir()) == []
