"""Forms the drawings of signs are made of: curves, leaves, marks on leaves, soil.

A drawing lies on a square of 300 by 300. Ink says the form; a wash says living leaf, and another tint only
what has gone wrong there. Unevenness is reckoned, never drawn by chance, so a drawing is the same every time.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final, TypeAlias

from spadework.faces.charts.svg import element, number

Point: TypeAlias = tuple[float, float]
Drawing: TypeAlias = Callable[[], list[str]]
Bite: TypeAlias = tuple[int, float, float, float]
"""Side (-1 left, 1 right), where along the leaf, half its length, and its depth as a share of the width."""

SIDE: Final = 300.0
INK: Final = "#1e2a2c"
GOOD: Final = "#cddcc3"
DEEP: Final = "#9db894"
PALE: Final = "#eef0dc"
YELLOW: Final = "#efdc9c"
OCHRE: Final = "#d3a24a"
TAN: Final = "#d8c09a"
BROWN: Final = "#946b3f"
DARK: Final = "#453a30"
BRICK: Final = "#b75a45"
PURPLE: Final = "#b08a9c"
GREY: Final = "#b4bbb6"
WHITE: Final = "#ffffff"
PAPER: Final = "#fafbf7"
SOIL: Final = "#cdb79b"
LINE: Final = 2.6
FINE: Final = 1.5


def chance(seed: float, at: float) -> float:
    """An uneven number, 0 to 1, the same each time."""
    return math.sin(seed * 12.9898 + at * 78.233 + 1.7) * 43758.5453 % 1.0


def path(d: str, fill: str = "none", width: float = LINE, stroke: str = INK, /, **given: object) -> str:
    """A path in ink, filled where a tint is given."""
    return element(
        "path",
        d=d,
        fill=fill,
        stroke=stroke if width else "none",
        stroke_width=width or None,
        **given,
    )


def dot(x: float, y: float, r: float, fill: str = INK, width: float = 0.0, stroke: str = INK) -> str:
    """A round spot."""
    return element(
        "circle",
        cx=x,
        cy=y,
        r=r,
        fill=fill,
        stroke=stroke if width else None,
        stroke_width=width or None,
    )


def curve(points: Sequence[Point], close: bool = False) -> str:
    """A smooth path through some points."""
    n = len(points)
    told = f"M{points[0][0]:.1f},{points[0][1]:.1f}"
    for at in range(n if close else n - 1):
        if close:
            a, b, c, d = (points[(at + step) % n] for step in (-1, 0, 1, 2))
        else:
            b, c = points[at], points[at + 1]
            a, d = points[max(at - 1, 0)], points[min(at + 2, n - 1)]
        first = (b[0] + (c[0] - a[0]) / 6, b[1] + (c[1] - a[1]) / 6)
        second = (c[0] - (d[0] - b[0]) / 6, c[1] - (d[1] - b[1]) / 6)
        told += "C" + " ".join(f"{x:.1f},{y:.1f}" for x, y in (first, second, c))
    return told + ("Z" if close else "")


def blob(x: float, y: float, r: float, seed: float = 0, rough: float = 0.25, flat: float = 1.0) -> str:
    """The outline of an uneven patch; `flat` below 1 presses it from above."""
    n = 7 if r < 14 else 10
    points = []
    for at in range(n):
        reach = r * (1.0 - rough / 2 + rough * chance(seed + x, at + y))
        turn = 2 * math.pi * at / n
        points.append((x + reach * math.cos(turn), y + flat * reach * math.sin(turn)))
    return curve(points, close=True)


def oval(x: float, y: float, long: float, wide: float, turn: float = 0.0) -> str:
    """The outline of an ellipse that lies at a turn [degrees]."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    return curve(
        [
            (
                x + long * math.cos(a) * c - wide * math.sin(a) * s,
                y + long * math.cos(a) * s + wide * math.sin(a) * c,
            )
            for a in (2 * math.pi * at / 8 for at in range(8))
        ],
        close=True,
    )


