"""The warmth of a bed's soil: one line up to today, then a reed a year."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from markupsafe import Markup

from spadework.faces.charts.svg import element, line_path, number, picture, text
from spadework.faces.voice import Voice
from spadework.usecases.show_bed_ahead import SoilTrace

WIDTH: Final = 360.0
HEIGHT: Final = 170.0
LEFT: Final = 40.0
RIGHT: Final = 354.0
TOP: Final = 22.0
BOTTOM: Final = 142.0

STEP_C: Final = 5.0
STEP_F: Final = 10.0


def soil_trace(soil: SoilTrace, today: date, voice: Voice, *, title: str) -> Markup:
    """The trace.

    Parameters
    ----------
    soil : SoilTrace
    today : date
    voice : Voice
        Degrees and dates in the garden's own.
    title : str
        What it shows, in words.
    """
    values = [*soil.past, *(each for reed in soil.reeds for each in reed), *(c for _, c in soil.readings)]
    scale = _scale(min(values), max(values), us=voice.us)
    low, high = scale[0], scale[-1]
    span = max(len(soil.days) - 1, 1)

    def x(place: float) -> float:
        return LEFT + (RIGHT - LEFT) * place / span

    def y(temp_c: float) -> float:
        return BOTTOM - (BOTTOM - TOP) * (temp_c - low) / (high - low)

    parts = []
    for temp_c in scale:
        at = number(y(temp_c))
        parts.append(element("path", d=f"M{number(LEFT)},{at}H{number(RIGHT)}", class_="trace-line"))
        parts.append(
            text(
                LEFT - 5.0,
                y(temp_c) + 4.0,
                voice.temp(temp_c).partition(" ")[0] + "°",
                class_="trace-word",
                text_anchor="end",
            )
        )
    now = len(soil.past) - 1
    for reed, made in zip(soil.reeds, soil.made, strict=True):
        points = [(x(now + place), y(each)) for place, each in enumerate(reed)]
        parts.append(element("path", d=line_path(points), class_=f"warm-reed{' made' if made else ''}"))
    past = [(x(place), y(each)) for place, each in enumerate(soil.past)]
    parts.append(element("path", d=line_path(past), class_="warm-past"))
    pin = number(x(now))
    parts.append(element("path", d=f"M{pin},{number(TOP - 8)}V{number(BOTTOM)}", class_="pin"))
    parts.append(element("circle", cx=x(now), cy=TOP - 8.0, r=3.5, class_="pin-head"))
    parts.append(text(x(now) + 7.0, TOP - 6.0, "today", class_="trace-today"))
    parts += [
        element("circle", cx=x((day - soil.days[0]).days), cy=y(temp_c), r=3.6, class_="warm-reading")
        for day, temp_c in soil.readings
    ]
    for back in range(-6, 7, 2):
        day = today + timedelta(weeks=back)
        place = (day - soil.days[0]).days
        if 0 <= place <= span:
            parts.append(element("path", d=f"M{number(x(place))},{number(BOTTOM)}v5", class_="trace-line"))
            anchor = "end" if place > span - 4 else "start" if place < 4 else "middle"
            parts.append(
                text(
                    x(place), BOTTOM + 19.0, voice.calendar_day(day), class_="trace-word", text_anchor=anchor
                )
            )
    return picture(WIDTH, HEIGHT, parts, title=title, class_="soil-trace")


def _scale(low_c: float, high_c: float, *, us: bool) -> list[float]:
    """Degrees at which lines are drawn, whole in the garden's own, round all that is shown."""
    step = STEP_F if us else STEP_C

    def own(temp_c: float) -> float:
        return temp_c * 1.8 + 32.0 if us else temp_c

    first, last = int(own(low_c) // step), -int(-own(high_c) // step)
    last = max(last, first + 1)
    shown = [step * each for each in range(first, last + 1)]
    return [(each - 32.0) / 1.8 if us else each for each in shown]
