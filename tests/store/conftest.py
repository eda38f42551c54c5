"""A book on each engine, by one fixture; a test that takes it runs on both."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from book_servers import Place, Server, programs, running
from spadework.store.sql_book import SqlBook


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    """A PostgreSQL of this run's own."""
    if programs() is None:
        pytest.skip("PostgreSQL is not installed (initdb is not there); the book is tested on SQLite only")
    with running() as found:
        yield found


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Place:
    """A place for a book, on each engine; opening the garden folder finds it."""
    garden = tmp_path / "plot"
    garden.mkdir()
    if request.param == "sqlite":
        return Place("sqlite", garden, "")
    url = request.getfixturevalue("server").fresh_url()
    monkeypatch.setenv("SPADEWORK_STORE_URL", url)
    return Place("postgresql", garden, url)


@pytest.fixture
def book(place: Place) -> Iterator[SqlBook]:
    """An open book, on each engine."""
    with place.open() as opened:
        yield opened
