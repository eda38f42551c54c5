"""Drawings of spots, moulds and rusts on leaves."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from spadework.faces.charts.sign_forms import (
    BIG,
    BROWN,
    DARK,
    DEEP,
    FINE,
    GOOD,
    GREY,
    INK,
    PALE,
    TAN,
    WHITE,
    YELLOW,
    Drawing,
    Leaf,
    blob,
    chance,
    curve,
    dot,
    fur,
    oval,
    path,
    spread,
)

TUBE: Final = Leaf((132, 292), (178, 12), 27, bend=-6, widest=0.3, wave=0.0, stalk=0, veins=0)
"""A hollow leaf of onion or leek."""


STRAP_RIBS: Final = (-0.5, 0.0, 0.5)


def _tube(fill: str = GOOD, leaf: Leaf = TUBE) -> list[str]:
    ribs = "".join(curve([leaf.at(0.06 + 0.88 * at / 9, s) for at in range(10)]) for s in STRAP_RIBS)
    back = replace(leaf, base=(182, 294), tip=(250, 84), half=18, bend=22)
    return [
        path(back.outline(), PALE, FINE),
        path(leaf.outline(), fill),
        path(ribs, "none", 1.1, INK, opacity=0.45),
    ]


def _lace(leaf: Leaf) -> str:
    """A net of veins."""
    told = leaf.ribs(whole=True)
    for side in (-1, 1):
        for s in (0.25, 0.5, 0.75):
            told += curve(
                [
                    leaf.at(0.1 + 0.05 * at + s * 0.1, side * s)
                    for at in range(16)
                    if 0.1 + 0.05 * at + s * 0.1 < 0.95
                ]
            )
        for at in range(14):
            t = 0.12 + 0.057 * at
            told += curve(
                [leaf.at(t, side * 0.12), leaf.at(t + 0.06, side * 0.5), leaf.at(t + 0.1, side * 0.85)]
            )
    return told


def _rings() -> list[str]:
    parts = BIG.draw(GOOD)
    for at, (t, s, r) in enumerate(
        ((0.26, 0.45, 27), (0.5, -0.45, 31), (0.62, 0.42, 20), (0.8, -0.1, 13), (0.2, -0.5, 15))
    ):
        x, y = BIG.at(t, s)
        parts.append(path(blob(x, y, r + 5, at, 0.3), YELLOW, 0))
        for ring, share in enumerate((1.0, 0.72, 0.46, 0.2)):
            parts.append(path(blob(x, y, r * share, at + ring, 0.1), (BROWN, TAN, BROWN, DARK)[ring], 1.3))
    return parts


def _small_grey() -> list[str]:
    parts = BIG.draw(GOOD)
    for at, (t, s) in enumerate(spread(34, 0.15)):
        x, y = BIG.at(t, s)
        parts += [dot(x, y, 6.4 + 1.6 * chance(2, at), DARK), dot(x, y, 4.2 + chance(2, at), "#d6d5cb")]
    return parts


def _dots_in_spots() -> list[str]:
    leaf = replace(BIG, half=150, base=(80, 330), tip=(220, -60), stalk=0)
    parts = leaf.draw(GOOD)
    for at, (x, y, r) in enumerate(((110, 110, 40), (205, 170, 46), (92, 230, 30), (205, 60, 22))):
        parts.append(path(blob(x, y, r, at, 0.15), DARK, 1))
        parts.append(path(blob(x, y, r * 0.8, at, 0.15), "#d6d5cb", 0))
        for k in range(9 if r > 24 else 5):
            reach = r * 0.62 * math.sqrt((k + 0.5) / 9)
            parts.append(dot(x + reach * math.cos(2.4 * k), y + reach * math.sin(2.4 * k), 2.7, INK))
    return parts


def _rimmed(rim: str, inside: str, halo: str = "", n: int = 14, r: float = 12) -> list[str]:
    parts = BIG.draw(GOOD)
    for at, (t, s) in enumerate(spread(n, 0.25)):
        x, y = BIG.at(t, s)
        size = r * (0.75 + 0.5 * chance(at, 3))
        if halo:
            parts.append(path(blob(x, y, size * 1.75, at, 0.3), halo, 0))
        parts += [
            path(blob(x, y, size, at, 0.12), rim, 1),
            path(blob(x, y, size * 0.62, at, 0.12), inside, 0),
        ]
    return parts


def _palm_outline() -> str:
    """A five-cornered leaf, as of cucumber."""
    points = []
    for at in range(73):
        turn = math.pi * (at / 36.0 - 1.0)
        corner = 1.0 + 0.13 * math.cos(5 * turn) - 0.02 * math.cos(20 * turn)
        notch = 1.0 - 0.45 * math.exp(-(((abs(turn) - math.pi) / 0.28) ** 2))
        reach = 112 * corner * notch
        points.append((150 + reach * math.sin(turn), 142 - reach * math.cos(turn)))
    return "M" + " ".join(f"{x:.1f},{y:.1f}" for x, y in points) + "Z"


def _palm_ribs() -> str:
    told = ""
    for k in range(5):
        turn = 2 * math.pi * k / 5
        told += f"M150,196L{150 + 106 * math.sin(turn):.1f},{142 - 106 * math.cos(turn):.1f}"
    return told


def _palm(fill: str) -> list[str]:
    return [
        path("M150,206C152,236 146,262 152,294", "none", 4.6),
        path(_palm_outline(), fill),
        path(_palm_ribs(), "none", FINE, INK, opacity=0.6),
    ]


BLOCKS: Final = (
    (96, 84),
    (130, 66),
    (168, 60),
    (206, 92),
    (84, 138),
    (118, 118),
    (182, 116),
    (220, 146),
    (104, 178),
    (196, 182),
    (150, 96),
    (214, 196),
)


def _block(x: float, y: float, r: float, seed: float) -> str:
    n = 5
    points = [
        (
            x + r * (0.8 + 0.4 * chance(seed, k)) * math.cos(2 * math.pi * k / n + seed),
            y + r * (0.8 + 0.4 * chance(seed + 3, k)) * math.sin(2 * math.pi * k / n + seed),
        )
        for k in range(n)
    ]
    return "M" + " ".join(f"{a:.1f},{b:.1f}" for a, b in points) + "Z"


def _angular() -> list[str]:
    return _palm(GOOD) + [path(_block(x, y, 17, at), YELLOW, 1.6) for at, (x, y) in enumerate(BLOCKS)]


def _grey_under() -> list[str]:
    parts = _palm(PALE) + [path(_block(x, y, 18, at), "#c9c6cf", 1.0) for at, (x, y) in enumerate(BLOCKS)]
    places = [
        (x + 22 * (chance(at, k) - 0.5), y + 22 * (chance(k, at) - 0.5))
        for at, (x, y) in enumerate(BLOCKS)
        for k in range(6)
    ]
    return parts + fur(places, 3, 6.5, "#5d5866")


def _white_down() -> list[str]:
    parts = BIG.draw(PALE)
    places = []
    for at, (t, s) in enumerate(((0.24, 0.4), (0.4, -0.45), (0.58, 0.4), (0.68, -0.3))):
        x, y = BIG.at(t, s)
        parts.append(path(_block(x, y, 31, at), YELLOW, 1.2))
        places += [(x + 44 * (chance(at, k) - 0.5), y + 44 * (chance(k, at + 5) - 0.5)) for k in range(22)]
    return parts + fur(places, 5, 8, "#ffffff", 3.0) + fur(places, 5, 8, "#7a837e", 0.9)


def _pale_ovals() -> list[str]:
    parts = _tube()
    for t, s in ((0.24, 0.1), (0.5, -0.1), (0.74, 0.05)):
        x, y = TUBE.at(t, s)
        parts += [
            path(oval(x, y, 30, 15, -80), "#e9e6c4", 1.8),
            path(oval(x, y, 20, 8.5, -80), "none", 1, BROWN),
        ]
    return parts


def _violet_fuzz() -> list[str]:
    parts = _tube()
    places = [TUBE.at(t, s * 0.85) for t, s in spread(46, 0.2, (0.25, 0.78), (-0.9, 0.9))]
    parts.append(path(oval(150, 142, 74, 22, -79), "#cfc3cc", 0, opacity=0.8))
    return parts + fur(places, 4, 7.5, "#6b5868", 1.4)


def _tips() -> list[str]:
    parts = []
    for base, tip, bend, half in (
        ((150, 292), (70, 70), 18, 17),
        ((150, 292), (150, 22), -8, 18),
        ((150, 292), (236, 84), -20, 16),
    ):
        leaf = Leaf(base, tip, half, bend=bend, widest=0.35, wave=0, stalk=0)
        parts.append(path(leaf.outline(), GOOD))
        dry = [leaf.at(0.64 + 0.03 * at, -1) for at in range(13)] + [
            leaf.at(1 - 0.03 * at, 1) for at in range(13)
        ]
        parts.append(path(curve(dry), TAN, FINE))
        x, y = leaf.at(1, 0)
        side = 1 if x > 150 else -1
        parts.append(
            path(
                curve([(x, y), (x + 12 * side, y + 4), (x + 20 * side, y + 22), (x + 16 * side, y + 38)]),
                "none",
                5.5,
                BROWN,
            )
        )
        parts.append(
            path(curve([leaf.at(0.05 + 0.06 * at, 0.1) for at in range(10)]), "none", 1.1, INK, opacity=0.5)
        )
    return parts


def _powder() -> list[str]:
    parts = BIG.draw(DEEP)
    for at, (t, s, r) in enumerate(
        (
            (0.22, 0.4, 27),
            (0.34, -0.45, 30),
            (0.5, 0.42, 24),
            (0.6, -0.3, 26),
            (0.76, 0.15, 22),
            (0.14, -0.25, 14),
        )
    ):
        x, y = BIG.at(t, s)
        parts.append(path(blob(x, y, r, at, 0.4), WHITE, 0, opacity=0.9))
        for k in range(34):
            reach = r * (0.75 + 0.5 * chance(at, k))
            a = 2 * math.pi * k / 34
            parts.append(dot(x + reach * math.cos(a), y + reach * math.sin(a), 1.7, WHITE))
        parts += [
            dot(x + r * 0.8 * (chance(k, at) - 0.5) * 2, y + r * 0.8 * (chance(at, k) - 0.5) * 2, 0.9, GREY)
            for k in range(12)
        ]
    return parts


def _rust() -> list[str]:
    parts = _tube()
    for at, (t, s) in enumerate(spread(34, 0.3, (0.1, 0.9), (-0.75, 0.75))):
        x, y = TUBE.at(t, s)
        parts += [
            path(oval(x, y, 8.4, 4.4, -80), YELLOW, 0),
            path(oval(x, y, 5.6 + chance(at, 1), 2.9, -80), "#b9622b", 1.1),
        ]
    return parts


def _yellow_v() -> list[str]:
    inside = [path(BIG.outline(), GOOD, 0)]
    for side, t in ((1, 0.42), (-1, 0.6), (1, 0.76)):
        tip = BIG.at(t - 0.1, side * 0.16)
        a, b = BIG.at(t - 0.12, side * 1.1), BIG.at(t + 0.13, side * 1.1)
        inside.append(
            path(f"M{tip[0]:.1f},{tip[1]:.1f}L{a[0]:.1f},{a[1]:.1f}L{b[0]:.1f},{b[1]:.1f}Z", YELLOW, 1.6)
        )
        m = BIG.at(t - 0.02, side * 0.62)
        inside.append(
            path(
                (
                    f"M{m[0]:.1f},{m[1]:.1f}L{BIG.at(t - 0.06, side * 1.1)[0]:.1f},"
                    f"{BIG.at(t - 0.06, side * 1.1)[1]:.1f}L{BIG.at(t + 0.08, side * 1.1)[0]:.1f},"
                    f"{BIG.at(t + 0.08, side * 1.1)[1]:.1f}Z"
                ),
                TAN,
                0,
            )
        )
    return BIG.draw()[:1] + BIG.clipped("yellow-v", inside)


def _black_veins() -> list[str]:
    leaf = replace(BIG, veins=6)
    return [
        *leaf.draw("#e3e2b4", ribs=False),
        path(_lace(leaf), "none", 1.0, INK, opacity=0.6),
        path(leaf.ribs(), "none", 4.2, INK),
    ]


def _water_soaked(rim: bool) -> list[str]:
    inside = [path(BIG.outline(), GOOD, 0)]
    places = []
    for at, (t, s, r) in enumerate(((0.7, 0.95, 46), (0.3, -0.9, 50), (0.34, 0.8, 24), (0.9, -0.1, 20))):
        x, y = BIG.at(t, s)
        inside += [
            path(blob(x, y, r * 1.25, at, 0.3), "#a7b89a", 0),
            path(blob(x, y, r, at, 0.35), "#6f6a4c", 1.2),
            path(blob(x, y, r * 0.6, at, 0.4), DARK, 0),
        ]
        places += [(x + r * 1.16 * math.cos(k * 0.3), y + r * 1.16 * math.sin(k * 0.3)) for k in range(21)]
    if rim:
        inside += fur(places, 2, 9, WHITE, 3.2) + fur(places, 2, 9, "#6f7974", 0.8)
    return BIG.draw()[:1] + BIG.clipped("white-fuzz" if rim else "water-soaked", inside)


def _white_flecks() -> list[str]:
    parts = _tube(DEEP)
    for at, (t, s) in enumerate(spread(30, 0.3, (0.1, 0.9), (-0.72, 0.72))):
        x, y = TUBE.at(t, s)
        parts += [
            path(oval(x, y, 7.5, 4.6, -80), "#dbe6cd", 0),
            path(oval(x, y, 3.6 + chance(1, at), 1.9, -80), WHITE, 0.8),
        ]
    return parts


def _purple_blotches() -> list[str]:
    parts = _tube()
    for t, s in ((0.26, 0.05), (0.55, -0.1), (0.78, 0.05)):
        x, y = TUBE.at(t, s)
        parts.append(path(oval(x, y, 38, 17, -80), YELLOW, 0))
        tints = ("#7b4f63", "#a57c8c", "#5a3648")
        parts += [
            path(oval(x, y, 30 * k, 13 * k, -80), tint, 1.3)
            for k, tint in zip((1, 0.66, 0.34), tints, strict=True)
        ]
    return parts


DRAWN: Final[Mapping[str, Drawing]] = {
    "ring-spots": _rings,
    "small-grey-spots": _small_grey,
    "black-dots-in-spots": _dots_in_spots,
    "spots-purple-rim": lambda: _rimmed("#8a4a5c", "#dcc9a6"),
    "spots-yellow-halo": lambda: _rimmed(DARK, BROWN, YELLOW, 16, 8),
    "angular-yellow-blocks": _angular,
    "grey-fuzz-under": _grey_under,
    "white-down-under": _white_down,
    "pale-oval-patches": _pale_ovals,
    "violet-fuzz-on-leaf": _violet_fuzz,
    "tips-die-back": _tips,
    "white-powder": _powder,
    "rust-pustules": _rust,
    "yellow-v-from-edge": _yellow_v,
    "black-veins": _black_veins,
    "water-soaked-blotches": lambda: _water_soaked(rim=False),
    "white-fuzz-at-edge": lambda: _water_soaked(rim=True),
    "white-flecks": _white_flecks,
    "purple-blotches": _purple_blotches,
}
