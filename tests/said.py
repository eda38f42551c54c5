"""The command line run in this process."""

from __future__ import annotations

import contextlib
import io
import json
from dataclasses import dataclass
from typing import Any

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
