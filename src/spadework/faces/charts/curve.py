"""A curve over one thing: a calm line, a pin where one stands, and few numbers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, floor, log10
from typing import Final

from markupsafe import Markup

from spadework.faces.charts.svg import element, line_path, number, picture, text

WIDTH: Final = 440.0
HEIGHT: Final = 260.0
LEFT: Final = 52.0
RIGHT: Final = 428.0
TOP: Final = 30.0
GROUND: Final = 224.0


def curve(
    points: Sequence[tuple[float, float | None]],
    *,
    at: tuple[float, float | None] | None,
    x_word: Callable[[float], str],
    y_word: Callable[[float], str],
    title: str,
    at_word: str = "",
    x_ticks: Sequence[float] | None = None,
) -> Markup:
    """A curve.

    Parameters
    ----------
    points : sequence of (float, float or None)
        In the units shown; None where nothing is said.
    at : (float, float or None) or None
        Where one stands on it.
    x_word, y_word : callable
        A tick in words.
    title : str
    at_word : str
        Said at the pin.
    x_ticks : sequence of float or None
        Where the foot is named; round numbers where None.
    """
    known = [y for _, y in points if y is not None]
    if not known:
        return Markup("")
    x_low, x_high = points[0][0], points[-1][0]
    y_low, y_high = _span(known)

    def x(value: float) -> float:
        return LEFT + (RIGHT - LEFT) * (value - x_low) / ((x_high - x_low) or 1.0)

    def y(value: float) -> float:
        return GROUND - (GROUND - TOP) * (value - y_low) / ((y_high - y_low) or 1.0)

    parts = []
    for tick in _ticks(y_low, y_high, 4):
        parts.append(element("path", d=f"M{number(LEFT)},{number(y(tick))}H{number(RIGHT)}", class_="level"))
        parts.append(text(LEFT - 8.0, y(tick) + 4.0, y_word(tick), class_="tick", text_anchor="end"))
    parts.append(element("path", d=f"M{number(LEFT)},{number(GROUND)}H{number(RIGHT)}", class_="foot"))
    for tick in _ticks(x_low, x_high, 6) if x_ticks is None else x_ticks:
        parts.append(element("path", d=f"M{number(x(tick))},{number(GROUND)}v5", class_="foot"))
        parts.append(text(x(tick), GROUND + 22.0, x_word(tick), class_="tick", text_anchor="middle"))
    run: list[tuple[float, float]] = []
    for value, result in [*points, (x_high, None)]:
        if result is not None:
            run.append((x(value), y(result)))
        elif run:
            parts.append(element("path", d=line_path(run), class_="curve"))
            run = []
    if at is not None and x_low <= at[0] <= x_high:
        parts.append(
            element("path", d=f"M{number(x(at[0]))},{number(TOP - 10)}V{number(GROUND)}", class_="pin")
        )
        if at[1] is not None:
            parts.append(element("circle", cx=x(at[0]), cy=y(at[1]), r=5.0, class_="pin-head"))
        anchor, beside = ("end", -8.0) if x(at[0]) > 0.6 * WIDTH else ("start", 8.0)
        parts.append(text(x(at[0]) + beside, TOP - 8.0, at_word, class_="at-word", text_anchor=anchor))
    return picture(
        WIDTH, HEIGHT, parts, title=title, about="The table says the same.", class_="curve-picture"
    )


def _span(known: Sequence[float]) -> tuple[float, float]:
    """From nothing on where it makes sense, with a little room."""
    low, high = min(known), max(known)
    if 0.0 <= low <= 0.6 * high or low == high == 0.0:
        low = 0.0
    elif low == high:
        low, high = low - 1.0, high + 1.0
    step = _step(low, high, 4)
    return floor(low / step) * step, ceil(high / step - 1e-9) * step or 1.0


def _step(low: float, high: float, many: int) -> float:
    rough = max((high - low) / many, 1e-9)
    power = 10.0 ** floor(log10(rough))
    return next(each * power for each in (1.0, 2.0, 2.5, 5.0, 10.0) if each * power >= rough * 0.999)


def _ticks(low: float, high: float, many: int) -> list[float]:
    step = _step(low, high, many)
    first = ceil(low / step - 1e-9)
    return [place * step for place in range(first, floor(high / step + 1e-9) + 1)]
