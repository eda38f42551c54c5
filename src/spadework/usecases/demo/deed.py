"""A deed: an entry of the demo's book before it has a key."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

from spadework.garden.entries import Payload
from spadework.usecases.demo.luck import Luck

KEEPERS: Final = ("maren", "odo")
HELPERS: Final = ("tilde", "bram", "noor", "fenn", "pia", "ansel")
NOT_HEAVY: Final = ("maren", "bram", "noor", "pia", "ansel")
WITH_BLADES: Final = ("maren", "odo", "bram", "noor", "tilde", "ansel")

EARLY, MORNING, DAY, EVENING, LATE = 0, 1, 2, 3, 4
"""When in a day; deeds of one day are written in this order."""

_WEDNESDAY = 2
HOT_C: Final = 28.0
_NOT_IN_HEAT: Final = frozenset({"tilde", "ansel"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Deed:
    """One thing seen or done.

    Parameters
    ----------
    on : date
    act : Payload or None
        None where it only takes another back.
    who : str
    bed, planting, batch : str
    when : int
        Order within the day.
    late_days : int
        Written down so many days later.
    name : str
        For another deed to point at.
    replaces, withdraws : str
        Name of the deed corrected or undone.
    insisted : bool
        The program asked, and the person said that it is so.
    """

    on: date
    act: Payload | None
    who: str = "maren"
    bed: str = ""
    planting: str = ""
    batch: str = ""
    when: int = DAY
    late_days: int = 0
    name: str = ""
    replaces: str = ""
    withdraws: str = ""
    insisted: bool = False


def somebody(luck: Luck, day: date, people: tuple[str, ...] = KEEPERS + HELPERS, tmax_c: float = 20.0) -> str:
    """Who did it: the class on Wednesdays, mostly keepers on other days, in heat nobody who should not."""
    fit = [one for one in people if tmax_c < HOT_C or one not in _NOT_IN_HEAT]
    helpers = [one for one in fit if one in HELPERS]
    chance = luck.at("who", day)
    share = 0.85 if day.weekday() == _WEDNESDAY else 0.2
    if helpers and chance.random() < share:
        return chance.choice(helpers)
    keepers = [one for one in fit if one in KEEPERS]
    return chance.choice(keepers or fit)
