"""Drawings of growing tips, young shoots and spears."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from spadework.faces.charts.sign_forms import (
    BRICK,
    BROWN,
    DEEP,
    GOOD,
    INK,
    YELLOW,
    Drawing,
    Leaf,
    blob,
    chance,
    curve,
    path,
    soil,
)
from spadework.faces.charts.sign_parts import leaf_at


def _cupped() -> list[str]:
    parts = []
    stem = curve([(150, 304), (147, 220), (152, 130)])
    parts += [path(stem, "none", 11), path(stem, "none", 6, GOOD)]
    for x, y, side in ((150, 236, 1), (149, 206, -1), (151, 160, 1), (152, 132, -1)):
        cx, cy = x + side * 62, y - 56
        parts.append(path(curve([(x, y), (x + side * 34, y - 8), (cx, cy + 26)]), "none", 4))
        parts.append(
            path(
                curve(
                    [
                        (cx, cy + 30),
                        (cx - 36, cy + 8),
                        (cx - 38, cy - 28),
                        (cx - 14, cy - 14),
                        (cx + 14, cy - 14),
                        (cx + 38, cy - 28),
                        (cx + 36, cy + 8),
                    ],
                    close=True,
                ),
                GOOD,
            )
        )
        parts.append(path(curve([(cx - 37, cy - 26), (cx, cy + 4), (cx + 37, cy - 26)]), DEEP, 2))
        parts.append(
            path(
                f"M{cx},{cy + 28}v-26M{cx - 4},{cy + 20}l-18,-22M{cx + 4},{cy + 20}l18,-22",
                "none",
                1.4,
                INK,
                opacity=0.6,
            )
        )
    return parts


def _twisted() -> list[str]:
    stem = curve(
        [
            (150, 304),
            (120, 250),
            (178, 214),
            (132, 168),
            (184, 126),
            (140, 88),
            (176, 64),
            (196, 92),
            (172, 104),
        ]
    )
    parts = [path(stem, "none", 14), path(stem, "none", 8.6, GOOD)]
    for x, y, turn in ((122, 252, 200), (178, 214, -20), (132, 168, 190), (184, 126, -10)):
        leaf = leaf_at(x, y, turn, 74, 14, 26)
        stalk = leaf.draw(GOOD)
        parts += stalk
    return parts


def _straps() -> list[str]:
    stem = curve([(150, 304), (148, 220), (152, 130)])
    parts = [path(stem, "none", 10), path(stem, "none", 5.2, GOOD)]
    for x, y, turn in (
        (150, 246, 14),
        (150, 236, 166),
        (149, 200, 26),
        (149, 192, 150),
        (151, 160, 44),
        (151, 156, 132),
        (152, 132, 74),
        (152, 132, 102),
    ):
        leaf = Leaf(
            (x, y),
            (x + 112 * math.cos(math.radians(turn)), y - 112 * math.sin(math.radians(turn))),
            8,
            bend=10 if turn > 90 else -10,
            wave=0.3,
            stalk=0,
            veins=0,
        )
        parts += leaf.draw(GOOD)
    return parts


def _bushy() -> list[str]:
    parts = soil(262)
    for at in range(19):
        turn = 18 + 144 * at / 18
        long = 96 + 70 * chance(2, at)
        a = math.radians(turn)
        tip = (150 + long * math.cos(a), 262 - long * math.sin(a))
        mid = (150 + 0.5 * long * math.cos(a) + 18 * (chance(3, at) - 0.5), 262 - 0.55 * long * math.sin(a))
        d = curve([(150, 264), mid, tip, (tip[0] + 12 * (chance(5, at) - 0.5) * 2, tip[1] + 12)])
        parts.append(path(d, "none", 5.4))
        parts.append(path(d, "none", 2.6, YELLOW if at % 4 else BRICK))
        for k in (0.55, 0.75, 0.95):
            x, y = 150 + long * k * math.cos(a), 262 - long * k * math.sin(a)
            parts.append(path(f"M{x:.1f},{y:.1f}q6,-9 13,-5M{x:.1f},{y:.1f}q-8,-7 -13,-1", "none", 1.6))
    return parts


def _spears() -> list[str]:
    parts = soil()
    for x, bend in ((60, 1), (178, 1)):
        d = curve(
            [
                (x, 240),
                (x - 4 * bend, 160),
                (x + 2 * bend, 100),
                (x + 34 * bend, 66),
                (x + 62 * bend, 84),
                (x + 64 * bend, 112),
            ]
        )
        parts += [path(d, "none", 27), path(d, "none", 22, GOOD)]
        for k in (200, 160, 124):
            parts.append(path(f"M{x - 7},{k}q7,-14 14,0", DEEP, 1.6))
        parts += [path(blob(x + 9 * bend, 142 - 24 * k, 7, k, 0.6), BROWN, 1.6) for k in range(3)]
    return parts


DRAWN: Final[Mapping[str, Drawing]] = {
    "cupped-leaves": _cupped,
    "twisted-growth": _twisted,
    "strap-leaves": _straps,
    "bushy-yellow-hearts": _bushy,
    "crooked-spears": _spears,
}
