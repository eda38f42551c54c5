"""The leaf window: a leaf from opens to closes, widest at its best, with a pin for today."""

from __future__ import annotations

from datetime import date, timedelta

from markupsafe import Markup

from spadework.advice.job import Window
from spadework.faces.charts.svg import element, number, picture
from spadework.faces.voice import Voice

WIDTH, HEIGHT = 220.0, 34.0
BACK_DAYS, AHEAD_DAYS = 5, 21
"""Days shown before and after today."""


def leaf_window(window: Window, today: date, voice: Voice) -> Markup:
    """A window as a leaf on a line of four weeks."""
    first = today - timedelta(days=BACK_DAYS)

    def x(day: date) -> float:
        share = ((day - first).days + 0.5) / (BACK_DAYS + AHEAD_DAYS + 1)
        return 2.0 + (WIDTH - 4.0) * min(max(share, 0.0), 1.0)

    opens, best, closes, now = (x(day) for day in (window.opens, window.best, window.closes, today))
    closes = max(closes, opens + 6.0)
    best = min(max(best, opens + 2.0), closes - 2.0)
    middle = HEIGHT / 2 + 2.0
    # the widest place lies at the best day; a leaf that is best at once is widest near its stalk
    lean = min(max(best, opens + 0.3 * (closes - opens)), closes - 0.3 * (closes - opens))
    leaf = (
        f"M{number(opens)},{number(middle)} C{number(opens + 0.5 * (lean - opens))},{number(middle - 11)} "
        f"{number(lean)},{number(middle - 11)} {number(closes)},{number(middle)} "
        f"C{number(lean)},{number(middle + 11)} {number(opens + 0.5 * (lean - opens))},{number(middle + 11)} "
        f"{number(opens)},{number(middle)}Z"
    )
    ends = "nothing closes it yet" if window.open_ended else f"closes {voice.day(window.closes)}"
    return picture(
        WIDTH,
        HEIGHT,
        [
            element("path", d=f"M0,{number(middle)}H{number(WIDTH)}", class_="thread"),
            element("path", d=leaf, class_="leaf open-ended" if window.open_ended else "leaf"),
            element("path", d=f"M{number(opens)},{number(middle)}H{number(closes)}", class_="rib"),
            element("path", d=f"M{number(now)},4V{number(HEIGHT - 2)}", class_="pin"),
            element("circle", cx=now, cy=4.5, r=3.2, class_="pin-head"),
        ],
        title=f"Opens {voice.day(window.opens)}, best {voice.day(window.best)}, {ends}; the pin is today.",
        class_="leaf-window",
    )
