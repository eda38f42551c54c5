"""A question about an entry: what was found, why it is odd, and what may have been meant."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

About: TypeAlias = Literal[
    "form",
    "day",
    "bed",
    "planting",
    "number",
    "kit",
    "tin",
    "lock",
    "soil",
    "label",
    "person",
    "double",
    "entry",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One thing that cannot be, or hardly.

    Parameters
    ----------
    about : About
        What it is about, for a face to put it in the right place.
    found : str
        A sentence: what was found.
    why : str
        A sentence: why that is odd, or what follows from it.
    nearest : tuple of str
        Known keys or names that may have been meant, best first.
    may_insist : bool
        Whether the person may say that it is so all the same; only what says nothing, or contradicts itself,
        cannot be written down.
    """

    about: About
    found: str
    why: str
    nearest: tuple[str, ...] = ()
    may_insist: bool = True

    def __str__(self) -> str:
        near = f" Nearest: {', '.join(self.nearest)}." if self.nearest else ""
        return f"{self.found} {self.why}{near}"