def turned(inside: str, x: float, y: float, turn: float = 0.0, size: float = 1.0) -> str:
    """What was drawn about 0, 0, laid at a place at a turn [degrees] and a size."""
    return element(
        "g", inside, transform=f"translate({x:.0f} {y:.0f}) rotate({turn:.0f}) scale({number(size)})"
    )


def about(inside: str, x: float, y: float, turn: float) -> str:
    """What lies at a place, turned about it [degrees]."""
    return element("g", inside, transform=f"rotate({turn:.0f} {x:.0f} {y:.0f})")


def spread(n: int, seed: float = 0.0, t: Point = (0.12, 0.9), s: Point = (-0.82, 0.82)) -> list[Point]:
    """Places spread evenly over a leaf: along it, and from its left edge (-1) to its right (1)."""
    return [
        (
            t[0] + (t[1] - t[0]) * ((at + 0.5) / n),
            s[0] + (s[1] - s[0]) * ((seed + at * 0.618034) % 1.0),
        )
        for at in range(n)
    ]


def fur(points: Iterable[Point], seed: float, length: float, colour: str, width: float = 1.3) -> list[str]:
    """Short hairs standing at some places."""
    told = []
    for at, (x, y) in enumerate(points):
        for hair in range(5):
            turn = 2 * math.pi * chance(seed + hair, at)
            reach = length * (0.6 + 0.6 * chance(seed + 9, at + hair))
            bend = turn + 0.7
            told.append(
                f"M{number(x)},{number(y)}q{number(0.6 * reach * math.cos(turn))},"
                f"{number(0.6 * reach * math.sin(turn))} {number(reach * math.cos(bend))},"
                f"{number(reach * math.sin(bend))}"
            )
    return [path("".join(told), "none", width, colour)]


