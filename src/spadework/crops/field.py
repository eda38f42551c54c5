"""What a field of a crop sheet is: where it stands, its unit and range, and which crops it is for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

Condition: TypeAlias = Literal[
    "always",
    "seed",
    "direct",
    "raised",
    "day-length",
    "bolts",
    "cold",
    "long-day",
    "heat",
    "thinned",
    "earthed",
    "supported",
    "repeats",
]

CONDITIONS: dict[Condition, str] = {
    "always": "every crop",
    "seed": "crops grown from seed",
    "direct": "crops sown where they are to grow",
    "raised": "crops raised in trays, or from slips, and set out",
    "day-length": "crops whose pace depends on day length",
    "bolts": "crops that bolt",
    "cold": "crops that bolt after cold",
    "long-day": "crops that bolt on long days",
    "heat": "crops with a heat limit",
    "thinned": "crops sown in place that are thinned",
    "earthed": "crops that are earthed up",
    "supported": "crops that need or like a support",
    "repeats": "crops picked or cut more than once",
}

# A number whose presence decides whether others of its section are wanted.
GATES: dict[str, Condition] = {
    "heat.limit_c": "heat",
    "thin.first_leaves": "thinned",
    "earth.passes": "earthed",
}

TRAITS: dict[str, str] = {"self-setting": "sets fruit without bees or a hand"}
"""What a variety may be said to be, beside its numbers."""


@dataclass(frozen=True, slots=True)
class Field:
    """One number of a sheet: where it stands, its unit, what it may be and for which crops."""

    section: str
    name: str
    unit: str
    lowest: float
    highest: float
    meaning: str
    applies: Condition = "always"
    required: bool = True

    @property
    def path(self) -> str:
        return f"{self.section}.{self.name}"

    @property
    def allowed(self) -> str:
        return f"{self.lowest:g} to {self.highest:g} {self.unit}".strip()


@dataclass(frozen=True, slots=True)
class Text:
    """One word or sentence of a sheet. With `choices`, one of them; `many` takes a list."""

    section: str
    name: str
    meaning: str
    choices: tuple[str, ...] = ()
    many: bool = False
    required: bool = True
    applies: Condition = "always"

    @property
    def path(self) -> str:
        return f"{self.section}.{self.name}" if self.section else self.name

    @property
    def allowed(self) -> str:
        form = "a list of: " if self.many else ""
        return form + (", ".join(self.choices) or "text")
