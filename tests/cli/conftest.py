"""The command line run in this process, and gardens to ask about."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from gardens import make_garden
from said import Said, say

Say = Callable[..., Said]


@pytest.fixture(scope="session")
def ask() -> Say:
    """Run a command once; the same words again give what was said then. For commands that only read."""
    return cache(say)


@pytest.fixture(scope="session")
def gardens(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Champion in the north, Cordoba in the south, and Champion in American units. Not to be written into."""
    folder = tmp_path_factory.mktemp("gardens")
    return {place: make_garden(folder, place) for place in ("north", "south", "us")}


@pytest.fixture
def do() -> Say:
    """Run a command that may change something."""
    return say
