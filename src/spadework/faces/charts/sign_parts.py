"""Plants, stalks and seedlings that several drawings of signs share."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from spadework.faces.charts.sign_forms import BIG, GOOD, PALE, Bite, Leaf, curve, path

GROUND: Final = 236.0


PAIRS: Final = ((34.0, 10.0, 23.0), (74.0, 20.0, 24.0), (112.0, 32.0, 22.0), (142.0, 50.0, 17.0))
"""Pairs of leaves of one plant: height above ground, how far they point up [degrees], half their width."""


def leaf_at(x: float, y: float, turn: float, long: float, half: float, droop: float = 0.0) -> Leaf:
    """A leaf from a place, towards a turn [degrees, 0 right, 90 up], hanging by `droop`."""
    a = math.radians(turn)
    tip = (x + long * math.cos(a), y - long * math.sin(a) + droop)
    right = math.cos(a) >= 0
    return Leaf((x, y), tip, half, bend=(-1 if right else 1) * (10 + droop * 0.35), stalk=0, veins=4)


def plant(
    fills: Sequence[str] = (GOOD,) * 4,
    droop: Sequence[float] = (0.0,) * 4,
    *,
    bites: Sequence[Bite] = (),
    size: float = 1.0,
    at: float = 150.0,
    y: float = GROUND,
    top: bool = True,
) -> list[str]:
    """A young plant; fills and droop run from its lowest pair of leaves to its highest."""
    stem = curve([(at, y + 2), (at - 2, y - 70 * size), (at + 3, y - 150 * size)])
    parts = [path(stem, "none", 8.5 * size), path(stem, "none", 8.5 * size - 4.6, GOOD)]
    for (high, up, half), fill, hang in zip(PAIRS, fills, droop, strict=True):
        for side in (1, -1):
            turn = up + 5 if side > 0 else 176 - up
            a = math.radians(turn)
            x, foot = at + 26 * size * math.cos(a), y - high * size - 26 * size * math.sin(a)
            leaf = leaf_at(x, foot, turn, 84 * size, half * size * (1 - hang / 220), hang * size)
            parts.append(
                path(f"M{at:.1f},{y - high * size + 6 * size:.1f}L{x:.1f},{foot:.1f}", "none", 2.6 * size + 1)
            )
            parts += leaf.draw(fill, bites)
    if top:
        parts += leaf_at(at + 3, y - 148 * size, 84, 58 * size, 15 * size, droop[3] * 0.5).draw(fills[3])
    return parts


RED: Final = "#d98b76"


UNDER: Final = replace(BIG, half=150, base=(96, 340), tip=(204, -70), stalk=0, wave=0.01)
"""A leaf so near that it goes off the picture."""


def near_leaf() -> list[str]:
    return UNDER.draw(PALE)
