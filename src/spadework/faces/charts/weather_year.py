"""The past year's weather: nights to days as a band beside the usual band, with rain beneath."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Final

from markupsafe import Markup

from spadework.faces.charts.svg import element, line_path, number, picture, text
from spadework.faces.voice import Voice
from spadework.usecases.draw_weather import WeekDrawn

WIDTH: Final = 760.0
HEIGHT: Final = 330.0
LEFT: Final = 50.0
TOP: Final = 24.0
WARM_FOOT: Final = 220.0
RAIN_FOOT: Final = 304.0
RAIN_HIGH: Final = 62.0


def weather_year(weeks: Sequence[WeekDrawn], voice: Voice) -> Markup:
    """A year of weeks."""
    known = [
        value
        for week in weeks
        for value in (week.low_c, week.high_c, week.usual_low_c, week.usual_high_c)
        if value is not None
    ]
    if not known:
        return Markup("")
    low, high = min(*known, 0.0) - 1.0, max(known) + 1.0
    wide = (WIDTH - LEFT) / len(weeks)

    def x(place: float) -> float:
        return LEFT + wide * place

    def y(temp_c: float) -> float:
        return WARM_FOOT - (WARM_FOOT - TOP) * (temp_c - low) / (high - low)

    parts = []
    usual = [
        (x(at + 0.5), y(week.usual_high_c), y(week.usual_low_c))
        for at, week in enumerate(weeks)
        if week.usual_high_c is not None and week.usual_low_c is not None
    ]
    outline = [(px, top) for px, top, _ in usual] + [(px, foot) for px, _, foot in reversed(usual)]
    if outline:
        parts.append(element("path", d=line_path(outline, close=True), class_="usual"))
    for level in range(-30, 50, 10):
        if low < level < high:
            class_ = "freezing" if level == 0 else "level"
            parts.append(
                element("path", d=f"M{number(LEFT)},{number(y(level))}H{number(WIDTH)}", class_=class_)
            )
            parts.append(
                text(LEFT - 6.0, y(level) + 4.0, voice.temp(level), class_="tick", text_anchor="end")
            )
    most = max((week.rain_mm or 0.0 for week in weeks), default=0.0) or 1.0
    for at, week in enumerate(weeks):
        if week.low_c is not None and week.high_c is not None:
            tall = max(y(week.low_c) - y(week.high_c), 1.5)
            class_ = "band filled" if week.filled_days > 3 else "band"
            parts.append(
                element(
                    "rect",
                    x=x(at + 0.2),
                    y=y(week.high_c),
                    width=0.6 * wide,
                    height=tall,
                    rx=2.0,
                    class_=class_,
                )
            )
        if week.rain_mm:
            tall = RAIN_HIGH * week.rain_mm / most
            parts.append(
                element(
                    "rect", x=x(at + 0.2), y=RAIN_FOOT - tall, width=0.6 * wide, height=tall, class_="rain"
                )
            )
        day = week.first
        if any((day + timedelta(days=step)).day == 1 for step in range(7)):
            month = day + timedelta(days=6)
            parts.append(
                element("path", d=f"M{number(x(at))},{number(TOP)}V{number(RAIN_FOOT)}", class_="month")
            )
            parts.append(text(x(at) + 3.0, HEIGHT - 8.0, f"{month:%b}", class_="tick"))
    parts.append(element("path", d=f"M{number(LEFT)},{number(RAIN_FOOT)}H{number(WIDTH)}", class_="foot"))
    parts.append(
        text(LEFT - 6.0, RAIN_FOOT - RAIN_HIGH + 4.0, voice.rain(most), class_="tick", text_anchor="end")
    )
    return picture(
        WIDTH,
        HEIGHT,
        parts,
        title=f"Weeks from {voice.day(weeks[0].first)} to today: nights to days, and rain.",
        about="The table says the same.",
        class_="weather-year",
        size=(WIDTH, HEIGHT),
    )
