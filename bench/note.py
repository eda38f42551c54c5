"""A line told: read, asked about and on the disk, with a book of ten thousand entries folded already."""

from __future__ import annotations

import tempfile
from datetime import date
from pathlib import Path
from statistics import median
from time import perf_counter

from bench.figures import Figure
from bench.long_book import long_book
from spadework.garden.fold import fold
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import State, open_state, write_acts
from spadework.usecases.keep_garden import make_garden
from spadework.usecases.line.marking import Manner
from spadework.usecases.line.read import read_line

ENTRIES = 10_000
BUDGET_MS = 50.0
RUNS = 30
TODAY = date(2040, 6, 15)
"""Later than all of the invented book."""


def measure() -> list[Figure]:
    """Medians over several runs, on the disk this program lies on; the state is folded before each."""
    with tempfile.TemporaryDirectory(dir=Path(__file__).parent, prefix=".note-") as folder:
        path = Path(folder) / "garden"
        make_garden(path, "Bench, invented", 47.0, 8.0, 400.0)
        garden = open_garden(path)
        with garden.open_book() as book:
            book.append(long_book(ENTRIES))
        state = open_state(garden)
        whole, reading = [], []
        for number in range(RUNS):
            line = f"watered bed {number % 40} with {number + 1} litres yesterday"
            started = perf_counter()
            read = read_line(line, state.garden, Manner(TODAY))
            reading.append((perf_counter() - started) * 1e3)
            written = write_acts(garden, read.acts, today=TODAY, author="ann", state=state, insist=True)
            whole.append((perf_counter() - started) * 1e3)
            assert written.stored
            entries = (*state.entries, *written.entries)
            state = State(garden=fold(entries, picked_whole=state.garden.picked_whole), entries=entries)
    return [
        Figure("note: a line read", median(reading), "ms"),
        Figure("note: read, asked about, on the disk; 10,000 entries", median(whole), "ms", BUDGET_MS),
    ]
