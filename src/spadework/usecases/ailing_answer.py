"""What ails a planting, as it is told and answered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Literal, TypeAlias

import msgspec

from spadework.advice.ailing.evidence import Look
from spadework.advice.ailing.verdict import CauseView, ToDo
from spadework.advice.odds import Odds
from spadework.crops.trouble import Age
from spadework.crops.troubles import all_signs
from spadework.errors import UnknownName
from spadework.usecases.lock_lines import LockLine

Asked: TypeAlias = Literal["ailing", "bitten"]


class SignView(msgspec.Struct, frozen=True, kw_only=True):
    """One sign as it is asked about."""

    sign: str
    part: str
    words: str
    ask: str
    picture: str = ""


class PartOfPlant(msgspec.Struct, frozen=True, kw_only=True):
    """A part of the plant to touch, with the signs it may show, likeliest here and now first."""

    part: str
    signs: tuple[SignView, ...]


class Guided(msgspec.Struct, frozen=True, kw_only=True):
    """The beginning of a guided look at one planting."""

    question: str
    today: date
    crop: str
    name: str
    planting: str
    bed: str
    where: str
    age: Age | None
    parts: tuple[PartOfPlant, ...]


class HeardView(msgspec.Struct, frozen=True, kw_only=True):
    """How a stretch of words was understood.

    Parameters
    ----------
    said : str
    meant : tuple of str
        The signs it may mean in their own words, likeliest first; or the trouble it names.
    signs : tuple of str
        The same by key.
    there : bool
        False where it says that the sign is not there.
    """

    said: str
    meant: tuple[str, ...]
    signs: tuple[str, ...]
    there: bool


class NotHeard(msgspec.Struct, frozen=True, kw_only=True):
    """Words no sign was found for, and the signs that come nearest."""

    said: str
    nearest: tuple[str, ...]


class BedOfLoad(msgspec.Struct, frozen=True, kw_only=True):
    """A bed that had a load; `locked` where it is locked for it already."""

    bed: str
    name: str
    locked: bool


class LoadView(msgspec.Struct, frozen=True, kw_only=True):
    """A load of material that may have brought a cause, and every bed that had it."""

    cause: str
    material: str
    came_on: date
    beds: tuple[BedOfLoad, ...]
    test: str


class Decision(msgspec.Struct, frozen=True, kw_only=True):
    """Keep it, pull it, or sow again.

    Parameters
    ----------
    cause : str
    says : str
        What decides.
    keep : Odds or None
        That it becomes ready if the trouble spares it; None where nothing stands.
    again : Odds or None
        That it becomes ready if started anew today.
    """

    cause: str
    says: str
    keep: Odds | None = None
    again: Odds | None = None


class AilingAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """What ails a planting.

    Parameters
    ----------
    planting : str
        Key; empty where none of the crop stands.
    other : float
        Chance of something not in the list.
    looks : mapping of str to {"yes", "no", "unknown"}
        Signs looked for so far, by key.
    next_question : SignView or None
        What to look for next; None where nothing more is worth asking.
    """

    question: str
    today: date
    crop: str
    name: str
    planting: str
    bed: str
    where: str
    age: Age | None
    causes: tuple[CauseView, ...]
    other: float
    heard: tuple[HeardView, ...]
    not_heard: tuple[NotHeard, ...]
    looks: Mapping[str, Look]
    next_question: SignView | None
    before_dark: tuple[ToDo, ...]
    cautions: tuple[str, ...]
    decision: Decision | None
    neighbours: tuple[str, ...]
    laboratory: tuple[str, ...]
    load: LoadView | None
    locks: list[LockLine]
    note: str


@dataclass(frozen=True, kw_only=True)
class Told:
    """What a person says of the plant.

    Parameters
    ----------
    words : tuple of str
        Free words.
    not_there : tuple of str
        The same, of what is plainly not there.
    looks : mapping of str to {"yes", "no", "unknown"}
        Answers to questions, by key of sign.
    """

    words: tuple[str, ...] = ()
    not_there: tuple[str, ...] = ()
    looks: Mapping[str, Look] = field(default_factory=dict)

    def answered(self, sign: str, said: str) -> Told:
        """The same with one more question answered: yes, no, or anything else where it cannot be told."""
        first = said.strip().casefold()[:1]
        look: Look = "yes" if first == "y" else "no" if first == "n" else "unknown"
        return replace(self, looks={**self.looks, sign: look})


def told_of(said: Sequence[str], not_there: Sequence[str] = (), not_known: Sequence[str] = ()) -> Told:
    """What was said, where keys of signs may stand among the words: those are answers to questions.

    Parameters
    ----------
    said, not_there, not_known : sequence of str
        Free words or keys of what is there and of what is not; keys of what cannot be told.

    Raises
    ------
    UnknownName
        If something that cannot be told is no key of a sign.
    """
    signs = all_signs()
    for key in not_known:
        if key not in signs:
            raise UnknownName(f"No sign is called {key!r}.", "Take the key the question was given with.")
    looks: dict[str, Look] = dict.fromkeys(not_known, "unknown")
    looks |= {key: "no" for key in not_there if key in signs}
    looks |= {key: "yes" for key in said if key in signs}
    return Told(
        words=tuple(text for text in said if text.strip() and text not in signs),
        not_there=tuple(text for text in not_there if text.strip() and text not in signs),
        looks=looks,
    )
