"""One bed of the plan: its outline, plants as they are by now, drills, hatching, lock and name."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final, TypeAlias
from urllib.parse import quote

from markupsafe import escape

from spadework.faces.charts.plan_names import NameAt
from spadework.faces.charts.svg import element, line_path, number, text
from spadework.usecases.show_ground import BedDrawn, PlantsDrawn

SCALE: Final = 24.0
"""Units of the picture to a metre."""

WIDEST: Final = 16.0
"""Widest dot of a plant. Our own rule."""

LEAST: Final = 1.8
"""Width of the dot of a seedling. Our own rule."""

Pair: TypeAlias = tuple[float, float]
At: TypeAlias = Callable[[Pair], Pair]


def bed_drawn(
    bed: BedDrawn,
    at: At,
    *,
    name: NameAt | None,
    mark: NameAt | None = None,
    on_round: bool = False,
    holds: bool = False,
    link: str = "",
    marked: str = "",
) -> str:
    """A bed.

    Parameters
    ----------
    bed : BedDrawn
    at : At
        From metres on the plot to the picture.
    name : NameAt or None
        Where its name stands.
    mark : NameAt or None
        Where its short mark stands, which takes the name's place on a narrow screen.
    on_round, holds : bool
        It is a stop of the round; other beds lie in it.
    link : str
        Where it leads, its key behind; empty for nowhere.
    marked : str
        Key of a planting that stands out from the others.
    """
    parts = [_outline(bed, at, on_round=on_round, holds=holds)]
    outline = [at(corner) for corner in bed.corners]
    for place, planting in enumerate(bed.plantings):
        parts.append(_plants(planting, bed, outline, place, marked))
    if bed.covers:
        parts.append(_hatching(outline))
    if bed.locked:
        parts.append(_padlock(min(x for x, _ in outline), min(y for _, y in outline)))
    for each, look in ((name, "name" if mark is None else "name full"), (mark, "name mark")):
        if each is not None:
            parts += [
                text(
                    x,
                    y,
                    line,
                    class_=look,
                    font_size=each.size,
                    text_anchor=each.anchor if each.anchor != "start" else None,
                )
                for x, y, line in each.lines
            ]
    inside = "".join(parts)
    if link:
        said = said_of(bed)
        return element(
            "a",
            element("title", str(escape(said))) + inside,
            href=f"{link}{quote(bed.key)}",
            aria_label=said,
        )
    return element("g", inside)


def said_of(bed: BedDrawn) -> str:
    """A bed in words."""
    grows = ", ".join(dict.fromkeys(_grows(planting) for planting in bed.plantings)) or "nothing grows"
    covers = f"; under {', '.join(bed.covers)}" if bed.covers else ""
    return f"{bed.name}: {grows}{covers}{'; locked' if bed.locked else ''}"


def _grows(planting: PlantsDrawn) -> str:
    return planting.name if planting.up else f"{planting.name}, not up yet"


def _outline(bed: BedDrawn, at: At, *, on_round: bool, holds: bool) -> str:
    kind = f"bed {bed.shape}{' on-round' if on_round else ''}{' holds' if holds else ''}"
    if bed.is_round:
        x, y = at((sum(x for x, _ in bed.corners) / 4, sum(y for _, y in bed.corners) / 4))
        return element("circle", cx=x, cy=y, r=SCALE * bed.width_m / 2, class_=kind)
    return element("path", d=line_path([at(corner) for corner in bed.corners], close=True), class_=kind)


def _plants(planting: PlantsDrawn, bed: BedDrawn, outline: Sequence[Pair], place: int, marked: str) -> str:
    """Plants as dots as wide as they have grown; what is not up yet as its drill."""
    origin, across, _, along = outline
    east = ((across[0] - origin[0]) / bed.width_m, (across[1] - origin[1]) / bed.width_m)
    north = ((along[0] - origin[0]) / bed.length_m, (along[1] - origin[1]) / bed.length_m)

    def to(spot: Pair) -> Pair:
        return origin[0] + spot[0] * east[0] + spot[1] * north[0], origin[1] + spot[0] * east[1] + spot[
            1
        ] * north[1]

    other = " other" if marked and planting.key != marked else ""
    if not planting.up:
        drills = "".join(line_path([to(one), to(other)]) for one, other in planting.drills)
        return element("path", d=drills, class_=f"drill{other}") if drills else ""
    dots = "".join(f"M{number(x)},{number(y)}h0" for x, y in map(to, planting.places))
    if not dots:
        return ""
    full = min(max(2 * SCALE * planting.room_m * 0.46, LEAST), WIDEST)
    wide = max(LEAST, full * max(0.15, planting.grown))
    return element("path", d=dots, class_=f"plants tone-{place % 3}{other}", stroke_width=number(wide))


def _hatching(outline: Sequence[Pair]) -> str:
    """Lines across a bed, as wide as the cloth lies."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = outline
    lines = []
    steps = max(3, round(max(abs(dx - ax), abs(dy - ay)) / 9.0))
    for step in range(steps + 1):
        share = step / steps
        start = (ax + (dx - ax) * share, ay + (dy - ay) * share)
        end = (bx + (cx - bx) * share, by + (cy - by) * share)
        lines.append(line_path([start, end]))
    veil = element("path", d=line_path(outline, close=True), class_="veil")
    return veil + element("path", d="".join(lines), class_="hatching")


def _padlock(x: float, y: float) -> str:
    left, top = x + 3.0, y + 3.0
    bow = f"M{number(left + 2)},{number(top + 5)}v-2a3,3,0,0,1,6,0v2"
    body = f"M{number(left)},{number(top + 5)}h10v7h-10Z"
    return element("path", d=bow, class_="lock-bow") + element("path", d=body, class_="lock-body")
