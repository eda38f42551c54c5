"""Copies and the way back: a drill on real damage, where nothing that can be read may be lost."""

from __future__ import annotations

import os
import zipfile
from datetime import date
from pathlib import Path

import pytest

from book_entries import entry
from book_servers import Place
from spadework.errors import StoreDamaged, StoreError
from spadework.garden.entries import Note
from spadework.garden.site import Site
from spadework.store import copies
from spadework.store.backup import back_up
from spadework.store.copies import check_copy
from spadework.store.garden_folder import create
from spadework.store.open_book import backups, open_book, open_file
from spadework.store.photos import Photos
from spadework.store.predictions import Prediction, Subject
from spadework.store.restore import restore

JPEG = b"\xff\xd8\xff\xe0 a made-up photo"
PAGE = 4096
FORETOLD = Prediction(kind="ready", subject=Subject(crop="carrot"), made_on=date(2026, 5, 20), chance=0.5)


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return create(tmp_path / "g", Site("Plot", 50.0, 0.0, 10.0)).path


def fill(garden: Path, count: int = 300) -> list[str]:
    """Entries enough for many pages; gives their keys."""
    with open_book(garden) as book:
        keys = book.append([entry(Note(text="x" * 300)) for _ in range(count)])
        book.keep([FORETOLD])
    return list(keys)


def spoil(path: Path, page: int, pages: int = 1) -> None:
    """Overwrite pages of a file with rubbish."""
    with open(path, "rb+") as file:
        file.seek(page * PAGE)
        file.write(os.urandom(PAGE * pages))


def spoil_entry(garden: Path, key: str) -> None:
    """Change one letter of what an entry says, where no structure of the file notices."""
    path = garden / "book.sqlite"
    data = path.read_bytes()
    at = data.index(b'"key":"' + key.encode())
    at = data.index(b"xxxx", at)
    path.write_bytes(data[:at] + b"y" + data[at + 1 :])