@dataclass(frozen=True)
class Leaf:
    """A leaf from its stalk to its tip.

    Parameters
    ----------
    base, tip : (float, float)
    half : float
        Half its greatest width.
    bend : float
        How far its middle is pushed to the right of the straight line.
    widest : float
        Where along it is widest, 0 to 1.
    wave : float
        How wavy its edge is.
    stalk : float
        Length of the stalk below the blade.
    """

    base: Point
    tip: Point
    half: float
    bend: float = 0.0
    widest: float = 0.42
    wave: float = 0.025
    stalk: float = 26.0
    veins: int = 6

    def axis(self, t: float) -> Point:
        """A place on the middle rib."""
        (ax, ay), (bx, by) = self.base, self.tip
        nx, ny = self._side()
        push = 4 * t * (1 - t) * self.bend
        return ax + (bx - ax) * t + nx * push, ay + (by - ay) * t + ny * push

    def _side(self) -> Point:
        dx, dy = self.tip[0] - self.base[0], self.tip[1] - self.base[1]
        long = math.hypot(dx, dy)
        return -dy / long, dx / long

    def width(self, t: float) -> float:
        """Half the width at a place along it."""
        power = math.log(0.5) / math.log(self.widest)
        t = min(max(t, 0.0), 1.0)
        return self.half * math.sin(math.pi * t**power) ** 0.75 if 0 < t < 1 else 0.0

    def at(self, t: float, s: float) -> Point:
        """A place on the blade: `t` along, `s` from the left edge (-1) to the right (1)."""
        x, y = self.axis(t)
        nx, ny = self._side()
        reach = self.width(t) * s * (1 + self.wave * math.sin(38 * t + 2 * s))
        return x + nx * reach, y + ny * reach

    def edge(self, side: int, bites: Sequence[Bite] = ()) -> list[Point]:
        """One edge from stalk to tip, with what is bitten out of it."""
        n = 60 if self.half > 40 or bites else 30 if self.half > 11 else 18
        return [self.at(at / n, side * self._left(at / n, side, bites)) for at in range(n + 1)]

    def _left(self, t: float, side: int, bites: Sequence[Bite]) -> float:
        share = 1.0
        for which, middle, half, depth in bites:
            off = abs(t - middle) / half
            if which == side and off < 1:
                share = min(share, 1 - depth * math.sqrt(1 - off * off))
        return share

    def outline(self, bites: Sequence[Bite] = ()) -> str:
        """The edge all round."""
        points = self.edge(-1, bites) + self.edge(1, bites)[::-1][1:]
        return "M" + " ".join(f"{x:.1f},{y:.1f}" for x, y in points) + "Z"

    def ribs(self, bites: Sequence[Bite] = (), whole: bool = False) -> str:
        """Middle rib and side veins, as far as blade is left."""
        told = curve([self.axis(at / 8) for at in range(8)] + [self.axis(0.985)])
        veins = self.veins if self.half > 11 else min(self.veins, 2)
        for at in range(veins):
            start = 0.1 + 0.72 * at / veins
            for side in (-1, 1):
                until = 0.86 if whole else 0.86 * self._left(start + 0.13, side, bites)
                if until > 0.12:
                    told += curve(
                        [
                            self.at(start, 0.0),
                            self.at(start + 0.05, side * until * 0.45),
                            self.at(start + 0.13, side * until),
                        ]
                    )
        return told

    def draw(self, fill: str = GOOD, bites: Sequence[Bite] = (), *, ribs: bool = True) -> list[str]:
        """The leaf: stalk, blade, veins."""
        (ax, ay), (nx, ny) = self.base, self._side()
        dx, dy = ny, -nx
        parts = []
        if self.stalk:
            end = (ax + dx * -self.stalk + nx * 4, ay + dy * -self.stalk + ny * 4)
            parts.append(
                path(curve([(ax, ay), ((ax + end[0]) / 2, (ay + end[1]) / 2 + 1), end]), "none", 4.2)
            )
        parts.append(path(self.outline(bites), fill))
        if ribs:
            parts.append(path(self.ribs(bites), "none", FINE, INK, opacity=0.55))
        return parts

    def clipped(self, name: str, inside: Sequence[str]) -> list[str]:
        """What lies on the blade and stops at its edge; the edge drawn over it."""
        clip = element("clipPath", element("path", d=self.outline()), id=name)
        return [
            clip,
            element("g", "".join(inside), clip_path=f"url(#{name})"),
            path(self.ribs(), "none", FINE, INK, opacity=0.5),
            path(self.outline()),
        ]


BIG: Final = Leaf((142, 262), (170, 20), 92, bend=-12)
"""One leaf that fills the picture."""

PLAIN: Final = replace(BIG, wave=0.012)


def marks(leaf: Leaf, places: Iterable[Point], r: float, fill: str, width: float = FINE) -> list[str]:
    """Round, slightly uneven marks on a leaf."""
    told = []
    for at, (t, s) in enumerate(places):
        x, y = leaf.at(t, s)
        told.append(path(blob(x, y, r * (0.8 + 0.4 * chance(at, r)), at, 0.3), fill, width))
    return told


def soil(y: float = 236.0, *, crumbs: bool = True) -> list[str]:
    """The ground, from left to right, with some crumbs in it."""
    top = [(x, y + 3 * math.sin(x / 23.0)) for x in range(0, 301, 20)]
    d = curve(top) + f"L{number(SIDE)},{number(SIDE)}L0,{number(SIDE)}Z"
    parts = [path(d, SOIL, 0), path(curve(top), "none", LINE)]
    if crumbs:
        for at in range(16):
            x = 10 + 280 * ((at * 0.618) % 1.0)
            deep = y + 14 + (SIDE - y - 22) * chance(3, at)
            parts.append(path(blob(x, deep, 2.4 + 2.6 * chance(5, at), at), "none", 1.1, "#8f7a64"))
    return parts
