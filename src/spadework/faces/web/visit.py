"""One request of one person: what was asked, by whom, and the garden's own way of being spoken to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any, Final, TypeAlias

import msgspec
from starlette.datastructures import UploadFile

from spadework.errors import ParameterError, SpadeworkError
from spadework.faces.dates import day_written
from spadework.faces.voice import Voice
from spadework.faces.web.house import House
from spadework.garden.site import Site
from spadework.usecases.do_jobs import Doing
from spadework.usecases.keep_book import Asked
from spadework.usecases.look import Role
from spadework.usecases.write_answer import Writing

LARGEST: Final = 1e6
"""Beyond this no number on a form can be meant. Our own rule."""

FIRST_YEAR: Final = 1900
YEARS_AHEAD: Final = 20
"""Days on a form lie from then to so many years from now. Our own rule."""

RANKS: Mapping[str, int] = {"reader": 0, "helper": 1, "keeper": 2}


@dataclass(frozen=True)
class Caller:
    """Who asks: on this machine whoever sits at it, elsewhere whoever was let in.

    Parameters
    ----------
    person : str
        Key; empty where the garden knows nobody.
    name : str
    role : Role
    token : str
        What a form of this caller has to carry.
    here : bool
        Whether they sit at the machine itself.
    by_token : bool
        Whether they sent a token no browser sends by itself.
    session : str
        Names the device they were let in with; empty at the machine.
    known : bool
        Whether they were let in at all.
    """

    person: str = ""
    name: str = ""
    role: Role = "keeper"
    token: str = ""
    here: bool = True
    by_token: bool = False
    session: str = ""
    known: bool = True


@dataclass(frozen=True)
class Visit:
    """One request.

    Parameters
    ----------
    house : House
    caller : Caller
    path : str
    names : mapping of str to str
        Parts of the path.
    query : mapping of str to str
    form : mapping of str to str
        Fields of a form; of one named more than once, the last.
    many : mapping of str to sequence of str
        All values of every field.
    files : mapping of str to UploadFile
    address : str
        Scheme and host it was asked by, as the browser names it.
    from_address : str
        The machine that asks.
    browser : str
        What it says it is.
    """

    house: House
    caller: Caller
    path: str
    names: Mapping[str, str] = field(default_factory=dict)
    query: Mapping[str, str] = field(default_factory=dict)
    form: Mapping[str, str] = field(default_factory=dict)
    many: Mapping[str, list[str]] = field(default_factory=dict)
    files: Mapping[str, UploadFile] = field(default_factory=dict)
    body: bytes = b""
    address: str = ""
    from_address: str = ""
    browser: str = ""

    @property
    def garden(self) -> Path:
        """The garden's folder."""
        return self.house.garden

    @property
    def today(self) -> date:
        """The day of asking."""
        return self.house.today

    @cached_property
    def site(self) -> Site:
        """Where the garden lies and how it is spoken to.

        Raises
        ------
        GardenError
        """
        from spadework.usecases.look import site_of

        return site_of(self.garden)

    @cached_property
    def voice(self) -> Voice:
        """Units and dates in the garden's own form."""
        return Voice(us=self.site.units == "us", today=self.today)

    def text(self, name: str, default: str = "") -> str:
        """A field of the form, or of the address."""
        return self.form.get(name, self.query.get(name, default)).strip()

    def number(self, name: str, default: float | None = None) -> float | None:
        """A number of the form or the address; a comma counts as a point.

        Raises
        ------
        Refused
            Beside that field.
        """
        text = self.text(name)
        if not text:
            return default
        try:
            found = float(text.replace(",", "."))
        except ValueError:
            raise Refused(f"{text!r} is not a number.", "Write it in figures.", field=name) from None
        if not abs(found) <= LARGEST:
            raise Refused(f"{text!r} is no number of a garden.", "Look at it again.", field=name)
        return found

    def day(self, name: str, default: date | None = None) -> date | None:
        """A day of the form or the address.

        Raises
        ------
        Refused
            Beside that field.
        """
        text = self.text(name)
        if not text:
            return default
        found = day_written(text, self.today)
        if found is None:
            raise Refused(f"{text!r} is not a date.", 'Write it as 2026-05-01 or "1 May".', field=name)
        if not FIRST_YEAR <= found.year <= self.today.year + YEARS_AHEAD:
            raise Refused(f"{found.year} is too far from today.", "Look at the year again.", field=name)
        return found

    @property
    def writing(self) -> Writing:
        """Who writes, of which day, for a use case: from the fields `on`, `insist` and `key`."""
        return Writing(
            today=self.today,
            on=self.day("on"),
            by=self.caller.person,
            insist=bool(self.text("insist")),
            key=self.text("key"),
        )

    @property
    def doing(self) -> Doing:
        """The same for a job: also from the field `act`."""
        return Doing(
            by=self.caller.person,
            on=self.day("on"),
            key=self.text("key"),
            act=self.text("act"),
            insist=bool(self.text("insist")),
        )


