"""Measured data for tests: where they lie, or a plain skip.

The folder is the one named by SPADEWORK_SHARED, else the folder `shared` beside the project. A fresh clone
has neither and skips; the continuous check has it and allows no skip.
"""

from __future__ import annotations

import csv
import os
from pathlib import Path

import pytest


def shared_folder() -> Path | None:
    """The folder of measured data, or None where this machine has none."""
    named = os.environ.get("SPADEWORK_SHARED")
    folder = Path(named) if named else Path(__file__).resolve().parents[2] / "shared"
    return folder if folder.is_dir() else None


def shared_file(name: str) -> Path:
    """One file of it, such as `data/station.csv.gz`; the test that asks is skipped where it is absent."""
    folder = shared_folder()
    if folder is None:
        pytest.skip("the folder of measured data is not beside this project (set SPADEWORK_SHARED to it)")
    path = folder / name
    if not path.is_file():
        pytest.skip(f"the folder of measured data has no {name}")
    return path


def shared_rows(name: str) -> list[dict[str, str]]:
    """The rows of a CSV table of it, each by its column names."""
    with shared_file(name).open(newline="", encoding="utf-8") as table:
        return list(csv.DictReader(table))
