"""The water within reach of a bed's roots: what stands in the soil, and the mark where plants go short."""

from __future__ import annotations

from typing import Final

from markupsafe import Markup

from spadework.faces.charts.svg import element, number, picture, text

WIDTH: Final = 360.0
HEIGHT: Final = 62.0
TOP: Final = 22.0
DEEP: Final = 20.0


def water_standing(holds_mm: float, gone_mm: float, spare_mm: float, *, title: str) -> Markup:
    """How full the soil is.

    Parameters
    ----------
    holds_mm, gone_mm, spare_mm : float  [mm]
        What it holds for these roots, what is gone of that, and what may be gone before they are short.
    title : str
        What it shows, in words.
    """
    whole = max(holds_mm, gone_mm, spare_mm, 0.1)
    left, right = 2.0, WIDTH - 2.0

    def x(stands_mm: float) -> float:
        return left + (right - left) * min(max(stands_mm, 0.0), whole) / whole

    stands, mark = x(whole - gone_mm), x(whole - spare_mm)
    at, deep = number(TOP), number(DEEP)
    anchor = "end" if mark > WIDTH * 0.55 else "start"
    parts = [
        element("path", d=f"M{number(left)},{at}H{number(right)}v{deep}H{number(left)}Z", class_="store"),
        element("path", d=f"M{number(left)},{at}H{number(stands)}v{deep}H{number(left)}Z", class_="stands"),
        element("path", d=f"M{number(mark)},{number(TOP - 5)}v{number(DEEP + 10)}", class_="pin"),
        text(mark, TOP - 9.0, "short below here", class_="trace-today", text_anchor=anchor),
        text(left, TOP + DEEP + 16.0, "empty", class_="trace-word"),
        text(right, TOP + DEEP + 16.0, "full", class_="trace-word", text_anchor="end"),
    ]
    return picture(WIDTH, HEIGHT, parts, title=title, class_="water-standing")
