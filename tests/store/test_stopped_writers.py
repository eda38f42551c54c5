"""Writers that are really killed, and writers at the same time: nothing acknowledged is lost or doubled."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from book_servers import Place
from source_tree import ROOT
from spadework.store.open_book import open_file

SCRIPT = Path(__file__).with_name("write_and_stop.py")
KILLED = 9

WRITER = """
import sys
from pathlib import Path
from datetime import UTC, date, datetime
from spadework.garden.entries import Counted, Entry
from spadework.store.open_book import open_file, open_server

garden, url, name, shared = Path(sys.argv[1]), sys.argv[2], sys.argv[3], sys.argv[4]
print("ready", flush=True)
sys.stdin.readline()
moment = datetime(2026, 5, 20, 12, tzinfo=UTC)
for turn in range(200):
    key = f"{'both' if shared == 'same' else name}-{turn:05d}"
    said = Entry(key=key, happened_on=date(2026, 5, 20), recorded_at=moment, author="ann",
                 act=Counted(standing=turn))
    with open_server(url, garden) if url else open_file(garden / "book.sqlite") as book:
        assert book.append([said]) == (key,)
"""


def killed(place: Place, kills: int) -> dict[str, Any]:
    command = [sys.executable, str(SCRIPT), str(place.garden), place.url, str(kills), "1"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=240)
    assert done.returncode == 0, done.stderr
    account: dict[str, Any] = json.loads(done.stdout)
    return account


@pytest.mark.slow
def test_no_kill_loses_or_doubles_an_acknowledged_entry(place: Place) -> None:
    kills = 240 if place.engine == "sqlite" else 60
    account = killed(place, kills)
    assert account["signals"] == [KILLED] * kills
    acknowledged = account["acknowledged"]
    assert len(acknowledged) > kills
    print(place.engine, kills, "kills", len(acknowledged), "acknowledged", account["seconds"], "s")
    with place.open() as book:
        assert book.damage == ""
        entries = book.entries()
    keys = [each.key for each in entries]
    there = set(keys)
    assert [key for key in acknowledged if key not in there] == []
    assert len(keys) == len(there)
    # A group that was added together is there together.
    groups = Counter(key.rpartition("-")[0] for key in keys)
    assert {size for group, size in groups.items() if int(group.rpartition("-")[2]) % 2} == {3}
    # Of each writer at most the one write it was killed in is there without having been acknowledged.
    unsaid = Counter(key.partition("-")[0] for key in there - set(acknowledged))
    assert all(size <= 3 for size in unsaid.values())
    assert all(int(each.key.split("-")[1]) == each.act.standing for each in entries)  # type: ignore[union-attr]


def test_a_book_whose_making_was_killed_can_still_be_made(tmp_path: Path) -> None:
    made = """
import os, signal, sys, threading
from pathlib import Path
import alembic.command, sqlalchemy
from spadework.store.open_book import open_file
for number in range(40):
    child = os.fork()
    if child == 0:
        open_file(Path(sys.argv[1]) / f"{number}.sqlite")
        os._exit(0)
    import time; time.sleep(number * 0.0006)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    print(int(os.WIFSIGNALED(status)))
"""
    done = subprocess.run(
        [sys.executable, "-c", made, str(tmp_path)], capture_output=True, text=True, check=False, timeout=60
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.split().count("1") >= 10
    from book_entries import entry

    for number in range(40):
        with open_file(tmp_path / f"{number}.sqlite") as book:
            book.append([entry()])
            assert book.count() == 1


@pytest.mark.parametrize("shared", ["own", "same"])
def test_two_writers_at_once_lose_nothing(place: Place, shared: str) -> None:
    with place.open():
        pass
    writers = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, str(place.garden), place.url, name, shared],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env=os.environ,
        )
        for name in ("one", "two")
    ]
    for writer in writers:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "ready\n"
    said = [writer.communicate("go\n", timeout=120) for writer in writers]
    assert [writer.returncode for writer in writers] == [0, 0], said
    with place.open() as book:
        keys = [each.key for each in book.entries()]
    names = ("both",) if shared == "same" else ("one", "two")
    assert sorted(keys) == sorted(f"{name}-{turn:05d}" for name in names for turn in range(200))
