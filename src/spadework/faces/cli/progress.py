"""A bar for long work, on a terminal only."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from time import monotonic

_LONG_S = 1.0
"""Work that is done sooner shows no bar."""


@contextmanager
def progress(what: str) -> Iterator[Callable[[int, int], None]]:
    """A function to tell how many parts of how many are done.

    Parameters
    ----------
    what : str
        What is going on: "Writing".
    """
    if not sys.stderr.isatty():
        yield lambda *_: None
        return
    from rich.console import Console
    from rich.progress import Progress

    bar = Progress(console=Console(file=sys.stderr), transient=True)
    began = monotonic()
    task = bar.add_task(what, total=None)

    def step(done: int, of: int) -> None:
        if monotonic() - began > _LONG_S:
            bar.start()
        bar.update(task, completed=done, total=of)

    try:
        yield step
    finally:
        bar.stop()
