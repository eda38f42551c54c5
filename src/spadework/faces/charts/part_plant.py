"""One drawn plant whose parts can be touched: each part leads to the signs it may show."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from markupsafe import Markup

from spadework.faces.charts.sign_forms import (
    DEEP,
    FINE,
    GOOD,
    INK,
    OCHRE,
    PAPER,
    SOIL,
    TAN,
    Leaf,
    curve,
    dot,
    oval,
    path,
)
from spadework.faces.charts.svg import element, picture

WIDTH, HEIGHT = 340.0, 430.0
TOP: Final = 30.0
GROUND: Final = 300.0


def part_plant(leads: Mapping[str, str], words: Mapping[str, str], *, title: str) -> Markup:
    """A plant with its parts as links.

    Parameters
    ----------
    leads : mapping of str to str
        Address by part; a part without one is drawn and leads nowhere.
    words : mapping of str to str
        What each part is called where it is read out.
    title : str
    """
    below = next((part for part in ("tuber", "bulb", "root") if part in leads), "root")
    drawn = {
        below: _below(below),
        "stem": _stem(),
        "leaf": _leaves(),
        "fruit": _fruit() if "fruit" in leads else "",
        "flower": _flower(),
        "growing tip": _tip(),
        "seedling": _seedling(),
    }
    ground = path(f"M0,{GROUND:.0f}H340V430H0Z", SOIL, 0) + path(f"M0,{GROUND:.0f}H340", "none", 2.4)
    parts = [ground]
    for part, inside in drawn.items():
        if not inside:
            continue
        if part in leads:
            parts.append(
                element("a", inside, href=leads[part], aria_label=words.get(part, part), class_="part")
            )
        else:
            parts.append(inside)
    moved = element("g", "".join(parts), transform=f"translate(0 {-TOP:.0f})")
    return picture(WIDTH, HEIGHT - TOP, [moved], title=title, class_="part-plant", links=True)


def _label(x: float, y: float, text: str, toward: tuple[float, float]) -> str:
    line = path(f"M{toward[0]:.0f},{toward[1]:.0f}L{x:.0f},{y - 5:.0f}", "none", 1.1, INK, opacity=0.6)
    anchor = "end" if x < toward[0] else "start"
    shift = -4.0 if anchor == "end" else 4.0
    return line + element(
        "text", text, x=x + shift, y=y, text_anchor=anchor, font_size=17, class_="part-name", fill=INK
    )


def _room(x: float, y: float, wide: float, high: float) -> str:
    """A place for a thumb."""
    return element(
        "rect", x=x, y=y, width=wide, height=high, rx=14, fill=PAPER, fill_opacity=0, class_="room"
    )


def _leaves() -> str:
    parts = [_room(58, 128, 224, 140)]
    for base, tip, half, bend in (
        ((164, 262), (70, 226), 27, 10),
        ((176, 262), (270, 232), 27, -10),
        ((165, 214), (74, 166), 26, 12),
        ((175, 208), (268, 164), 26, -12),
    ):
        parts += Leaf(base, tip, half, bend=bend, stalk=10, veins=4).draw(GOOD)
    return "".join(parts) + _label(44, 204, "leaf", (84, 198))


def _stem() -> str:
    line = curve([(170, 304), (168, 220), (172, 120)])
    return (
        _room(150, 262, 40, 40)
        + path(line, "none", 11)
        + path(line, "none", 6, DEEP)
        + _label(262, 290, "stem", (178, 282))
    )


def _tip() -> str:
    parts = [_room(128, 44, 88, 74)]
    for tip, bend in (((142, 58), 6), ((200, 58), -6), ((171, 44), 3)):
        parts += Leaf((171, 122), tip, 13, bend=bend, stalk=0, veins=3).draw(GOOD)
    return "".join(parts) + _label(96, 62, "tip", (140, 74))


def _flower() -> str:
    stalk = curve([(172, 150), (206, 132), (230, 104)])
    petals = "".join(
        path(oval(236 + dx, 92 + dy, 13, 8, turn), "#f5dd93", 2)
        for dx, dy, turn in ((14, 0, 0), (4, 14, 72), (-12, 8, 144), (-12, -9, 216), (4, -14, 288))
    )
    return (
        _room(206, 62, 66, 62)
        + path(stalk, "none", 4)
        + petals
        + dot(236, 92, 8, OCHRE, 1.8)
        + _label(266, 72, "flower", (250, 82))
    )


def _fruit() -> str:
    stalk = curve([(170, 176), (138, 150), (116, 134)])
    return (
        _room(70, 100, 66, 62)
        + path(stalk, "none", 4)
        + dot(104, 132, 23, "#d98b76", 2.4)
        + path("M104,110l-10,-5m10,5l10,-5m-10,5v-9", "none", 2.2)
        + _label(46, 118, "fruit", (84, 124))
    )


def _below(part: str) -> str:
    room = _room(96, 312, 148, 104)
    if part == "bulb":
        half = "M170,300C176,324 214,340 214,372C214,400 194,408 170,408"
        d = f"{half}C146,408 126,400 126,372C126,340 164,324 170,300Z"
        roots = "M156,408l-8,14M170,408v16M184,408l8,14"
        inside = path(d, "#e9d3a0") + path(roots, "none", FINE)
        return room + inside + _label(264, 368, "bulb", (214, 366))
    strands = (
        "M170,300C166,330 170,372 168,420M168,330C146,344 124,352 110,376M170,346C196,358 214,366 228,392"
    )
    inside = path(strands, "none", 6.5) + path(strands, "none", 2.6, TAN)
    if part == "tuber":
        inside += path(oval(124, 384, 25, 18, -20), "#ecd8ab") + path(oval(220, 396, 23, 16, 20), "#ecd8ab")
    fine = "M150,344l-8,18M190,356l4,20M168,384l-16,14M169,372l14,16"
    return room + inside + path(fine, "none", FINE) + _label(268, 372, part, (214, 376))


def _seedling() -> str:
    stem = curve([(40, 304), (38, 284), (42, 266)])
    parts = [_room(10, 236, 60, 70), path(stem, "none", 5), path(stem, "none", 2, GOOD)]
    for tip in ((18, 252), (66, 252)):
        parts += Leaf((42, 268), tip, 9, stalk=0, veins=0).draw(GOOD)
    name = element("text", "seedling", x=8, y=332, font_size=17, fill=INK, class_="part-name")
    return "".join(parts) + name
