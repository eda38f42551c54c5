"""One call of the API: its address, what it takes, what it answers, who may."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Annotated, Any, Generic, TypeVar

import msgspec
from msgspec import UNSET, Meta

from spadework.errors import SpadeworkError
from spadework.faces.web.house import House
from spadework.faces.web.visit import Caller
from spadework.usecases.keep_book import Asked
from spadework.usecases.lock_lines import LockLine
from spadework.usecases.look import Role
from spadework.usecases.write_answer import WriteAnswer, Writing, written_before

PLAIN = r"^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]*$"
"""Text without signs that no keyboard has."""

Text = Annotated[str, Meta(max_length=300, pattern=PLAIN)]
LongText = Annotated[str, Meta(max_length=4000, pattern=PLAIN)]
Key = Annotated[str, Meta(pattern=r"^([0-7][0-9A-HJKMNP-TV-Z]{25})?$", description="Key of the first entry.")]
Metres = Annotated[float, Meta(ge=0.0, le=1000.0, description="In metres.")]
Count = Annotated[int, Meta(ge=0, le=1_000_000)]
Percent = Annotated[float, Meta(gt=0.0, le=100.0)]
DepthMm = Annotated[float, Meta(gt=0.0, le=500.0, description="In millimetres.")]

T = TypeVar("T")


class WithLocks(msgspec.Struct, Generic[T], frozen=True, kw_only=True):
    """An answer, and the locks in force on what it is about: no act may pass them."""

    found: T
    locks: list[LockLine]


@dataclass(frozen=True)
class Bytes:
    """An answer that is a file of a kind, and no JSON."""

    content: bytes
    kind: str


class Nothing(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Nothing is asked beside the address."""


class Query(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Base of all queries."""


class Sent(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What every message that writes may say.

    Parameters
    ----------
    on : date or None
        The day it happened; today where it is left out.
    insist : bool
        It is so, although something was asked.
    key : str
        Key of the first entry, made by who sends it: what is sent twice with one key is written once. The
        header Idempotency-Key says the same.
    """

    on: date | None = None
    insist: bool = False
    key: Key = ""


class Problem(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """What went wrong, after RFC 9457 (2023), "Problem Details for HTTP APIs".

    Parameters
    ----------
    type : str
        Always about:blank: the status says what sort of problem it is.
    title, status, detail
    hint : str
        What to do about it.
    asks : list of Asked
        What is asked first, where nothing was written.
    can_insist : bool
        Whether the same with `insist` set would be written.
    """

    title: str
    status: int
    detail: str
    type: str = "about:blank"
    hint: str = ""
    asks: list[Asked] = msgspec.field(default_factory=list)
    can_insist: bool = False


class Questions(SpadeworkError):
    """Nothing was written: something is asked first."""

    def __init__(self, asks: list[Asked], *, can_insist: bool) -> None:
        said = " ".join(f"{each.found} {each.why}" for each in asks)
        hint = "Send it again with insist set where it is so." if can_insist else ""
        super().__init__(said or "It was not written.", hint)
        self.asks = asks
        self.can_insist = can_insist


@dataclass(frozen=True)
class Asking:
    """One call by one person.

    Parameters
    ----------
    house : House
    caller : Caller
    names : mapping of str to str
        Parts of the address.
    given : Struct
        The query, as the call's `asks`.
    sent : Struct or None
        The body, as the call's `sends`.
    key : str
        Key of the first entry, from the header or the body.
    body : bytes
        What was sent, where it is a file; `sent` then is the query.
    from_address : str
        The machine that asks.
    """

    house: House
    caller: Caller
    names: Mapping[str, str]
    given: Any
    sent: Any = None
    key: str = ""
    body: bytes = b""
    from_address: str = ""

    @property
    def garden(self) -> Path:
        """The garden's folder."""
        return self.house.garden

    @property
    def today(self) -> date:
        """The day of asking."""
        return self.house.today

    @property
    def writing(self) -> Writing:
        """Who writes, of which day, for a use case."""
        return Writing(
            today=self.today, on=self.sent.on, by=self.caller.person, insist=self.sent.insist, key=self.key
        )

    def said(self, *without: str) -> dict[str, Any]:
        """Fields of the body that were said, without those every body has."""
        left_out = {*Sent.__struct_fields__, *without}
        fields = ((name, getattr(self.sent, name)) for name in self.sent.__struct_fields__)
        return {name: value for name, value in fields if name not in left_out and value is not UNSET}


@dataclass(frozen=True)
class Call:
    """One call.

    Parameters
    ----------
    path : str
        Below /api: "/beds/{bed}".
    says : str
        What it does, in a sentence.
    do : callable
        Runs off the event loop, one at a time.
    answers : type
        What it gives.
    asks : type
        A Struct of the query's fields.
    sends : type or None
        A Struct of the body; given, the call writes.
    takes : tuple of str
        Kinds of file that are sent to it; given, the call writes, and `asks` is what is said with the file.
    gives : tuple of str
        Kinds of file it answers with, in place of JSON.
    least : Role
        Who may.
    open : bool
        Whether it answers who was not let in.
    """

    path: str
    says: str
    do: Callable[[Asking], Any]
    answers: Any
    asks: type[msgspec.Struct] = Nothing
    sends: type[msgspec.Struct] | None = None
    takes: tuple[str, ...] = ()
    gives: tuple[str, ...] = ()
    least: Role = "reader"
    open: bool = False

    @property
    def writes(self) -> bool:
        """Whether something is sent to it."""
        return self.sends is not None or bool(self.takes)

    @property
    def method(self) -> str:
        """How it is sent."""
        return "POST" if self.writes else "GET"


def once(do: Callable[[Asking], WriteAnswer]) -> Callable[[Asking], WriteAnswer]:
    """A call that writes where the same did not arrive before, and asks where something is odd."""

    def answer(asking: Asking) -> WriteAnswer:
        found = written_before(asking.garden, asking.writing) or do(asking)
        if not found.stored:
            raise Questions(found.questions, can_insist=found.can_insist)
        return found

    return answer
