"""Start writers one after another, kill each with SIGKILL in its work, and say what they acknowledged.

Run as `python write_and_stop.py GARDEN URL KILLS SEED`. Each writer is a process of its own: it opens it,
adds one entry or a group of three at a time, and writes a key to its pipe only after it was acknowledged.
"""

from __future__ import annotations

import json
import os
import random
import select
import signal
import sys
import time
from datetime import UTC, date, datetime
from pathlib import Path

from spadework.garden.entries import Counted, Entry
from spadework.store.open_book import open_file, open_server
from spadework.store.sql_book import SqlBook

GROUP = 3


def open_at(garden: Path, url: str) -> SqlBook:
    """Open the book of a place."""
    return open_server(url, garden) if url else open_file(garden / "book.sqlite")


def made(key: str, standing: int) -> Entry:
    """An entry whose content follows from its key."""
    moment = datetime(2026, 5, 20, 12, tzinfo=UTC)
    act = Counted(standing=standing)
    return Entry(key=key, happened_on=date(2026, 5, 20), recorded_at=moment, author="ann", act=act)


def write_for_ever(garden: Path, url: str, number: int, pipe: int) -> None:
    """Add entries until killed."""
    with open_at(garden, url) as book:
        turn = 0
        while True:
            size = GROUP if turn % 2 else 1
            keys = [f"{number:08d}-{turn:08d}-{part}" for part in range(size)]
            acknowledged = book.append([made(key, turn) for key in keys])
            os.write(pipe, "".join(f"{key}\n" for key in acknowledged).encode())
            turn += 1


def kill_one(garden: Path, url: str, number: int, luck: random.Random) -> tuple[list[str], int]:
    """Start a writer and kill it 5 to 60 ms after its first entry, or now and then before it; its keys."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(reading)
            write_for_ever(garden, url, number, writing)
        finally:
            os._exit(1)  # only an error leads here
    os.close(writing)
    if luck.random() < 0.9:
        select.select([reading], [], [], 30)
    time.sleep(luck.uniform(0.005, 0.060))
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    text = b""
    while part := os.read(reading, 65536):
        text += part
    os.close(reading)
    # What was not written to the end was not said.
    keys = text.decode().split("\n")[:-1]
    return keys, os.WTERMSIG(status) if os.WIFSIGNALED(status) else 0


def main() -> None:
    """Kill as many writers as asked and print the account."""
    garden, url, kills, seed = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
    luck = random.Random(seed)
    with open_at(garden, url):
        pass
    acknowledged: list[str] = []
    signals: list[int] = []
    started = time.monotonic()
    for number in range(kills):
        keys, signalled = kill_one(garden, url, number, luck)
        acknowledged += keys
        signals.append(signalled)
    took = time.monotonic() - started
    print(json.dumps({"acknowledged": acknowledged, "signals": signals, "seconds": round(took, 2)}))


if __name__ == "__main__":
    main()
