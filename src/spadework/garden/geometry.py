"""Beds as rectangles on the ground: corners, overlap, and how many plants fit.

x runs east and y north, in metres, from any corner of the plot its people chose. A bed's x and y are the
corner its width and length run from before it is turned; it is turned about that corner, anticlockwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, TypeAlias

from spadework.errors import ParameterError

Point: TypeAlias = tuple[float, float]

SLACK_M: Final = 0.01
"""Beds that share less than this are neighbours: a tape is read to the centimetre. Class: common-practice."""

_EVEN: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A rectangle with a turn.

    Parameters
    ----------
    x_m, y_m : float  [m]
        The corner it is measured and turned from.
    width_m, length_m : float  [m]
        Along x and along y before turning; above zero.
    turn_deg : float  [deg]
        Anticlockwise.

    Raises
    ------
    ParameterError
        If a number is not finite, or a side is not above zero.
    """

    x_m: float = 0.0
    y_m: float = 0.0
    width_m: float
    length_m: float
    turn_deg: float = 0.0

    def __post_init__(self) -> None:
        numbers = (self.x_m, self.y_m, self.width_m, self.length_m, self.turn_deg)
        if not all(map(math.isfinite, numbers)) or self.width_m <= 0 or self.length_m <= 0:
            raise ParameterError(
                f"A bed of {self.width_m:g} by {self.length_m:g} m at {self.x_m:g}, {self.y_m:g} is not"
                " possible.",
                "Width and length must be above zero.",
            )

    @property
    def area_m2(self) -> float:
        """Its ground."""
        return self.width_m * self.length_m

    @property
    def centre(self) -> Point:
        """Its middle."""
        return self.at(self.width_m / 2, self.length_m / 2)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The four corners, anticlockwise, from the one it is measured from."""
        return (
            self.at(0.0, 0.0),
            self.at(self.width_m, 0.0),
            self.at(self.width_m, self.length_m),
            self.at(0.0, self.length_m),
        )

    def at(self, across_m: float, along_m: float) -> Point:
        """Where on the plot a place in the bed lies, given across its width and along its length."""
        turn = math.radians(self.turn_deg)
        cos, sin = math.cos(turn), math.sin(turn)
        return (self.x_m + across_m * cos - along_m * sin, self.y_m + across_m * sin + along_m * cos)

    def within(self, point: Point) -> Point:
        """The inverse of `at`: a place on the plot as across and along in the bed."""
        turn = math.radians(self.turn_deg)
        cos, sin = math.cos(turn), math.sin(turn)
        east, north = point[0] - self.x_m, point[1] - self.y_m
        return (east * cos + north * sin, north * cos - east * sin)

    def holds(self, point: Point) -> bool:
        """Whether a place on the plot lies in the bed or on its edge."""
        across, along = self.within(point)
        return -_EVEN <= across <= self.width_m + _EVEN and -_EVEN <= along <= self.length_m + _EVEN


def overlap(one: Outline, other: Outline, *, slack_m: float = SLACK_M) -> bool:
    """Whether two beds share ground, by more than a slack.

    Parameters
    ----------
    one, other : Outline
    slack_m : float  [m]
        Beds that reach into each other by no more than this do not count.

    Notes
    -----
    Two rectangles are apart if and only if they are apart along a side of one of them.
    """
    for outline in (one, other):
        for axis in (0, 1):
            mine = [outline.within(corner)[axis] for corner in one.corners]
            theirs = [outline.within(corner)[axis] for corner in other.corners]
            if min(max(mine), max(theirs)) - max(min(mine), min(theirs)) <= slack_m:
                return False
    return True


@dataclass(frozen=True, slots=True)
class Fit:
    """Plants set out at a spacing: how many rows, how many in each, and all together."""

    rows: int
    in_row: int

    @property
    def plants(self) -> int:
        """All of them."""
        return self.rows * self.in_row


def plants_at_spacing(
    width_m: float, length_m: float, *, row_cm: float, spacing_cm: float, rows: int | None = None
) -> Fit:
    """How many plants fit a rectangle in rows that run along its length.

    Parameters
    ----------
    width_m, length_m : float  [m]
        Zero or more.
    row_cm, spacing_cm : float  [cm]
        Between rows, and between plants in a row; above zero.
    rows : int or None
        Given rows, whatever the width.

    Raises
    ------
    ParameterError
        If a number is not possible.

    Notes
    -----
    Every plant has its cell, so the outermost stand half a spacing from the edge. A tub narrower than one
    cell still holds one row of one plant.
    """
    if not (row_cm > 0 and spacing_cm > 0 and width_m >= 0 and length_m >= 0):
        raise ParameterError(
            f"Plants at {spacing_cm:g} cm in rows of {row_cm:g} cm on {width_m:g} by {length_m:g} m are not"
            " possible.",
            "Spacings must be above zero.",
        )
    if width_m == 0 or length_m == 0:
        return Fit(0, 0)
    found = _cells(width_m, row_cm) if rows is None else rows
    return Fit(found, _cells(length_m, spacing_cm))


def _cells(side_m: float, cell_cm: float) -> int:
    """Whole cells along a side, a tub smaller than one counting as one. 1.2 m at 40 cm are three."""
    return max(1, math.floor(side_m * 100 / cell_cm + _EVEN))
