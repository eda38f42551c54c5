"""Drawings of stems and growing tips."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from spadework.faces.charts.sign_forms import (
    BROWN,
    DARK,
    DEEP,
    GOOD,
    GREY,
    INK,
    OCHRE,
    TAN,
    WHITE,
    Drawing,
    Leaf,
    Point,
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


def _stalk(fill: str = GOOD, leaf: bool = True) -> list[str]:
    """A length of thick stem with a leaf stalk going off."""
    left = [(122, 304), (118, 200), (123, 100), (120, -4)]
    right = [(184, -4), (180, 100), (186, 200), (182, 304)]
    parts = []
    if leaf:
        branch = curve([(178, 112), (222, 78), (268, 30)])
        parts += [path(branch, "none", 20), path(branch, "none", 15, fill)]
    parts.append(path(curve(left) + "L" + curve(right)[1:] + "Z", fill))
    parts.append(
        path("M138,10C142,100 136,200 140,292M164,14C160,100 168,190 164,290", "none", 1.2, INK, opacity=0.4)
    )
    return parts


def _frass() -> list[str]:
    parts = _stalk()
    parts.append(path(oval(150, 132, 13, 10), DARK, 2))
    for at in range(58):
        x = 150 + (chance(2, at) - 0.5) * (22 + 1.05 * at)
        parts.append(
            path(blob(x, 144 + 2.3 * at, 4.6 + 1.6 * chance(3, at), at, 0.5), OCHRE if at % 3 else TAN, 1.1)
        )
    return parts


def _dark_lengths() -> list[str]:
    parts = _stalk()
    for top, bottom in ((44, 118), (168, 246)):
        d = curve(
            [
                (120, top),
                (150, top - 10),
                (182, top + 4),
                (184, bottom),
                (152, bottom + 10),
                (118, bottom - 4),
            ],
            close=True,
        )
        parts.append(path(d, DARK, 1.6))
    return parts


def _eggs_on_stem(dark: bool) -> list[str]:
    if dark:
        spear = "M126,300C122,200 124,110 138,44Q150,14 162,44C176,110 178,200 174,300Z"
        parts = [path(spear, GOOD)]
        for x, y, s in ((150, 60, 1), (134, 112, -1), (166, 150, 1), (132, 206, -1), (168, 250, 1)):
            parts.append(path(f"M{x},{y - 26}q{15 * s},10 {8 * s},32q{-16 * s},-4 {-8 * s},-32Z", DEEP, 1.8))
        eggs = [96 + 22 * at for at in range(9) if at % 4 != 3]
        return [*parts, *[path(oval(188, y, 12, 4.6, 0), DARK, 1.2) for y in eggs]]
    parts = _stalk()
    for x, y in ((134, 66), (160, 118), (138, 176), (164, 224), (146, 266)):
        parts += [path(oval(x, y, 12, 8, 10), "#a8683a", 2), path(oval(x - 3, y - 2, 4, 2), "#dcb490", 0)]
    return parts


def _eggs_at_foot() -> list[str]:
    parts = soil(206)
    parts.append(path("M118,0C122,90 116,160 110,206C106,224 194,224 190,206C184,160 178,90 182,0Z", GOOD))
    for at in range(22):
        x = 74 + 152 * ((at * 0.618) % 1.0)
        y = 210 + 16 * chance(4, at)
        parts.append(path(oval(x, y, 9, 3.8, 60 * (chance(at, 2) - 0.5) * 2), WHITE, 1.5))
    return parts


def _cut(slant: bool) -> list[str]:
    parts = soil()
    if slant:
        for x, high, lean in ((80, 92, 26), (150, 128, -26), (222, 78, 26)):
            low, top = GROUND - high + lean / 2, GROUND - high - lean / 2
            face = f"M{x - 12},{low:.0f}L{x + 12},{top:.0f}"
            parts.append(path(f"M{x - 13},240L{x - 12},{low:.0f}L{x + 12},{top:.0f}L{x + 13},240Z", GOOD))
            parts += [path(face, "none", 4.4, "#eef3dd"), path(face, "none", 2)]
        return parts
    for x, high in ((92, 96), (204, 76)):
        y = GROUND - high
        d = (
            f"M{x - 14},240L{x - 13},{y + 16:.0f}l6,-22l4,15l6,-30l5,24l6,-8"
            f"L{x + 13},{y + 16:.0f}L{x + 14},240Z"
        )
        parts += [path(d, GOOD), path(f"M{x - 5},{y + 14:.0f}v26M{x + 3},{y + 8:.0f}v34", "none", 1.3)]
        parts.append(path(f"M{x + 9},{y + 2:.0f}q16,10 18,40", "none", 2))
    return parts


def _stem_cut() -> list[str]:
    parts = soil()
    stem = curve([(118, 226), (180, 206), (246, 186)])
    parts += [
        path("M88,240v-12l4,-4l3,5l5,-6l4,4v13", GOOD, 2.4),
        path(stem, "none", 12),
        path(stem, "none", 7, GOOD),
        path("M116,219l6,4l-5,4l6,5", "none", 2.2),
    ]
    for x, y, turn in ((196, 202, 74), (214, 196, -30), (246, 186, 40), (246, 186, -8)):
        parts += leaf_at(x, y, turn, 62, 20).draw(GOOD)
    return parts


def _rasped() -> list[str]:
    parts = _stalk()
    d = curve(
        [(126, 70), (158, 58), (176, 92), (170, 160), (178, 206), (146, 226), (124, 188), (132, 128)],
        close=True,
    )
    parts.append(path(d, "#f6f1dc", 2))
    return parts + [
        path(
            f"M{132 + 34 * chance(1, k):.0f},{84 + 14 * k}l{10 + 8 * chance(k, 2):.0f},-5", "none", 1.3, BROWN
        )
        for k in range(10)
    ]


def _ants() -> list[str]:
    parts = _stalk()
    for x, y, turn in (
        (142, 40, 95),
        (164, 84, 80),
        (138, 134, 100),
        (160, 182, 84),
        (144, 232, 95),
        (162, 276, 84),
        (226, 74, 40),
    ):
        c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        for off, r in ((-12, 6.4), (-1, 3.8), (8, 4.8)):
            parts.append(dot(x + off * c, y - off * s, r, INK))
        for off, lean in ((-5, -7), (-1, 0), (3, 7)):
            for side in (-1, 1):
                far = off + lean
                parts.append(
                    path(
                        f"M{x + off * c:.1f},{y - off * s:.1f}L{x + far * c + side * 11 * s:.1f},"
                        f"{y - far * s + side * 11 * c:.1f}",
                        "none",
                        1.3,
                    )
                )
    return parts


def _cotton() -> list[str]:
    parts = _stalk()
    places: list[Point] = [
        (150 + 76 * (chance(1, k) - 0.5), 176 + 92 * (chance(2, k) - 0.5)) for k in range(70)
    ]
    parts.append(path(blob(151, 176, 54, 2, 0.3), WHITE, 0))
    parts += fur(places, 3, 13, WHITE, 4.2) + fur(places, 3, 13, "#8a948f", 0.8)
    for at, (x, y) in enumerate(((134, 152), (168, 190), (140, 206), (164, 148))):
        parts.append(path(blob(x, y, 9, at, 0.4, 0.8), INK, 1))
    return parts


def _lumps() -> list[str]:
    parts = _stalk(TAN)
    parts.append(path("M132,-4C128,90 138,200 132,304L170,304C174,200 164,90 170,-4Z", "#f6f1dc", 1.8))
    for at in range(9):
        x, y = 150 + 22 * (chance(3, at) - 0.5), 26 + 31 * at
        parts.append(path(blob(x, y, 8.5, at, 0.4, 1.25), INK, 1))
    return parts


def _cut_ring() -> list[str]:
    parts = _stalk(leaf=False)[:0]
    body = "M66,176C70,216 72,260 70,304L230,304C228,260 230,216 234,176Z"
    parts += [
        path(body, GOOD),
        path(oval(150, 150, 86, 58), "#eef3dd"),
        path(oval(150, 150, 60, 39), "none", 9, BROWN),
        path(oval(150, 150, 36, 22), "#fbfaf0", 1.2),
    ]
    parts += [path(f"M{96 + 36 * k},220v80", "none", 1.2, INK, opacity=0.4) for k in range(4)]
    return parts


def _sap() -> list[str]:
    parts = []
    for side in (-1, 1):
        x = 150 + side * 44
        d = f"M{150 + side * 150},106L{x},112Q{x - side * 10},150 {x},188L{150 + side * 150},194Z"
        parts.append(path(d, GOOD))
        parts.append(path(f"M{x},112Q{x - side * 10},150 {x},188", "none", 5, "#eef3dd"))
    for y, sag in ((134, 6), (150, 14), (166, 20)):
        parts.append(path(f"M104,{y}Q150,{y + sag} 196,{y}", "none", 2.2, GREY))
        parts.append(path(f"M104,{y}Q150,{y + sag} 196,{y}", "none", 0.9))
    return parts


def _grey_mould() -> list[str]:
    parts = _stalk()
    parts.append(path(blob(152, 176, 60, 4, 0.3), "#a9aca8", 1.6))
    places: list[Point] = [
        (152 + 104 * (chance(1, k) - 0.5), 176 + 104 * (chance(2, k) - 0.5)) for k in range(60)
    ]
    parts += fur(places, 3, 11, "#666b68", 1.3)
    return parts + [
        dot(226 + 52 * chance(4, k), 92 + 100 * chance(5, k), 1.2 + 1.4 * chance(6, k), GREY)
        for k in range(30)
    ]


def _tassel() -> list[str]:
    parts = [path("M138,300C140,220 138,160 142,118L166,118C168,160 166,220 168,300Z", GOOD)]
    parts += [path("M142,118l5,-9l5,7l5,-11l5,8l4,5", "none", 2.4), dot(153, 196, 8, DARK, 1.6)]
    parts += [
        path(blob(153 + 26 * (chance(1, k) - 0.5), 208 + 30 * chance(2, k), 4.4, k, 0.5), OCHRE, 1)
        for k in range(16)
    ]
    top = curve([(166, 120), (206, 130), (236, 172)])
    parts += [path(top, "none", 9), path(top, "none", 4.6, GOOD)]
    for k in range(6):
        a = math.radians(66 + 20 * k)
        parts.append(
            path(
                curve(
                    [
                        (236, 172),
                        (236 + 34 * math.cos(a) + 6, 172 + 40 * math.sin(a)),
                        (236 + 50 * math.cos(a), 172 + 80 * math.sin(a)),
                    ]
                ),
                "none",
                4.6,
                OCHRE,
            )
        )
    parts += Leaf((140, 236), (40, 180), 18, bend=20, stalk=0, veins=0).draw(GOOD)
    return parts


def _black_below() -> list[str]:
    parts = soil(212)
    parts.append(path("M122,-4C124,80 118,160 112,300L188,300C182,160 176,80 178,-4Z", GOOD))
    parts.append(path("M117,166Q150,146 182,166L188,300L112,300Z", DARK, 2))
    shine = "M128,196q8,-10 18,-2M154,226q10,-10 20,-2M126,252q10,-10 22,-2"
    return [*parts, path(shine, "none", 2.4, "#a59a88")]


DRAWN: Final[Mapping[str, Drawing]] = {
    "sawdust-at-stem": _frass,
    "dark-stem-lengths": _dark_lengths,
    "brown-eggs-on-stem": lambda: _eggs_on_stem(dark=False),
    "dark-eggs-on-spears": lambda: _eggs_on_stem(dark=True),
    "eggs-at-stem-foot": _eggs_at_foot,
    "clean-slanting-bites": lambda: _cut(slant=True),
    "ragged-tears": lambda: _cut(slant=False),
    "stem-cut": _stem_cut,
    "stem-rasped": _rasped,
    "ants-on-plant": _ants,
    "cotton-mould": _cotton,
    "black-lumps": _lumps,
    "brown-in-cut-stem": _cut_ring,
    "sap-threads": _sap,
    "grey-dusty-mould": _grey_mould,
    "broken-tassels": _tassel,
    "stem-black-below": _black_below,
}
