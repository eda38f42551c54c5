"""One garden for all, and a copy for who writes into it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from gardens import make_garden


@pytest.fixture(scope="session")
def north_garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Champion, with its record. Not to be written into."""
    return make_garden(tmp_path_factory.mktemp("gardens"), "north")


@pytest.fixture
def own_garden(north_garden: Path, tmp_path: Path) -> Path:
    """A copy of it to write into."""
    return Path(shutil.copytree(north_garden, tmp_path / "own"))
