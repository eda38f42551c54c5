"""Weeks ahead as one long leaf, thick where a trouble comes in many of the years; the pin is today."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from spadework.faces.charts.sign_forms import curve
from spadework.faces.charts.svg import element, number, picture, text

WIDTH, HEIGHT = 330.0, 62.0
TALL = 15.0
"""Half the thickness of the leaf where it comes in every year."""


def weeks_ahead(shares: Sequence[float], names: Sequence[str], *, title: str, tone: str = "comes") -> Markup:
    """A leaf over weeks.

    Parameters
    ----------
    shares : sequence of float
        Of the years, for each week from today.
    names : sequence of str
        First day of each week, as it is written beneath.
    title : str
        The same in words.
    tone : str
        "comes", or "tender" for what stands tender.
    """
    count = max(len(shares), 1)
    left, right, middle = 8.0, WIDTH - 8.0, 24.0
    step = (right - left) / count
    xs = [left + step * (at + 0.5) for at in range(count)]
    halves = [TALL * min(max(share, 0.0), 1.0) for share in shares]
    points = [(left, middle - (halves[0] * 0.75 if halves else 0.0))]
    points += [(x, middle - half) for x, half in zip(xs, halves, strict=True)]
    points.append((right, middle - (halves[-1] * 0.5 if halves else 0.0)))
    under = [(x, 2 * middle - y) for x, y in reversed(points)]
    parts = [element("path", d=f"M0,{number(middle)}H{number(WIDTH)}", class_="thread")]
    if any(half > 0 for half in halves):
        leaf = f"{curve(points)}L{curve(under)[1:]}Z"
        parts.append(element("path", d=leaf, class_=f"weeks-leaf {tone}"))
        parts.append(element("path", d=f"M{number(left)},{number(middle)}H{number(right)}", class_="rib"))
    for at, name in enumerate(names):
        x = left + step * at
        parts.append(element("path", d=f"M{number(x)},{number(middle + 17)}v5", class_="thread"))
        parts.append(text(x, 58.0, name, font_size=13, class_="week-name"))
    parts.append(element("path", d=f"M{number(left)},4V{number(middle + 18)}", class_="pin"))
    parts.append(element("circle", cx=left, cy=5.0, r=3.2, class_="pin-head"))
    return picture(WIDTH, HEIGHT, parts, title=title, class_="weeks-ahead")
