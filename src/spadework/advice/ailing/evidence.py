"""What was found on the plant: phrases heard, and signs looked for."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal, TypeAlias

from spadework.crops.trouble import Part

Look: TypeAlias = Literal["yes", "no", "unknown"]


@dataclass(frozen=True, kw_only=True)
class Heard:
    """A stretch of free words, as it was understood.

    Parameters
    ----------
    words : str
        As said.
    signs : tuple of (str, float)
        Signs it may mean, by key, likeliest first; the weights sum to 1.
    sure : float
        How well it fits the likeliest, 0 to 1.
    there : bool
        False where it says that the sign is not there.
    trouble : str
        Key of a trouble that is called by its name; then no signs.
    sound : Part or ""
        A part said to look healthy; then no signs.
    """

    words: str
    signs: tuple[tuple[str, float], ...] = ()
    sure: float = 1.0
    there: bool = True
    trouble: str = ""
    sound: Part | Literal[""] = ""


@dataclass(frozen=True, kw_only=True)
class Evidence:
    """All that was found.

    Parameters
    ----------
    heard : tuple of Heard
    looks : mapping of str to Look
        Signs looked for, by key.
    """

    heard: tuple[Heard, ...] = ()
    looks: dict[str, Look] = field(default_factory=dict)

    def looked(self, sign: str, look: Look) -> Evidence:
        """The same with one more sign looked for."""
        return replace(self, looks={**self.looks, sign: look})

    def also(self, *heard: Heard) -> Evidence:
        """The same with more words heard."""
        return replace(self, heard=(*self.heard, *heard))

    @property
    def still_heard(self) -> tuple[Heard, ...]:
        """What was heard, without what a look has settled since."""
        found = []
        for each in self.heard:
            if not each.signs:
                found.append(each)
                continue
            if each.there and any(self.looks.get(key) == "yes" for key, _ in each.signs):
                continue
            if not each.there:
                found.append(each)
                continue
            left = [(key, weight) for key, weight in each.signs if self.looks.get(key) != "no"]
            total = sum(weight for _, weight in left)
            if total > 0.0:
                scaled = tuple((key, weight / total) for key, weight in left)
                found.append(replace(each, signs=scaled))
        return tuple(found)

    @property
    def known(self) -> frozenset[str]:
        """Signs that need no question any more."""
        told = {each.signs[0][0] for each in self.heard if each.signs and each.there and each.sure >= 0.7}
        told |= {key for each in self.heard if not each.there for key, _ in each.signs}
        return frozenset(told | set(self.looks))
