"""Where described beds lie: in rows beside each other, beside what is there, never over it.

A group of beds is set as one block. It is pushed on, in the direction asked for, past whatever is in its way;
each push ends beyond one thing that is there, so it comes to an end.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from spadework.garden.geometry import Outline

Side: TypeAlias = Literal["north", "south", "east", "west"]

_EVEN: Final = 1e-6
_LEAST_GAP_M: Final = 0.3
"""What a foot needs between two beds inside a tunnel. Class: common-practice."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle that is not turned."""

    west: float
    south: float
    east: float
    north: float

    def near(self, other: Box, gap_m: float) -> bool:
        """Whether the other lies over it or closer than a gap."""
        return (
            self.west < other.east + gap_m - _EVEN
            and other.west < self.east + gap_m - _EVEN
            and self.south < other.north + gap_m - _EVEN
            and other.south < self.north + gap_m - _EVEN
        )

    def moved(self, east_m: float, north_m: float) -> Box:
        """The same, elsewhere."""
        return Box(self.west + east_m, self.south + north_m, self.east + east_m, self.north + north_m)


def box_of(outlines: Iterable[Outline]) -> Box:
    """The smallest unturned rectangle round some beds."""
    corners = [corner for outline in outlines for corner in outline.corners]
    return Box(
        min(x for x, _ in corners),
        min(y for _, y in corners),
        max(x for x, _ in corners),
        max(y for _, y in corners),
    )


def block(
    count: int,
    width_m: float,
    length_m: float,
    *,
    rows: int,
    path_m: float,
    row_path_m: float,
    turn_deg: float,
) -> list[Outline]:
    """Beds in rows, numbered as a page is read: the northern row first, each from the west.

    Parameters
    ----------
    count, rows : int
        The first rows hold one bed more where they do not come out even.
    width_m, length_m : float  [m]
    path_m, row_path_m : float  [m]
        Between beds of a row, and between rows.
    turn_deg : float  [deg]
        Of the whole block. Of a quarter turn each bed lies east to west and the block stays as it is.
    """
    quarter = turn_deg == 90.0
    across_m, along_m = (length_m, width_m) if quarter else (width_m, length_m)
    each, more = divmod(count, rows)
    frame = Outline(width_m=1.0, length_m=1.0, turn_deg=0.0 if quarter else turn_deg)
    found: list[Outline] = []
    for row in range(rows):
        for place in range(each + (row < more)):
            x_m = place * (across_m + path_m) + (across_m if quarter else 0.0)
            y_m = -row * (along_m + row_path_m)
            east_m, north_m = frame.at(x_m, y_m)
            found.append(
                Outline(x_m=east_m, y_m=north_m, width_m=width_m, length_m=length_m, turn_deg=turn_deg)
            )
    return found


def moved(outlines: Sequence[Outline], east_m: float, north_m: float) -> list[Outline]:
    """The same beds elsewhere, to the millimetre."""
    return [
        Outline(
            x_m=round(each.x_m + east_m, 3) + 0.0,
            y_m=round(each.y_m + north_m, 3) + 0.0,
            width_m=each.width_m,
            length_m=each.length_m,
            turn_deg=each.turn_deg,
        )
        for each in outlines
    ]


def beside(
    outlines: Sequence[Outline], anchor: Box, side: Side, gap_m: float, taken: Sequence[Box], clear_m: float
) -> list[Outline]:
    """A block set on one side of something, and pushed on past what is in the way.

    Parameters
    ----------
    outlines : sequence of Outline
        The block, anywhere.
    anchor : Box
        What it is set beside: its west ends line up north and south of it, its north ends east and west.
    side : Side
    gap_m, clear_m : float  [m]
        From the anchor, and from everything else.
    taken : sequence of Box
    """
    own = box_of(outlines)
    wide, deep = own.east - own.west, own.north - own.south
    match side:
        case "north":
            corner = (anchor.west, anchor.north + gap_m)
        case "south":
            corner = (anchor.west, anchor.south - gap_m - deep)
        case "east":
            corner = (anchor.east + gap_m, anchor.north - deep)
        case "west":
            corner = (anchor.west - gap_m - wide, anchor.north - deep)
    box = own.moved(corner[0] - own.west, corner[1] - own.south)
    while (there := next((each for each in taken if box.near(each, clear_m)), None)) is not None:
        match side:
            case "north":
                box = box.moved(0.0, there.north + clear_m - box.south)
            case "south":
                box = box.moved(0.0, there.south - clear_m - box.north)
            case "east":
                box = box.moved(there.east + clear_m - box.west, 0.0)
            case "west":
                box = box.moved(there.west - clear_m - box.east, 0.0)
    return moved(outlines, box.west - own.west, box.south - own.south)


