"""Drawings of eggs, and of marks on the ground."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from spadework.faces.charts.sign_forms import (
    DARK,
    GOOD,
    INK,
    SOIL,
    TAN,
    WHITE,
    Drawing,
    Leaf,
    blob,
    chance,
    curve,
    dot,
    oval,
    path,
    soil,
    turned,
)
from spadework.faces.charts.sign_parts import UNDER, near_leaf


def _eggs_rows() -> list[str]:
    parts = near_leaf()
    for row in range(3):
        parts += [
            path(oval(84 + 22 * k + 12 * row, 110 + 38 * row + 3 * (k % 2), 8.5, 12), WHITE, 2)
            for k in range(6)
        ]
    return parts


def _eggs_yellow() -> list[str]:
    parts = near_leaf()
    for at in range(27):
        a, reach = 2.4 * at, 11.5 * math.sqrt(at + 0.5)
        x, y = 150 + reach * math.cos(a), 150 + 0.8 * reach * math.sin(a)
        parts.append(
            path(
                (
                    f"M{x - 7:.0f},{y + 10:.0f}C{x - 8:.0f},{y - 6:.0f} {x - 4:.0f},{y - 15:.0f} "
                    f"{x:.0f},{y - 15:.0f}C{x + 4:.0f},{y - 15:.0f} {x + 8:.0f},{y - 6:.0f} "
                    f"{x + 7:.0f},{y + 10:.0f}Z"
                ),
                "#eab55a",
                1.8,
            )
        )
    return parts


def _eggs_bronze() -> list[str]:
    parts = near_leaf()
    cx, cy = UNDER.axis(0.5)
    parts.append(path(curve([UNDER.axis(0.5), UNDER.at(0.56, 0.3), UNDER.at(0.66, 0.7)]), "none", 4))
    for at in range(14):
        row, column = divmod(at, 4)
        x, y = cx + 22 + 19 * column + 4 * row, cy - 20 - 17 * row + 9 * column * 0.2
        parts += [path(oval(x, y, 9, 7, -20), "#a8683a", 1.8), dot(x - 2.5, y - 2.5, 2, "#e2bd95")]
    return parts


def _eggs_single() -> list[str]:
    parts = near_leaf()
    for x, y in ((92, 116), (196, 90), (150, 190), (226, 214)):
        parts.append(
            path(
                (
                    f"M{x - 11},{y + 26}C{x - 16},{y} {x - 7},{y - 24} {x},{y - 36}C{x + 7},{y - 24} "
                    f"{x + 16},{y} {x + 11},{y + 26}Z"
                ),
                "#f4e9b4",
            )
        )
        parts.append(
            path(
                (
                    f"M{x - 5},{y + 25}C{x - 7},{y} {x - 3},{y - 18} {x},{y - 32}C{x + 3},{y - 18} "
                    f"{x + 7},{y} {x + 5},{y + 25}"
                ),
                "none",
                1.2,
            )
        )
    return parts


def _ground() -> list[str]:
    """Bare soil from above."""
    return [
        path("M0,0H300V300H0Z", SOIL, 0),
        *[
            path(
                blob(300 * chance(1, k), 300 * chance(2, k), 2 + 3 * chance(3, k), k), "none", 1.1, "#8f7a64"
            )
            for k in range(34)
        ],
    ]


def _hooves() -> list[str]:
    parts = _ground()
    for x, y, turn in ((96, 222, 14), (176, 168, 8), (118, 110, 16), (200, 58, 10)):
        inner = "".join(
            path(
                f"M{s * 4},-30C{s * 22},-22 {s * 24},14 {s * 14},28C{s * 6},26 {s * 3},4 {s * 4},-30Z",
                "#8f7a64",
                2.2,
            )
            for s in (-1, 1)
        )
        parts.append(turned(inner, x, y, turn))
    return parts


def _paws() -> list[str]:
    parts = _ground()
    for x, y, turn in ((94, 206, 10), (204, 120, 14)):
        inner = path("M-26,20C-30,-6 30,-6 26,20C24,40 -24,40 -26,20Z", "#8f7a64", 2.2)
        for k in range(5):
            a = math.radians(155 - 32.5 * k)
            inner += path(
                oval(44 * math.cos(a), 14 - 44 * math.sin(a), 13, 6.5, -math.degrees(a)), "#8f7a64", 2
            )
            inner += path(
                (
                    f"M{60 * math.cos(a):.0f},{14 - 60 * math.sin(a):.0f}L{70 * math.cos(a):.0f},"
                    f"{14 - 70 * math.sin(a):.0f}"
                ),
                "none",
                2.6,
            )
        parts.append(turned(inner, x, y, turn))
    return parts


def _pellets() -> list[str]:
    parts = _ground()
    for at in range(26):
        a, reach = 2.4 * at, 17 * math.sqrt(at + 0.4)
        x, y = 150 + reach * math.cos(a), 156 + 0.72 * reach * math.sin(a)
        parts += [dot(x, y, 11, "#7a5f3c", 2), dot(x - 3, y - 3.5, 2.6, "#b39a72")]
    return parts


def _bird_marks() -> list[str]:
    parts = _ground()
    for x, y, r in ((92, 90, 24), (206, 208, 30), (222, 84, 16)):
        parts += [
            path(blob(x, y, r, x, 0.9), WHITE, 1.8),
            path(blob(x + 3, y, r * 0.35, x, 0.5), "#6d6a5a", 0),
        ]
        parts += [
            dot(x + (r + 9) * math.cos(k), y + (r + 9) * math.sin(k), 3.4, WHITE, 1.2) for k in range(6)
        ]
    feather = Leaf((70, 252), (190, 130), 17, bend=12, widest=0.5, wave=0, stalk=26, veins=9)
    return parts + feather.draw("#e4e4de", ((1, 0.5, 0.02, 0.9), (-1, 0.34, 0.02, 0.9)))


def _dug() -> list[str]:
    parts = _ground()
    for x, y, r in ((96, 106, 38), (206, 176, 44), (104, 232, 30)):
        parts += [
            path(blob(x + r * 0.7, y + r * 0.5, r * 0.7, x, 0.6), "#a98f6e", 1.8),
            path(blob(x, y, r, x, 0.3, 0.72), "#6d5a45", 2.4),
            path(
                (
                    f"M{x - r * 0.5:.0f},{y - 4}l{r * 0.3:.0f},{r * 0.3:.0f}M{x:.0f},{y - 8}l"
                    f"{r * 0.2:.0f},{r * 0.34:.0f}"
                ),
                "none",
                1.5,
                TAN,
            ),
        ]
    return parts


def _ridge() -> list[str]:
    parts = _ground()
    d = curve([(-10, 240), (60, 200), (110, 220), (168, 150), (230, 140), (310, 60)])
    parts += [path(d, "none", 52), path(d, "none", 47, "#b89b77"), path(d, "none", 20, "#d9c6a8")]
    for at in range(26):
        t = at / 25 * 300
        parts.append(
            path(
                (
                    f"M{t:.0f},{238 - 0.6 * t + 14 * math.sin(t / 30):.0f}l"
                    f"{12 * (chance(1, at) - 0.5) * 2:.0f},{10 + 8 * chance(2, at):.0f}"
                ),
                "none",
                1.5,
            )
        )
    for x in (56, 150, 246):
        parts += [
            path(f"M{x},{60 if x < 200 else 216}v-2", "none", 1),
            path(oval(x - 9, 62 if x < 200 else 232, 13, 6, 24), GOOD, 1.8),
            path(oval(x + 9, 62 if x < 200 else 232, 13, 6, -24), GOOD, 1.8),
        ]
    return parts


def _heap() -> list[str]:
    parts = soil(228)
    parts.append(path("M52,232C88,214 112,150 150,132C190,150 212,214 250,232Z", "#b89b77"))
    return parts + [
        path(
            blob(150 + (chance(1, k) - 0.5) * (40 + 6.4 * k), 146 + 3.6 * k, 7 + 5 * chance(2, k), k, 0.5),
            "#a58863",
            1.5,
        )
        for k in range(23)
    ]


def _burrows(large: bool) -> list[str]:
    parts = soil(150) if large else _ground()
    if large:
        parts += [
            path("M58,300C40,240 60,200 106,196C160,192 184,230 178,300Z", "#b89b77", 2),
            path(oval(118, 210, 62, 44), DARK, 2.6),
            path(
                "M64,236C90,276 160,280 186,238C240,250 262,280 276,300L40,300C44,276 52,252 64,236Z",
                "#c9b190",
                2.2,
            ),
        ]
        return parts + [
            path(blob(100 + 160 * chance(1, k), 266 + 28 * chance(2, k), 6, k, 0.5), "#a58863", 1.3)
            for k in range(14)
        ]
    run = curve([(66, 92), (130, 130), (176, 110), (226, 200), (130, 236)])
    parts += [path(run, "none", 24, "#b39673"), path(run, "none", 2, INK, stroke_dasharray="3 8")]
    for x, y in ((66, 92), (226, 200), (130, 236)):
        parts.append(path(oval(x, y, 25, 20), DARK, 2.6))
    return parts


def _dry_soil() -> list[str]:
    parts = _ground()
    cracks = (
        "M0,96L70,120L112,60L150,0M70,120L96,196L40,300M96,196L190,176L230,90L300,60"
        "M190,176L216,246L180,300M216,246L300,226"
    )
    return [*parts, path(cracks, "none", 9, "#6d5a45"), path(cracks, "none", 1.6)]


def _soaked() -> list[str]:
    parts = soil(170)
    pool = "M40,172C70,196 230,196 262,170C220,160 90,162 40,172Z"
    parts += [path(pool, "#b9ccd6", 2), path("M96,177q24,-6 48,0M160,180q20,-5 40,0", "none", 1.6, WHITE)]
    for at in range(9):
        x, y = 40 + 26 * at, 214 + 50 * chance(3, at)
        parts.append(path(f"M{x},{y:.0f}c-6,10 -6,15 0,17c6,-2 6,-7 0,-17Z", "#b9ccd6", 1.4))
    return parts


DRAWN: Final[Mapping[str, Drawing]] = {
    "white-eggs-in-rows": _eggs_rows,
    "yellow-egg-clusters": _eggs_yellow,
    "bronze-eggs": _eggs_bronze,
    "single-pale-eggs": _eggs_single,
    "hoof-prints": _hooves,
    "paw-prints": _paws,
    "round-pellets": _pellets,
    "bird-droppings": _bird_marks,
    "dug-holes": _dug,
    "soil-ridges": _ridge,
    "soil-heaps": _heap,
    "small-burrows": lambda: _burrows(large=False),
    "large-burrow": lambda: _burrows(large=True),
    "soil-dry": _dry_soil,
    "soil-soaked": _soaked,
}
