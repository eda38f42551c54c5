"""How far it is on foot from bed to bed: round beds, never through them, over the ground between.

A bed is stood at in one place, on a path beside it. From there the shortest way bends only at corners of
beds, so it is found among straight lines between such corners and places. Distances so found are the same
both ways, and no detour is ever shorter.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.errors import ParameterError
from spadework.garden.geometry import Outline, Point
from spadework.garden.lookup import key_of
from spadework.garden.records import Bed

HALF_PATH_M: Final = 0.15
"""A walker keeps this far from a bed's edge: a gap narrower than twice this is no path.
Class: common-practice."""

_EVEN: Final = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class Walks:
    """Ways between all places of a garden.

    Parameters
    ----------
    keys : tuple of str
        Beds in the order given, then other places.
    stands : tuple of Point
        Where each is stood at, in the order of the keys.
    metres : NDArray, shape (keys, keys)  [m]
        Lengths of the ways.
    over : frozenset of str
        Beds no path leads to: the last step to them goes over another bed.
    unplaced : tuple of str
        Beds of which it is not known where they are.
    """

    keys: tuple[str, ...]
    stands: tuple[Point, ...]
    metres: NDArray[np.float64]
    over: frozenset[str]
    unplaced: tuple[str, ...]
    _nodes: NDArray[np.float64]
    _next: NDArray[np.intp]

    def between(self, one: str, other: str) -> float:
        """Metres from one place to another.

        Raises
        ------
        UnknownName
            If one is not among the keys.
        """
        return float(self.metres[self._place(one), self._place(other)])

    def way(self, one: str, other: str) -> tuple[Point, ...]:
        """The points a way goes through, ends included, to draw it.

        Raises
        ------
        UnknownName
        """
        here, there = self._place(one), self._place(other)
        found = [self.stands[here]]
        while here != there:
            here = int(self._next[here, there])
            found.append((float(self._nodes[here, 0]), float(self._nodes[here, 1])))
        return tuple(found)

    def _place(self, key: str) -> int:
        return self.keys.index(key_of(key, {each: each for each in self.keys}, "place"))


def walks(beds: Mapping[str, Bed], points: Mapping[str, Point] | None = None) -> Walks:
    """Ways between all beds, and between them and other places.

    Parameters
    ----------
    beds : mapping of str to Bed
        By key. Those taken up are left out.
    points : mapping of str to Point or None
        Other places on the plot: the gate, the tap, the shed.  [m]

    Raises
    ------
    ParameterError
        If a place has the key of a bed.

    Notes
    -----
    A bed is stood at in the middle of one of its long sides, a tunnel of an end: of those that can be
    walked to, the one nearest to all other beds. A tunnel that holds beds is gone into at either end,
    between its long walls. A bed inside anything else is reached from where that is stood at. Shelves are
    indoors, and in nobody's way.
    """
    more = dict(points or {})
    there = {key: bed for key, bed in beds.items() if bed.gone_on is None}
    placed = {key: bed.outline for key, bed in there.items() if bed.outline is not None}
    if doubled := sorted(set(more) & set(placed)):
        raise ParameterError(f"{doubled[0]} is a bed already.", "Give the place another name.")
    tunnels = {b.inside for k, b in there.items() if k in placed and _is_tunnel(there.get(b.inside))}
    obstacles = list(_obstacles(there, placed, tunnels))
    keys = (*placed, *more)
    stands = _stands(there, placed, tunnels, obstacles, more)
    nodes = np.array([*stands, *(corner for obstacle in obstacles for corner in obstacle.corners)])
    nodes = nodes.reshape(-1, 2)
    keep = np.ones(len(nodes), dtype=bool)
    keep[len(keys) :] = ~_inside_any(nodes[len(keys) :], obstacles)
    nodes = nodes[keep]
    metres, following, over = _shortest(nodes, obstacles, len(keys))
    return Walks(
        keys=keys,
        stands=stands,
        metres=metres[: len(keys), : len(keys)],
        over=frozenset(keys[place] for place in over),
        unplaced=tuple(key for key in there if key not in placed),
        _nodes=nodes,
        _next=following,
    )


def _is_tunnel(bed: Bed | None) -> bool:
    return bed is not None and bed.shape == "tunnel" and bed.outline is not None


def _obstacles(
    beds: Mapping[str, Bed], placed: Mapping[str, Outline], tunnels: set[str]
) -> Iterator[Outline]:
    """Outlines nobody walks through, each wider by half a path all round."""
    for key, outline in placed.items():
        bed = beds[key]
        if key in tunnels:
            yield from (_grown(wall) for wall in _walls(outline))
        elif bed.shape != "shelf" and (bed.inside not in placed or bed.inside in tunnels):
            yield _grown(outline)


def _grown(outline: Outline) -> Outline:
    x_m, y_m = outline.at(-HALF_PATH_M, -HALF_PATH_M)
    return Outline(
        x_m=x_m,
        y_m=y_m,
        width_m=outline.width_m + 2 * HALF_PATH_M,
        length_m=outline.length_m + 2 * HALF_PATH_M,
        turn_deg=outline.turn_deg,
    )


def _walls(tunnel: Outline) -> tuple[Outline, Outline]:
    """The long sides of a tunnel, a thumb thick."""
    thick_m = 0.02
    lengthwise = tunnel.length_m >= tunnel.width_m
    width_m, length_m = (thick_m, tunnel.length_m) if lengthwise else (tunnel.width_m, thick_m)
    far = (tunnel.width_m - thick_m, 0.0) if lengthwise else (0.0, tunnel.length_m - thick_m)
    one, other = (
        Outline(x_m=x_m, y_m=y_m, width_m=width_m, length_m=length_m, turn_deg=tunnel.turn_deg)
        for x_m, y_m in (tunnel.at(0.0, 0.0), tunnel.at(*far))
    )
    return one, other


def _stands(
    beds: Mapping[str, Bed],
    placed: Mapping[str, Outline],
    tunnels: set[str],
    obstacles: list[Outline],
    points: Mapping[str, Point],
) -> tuple[Point, ...]:
    centres = np.array([*(outline.centre for outline in placed.values()), *points.values()]).reshape(-1, 2)
    choices = {key: _choices(key, beds, placed, tunnels) for key in placed}
    every = [point for sides in choices.values() for side in sides for point in side]
    shut = _inside_any(np.array(every).reshape(-1, 2), obstacles)
    is_open = {point for point, is_shut in zip(every, shut, strict=True) if not is_shut}
    found: dict[str, Point] = {}
    for key, sides in choices.items():
        free = [[point for point in side if point in is_open] for side in sides]
        side = next((side for side in (*free, *sides) if side), [placed[key].centre])
        far = [float(np.hypot(*(centres - np.array(point)).T).sum()) for point in side]
        found[key] = side[far.index(min(far))]
    stands = []
    for key in placed:
        seen = {key}
        holder = key
        while beds[holder].inside in placed and beds[holder].inside not in tunnels | seen:
            holder = beds[holder].inside
            seen.add(holder)
        stands.append(found[holder])
    return (*stands, *points.values())


def _choices(
    key: str, beds: Mapping[str, Bed], placed: Mapping[str, Outline], tunnels: set[str]
) -> list[list[Point]]:
    """The sides a bed may be stood at, those left out that lie on the other side of a tunnel's wall."""
    holder = beds[key].inside if beds[key].inside in tunnels else ""
    outside = [placed[each] for each in tunnels if each not in (holder, key)]
    return [
        [
            point
            for point in side
            if (not holder or placed[holder].holds(point))
            and not any(tunnel.holds(point) for tunnel in outside)
        ]
        for side in _sides(beds[key], placed[key])
    ]


