"""How far each trouble's harming stage is there today, and how the weather that was suits each disease."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from spadework.clock.ground import Ground
from spadework.crops.trouble import Trouble
from spadework.garden.state import Garden


def present_of(
    troubles: Iterable[Trouble], ground: Ground, column: int, *, south: bool, garden: Garden
) -> Mapping[str, float]:
    return {}


def infection_of(troubles: Iterable[Trouble], ground: Ground, column: int) -> Mapping[str, float]:
    return {}
