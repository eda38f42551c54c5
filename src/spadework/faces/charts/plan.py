"""The plan to scale: beds, plants at their spacing, covers as hatching; a round as a line between pegs."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias
from urllib.parse import quote

from markupsafe import Markup

from spadework.faces.charts.svg import element, line_path, number, picture, text
from spadework.usecases.show_ground import BedDrawn, Ground

SCALE: Final = 24.0
"""Units of the picture to a metre."""

MARGIN: Final = 22.0

_At: TypeAlias = Callable[[tuple[float, float]], tuple[float, float]]


@dataclass(frozen=True)
class Peg:
    """A stop of the round on the plan."""

    number: int
    bed: str


def plan_picture(
    ground: Ground, *, pegs: Sequence[Peg] = (), links: bool = True, title: str = "", marked: str = ""
) -> Markup:
    """The plan.

    Parameters
    ----------
    ground : Ground
    pegs : sequence of Peg
        Stops in walking order; beds that are not on the plot are left out.
    links : bool
        Each bed leads to its page.
    title : str
    marked : str
        Key of a planting that stands out from the others.
    """
    beds = [bed for bed in ground.beds if bed.key not in ground.indoors]
    if not beds:
        return Markup('<p class="mute">No bed is on the plan yet.</p>')
    corners = [corner for bed in beds for corner in bed.corners]
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    bottom, top = min(y for _, y in corners), max(y for _, y in corners)

    def at(point: tuple[float, float]) -> tuple[float, float]:
        return MARGIN + SCALE * (point[0] - left), MARGIN + SCALE * (top - point[1])

    on_round = {peg.bed for peg in pegs}
    # what holds other beds is drawn beneath them
    holders = {bed.inside for bed in beds}
    parts = [
        _bed(bed, at, on_round=bed.key in on_round, holds=bed.key in holders, links=links, marked=marked)
        for bed in sorted(beds, key=lambda bed: bed.key not in holders)
    ]
    places = {bed.key: at(_middle(bed)) for bed in beds}
    parts += _line(pegs, places)
    names = ", ".join(bed.name for bed in beds)
    return picture(
        2 * MARGIN + SCALE * (right - left),
        2 * MARGIN + SCALE * (top - bottom),
        parts,
        title=title or f"Plan of {ground.name}, north up:",
        about=names + ".",
        class_="plan",
        links=links,
    )


def _middle(bed: BedDrawn) -> tuple[float, float]:
    return sum(x for x, _ in bed.corners) / 4, sum(y for _, y in bed.corners) / 4


def _bed(bed: BedDrawn, at: _At, *, on_round: bool, holds: bool, links: bool, marked: str) -> str:
    kind = f"bed {bed.shape}{' on-round' if on_round else ''}{' holds' if holds else ''}"
    outline = [at(corner) for corner in bed.corners]
    x, y = min(x for x, _ in outline), min(y for _, y in outline)
    parts = [
        element(
            "circle", cx=at(_middle(bed))[0], cy=at(_middle(bed))[1], r=SCALE * bed.width_m / 2, class_=kind
        )
        if bed.is_round
        else element("path", d=line_path(outline, close=True), class_=kind)
    ]
    origin, along, across = at(bed.corners[0]), at(bed.corners[3]), at(bed.corners[1])
    east = ((across[0] - origin[0]) / bed.width_m, (across[1] - origin[1]) / bed.width_m)
    north = ((along[0] - origin[0]) / bed.length_m, (along[1] - origin[1]) / bed.length_m)
    for place, planting in enumerate(bed.plantings):
        radius = number(min(max(SCALE * planting.room_m * 0.42, 0.9), 9.0))
        dots = "".join(
            f"M{number(origin[0] + a * east[0] + b * north[0])},"
            f"{number(origin[1] + a * east[1] + b * north[1])}h0"
            for a, b in planting.places
        )
        if dots:
            width = number(2 * float(radius))
            other = " other" if marked and planting.key != marked else ""
            parts.append(
                element("path", d=dots, class_=f"plants tone-{place % 3}{other}", stroke_width=width)
            )
    if bed.covers:
        parts.append(_hatching(outline))
    if bed.locked:
        parts.append(text(x + 3.0, y + 14.0, "⚿", class_="lock"))
    parts.append(text(x, y - 4.0, bed.name, class_="name"))
    inside = "".join(parts)
    if links:
        return element("a", inside, href=f"/bed/{quote(bed.key)}", aria_label=_said(bed))
    return element("g", inside)


def _said(bed: BedDrawn) -> str:
    grows = ", ".join(dict.fromkeys(planting.name for planting in bed.plantings)) or "nothing grows"
    covers = f"; under {', '.join(bed.covers)}" if bed.covers else ""
    return f"{bed.name}: {grows}{covers}{'; locked' if bed.locked else ''}"


def _hatching(outline: Sequence[tuple[float, float]]) -> str:
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


def _line(pegs: Sequence[Peg], places: Mapping[str, tuple[float, float]]) -> list[str]:
    shown = [peg for peg in pegs if peg.bed in places]
    if not shown:
        return []
    taut = line_path([places[peg.bed] for peg in shown])
    parts = [element("path", d=taut, class_="garden-line")]
    for peg in shown:
        x, y = places[peg.bed]
        parts.append(
            element(
                "path",
                d=f"M{number(x - 11)},{number(y - 24)}h22v16l-11,11l-11,-11Z",
                class_="peg",
            )
        )
        parts.append(text(x, y - 9.0, str(peg.number), class_="peg-number"))
    return parts
