"""Drawings of leaves eaten, pecked and mined."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from spadework.faces.charts.sign_forms import (
    BIG,
    BRICK,
    BROWN,
    DARK,
    DEEP,
    FINE,
    GOOD,
    GREY,
    INK,
    PALE,
    PAPER,
    TAN,
    WHITE,
    Bite,
    Drawing,
    Leaf,
    blob,
    chance,
    curve,
    dot,
    marks,
    oval,
    path,
    spread,
)


def _shot_holes() -> list[str]:
    return BIG.draw() + marks(BIG, spread(44, 0.2), 5.2, PAPER)


def _ragged_holes() -> list[str]:
    bites: tuple[Bite, ...] = ((1, 0.62, 0.1, 0.55), (-1, 0.3, 0.07, 0.4), (1, 0.24, 0.05, 0.3))
    parts = BIG.draw(GOOD, bites)
    for at, (t, s, r) in enumerate(
        ((0.28, 0.4, 20), (0.46, -0.5, 27), (0.68, -0.3, 17), (0.44, 0.45, 15), (0.16, -0.4, 10))
    ):
        x, y = BIG.at(t, s)
        parts.append(path(blob(x, y, r, at + 2, 0.75), PAPER, 2.2))
    return parts


def _eaten_from_edge() -> list[str]:
    bites: tuple[Bite, ...] = (
        (1, 0.24, 0.08, 0.5),
        (1, 0.4, 0.09, 0.72),
        (1, 0.56, 0.075, 0.55),
        (1, 0.7, 0.07, 0.6),
        (-1, 0.66, 0.09, 0.6),
        (-1, 0.82, 0.06, 0.5),
    )
    return BIG.draw(GOOD, bites)


def _window_panes() -> list[str]:
    parts = BIG.draw()
    for at, (t, s) in enumerate(
        ((0.22, 0.45), (0.34, -0.5), (0.5, 0.5), (0.56, -0.4), (0.74, 0.3), (0.15, -0.35))
    ):
        x, y = BIG.at(t, s)
        r = 13 + 8 * chance(4, at)
        parts.append(path(blob(x, y, r, at, 0.5), WHITE, FINE, INK, stroke_dasharray="3 3"))
        for step in (-0.4, 0.05, 0.5):
            parts.append(
                path(f"M{x - 0.6 * r:.1f},{y + step * r:.1f}l{1.2 * r:.1f},{-0.3 * r:.1f}", "none", 0.9, GREY)
            )
    return parts


def _lacework() -> list[str]:
    bites: tuple[Bite, ...] = ((1, 0.34, 0.05, 0.3), (-1, 0.56, 0.06, 0.35), (-1, 0.8, 0.05, 0.3))
    parts = BIG.draw(DEEP, bites, ribs=False)
    for row in range(15):
        for column, s in enumerate((0.17, 0.41, 0.64, 0.8)):
            for side in (-1, 1):
                t = 0.08 + 0.055 * row + 0.13 * s
                if t > 0.93 or (row < 3 and column > 2) or BIG.width(t) * 0.24 < 4:
                    continue
                x, y = BIG.at(t, side * s)
                parts.append(
                    path(blob(x, y, min(BIG.width(t) * 0.11, 8.6), row + column, 0.3, 0.6), PAPER, 1.1)
                )
    return [*parts, path(BIG.ribs(bites), "none", 1.8)]


def _blotch_mines() -> list[str]:
    parts = BIG.draw(DEEP)
    for at, (t, s, r) in enumerate(((0.3, 0.5, 30), (0.56, -0.42, 34), (0.72, 0.4, 17))):
        x, y = BIG.at(t, s)
        parts.append(path(blob(x, y, r, at + 3, 0.5), PALE, 2.0))
        parts.append(path(blob(x, y, r * 0.72, at + 6, 0.5), "none", 1.0, BROWN))
        parts.append(path(oval(x + 4, y, r * 0.3, r * 0.12, 30), "#6d6a3c", 1.2))
        parts += [dot(x - r * 0.3 + 3 * k, y + r * 0.32 - (k % 2) * 3, 1.4, DARK) for k in range(5)]
    return parts


def _pecked_edges() -> list[str]:
    leaf = replace(BIG, veins=7)
    parts = []
    tri = [(1, 0.22), (1, 0.37), (1, 0.52), (1, 0.67), (1, 0.8), (-1, 0.44), (-1, 0.6), (-1, 0.75)]
    left = leaf.edge(-1)
    right = leaf.edge(1)

    def torn(edge: list[tuple[float, float]], side: int) -> list[tuple[float, float]]:
        told: list[tuple[float, float]] = []
        n = len(edge) - 1
        for at, place in enumerate(edge):
            t = at / n
            near = next((m for which, m in tri if which == side and abs(t - m) < 0.055), None)
            if near is None:
                told.append(place)
            elif not told or told[-1] != leaf.at(near, side * 0.26):
                told.append(leaf.at(near, side * 0.26))
        return told

    points = torn(left, -1) + torn(right, 1)[::-1]
    parts += leaf.draw("none", ribs=False)[:1]
    parts.append(path(curve(points[:1]) + "L" + " ".join(f"{x:.1f},{y:.1f}" for x, y in points) + "Z", GOOD))
    parts.append(path(leaf.ribs(whole=True), "none", 1.9))
    return parts


def _silver(n: int = 26) -> list[str]:
    parts = []
    for at, (t, s) in enumerate(spread(n, 0.35)):
        (x, y), (u, v) = BIG.at(t, s), BIG.at(min(t + 0.05 + 0.03 * chance(2, at), 0.95), s * 0.96)
        d = curve([(x, y), ((x + u) / 2 + 3, (y + v) / 2), (u, v)])
        parts += [path(d, "none", 6.0, INK, opacity=0.55), path(d, "none", 4.2, WHITE)]
    return parts


def _silvery_streaks() -> list[str]:
    return BIG.draw(DEEP) + _silver()


def _dark_drops() -> list[str]:
    parts = BIG.draw(DEEP) + _silver(14)
    for at, (t, s) in enumerate(spread(48, 0.1)):
        x, y = BIG.at(t, s)
        parts.append(dot(x, y, 2.1 + chance(1, at), DARK))
    return parts


def _speckled() -> list[str]:
    return BIG.draw(DEEP) + [
        dot(*BIG.at(t, s), 1.5 + 1.2 * chance(at, 2), WHITE) for at, (t, s) in enumerate(spread(260, 0.3))
    ]


def _slime_trails() -> list[str]:
    bites: tuple[Bite, ...] = ((1, 0.5, 0.08, 0.5),)
    parts = BIG.draw(DEEP, bites)
    x, y = BIG.at(0.34, -0.45)
    parts.append(path(blob(x, y, 18, 3, 0.7), PAPER, 2.2))
    trail = curve(
        [
            BIG.at(0.06, 0.3),
            BIG.at(0.2, 0.55),
            BIG.at(0.3, 0.1),
            BIG.at(0.48, 0.25),
            BIG.at(0.6, -0.4),
            BIG.at(0.78, -0.25),
            BIG.at(0.86, 0.35),
            (262, 60),
        ]
    )
    return [
        *parts,
        path(trail, "none", 15, INK),
        path(trail, "none", 12.4, "#f3f6f8"),
        path(trail, "none", 1.5, GREY, stroke_dasharray="9 7"),
    ]


def _droppings(barrel: bool) -> list[str]:
    parts = BIG.draw(GOOD, ((1, 0.58, 0.12, 0.6), (1, 0.78, 0.07, 0.5)))
    for at, (t, s) in enumerate(
        ((0.2, -0.3), (0.27, 0.25), (0.36, -0.1), (0.44, 0.18))
        if barrel
        else spread(26, 0.2, (0.12, 0.48), (-0.5, 0.5))
    ):
        x, y = BIG.at(t, s)
        if not barrel:
            parts.append(path(blob(x, y, 5.4, at, 0.5), "#5d6b3f", 1.2))
            continue
        turn = 40.0 * at - 30
        parts.append(path(oval(x, y, 17, 11, turn), DARK, 1.6))
        for k in (-0.5, 0.0, 0.5):
            c, s_ = math.cos(math.radians(turn)), math.sin(math.radians(turn))
            px, py = x + 17 * k * c, y + 17 * k * s_
            parts.append(
                path(
                    f"M{px - 8 * s_:.1f},{py + 8 * c:.1f}L{px + 8 * s_:.1f},{py - 8 * c:.1f}",
                    "none",
                    1.6,
                    TAN,
                )
            )
    return parts


def _cast_skins() -> list[str]:
    parts = BIG.draw(DEEP)
    for at, (t, s) in enumerate(spread(8, 0.4, (0.16, 0.84))):
        x, y = BIG.at(t, s)
        turn = 360 * chance(at, 4)
        parts.append(path(oval(x, y, 10, 5.6, turn), WHITE, 1.4))
        for k in range(6):
            a = math.radians(turn + 60 + 30 * (k % 3) + (180 if k > 2 else 0))
            parts.append(
                path(
                    (
                        f"M{x + 5 * math.cos(a):.1f},{y + 5 * math.sin(a):.1f}l{8 * math.cos(a):.1f},"
                        f"{8 * math.sin(a) + 3:.1f}"
                    ),
                    "none",
                    1.2,
                )
            )
    return parts


def _webbing() -> list[str]:
    one = Leaf((60, 280), (96, 50), 56, bend=14, stalk=18)
    two = Leaf((236, 284), (214, 60), 56, bend=10, stalk=14)
    parts = one.draw(GOOD) + two.draw(GOOD)
    for at in range(17):
        a, b = (
            one.at(0.22 + 0.044 * at, 0.2 + 0.6 * chance(2, at)),
            two.at(0.2 + 0.046 * at, -0.2 - 0.6 * chance(7, at)),
        )
        parts.append(
            path(curve([a, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2 + 12 * chance(3, at)), b]), "none", 1.1)
        )
    parts += [dot(112 + 70 * chance(5, at), 90 + 120 * chance(8, at), 2.6, BRICK) for at in range(14)]
    return parts


def _even_notches() -> list[str]:
    bites: tuple[Bite, ...] = tuple(
        (side, 0.16 + 0.105 * at, 0.034, 0.26) for side in (-1, 1) for at in range(8)
    )
    return BIG.draw(GOOD, bites)


DRAWN: Final[Mapping[str, Drawing]] = {
    "shot-holes": _shot_holes,
    "ragged-holes": _ragged_holes,
    "eaten-from-edge": _eaten_from_edge,
    "window-panes": _window_panes,
    "lacework": _lacework,
    "blotch-mines": _blotch_mines,
    "pecked-edges": _pecked_edges,
    "silvery-streaks": _silvery_streaks,
    "dark-drops": _dark_drops,
    "speckled-leaves": _speckled,
    "slime-trails": _slime_trails,
    "green-droppings": lambda: _droppings(barrel=False),
    "barrel-droppings": lambda: _droppings(barrel=True),
    "cast-skins": _cast_skins,
    "webbing": _webbing,
    "even-notches": _even_notches,
}
