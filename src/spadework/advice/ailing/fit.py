"""How well what was found fits one trouble: the chance of finding it, were the trouble there."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from spadework.advice.ailing.evidence import Evidence, Heard
from spadework.crops.trouble import Sign, Trouble

NOISE: Final = 0.3
"""Of the share of ailing plants that show a sign whatever the cause, how much is due to a second ailment or a
misread plant. Our own rule: below 1, so that signs which fit no sheet speak for something else."""

SURE: Final = 0.985
"""No look is surer: growers misread a plant now and then. Our own rule."""

LEAST: Final = 0.008
LEAST_ELSE: Final = 0.035
"""Chance of a sign on a plant whose cause does not show it, at least: words are misheard, plants misread; and
of something not in the list, which may show anything. Our own rule, tuned on the open cases."""

TRUST: Final = 0.8
"""Signs of one plant hang together, so each counts for less than if alone. Our own rule, tuned on the
open cases for chances that come true as often as they say."""

NAMED: Final = 0.7
NAMED_ELSE: Final = 0.06
"""Chance that a grower names a trouble where it is there, and where another is. Our own rule."""

SOUND_TRUST: Final = 0.9
"""How far "the leaves look healthy" is believed. Our own rule."""


def shows(each: Trouble, key: str, sign: Sign) -> float:
    """Chance that a grower who looks finds a sign on a plant ailing from this."""
    stray = NOISE * sign.usual
    own = next((shown.often.value for shown in each.signs if shown.sign == key), 0.0)
    return min(max(1.0 - (1.0 - own) * (1.0 - stray), LEAST), SURE)


def shows_else(sign: Sign) -> float:
    """Chance that a grower finds a sign on a plant that ails from something not in the list."""
    return min(max(sign.usual, LEAST_ELSE), SURE)


def fit(each: Trouble | None, found: Evidence, signs: Mapping[str, Sign]) -> float:
    """Chance of what was found, were this trouble there.

    Parameters
    ----------
    each : Trouble or None
        None for something not in the list.
    found : Evidence
    signs : mapping of str to Sign

    Returns
    -------
    float
        1 where nothing was found.
    """
    chance = 1.0
    for key, look in found.looks.items():
        if look == "unknown":
            continue
        there = _chance(each, key, signs)
        chance *= there if look == "yes" else 1.0 - there
    for heard in found.still_heard:
        chance *= _heard(each, heard, signs)
    return float(chance**TRUST)


def _chance(each: Trouble | None, key: str, signs: Mapping[str, Sign]) -> float:
    return shows_else(signs[key]) if each is None else shows(each, key, signs[key])


def _heard(each: Trouble | None, heard: Heard, signs: Mapping[str, Sign]) -> float:
    if heard.trouble:
        return NAMED if each is not None and each.key == heard.trouble else NAMED_ELSE
    if heard.sound:
        own = () if each is None else each.signs
        shown = [mark.often.value for mark in own if _same_part(signs[mark.sign].part, heard.sound)]
        return 1.0 - SOUND_TRUST * max(shown, default=0.0)
    if not heard.there:
        most = max(_chance(each, key, signs) for key, _ in heard.signs)
        return heard.sure * (1.0 - most) + (1.0 - heard.sure)
    meant = sum(weight * _chance(each, key, signs) for key, weight in heard.signs)
    stray = sum(weight * shows_else(signs[key]) for key, weight in heard.signs)
    return heard.sure * meant + (1.0 - heard.sure) * stray


def _same_part(part: str, said: str) -> bool:
    return part == said or (said == "leaf" and part == "growing tip")
