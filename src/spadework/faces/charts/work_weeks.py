"""The work of the last weeks: a furrow a week, as long as the work took, parted by its kinds."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from markupsafe import Markup

from spadework.faces.charts.svg import element, number, picture, text
from spadework.faces.voice import Voice
from spadework.usecases.season_work import WeekWorked

WIDTH: Final = 360.0
ROW: Final = 42.0
HIGH: Final = 14.0
_WORD: Final = 6.3
"""Room a letter takes, of the picture's own units."""


def hours_said(minutes: float) -> str:
    """Minutes as a person says them."""
    hours, rest = divmod(round(minutes), 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def work_weeks(weeks: Sequence[WeekWorked], voice: Voice) -> Markup:
    """Weeks one beneath the other, the last on top.

    Parameters
    ----------
    weeks : sequence of WeekWorked
        The earliest first.
    voice : Voice
    """
    longest = max((week.minutes for week in weeks), default=0.0) or 1.0
    parts = []
    for place, week in enumerate(reversed(weeks)):
        base = ROW * (place + 1) - 6.0
        said = f"from {voice.calendar_day(week.first)}: {hours_said(week.minutes)}"
        parts.append(text(0.0, base - HIGH - 6.0, said, class_="work-word"))
        x = 0.0
        for kind, minutes in week.kinds.items():
            wide = WIDTH * minutes / longest
            parts.append(
                element("rect", x=x, y=base - HIGH, width=max(wide - 1.5, 0.8), height=HIGH, class_="work")
            )
            if wide > _WORD * len(kind) + 8.0:
                parts.append(text(x + 4.0, base - 3.2, kind, class_="work-kind"))
            x += wide
        if not week.kinds:
            parts.append(element("path", d=f"M0,{number(base)}h24", class_="work-none"))
    said = "; ".join(f"from {voice.calendar_day(week.first)} {hours_said(week.minutes)}" for week in weeks)
    return picture(
        WIDTH,
        ROW * len(weeks),
        parts,
        title="Time the work took, week by week:",
        about=f"{said}.",
        class_="work-weeks",
    )
