"""Luck that hangs on what it is about and nothing else: a longer book begins as a shorter one does."""

from __future__ import annotations

import random
from typing import Final

SEED: Final = "marrow lane"


class Luck:
    """A source of luck for one thing; each question put to it has its own answer, whatever was asked before.

    Parameters
    ----------
    *about : object
        What it is about.
    """

    def __init__(self, *about: object) -> None:
        self._about = "/".join([SEED, *map(str, about)])

    def at(self, *what: object) -> random.Random:
        """The luck of one question."""
        return random.Random("/".join([self._about, *map(str, what)]))
