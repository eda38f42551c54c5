"""Where books of tests are: a file, or a throwaway PostgreSQL reached through a socket file."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from urllib.parse import quote

from spadework.store.open_book import open_file, open_server
from spadework.store.sql_book import SqlBook

_NUMBERS = count(1)


def programs() -> Path | None:
    """Folder of the newest PostgreSQL's programs, or None where it is not installed."""
    found = [path.parent for path in Path("/usr/lib/postgresql").glob("*/bin/initdb")]
    if found:
        return max(found, key=lambda path: int(path.parent.name))
    at = shutil.which("initdb")
    return Path(at).resolve().parent if at else None


class Server:
    """A running server.

    Parameters
    ----------
    socket : Path
        Folder of its socket; its data are in "data" there.
    run : callable
        Runs one of its programs.
    """

    def __init__(self, socket: Path, run: Callable[..., None]) -> None:
        self.socket = socket
        self._run = run

    def stopped(self, change: Callable[[Path], None]) -> None:
        """Stop it, change something in the folder of its data, and start it again."""
        self._run("pg_ctl", "-w", "-m", "fast", "stop")
        try:
            change(self.socket / "data")
        finally:
            self._run("pg_ctl", "-w", "-l", str(self.socket / "log"), "-o", options_of(self.socket), "start")

    def url(self, schema: str = "public") -> str:
        """Address of one schema of the database."""
        options = quote(f"-csearch_path={schema}")
        return f"postgresql://app@/postgres?host={self.socket}&options={options}"

    def fresh_url(self) -> str:
        """Address of a schema that nothing was put in yet."""
        import psycopg

        schema = f"plot_{os.getpid()}_{next(_NUMBERS)}"
        with psycopg.connect(self.url(), autocommit=True) as connection:
            connection.execute(f"CREATE SCHEMA {schema}")
        return self.url(schema)


@dataclass(frozen=True)
class Place:
    """Where one book is: it can be opened as often as one likes.

    Parameters
    ----------
    engine : str
    garden : Path
        A folder of its own.
    url : str
        Of the server; empty for a file.
    """

    engine: str
    garden: Path
    url: str

    @property
    def path(self) -> Path:
        """The book file, where it is one."""
        return self.garden / "book.sqlite"

    def open(self) -> SqlBook:
        """A new connection to it."""
        return open_server(self.url, self.garden) if self.url else open_file(self.path)


def options_of(socket: Path) -> str:
    """What a server is started with."""
    return f"-c listen_addresses='' -c unix_socket_directories={socket} -c fsync=off"


@contextmanager
def running() -> Iterator[Server]:
    """A new server; the folder of its data goes with it."""
    found = programs()
    assert found is not None
    folder = Path(tempfile.mkdtemp(prefix="spadework-pg-"))
    owner = None
    if os.getuid() == 0:  # it refuses to run as root
        owner = "postgres"
        os.chown(folder, pwd.getpwnam(owner).pw_uid, pwd.getpwnam(owner).pw_gid)

    def run(program: str, *words: str) -> None:
        command = [str(found / program), "-D", str(folder / "data"), *words]
        done = subprocess.run(
            command,
            user=owner,
            cwd=folder,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            check=False,
            timeout=60,
        )
        assert done.returncode == 0, f"{program}: {done.stdout}"

    try:
        run("initdb", "-A", "trust", "-U", "app", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync")
        run("pg_ctl", "-w", "-l", str(folder / "log"), "-o", options_of(folder), "start")
        try:
            yield Server(folder, run)
        finally:
            run("pg_ctl", "-m", "immediate", "stop")
    finally:
        shutil.rmtree(folder, ignore_errors=True)
