"""Drawings of fruit, ears and flowers."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from spadework.faces.charts.sign_forms import (
    BROWN,
    DARK,
    GOOD,
    INK,
    OCHRE,
    TAN,
    YELLOW,
    Drawing,
    blob,
    chance,
    curve,
    dot,
    oval,
    path,
)
from spadework.faces.charts.sign_parts import RED


def _tomato(fill: str = RED) -> list[str]:
    """A round fruit with its star."""
    d = "M150,72C206,52 262,92 258,160C254,226 204,270 150,270C96,270 46,226 42,160C38,92 94,52 150,72Z"
    star = (
        "M150,74C134,58 116,58 100,66C116,74 124,86 122,100C136,90 144,88 150,96C158,88 "
        "168,90 180,100C176,86 184,74 200,66C184,58 166,58 150,74Z"
    )
    return [
        path(d, fill),
        path(star, GOOD, 2.2),
        path("M150,76C148,56 150,40 158,26", "none", 8),
        path("M150,76C148,56 150,40 158,26", "none", 3.6, GOOD),
        path("M74,128C70,150 72,168 80,184", "none", 4, "#f3cfc2"),
    ]


def _end_patch() -> list[str]:
    return [
        *_tomato(),
        path("M92,236C104,210 196,210 208,236C190,264 110,264 92,236Z", DARK, 2),
        path("M108,236q42,-16 84,0M122,246q28,-9 56,0", "none", 1.6, "#8b7a66"),
    ]


def _sun_patch() -> list[str]:
    return [
        *_tomato(),
        path(blob(204, 142, 42, 2, 0.2), "#f9f0d4", 2.2, BROWN),
        path(blob(206, 140, 27, 2, 0.2), "#fffdf2", 0),
        dot(264, 44, 17, "#f2d98f", 2),
        path("M236,66l-10,12M252,74l-4,14M236,48h-12", "none", 2),
    ]


def _cracked() -> list[str]:
    parts = _tomato()
    for d in (
        "M150,98C158,130 146,160 156,214",
        "M112,98C92,124 84,150 84,190",
        "M192,100C216,126 222,152 218,184",
    ):
        parts += [
            path(d, "none", 11),
            path(d, "none", 7, "#8e3b2c"),
            path(d, "none", 1.8, "#f3cfc2", stroke_dasharray="7 6"),
        ]
    return parts


def _brown_fruit() -> list[str]:
    return [
        *_tomato("#d9d9a6"),
        path(blob(196, 150, 50, 3, 0.4), BROWN, 1.6),
        path(blob(110, 206, 34, 5, 0.4), BROWN, 1.6),
        path("M172,132q18,-8 36,0M176,156q18,-8 38,2M96,200q14,-8 28,0", "none", 2, "#6b4b28"),
    ]


def _fruit_holes() -> list[str]:
    parts = _tomato()
    for x, y, r in ((196, 138, 14), (112, 168, 12), (168, 220, 10)):
        parts += [dot(x, y, r + 6, "#8e3b2c"), dot(x, y, r, INK)]
        parts += [
            path(blob(x + 14 * (chance(1, k + x) - 0.3), y + r + 7 + 5 * chance(2, k), 4.2, k, 0.5), OCHRE, 1)
            for k in range(6)
        ]
    return parts


def _pecked() -> list[str]:
    parts = _tomato()
    for x, y, r in ((190, 140, 27), (112, 170, 20), (170, 216, 14)):
        parts.append(
            path(
                (
                    f"M{x - r},{y - r * 0.6:.0f}L{x + r * 0.2:.0f},{y - r}L{x + r},{y + r * 0.1:.0f}L"
                    f"{x + r * 0.1:.0f},{y + r}Z"
                ),
                "#f3cfc2",
                2.2,
            )
        )
        parts.append(
            path(
                (
                    f"M{x - r * 0.5:.1f},{y - r * 0.3:.1f}L{x + r * 0.2:.1f},{y + r * 0.1:.1f}L"
                    f"{x + r * 0.5:.1f},{y - r * 0.2:.1f}M{x + r * 0.2:.1f},{y + r * 0.1:.1f}V"
                    f"{y + r * 0.7:.1f}"
                ),
                "none",
                1.6,
            )
        )
    return parts


def _gnawed_fruit() -> list[str]:
    d = (
        "M170,262C220,236 256,214 258,160C262,92 206,52 150,72C94,52 38,92 42,160C44,196 "
        "60,226 86,246C88,222 104,214 118,222C120,204 142,200 150,216C164,206 180,220 174,236"
        "C178,246 176,254 170,262Z"
    )
    parts = [*_tomato()[1:5], path(d, RED), *_tomato()[1:]]
    parts.append(
        path(
            (
                "M86,246C88,222 104,214 118,222C120,204 142,200 150,216C164,206 180,220 174,236"
                "C178,246 176,254 170,262C140,274 104,264 86,246Z"
            ),
            "#f6dccd",
            2,
        )
    )
    return [*parts, path("M102,232v14M112,230v18M134,220v20M144,224v20M160,228v20", "none", 1.8)]


def _scarred() -> list[str]:
    d = "M46,120C70,82 200,78 250,140C280,184 250,232 190,226C120,222 24,180 46,120Z"
    parts = [
        path(d, "#e7d79a"),
        path("M246,140q24,-14 34,-38", "none", 9),
        path("M246,140q24,-14 34,-38", "none", 4, GOOD),
    ]
    parts.append(
        path("M58,126C110,112 190,116 244,156M62,150C110,146 180,160 232,196", "none", 1.2, INK, opacity=0.4)
    )
    for x, y, r in ((110, 132, 21), (170, 150, 26), (136, 178, 17), (210, 180, 18)):
        parts.append(path(blob(x, y, r, x, 0.7, 0.6), "#c9a878", 1.7))
        parts.append(path(f"M{x - r * 0.5:.0f},{y}q{r * 0.5:.0f},-5 {r},0", "none", 1.2))
    return parts


def _shrivels() -> list[str]:
    parts = [
        path("M150,20C150,60 148,84 150,104", "none", 11),
        path("M150,20C150,60 148,84 150,104", "none", 6, GOOD),
    ]
    parts.append(
        path(
            (
                "M124,106C120,150 128,190 138,222C142,246 146,262 150,274C154,262 160,244 162,222"
                "C172,190 180,150 176,106C164,94 136,94 124,106Z"
            ),
            GOOD,
        )
    )
    parts.append(
        path(
            (
                "M129,172C132,196 134,208 138,222C142,246 146,262 150,274C154,262 160,244 162,222"
                "C166,208 170,196 172,172C158,162 142,182 129,172Z"
            ),
            YELLOW,
            1.4,
        )
    )
    parts.append(
        path("M139,224C142,246 146,262 150,274C154,262 160,244 161,224C154,218 146,230 139,224Z", BROWN, 1.6)
    )
    return [*parts, path("M150,274q-14,8 -20,20M150,274v22M150,274q14,8 20,20", "none", 2.4, "#8b6a2c")]


def _misshapen() -> list[str]:
    d = (
        "M146,40C190,44 206,84 182,116C164,140 176,158 202,172C240,196 216,262 160,258"
        "C104,256 84,214 108,180C128,152 116,132 104,108C86,70 108,38 146,40Z"
    )
    return [
        path("M150,42C148,30 152,18 162,8", "none", 9),
        path("M150,42C148,30 152,18 162,8", "none", 4, GOOD),
        path(d, GOOD),
        path(
            "M146,62C150,120 132,150 150,240M128,72C130,110 142,140 124,200M168,74C168,120 160,150 184,210",
            "none",
            1.3,
            INK,
            opacity=0.45,
        ),
    ]


def _ear(kind: str) -> list[str]:
    """An ear of corn in its opened husk."""
    parts = []
    for side in (-1, 1):
        husk = (
            f"M150,292C{150 + side * 110},276 {150 + side * 118},170 {150 + side * 86},96"
            f"C{150 + side * 70},150 {150 + side * 66},210 150,292Z"
        )
        parts.append(path(husk, GOOD))
        parts.append(
            path(
                f"M150,288C{150 + side * 92},256 {150 + side * 100},180 {150 + side * 88},116",
                "none",
                1.2,
                INK,
                opacity=0.5,
            )
        )
    cob = (
        "M150,272C112,268 100,200 106,130C110,80 126,38 150,26C174,38 190,80 194,130C200,200 188,268 150,272Z"
    )
    parts.append(path(cob, "#f6ecc9"))
    for row in range(15):
        y = 48 + 14.6 * row
        half = 40 * math.sin(math.pi * min(0.18 + 0.82 * (row + 0.6) / 16, 0.86)) ** 0.7
        for column in range(5):
            x = 150 + half * (column - 2) / 2.3
            if kind == "tip" and row < 4:
                continue
            if kind == "gappy" and chance(row, column + 3) < 0.42:
                parts.append(dot(x, y, 2.2, TAN, 1))
                continue
            if kind == "bites" and abs(row - 6) < 4 and column < 3:
                continue
            parts.append(path(oval(x, y, 7.4, 6.2), "#f0d27a", 1.3))
    if kind == "tip":
        parts += [
            path("M128,106C124,70 136,40 150,28C164,40 176,70 172,106C160,96 140,98 128,106Z", BROWN, 2)
        ]
        parts += [
            path(blob(150 + 44 * (chance(1, k) - 0.5), 66 + 44 * (chance(2, k) - 0.5), 4.6, k, 0.5), OCHRE, 1)
            for k in range(16)
        ]
        body = curve([(128, 92), (150, 84), (170, 96), (184, 90)])
        parts += [
            path(body, "none", 14),
            path(body, "none", 9.6, "#b5b184"),
            dot(186, 90, 6.5, "#a8683a", 1.6),
        ]
    if kind == "bites":
        parts += [
            path(
                "M108,104C128,110 152,100 166,112L164,190C146,198 124,188 106,192C102,164 104,130 108,104Z",
                "#fbf6e2",
                2,
            ),
            path("M116,120q20,6 40,0M114,146q22,6 42,0M114,172q22,6 42,0", "none", 1.3),
        ]
        parts.append(path("M150,292C196,290 240,268 262,238C232,244 190,250 158,276Z", GOOD))
    return parts


def _pods() -> list[str]:
    parts = []
    for dy, turn in ((0, 1), (88, 1)):
        d = (
            f"M34,{88 + dy}C80,{66 + dy} 190,{60 + dy} 262,{104 + dy}C274,{112 + dy} "
            f"282,{112 + dy} 290,{108 + dy}C272,{134 + dy} 170,{138 + dy} "
            f"96,{120 + dy}C66,{114 + dy} 46,{106 + dy} 34,{88 + dy}Z"
        )
        parts += [path(d, GOOD), path(f"M34,{88 + dy}l-18,-12", "none", 4 * turn)]
        for at, (x, y, r) in enumerate(((96, 98, 12), (150, 102, 16), (208, 108, 11), (124, 112, 7))):
            parts += [
                path(blob(x + dy * 0.2, y + dy, r, at, 0.3), "#7c3c2c", 1.4),
                path(blob(x + dy * 0.2, y + dy, r * 0.6, at, 0.3), DARK, 0),
            ]
    return parts


def _cloudy() -> list[str]:
    spots = ((196, 140, 24), (112, 170, 20), (164, 220, 22), (92, 122, 13), (222, 192, 13))
    return [*_tomato(), *[path(blob(x, y, r, x, 0.5), "#f0c9a4", 0, opacity=0.85) for x, y, r in spots]]


def _sunken() -> list[str]:
    parts = _tomato()
    for x, y, r in ((190, 142, 30), (108, 180, 24), (172, 224, 17)):
        parts += [dot(x, y, r, "#8e3b2c", 2), dot(x, y, r * 0.7, "#5d2b22"), dot(x, y, r * 0.3, DARK)]
    return parts


def _raised() -> list[str]:
    parts = _tomato("#d9d9a6")
    for at in range(22):
        x, y = 72 + 156 * ((at * 0.618) % 1), 112 + 132 * ((at + 0.5) / 22)
        parts += [dot(x, y, 6, "#f3f0cf"), path(blob(x, y, 3.8, at, 0.6), DARK, 1)]
    return parts


def _uneven() -> list[str]:
    shoulder = (
        "M58,118C76,84 112,70 150,74C188,70 226,84 242,118C214,138 188,112 150,128C112,112 86,138 58,118Z"
    )
    star = _tomato()[1:4]
    patches = ((102, 196, 26), (196, 186, 30))
    blots = [path(blob(x, y, r, x, 0.5), "#e9c98a", 0, opacity=0.9) for x, y, r in patches]
    return [_tomato()[0], path(shoulder, "#cfd69a", 1.6), *blots, *star]


def _smut() -> list[str]:
    parts = _ear("whole")
    for at, (x, y, r) in enumerate(((150, 60, 30), (124, 92, 26), (176, 96, 27), (150, 118, 24))):
        parts.append(path(blob(x, y, r, at, 0.15), "#c9cdc8"))
        parts.append(path(blob(x + 4, y + 3, r * 0.45, at + 3, 0.6), DARK, 0))
    return parts


DRAWN: Final[Mapping[str, Drawing]] = {
    "end-patch": _end_patch,
    "sun-side-patch": _sun_patch,
    "skin-cracked": _cracked,
    "brown-firm-fruit-patches": _brown_fruit,
    "holes-in-fruit": _fruit_holes,
    "pecked-fruit": _pecked,
    "gnawed-fruit": _gnawed_fruit,
    "scarred-rind": _scarred,
    "young-fruit-shrivels": _shrivels,
    "misshapen-fruit": _misshapen,
    "ear-tip-eaten": lambda: _ear("tip"),
    "gappy-ears": lambda: _ear("gappy"),
    "ears-stripped": lambda: _ear("bites"),
    "pod-spots": _pods,
    "cloudy-spots-on-fruit": _cloudy,
    "round-sunken-spots": _sunken,
    "raised-dark-specks": _raised,
    "uneven-ripening": _uneven,
    "smut-galls": _smut,
}
