"""A planting said otherwise and moved in the terminal, in the garden's own units."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest

from said import Said, say
from spadework.usecases.demo_garden import make_demo

DAY = date(2026, 6, 12)
CARROTS = "carrot-2026-2"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


@pytest.fixture
def garden(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "garden"))


def _ask(garden: Path, *words: str) -> Said:
    return say(*words, "--garden", str(garden), "--today", DAY.isoformat())


def test_it_is_said_what_it_comes_to_and_then_written(garden: Path) -> None:
    looked = _ask(garden, "change", CARROTS, "--rows", "3", "--dry-run")
    assert "3 rows of 2.5 m" in looked.out
    assert "afterwards" in looked.out
    done = _ask(garden, "change", CARROTS, "--rows", "3", "--by", "maren")
    assert done.code == 0, done.out
    assert "3 rows" in " ".join(done.out.split())
    assert "3 rows" in _ask(garden, "change", CARROTS).out


def test_plants_are_moved_and_what_that_costs_is_said(garden: Path) -> None:
    looked = _ask(garden, "transplant", CARROTS, "--to", "Shed 3", "--number", "20", "--dry-run")
    assert "stand still about 7 days" in looked.out
    assert "tap root" in looked.out
    done = _ask(garden, "transplant", CARROTS, "--to", "Shed 3", "--number", "20", "--by", "maren")
    assert done.code == 0, done.out
    assert "Shed 3" in done.out


def test_what_cannot_be_is_refused_in_a_line(garden: Path) -> None:
    assert _ask(garden, "change", CARROTS, "--spacing", "lots").code == 2
    assert _ask(garden, "transplant", "nothing-1", "--to", "Shed 3").code == 2
