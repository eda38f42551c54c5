"""What a person waits for at the command line: a new process each time, files in the system's cache."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from bench.champion import ELEVATION_M, LAT_DEG, LON_DEG, Champion
from bench.figures import Figure

REPEATS = 7
TODAY = "2018-04-20"


def measure(weather: Champion) -> list[Figure]:
    """Median time of commands from start to exit."""
    with tempfile.TemporaryDirectory() as folder:
        garden = Path(folder) / "champion"
        _make_garden(weather, Path(folder), garden)
        here = ["--garden", str(garden), "--today", TODAY, "--json"]
        timed = [
            ("bare Python, for comparison", [sys.executable, "-c", "pass"], None),
            ("law: one law", _app("law", "emergence-days", "crop=carrot", "soil_c=12", "--json"), 600.0),
            ("sheet: one crop", _app("sheet", "carrot", "--json"), None),
            ("odds frost, 37 years", _app("odds", "frost", *here), None),
            ("weigh sow carrot, 30 years", _app("weigh", "sow", "carrot", *here), 2000.0),
            ("weigh sow, every sheet, 30 years", _app("weigh", "sow", *here), 2000.0),
        ]
        return [
            Figure(f"cold start: {name}", _median_seconds(command) * 1e3, "ms", budget)
            for name, command, budget in timed
        ]


def _app(*words: str) -> list[str]:
    return [sys.executable, "-m", "spadework.faces.cli", *words]


def _make_garden(weather: Champion, folder: Path, garden: Path) -> None:
    lines = ["date,tmin_c,tmax_c,rain_mm"]
    lines += [
        f"{day},{tmin:.2f},{tmax:.2f},{rain:.2f}"
        for day, tmin, tmax, rain in zip(
            weather.dates, weather.tmin_c, weather.tmax_c, weather.rain_mm, strict=True
        )
    ]
    record = folder / "champion.csv"
    record.write_text("\n".join(lines) + "\n")
    place = ["--lat", str(LAT_DEG), "--lon", str(LON_DEG), "--elevation", str(ELEVATION_M)]
    _run(_app("new", "--name", "Champion", *place, "--garden", str(garden)))
    _run(_app("weather", "add", str(record), "--garden", str(garden)))


def _median_seconds(command: list[str]) -> float:
    _run(command)
    taken = []
    for _ in range(REPEATS):
        started = time.perf_counter()
        _run(command)
        taken.append(time.perf_counter() - started)
    return statistics.median(taken)


def _run(command: list[str]) -> None:
    # As in a person's shell: Python keeps what it has compiled for the next start.
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=environment)
    if done.returncode != 0:
        raise RuntimeError(f"{' '.join(command[1:])} ended with {done.returncode}:\n{done.stderr}")
