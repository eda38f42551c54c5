"""The plan while a bed is changed: the plot with a metre grid, the others at rest, and the one that moves."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from markupsafe import Markup

from spadework.faces.charts.plan import Frame, beds_drawn
from spadework.faces.charts.plan_bed import SCALE
from spadework.faces.charts.svg import element, line_path, number, picture
from spadework.usecases.show_ground import BedDrawn, Ground

ROOM_M: Final = 2.0
"""Ground shown round the outermost beds, to move one outwards. Our own rule."""

MOST_LINES: Final = 120


def changing_picture(ground: Ground, moving: BedDrawn | None, *, grid_m: float = 1.0) -> Markup:
    """The plan with one bed to be changed.

    Parameters
    ----------
    ground : Ground
    moving : BedDrawn or None
        The bed, which may be one that is not made yet; None for none.
    grid_m : float  [m]
        Between lines on the ground.
    """
    still = [
        bed
        for bed in ground.beds
        if bed.key not in ground.indoors and (moving is None or bed.key != moving.key)
    ]
    if moving is None and not still:
        return Markup('<p class="mute">No bed is on the plan yet.</p>')
    frame = Frame.round_([*still, *([moving] if moving else [])], ROOM_M)
    parts = [element("path", d="".join(_grid(frame, grid_m)), class_="grid")]
    parts += beds_drawn(still, frame, link="/beds?bed=")
    given: dict[str, object] = {}
    if moving is not None:
        drawn = "".join(beds_drawn([moving], frame, named=False))
        outline = line_path([frame.at(corner) for corner in moving.corners], close=True)
        parts.append(element("path", d=outline, class_="as-it-was"))
        parts.append(element("g", drawn, class_="carried"))
        edges = _edges(still)
        given = {
            "data_left": number(frame.left),
            "data_top": number(frame.top),
            "data_scale": number(SCALE),
            "data_name": moving.name,
            "data_round": "1" if moving.is_round else "",
            "data_xs": " ".join(map(number, edges[0])),
            "data_ys": " ".join(map(number, edges[1])),
        }
    what = f"The plan, with {moving.name} to be changed." if moving else "The plan, a bed to be chosen."
    others = ", ".join(bed.name for bed in still)
    return picture(
        *frame.size,
        parts,
        title=what,
        about=f"{others}." if others else "",
        class_="plan change",
        links=True,
        given=given,
    )


def _grid(frame: Frame, step_m: float) -> Iterator[str]:
    def lines(low: float, high: float) -> Iterator[float]:
        first = int(low // step_m) + 1
        count = min(int((high - low) // step_m), MOST_LINES)
        yield from (step_m * (first + at) for at in range(count))

    for x in lines(frame.left, frame.right):
        yield line_path([frame.at((x, frame.bottom)), frame.at((x, frame.top))])
    for y in lines(frame.bottom, frame.top):
        yield line_path([frame.at((frame.left, y)), frame.at((frame.right, y))])


def _edges(beds: list[BedDrawn]) -> tuple[list[float], list[float]]:
    """Where sides of other beds lie, east and north, for a bed to line up with."""
    square = [bed for bed in beds if not bed.turn_deg % 90.0]
    xs = {round(x, 3) for bed in square for x, _ in bed.corners}
    ys = {round(y, 3) for bed in square for _, y in bed.corners}
    return sorted(xs), sorted(ys)
