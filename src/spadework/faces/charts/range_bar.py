"""A number with its range on a line shared with its like, so that they can be compared at a glance."""

from __future__ import annotations

from markupsafe import Markup

from spadework.faces.charts.svg import element, picture

WIDTH = 120.0
HEIGHT = 16.0
_EDGE = 5.0


def range_bar(
    value: float, low: float | None, high: float | None, scale: tuple[float, float], *, said: str
) -> Markup:
    """A bar from low to high and a bead at the value, on a thread from one end of the scale to the other.

    Parameters
    ----------
    value : float
    low, high : float or None
        None where no range is known: a bead alone.
    scale : (float, float)
        Ends of the thread, in the value's unit.
    said : str
        The same in words.
    """
    least, most = scale
    wide = (most - least) or 1.0

    def at(number: float) -> float:
        return _EDGE + (WIDTH - 2 * _EDGE) * min(max((number - least) / wide, 0.0), 1.0)

    middle = HEIGHT / 2.0
    parts = [element("path", d=f"M{_EDGE} {middle}H{WIDTH - _EDGE}", class_="thread")]
    if least < 0.0 < most:
        parts.append(
            element("path", d=f"M{at(0.0):.2f} {middle - 4.0}V{middle + 4.0}", class_="thread at-nought")
        )
    if low is not None and high is not None:
        left, right = at(low), at(high)
        parts.append(
            element(
                "rect",
                x=left,
                y=middle - 3.0,
                width=max(right - left, 2.0),
                height=6.0,
                rx=3.0,
                class_="range-span",
            )
        )
    parts.append(element("circle", cx=at(value), cy=middle, r=4.0, class_="range-bead"))
    return picture(WIDTH, HEIGHT, parts, title=said, class_="range-bar", size=(WIDTH, HEIGHT))
