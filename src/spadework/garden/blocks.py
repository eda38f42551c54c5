"""Blocks: rectangles within a bed, along its edges; which share ground, and what they leave free."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Final

from spadework.garden.entries import Block

SLACK_M: Final = 0.05
"""Blocks that share a strip no wider than this are neighbours: places in a bed are paced out, not taped.
Class: common-practice."""

LEAST_M: Final = 0.1
"""A stretch narrower than this is no place to plant. Class: common-practice."""

_EVEN: Final = 1e-9


def area_m2(block: Block) -> float:
    """Its ground."""
    return block.width_m * block.length_m


def shared(one: Block, other: Block) -> Block | None:
    """The ground two blocks share; None where they share none."""
    across = max(one.across_m, other.across_m)
    along = max(one.along_m, other.along_m)
    width = min(one.across_m + one.width_m, other.across_m + other.width_m) - across
    length = min(one.along_m + one.length_m, other.along_m + other.length_m) - along
    if width <= _EVEN or length <= _EVEN:
        return None
    return Block(across_m=across, along_m=along, width_m=width, length_m=length)


def overlap(one: Block, other: Block, slack_m: float = SLACK_M) -> bool:
    """Whether two blocks share ground, by more than a slack each way."""
    both = shared(one, other)
    return both is not None and both.width_m > slack_m and both.length_m > slack_m


def sticks_out_m(block: Block, width_m: float, length_m: float) -> float:
    """How far it reaches past the edge of a bed; zero or less where it lies within."""
    return max(
        -block.across_m,
        -block.along_m,
        block.across_m + block.width_m - width_m,
        block.along_m + block.length_m - length_m,
    )


def within(inner: Block, outer: Block) -> bool:
    """Whether a block lies in another, edges touching or not."""
    both = shared(inner, outer)
    return both is not None and area_m2(both) >= area_m2(inner) * (1 - _EVEN)


def joined(blocks: Sequence[Block], more: Block) -> tuple[Block, ...]:
    """Blocks of one planting and one more, none of which lies in another."""
    if any(within(more, block) for block in blocks):
        return tuple(blocks)
    return (*(block for block in blocks if not within(block, more)), more)


def clipped(block: Block, width_m: float, length_m: float) -> Block | None:
    """The part of a block within a bed; None where there is none."""
    return shared(block, Block(width_m=width_m, length_m=length_m))


def spot_ground(across_m: float, along_m: float, room_m: float) -> Block:
    """The square a single plant takes, by its room each way."""
    return Block(
        across_m=across_m - room_m / 2, along_m=along_m - room_m / 2, width_m=room_m, length_m=room_m
    )


def stretch_text(block: Block) -> str:
    """A stretch in words: 0.45 m by 2.4 m, from 0.75 m across and 0 m along."""
    return (
        f"{block.width_m:.3g} m by {block.length_m:.3g} m, from {block.across_m:.3g} m across"
        f" and {block.along_m:.3g} m along"
    )


def openings(width_m: float, length_m: float, taken: Iterable[Block]) -> Iterator[Block]:
    """Rectangles of a bed on which nothing lies, each as wide as it can be; the largest are all among them.

    Notes
    -----
    Every edge of a largest free rectangle lies on an edge of the bed or of a block, so it is enough to look
    at those. For each pair of edges along the bed the free runs across are taken.
    """
    inside = [part for block in taken if (part := clipped(block, width_m, length_m)) is not None]
    across = _edges(0.0, width_m, [(b.across_m, b.across_m + b.width_m) for b in inside])
    along = _edges(0.0, length_m, [(b.along_m, b.along_m + b.length_m) for b in inside])
    strips = []
    for low, high in pairwise(along):
        lying = [b for b in inside if b.along_m < high - _EVEN and b.along_m + b.length_m > low + _EVEN]
        strips.append(
            sum(
                1 << place
                for place, (left, right) in enumerate(pairwise(across))
                if any(b.across_m < right - _EVEN and b.across_m + b.width_m > left + _EVEN for b in lying)
            )
        )
    for first in range(len(strips)):
        covered = 0
        for last in range(first, len(strips)):
            covered |= strips[last]
            for left, right in _runs(covered, len(across) - 1):
                yield Block(
                    across_m=across[left],
                    along_m=along[first],
                    width_m=across[right] - across[left],
                    length_m=along[last + 1] - along[first],
                )


def free_stretches(width_m: float, length_m: float, taken: Sequence[Block]) -> tuple[Block, ...]:
    """What a bed leaves free: the largest rectangle, then the largest of the rest, until none is a place.

    They share no ground.
    """
    found: list[Block] = []
    while True:
        fit = [
            block
            for block in openings(width_m, length_m, (*taken, *found))
            if min(block.width_m, block.length_m) >= LEAST_M - _EVEN
        ]
        if not fit:
            return tuple(found)
        found.append(max(fit, key=lambda block: (area_m2(block), -block.along_m, -block.across_m)))


def _edges(low: float, high: float, spans: Iterable[tuple[float, float]]) -> list[float]:
    """Different edges in order; those nearer than can be meant are one."""
    found: list[float] = []
    for edge in sorted({low, high, *(end for span in spans for end in span)}):
        if not found or edge - found[-1] > _EVEN:
            found.append(edge)
    return found


def _runs(covered: int, count: int) -> Iterator[tuple[int, int]]:
    """Runs of places that are not covered, as first and one past the last."""
    start: int | None = None
    for place in range(count + 1):
        is_free = place < count and not covered >> place & 1
        if is_free and start is None:
            start = place
        elif not is_free and start is not None:
            yield start, place
            start = None
