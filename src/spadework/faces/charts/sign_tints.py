"""Drawings of leaves of the wrong colour or form."""

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
    GOOD,
    INK,
    OCHRE,
    PALE,
    PLAIN,
    PURPLE,
    TAN,
    WHITE,
    YELLOW,
    Bite,
    Drawing,
    Leaf,
    blob,
    chance,
    curve,
    dot,
    oval,
    path,
    soil,
    spread,
)


def _between_veins() -> list[str]:
    leaf = PLAIN
    inside = [path(leaf.outline(), YELLOW, 0), path(leaf.ribs(whole=True), "none", 13, DEEP)]
    return leaf.draw()[:1] + leaf.clipped("between-veins", inside)


def _bands() -> list[str]:
    inside = [path(BIG.outline(), GOOD, 0)]
    for t, wide in ((0.34, 17), (0.6, 20), (0.84, 13)):
        inside.append(
            path(
                curve([BIG.at(t - 0.07, -1.2), BIG.at(t, 0), BIG.at(t - 0.07, 1.2)]), "none", wide, "#fbf8e6"
            )
        )
    return BIG.draw()[:1] + BIG.clipped("bands", inside)


def _edges_brown() -> list[str]:
    leaf = replace(BIG, wave=0.05)
    inside = [path(leaf.outline(), BROWN, 0)]
    inner = [leaf.at(0.02 + 0.86 * at / 30, -0.8 + 0.09 * chance(1, at)) for at in range(31)]
    inner += [leaf.at(0.88 - 0.86 * at / 30, 0.8 - 0.09 * chance(2, at)) for at in range(31)]
    halo = [leaf.at(0.02 + 0.84 * at / 30, -0.72 + 0.06 * chance(1, at)) for at in range(31)]
    halo += [leaf.at(0.86 - 0.84 * at / 30, 0.72 - 0.06 * chance(2, at)) for at in range(31)]
    inside += [path(curve(inner, close=True), YELLOW, 1), path(curve(halo, close=True), GOOD, 0)]
    return leaf.draw()[:1] + leaf.clipped("edges-brown", inside)


def _purple() -> list[str]:
    inside = [path(BIG.outline(), GOOD, 0)]
    for side in (-1, 1):
        flush = [BIG.at(0.1 + 0.85 * at / 16, side * 1.1) for at in range(17)] + [
            BIG.at(0.95 - 0.8 * at / 16, side * (0.3 + 0.12 * chance(3, at))) for at in range(17)
        ]
        inside.append(path(curve(flush, close=True), PURPLE, 0, opacity=0.85))
    inside.append(path(BIG.ribs(), "none", 3.4, "#7b4f63"))
    return BIG.draw()[:1] + BIG.clipped("purple", inside)


def _one_side() -> list[str]:
    half = [BIG.at(at / 24, 0) for at in range(25)] + [BIG.at(1 - at / 24, 1.1) for at in range(25)]
    brown = [BIG.at(0.3 + 0.5 * at / 12, 0.62 + 0.1 * chance(1, at)) for at in range(13)] + [
        BIG.at(0.8 - 0.5 * at / 12, 1.1) for at in range(13)
    ]
    inside = [
        path(BIG.outline(), GOOD, 0),
        path(curve(half, close=True), YELLOW, 0),
        path(curve(brown, close=True), TAN, 1),
    ]
    return BIG.draw()[:1] + BIG.clipped("one-side", inside)


def _mottled() -> list[str]:
    inside = [path(BIG.outline(), "#8fae86", 0)]
    for at, (t, s) in enumerate(spread(30, 0.2, (0.05, 0.95), (-1, 1))):
        x, y = BIG.at(t, s)
        inside.append(
            path(blob(x, y, 17 + 8 * chance(at, 2), at, 0.8), "#e6ebb9" if at % 3 else "#d3dfa8", 0)
        )
    return BIG.draw()[:1] + BIG.clipped("mottled", inside)


def _dry_patches() -> list[str]:
    parts = BIG.draw(GOOD)
    for at, (t, s, r) in enumerate(((0.36, 0.4, 34), (0.6, -0.3, 30), (0.74, 0.35, 17))):
        x, y = BIG.at(t, s)
        parts.append(path(blob(x, y, r, at, 0.5), "#fdfbf0", 1.8, BROWN))
        parts += [
            path(f"M{x - r * 0.5 + 9 * k:.1f},{y - r * 0.5:.1f}l-5,{r:.1f}", "none", 0.9, TAN)
            for k in range(int(r / 7))
        ]
    return parts