@dataclass(frozen=True, slots=True)
class Inside:
    """Beds set inside a tunnel or frame.

    Parameters
    ----------
    outlines : tuple of Outline
    gap_m : float  [m]
        Between them; the widest that leaves room, where no path was asked for.
    """

    outlines: tuple[Outline, ...]
    gap_m: float


def inside(
    host: Outline,
    count: int,
    width_m: float,
    length_m: float,
    *,
    rows: int | None,
    path_m: float | None,
    crosswise: bool,
    there: Sequence[Outline],
) -> Inside | None:
    """Beds inside a host, along it, beside those that are there; None where they do not fit.

    Parameters
    ----------
    host : Outline
    count : int
    width_m, length_m : float  [m]
    rows : int or None
        None for as few as fit.
    path_m : float or None  [m]
        None for what room there is, 0.3 m if it can be.
    crosswise : bool
        Across the host and not along it.
    there : sequence of Outline
        Beds inside it already.
    """
    across_m = length_m if crosswise else width_m
    taken = [_local(host, each) for each in there]
    gaps = (path_m,) if path_m is not None else (_LEAST_GAP_M, 0.0)
    for least_m in gaps:
        for number in range(1, count + 1) if rows is None else (rows,):
            in_row = -(-count // number)
            room_m = host.width_m - in_row * across_m
            gap_m = least_m
            if path_m is None and not taken and in_row > 1:
                gap_m = max(least_m, room_m / (in_row - 1))
            if in_row > 1 and gap_m * (in_row - 1) > room_m + _EVEN:
                continue
            own = block(
                count,
                width_m,
                length_m,
                rows=number,
                path_m=gap_m,
                row_path_m=least_m,
                turn_deg=90.0 if crosswise else 0.0,
            )
            box = box_of(own)
            corner = _free_corner(host, box, taken, least_m)
            if corner is not None:
                set_down = moved(own, corner[0] - box.west, corner[1] - box.south)
                return Inside(tuple(_from_local(host, each) for each in set_down), gap_m)
    return None


def _free_corner(host: Outline, box: Box, taken: Sequence[Box], gap_m: float) -> tuple[float, float] | None:
    """The north-western free place for a block, in the host's own frame."""
    wide, deep = box.east - box.west, box.north - box.south
    souths = [host.length_m - deep, *(each.south - gap_m - deep for each in taken)]
    wests = [0.0, *(each.east + gap_m for each in taken)]
    for south in sorted(souths, reverse=True):
        for west in sorted(wests):
            fits = -_EVEN <= west <= host.width_m - wide + _EVEN and south >= -_EVEN
            own = Box(west, south, west + wide, south + deep)
            if fits and not any(own.near(each, gap_m) for each in taken):
                return max(0.0, west), max(0.0, south)
    return None


def _local(host: Outline, bed: Outline) -> Box:
    places = [host.within(corner) for corner in bed.corners]
    return Box(
        min(x for x, _ in places),
        min(y for _, y in places),
        max(x for x, _ in places),
        max(y for _, y in places),
    )


def _from_local(host: Outline, bed: Outline) -> Outline:
    x_m, y_m = host.at(bed.x_m, bed.y_m)
    return Outline(
        x_m=round(x_m, 3) + 0.0,
        y_m=round(y_m, 3) + 0.0,
        width_m=bed.width_m,
        length_m=bed.length_m,
        turn_deg=bed.turn_deg + host.turn_deg,
    )
