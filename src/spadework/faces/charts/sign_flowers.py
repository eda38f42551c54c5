"""Drawings of flowers and of what falls."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from spadework.faces.charts.sign_forms import (
    BROWN,
    DARK,
    GOOD,
    GREY,
    INK,
    OCHRE,
    Drawing,
    Leaf,
    blob,
    chance,
    curve,
    dot,
    oval,
    path,
    soil,
)


def _silks() -> list[str]:
    parts = [
        path("M150,300C96,282 94,180 120,116C134,92 166,92 180,116C206,180 204,282 150,300Z", GOOD),
        path(
            (
                "M150,292C146,220 146,160 150,104M124,270C116,210 122,160 132,112M176,270C184,210 "
                "178,160 168,112"
            ),
            "none",
            1.3,
            INK,
            opacity=0.5,
        ),
    ]
    for at in range(17):
        x = 128 + 44 * at / 16
        high = 20 + 9 * chance(2, at)
        parts.append(
            path(
                f"M{x:.1f},104q{(x - 150) * 0.2:.1f},-{high / 2:.1f} {(x - 150) * 0.36:.1f},-{high:.1f}",
                "none",
                2.4,
                "#a8683a",
            )
        )
    cut = [
        path(
            f"M{66 + 168 * chance(4, at):.0f},{66 + 60 * chance(5, at):.0f}q6,-5 13,1",
            "none",
            2,
            "#a8683a",
        )
        for at in range(13)
    ]
    return parts + cut


def _flowers(kind: str) -> list[str]:
    parts = []
    if kind == "chewed":
        for at in range(8):
            a = 2 * math.pi * at / 8
            leaf = Leaf(
                (150 + 30 * math.cos(a), 140 + 30 * math.sin(a)),
                (150 + 118 * math.cos(a), 140 + 118 * math.sin(a)),
                31,
                widest=0.6,
                stalk=0,
                veins=0,
            )
            parts += leaf.draw(
                "#f5dd93",
                ((1, 0.72, 0.12, 0.8), (-1, 0.5, 0.1, 0.6))
                if at % 2
                else ((-1, 0.8, 0.12, 0.9), (1, 0.9, 0.09, 0.9)),
            )
        return [
            path("M150,170C152,220 148,260 152,300", "none", 8),
            path("M150,170C152,220 148,260 152,300", "none", 3.6, GOOD),
            *parts,
            dot(150, 140, 33, OCHRE, 2.4),
            *[
                dot(150 + 22 * (chance(1, k) - 0.5) * 2, 140 + 22 * (chance(2, k) - 0.5) * 2, 2, DARK)
                for k in range(18)
            ],
        ]
    stem = curve([(20, 70), (110, 56), (200, 66), (290, 44)])
    parts += soil(268)
    parts += [path(stem, "none", 9), path(stem, "none", 4.4, GOOD)]
    for at, x in enumerate((70, 136, 202, 258)):
        y = 62 + 4 * math.sin(x)
        parts.append(path(f"M{x},{y:.0f}q2,10 0,18", "none", 3))
        fallen = kind == "drop"
        fx, fy = (x - 4, 246 - 5 * (at % 2)) if fallen else (x, y + 34)
        if fallen:
            parts += [
                path(f"M{x - 5},{y + 20:.0f}h10", "none", 2.6, BROWN),
                path(f"M{x},{y + 34:.0f}v{142 - 14 * (at % 2)}", "none", 1.4, GREY, stroke_dasharray="4 7"),
            ]
        parts += [
            path(
                oval(
                    fx + 11 * math.cos(k * 1.2566),
                    fy + 11 * math.sin(k * 1.2566),
                    10.5,
                    5.6,
                    math.degrees(k * 1.2566),
                ),
                "#f7e6ab",
                1.5,
            )
            for k in range(5)
        ]
        parts.append(dot(fx, fy, 5, OCHRE, 1.2))
    return parts


def _fruit_drop() -> list[str]:
    parts = soil(262)
    stem = curve([(20, 70), (110, 56), (200, 66), (290, 44)])
    parts += [path(stem, "none", 9), path(stem, "none", 4.4, GOOD)]
    for at, x in enumerate((80, 154, 226)):
        parts += [
            path(f"M{x},{62 - at}q2,14 0,26", "none", 3),
            path(f"M{x - 6},{88 - at}h12", "none", 2.6, BROWN),
            path(f"M{x},{102}v108", "none", 1.4, GREY, stroke_dasharray="4 7"),
            path(blob(x, 242, 19, at, 0.15), "#d9dfa8"),
            path(f"M{x},{224}l-7,-5M{x},{224}l7,-5M{x},{224}v-8", "none", 2),
        ]
    return parts


DRAWN: Final[Mapping[str, Drawing]] = {
    "cut-silks": _silks,
    "chewed-flowers": lambda: _flowers("chewed"),
    "flowers-drop": lambda: _flowers("drop"),
    "fruit-dropping": _fruit_drop,
    "flowers-no-fruit": lambda: _flowers("hang"),
}
