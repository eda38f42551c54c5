"""Words every command takes, and how dates and temperatures are read."""

from __future__ import annotations

import logging
import re
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import msgspec
from cyclopts import Parameter

from spadework import units
from spadework.errors import ParameterError
from spadework.faces.dates import day_written

if TYPE_CHECKING:
    from spadework.usecases.lock_lines import LockLine
    from spadework.usecases.packet import Packet
    from spadework.usecases.write_answer import Writing

FIRST_YEAR, LAST_YEAR = 1700, 2300
"""Years a date may lie in: the oldest daily records begin in the 1700s."""


@Parameter(name="*")
@dataclass(frozen=True)
class Common:
    """What every command takes."""

    garden: Annotated[Path, Parameter(help="Garden folder.")] = Path()
    today: Annotated[str | None, Parameter(help="Ask as of this day: nothing later counts as seen.")] = None
    json: Annotated[bool, Parameter(negative="", help="Answer in JSON.")] = False

    @property
    def day(self) -> date:
        """The day of asking."""
        return date.today() if self.today is None else read_date(self.today, "--today")


@Parameter(name="*")
@dataclass(frozen=True)
class Looking:
    """Which day is looked at, and as known when."""

    on: Annotated[str | None, Parameter(help="The day looked at; else today.")] = None
    known_on: Annotated[str | None, Parameter(help="As known at the end of that day; else as known now.")] = (
        None
    )

    def days(self, common: Common) -> dict[str, date | None]:
        """Both days, None where not given."""
        return {
            "on": None if self.on is None else read_date(self.on, "--on", common.day),
            "known_on": None if self.known_on is None else read_date(self.known_on, "--known-on", common.day),
        }


@Parameter(name="*")
@dataclass(frozen=True)
class Writes:
    """What every command that writes into the book takes."""

    on: Annotated[str | None, Parameter(help="The day it happened; else today.")] = None
    by: Annotated[
        str, Parameter(help="Who did it; else SPADEWORK_BY of the environment, or the only keeper.")
    ] = ""
    insist: Annotated[
        bool, Parameter(negative="", help="It is so, although the program asks; the entry is marked.")
    ] = False

    def writing(self, common: Common) -> Writing:
        """The same for a use case."""
        from spadework.usecases.write_answer import Writing

        on = None if self.on is None else read_date(self.on, "--on", common.day)
        return Writing(today=common.day, on=on, by=self.by, insist=self.insist)


def read_date(text: str, name: str, near: date | None = None) -> date:
    """A date as a person writes it: 2026-05-01, "1 May", "May 1", "1 May 2026", today.

    Parameters
    ----------
    text : str
    name : str
        The option, for the message.
    near : date or None
        Where no year is given, the year of this day.

    Raises
    ------
    ParameterError
    """
    found = day_written(text, near or date.today())
    if found is None:
        raise ParameterError(
            f"{name} {text!r} is not a date.",
            'Write it as year-month-day, such as 2026-05-01, or as "1 May 2026".',
        )
    if not FIRST_YEAR <= found.year <= LAST_YEAR:
        raise ParameterError(
            f"{name} {text!r} is a date no weather record reaches.",
            f"Give a year from {FIRST_YEAR} to {LAST_YEAR}.",
        )
    return found


def read_temp(text: str, name: str) -> float:
    """A temperature in °C, or in °F with an F behind it.

    Raises
    ------
    ParameterError
    """
    match = re.fullmatch(r"\s*([-+−]?\d+(?:[.,]\d+)?)\s*°?\s*([cCfF]?)\s*", text)
    if match is None:
        raise ParameterError(f"{name} {text!r} is not a temperature.", "Write it as -2, -2C or 28F.")
    value = float(match[1].replace("−", "-").replace(",", "."))
    # rounded, so that 28.4 F is the same limit as -2 C
    return round(units.c_from_f(value), 6) if match[2].lower() == "f" else value


def read_odds(text: str, name: str) -> tuple[str, float]:
    """Odds as spoken ("1in5", "1 in 5", "20%", "0.2") and as a chance.

    Raises
    ------
    ParameterError
    """
    words = text.strip().lower().replace(" ", "")
    chance = None
    if match := re.fullmatch(r"(\d+)(?:in|/|of)(\d+)", words):
        chance = int(match[1]) / int(match[2]) if int(match[2]) else None
    elif match := re.fullmatch(r"(\d+(?:\.\d+)?)%", words):
        chance = float(match[1]) / 100.0
    elif re.fullmatch(r"0?\.\d+", words):
        chance = float(words)
    if chance is None or not 0.0 < chance < 1.0:
        raise ParameterError(f"{name} {text!r} is not odds.", "Write them as 1in5, 1in10, or 20%.")
    spoken = re.sub(r"^(\d+)(?:in|/|of)(\d+)$", r"\1 in \2", words)
    return spoken, chance


def read_packet(
    days: float | None, from_setting_out: bool | None, sown: str | None, today: date
) -> Packet | None:
    """A packet's days as the person gave them; None where none are given.

    Raises
    ------
    ParameterError
    """
    if days is None:
        if from_setting_out is not None or sown is not None:
            raise ParameterError("The packet's number of days is missing.", "Give --packet-days N with it.")
        return None
    from spadework.usecases.packet import Packet

    return Packet(days, from_setting_out, None if sown is None else read_date(sown, "--packet-sown", today))


def answer(
    common: Common,
    found: Any,
    tell: Callable[[], None],
    *,
    locks: Callable[[], list[LockLine]] | None = None,
) -> None:
    """Print an answer: JSON where asked, else as `tell` speaks it.

    Parameters
    ----------
    common : Common
    found : Struct
    tell : callable
    locks : callable or None
        Gives the locks on what the answer is about, where it does not hold them itself: said before it.
    """
    lines = None if locks is None else locks()
    if not common.json:
        if lines:
            from spadework.faces.cli.lock_say import tell_locks
            from spadework.faces.cli.odds import voice_of

            tell_locks(lines, voice_of(common))
        tell()
        return
    whole = msgspec.to_builtins(found, builtin_types=(date, datetime))
    if lines is not None:
        whole["locks"] = msgspec.to_builtins(lines, builtin_types=(date, datetime))
    if isinstance(whole, dict) and HEARD.damage and not whole.get("damage"):
        whole["damage"] = " ".join(HEARD.damage)
    sys.stdout.write(msgspec.json.format(msgspec.json.encode(whole), indent=2).decode() + "\n")


class Heard(logging.Handler):
    """What the program's parts warned of while one command ran, said once; damage is kept for the answer."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.messages: list[str] = []
        self.damage: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Say a warning on standard error the first time."""
        message = record.getMessage()
        if message not in self.messages:
            self.messages.append(message)
            if record.name.endswith(".damage"):
                self.damage.append(message)
            print(message, file=sys.stderr)


HEARD = Heard()


def listen() -> None:
    """Begin anew with what is heard; for the start of a command."""
    HEARD.messages.clear()
    HEARD.damage.clear()
    log = logging.getLogger("spadework")
    if HEARD not in log.handlers:
        log.addHandler(HEARD)
