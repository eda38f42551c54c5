"""What is known of one planting here and now that makes one trouble likelier than another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from spadework.advice.ages import AGES
from spadework.crops.trouble import Age, Circumstance, Favour, Trouble

NEAR_AGES: Final = (1.0, 0.4, 0.12, 0.03)
"""Weight of a trouble of plants so many ages older or younger: ages run into each other. Our own rule."""

NOT_KNOWN: Final = 0.25
"""How far a circumstance of which nothing is known is taken to hold. Our own rule."""

LEAST_PRESENT: Final = 0.1
"""A trouble that is not there by its clock may be there all the same: clocks err. Our own rule."""

AWAY: Final = 0.02
"""A trouble not known in this part of the world is so much less likely: some travel. Our own rule."""

LEAST_OTHERWISE: Final = 0.04
"""A missing circumstance lowers a trouble no further. Our own rule."""

HAD: Final = 2.5
"""A trouble told of this bed before is so many times as likely, where its sheet is silent. Our own rule."""


@dataclass(frozen=True, slots=True)
class Hold:
    """How far a circumstance holds, 0 to 1, and what says so, as the end of "because"."""

    share: float
    why: str = ""


@dataclass(frozen=True, kw_only=True)
class Here:
    """Everything a differential needs of one planting.

    Parameters
    ----------
    crop, family : str
        Of the sheet, by key.
    age : Age or None
        None where it is not known.
    month : int
    holds : mapping of Circumstance to Hold
        Those left out are not known.
    present : mapping of str to float
        By key of trouble: how likely the stage that harms is there now, 0 to 1; 1 where no clock runs.
    infection : mapping of str to float
        By key of trouble: how many times as likely it is after the weather that was.
    had : mapping of str to str
        Troubles told of this bed before by key, and when.
    covers : tuple of str
        Sorts of kit that lie over it.
    away : frozenset of str
        Troubles by key that are not known to live in this part of the world.
    """

    crop: str
    family: str
    age: Age | None = None
    month: int = 6
    holds: Mapping[Circumstance, Hold] = field(default_factory=dict)
    present: Mapping[str, float] = field(default_factory=dict)
    infection: Mapping[str, float] = field(default_factory=dict)
    had: Mapping[str, str] = field(default_factory=dict)
    covers: tuple[str, ...] = ()
    away: frozenset[str] = frozenset()


def age_weight(each: Trouble, age: Age | None) -> float:
    """How well a trouble fits the age of the plants, 0 to 1."""
    if age is None or not each.ages:
        return 1.0
    at = AGES.index(age)
    far = min(abs(at - AGES.index(own)) for own in each.ages)
    return NEAR_AGES[min(far, len(NEAR_AGES) - 1)]


def times(favour: Favour, here: Here, key: str) -> float:
    """How many times as likely a circumstance makes a trouble here."""
    hold = here.holds.get(favour.when)
    share = NOT_KNOWN if hold is None else hold.share
    if favour.when == "trouble here before" and key in here.had:
        share = 1.0
    return share * favour.times.value + (1.0 - share) * max(favour.otherwise, LEAST_OTHERWISE)


def season_weight(each: Trouble, here: Here) -> float:
    """How far its stage that harms is there now, by its clock and by the weather that was."""
    present = max(here.present.get(each.key, 1.0), LEAST_PRESENT)
    return present * here.infection.get(each.key, 1.0) * (AWAY if each.key in here.away else 1.0)
