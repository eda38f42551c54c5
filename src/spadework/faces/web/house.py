"""What one running server knows: which garden, which day, who waits for news, whose turn it is."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from spadework.faces.web.live import Hub


@dataclass
class House:
    """One server for one garden.

    Parameters
    ----------
    garden : Path
        Its folder; there may be no garden in it yet.
    fixed_day : date or None
        The day every question is asked on; None for the day it is.
    demo : bool
        The garden is the invented one, and every page says so.
    names : tuple of str
        Names and addresses it answers to, without a port.
    hub : Hub
        Tells open pages that the book has grown.
    turn : RLock
        Use cases share caches that know one caller at a time; whoever asks or writes holds it.
    """

    garden: Path
    fixed_day: date | None = None
    demo: bool = False
    names: tuple[str, ...] = ("127.0.0.1", "localhost", "[::1]")
    hub: Hub = field(default_factory=Hub)
    turn: threading.RLock = field(default_factory=threading.RLock)

    @property
    def today(self) -> date:
        """The day questions are asked on."""
        return self.fixed_day or date.today()
