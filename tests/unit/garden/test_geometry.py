"""Beds on the ground."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.garden.geometry import Outline, overlap, plants_at_spacing

PLACES = st.floats(-50, 50)
SIDES = st.floats(0.2, 20)
OUTLINES = st.builds(
    Outline, x_m=PLACES, y_m=PLACES, width_m=SIDES, length_m=SIDES, turn_deg=st.floats(-360, 360)
)


def test_a_quarter_turn_is_anticlockwise_about_the_corner() -> None:
    bed = Outline(x_m=1.0, y_m=2.0, width_m=1.2, length_m=2.4, turn_deg=90.0)
    assert bed.corners[0] == (1.0, 2.0)
    assert bed.corners[1] == pytest.approx((1.0, 3.2))
    assert bed.corners[2] == pytest.approx((-1.4, 3.2))
    assert bed.centre == pytest.approx((-0.2, 2.6))
    assert bed.area_m2 == pytest.approx(2.88)


@given(OUTLINES, PLACES, PLACES)
def test_within_undoes_at(bed: Outline, across: float, along: float) -> None:
    assert bed.within(bed.at(across, along)) == pytest.approx((across, along), abs=1e-9)


@given(OUTLINES)
def test_corners_and_area_agree(bed: Outline) -> None:
    corners = bed.corners
    shoelace = sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
    assert shoelace / 2 == pytest.approx(bed.area_m2)
    assert bed.holds(bed.centre)
    assert not bed.holds(bed.at(bed.width_m + 0.01, 0.0))


@given(OUTLINES, OUTLINES)
def test_overlap_goes_both_ways_and_is_seen_where_a_middle_is_shared(one: Outline, other: Outline) -> None:
    assert overlap(one, other) == overlap(other, one)
    assert overlap(one, one)
    if other.holds(one.centre) and min(one.width_m, one.length_m, other.width_m, other.length_m) > 0.05:
        inner = other.within(one.centre)
        edge_m = min(inner[0], inner[1], other.width_m - inner[0], other.length_m - inner[1])
        if edge_m > 0.02:
            assert overlap(one, other)


def test_neighbours_do_not_overlap_and_crossed_beds_do() -> None:
    one = Outline(width_m=1.2, length_m=2.4)
    assert not overlap(one, Outline(x_m=1.2, width_m=1.2, length_m=2.4))
    assert not overlap(one, Outline(x_m=1.195, width_m=1.2, length_m=2.4))
    assert overlap(one, Outline(x_m=1.1, width_m=1.2, length_m=2.4))
    # A cross: no corner of either lies in the other.
    assert overlap(Outline(x_m=-1, y_m=1, width_m=4, length_m=0.5), one)
    # Bounding boxes overlap, the beds do not.
    turned = Outline(x_m=2.0, y_m=0.5, width_m=3.0, length_m=0.3, turn_deg=45.0)
    assert not overlap(Outline(x_m=3.2, y_m=0.4, width_m=0.5, length_m=0.5), turned)


@pytest.mark.parametrize(
    ("width_m", "length_m", "row_cm", "spacing_cm", "rows", "in_row"),
    [
        (1.2, 2.4, 40.0, 30.0, 3, 8),
        (1.2, 2.4, 25.0, 10.0, 4, 24),
        (0.3, 0.3, 60.0, 60.0, 1, 1),
        (0.0, 2.4, 40.0, 30.0, 0, 0),
        (0.6, 0.9, 30.0, 30.0, 2, 3),
    ],
)
def test_plants_fit(
    width_m: float, length_m: float, row_cm: float, spacing_cm: float, rows: int, in_row: int
) -> None:
    fit = plants_at_spacing(width_m, length_m, row_cm=row_cm, spacing_cm=spacing_cm)
    assert (fit.rows, fit.in_row, fit.plants) == (rows, in_row, rows * in_row)


def test_given_rows_go_before_the_width() -> None:
    assert plants_at_spacing(1.2, 2.4, row_cm=25.0, spacing_cm=10.0, rows=2).plants == 48


@given(SIDES, SIDES, st.floats(2, 100), st.floats(2, 100))
def test_plants_never_have_less_room_than_their_spacing(
    width_m: float, length_m: float, row_cm: float, spacing_cm: float
) -> None:
    fit = plants_at_spacing(width_m, length_m, row_cm=row_cm, spacing_cm=spacing_cm)
    assert fit.rows == 1 or fit.rows * row_cm <= width_m * 100 + 1e-6
    assert fit.in_row == 1 or fit.in_row * spacing_cm <= length_m * 100 + 1e-6


@pytest.mark.parametrize("width_m", [0.0, -1.0, math.nan, math.inf])
def test_impossible_outlines(width_m: float) -> None:
    with pytest.raises(ParameterError, match="not possible"):
        Outline(width_m=width_m, length_m=1.0)


def test_impossible_spacings() -> None:
    with pytest.raises(ParameterError, match="Spacings"):
        plants_at_spacing(1.2, 2.4, row_cm=0.0, spacing_cm=10.0)
