"""Drawings of roots, bulbs and tubers."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final

from spadework.faces.charts.sign_forms import (
    BRICK,
    BROWN,
    DARK,
    GOOD,
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
from spadework.faces.charts.sign_parts import RED
from spadework.faces.charts.svg import element

CARROT: Final = "#e3b27c"


def _tops(x: float, y: float, fill: str = GOOD, n: int = 5) -> list[str]:
    """Feathery tops."""
    parts = []
    for at in range(n):
        turn = math.radians(62 + 56 * at / (n - 1))
        long = 66 + 8 * (at % 2)
        tip = (x + long * math.cos(turn), y - long * math.sin(turn))
        stalk = curve(
            [
                (x + 3 * (at - n // 2), y),
                (x + 0.5 * long * math.cos(turn), y - 0.58 * long * math.sin(turn)),
                tip,
            ]
        )
        parts += [path(stalk, "none", 4.4), path(stalk, "none", 1.6, fill)]
        for k in (0.5, 0.7, 0.88, 1.0):
            px, py = x + long * k * math.cos(turn), y - long * k * math.sin(turn)
            for side in (-1, 1):
                parts.append(path(oval(px + side * 7, py - 4, 8.5, 3.6, -40 * side), fill, 1.4))
    return parts


def _carrot(fill: str = CARROT) -> list[str]:
    """A tap root, top at 88, tip at 290."""
    d = "M106,96C112,84 188,84 194,96C202,130 182,208 150,290C118,208 98,130 106,96Z"
    lines = "M112,116q18,6 30,2M160,142q14,4 26,-2M118,166q14,6 24,2M150,194q12,4 20,0M134,224q8,4 16,2"
    return [*_tops(150, 92), path(d, fill), path(lines, "none", 1.3, INK, opacity=0.5)]


def _rusty() -> list[str]:
    parts = _carrot()
    for d in (
        curve([(126, 168), (146, 176), (134, 190), (158, 198), (146, 212)]),
        curve([(170, 190), (152, 222), (164, 232), (146, 246)]),
        curve([(150, 250), (143, 262), (152, 272)]),
    ):
        parts += [path(d, "none", 8.5, DARK), path(d, "none", 5.6, "#a4552c")]
    return [*parts, path(oval(126, 167, 5, 4), DARK, 1.2), path(oval(171, 188, 5, 4), DARK, 1.2)]


def _furrows() -> list[str]:
    parts = _carrot()
    for d in (
        curve([(112, 112), (134, 106), (154, 116), (186, 108)]),
        curve([(112, 138), (140, 132), (166, 142), (184, 134)]),
        curve([(128, 160), (150, 156), (166, 164)]),
    ):
        parts += [path(d, "none", 13, DARK), path(d, "none", 7, BROWN)]
    return parts


def _channels() -> list[str]:
    d = "M96,104C84,150 96,214 150,286C204,214 216,150 204,104C186,86 114,86 96,104Z"
    parts = [*_tops(150, 98, n=3), path(d, "#f1ead2")]
    for c in (
        curve([(98, 136), (140, 150), (116, 178), (168, 188)]),
        curve([(204, 142), (170, 150), (186, 206), (152, 222)]),
        curve([(124, 226), (150, 242), (146, 262)]),
    ):
        parts += [path(c, "none", 13), path(c, "none", 8.4, BROWN)]
    return parts


def _maggots() -> list[str]:
    parts = _channels()
    for x, y, turn in ((138, 152, 20), (168, 190, 10), (184, 176, 70), (150, 240, 50), (112, 140, 30)):
        parts += [path(oval(x, y, 13, 5, turn), WHITE, 1.8)]
        c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        parts.append(
            path(
                "".join(
                    (
                        f"M{x + k * c - 4 * s:.1f},{y + k * s + 4 * c:.1f}L{x + k * c + 4 * s:.1f},"
                        f"{y + k * s - 4 * c:.1f}"
                    )
                    for k in (-5, 1, 6)
                ),
                "none",
                0.9,
            )
        )
    return parts


def _grub() -> list[str]:
    d = "M60,50C50,150 90,240 150,296C210,240 250,150 240,50C204,28 96,28 60,50Z"
    parts = [path(d, "#f1ead2"), path(blob(150, 156, 74, 3, 0.12), BROWN, 2)]
    body = curve([(112, 124), (104, 164), (128, 196), (170, 194), (194, 164), (184, 130)])
    parts += [path(body, "none", 33), path(body, "none", 28, "#f8f1dc"), dot(182, 124, 16, "#a8683a", 2.4)]
    for x, y in ((114, 148), (116, 172), (136, 190), (160, 188), (180, 172), (186, 152)):
        parts.append(path(f"M{x - 7},{y - 7}q7,6 10,15", "none", 1.3))
    return [*parts, path("M168,134l-14,8M172,144l-14,5M174,154l-12,2", "none", 2)]


def _forked(hairy: bool = False) -> list[str]:
    if hairy:
        parts = _carrot()
        places = [(150 + side * (44 - 34 * k / 24), 104 + 7 * k) for k in range(24) for side in (-1, 1)]
        return parts + fur(places, 2, 18, "#f6efe0", 2.4) + fur(places, 2, 18, DARK, 0.9)
    d = (
        "M106,96C112,84 188,84 194,96C198,124 196,148 204,176C212,206 226,236 214,270"
        "C200,246 184,214 166,178C162,214 158,250 138,290C128,250 134,212 130,182C116,204 "
        "98,222 74,240C80,208 104,182 106,150C104,130 102,112 106,96Z"
    )
    return [
        *_tops(150, 92),
        path(d, CARROT),
        path(
            "M114,116q18,6 30,2M158,134q14,4 26,-2M120,150q14,6 24,2M176,176q10,4 16,0",
            "none",
            1.3,
            INK,
            opacity=0.5,
        ),
    ]


def _roots(knobs: str = "", blunt: bool = False, brown: bool = False) -> list[str]:
    """The roots of a lifted plant, fibrous; with what has grown on them."""
    parts = [path("M136,0C140,40 140,66 132,92L168,92C160,66 160,40 164,0Z", GOOD)]
    strands = [(-104, 210), (-70, 262), (-34, 236), (2, 288), (36, 246), (72, 272), (104, 204)]
    for at, (dx, down) in enumerate(strands):
        far = 0.45 if blunt else 1.0
        points: list[Point] = [
            (150 + 0.16 * dx, 88),
            (150 + 0.62 * dx * (0.8 if blunt else 1), 88 + (down - 88) * 0.42 * far),
            (150 + dx * (0.72 if blunt else 1.0), 88 + (down - 88) * far),
        ]
        colour = BROWN if brown or blunt else TAN
        parts += [
            path(curve(points), "none", 9 if blunt else 7.5),
            path(curve(points), "none", 4.6 if blunt else 3.4, colour),
        ]
        if blunt:
            parts.append(dot(points[-1][0], points[-1][1], 5.6, DARK))
            continue
        for k in range(5):
            x = points[1][0] + (points[2][0] - points[1][0]) * k / 5
            y = points[1][1] + (points[2][1] - points[1][1]) * k / 5
            side = 1 if (at + k) % 2 else -1
            if not brown or k < 2:
                parts.append(path(f"M{x:.1f},{y:.1f}q{side * 12},8 {side * 20},{18 + 4 * k}", "none", 1.6))
        if knobs == "clubs":
            x, y = points[1]
            turn = math.degrees(math.atan2(points[2][1] - y, points[2][0] - x))
            parts.append(path(oval(x, y + 12, 34 - abs(dx) / 9, 17, turn), "#e2d2ae", 2.4))
            parts.append(path(oval(x - 6, y + 8, 12, 4, turn), "none", 1.1, INK, opacity=0.5))
        if knobs == "knots":
            for k in range(4):
                x = points[0][0] + (points[2][0] - points[0][0]) * (0.3 + 0.18 * k)
                y = points[0][1] + (points[2][1] - points[0][1]) * (0.3 + 0.18 * k)
                parts.append(path(blob(x + (0 if k % 2 else 3), y, 10 - k, k + at, 0.2), "#e2d2ae", 1.9))
    return [*parts, path("M118,98C122,84 178,84 182,98C180,112 120,112 118,98Z", TAN, 2.4)]


def _bulb(base: Sequence[str] = ()) -> list[str]:
    d = "M150,60C158,104 236,132 236,196C236,250 192,262 150,262C108,262 64,250 64,196C64,132 142,104 150,60Z"
    skin = (
        "M150,74C132,120 100,140 98,196C98,232 116,254 134,260M150,74C168,120 200,140 202,196"
        "C202,232 184,254 166,260M150,74V258"
    )
    parts = [
        path("M138,108C140,70 128,30 118,8M162,108C160,70 172,30 182,8M150,84V6", "none", 7),
        path("M138,108C140,70 128,30 118,8M162,108C160,70 172,30 182,8M150,84V6", "none", 3, GOOD),
    ]
    parts += [path(d, "#e9d3a0"), path(skin, "none", 1.4, INK, opacity=0.5)]
    roots = "".join(f"M{118 + 8 * k},262q{(k - 4) * 2},12 {(k - 4) * 5},26" for k in range(9))
    return [*parts, path(roots, "none", 1.6), *base]


def _fluff(dots: bool) -> list[str]:
    places: list[Point] = [
        (150 + 120 * (chance(1, k) - 0.5), 244 + 34 * (chance(2, k) - 0.5)) for k in range(70)
    ]
    parts = [
        path(blob(150, 246, 62, 3, 0.3, 0.42), WHITE, 0),
        *fur(places, 3, 12, WHITE, 3.6),
        *fur(places, 3, 12, "#858f8a", 0.8),
    ]
    if dots:
        parts += [
            dot(150 + 112 * (chance(5, k) - 0.5), 246 + 30 * (chance(6, k) - 0.5), 2.6, INK)
            for k in range(46)
        ]
    return _bulb(parts)


def _pulls() -> list[str]:
    parts = soil(222)
    parts += [
        path("M150,130C186,150 188,196 150,206C112,196 114,150 150,130Z", "#e9d3a0"),
        path("M150,132V62M150,132C146,104 128,84 116,72M150,132C154,104 172,84 184,72", "none", 7),
        path("M150,132V62M150,132C146,104 128,84 116,72M150,132C154,104 172,84 184,72", "none", 3, GOOD),
    ]
    parts.append(path("M140,206l-3,9M150,207v8M160,206l4,9", "none", 1.8, BROWN))
    parts.append(path(blob(150, 226, 30, 2, 0.2, 0.3), "#8f7a64", 1.6))
    return [*parts, path("M76,180V96m-12,16l12,-17l12,17M224,180V96m-12,16l12,-17l12,17", "none", 2.6, BRICK)]


def _potato() -> str:
    return "M60,160C54,96 120,56 184,74C250,92 262,160 236,204C206,262 66,240 60,160Z"


def _drilled() -> list[str]:
    parts = [path(_potato(), "#ecd8ab")]
    for x, y in ((104, 130), (140, 178), (188, 116), (206, 176), (150, 104), (112, 190)):
        parts += [
            dot(x, y, 7.5, DARK, 1.4),
            path(f"M{x - 10},{y - 3}q2,-9 12,-8", "none", 1.2, INK, opacity=0.6),
        ]
    return [
        *parts,
        path(curve([(206, 176), (244, 208), (262, 240), (286, 246)]), "none", 9),
        path(curve([(206, 176), (244, 208), (262, 240), (286, 246)]), "none", 5.4, OCHRE),
    ]


def _hollowed() -> list[str]:
    hollow = "M104,150C100,112 150,98 190,112C224,126 220,178 186,196C144,212 108,192 104,150Z"
    return [
        path(_potato(), "#f4e8c6"),
        path(
            "M60,160C54,96 120,56 184,74C250,92 262,160 236,204C206,262 66,240 60,160Z", "none", 7, "#c9a970"
        ),
        path(_potato()),
        path(hollow, DARK),
        path("M62,150C80,142 92,146 108,142L108,162C92,166 80,160 62,168Z", DARK, 0),
        path("M120,176q30,20 60,2M130,126q30,-16 56,2", "none", 2, BROWN),
    ]


def _brown_inside() -> list[str]:
    inside = [
        path(blob(96, 140, 34, 2, 0.5), "#a4663a", 0),
        path(blob(196, 190, 44, 4, 0.5), "#a4663a", 0),
        path(blob(172, 92, 24, 4, 0.5, 0.6), "#a4663a", 0),
        path(blob(128, 216, 24, 1, 0.4, 0.6), "#a4663a", 0),
    ]
    clip = element("clipPath", element("path", d=_potato()), id="tuber-inside")
    return [
        path(_potato(), "#f6ecc9"),
        clip,
        element("g", "".join(inside), clip_path="url(#tuber-inside)"),
        path(_potato(), "none", 6.5, "#b48c55"),
        path(_potato()),
    ]


def _scabs() -> list[str]:
    parts = [path(_potato(), "#ecd8ab")]
    for at in range(17):
        x, y = 96 + 126 * ((at * 0.618) % 1), 102 + 108 * ((at + 0.5) / 17)
        parts += [
            path(blob(x, y, 11 + 5 * chance(at, 2), at, 0.6), BROWN, 1.6),
            path(blob(x, y, 6, at + 3, 0.6), "#c9a97c", 0.8),
        ]
    return parts


def _gnawed() -> list[str]:
    d = (
        "M98,98C86,150 90,190 112,214C106,226 118,240 130,234C134,252 150,250 154,238"
        "C168,244 176,230 172,220C204,196 214,150 202,98C186,80 114,80 98,98Z"
    )
    parts = [*_tops(150, 92, n=3), path(d, RED)]
    parts.append(
        path(
            (
                "M112,214C106,226 118,240 130,234C134,252 150,250 154,238C168,244 176,230 172,220"
                "C156,206 128,204 112,214Z"
            ),
            "#f8ecd6",
            2,
        )
    )
    for x, y in ((124, 222), (140, 232), (156, 228), (136, 216)):
        parts.append(path(f"M{x - 4},{y - 6}v11M{x + 2},{y - 6}v11", "none", 1.7))
    return parts


def _green_skin() -> list[str]:
    patch = path(blob(110, 110, 82, 3, 0.3), "#a9c08a", 0)
    clip = element("clipPath", element("path", d=_potato()), id="tuber-green")
    eyes = "M176,130q8,6 16,0M150,196q8,6 16,0M206,190q8,6 14,0M112,150q8,6 16,0"
    inside = element("g", patch, clip_path="url(#tuber-green)")
    return [path(_potato(), "#ecd8ab"), clip, inside, path(eyes, "none", 1.6), path(_potato())]


def _no_swelling() -> list[str]:
    parts = soil(150)
    for at in range(5):
        turn = math.radians(40 + 25 * at)
        tip = (150 + 130 * math.cos(turn), 146 - 136 * math.sin(turn))
        parts += Leaf((150, 150), tip, 24, bend=8, widest=0.6, stalk=0, veins=5).draw(GOOD)
    parts.append(path("M144,150C146,190 148,230 150,284C152,230 154,190 156,150Z", RED))
    return [*parts, path("M148,196q-14,6 -22,18M152,214q14,6 20,18M149,240q-10,6 -14,14", "none", 1.6)]


DRAWN: Final[Mapping[str, Drawing]] = {
    "rusty-tunnels": _rusty,
    "furrows-in-crown": _furrows,
    "root-tunnels": _channels,
    "white-maggots": _maggots,
    "legged-grub-in-root": _grub,
    "forked-roots": _forked,
    "hairy-roots": lambda: _forked(hairy=True),
    "clubbed-roots": lambda: _roots("clubs"),
    "knotted-roots": lambda: _roots("knots"),
    "fine-roots-gone": lambda: _roots(blunt=True),
    "poor-roots": lambda: _roots(brown=True),
    "white-fluff-on-bulb": lambda: _fluff(dots=False),
    "pinhead-dots": lambda: _fluff(dots=True),
    "pulls-easily": _pulls,
    "drilled-holes": _drilled,
    "hollowed-tubers": _hollowed,
    "tubers-brown-inside": _brown_inside,
    "scabby-skin": _scabs,
    "gnawed-roots": _gnawed,
    "green-skin": _green_skin,
    "no-swelling": _no_swelling,
}