def _sides(bed: Bed, outline: Outline) -> tuple[list[Point], ...]:
    """Where a bed may be stood at, the better sides first."""
    off, width_m, length_m = HALF_PATH_M, outline.width_m, outline.length_m
    left_right = [outline.at(-off, length_m / 2), outline.at(width_m + off, length_m / 2)]
    ends = [outline.at(width_m / 2, -off), outline.at(width_m / 2, length_m + off)]
    if bed.shape == "shelf":
        return [outline.centre], left_right, ends
    long, short = (left_right, ends) if length_m >= width_m else (ends, left_right)
    return (short, long) if bed.shape == "tunnel" else (long, short)


def _local(nodes: NDArray[np.float64], outline: Outline) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Nodes as across and along in an outline: `Outline.within` of many."""
    turn = np.radians(outline.turn_deg)
    cos, sin = np.cos(turn), np.sin(turn)
    east, north = nodes[:, 0] - outline.x_m, nodes[:, 1] - outline.y_m
    return east * cos + north * sin, north * cos - east * sin


def _inside_any(nodes: NDArray[np.float64], obstacles: list[Outline]) -> NDArray[np.bool_]:
    found = np.zeros(len(nodes), dtype=bool)
    for outline in obstacles:
        across, along = _local(nodes, outline)
        found |= (
            (across > _EVEN)
            & (across < outline.width_m - _EVEN)
            & (along > _EVEN)
            & (along < outline.length_m - _EVEN)
        )
    return found


def _shortest(
    nodes: NDArray[np.float64], obstacles: list[Outline], places: int
) -> tuple[NDArray[np.float64], NDArray[np.intp], set[int]]:
    """Shortest ways between all nodes, the node that follows on each, and the places no path leads to."""
    count = len(nodes)
    straight = np.hypot(*(nodes[:, None] - nodes[None, :]).transpose(2, 0, 1))
    first, second = np.triu_indices(count, 1)
    seen = ~_blocked(nodes, first, second, obstacles)
    metres = np.full((count, count), np.inf)
    metres[first[seen], second[seen]] = straight[first[seen], second[seen]]
    metres = np.minimum(metres, metres.T)
    np.fill_diagonal(metres, 0.0)
    following = np.where(np.isfinite(metres), np.arange(count), -1).astype(np.intp)
    for through in range(count):
        _relax(metres, following, through)
    over: set[int] = set()
    while places and not np.isfinite(metres[:places, :places]).all():
        _step_over(metres, following, straight, over, places)
    return metres, following, over


def _relax(metres: NDArray[np.float64], following: NDArray[np.intp], through: int) -> None:
    """Take every way through a node that is shorter (Floyd 1962, Warshall 1962)."""
    detour = metres[:, through, None] + metres[None, through, :]
    shorter = detour < metres
    np.copyto(metres, detour, where=shorter)
    np.copyto(following, following[:, through, None], where=shorter)


def _step_over(
    metres: NDArray[np.float64],
    following: NDArray[np.intp],
    straight: NDArray[np.float64],
    over: set[int],
    places: int,
) -> None:
    """Join what no path joins, by the shortest step over a bed, to where most places are."""
    joined = [int(np.isfinite(metres[place, :places]).sum()) for place in range(places)]
    main = np.isfinite(metres[joined.index(max(joined))])
    away = np.flatnonzero(~main[:places])
    step = straight[np.ix_(np.flatnonzero(main), away)]
    row, column = np.unravel_index(int(step.argmin()), step.shape)
    here, there = int(np.flatnonzero(main)[row]), int(away[column])
    over.update(int(place) for place in away if np.isfinite(metres[there, place]))
    metres[here, there] = metres[there, here] = straight[here, there]
    following[here, there], following[there, here] = there, here
    for through in (here, there):
        _relax(metres, following, through)


def _blocked(
    nodes: NDArray[np.float64],
    first: NDArray[np.intp],
    second: NDArray[np.intp],
    obstacles: list[Outline],
) -> NDArray[np.bool_]:
    """Whether the line between two nodes goes through the inside of an obstacle."""
    found = np.zeros(len(first), dtype=bool)
    for outline in obstacles:
        enter, leave = np.zeros(len(first)), np.ones(len(first))
        for places, side_m in zip(_local(nodes, outline), (outline.width_m, outline.length_m), strict=True):
            start, run = places[first], places[second] - places[first]
            with np.errstate(divide="ignore", invalid="ignore"):
                low, high = (_EVEN - start) / run, (side_m - _EVEN - start) / run
            np.fmax(enter, np.minimum(low, high), out=enter)
            np.fmin(leave, np.maximum(low, high), out=leave)
        found |= enter < leave
    return found