def _torn() -> list[str]:
    bites: tuple[Bite, ...] = (
        (1, 0.3, 0.02, 0.85),
        (1, 0.52, 0.025, 0.9),
        (-1, 0.42, 0.02, 0.8),
        (-1, 0.64, 0.03, 0.86),
        (1, 0.72, 0.02, 0.7),
        (-1, 0.24, 0.015, 0.6),
    )
    return replace(BIG, wave=0.08).draw(GOOD, bites)


def _curled() -> list[str]:
    leaf = Leaf((150, 276), (172, 52), 74, bend=-34, wave=0.13, widest=0.5)
    parts = leaf.draw(GOOD)
    for _at, (t, s) in enumerate(spread(16, 0.3, (0.15, 0.85), (-0.7, 0.7))):
        x, y = leaf.at(t, s)
        parts.append(path(f"M{x - 9:.1f},{y + 3:.1f}q8,-13 18,-1", "none", 2.0))
    fold = [leaf.at(0.25 + 0.06 * at, 1.0) for at in range(11)] + [
        leaf.at(0.85 - 0.06 * at, 0.66) for at in range(11)
    ]
    return [*parts, path(curve(fold, close=True), DEEP, 2)]


def _rolled() -> list[str]:
    leaf = Leaf((150, 276), (158, 26), 46, bend=-6, wave=0.01)
    parts = leaf.draw(PALE)
    for side in (-1, 1):
        roll = [leaf.at(0.06 + 0.88 * at / 12, side * 1.06) for at in range(13)] + [
            leaf.at(0.94 - 0.88 * at / 12, side * 0.16) for at in range(13)
        ]
        parts.append(path(curve(roll, close=True), DEEP))
        parts.append(
            path(
                curve([leaf.at(0.12 + 0.76 * at / 10, side * 0.62) for at in range(11)]),
                "none",
                1.2,
                INK,
                opacity=0.5,
            )
        )
    return parts


def _sticky() -> list[str]:
    parts = BIG.draw(GOOD)
    for at, (t, s, r) in enumerate(((0.3, 0.4, 30), (0.5, -0.5, 34), (0.2, -0.3, 18))):
        x, y = BIG.at(t, s)
        parts.append(path(blob(x, y, r, at, 0.6), DARK, 0, opacity=0.55))
    for t, s in spread(16, 0.1, (0.4, 0.9)):
        x, y = BIG.at(t, s)
        parts += [path(oval(x, y, 6.5, 4.8), "#fdfdf8", 1.2), dot(x - 2, y - 1.4, 1.3, OCHRE)]
    return parts


def _fan() -> list[str]:
    leaf = replace(BIG, half=78, widest=0.7, veins=0)
    parts = leaf.draw(GOOD, ribs=False)
    ribs = "".join(
        curve([leaf.axis(0.0), leaf.at(0.35, 0.95 * k / 6), leaf.at(0.9 - 0.05 * abs(k) / 3, 0.95 * k / 6)])
        for k in range(-6, 7)
    )
    return [*parts, path(ribs, "none", 1.7)]


def _dull() -> list[str]:
    return BIG.draw("#b9c6c4") + [
        path(curve([BIG.at(0.2 + 0.06 * k, s) for k in range(10)]), "none", 1.6, WHITE) for s in (-0.55, 0.5)
    ]


def _bronzed() -> list[str]:
    parts = soil(262)
    for at in range(7):
        a = math.radians(40 + 100 * at / 6)
        tip = (150 + 190 * math.cos(a), 262 - 200 * math.sin(a))
        tint = ("#b9805a", "#c79a62", "#a8604a")[at % 3]
        stalk = curve([(150, 264), (150 + 90 * math.cos(a) * 0.9, 262 - 110 * math.sin(a)), tip])
        parts += [path(stalk, "none", 4.6), path(stalk, "none", 1.8, tint)]
        for k in range(3, 10, 2):
            px, py = 150 + 19 * k * math.cos(a), 262 - 20.5 * k * math.sin(a)
            for s in (-1, 1):
                u, v = px + s * 11 * math.sin(a), py + s * 11 * math.cos(a) - 5
                parts.append(path(oval(u, v, 13, 5.5, math.degrees(-a) + s * 45), tint, 1.4))
    return parts


DRAWN: Final[Mapping[str, Drawing]] = {
    "yellow-between-veins": _between_veins,
    "pale-bands": _bands,
    "leaf-edges-brown": _edges_brown,
    "leaves-purple": _purple,
    "one-side-yellow": _one_side,
    "mottled-leaves": _mottled,
    "pale-dry-patches": _dry_patches,
    "torn-leaves": _torn,
    "curled-leaves": _curled,
    "leaf-rolls-up": _rolled,
    "sticky-leaves": _sticky,
    "fan-veins": _fan,
    "dull-blue-leaves": _dull,
    "bronzed-tops": _bronzed,
}
