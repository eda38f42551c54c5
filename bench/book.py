"""The book: how long an entry takes until it is on the disk, and ten thousand to read."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from datetime import UTC, date, datetime
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter

from bench.figures import Figure
from spadework.garden.entries import Counted, Entry
from spadework.store.open_book import open_file

ENTRIES = 10_000
NOTE_BUDGET_MS = 50.0
READ_BUDGET_MS = 200.0


def measure() -> list[Figure]:
    """Medians over several runs, on the disk this program lies on."""
    with tempfile.TemporaryDirectory(dir=Path(__file__).parent, prefix=".book-") as folder:
        path = Path(folder) / "book.sqlite"
        with open_file(path) as book:
            book.append(_entry(number) for number in range(ENTRIES))
            added = [_ms(partial(book.append, [_entry(ENTRIES + number)])) for number in range(100)]
            read = [_ms(book.entries) for _ in range(9)]
        opened = [_ms(partial(_note, path, 2 * ENTRIES + number)) for number in range(30)]
    return [
        Figure("book: one entry, until it is on the disk", median(added), "ms"),
        Figure("book: opened, one entry, closed", median(opened), "ms", NOTE_BUDGET_MS),
        Figure("book: 10,000 entries read", median(read), "ms", READ_BUDGET_MS),
    ]


def _note(path: Path, number: int) -> None:
    with open_file(path) as book:
        book.append([_entry(number)])


def _entry(number: int) -> Entry:
    return Entry(
        key=f"{number:026d}",
        happened_on=date(2026, 5, 20),
        recorded_at=datetime(2026, 5, 20, 12, tzinfo=UTC),
        author="ann",
        bed="long bed",
        planting=f"carrot-{number % 80}",
        act=Counted(standing=number),
    )


def _ms(work: Callable[[], object]) -> float:
    started = perf_counter()
    work()
    return (perf_counter() - started) * 1e3
