"""Steps of the schema: whole or not at all, with a copy put by before, and never back."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from book_entries import entry
from book_servers import Place
from spadework.errors import StoreError, StoreReadOnly
from spadework.store import migrate
from spadework.store.copies import check_copy
from spadework.store.database import Database
from spadework.store.migrate import HEAD, KNOWN, STEPS, schema_of, upgrade_postgres, upgrade_sqlite
from spadework.store.open_book import open_file
from spadework.store.postgres_database import PostgresDatabase
from spadework.store.sql_book import INSERT, row_of
from spadework.store.sqlite_database import SqliteDatabase, touch

COLUMNS = {
    "entries": (
        "arrived key recorded_at happened_on author kind bed planting batch replaces withdraws body check_sum"
    ),
    "meta": "name value",
    "predictions": "arrived key kept_at made_on kind crop inputs program body check_sum",
}


def bring_up(place: Place, to: str, steps: Path = STEPS) -> None:
    if place.url:
        upgrade_postgres(place.url, to, steps)
    else:
        if not place.path.exists():
            touch(place.path)
        upgrade_sqlite(place.path, to, steps)


def database(place: Place) -> Database:
    return PostgresDatabase(place.url) if place.url else SqliteDatabase(place.path)


def tables(opened: Database) -> set[str]:
    return {str(row[0]) for row in opened.rows(migrate._TABLE[opened.engine])}


def faulty_steps(folder: Path) -> Path:
    """The steps as they are, and one more that fails after it has made a table."""
    versions = folder / "versions"
    versions.mkdir(parents=True)
    (folder / "env.py").write_text((STEPS / "env.py").read_text())
    for step in (STEPS / "versions").glob("*.py"):
        (versions / step.name).write_text(step.read_text())
    (versions / "faulty.py").write_text(
        f"import sqlalchemy as sa\nfrom alembic import op\nrevision = '9999'\ndown_revision = '{HEAD}'\n"
        "def upgrade():\n"
        "    op.create_table('more', sa.Column('a', sa.Integer()))\n"
        "    op.execute('INSERT INTO more VALUES (1)')\n"
        "    op.execute('INSERT INTO nowhere VALUES (1)')\n"
    )
    return folder


def test_the_steps_are_those_the_program_knows() -> None:
    from alembic.config import Config
    from alembic.script import ScriptDirectory

    config = Config()
    config.set_main_option("script_location", str(STEPS))
    config.set_main_option("path_separator", "os")
    found = [step.revision for step in ScriptDirectory.from_config(config).walk_revisions()]
    assert tuple(reversed(found)) == KNOWN


def test_both_engines_have_the_same_columns(place: Place) -> None:
    bring_up(place, HEAD)
    opened = database(place)
    assert tables(opened) == {*COLUMNS, "alembic_version"}
    for table, names in COLUMNS.items():
        assert opened.rows(f"SELECT {', '.join(names.split())} FROM {table}") == []
    opened.close()


def test_an_older_book_is_brought_up_with_a_copy_put_by(place: Place) -> None:
    bring_up(place, KNOWN[0])
    older = database(place)
    first = entry()
    with older.writing():
        older.run(INSERT, [row_of(1, first)])
    assert "predictions" not in tables(older)
    older.close()
    with place.open() as book:
        assert book.entries() == [first]
        assert book.predictions() == []
        assert schema_of(book.database) == HEAD
    (copy,) = (place.garden / "backups").iterdir()
    assert copy.name.endswith(f"-before-{HEAD}.sqlite")
    assert check_copy(copy) == 1
    kept = SqliteDatabase(copy, read_only=True)
    assert schema_of(kept) == KNOWN[0]
    kept.close()
    with place.open():
        pass
    assert len(list((place.garden / "backups").iterdir())) == 1


def test_no_step_without_its_copy(place: Place) -> None:
    bring_up(place, KNOWN[0])
    (place.garden / "backups").write_text("a file where the folder should be")
    with pytest.raises(StoreError, match="cannot be written"):
        place.open()
    opened = database(place)
    assert schema_of(opened) == KNOWN[0]
    opened.close()


def test_a_step_that_fails_leaves_everything_as_it_was(place: Place, tmp_path: Path) -> None:
    with place.open() as book:
        book.append([entry()])
        before = tables(book.database)
    with pytest.raises(StoreError, match="could not be brought to schema 9999"):
        bring_up(place, "9999", faulty_steps(tmp_path / "steps"))
    with place.open() as book:
        assert tables(book.database) == before
        assert schema_of(book.database) == HEAD
        assert book.count() == 1


def test_a_book_of_a_newer_program_is_refused_and_left_alone(place: Place) -> None:
    with place.open() as book, book.database.writing():
        book.database.run("UPDATE alembic_version SET version_num = ?", [("0999",)])
    with pytest.raises(StoreError, match=r"schema 0999; this program knows up to .*never taken back"):
        place.open()


def test_a_step_back_is_refused() -> None:
    import importlib

    for step in sorted((STEPS / "versions").glob("*_0*.py")):
        module = importlib.import_module(f"spadework.store.migrations.versions.{step.stem}")
        with pytest.raises(NotImplementedError, match="restore a backup"):
            module.downgrade()


def test_what_is_no_book_is_left_alone(place: Place) -> None:
    if place.url:
        other: Database = PostgresDatabase(place.url)
    else:
        touch(place.path)
        other = SqliteDatabase(place.path)
    with other.writing():
        other.run("CREATE TABLE recipes (name TEXT)", [()])
    other.close()
    with pytest.raises(StoreError, match=r"not a book .recipes"):
        place.open()


def test_an_older_book_that_cannot_be_written_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "book.sqlite"
    touch(path)
    upgrade_sqlite(path, KNOWN[0])
    as_made = SqliteDatabase.__init__

    def locked(self: SqliteDatabase, path: Path, *, read_only: bool = False) -> None:
        if not read_only:
            raise StoreReadOnly("no", "")
        as_made(self, path, read_only=True)

    monkeypatch.setattr(SqliteDatabase, "__init__", locked)
    with pytest.raises(StoreReadOnly, match="older schema"):
        open_file(path)


def test_opening_a_book_that_is_up_to_date_imports_no_heavy_library(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with open_file(path):
        pass
    program = (
        "import sys; from pathlib import Path; from spadework.store.open_book import open_file\n"
        f"with open_file(Path({str(path)!r})) as book: book.entries()\n"
        "heavy = {'alembic', 'sqlalchemy', 'psycopg', 'numpy', 'scipy'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
