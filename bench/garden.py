"""The garden: ten thousand entries folded, an act asked about and written, the ways between forty beds."""

from __future__ import annotations

import tempfile
from datetime import timedelta
from pathlib import Path
from statistics import median
from time import perf_counter

from bench.figures import Figure, best_seconds
from bench.long_book import long_book
from spadework.garden import entries as kinds
from spadework.garden.fold import fold
from spadework.garden.site import Site
from spadework.garden.walk import walks
from spadework.store.garden_folder import GardenFolder, create
from spadework.usecases.keep_book import Act, open_state, write_acts

ENTRIES = 10_000
FOLD_BUDGET_MS = 200.0
ACT_BUDGET_MS = 50.0
WALK_BUDGET_MS = 100.0
ACTS = 40


def measure() -> list[Figure]:
    """Least of several folds and ways; the median of acts, on the disk this program lies on."""
    book = long_book(ENTRIES)
    garden = fold(book)
    fold_s = best_seconds(lambda: fold(book), repeats=7)
    walk_s = best_seconds(lambda: walks(garden.beds), repeats=7)
    with tempfile.TemporaryDirectory(dir=Path(__file__).parent, prefix=".garden-") as at:
        folder = create(
            Path(at) / "garden",
            Site(name="Invented", lat_deg=50.0, lon_deg=10.0, elevation_m=200.0),
        )
        with folder.open_book() as kept:
            kept.append(book)
        acts_ms = _acts_ms(folder)
    return [
        Figure("garden: 10,000 entries folded", fold_s * 1e3, "ms", FOLD_BUDGET_MS),
        Figure(
            "garden: an act asked about and on the disk, 10,000 entries folded before",
            median(acts_ms),
            "ms",
            ACT_BUDGET_MS,
        ),
        Figure("garden: ways between 40 beds, round the others", walk_s * 1e3, "ms", WALK_BUDGET_MS),
    ]


def _acts_ms(folder: GardenFolder) -> list[float]:
    """Times of single acts, each in the garden as it was folded once before."""
    state = open_state(folder)
    today = state.garden.last_day + timedelta(days=1)
    taken = []
    for number in range(ACTS):
        act = Act(payload=kinds.Watered(litres=5.0 + number), on=today, bed=f"b{number}")
        started = perf_counter()
        written = write_acts(folder, [act], today=today, author="ann", state=state)
        taken.append((perf_counter() - started) * 1e3)
        if not written.stored:
            raise RuntimeError(f"The act was not written: {written.questions}.")
    return taken
