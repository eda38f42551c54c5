"""Keys made from what people call things."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Container
from typing import Final

from spadework.errors import ParameterError

_BETWEEN: Final = re.compile(r"[^a-z0-9]+")


def key_from(name: str) -> str:
    """A key from a name: lower case, words joined by hyphens.

    Raises
    ------
    ParameterError
        If nothing of it can be in a key.
    """
    bare = unicodedata.normalize("NFKD", name.casefold())
    key = _BETWEEN.sub("-", "".join(c for c in bare if not unicodedata.combining(c))).strip("-")
    if not key:
        raise ParameterError(f"{name!r} is no name.", "It needs letters or figures.")
    return key


def free_name(name: str, taken: Container[str]) -> str:
    """The name, or with a number where it is taken."""
    free, number = name, 1
    while free in taken:
        number += 1
        free = f"{name}-{number}"
    return free
