"""Drawings of butterflies, moths, and dots that move."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from spadework.faces.charts.sign_forms import (
    BRICK,
    DARK,
    GOOD,
    INK,
    WHITE,
    Drawing,
    Leaf,
    chance,
    dot,
    path,
    turned,
)
from spadework.faces.charts.sign_parts import near_leaf


def _moving_dots() -> list[str]:
    parts = [
        path("M24,128L214,96L280,232L78,284Z", WHITE),
        *Leaf((20, 40), (214, 26), 33, bend=-14, stalk=16).draw(GOOD),
    ]
    for at in range(34):
        x, y = 84 + 150 * ((at * 0.618) % 1), 132 + 116 * ((at + 0.5) / 34)
        parts.append(dot(x, y, 2.3 + chance(1, at), BRICK if at % 3 else DARK))
        if at % 4 == 0:
            parts.append(path(f"M{x:.0f},{y:.0f}q8,-8 16,-2", "none", 1, INK, stroke_dasharray="2 3"))
    return [*parts, path("M120,70v20m-6,-8l6,9l6,-9M170,62v20m-6,-8l6,9l6,-9", "none", 2)]


def _wings(
    x: float,
    y: float,
    size: float,
    fore: str,
    hind: str,
    spots: bool,
    turn: float = 0.0,
    narrow: bool = False,
) -> str:
    inner = ""
    for side in (-1, 1):
        if narrow:
            inner += path(
                f"M0,-14C{side * 20},-8 {side * 26},40 {side * 14},58C{side * 4},46 0,20 0,-14Z", fore
            )
            inner += path(f"M{side * 4},2q{side * 8},20 {side * 6},44", "none", 1.2, INK, opacity=0.5)
            continue
        inner += path(
            f"M0,2C{side * 40},0 {side * 60},24 {side * 52},48C{side * 30},62 {side * 8},40 0,2Z", hind
        )
        inner += path(
            f"M0,-8C{side * 16},-60 {side * 62},-78 {side * 84},-66C{side * 82},-30 {side * 56},4 0,6Z", fore
        )
        inner += (
            path(
                (
                    f"M{side * 66},-70C{side * 80},-70 {side * 86},-66 {side * 83},-54C{side * 78},-60 "
                    f"{side * 72},-64 {side * 66},-70Z"
                ),
                DARK,
                0,
            )
            if spots
            else ""
        )
        inner += dot(side * 50, -34, 6, DARK) if spots else ""
        inner += path(
            f"M0,-4L{side * 70},-56M0,0L{side * 66},-26M0,4L{side * 46},40", "none", 1, INK, opacity=0.35
        )
    inner += path("M0,-20C6,-10 5,34 0,42C-5,34 -6,-10 0,-20Z", DARK, 1.6) + path(
        "M-1,-18C-6,-34 -14,-44 -22,-48M1,-18C6,-34 14,-44 22,-48", "none", 1.8
    )
    return turned(inner, x, y, turn, size)


def _butterflies() -> list[str]:
    return [
        *Leaf((60, 300), (120, 150), 56, bend=-14, stalk=0).draw(GOOD),
        *Leaf((200, 310), (250, 190), 46, bend=14, stalk=0).draw(GOOD),
        _wings(120, 112, 1.15, WHITE, "#f6f4e0", spots=True, turn=-14),
        _wings(238, 140, 0.62, WHITE, "#f6f4e0", spots=True, turn=26),
    ]


def _moths() -> list[str]:
    parts = Leaf((30, 300), (110, 160), 50, bend=-14, stalk=0).draw(GOOD) + Leaf(
        (220, 310), (236, 176), 48, bend=14, stalk=0
    ).draw(GOOD)
    for x, y, turn, size in ((110, 92, 30, 1.1), (206, 70, -24, 0.8), (190, 150, 12, 0.95)):
        parts.append(_wings(x, y, size, "#b9b2a2", "", spots=False, turn=turn, narrow=True))
        parts.append(path(f"M{x - 30},{y + 60}q12,-20 6,-34", "none", 1.3, INK, stroke_dasharray="2 5"))
    return parts


def _borer_moth() -> list[str]:
    inner = ""
    for side in (-1, 1):
        inner += path(
            (
                f"M{side * 14},-30C{side * 60},-58 {side * 112},-52 {side * 124},-34C{side * 96},-14 "
                f"{side * 44},-10 {side * 14},-14Z"
            ),
            "#5d6d5c",
        )
        inner += path(
            (
                f"M{side * 12},-14C{side * 50},-10 {side * 72},10 {side * 66},28C{side * 40},30 "
                f"{side * 18},14 {side * 12},-4Z"
            ),
            "#eef1ea",
        )
        inner += path(f"M{side * 14},40l{side * 26},16M{side * 12},56l{side * 22},22", "none", 6, BRICK)
        inner += path(f"M{side * 6},-52C{side * 14},-74 {side * 24},-84 {side * 36},-88", "none", 3)
    inner += path(
        "M0,-58C22,-50 24,-20 20,10C18,60 8,92 0,98C-8,92 -18,60 -20,10C-24,-20 -22,-50 0,-58Z", "#d98458"
    )
    inner += "".join(dot(0, 6 + 18 * k, 6.6 - k, INK) for k in range(5)) + dot(0, -58, 15, DARK, 2)
    return [*near_leaf(), turned(inner, 150, 150)]


def _white_flies() -> list[str]:
    parts = Leaf((96, 292), (206, 150), 62, bend=-10, stalk=8).draw(GOOD)
    for at in range(26):
        x, y = 60 + 196 * ((at * 0.618) % 1), 26 + 190 * ((at + 0.5) / 26)
        turn = 80 * chance(3, at) - 40
        fly = path("M0,-3C-7,-8 -13,0 -10,9C-5,9 -1,3 0,-3C1,3 5,9 10,9C13,0 7,-8 0,-3Z", WHITE, 1.3)
        parts.append(turned(fly + dot(0, -5, 2.4, "#e6d9a8", 1), x, y, turn))
    return parts


DRAWN: Final[Mapping[str, Drawing]] = {
    "moving-dots": _moving_dots,
    "white-butterflies": _butterflies,
    "small-grey-moths": _moths,
    "day-flying-red-moth": _borer_moth,
    "white-flies-rise": _white_flies,
}
