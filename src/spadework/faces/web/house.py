"""What one running server knows: which garden, which day, who waits for news, whose turn it is."""

from __future__ import annotations

import threading
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from spadework.faces.web.live import Hub
from spadework.usecases.let_in import LetIn
from spadework.usecases.look import Role, people_known
from spadework.usecases.sent_once import SentOnce


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
    home : bool
        It listens on the home network: whoever is not at this machine has to be let in.
    reached_by : tuple of str
        Addresses by which other devices reach it, best first.
    authority : bytes
        Certificate that vouches for its address, where it is served by https.
    let_in : LetIn
        Who was let in.
    sent : SentOnce
        Which message came under which key.
    """

    garden: Path
    fixed_day: date | None = None
    demo: bool = False
    names: tuple[str, ...] = ("127.0.0.1", "localhost", "[::1]")
    hub: Hub = field(default_factory=Hub)
    turn: threading.RLock = field(default_factory=threading.RLock)
    home: bool = False
    reached_by: tuple[str, ...] = ()
    authority: bytes = b""
    let_in: LetIn = field(init=False)
    sent: SentOnce = field(init=False)
    _mark: str = ""

    def __post_init__(self) -> None:
        self.let_in = LetIn(self.garden)
        self.sent = SentOnce(self.garden)

    @property
    def today(self) -> date:
        """The day questions are asked on."""
        return self.fixed_day or date.today()

    @property
    def people(self) -> Mapping[str, tuple[str, Role]]:
        """Name and role of everybody the garden knows, by key, as the book has it now."""
        return people_known(self.garden)

    def person(self, key: str) -> tuple[str, Role] | None:
        """Name and role of one of them; of a garden that knows nobody, its keeper."""
        people = self.people
        if not people and not key:
            return "", "keeper"
        return people.get(key)

    @property
    def first_keeper(self) -> tuple[str, str]:
        """Key and name of the keeper who was told of first; both empty where nobody is known."""
        return next(((key, name) for key, (name, role) in self.people.items() if role == "keeper"), ("", ""))

    @property
    def mark(self) -> str:
        """What tells this garden from any other, for acts kept on a phone; empty where the book is."""
        if not self._mark:
            from spadework.usecases.look import mark_of

            self._mark = mark_of(self.garden)
        return self._mark
