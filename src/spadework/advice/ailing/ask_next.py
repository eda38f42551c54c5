"""Which sign to look for next: the one whose answer tells most."""

from __future__ import annotations

from collections.abc import Mapping
from math import log2
from typing import Final

from spadework.advice.ailing.differential import Differential
from spadework.advice.ailing.fit import TRUST, shows, shows_else
from spadework.advice.ailing.prior import OTHER

CLEAR: Final = 0.9
"""A cause so likely is asked about no further. Our own rule."""

LEAST_BITS: Final = 0.06
"""A question that tells less is not worth the walk back to the plant. Our own rule."""

MOST_QUESTIONS: Final = 6
"""More are not asked, since nobody stands longer over one plant. Our own rule."""

WORTH_A_THOUGHT: Final = 0.02
"""Causes less likely than this are not asked about. Our own rule."""


def next_sign(state: Differential, *, asked: int = 0) -> str:
    """Key of the sign to look for next; empty where no question is worth it."""
    leader = max((chance for key, chance in state.chances.items() if key != OTHER), default=0.0)
    if asked >= MOST_QUESTIONS or leader >= CLEAR:
        return ""
    thought = [key for key, chance in state.chances.items() if key and chance >= WORTH_A_THOUGHT]
    known = state.found.known
    asks = {shown.sign for key in thought for shown in state.troubles[key].signs} - known
    bits = {sign: information(state, sign) for sign in sorted(asks)}
    best = max(bits, key=lambda sign: bits[sign], default="")
    return best if best and bits[best] >= LEAST_BITS else ""


def information(state: Differential, sign: str) -> float:
    """What the answer to one question tells of the cause, on average  [bit]."""
    told = state.signs[sign]
    yes = {
        key: shows_else(told) if key == OTHER else shows(state.troubles[key], sign, told)
        for key in state.chances
    }
    mean = sum(chance * yes[key] for key, chance in state.chances.items())
    if not 0.0 < mean < 1.0:
        return 0.0
    after_yes = _entropy({key: chance * yes[key] ** TRUST for key, chance in state.chances.items()})
    after_no = _entropy({key: chance * (1.0 - yes[key]) ** TRUST for key, chance in state.chances.items()})
    return _entropy(state.chances) - mean * after_yes - (1.0 - mean) * after_no


def _entropy(weights: Mapping[str, float]) -> float:
    total = sum(weights.values())
    return -sum(weight / total * log2(weight / total) for weight in weights.values() if weight > 0.0)
