"""What a told fact did to the years, in one sentence and in numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["forecast", "soil", "warmth", "frost-table", "minimum"]


@dataclass(frozen=True, slots=True)
class AppliedFact:
    """A number and the law it comes from."""

    law: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Applied:
    """One use of told facts.

    Parameters
    ----------
    text : str
        What was told and what it did, with any reduction shown. Metric, day before month; differences of
        temperature are said in "degrees", temperatures in "°C".
    kind : str
        Kind of fact.
    facts : tuple of AppliedFact
    """

    text: str
    kind: Kind
    facts: tuple[AppliedFact, ...] = ()