class Refused(ParameterError):
    """What was typed cannot be taken; it is said beside its field.

    Parameters
    ----------
    message, hint : str
    field : str
        Name of the field; empty for the whole form.
    """

    def __init__(self, message: str, hint: str = "", *, field: str = "") -> None:
        super().__init__(message, hint)
        self.field = field


class NotAllowed(SpadeworkError):
    """Who asks may not.

    Parameters
    ----------
    least : str
        The role it takes.
    message, hint : str
        Else these.
    status : int
        401 where nobody is let in by what was sent.
    """

    def __init__(self, least: str, message: str = "", hint: str = "", *, status: int = 403) -> None:
        who = "a keeper" if least == "keeper" else "a helper or a keeper"
        super().__init__(
            message or f"Only {who} of this garden can do that.",
            hint or "Ask a keeper to do it, or to change what you may do.",
        )
        self.status = status


class TooLong(SpadeworkError):
    """More was sent than is taken at once."""


@dataclass(frozen=True)
class Page:
    """A page to show.

    Parameters
    ----------
    template : str
    with_ : mapping
        What the template is given, beside `visit` and `voice`.
    """

    template: str
    with_: Mapping[str, Any] = field(default_factory=dict)
    status: int = 200


@dataclass(frozen=True)
class Go:
    """Done: where to go on, what to say of it, and the key of the entry by which it can be taken back.

    `cookie` is a name, what it holds (empty takes it away) and for how many days.
    """

    to: str
    say: str = ""
    undo: str = ""
    cookie: tuple[str, str, int] | None = None


@dataclass(frozen=True)
class Asks:
    """Not done: something is asked first, and what was sent can be sent again with "insist"."""

    questions: list[Asked]
    can_insist: bool


@dataclass(frozen=True)
class File:
    """Bytes of a kind: a picture, a sheet of paper, a calendar."""

    content: bytes
    kind: str
    name: str = ""
    """Given, it is saved under this name rather than shown."""
    keep: bool = False
    """Whether a browser may keep it."""


Answer: TypeAlias = Page | Go | Asks | File | msgspec.Struct


@dataclass(frozen=True)
class Way:
    """One address and what answers it.

    Parameters
    ----------
    path : str
        As the router reads it: "/bed/{bed}".
    do : callable
        Runs off the event loop, one at a time.
    post : bool
        A form or a message is sent to it.
    least : Role
        Who may.
    without_garden : bool
        Whether it answers where there is no garden yet; all others lead to the beginning then.
    open : bool
        Whether it answers those who were not let in; it tells nothing of the garden.
    waits : bool
        It waits for an answer from elsewhere: others get theirs meanwhile, and it takes its turn to write.
    """

    path: str
    do: Callable[[Visit], Answer]
    post: bool = False
    least: Role = "reader"
    without_garden: bool = False
    open: bool = False
    waits: bool = False
