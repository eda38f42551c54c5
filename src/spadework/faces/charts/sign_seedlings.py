"""Drawings of seedlings and seeds."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from spadework.faces.charts.sign_forms import (
    BRICK,
    BROWN,
    DARK,
    GOOD,
    GREY,
    INK,
    PALE,
    SOIL,
    TAN,
    WHITE,
    YELLOW,
    Drawing,
    blob,
    chance,
    curve,
    dot,
    fur,
    oval,
    path,
    soil,
)
from spadework.faces.charts.sign_parts import GROUND, leaf_at


def _seedling(
    x: float, y: float = GROUND, size: float = 1.0, lean: float = 0.0, fill: str = GOOD, leaves: bool = True
) -> list[str]:
    """A seedling with its two first leaves, leaning by degrees to the right."""
    a = math.radians(90 - lean)
    top = (x + 84 * size * math.cos(a), y - 84 * size * math.sin(a))
    stem = curve([(x, y + 3), ((x + top[0]) / 2 - 3, (y + top[1]) / 2), top])
    parts = [path(stem, "none", 5.6 * size + 1), path(stem, "none", max(5.6 * size - 2.6, 1.0), fill)]
    if leaves:
        for side in (-1, 1):
            parts += leaf_at(*top, (28 if side > 0 else 152) - lean, 52 * size, 19 * size).draw(fill)
    return parts


def _gaps() -> list[str]:
    parts = soil()
    for x in (30, 74, 228, 272):
        parts += _seedling(x, size=0.62)
    return [*parts, path("M98,228h106", "none", 2.2, BRICK, stroke_dasharray="2 9")]


def _topple() -> list[str]:
    parts = soil()
    parts += _seedling(46, size=0.85)
    for x, lean in ((118, 74), (196, -78)):
        parts += _seedling(x, GROUND - 4, 0.85, lean)
        parts.append(dot(x, GROUND - 3, 5.5, BROWN, 1.4))
    return parts


def _gone() -> list[str]:
    parts = soil()
    parts += _seedling(52, size=0.75)
    for x in (112, 172, 232):
        parts.append(path(f"M{x},{GROUND + 2:.0f}v-15", "none", 5))
        parts.append(
            path(
                f"M{x},{GROUND - 20:.0f}v-36M{x - 20},{GROUND - 64:.0f}q20,-14 20,8q0,-22 20,-8",
                "none",
                1.6,
                GREY,
                stroke_dasharray="4 5",
            )
        )
    return parts


def _bald() -> list[str]:
    parts = soil()
    for x, curl in ((76, 18), (150, -16), (226, 14)):
        stem = curve([(x, GROUND + 3), (x - 3, 186), (x + curl * 0.3, 152), (x + curl, 140)])
        parts += [path(stem, "none", 8), path(stem, "none", 3.6, GOOD)]
        parts.append(path(blob(x + curl, 139, 6, x, 0.7), TAN, 1.8))
    return parts


def _pulled() -> list[str]:
    parts = soil()
    parts += _seedling(44, size=0.7)
    for x, y, turn in ((118, 224, 82), (206, 222, -80)):
        parts += _seedling(x, y, 0.75, turn)
        s = -1 if turn > 0 else 1
        parts.append(
            path(
                (
                    f"M{x},{y}q{18 * s},4 {34 * s},-5M{x + 8 * s},{y + 1}q{8 * s},8 {20 * s},10"
                    f"M{x + 4 * s},{y}q{10 * s},-8 {18 * s},-14"
                ),
                "none",
                1.8,
            )
        )
        parts.append(path(blob(x + 6 * s, GROUND + 6, 10, x, 0.5, 0.5), "#8f7a64", 1.4))
    return parts


def _pinched() -> list[str]:
    parts = soil(216)
    stem = (
        "M128,222C132,208 142,204 144,190C146,168 128,150 130,70L170,70C172,150 154,168 "
        "156,190C158,204 168,208 172,222Z"
    )
    parts += [
        path(stem, GOOD),
        path(
            (
                "M134,214C138,206 142,202 144,190C145,178 140,168 137,160L163,160C160,168 155,178 "
                "156,190C158,202 162,206 166,214Z"
            ),
            DARK,
            1.6,
        ),
    ]
    for side in (-1, 1):
        parts += leaf_at(150, 74, 24 if side > 0 else 156, 108, 36).draw(GOOD)
    return parts


def _mould_on_soil() -> list[str]:
    parts = [*soil(216), *_seedling(150, 216, 1.0)]
    places = [(30 + 240 * chance(2, k), 214 + 8 * chance(3, k)) for k in range(46)]
    parts += [
        path(blob(70, 222, 34, 2, 0.4, 0.3), "#8ba36a", 1.2),
        path(blob(226, 222, 42, 2, 0.4, 0.28), "#8ba36a", 1.2),
    ]
    return parts + fur(places, 2, 11, WHITE, 2.8) + fur(places, 2, 11, "#77817c", 0.9)


def _patch_spreads() -> list[str]:
    parts = [path("M0,0H300V300H0Z", SOIL, 0)]
    for row in range(8):
        for column in range(8):
            x, y = 22 + 36.5 * column + 6 * chance(row, column), 22 + 36.5 * row
            off = math.hypot(x - 150, y - 152)
            if off < 62:
                parts.append(path(f"M{x - 9:.0f},{y:.0f}l18,4", "none", 3, BROWN))
            else:
                fill = YELLOW if off < 90 else GOOD
                parts += [
                    path(oval(x - 7, y, 9, 5, 24), fill, 1.4),
                    path(oval(x + 7, y, 9, 5, -24), fill, 1.4),
                ]
    return [*parts, path(blob(150, 152, 78, 2, 0.08), "none", 2.4, BRICK, stroke_dasharray="6 7")]


def _crust(bent: bool) -> list[str]:
    y = 170.0
    parts = soil(y)
    slabs = (
        ((0, 158), (86, 152), (92, 176), (0, 182)),
        ((100, 150), (196, 158), (192, 182), (104, 176)),
        ((206, 156), (300, 152), (300, 180), (204, 180)),
    )
    for slab in slabs:
        parts.append(path("M" + " ".join(f"{a},{b}" for a, b in slab) + "Z", "#ddcdb4", 2.4))
    if not bent:
        return (
            parts
            + _seedling(98, 168, 0.6, 8)
            + [path("M48,153l8,14l-6,12M150,154l-6,14l8,12M252,154l6,14l-8,12", "none", 1.6)]
        )
    for x, side in ((146, 1), (244, -1)):
        stem = curve(
            [(x, 268), (x - 6 * side, 222), (x + 4 * side, 190), (x + 30 * side, 186), (x + 40 * side, 200)]
        )
        parts += [
            path(stem, "none", 9),
            path(stem, "none", 4.4, YELLOW),
            path(oval(x + 44 * side, 208, 15, 9, 60 * side), YELLOW, 2.2),
        ]
        parts.append(path(f"M{x},{268}q-10,8 -18,8M{x},268q8,10 16,12", "none", 1.6))
    return parts


def _seeds(kind: str) -> list[str]:
    parts = [path("M0,0H300V300H0Z", "#dccbb1", 0)]
    for at, (x, y, turn) in enumerate(((86, 96, 20), (204, 104, -24), (96, 212, -16), (214, 216, 30))):
        c = {"hollow": "#efe0b6", "soft": "#9c7f55", "sound": "#efe0b6", "husks": "#efe0b6"}[kind]
        if kind == "husks":
            for side in (-1, 1):
                a = math.radians(turn)
                parts.append(
                    path(
                        oval(
                            x + side * 19 * math.sin(a),
                            y + side * 19 * math.cos(a),
                            36,
                            13,
                            -turn + side * 18,
                        ),
                        c,
                        2.2,
                    )
                )
                parts.append(
                    path(
                        oval(
                            x + side * 19 * math.sin(a), y + side * 19 * math.cos(a), 26, 6, -turn + side * 18
                        ),
                        TAN,
                        1.2,
                    )
                )
            continue
        parts.append(path(oval(x, y, 48, 31, turn), c))
        parts.append(path(oval(x - 12, y - 10, 12, 4, turn), "#fbf5e2" if kind != "soft" else "#b89c72", 0))
        if kind == "hollow":
            parts += [
                path(blob(x + 12, y + 2, 14, at, 0.4), DARK, 2),
                path(curve([(x - 30, y - 4), (x - 14, y + 8), (x + 2, y + 2)]), "none", 6, BROWN),
            ]
        if kind == "soft":
            parts += [
                path(blob(x + 8, y + 6, 20, at, 0.7), DARK, 0, INK, opacity=0.6),
                *fur(
                    [(x - 34 + 14 * k, y - 22 + 6 * chance(at, k)) for k in range(6)], at, 10, "#fbfaf4", 1.6
                ),
            ]
        if kind == "sound":
            parts.append(path(oval(x + 26, y + 6, 8, 3.4, turn + 80), TAN, 1.4))
    return parts


def _leggy() -> list[str]:
    parts = soil()
    for x, reach in ((66, 70), (124, 84), (182, 74)):
        stem = curve([(x, GROUND + 3), (x + 12, 168), (x + 36, 104), (x + reach, 62)])
        parts += [path(stem, "none", 4.6), path(stem, "none", 1.6, PALE)]
        for side in (-1, 1):
            parts += leaf_at(x + reach, 62, 24 if side > 0 else 156, 34, 11).draw(PALE)
    return [*parts, dot(282, 22, 30, "#f2d98f", 2)]


DRAWN: Final[Mapping[str, Drawing]] = {
    "gaps-in-row": _gaps,
    "seedlings-fall-over": _topple,
    "seedlings-gone": _gone,
    "bald-seedlings": _bald,
    "seedlings-pulled-up": _pulled,
    "pinched-stem": _pinched,
    "mould-on-soil": _mould_on_soil,
    "patch-spreads": _patch_spreads,
    "hard-crust": lambda: _crust(bent=False),
    "bent-under-crust": lambda: _crust(bent=True),
    "hollow-seed": lambda: _seeds("hollow"),
    "seed-soft": lambda: _seeds("soft"),
    "seed-sound": lambda: _seeds("sound"),
    "husked-seeds": lambda: _seeds("husks"),
    "long-bare-stems": _leggy,
}
