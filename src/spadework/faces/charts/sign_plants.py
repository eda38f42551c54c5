"""Drawings of whole plants."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from spadework.faces.charts.sign_forms import (
    BRICK,
    BROWN,
    DARK,
    DEEP,
    GOOD,
    INK,
    PALE,
    PAPER,
    TAN,
    WHITE,
    YELLOW,
    Drawing,
    Leaf,
    blob,
    chance,
    curve,
    dot,
    path,
    soil,
)
from spadework.faces.charts.sign_parts import GROUND, leaf_at, plant


def _wilting(dead: bool) -> list[str]:
    stem = curve(
        [(150, 238), (148, 176), (158, 120), (184, 96), (202, 112)]
        if dead
        else [(150, 238), (148, 160), (153, 96)]
    )
    parts = [*soil(), path(stem, "none", 8.5), path(stem, "none", 3.9, TAN if dead else GOOD)]
    fill = "#bdbf96" if dead else GOOD
    for high, side, long in (
        (52, 1, 66),
        (52, -1, 68),
        (88, 1, 68),
        (90, -1, 66),
        (122, 1, 56),
        (124, -1, 60),
    ):
        x = 150.0 + (0 if not dead or high < 100 else 12)
        y = GROUND - high
        elbow = (x + side * long * 0.42, y - (2 if dead else 14))
        stalk = curve([(x, y), (x + side * long * 0.25, y - (4 if dead else 14)), elbow])
        leaf = Leaf(
            elbow,
            (elbow[0] + side * long * 0.36, min(elbow[1] + 78, 252)),
            15,
            bend=side * -9.0,
            stalk=0,
            veins=4,
        )
        parts += [path(stalk, "none", 3.2), *leaf.draw(fill)]
    if not dead:
        leaf = Leaf((153, 96), (196, 140), 13, bend=-14, stalk=0, veins=3)
        parts += [*leaf.draw(fill), dot(252, 48, 20, "#f2d98f", 2.0)]
        parts += [
            path(
                (
                    f"M{252 + 27 * math.cos(k * 0.785):.1f},{48 + 27 * math.sin(k * 0.785):.1f}l"
                    f"{11 * math.cos(k * 0.785):.1f},{11 * math.sin(k * 0.785):.1f}"
                ),
                "none",
                2,
            )
            for k in range(8)
        ]
    else:
        parts += Leaf((202, 112), (222, 166), 12, bend=-6, stalk=0, veins=3).draw(fill)
    return parts


def _lower_yellow() -> list[str]:
    return soil() + plant((YELLOW, "#e9e3ae", GOOD, GOOD), (26, 10, 0, 0))


def _all_yellow() -> list[str]:
    return soil() + plant(("#eee6b4",) * 4)


def _stunted() -> list[str]:
    return [*soil(), *plant(at=96, size=0.78), *plant(("#dde2b8",) * 4, at=232, size=0.34)]


def _one_runner() -> list[str]:
    parts = soil()
    for side, fill in ((-1, GOOD), (1, "#bdbf96")):
        run = curve([(150, 236), (150 + side * 30, 190), (150 + side * 74, 172), (150 + side * 118, 186)])
        parts += [path(run, "none", 7.5), path(run, "none", 3.3, fill)]
        for x, y in ((184, 178), (226, 174), (258, 182)):
            px = x if side > 0 else 300 - x
            if side < 0:
                parts += leaf_at(px, y, 96, 84, 30).draw(fill)
            else:
                leaf = Leaf((px, y), (px + 20, y + 52), 15, bend=-8, stalk=0, veins=4)
                parts += leaf.draw(fill)
    return parts


def _stripped() -> list[str]:
    parts = soil()
    stem = curve([(150, 238), (147, 150), (154, 66)])
    parts += [path(stem, "none", 8.5), path(stem, "none", 3.9, GOOD)]
    for high, side, up in (
        (44, 1, 20),
        (60, -1, 24),
        (92, 1, 30),
        (108, -1, 36),
        (138, 1, 44),
        (150, -1, 50),
    ):
        y = GROUND - high
        a = math.radians(up)
        x, v = 150 + side * 88 * math.cos(a), y - 88 * math.sin(a)
        parts.append(
            path(
                curve([(150, y), (150 + side * 46 * math.cos(a), y - 50 * math.sin(a)), (x, v)]), "none", 3.2
            )
        )
        for k in (0.5, 0.72, 0.9):
            bx, by = 150 + side * 88 * k * math.cos(a), y - 90 * k * math.sin(a)
            parts.append(
                path(
                    (
                        f"M{bx:.1f},{by:.1f}l{side * 9},{-13 if k < 0.8 else -9}M{bx:.1f},{by:.1f}l"
                        f"{side * 14},{6}"
                    ),
                    "none",
                    1.8,
                )
            )
    leaf = leaf_at(150, GROUND - 22, 166, 80, 24)
    return parts + leaf.draw(GOOD, ((1, 0.5, 0.14, 0.7), (-1, 0.66, 0.12, 0.7)))


def _no_growth() -> list[str]:
    return [
        *soil(),
        path("M112,239l10,-13h56l10,13", "#8f7a64", 1.6),
        *plant(size=0.5, y=232),
        path("M64,92v140M58,92h12M58,232h12M61,150h6M61,190h6", "none", 1.8),
    ]


def _gone_to_flower() -> list[str]:
    parts = [*soil(), *plant(top=False, size=0.72)]
    stem = curve([(150, 150), (146, 90), (152, 40)])
    parts += [path(stem, "none", 6.5), path(stem, "none", 2.7, GOOD)]
    for at in range(13):
        x, y = 150 + 34 * (chance(2, at) - 0.5) * (1 + at / 12), 22 + 6.6 * at
        parts += [
            path(f"M150,{y + 16:.1f}L{x:.1f},{y:.1f}", "none", 1.3),
            path(blob(x, y, 6.5, at, 0.4), "#f2d98f", 1.4),
        ]
    return parts


def _button() -> list[str]:
    parts = [*soil(), *plant(size=0.72, top=False)]
    parts.append(path(blob(150, 132, 17, 2, 0.1), PALE, 2.2))
    parts += [
        path(blob(150 + 8 * math.cos(k), 130 + 7 * math.sin(k), 5.4, k, 0.2), "#f8f6e6", 1.2)
        for k in range(6)
    ]
    return parts


def _lush() -> list[str]:
    parts = soil()
    for y, size in ((236, 0.9), (206, 0.86)):
        parts += plant((DEEP,) * 4, size=size, y=y)
    return parts


def _black_limp() -> list[str]:
    parts = soil()
    stem = curve([(150, 238), (148, 180), (162, 136), (188, 122)])
    parts += [path(stem, "none", 8.5), path(stem, "none", 3.9, DARK)]
    for x, y, side in ((150, 196, 1), (149, 190, -1), (152, 160, -1), (158, 146, 1), (188, 122, 1)):
        tip = (x + side * 46, min(y + 72, 256))
        leaf = Leaf((x, y), tip, 15, bend=side * -16.0, stalk=0, veins=3)
        parts += leaf.draw("#4e5147")
        glint = curve([leaf.at(0.3, 0.4), leaf.at(0.5, 0.5), leaf.at(0.7, 0.3)])
        parts.append(path(glint, "none", 2.2, "#dfe8ec"))
    for x, y in ((70, 70), (232, 58), (110, 40)):
        parts.append(
            path(
                "".join(
                    (
                        f"M{x - 13 * math.cos(k * 1.047):.1f},{y - 13 * math.sin(k * 1.047):.1f}L"
                        f"{x + 13 * math.cos(k * 1.047):.1f},{y + 13 * math.sin(k * 1.047):.1f}"
                    )
                    for k in range(3)
                ),
                "none",
                2,
                "#34617f",
            )
        )
    return parts


def _snapped() -> list[str]:
    parts = soil()
    stem = curve([(128, 238), (130, 180), (132, 140)])
    top = curve([(138, 134), (180, 130), (232, 168)])
    parts += [
        path(stem, "none", 10),
        path(stem, "none", 5.2, GOOD),
        path(top, "none", 10),
        path(top, "none", 5.2, GOOD),
    ]
    parts.append(path("M124,142l5,-10l4,7l5,-11l5,8", "none", 2.4))
    for x, y, turn, hang in (
        (130, 186, 170, 10),
        (196, 138, -60, 10),
        (214, 152, 30, 10),
        (232, 168, -50, 12),
    ):
        parts += leaf_at(x, y, turn, 74, 24, hang).draw(GOOD)
    return parts


def _salt() -> list[str]:
    parts = [*soil(), *plant(size=0.62)]
    for at in range(22):
        x = 8 + 284 * chance(2, at)
        parts.append(path(blob(x, 237 + 6 * chance(3, at), 8 + 8 * chance(at, 1), at, 0.5, 0.34), WHITE, 1.2))
    return parts


def _base_rot() -> list[str]:
    parts = [*soil(), *plant(("#e9e3ae", GOOD, GOOD, GOOD), (22, 8, 0, 0), y=232)]
    parts.append(path(blob(150, 226, 20, 2, 0.3, 0.9), DARK, 1.8))
    parts.append(path(blob(150, 228, 11, 2, 0.4, 0.8), BROWN, 0))
    return parts


def _pale_thin() -> list[str]:
    parts = soil()
    stem = curve([(150, 238), (140, 160), (162, 90), (150, 30)])
    parts += [path(stem, "none", 5), path(stem, "none", 1.8, PALE)]
    for high, side in ((46, 1), (78, -1), (112, 1), (146, -1), (180, 1)):
        parts += leaf_at(150, GROUND - high, 30 if side > 0 else 150, 52, 13).draw("#eef0cf")
    return parts


def _flattened() -> list[str]:
    parts = soil()
    for x in (40, 96, 152, 208):
        stem = curve([(x, 236), (x + 26, 218), (x + 74, 214)])
        parts += [path(stem, "none", 6), path(stem, "none", 2.4, GOOD)]
        for k, turn in ((24, 26), (46, -4), (72, 14)):
            parts += leaf_at(x + k, 219, turn, 44, 12).draw(GOOD)
    return parts


def _under() -> list[str]:
    parts = soil(182)
    parts.append(path("M112,184C120,214 118,262 96,300L204,300C182,262 180,214 188,184Z", "#8f7a64", 2.2))
    shift = plant(size=0.62, y=266)
    return (
        parts
        + shift
        + [path("M58,120v44m-10,-12l10,13l10,-13M242,120v44m-10,-12l10,13l10,-13", "none", 2.6, BRICK)]
    )


def _heart() -> list[str]:
    parts = []
    for r, fill in ((118, GOOD), (92, "#d9e5cf"), (66, "#e4ecd8"), (40, PALE)):
        parts.append(path(blob(150, 152, r, r, 0.14), fill))
    parts += [
        path(
            (
                f"M150,152Q{150 + 60 * math.cos(k):.0f},{152 + 60 * math.sin(k):.0f} "
                f"{150 + 104 * math.cos(k + 0.3):.0f},{152 + 104 * math.sin(k + 0.3):.0f}"
            ),
            "none",
            1.2,
            INK,
            opacity=0.45,
        )
        for k in range(6)
    ]
    for at, (x, y, r) in enumerate(((150, 140, 26), (188, 182, 19), (112, 190, 17))):
        parts.append(path(blob(x, y, r, at, 0.8), PAPER, 2.2))
    parts += [
        path(
            blob(150 + 58 * (chance(1, k) - 0.5), 172 + 34 * (chance(2, k) - 0.5), 5, k, 0.5), "#5d6b3f", 1.1
        )
        for k in range(18)
    ]
    return parts


def _soft_rot() -> list[str]:
    parts = []
    for r, fill in ((116, GOOD), (92, "#d9e5cf"), (66, "#e4ecd8")):
        parts.append(path(blob(150, 146, r, r, 0.14), fill))
    parts.append(
        path(
            (
                "M60,150C70,116 118,128 150,122C196,114 240,140 244,170C248,214 206,262 150,264"
                "C94,262 52,200 60,150Z"
            ),
            BROWN,
            1.8,
            INK,
            opacity=0.85,
        )
    )
    parts += [path(f"M{x},246c-7,14 -7,26 0,30c7,-4 7,-16 0,-30Z", BROWN, 1.8) for x in (104, 158, 206)]
    return [*parts, path("M96,170q16,-10 30,2M150,196q18,-10 34,2M112,220q14,-8 26,2", "none", 2, "#e7d3b0")]


def _climbing() -> list[str]:
    parts = [*soil(), *plant(("#c9b98a", "#e3dca8", GOOD, GOOD), (24, 8, 0, 0))]
    for high, n in ((34, 9), (74, 6), (112, 2)):
        for side in (-1, 1):
            for at in range(n):
                x = 150 + side * (44 + 58 * chance(high, at))
                y = GROUND - high - 14 + 26 * (chance(at, high) - 0.5) + (10 if high == 34 else -8)
                parts.append(dot(x, y, 4.2, BROWN, 1.3))
    return [*parts, path("M32,214V70m-10,14l10,-15l10,15", "none", 2.6, BRICK)]


def _inner_edges() -> list[str]:
    parts = []
    for r, fill in ((124, GOOD), (96, "#d9e5cf"), (68, "#e4ecd8"), (42, PALE)):
        if r < 90:
            parts.append(path(blob(150, 152, r + 3, r, 0.14), "none", 11, BROWN, stroke_dasharray="34 16"))
        parts.append(path(blob(150, 152, r, r, 0.14), fill))
    for k in range(6):
        turn = (math.cos(k), math.sin(k))
        d = f"M150,152L{150 + 104 * turn[0]:.0f},{152 + 104 * turn[1]:.0f}"
        parts.append(path(d, "none", 1.2, INK, opacity=0.4))
    return parts


def _one_sided() -> list[str]:
    parts = soil()
    tints = (("#c9b98a",) * 4, ("#e3dca8",) * 4, (GOOD,) * 4)
    for at, fills in enumerate(tints):
        parts += plant(fills, (30 - 15 * at,) * 4, size=0.42 + 0.05 * at, at=62 + 88 * at)
    gusts = "M6,60q40,-16 74,0q12,8 2,16M6,92q54,-14 96,2M6,122q30,-10 56,0q10,8 0,14"
    return [*parts, path(gusts, "none", 2.6, BRICK)]


DRAWN: Final[Mapping[str, Drawing]] = {
    "wilts-at-noon": lambda: _wilting(dead=False),
    "wilts-for-good": lambda: _wilting(dead=True),
    "yellow-lower-leaves": _lower_yellow,
    "yellow-all-over": _all_yellow,
    "stunted": _stunted,
    "one-runner-first": _one_runner,
    "stripped-stems": _stripped,
    "no-growth-since-planting": _no_growth,
    "gone-to-flower": _gone_to_flower,
    "button-heads": _button,
    "lush-few-flowers": _lush,
    "black-limp-overnight": _black_limp,
    "snapped-stems": _snapped,
    "salt-crust": _salt,
    "rotten-base": _base_rot,
    "thin-pale-growth": _pale_thin,
    "flattened-plants": _flattened,
    "plants-pulled-under": _under,
    "hearts-tattered": _heart,
    "soft-rot": _soft_rot,
    "spots-climb": _climbing,
    "inner-edges-brown": _inner_edges,
    "worst-on-one-side": _one_sided,
}
