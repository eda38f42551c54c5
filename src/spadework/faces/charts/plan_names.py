"""Where names of beds stand on the plan, so that none lies over another or over a bed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

Box: TypeAlias = tuple[float, float, float, float]
"""Left, top, right, bottom."""

SIZE: Final = 10.5
"""Height of the letters, in units of the picture."""

SMALL: Final = 8.0

_WIDE: Final = 0.6
"""Width of a letter to its height, a little more than most are. Class: measured on the usual sans."""

_GAP: Final = 3.0
_LEAD: Final = 1.15


@dataclass(frozen=True, slots=True)
class Named:
    """A bed to be named.

    Parameters
    ----------
    name : str
    box : Box
        Round its outline.
    inside : str
        Key of what holds it, whose own ground a name may lie on.
    key : str
    """

    key: str
    name: str
    box: Box
    inside: str = ""


@dataclass(frozen=True, slots=True)
class NameAt:
    """A name in its place: lines from the top, each with its baseline.

    Parameters
    ----------
    lines : tuple of (float, float, str)
    size : float
    anchor : {"start", "middle", "end"}
    box : Box
        What it takes.
    """

    lines: tuple[tuple[float, float, str], ...]
    size: float
    anchor: Literal["start", "middle", "end"]
    box: Box


def name_places(
    beds: Sequence[Named], bounds: Box, sizes: Sequence[float] = (SIZE, SMALL)
) -> dict[str, NameAt]:
    """A place for every name: above its bed where there is room, else below, beside, or smaller.

    Parameters
    ----------
    beds : sequence of Named
    bounds : Box
        Of the picture.
    sizes : sequence of float
        Heights of the letters, the wanted one first.

    Returns
    -------
    dict of str to NameAt
        By key of the bed.
    """
    found: dict[str, NameAt] = {}
    for bed in sorted(beds, key=lambda each: (each.box[1], each.box[0])):
        others = [each for each in beds if each.key not in (bed.key, bed.inside)]
        taken = [*(each.box for each in found.values()), *(each.box for each in others)]
        taken += [edge for each in beds if each.key == bed.inside for edge in _edges(each.box)]
        room = [_room(each, sizes[0]) for each in others if each.key not in found]
        within = next((each.box for each in beds if each.key == bed.inside), bounds)
        tries = list(_tries(bed, sizes))
        costs = [(_over(at.box, taken, within), sum(_shared(at.box, each) for each in room)) for at in tries]
        found[bed.key] = tries[costs.index(min(costs))]
    return found


def at_the_end(bed: Named, size: float) -> NameAt | None:
    """A short name within its bed, at the lower end; None where the bed is too small for it."""
    left, top, right, bottom = bed.box
    sizes = [each for each in (size, 0.85 * size) if len(bed.name) * each * _WIDE <= 1.1 * (right - left)]
    if bottom - top < 2.0 * size or not sizes:
        return None
    size = sizes[0]
    wide = len(bed.name) * size * _WIDE
    middle, base = (left + right) / 2, bottom - 0.3 * size
    return NameAt(
        lines=((middle, base, bed.name),),
        size=size,
        anchor="middle",
        box=(middle - wide / 2, base - size, middle + wide / 2, bottom),
    )


def _room(bed: Named, size: float) -> Box:
    """Where a name that comes later would best stand."""
    left, top, right, _ = bed.box
    return left, top - _GAP - size, right, top


def _edges(box: Box) -> tuple[Box, ...]:
    """The outline of what holds a bed: a name does not lie over it."""
    left, top, right, bottom = box
    return (
        (left - 1, top, left + 1, bottom),
        (right - 1, top, right + 1, bottom),
        (left, top - 1, right, top + 1),
        (left, bottom - 1, right, bottom + 1),
    )


def _tries(bed: Named, sizes: Sequence[float]) -> Iterator[NameAt]:
    left, top, right, bottom = bed.box
    above: list[NameAt] = []
    elsewhere: list[NameAt] = []
    for size in sizes:
        for lines in _broken(bed.name):
            high = size * (0.08 + _LEAD * len(lines))
            wide = max(map(len, lines)) * size * _WIDE
            for x, anchor in ((left, "start"), ((left + right) / 2, "middle"), (right, "end")):
                above.append(_at(lines, size, x, top - _GAP - high, wide, anchor))
            middle = (top + bottom - high) / 2
            elsewhere += [
                _at(lines, size, right + _GAP, middle, wide, "start"),
                _at(lines, size, left - _GAP, middle, wide, "end"),
                _at(lines, size, left, bottom + 1.0, wide, "start"),
                _at(lines, size, (left + right) / 2, bottom + 1.0, wide, "middle"),
                _at(lines, size, right, bottom + 1.0, wide, "end"),
            ]
    yield from above
    yield from elsewhere


def _broken(name: str) -> Iterator[tuple[str, ...]]:
    """The name on one line, then on two, broken where both are shortest."""
    yield (name,)
    words = name.split()
    if len(words) > 1:
        splits = [(" ".join(words[:at]), " ".join(words[at:])) for at in range(1, len(words))]
        yield min(splits, key=lambda each: max(map(len, each)))


def _at(lines: tuple[str, ...], size: float, x: float, top: float, wide: float, anchor: str) -> NameAt:
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[anchor]
    high = size * (0.08 + _LEAD * len(lines))
    return NameAt(
        lines=tuple((x, top + size * (0.95 + _LEAD * at), line) for at, line in enumerate(lines)),
        size=size,
        anchor="start" if anchor == "start" else "end" if anchor == "end" else "middle",
        box=(left, top, left + wide, top + high),
    )


def _over(box: Box, taken: Sequence[Box], bounds: Box) -> float:
    """Area shared with others, and what lies outside of the picture."""
    shared = sum(_shared(box, other) for other in taken)
    whole = (box[2] - box[0]) * (box[3] - box[1])
    return round(shared + whole - _shared(box, bounds), 3)


def _shared(one: Box, other: Box) -> float:
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide * high if wide > 0 and high > 0 else 0.0
