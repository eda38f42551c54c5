"""What waiting costs: a wet line from today on, under each day a drop as large as what is lost by then."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from math import sqrt
from typing import Final

from markupsafe import Markup

from spadework.advice.job import Window
from spadework.faces.charts.svg import element, number, picture, text
from spadework.faces.voice import Voice
from spadework.usecases.open_job import Waiting

WIDTH: Final = 440.0
HEIGHT: Final = 148.0
LEFT: Final = 22.0
RIGHT: Final = 424.0
LINE: Final = 46.0
SAG: Final = 9.0
DATES: Final = 122.0

WHOLE: Final = 9.2
"""Half the width of a drop that is all of it; its area goes with the share."""

BESIDE_TODAY: Final = 56.0
"""Room the word of the pin takes."""

SEEN: Final = 0.004
"""A smaller share is no drop."""

_WEEK: Final = 7


def waiting_drops(ahead: Waiting, window: Window, voice: Voice, *, title: str) -> Markup:
    """The line of drops, with a pin for today and marks where its window opens or closes.

    Parameters
    ----------
    ahead : Waiting
    window : Window
    voice : Voice
    title : str
        What it shows, in words.
    """
    days = ahead.days
    last = max(len(days) - 1, 1)

    def x(at: int) -> float:
        return LEFT + (RIGHT - LEFT) * at / last

    def y(at: int) -> float:
        share = at / last
        return LINE + 4.0 * SAG * share * (1.0 - share)

    parts = [
        element(
            "path",
            d=f"M{number(LEFT)},{number(LINE)}Q{number((LEFT + RIGHT) / 2)},{number(LINE + 2 * SAG)} "
            f"{number(RIGHT)},{number(LINE)}",
            class_="wet-line",
        )
    ]
    for place, words, class_ in _marks(days, window, voice):
        anchor, beside = ("end", -6.0) if x(place) > RIGHT - 96.0 else ("start", 6.0)
        parts.append(element("path", d=f"M{number(x(place))},18V{number(DATES - 16)}", class_=class_))
        low = 25.0 if x(place) - LEFT > BESIDE_TODAY else 37.0  # clear of the word beside the pin
        parts.append(text(x(place) + beside, low, words, class_=f"drop-word {class_}", text_anchor=anchor))
    for at, (mean, poor) in enumerate(zip(ahead.left, ahead.poor, strict=True)):
        if 1.0 - poor >= SEEN and poor < mean:
            parts.append(element("path", d=_drop(x(at), y(at), 1.0 - poor), class_="drop poor"))
        if 1.0 - mean >= SEEN:
            parts.append(element("path", d=_drop(x(at), y(at), 1.0 - mean), class_="drop"))
    for at in range(_WEEK, len(days), _WEEK):
        anchor, foot = ("end", RIGHT + 8.0) if at == last else ("middle", x(at))
        parts.append(text(foot, DATES, voice.calendar_day(days[at]), class_="drop-word", text_anchor=anchor))
        lost = 100.0 * (1.0 - ahead.left[at])
        said = f"{lost:.0f} in 100" if lost >= 0.5 else "nothing"
        parts.append(text(foot, DATES + 18.0, said, class_="drop-lost", text_anchor=anchor))
    parts.append(element("path", d=f"M{number(LEFT)},14V{number(DATES - 16)}", class_="pin"))
    parts.append(element("circle", cx=LEFT, cy=14.0, r=4.0, class_="pin-head"))
    parts.append(text(LEFT + 8.0, 19.0, "today", class_="drop-today"))
    return picture(
        WIDTH, HEIGHT, parts, title=title, about="The table says the same.", class_="waiting-drops"
    )


def _drop(x: float, y: float, share: float) -> str:
    """A drop that hangs from a point, its area a share of the whole one's."""
    r = WHOLE * sqrt(max(share, 0.0))
    top, low = y, y + 2.1 * r
    return (
        f"M{number(x)},{number(top)}C{number(x + 0.25 * r)},{number(top + 0.7 * r)} "
        f"{number(x + r)},{number(low - 0.9 * r)} {number(x + r)},{number(low)}"
        f"A{number(r)},{number(r)} 0 0 1 {number(x - r)},{number(low)}"
        f"C{number(x - r)},{number(low - 0.9 * r)} {number(x - 0.25 * r)},{number(top + 0.7 * r)} "
        f"{number(x)},{number(top)}Z"
    )


def _marks(days: Sequence[date], window: Window, voice: Voice) -> list[tuple[int, str, str]]:
    """Where the window opens later than today, and where it closes, if that is within the days drawn."""
    opens, closes = (window.opens - days[0]).days, (window.closes - days[0]).days
    found = []
    if 0 < opens < len(days):
        found.append((opens, f"opens {voice.calendar_day(window.opens)}", "opens-on"))
    if not window.open_ended and max(opens, 0) < closes < len(days):
        found.append((closes, f"best by {voice.calendar_day(window.closes)}", "last-good"))
    return found