def pages(path: Path, before: bytes) -> list[int]:
    """Which pages of a file are not what they were."""
    now = path.read_bytes()
    starts = range(0, max(len(now), len(before)), PAGE)
    return [at // PAGE for at in starts if now[at : at + PAGE] != before[at : at + PAGE]]


def leaf_page(garden: Path, number: int) -> int:
    """The page on which an entry lies."""
    with open_book(garden) as book:
        body = book.database.rows("SELECT body FROM entries WHERE arrived = ?", (number,))[0][0]
    return (garden / "book.sqlite").read_bytes().index(body.encode()) // PAGE


# -- copies ------------------------------------------------------------------------------------------


def test_a_copy_of_either_engine_is_a_book(place: Place, tmp_path: Path) -> None:
    with place.open() as book:
        book.append([entry(), entry(None, withdraws="K")])
        book.keep([FORETOLD])
        assert book.backup(tmp_path / "copies" / "one.sqlite") == 2
        first, foretold = book.entries(), book.predictions()
    assert [path.name for path in (tmp_path / "copies").iterdir()] == ["one.sqlite"]
    with open_file(tmp_path / "copies" / "one.sqlite") as copy:
        assert copy.entries() == first
        assert copy.predictions() == foretold


def test_a_copy_never_overwrites(place: Place, tmp_path: Path) -> None:
    (tmp_path / "there.sqlite").write_text("mine")
    with place.open() as book, pytest.raises(StoreError, match="exists already"):
        book.backup(tmp_path / "there.sqlite")
    assert (tmp_path / "there.sqlite").read_text() == "mine"


def test_a_copy_that_is_not_whole_gets_no_name(
    place: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with place.open() as book:
        book.append([entry(), entry()])
        monkeypatch.setattr(copies, "check_copy", lambda _: 1)
        with pytest.raises(StoreError, match="holds 1 of 2"):
            book.backup(tmp_path / "copies" / "one.sqlite")
    assert list((tmp_path / "copies").iterdir()) == []


def test_a_copy_is_taken_while_others_write(place: Place, tmp_path: Path) -> None:
    with place.open() as book, place.open() as writer:
        book.append([entry()])
        with writer.database.writing():
            writer.database.run("INSERT INTO meta (name, value) VALUES (?, ?)", [("a", "b")])
            assert book.backup(tmp_path / "one.sqlite") == 1


def test_a_copy_of_the_garden_holds_all_of_it(garden: Path, tmp_path: Path) -> None:
    fill(garden, 3)
    Photos(garden).keep(JPEG)
    (garden / "weather" / "daily.csv").write_text("x")
    done = back_up(garden)
    assert done.path.parent == garden / "backups"
    assert (done.entries, backups(garden)) == (3, [done.path])
    again = back_up(garden, tmp_path / "stick" / "garden.zip")
    with zipfile.ZipFile(again.path) as archive:
        names = archive.namelist()
    assert len(names) == again.files + 1
    assert {"book.sqlite", "garden.toml", "overrides.toml", "weather/daily.csv"} < set(names)
    assert sum(name.startswith("photos/") for name in names) == 1
    assert not any("backups" in name or "-wal" in name for name in names)
    with pytest.raises(StoreError, match="exists already"):
        back_up(garden, again.path)


# -- damage ------------------------------------------------------------------------------------------


def test_a_book_with_a_spoiled_page_opens_for_reading_and_says_the_way_back(garden: Path) -> None:
    keys = fill(garden)
    copy = back_up(garden).path
    page = leaf_page(garden, 150)
    before = (garden / "book.sqlite").read_bytes()
    spoil(garden / "book.sqlite", page)
    with open_book(garden) as book:
        assert book.read_only
        assert "open for reading only" in book.damage
        assert f"spadework restore backups/{copy.name}" in book.damage
        read = [each.key for each in book.entries()]
        assert 250 < len(read) < 300
        assert set(read) < set(keys)
        assert book.count() == len(read)
        assert book.last_key() == keys[-1]
        with pytest.raises(StoreDamaged, match="restore"):
            book.append([entry()])
        with pytest.raises(StoreDamaged):
            book.keep([FORETOLD])
        with pytest.raises(StoreDamaged):
            book.backup(garden / "x.sqlite")
    after = (garden / "book.sqlite").read_bytes()
    assert [
        n for n in range(len(before) // PAGE) if before[n * PAGE :][:PAGE] != after[n * PAGE :][:PAGE]
    ] == [page]


def test_a_file_that_is_no_database_any_more_opens_and_says_the_way_back(garden: Path) -> None:
    fill(garden)
    spoil(garden / "book.sqlite", 0)
    with open_book(garden) as book:
        assert "There is no copy in backups" in book.damage
        assert (book.entries(), book.count(), book.last_key()) == ([], 0, None)
        with pytest.raises(StoreDamaged):
            book.append([entry()])
        with pytest.raises(StoreDamaged):
            book.predictions()


def test_one_changed_letter_is_noticed(garden: Path) -> None:
    keys = fill(garden)
    spoil_entry(garden, keys[7])
    with open_book(garden) as book, pytest.raises(StoreDamaged, match="is not what was written"):
        book.entries()


# -- the way back ------------------------------------------------------------------------------------


@pytest.mark.parametrize("harm", ["page", "head", "letter", "gone", "cut"])
def test_drill(garden: Path, harm: str) -> None:
    first = fill(garden)
    copy = back_up(garden).path
    later = fill(garden, 200)
    with open_book(garden) as book:
        whole = book.entries()
    path = garden / "book.sqlite"
    if harm == "page":
        spoil(path, leaf_page(garden, 150))
    elif harm == "head":
        spoil(path, 0)
    elif harm == "letter":
        spoil_entry(garden, first[7])
    elif harm == "cut":
        os.truncate(path, path.stat().st_size // 2)
    else:
        path.unlink()
    spoiled = path.read_bytes() if path.exists() else None
    done = restore(garden)
    assert done.backup == copy
    assert done.from_backup == 300
    lost = {"page": 0, "head": 200, "letter": 0, "gone": 200}.get(harm)
    if lost is not None:
        assert done.saved == 200 - lost
    assert done.entries == 300 + done.saved
    with open_book(garden) as book:
        assert book.damage == ""
        found = book.entries()
        assert found[:300] == whole[:300]
        assert {each.key for each in found[300:]} <= set(later)
        assert len(found) == done.entries
        assert len(book.predictions()) == 1
        book.append([entry()])
        assert book.count() == done.entries + 1
    if spoiled is not None:
        assert Path(done.set_aside).read_bytes() == spoiled
    assert [path for path in garden.iterdir() if path.name.startswith(".")] == []


def test_a_damaged_book_without_a_copy_gives_what_can_be_read(garden: Path) -> None:
    fill(garden)
    spoil(garden / "book.sqlite", leaf_page(garden, 150))
    done = restore(garden)
    assert done.backup is None
    assert 250 < done.entries < 300
    with open_book(garden) as book:
        assert (book.damage, book.count()) == ("", done.entries)


def test_neither_a_copy_nor_anything_to_read(garden: Path) -> None:
    fill(garden)
    spoil(garden / "book.sqlite", 0)
    before = (garden / "book.sqlite").read_bytes()
    with pytest.raises(StoreError, match="nothing can be read"):
        restore(garden)
    assert (garden / "book.sqlite").read_bytes() == before


def test_a_program_that_has_the_book_open_sees_the_restored_one(garden: Path) -> None:
    keys = fill(garden)
    back_up(garden)
    with open_book(garden) as other:
        spoil(garden / "book.sqlite", leaf_page(garden, 150))
        restore(garden)
        assert [each.key for each in other.entries()] == keys
        other.append([entry()])
    with open_book(garden) as book:
        assert book.count() == len(keys) + 1


def test_a_writer_whose_file_was_exchanged_is_stopped(garden: Path) -> None:
    fill(garden, 3)
    with open_book(garden) as other:
        os.rename(garden / "book.sqlite", garden / "elsewhere.sqlite")
        with pytest.raises(StoreError, match="was replaced"):
            other.append([entry()])


def test_a_sound_book_gains_what_only_the_copy_has_and_loses_nothing(place: Place, tmp_path: Path) -> None:
    both, copied, own = entry(), entry(), entry()
    with open_file(tmp_path / "copy.sqlite") as copy:
        copy.append([copied, both])
        copy.keep([FORETOLD])
    with place.open() as book:
        book.append([both, own])
    done = restore(place.garden, tmp_path / "copy.sqlite")
    assert (done.entries, done.from_backup, done.saved, done.set_aside) == (3, 2, 1, "")
    again = restore(place.garden, tmp_path / "copy.sqlite")
    assert again.entries == 3
    with place.open() as book:
        assert book.entries() == [both, own, copied]
        assert len(book.predictions()) == 1


def test_an_entry_that_says_two_things_is_named_and_the_sound_one_stays(place: Place, tmp_path: Path) -> None:
    one, other = entry(Note(text="one"), key="K"), entry(Note(text="other"), key="K")
    with open_file(tmp_path / "copy.sqlite") as copy:
        copy.append([other])
    with place.open() as book:
        book.append([one])
    assert restore(place.garden, tmp_path / "copy.sqlite").disagreeing == ("K",)
    with place.open() as book:
        assert book.entries() == [one]


@pytest.mark.parametrize("wrong", ["words", "empty", "spoiled", "zip", "absent"])
def test_a_copy_that_is_not_sound_changes_nothing(garden: Path, tmp_path: Path, wrong: str) -> None:
    fill(garden)
    copy = tmp_path / "copy.sqlite"
    if wrong == "words":
        copy.write_text("a shopping list, long enough to be taken for the head of a database" * 20)
    elif wrong == "empty":
        copy.write_bytes(b"")
    elif wrong == "spoiled":
        with open_book(garden) as book:
            book.backup(copy)
        spoil(copy, 5, 3)
    elif wrong == "zip":
        with zipfile.ZipFile(copy, "w") as archive:
            archive.writestr("letter.txt", "x")
    with open_book(garden) as book:
        before = book.entries()
    with pytest.raises(StoreError):
        restore(garden, copy)
    with open_book(garden) as book:
        assert book.entries() == before


def test_the_way_back_to_an_empty_folder_brings_every_file(garden: Path, tmp_path: Path) -> None:
    fill(garden, 3)
    photo = Photos(garden).keep(JPEG)
    copy = back_up(garden, tmp_path / "stick.zip").path
    fresh = tmp_path / "fresh"
    fresh.mkdir()
    (fresh / "overrides.toml").write_text("# mine\n")
    done = restore(fresh, copy)
    assert done.entries == 3
    assert "garden.toml" in done.files
    assert "overrides.toml" not in done.files
    assert (fresh / "overrides.toml").read_text() == "# mine\n"
    assert Photos(fresh).read(photo.sha256) == JPEG


def test_an_archive_cannot_write_outside_the_garden(garden: Path, tmp_path: Path) -> None:
    fill(garden, 3)
    copy = back_up(garden, tmp_path / "stick.zip").path
    with zipfile.ZipFile(copy, "a") as archive:
        archive.writestr("../outside.txt", "x")
    restore(garden, copy)
    assert not (tmp_path / "outside.txt").exists()
    assert not (garden / "outside.txt").exists()


def test_checking_a_copy_reads_it_to_the_end(garden: Path, tmp_path: Path) -> None:
    fill(garden)
    with open_book(garden) as book:
        book.backup(tmp_path / "copy.sqlite")
    assert check_copy(tmp_path / "copy.sqlite") == 300
    spoil_page = (tmp_path / "copy.sqlite").stat().st_size // PAGE - 1
    spoil(tmp_path / "copy.sqlite", spoil_page)
    with pytest.raises(StoreError):
        check_copy(tmp_path / "copy.sqlite")
