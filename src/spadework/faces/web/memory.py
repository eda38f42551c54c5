"""Memory a long question needed is given back to the machine once it is answered."""

from __future__ import annotations

import ctypes
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from typing import Any, Final

LONG_S: Final = 0.15
"""A question that took this long went through the years anew, and left large tables behind. Our own rule."""


@contextmanager
def given_back() -> Iterator[None]:
    """Run a question; after a long one the freed memory goes back, where the system knows how."""
    begun = time.monotonic()
    try:
        yield
    finally:
        trim = _trim()
        if trim is not None and time.monotonic() - begun > LONG_S:
            trim(0)


@cache
def _trim() -> Any:
    """`malloc_trim` of the C library; None where it has none."""
    try:
        return ctypes.CDLL(None).malloc_trim
    except (AttributeError, OSError, TypeError):
        return None
