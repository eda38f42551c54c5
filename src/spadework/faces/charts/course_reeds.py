"""Reeds of a course: one thin line a year, each climbing to the day it is ready."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from typing import Final

from markupsafe import Markup

from spadework.advice.reeds import Reeds
from spadework.faces.charts.svg import element, line_path, number, picture, text
from spadework.faces.voice import Voice

WIDTH: Final = 360.0
HEIGHT: Final = 190.0
LEFT: Final = 4.0
RIGHT: Final = 356.0
TOP: Final = 34.0
GROUND: Final = 164.0

_ROOM: Final = 46.0
"""Room a date takes under the ground line."""


def course_reeds(reeds: Reeds, today: date, voice: Voice, *, title: str) -> Markup:
    """The way to ready in every year, with a pin for today.

    Parameters
    ----------
    reeds : Reeds
    today : date
    voice : Voice
    title : str
    """
    first, span = reeds.days[0], max((reeds.days[-1] - reeds.days[0]).days, 1)

    def x(day: date) -> float:
        return LEFT + (RIGHT - LEFT) * min(max((day - first).days / span, 0.0), 1.0)

    def y(way: float) -> float:
        return GROUND - (GROUND - TOP) * way

    parts = [
        element("path", d=f"M{number(LEFT)},{number(TOP)}H{number(RIGHT)}", class_="reed-goal"),
        text(RIGHT, TOP - 6.0, "ready", class_="reed-word", text_anchor="end"),
        element("path", d=f"M{number(LEFT)},{number(GROUND)}H{number(RIGHT)}", class_="reed-ground"),
    ]
    for way, lost in sorted(zip(reeds.ways, reeds.lost, strict=True), key=lambda pair: pair[1]):
        points = [(x(day), y(each)) for day, each in zip(reeds.days, _to_ready(way), strict=False)]
        parts.append(element("path", d=line_path(points), class_="reed lost" if lost else "reed"))
    pin = x(today)
    parts.append(element("path", d=f"M{number(pin)},{number(TOP - 16)}V{number(GROUND)}", class_="pin"))
    parts.append(element("circle", cx=pin, cy=TOP - 16.0, r=4.0, class_="pin-head"))
    anchor = "end" if pin > RIGHT - 100.0 else "start"
    beside = pin - 8.0 if anchor == "end" else pin + 8.0
    parts.append(text(beside, TOP - 16.0, "today", class_="reed-today", text_anchor=anchor))
    for day, place in _months(first, reeds.days[-1], x):
        parts.append(element("path", d=f"M{number(place)},{number(GROUND)}v5", class_="reed-ground"))
        parts.append(text(place, GROUND + 19.0, voice.calendar_day(day), class_="reed-word"))
    return picture(WIDTH, HEIGHT, parts, title=title, class_="course-reeds")


def _to_ready(way: list[float]) -> list[float]:
    """A year's line up to the day it arrives, and no further."""
    arrived = next((place for place, each in enumerate(way) if each >= 1.0), len(way))
    return way[: max(arrived + 1, 2)]


def _months(first: date, last: date, x: Callable[[date], float]) -> Iterator[tuple[date, float]]:
    taken = -_ROOM
    day = (first.replace(day=1) + timedelta(days=32)).replace(day=1)
    for each in (first, *_firsts(day, last)):
        place = x(each)
        if place - taken >= _ROOM and place <= RIGHT - _ROOM + 6.0:
            taken = place
            yield each, place


def _firsts(day: date, last: date) -> Iterator[date]:
    while day <= last:
        yield day
        day = (day + timedelta(days=32)).replace(day=1)
