"""The plan to scale: beds, plants at their spacing, covers as hatching; a round as a line between pegs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from markupsafe import Markup

from spadework.faces.charts.plan_bed import SCALE, Pair, bed_drawn
from spadework.faces.charts.plan_marks import bed_marks, marks_said
from spadework.faces.charts.plan_names import Box, NameAt, Named, at_the_end, name_places
from spadework.faces.charts.svg import element, line_path, number, picture, text
from spadework.usecases.show_ground import BedDrawn, Ground

MARGIN: Final = 22.0

ALONE_M: Final = 0.25
"""Ground shown round a bed that is drawn alone. Our own rule."""


PHONE_PX: Final = 342.0
"""Points a plan has across on a common phone. Our own rule."""

MARK_PX: Final = 12.0
"""Height of a mark's letters there. Our own rule."""


@dataclass(frozen=True)
class Peg:
    """A stop of the round on the plan."""

    number: int
    bed: str


@dataclass(frozen=True)
class Frame:
    """The part of the plot that is shown.

    Parameters
    ----------
    left, bottom, right, top : float  [m]
    """

    left: float
    bottom: float
    right: float
    top: float

    @classmethod
    def round_(cls, beds: Sequence[BedDrawn], room_m: float = MARGIN / SCALE) -> Frame:
        """The frame round some beds, with room beside them."""
        corners = [corner for bed in beds for corner in bed.corners]
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        return cls(min(xs) - room_m, min(ys) - room_m, max(xs) + room_m, max(ys) + room_m)

    def at(self, point: Pair) -> Pair:
        """From metres on the plot to the picture."""
        return SCALE * (point[0] - self.left), SCALE * (self.top - point[1])

    @property
    def size(self) -> Pair:
        """Width and height of the picture."""
        return SCALE * (self.right - self.left), SCALE * (self.top - self.bottom)


def plan_picture(
    ground: Ground,
    *,
    pegs: Sequence[Peg] = (),
    links: bool = True,
    title: str = "",
    marked: str = "",
    marks: bool = False,
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
    marks : bool
        On a narrow screen beds bear short marks where their names would be too small to read; `plan_marks`
        says what they stand for.
    """
    beds = [bed for bed in ground.beds if bed.key not in ground.indoors]
    if not beds:
        return Markup('<p class="mute">No bed is on the plan yet.</p>')
    frame = Frame.round_(beds) if len(beds) > 1 else Frame.round_(beds, ALONE_M)
    parts = beds_drawn(
        beds,
        frame,
        on_round={peg.bed for peg in pegs},
        link="/bed/" if links else "",
        named=len(beds) > 1,
        marked=marked,
        marks=marks and _wide(frame),
    )
    parts += _line(pegs, {bed.key: frame.at(_middle(bed)) for bed in beds})
    names = ", ".join(bed.name for bed in beds)
    return picture(
        *frame.size,
        parts,
        title=title or f"Plan of {ground.name}, north up:",
        about=names + ".",
        class_="plan marks" if marks and _wide(frame) else "plan",
        links=links,
    )


def plan_marks(ground: Ground, only: Sequence[str] = ()) -> list[tuple[str, str]]:
    """What the marks on a plan stand for; empty where the names themselves can be read.

    Parameters
    ----------
    ground : Ground
    only : sequence of str
        Keys of the beds whose marks are told; empty for all.
    """
    beds = [bed for bed in ground.beds if bed.key not in ground.indoors]
    if len(beds) < 2 or not _wide(Frame.round_(beds)):
        return []
    return marks_said({bed.key: bed.name for bed in beds}, only)


def _wide(frame: Frame) -> bool:
    return frame.size[0] > PHONE_PX


def beds_drawn(
    beds: Sequence[BedDrawn],
    frame: Frame,
    *,
    on_round: set[str] | frozenset[str] = frozenset(),
    link: str = "",
    named: bool = True,
    marked: str = "",
    marks: bool = False,
) -> list[str]:
    """Beds with their names, what holds others beneath them.

    Parameters
    ----------
    beds : sequence of BedDrawn
    frame : Frame
    on_round : set of str
        Keys of those the round stops at.
    link : str
        Where each leads, its key behind; empty for nowhere.
    named : bool
        Whether their names stand by them.
    marked : str
    marks : bool
        As for `plan_picture`.
    """
    holders = {bed.inside for bed in beds if bed.inside}
    boxes = [Named(bed.key, bed.name, _box(bed, frame), bed.inside) for bed in beds]
    names = name_places(boxes, (0.0, 0.0, *frame.size)) if named else {}
    short: dict[str, NameAt] = {}
    if marks:
        said = bed_marks({bed.key: bed.name for bed in beds})
        size = MARK_PX * frame.size[0] / PHONE_PX
        boxes = [replace(each, name=said[each.key]) for each in boxes]
        short = name_places(boxes, (0.0, 0.0, *frame.size), (size, 0.85 * size))
        short |= {
            each.key: at
            for each in boxes
            if each.key not in holders and (at := at_the_end(each, size)) is not None
        }
    return [
        bed_drawn(
            bed,
            frame.at,
            name=names.get(bed.key),
            mark=short.get(bed.key),
            on_round=bed.key in on_round,
            holds=bed.key in holders,
            link=link,
            marked=marked,
        )
        for bed in sorted(beds, key=lambda bed: bed.key not in holders)
    ]


def _box(bed: BedDrawn, frame: Frame) -> Box:
    corners = [frame.at(corner) for corner in bed.corners]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _middle(bed: BedDrawn) -> Pair:
    return sum(x for x, _ in bed.corners) / 4, sum(y for _, y in bed.corners) / 4


def _line(pegs: Sequence[Peg], places: Mapping[str, Pair]) -> list[str]:
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
