"""A chance as ten small leaves: so many of ten filled."""

from __future__ import annotations

from markupsafe import Markup

from spadework.faces.charts.svg import element, number, picture

STEP, HEIGHT = 19.0, 20.0


def ten_leaves(chance: float, *, title: str) -> Markup:
    """Ten leaves in a row.

    Parameters
    ----------
    chance : float
        0 to 1.
    title : str
        The same in words.
    """
    full = round(10 * chance)
    parts = []
    for at in range(10):
        x = 3.0 + STEP * at
        d = (
            f"M{number(x)},15C{number(x + 2)},4 {number(x + 8)},2 {number(x + 14)},3"
            f"C{number(x + 14)},11 {number(x + 9)},16 {number(x)},15Z"
        )
        parts.append(element("path", d=d, class_="dot on" if at < full else "dot"))
    return picture(10 * STEP + 2, HEIGHT, parts, title=title, class_="ten-leaves", size=(192.0, 20.0))
