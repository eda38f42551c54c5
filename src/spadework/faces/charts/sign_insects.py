"""Drawings of beetles, bugs, lice, moths."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final

from spadework.faces.charts.sign_forms import (
    GOOD,
    GREY,
    INK,
    OCHRE,
    WHITE,
    Drawing,
    Leaf,
    Point,
    about,
    blob,
    chance,
    curve,
    dot,
    oval,
    path,
    spread,
    turned,
)
from spadework.faces.charts.sign_parts import UNDER, near_leaf


def _beetle(
    x: float,
    y: float,
    r: float,
    fill: str,
    *,
    long: float = 1.3,
    stripes: Sequence[float] = (),
    spots: Sequence[Point] = (),
    head: str = INK,
    legs: float = 1.0,
    turn: float = 0.0,
    fat_hind: bool = False,
) -> list[str]:
    """A beetle from above, head up; stripes and spots in shares of its wing cases."""
    h = r * long
    parts = []
    for side in (-1, 1):
        for k, (low, out, down) in enumerate(((-0.5, 1.5, -0.95), (0.0, 1.62, 0.1), (0.5, 1.5, 1.05))):
            wide = 5 if fat_hind and k == 2 else 2.4
            foot = (x + side * r * out * legs, y + h * down)
            knee = (x + side * r * 1.2, y + h * (low + (down - low) * 0.3) - r * 0.1)
            parts.append(path(curve([(x + side * r * 0.7, y + h * low), knee, foot]), "none", wide))
        parts.append(
            path(
                curve(
                    [
                        (x + side * r * 0.2, y - h * 1.2),
                        (x + side * r * 0.5, y - h * 1.7),
                        (x + side * r * 1.1, y - h * 1.95),
                    ]
                ),
                "none",
                2,
            )
        )
    parts += [
        dot(x, y - h * 1.14, r * 0.42, head, 2),
        path(oval(x, y - h * 0.84, r * 0.72, r * 0.36), fill, 2.2),
    ]
    parts.append(path(oval(x, y, r, h), fill))
    parts.append(path(f"M{x:.1f},{y - h * 0.96:.1f}V{y + h * 0.98:.1f}", "none", 1.8))
    for s in stripes:
        reach = math.sqrt(max(1 - s * s, 0.05)) * h * 0.9
        parts.append(
            path(
                curve(
                    [
                        (x + s * r * 0.72, y - reach * 0.94),
                        (x + s * r, y),
                        (x + s * r * 0.66, y + reach * 0.94),
                    ]
                ),
                "none",
                r * 0.17,
                INK,
            )
        )
    parts += [dot(x + sx * r, y + sy * h, r * 0.15, INK) for sx, sy in spots]
    if turn:
        return [about("".join(parts), x, y, turn)]
    return parts


def _fleas() -> list[str]:
    parts = near_leaf()
    for x, y, turn in ((92, 96, -24), (206, 142, 40), (110, 220, 150)):
        parts += _beetle(x, y, 24, "#3a4446", long=1.35, turn=turn, fat_hind=True)
        parts.append(path(f"M{x - 8:.0f},{y - 12:.0f}q-4,12 0,22", "none", 2, GREY))
    return [*parts, path(curve([(232, 118), (262, 66), (290, 96)]), "none", 1.8, INK, stroke_dasharray="3 7")]


def _striped() -> list[str]:
    return near_leaf() + _beetle(150, 160, 58, "#f0d27a", long=1.45, stripes=(-0.55, 0.0, 0.55))


def _spotted() -> list[str]:
    return near_leaf() + _beetle(
        150,
        160,
        58,
        "#dfe0a0",
        long=1.4,
        spots=[(s * 0.45, k) for s in (-1, 1) for k in (-0.62, -0.2, 0.2, 0.6)]
        + [(s * 0.78, k) for s in (-1, 1) for k in (-0.25, 0.3)],
    )


def _fat_striped() -> list[str]:
    parts = near_leaf() + _beetle(
        104, 118, 50, "#efc97f", long=1.15, stripes=(-0.86, -0.56, -0.26, 0.26, 0.56, 0.86), head=OCHRE
    )
    body = curve([(150, 262), (160, 214), (204, 192), (246, 218), (256, 258)], close=True)
    parts.append(path(body, "#d58a6c"))
    parts += [dot(172 + 17 * k, 250 - 4 * (k % 2), 4, INK) for k in range(5)] + [
        dot(178 + 17 * k, 228 - 3 * (k % 2), 3.4, INK) for k in range(4)
    ]
    return [*parts, dot(152, 258, 12, INK), path("M172,264l-4,14M190,266l-2,14M208,266l2,14", "none", 3)]


def _copper() -> list[str]:
    parts = near_leaf() + _beetle(
        108,
        118,
        54,
        "#d99a62",
        long=1.05,
        spots=[(s * 0.4, k) for s in (-1, 1) for k in (-0.6, -0.12, 0.36)]
        + [(s * 0.76, k) for s in (-1, 1) for k in (-0.3, 0.16)],
    )
    parts.append(path(oval(218, 230, 44, 22, -24), "#f0d27a"))
    for k in range(13):
        a = 2 * math.pi * k / 13
        x, y = 218 + 42 * math.cos(a), 230 + 24 * math.sin(a)
        parts.append(
            path(
                (
                    f"M{x:.0f},{y:.0f}l{15 * math.cos(a):.1f},{15 * math.sin(a):.1f}m"
                    f"{-5 * math.cos(a):.1f},{-5 * math.sin(a):.1f}l{6 * math.sin(a):.1f},"
                    f"{-6 * math.cos(a):.1f}"
                ),
                "none",
                1.8,
            )
        )
    return parts


def _metallic() -> list[str]:
    parts = near_leaf()
    for x, y, turn in ((100, 100, -20), (200, 128, 30), (132, 222, 8)):
        parts += _beetle(x, y, 34, "#b07a4e", long=1.3, head="#5c8a6a", turn=turn)
        parts += [dot(x + s * 35, y - 22 + 18 * k, 4.4, WHITE, 1.2) for s in (-1, 1) for k in range(3)]
    return parts


def _weevils() -> list[str]:
    parts = near_leaf()
    for x, y, turn in ((100, 130, -20), (202, 190, 24)):
        inner = _beetle(x, y, 32, "#a88458", long=1.35, head="#a88458")
        inner.append(path(f"M{x},{y - 58}C{x - 1},{y - 70} {x + 1},{y - 80} {x},{y - 92}", "none", 6))
        inner.append(path(f"M{x},{y - 76}l-17,-8M{x},{y - 76}l17,-8", "none", 1.8))
        parts.append(about("".join(inner), x, y, turn))
    return parts


def _bugs() -> list[str]:
    parts = near_leaf()
    shield = "M0,-56L30,-30L36,8C32,44 14,60 0,64C-14,60 -32,44 -36,8L-30,-30Z"
    x, y = 96, 112
    legs = "".join(f"M{side * 30},{k}l{side * 30},{k * 0.5 - 6}" for side in (-1, 1) for k in (-16, 10, 36))
    parts.append(
        turned(
            path(legs, "none", 2.4)
            + path("M-8,-56l-14,-30M8,-56l14,-30", "none", 2.2)
            + path(shield, "#b9ad97")
            + path("M-24,-26L0,14L24,-26M0,14V60", "none", 1.8),
            x,
            y,
            -16,
        )
    )
    for at in range(9):
        px, py = 176 + 92 * ((at * 0.618) % 1), 160 + 112 * ((at + 0.5) / 9)
        parts.append(
            path(
                "".join(f"M{px + s * 8:.0f},{py + k:.0f}l{s * 11},{k}" for s in (-1, 1) for k in (-5, 1, 7)),
                "none",
                1.4,
            )
        )
        parts.append(path(oval(px, py, 9.5, 13), "#d3cbb8", 1.8))
    return parts


def _louse(x: float, y: float, r: float, fill: str, turn: float = 0.0, waxy: bool = False) -> str:
    legs = "".join(
        f"M{s * r * 0.6:.1f},{k * r:.1f}l{s * r * 0.9:.1f},{k * r * 0.9 - r * 0.1:.1f}"
        for s in (-1, 1)
        for k in (-0.5, 0.0, 0.5)
    )
    inner = path(legs, "none", 1.5) + path(
        (
            f"M{-r * 0.2:.1f},{-r * 1.2:.1f}l{-r * 0.6:.1f},{-r:.1f}M{r * 0.2:.1f},{-r * 1.2:.1f}l"
            f"{r * 0.6:.1f},{-r:.1f}M{-r * 0.5:.1f},{r * 0.9:.1f}l{-r * 0.25:.1f},{r * 0.7:.1f}M"
            f"{r * 0.5:.1f},{r * 0.9:.1f}l{r * 0.25:.1f},{r * 0.7:.1f}"
        ),
        "none",
        1.5,
    )
    inner += path(
        (
            f"M0,{-r * 1.3:.1f}C{r * 0.9:.1f},{-r:.1f} {r * 1.1:.1f},{r * 1.3:.1f} "
            f"0,{r * 1.4:.1f}C{-r * 1.1:.1f},{r * 1.3:.1f} {-r * 0.9:.1f},{-r:.1f} "
            f"0,{-r * 1.3:.1f}Z"
        ),
        fill,
        2,
    )
    if waxy:
        inner += "".join(
            dot(r * 1.3 * (chance(x, k) - 0.5), r * 2 * (chance(k, y) - 0.4), 1.6, WHITE) for k in range(8)
        )
    return turned(inner, x, y, turn)


def _lice(waxy: bool) -> list[str]:
    parts = near_leaf() if waxy else []
    if not waxy:
        stem = curve([(150, 304), (146, 200), (152, 96)])
        parts += [path(stem, "none", 26), path(stem, "none", 21, GOOD)]
        for turn, y in ((30, 130), (150, 112), (80, 96)):
            a = math.radians(turn)
            parts += Leaf(
                (150, y), (150 + 104 * math.cos(a), y - 96 * math.sin(a)), 27, bend=14, stalk=0, veins=4
            ).draw(GOOD)
        for at in range(24):
            x, y = 150 + 17 * (1 if at % 2 else -1) * (0.4 + 0.6 * chance(1, at)), 104 + 8 * at
            parts.append(
                _louse(
                    x, y, 7.5, ("#b9cf8e", "#b9cf8e", "#e0b3a4", "#cfdca6")[at % 4], 150 * chance(2, at) - 75
                )
            )
        return parts
    for at, (t, s) in enumerate(spread(26, 0.2, (0.24, 0.72), (-0.5, 0.5))):
        px, py = UNDER.at(t, s)
        parts.append(_louse(px, py, 10, "#b7beb9", 300 * chance(2, at), waxy=True))
    return [*parts, *[dot(40 + 220 * chance(3, k), 40 + 220 * chance(4, k), 1.5, WHITE) for k in range(60)]]


def _black_lice() -> list[str]:
    stem = curve([(150, 304), (154, 210), (148, 70)])
    parts = [path(stem, "none", 26), path(stem, "none", 21, GOOD)]
    for turn, y in ((58, 84), (122, 88), (14, 236), (166, 258)):
        a = math.radians(turn)
        parts += Leaf(
            (150, y), (150 + 92 * math.cos(a), y - 76 * math.sin(a)), 25, bend=10, stalk=0, veins=3
        ).draw(GOOD)
    for at in range(46):
        x = 150 + 21 * (1 if at % 2 else -1) * (0.1 + 0.9 * chance(5, at))
        parts.append(_louse(x, 72 + 3 * at, 7.5, "#3c4341", 300 * chance(6, at)))
    return parts


def _slim() -> list[str]:
    parts = [
        path("M96,300C84,200 70,110 40,0L112,0C128,100 140,200 146,300Z", GOOD),
        path("M204,300C216,200 230,110 260,0L188,0C172,100 160,200 154,300Z", GOOD),
        path("M146,300C140,200 128,100 112,0M154,300C160,200 172,100 188,0", "none", LINE_FOLD),
    ]
    for x, y, turn in (
        (132, 92, -8),
        (160, 150, 10),
        (144, 206, -4),
        (170, 60, 12),
        (128, 150, -12),
        (160, 248, 4),
    ):
        inner = (
            path("M0,-23C6,-14 6,10 0,24C-6,10 -6,-14 0,-23Z", "#f0dfa0", 1.8)
            + path("M-2,-22l-6,-10M2,-22l6,-10M-5,-8l-9,-5M5,-8l9,-5M-5,2l-10,4M5,2l10,4", "none", 1.3)
            + path("M0,-8C5,4 4,16 1,26M0,-8C-5,4 -4,16 -1,26", "none", 1)
        )
        parts.append(turned(inner, x, y, turn))
    return parts


LINE_FOLD: Final = 2.0


def _hoppers() -> list[str]:
    parts = near_leaf()
    for x, y, turn, size in ((96, 116, -20, 1.3), (206, 172, 24, 1.3), (110, 238, 10, 0.9)):
        inner = (
            path("M-13,-2l-16,16M-11,10l-14,18M13,-2l16,16M11,10l14,18", "none", 2)
            + path("M0,-34C17,-30 19,-16 14,2L0,46L-14,2C-19,-16 -17,-30 0,-34Z", "#c3d79c")
            + path("M-14,-16q14,8 28,0M0,-12V44M-9,-2L0,40M9,-2L0,40", "none", 1.3)
            + dot(-9, -24, 3.4, INK)
            + dot(9, -24, 3.4, INK)
        )
        parts.append(turned(inner, x, y, turn, size))
    return [*parts, path(curve([(232, 130), (252, 86), (284, 60)]), "none", 1.8, INK, stroke_dasharray="3 7")]


def _shield_bugs() -> list[str]:
    parts = [path(blob(150, 176, 112, 4, 0.06), "#d98b76"), path("M150,66C148,44 152,24 162,8", "none", 8)]
    shield = "M0,-40L22,-28L36,-22L32,10C26,32 12,44 0,48C-12,44 -26,32 -32,10L-36,-22L-22,-28Z"
    legs = "".join(f"M{s * 28},{k}l{s * 22},{k * 0.5 - 4}" for s in (-1, 1) for k in (-14, 8, 28))
    for x, y, turn, tint in ((112, 142, -18, "#a9946f"), (200, 206, 26, "#9fb080")):
        inner = (
            path(legs, "none", 2.2) + path("M-6,-40l-12,-26M6,-40l12,-26", "none", 1.8) + path(shield, tint)
        )
        inner += path("M-34,-18Q0,-4 34,-18M-18,-12L0,26L18,-12", "none", 1.7)
        parts.append(turned(inner, x, y, turn))
    return parts


DRAWN: Final[Mapping[str, Drawing]] = {
    "jumping-beetles": _fleas,
    "striped-beetles": _striped,
    "spotted-beetles": _spotted,
    "fat-striped-beetles": _fat_striped,
    "copper-ladybirds": _copper,
    "metallic-beetles": _metallic,
    "small-snout-beetles": _weevils,
    "grey-bugs-in-groups": _bugs,
    "waxy-grey-lice": lambda: _lice(waxy=True),
    "green-lice": lambda: _lice(waxy=False),
    "black-lice": _black_lice,
    "slim-hopping-insects": _slim,
    "wedge-hoppers": _hoppers,
    "shield-bugs": _shield_bugs,
}
