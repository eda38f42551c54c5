"""The round for 30 beds and 80 plantings through 30 years: a new process, and again in one that runs."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from statistics import median
from time import perf_counter

from bench.figures import Figure
from spadework.garden import entries as kinds
from spadework.garden.site import Site
from spadework.store.garden_folder import create, open_garden
from spadework.usecases.jobs_today import open_day
from spadework.usecases.keep_book import Act, write_acts
from spadework.usecases.walk_round import round_of
from spadework.weather.demo_normals import demo_record
from spadework.weather.read.result import ReadResult

BEDS, PLANTINGS, YEARS = 30, 80, 33
TODAY = date(2026, 6, 15)
COLD_BUDGET_MS, WARM_BUDGET_MS = 2000.0, 100.0
CROPS = (
    "carrot", "beet", "lettuce", "pea", "bush-bean", "onion", "parsnip", "spinach", "radish", "kale",
    "potato", "garlic", "leek", "chard", "sweet-corn", "cabbage", "summer-squash", "dill",
)  # fmt: skip


def measure() -> list[Figure]:
    """Medians; the weather and the garden are invented."""
    with tempfile.TemporaryDirectory() as folder:
        garden = Path(folder) / "garden"
        _make(garden)
        command = [
            sys.executable, "-m", "spadework.faces.cli", "round", "--json",
            "--garden", str(garden), "--today", TODAY.isoformat(),
        ]  # fmt: skip
        cold = [_seconds_of(command) for _ in range(6)][1:]
        warm = _warm(garden)
    return [
        Figure(
            "round: 30 beds, 80 plantings, 30 years: new process", median(cold) * 1e3, "ms", COLD_BUDGET_MS
        ),
        Figure("round: the same again in a running process", median(warm) * 1e3, "ms", WARM_BUDGET_MS),
    ]


def _seconds_of(command: list[str]) -> float:
    started = perf_counter()
    subprocess.run(command, check=True, capture_output=True)
    return perf_counter() - started


def _warm(garden: Path) -> list[float]:
    round_of(open_day(garden, TODAY))
    taken = []
    for minutes in (20.0, 30.0, 45.0, 60.0, 90.0):
        started = perf_counter()
        round_of(open_day(garden, TODAY), minutes=minutes)
        taken.append(perf_counter() - started)
    return taken


def _make(garden: Path) -> None:
    create(garden, Site(name="Invented", lat_deg=47.2, lon_deg=-93.4, elevation_m=320.0))
    folder = open_garden(garden)
    folder.add_weather(ReadResult(demo_record(TODAY, years=YEARS), "made weather", "daily-csv"))
    if not write_acts(folder, list(_acts()), today=TODAY, author="ann", insist=True).stored:
        raise RuntimeError("The garden was not written.")


def _acts() -> Iterator[Act]:
    for bed in range(BEDS):
        place = kinds.BedSet(name=f"Bed {bed + 1}", x_m=(bed % 6) * 1.8, y_m=(bed // 6) * 3.0)
        yield Act(payload=place, on=date(2026, 1, 1), bed=f"bed-{bed + 1}")
    yield Act(payload=kinds.KitSet(item="fleece", sort="fleece", length_m=30.0), on=date(2026, 1, 1))
    for number in range(PLANTINGS):
        crop, key = CROPS[number % len(CROPS)], f"p{number}"
        sown = kinds.Sown(planting=key, crop=crop, rows=1, row_cm=35.0, row_length_m=2.4, seeds=80)
        on = date(2026, 4, 1) + timedelta(days=number % 60)
        yield Act(payload=sown, on=on, bed=f"bed-{number % BEDS + 1}", planting=key)
