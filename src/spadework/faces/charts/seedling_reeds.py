"""Reeds of a sowing that was counted: seedlings standing, one thin line a year, with the count of today."""

from __future__ import annotations

from datetime import date
from typing import Final

from markupsafe import Markup

from spadework.advice.again_answer import Seedlings
from spadework.faces.charts.svg import element, line_path, number, picture, text
from spadework.faces.voice import Voice

WIDTH: Final = 420.0
HEIGHT: Final = 250.0
TOP: Final = 26.0
GROUND: Final = 222.0
MARKS: Final = 14
"""Days between the days named beneath."""


def seedling_reeds(seedlings: Seedlings, voice: Voice) -> Markup:
    """What stood by the counts, and how many stand later in every year."""
    first, last = seedlings.counted[0][0], seedlings.days[-1]
    today, up = seedlings.counted[-1]
    span = max((last - first).days, 1)
    most = max(*(each[-1] for each in seedlings.standing), seedlings.wanted, up, 1) * 1.08

    def x(day: date) -> float:
        return 4.0 + (WIDTH - 8.0) * (day - first).days / span

    def y(count: float) -> float:
        return GROUND - (GROUND - TOP) * count / most

    parts = [
        element("path", d=f"M0,{number(y(seedlings.wanted))}H{number(WIDTH)}", class_="reed-goal"),
        text(2.0, y(seedlings.wanted) - 5.0, f"{seedlings.wanted} make a full stand", class_="reed-word"),
        element("path", d=f"M0,{number(GROUND)}H{number(WIDTH)}", class_="reed-ground"),
    ]
    for standing, short in zip(seedlings.standing, seedlings.short, strict=True):
        points = [(x(day), y(count)) for day, count in zip(seedlings.days, standing, strict=True)]
        parts.append(element("path", d=line_path(points), class_="reed lost" if short else "reed"))
    counted = [(x(day), y(count)) for day, count in seedlings.counted]
    parts.append(element("path", d=line_path(counted), class_="reed-counted"))
    pin = x(today)
    parts.append(element("path", d=f"M{number(pin)},8V{number(GROUND)}", class_="pin"))
    parts += [element("circle", cx=px, cy=py, r=4.5, class_="pin-head") for px, py in counted[1:]]
    anchor, beside = ("end", pin - 8.0) if pin > 0.6 * WIDTH else ("start", pin + 8.0)
    parts.append(text(beside, 18.0, f"today: {up} up", class_="reed-today", text_anchor=anchor))
    for day in range(0, span + 1, MARKS):
        anchor = "start" if day == 0 else "end" if day + 3 > span else "middle"
        at = 4.0 + (WIDTH - 8.0) * day / span
        parts.append(text(at, HEIGHT - 8.0, f"day {day}", class_="reed-word", text_anchor=anchor))
    ends = sorted(each[-1] for each in seedlings.standing)
    return picture(
        WIDTH,
        HEIGHT,
        parts,
        title=f"Seedlings standing, a line a year: {up} today, from {ends[0]:.0f} to {ends[-1]:.0f} "
        f"by {voice.day(last)}.",
        class_="seedling-reeds",
    )
