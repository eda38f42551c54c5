"""The drill at the command line: a copy, real damage, the way back; on a file and on a server."""

from __future__ import annotations

import os
import zipfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from book_entries import entry
from book_servers import Place, Server
from full_garden import JPEG
from said import Said, say
from spadework.garden.entries import Entry, Note
from spadework.garden.site import Site
from spadework.store.garden_folder import create
from spadework.store.open_book import open_book
from spadework.store.photos import Photos
from spadework.store.predictions import Prediction, Subject

PAGE = {"sqlite": 4096, "postgresql": 8192}


@pytest.fixture
def plot(place: Place) -> Place:
    """A garden with 300 entries and a copy, and 200 entries that came later."""
    create(place.garden, Site("Plot", 50.0, 0.0, 10.0))
    Photos(place.garden).keep(JPEG)
    with open_book(place.garden) as book:
        book.append([entry(Note(text="x" * 300)) for _ in range(300)])
        book.keep([Prediction(kind="ready", subject=Subject(crop="carrot"), made_on=date(2026, 5, 20))])
    said = do(place, "backup")
    assert said.code == 0, said.err
    with open_book(place.garden) as book:
        book.append([entry(Note(text="y" * 300)) for _ in range(200)])
    return place


def do(place: Place, *words: str) -> Said:
    return say(*words, "--garden", str(place.garden), "--today", "2026-05-21")


def entries(place: Place) -> list[Entry]:
    with open_book(place.garden) as book:
        assert book.damage == ""
        return book.entries()


def spoil_page(place: Place, request: pytest.FixtureRequest) -> None:
    """Write rubbish over the page of the 150th entry, in the database's own file."""
    with open_book(place.garden) as book:
        rows = book.database.rows("SELECT body FROM entries WHERE arrived = 150")
        mark = str(rows[0][0])[:60].encode()
        if place.engine == "postgresql":
            relation = Path(book.database.rows("SELECT pg_relation_filepath('entries')")[0][0])
    if place.engine == "sqlite":
        _rubbish(place.path, mark, PAGE["sqlite"])
        return
    server: Server = request.getfixturevalue("server")
    server.stopped(lambda data: _rubbish(data / relation, mark, PAGE["postgresql"]))


def _rubbish(path: Path, mark: bytes, page: int) -> None:
    at = path.read_bytes().index(mark) // page * page
    with open(path, "rb+") as file:
        file.seek(at)
        file.write(b"\xa5" * page)


def spoil_word(place: Place, request: pytest.FixtureRequest) -> None:
    """Change what one entry says, where the database itself notices nothing."""
    del request
    with open_book(place.garden) as book:
        if place.engine == "sqlite":
            book.database.run("DROP TRIGGER entries_no_update", [()])
        else:
            book.database.run("ALTER TABLE entries DISABLE TRIGGER ALL", [()])
        book.database.run("UPDATE entries SET body = replace(body, 'xxx', 'xyx') WHERE arrived = 150", [()])


def lose(place: Place, request: pytest.FixtureRequest) -> None:
    """The whole book is gone."""
    del request
    if place.engine == "sqlite":
        place.path.unlink()
        return
    with open_book(place.garden) as book:
        for table in ("entries", "predictions", "meta", "alembic_version"):
            book.database.run(f"DROP TABLE {table}", [()])
        book.database.run("DROP FUNCTION only_added()", [()])


@pytest.mark.parametrize("harm", [spoil_page, spoil_word, lose])
def test_drill(
    plot: Place, request: pytest.FixtureRequest, harm: Callable[[Place, pytest.FixtureRequest], None]
) -> None:
    whole = entries(plot)
    harm(plot, request)
    said = do(plot, "restore")
    assert said.code == 0, said.err
    back = {each.key: each for each in entries(plot)}
    if harm is lose:
        assert list(back.values()) == whole[:300]
        assert "300 entries" in said.out
    else:
        # A lost page costs nothing: its entries are in the copy, and all that came later can be read.
        assert back == {each.key: each for each in whole}
        assert "The book is whole again: 500 entries" in said.out
        assert "300 of the copy, and 200 that only the book itself had" in " ".join(said.out.split())
        assert "is kept as" in said.out
    with open_book(plot.garden) as book:
        assert len(book.predictions()) == 1
        book.append([entry()])
    again = do(plot, "restore")
    assert "The book was sound" in again.out
    assert do(plot, "restore", "--json").json["entries"] == len(back) + 1


