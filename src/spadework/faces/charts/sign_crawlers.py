"""Drawings of caterpillars, grubs, slugs and worms."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final

from spadework.faces.charts.sign_forms import (
    BRICK,
    DEEP,
    GOOD,
    INK,
    WHITE,
    Drawing,
    Leaf,
    Point,
    curve,
    dot,
    path,
    soil,
    turned,
)
from spadework.faces.charts.sign_parts import near_leaf


def _caterpillar(
    spine: Sequence[Point], fat: float, fill: str, head: str, *, stripe: str = "", feet: bool = True
) -> list[str]:
    """A caterpillar along a line; its head is at the last point."""
    parts = []
    if feet:
        for at in range(1, len(spine) - 1):
            x, y = spine[at]
            parts.append(
                path(
                    (
                        f"M{x:.0f},{y + fat * 0.34:.0f}l-2,{fat * 0.32:.0f}M{x + 9:.0f},{y + fat * 0.34:.0f}"
                        f"l-1,{fat * 0.32:.0f}"
                    ),
                    "none",
                    3.4,
                )
            )
    d = curve(spine)
    parts += [path(d, "none", fat), path(d, "none", fat - 5, fill)]
    if stripe:
        parts.append(path(d, "none", fat * 0.12, stripe))
    for at in range(1, len(spine)):
        (ax, ay), (bx, by) = spine[at - 1], spine[at]
        long = math.hypot(bx - ax, by - ay)
        nx, ny = -(by - ay) / long * fat * 0.4, (bx - ax) / long * fat * 0.4
        for k in (0.25, 0.75):
            mx, my = ax + (bx - ax) * k, ay + (by - ay) * k
            parts.append(
                path(
                    f"M{mx + nx:.1f},{my + ny:.1f}L{mx - nx:.1f},{my - ny:.1f}", "none", 1.2, INK, opacity=0.5
                )
            )
    x, y = spine[-1]
    return [*parts, dot(x, y, fat * 0.46, head, 2.4), dot(x + fat * 0.16, y - fat * 0.1, 2.4, INK)]


def _green() -> list[str]:
    spine = [(46, 176), (92, 166), (140, 164), (188, 160), (240, 152)]
    parts = near_leaf() + _caterpillar(spine, 44, "#a9c392", "#a9c392", stripe="#f0d27a")
    return parts + [path(f"M{58 + 9 * k},{146 - 0.9 * k:.0f}l-1,-10", "none", 1.1) for k in range(18)]


def _looping() -> list[str]:
    spine = [(44, 238), (78, 226), (92, 150), (136, 92), (178, 150), (196, 222), (238, 232)]
    return [
        path(curve([(0, 258), (150, 252), (300, 262)]), "none", 10),
        path(curve([(0, 258), (150, 252), (300, 262)]), "none", 5, GOOD),
        *_caterpillar(spine, 32, "#bcd2a8", "#bcd2a8", stripe=WHITE, feet=False),
        path("M50,248l-3,8M62,246l-3,9M226,242l2,10M240,244l3,9", "none", 3),
    ]


def _wriggling() -> list[str]:
    leaf = Leaf((40, 60), (270, 66), 44, bend=-18, stalk=30)
    spine = [(128, 206), (142, 196), (152, 214), (166, 202), (178, 218), (190, 206)]
    return [
        *leaf.draw(GOOD),
        path("M156,92C160,130 152,170 158,200", "none", 1.4),
        *_caterpillar(spine, 17, "#bcd2a8", "#a9b98c", feet=False),
        path("M118,190q-10,-8 -16,2M204,222q12,6 16,-4", "none", 1.6, INK, stroke_dasharray="3 4"),
    ]


def _giant() -> list[str]:
    spine = [(44, 150), (88, 158), (136, 162), (184, 160), (228, 152), (262, 150)]
    parts = [
        path(curve([(0, 206), (150, 214), (300, 204)]), "none", 14),
        path(curve([(0, 206), (150, 214), (300, 204)]), "none", 9, GOOD),
    ]
    parts += _caterpillar(spine, 62, "#a9c392", "#8fae86")
    for k in range(6):
        x, y = 66 + 31 * k, 156 + 2 * (k % 2)
        parts += [path(f"M{x},{y - 22}l17,20l-17,18", "none", 4.4, WHITE), dot(x + 20, y, 3.6, INK)]
    return [*parts, path("M34,132C20,118 14,100 20,84C30,100 42,112 48,124Z", BRICK, 2.2)]


def _curled_grey() -> list[str]:
    spine = [(190, 158), (196, 194), (168, 218), (128, 212), (108, 180), (118, 144), (150, 128)]
    return [
        *soil(70),
        *_caterpillar(spine, 40, "#a7a394", "#6d5a45", feet=False),
        path("M172,140q10,-8 18,-4", "none", 0.1),
    ]


def _slugs() -> list[str]:
    parts = soil(250) + Leaf((150, 256), (60, 40), 62, bend=-24, stalk=0).draw(DEEP, ((1, 0.6, 0.1, 0.6),))
    parts += [dot(258, 46, 22, "#f4ecc8", 2), path("M252,30C240,40 240,54 254,66", "none", 1.4)]
    for x, y, turn, size in ((112, 130, -56, 1.0), (206, 236, 0, 1.2)):
        inner = (
            path("M-52,10C-40,-10 -6,-24 26,-16C44,-12 56,-4 58,8C52,16 -44,16 -52,10Z", "#b09a7c")
            + path("M-8,-17C8,-24 32,-16 36,-4C22,4 -4,0 -8,-17Z", "#9a8364", 1.8)
            + path("M52,-4l12,-18M58,0l16,-12", "none", 2.6)
            + dot(64, -23, 3, INK)
            + dot(75, -13, 3, INK)
            + path("M-40,6q30,-8 84,0", "none", 1.2, INK, opacity=0.5)
        )
        parts.append(turned(inner, x, y, turn, size))
    return [*parts, path("M20,250q60,8 126,0", "none", 5, "#f3f6f8")]


def _slate_grubs() -> list[str]:
    spear = "M126,304C122,200 124,110 138,44Q150,14 162,44C176,110 178,200 174,304Z"
    parts = [path(spear, GOOD)]
    for x, y, s in ((150, 60, 1), (136, 132, -1), (166, 200, 1)):
        parts.append(path(f"M{x},{y - 26}q{15 * s},10 {8 * s},32q{-16 * s},-4 {-8 * s},-32Z", DEEP, 1.8))
    for x, y, turn in ((150, 84, 74), (150, 222, 104)):
        inner = (
            path("M-36,8C-34,-18 -6,-24 18,-18C34,-14 40,-2 38,8C20,16 -22,16 -36,8Z", "#7f8a8a")
            + "".join(path(f"M{-24 + 12 * k},-16q4,12 0,26", "none", 1.2) for k in range(5))
            + dot(38, 2, 8, INK)
            + path("M14,12l3,9M22,12l3,9M6,13l2,9", "none", 2.4)
        )
        parts.append(turned(inner, x, y, turn))
    return parts


def rings(spine: Sequence[Point], half: float, n: int) -> str:
    """Lines across a long body, where its joints are."""
    told = ""
    for at in range(1, n):
        t = at / n * (len(spine) - 1)
        k = min(int(t), len(spine) - 2)
        (ax, ay), (bx, by) = spine[k], spine[k + 1]
        long = math.hypot(bx - ax, by - ay)
        nx, ny = -(by - ay) / long * half, (bx - ax) / long * half
        x, y = ax + (bx - ax) * (t - k), ay + (by - ay) * (t - k)
        told += f"M{x + nx:.1f},{y + ny:.1f}L{x - nx:.1f},{y - ny:.1f}"
    return told


def _wiry() -> list[str]:
    parts = soil(64)
    for spine in (
        [(40, 150), (90, 126), (140, 156), (190, 130), (228, 150)],
        [(90, 244), (130, 214), (176, 240), (226, 218), (264, 232)],
    ):
        d = curve(spine)
        parts += [
            path(d, "none", 17),
            path(d, "none", 12.4, "#dfae55"),
            path(rings(spine, 6, 16), "none", 1.2),
        ]
        x, y = spine[-1]
        parts += [
            dot(x, y, 8, "#8a5a26", 2),
            path(f"M{x - 26},{y + 2}l-2,11M{x - 18},{y + 4}l-1,11M{x - 10},{y + 6}l1,10", "none", 2),
        ]
    return parts


def _runners() -> list[str]:
    parts = soil(64)
    for spine in (
        [(60, 140), (110, 130), (160, 146), (214, 134)],
        [(100, 236), (150, 222), (200, 236), (250, 224)],
    ):
        for at in range(14):
            t = at / 13 * (len(spine) - 1)
            k = min(int(t), len(spine) - 2)
            x = spine[k][0] + (spine[k + 1][0] - spine[k][0]) * (t - k)
            y = spine[k][1] + (spine[k + 1][1] - spine[k][1]) * (t - k)
            parts.append(path(f"M{x:.0f},{y - 24:.0f}L{x:.0f},{y + 24:.0f}", "none", 1.7))
        parts += [
            path(curve(spine), "none", 22),
            path(curve(spine), "none", 17, "#f8f4e6"),
            path(rings(spine, 8, 14), "none", 1.1),
        ]
        x, y = spine[-1]
        parts.append(path(f"M{x + 8},{y - 4}q22,-8 30,-26M{x + 8},{y + 4}q24,2 34,16", "none", 2))
    return parts


DRAWN: Final[Mapping[str, Drawing]] = {
    "green-caterpillars": _green,
    "looping-caterpillars": _looping,
    "wriggling-caterpillars": _wriggling,
    "giant-caterpillar": _giant,
    "curled-grey-caterpillar": _curled_grey,
    "slugs-at-night": _slugs,
    "slate-grubs": _slate_grubs,
    "wiry-worms": _wiry,
    "white-runners": _runners,
}
