"""The command line run in this process, and gardens to ask about."""

from __future__ import annotations

import contextlib
import io
import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from gardens import make_garden
from spadework.faces.cli.main import run


@dataclass(frozen=True)
class Said:
    """What one command said."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """Its answer, with numbers that are none refused."""

        def refuse(word: str) -> None:
            raise AssertionError(f"{word} in JSON")

        return json.loads(self.out, parse_constant=refuse)


def say(*words: str) -> Said:
    """Run one command as a person would; a traceback passes through and fails the test."""
    out, err = io.StringIO(), io.StringIO()
    code = 0
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            run(list(words))
        except SystemExit as left:
            code = int(left.code or 0)
    return Said(code, out.getvalue(), err.getvalue())


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