@pytest.mark.parametrize("harm", [spoil_page, spoil_word])
def test_a_damaged_book_says_the_way_back_and_takes_no_copy(
    plot: Place, request: pytest.FixtureRequest, harm: Callable[[Place, pytest.FixtureRequest], None]
) -> None:
    harm(plot, request)
    for words in (("backup",), ("export", str(plot.garden.parent / "o.zip"))):
        said = do(plot, *words)
        if plot.engine == "sqlite" and harm is spoil_page and words[0] == "export":
            assert said.code == 0
            assert "holds what could be read of it" in " ".join(said.out.split())
            continue
        assert said.code == 2
        assert "restore" in said.err


def test_a_new_machine(plot: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is left but a copy on a stick."""
    want = entries(plot)
    said = do(plot, "backup", str(tmp_path / "stick.zip"))
    assert "500 entries, 1 prediction, 3 other files" in " ".join(said.out.split())
    monkeypatch.delenv("SPADEWORK_STORE_URL", raising=False)
    new = tmp_path / "deep" / "new"
    said = say("restore", str(tmp_path / "stick.zip"), "--garden", str(new))
    assert said.code == 0, said.err
    assert "garden.toml" in said.out
    with open_book(new) as book:
        assert book.entries() == want
    assert say("export", str(tmp_path / "o.zip"), "--garden", str(new)).code == 0


def test_no_garden_and_no_copy(tmp_path: Path) -> None:
    said = say("restore", "--garden", str(tmp_path / "none"))
    assert said.code == 2
    assert "No garden" in said.err
    assert not (tmp_path / "none").exists()
    assert say("restore", str(tmp_path / "none.zip"), "--garden", str(tmp_path)).code == 2


def test_a_spoiled_copy_gives_way_to_an_older_one(plot: Place, request: pytest.FixtureRequest) -> None:
    whole = entries(plot)
    older = next((plot.garden / "backups").iterdir())
    do(plot, "backup")
    newest = max((plot.garden / "backups").iterdir())
    newest.write_bytes(newest.read_bytes()[: newest.stat().st_size // 2])
    spoil_word(plot, request)
    said = do(plot, "restore", "--json")
    assert said.code == 0, said.err
    assert said.json["copy"] == str(older)
    assert {each.key: each for each in entries(plot)} == {each.key: each for each in whole}


def test_a_sound_book_without_a_copy_is_left_alone(tmp_path: Path) -> None:
    create(tmp_path / "g", Site("Plot", 50.0, 0.0, 10.0))
    said = say("restore", "--garden", str(tmp_path / "g"))
    assert said.code == 0
    assert "Nothing was done" in " ".join(said.out.split())


def test_a_copy_with_a_spoiled_photo_brings_the_rest(plot: Place, tmp_path: Path) -> None:
    stick = tmp_path / "stick.zip"
    do(plot, "backup", str(stick))
    photo = next((plot.garden / "photos").iterdir())
    with zipfile.ZipFile(stick) as archive:
        info = archive.getinfo(f"photos/{photo.name}")
    with open(stick, "rb+") as file:
        file.seek(info.header_offset + 30 + len(info.filename))
        file.write(os.urandom(info.compress_size))
    photo.unlink()
    (plot.garden / "overrides.toml").unlink()
    said = do(plot, "restore", str(stick))
    assert said.code == 0, said.err
    assert "overrides.toml" in said.out
    assert "cannot be read" in said.out
    assert not photo.exists()


def test_the_server_of_a_copy_is_the_server_it_comes_back_to(server: Server, tmp_path: Path) -> None:
    old = create(tmp_path / "old", Site("Plot", 50.0, 0.0, 10.0)).path
    with open(old / "garden.toml", "a") as file:
        file.write(f'\n[store]\nurl = "{server.fresh_url()}"\n')
    with open_book(old) as book:
        book.append([entry()])
    assert say("backup", str(tmp_path / "stick.zip"), "--garden", str(old)).code == 0
    said = say("restore", str(tmp_path / "stick.zip"), "--garden", str(tmp_path / "new"))
    assert said.code == 0, said.err
    assert not (tmp_path / "new" / "book.sqlite").exists()
    with open_book(tmp_path / "new") as book:
        assert book.count() == 1
