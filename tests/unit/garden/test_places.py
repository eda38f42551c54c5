"""Where plantings stand in a bed, where each plant is, and what is free."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from garden_book import SPRING, Pen
from spadework.garden import entries as kinds
from spadework.garden.ask import Question, questions
from spadework.garden.blocks import area_m2, free_stretches, joined, overlap, shared, sticks_out_m
from spadework.garden.entries import Block, Payload
from spadework.garden.fold import fold
from spadework.garden.places import plant_places
from spadework.garden.state import Garden

LATER = SPRING + timedelta(days=40)


def block(across: float, along: float, width: float, length: float) -> Block:
    return Block(across_m=across, along_m=along, width_m=width, length_m=length)


def corners(found: Block) -> tuple[float, float, float, float]:
    return (found.across_m, found.along_m, found.width_m, found.length_m)


@pytest.fixture
def pen() -> Pen:
    pen = Pen()
    pen(kinds.BedSet(name="Long bed", width_m=1.2, length_m=2.4), bed="b1")
    return pen


def sown(name: str, **fields: Any) -> kinds.Sown:
    return kinds.Sown(planting=name, crop=name.split()[0], **fields)


def garden(pen: Pen) -> Garden:
    return fold(pen.written)


# -- what is free ------------------------------------------------------------------------------------


def test_an_empty_bed_is_free_as_a_whole(pen: Pen) -> None:
    free = garden(pen).free_ground("b1", LATER)
    assert free is not None
    assert [corners(each) for each in free.stretches] == [(0.0, 0.0, 1.2, 2.4)]
    assert free.area_m2 == pytest.approx(2.88)


def test_a_block_in_the_middle_leaves_four_stretches_that_make_up_the_rest(pen: Pen) -> None:
    pen(sown("pea 1", block=block(0.4, 0.8, 0.4, 0.8)), bed="b1")
    free = garden(pen).free_ground("b1", LATER)
    assert free is not None
    assert len(free.stretches) == 4
    assert free.area_m2 == pytest.approx(2.88 - 0.32)
    assert free.assumed == ()
    assert all(shared(one, block(0.4, 0.8, 0.4, 0.8)) is None for one in free.stretches)


def test_what_was_cleared_is_free_again_and_was_not_before(pen: Pen) -> None:
    pen(sown("pea 1", block=block(0.0, 0.0, 1.2, 1.0)), bed="b1")
    pen(kinds.Ended(how="cleared"), 30, planting="pea 1")
    then, now = (garden(pen).free_ground("b1", SPRING + timedelta(days=after)) for after in (10, 30))
    assert then is not None
    assert now is not None
    assert then.area_m2 == pytest.approx(1.2 * 1.4)
    assert now.area_m2 == pytest.approx(2.88)


def test_a_narrow_strip_is_no_place(pen: Pen) -> None:
    pen(sown("pea 1", block=block(0.0, 0.0, 1.15, 2.4)), bed="b1")
    free = garden(pen).free_ground("b1", LATER)
    assert free is not None
    assert free.stretches == ()


def test_where_nobody_said_plantings_stand_side_by_side_from_the_corner_and_it_says_so(pen: Pen) -> None:
    pen(sown("carrot 1", rows=2, row_cm=25.0), bed="b1")
    pen(sown("beetroot 1", rows=1, row_cm=30.0), 1, bed="b1")
    laid = garden(pen).laid_out("b1", LATER)
    assert [(each.planting, each.assumed, each.fits) for each in laid] == [
        ("carrot 1", True, True),
        ("beetroot 1", True, True),
    ]
    assert corners(laid[0].blocks[0]) == pytest.approx((0.0, 0.0, 0.5, 2.4))
    assert corners(laid[1].blocks[0]) == pytest.approx((0.5, 0.0, 0.3, 2.4))
    free = garden(pen).free_ground("b1", LATER)
    assert free is not None
    assert free.assumed == ("carrot 1", "beetroot 1")
    assert corners(free.stretches[0]) == pytest.approx((0.8, 0.0, 0.4, 2.4))


def test_an_assumed_place_keeps_clear_of_a_told_one(pen: Pen) -> None:
    pen(sown("carrot 1", area_m2=0.6), bed="b1")
    pen(sown("pea 1", block=block(0.0, 0.0, 1.2, 1.0)), 1, bed="b1")
    laid = {each.planting: each for each in garden(pen).laid_out("b1", LATER)}
    assert corners(laid["carrot 1"].blocks[0]) == pytest.approx((0.0, 1.0, 1.2, 0.5))
    assert laid["carrot 1"].assumed
    assert not laid["pea 1"].assumed


def test_plantings_of_unknown_room_share_what_is_left_and_what_is_free_names_them(pen: Pen) -> None:
    pen(sown("carrot 1", block=block(0.0, 0.0, 1.2, 1.2)), bed="b1")
    pen(sown("dill 1"), 1, bed="b1")
    pen(sown("cress 1"), 2, bed="b1")
    laid = garden(pen).laid_out("b1", LATER)
    assert [each.sized for each in laid] == [True, False, False]
    assert sum(area_m2(each.blocks[0]) for each in laid) == pytest.approx(2.88)
    free = garden(pen).free_ground("b1", LATER)
    assert free is not None
    assert free.unsized == ("dill 1", "cress 1")
    assert free.area_m2 == pytest.approx(1.44)


def test_a_bed_too_full_says_what_does_not_fit(pen: Pen) -> None:
    pen(sown("carrot 1", area_m2=2.0), bed="b1")
    pen(sown("leek 1", area_m2=2.0), 1, bed="b1")
    laid = garden(pen).laid_out("b1", LATER)
    assert [each.fits for each in laid] == [True, False]
    assert sum(area_m2(each.blocks[0]) for each in laid) == pytest.approx(2.88)


def test_a_usual_distance_gives_room_to_plants_of_which_none_was_said(pen: Pen) -> None:
    pen(kinds.PlantedOut(planting="kale 1", crop="kale", plants=4), bed="b1")
    plain, usual = (garden(pen).laid_out("b1", LATER, room)[0] for room in (None, {"kale": (60.0, 45.0)}))
    assert not plain.sized
    assert usual.sized
    assert area_m2(usual.blocks[0]) == pytest.approx(4 * 0.6 * 0.45)


# -- each plant --------------------------------------------------------------------------------------


def places(pen: Pen, **asked: Any) -> list[tuple[float, float]]:
    here = garden(pen)
    laid = here.laid_out("b1", LATER)[0]
    return [(round(x, 6), round(y, 6)) for x, y in plant_places(laid, here.plantings[laid.planting], **asked)]


def test_rows_run_along_the_bed_with_each_plant_in_the_middle_of_its_cell(pen: Pen) -> None:
    pen(sown("leek 1", block=block(0.2, 1.0, 0.6, 0.6), row_cm=30.0, spacing_cm=20.0), bed="b1")
    assert places(pen) == [(0.35, 1.1), (0.35, 1.3), (0.35, 1.5), (0.65, 1.1), (0.65, 1.3), (0.65, 1.5)]


def test_rows_run_across_where_that_was_said(pen: Pen) -> None:
    pen(
        sown("leek 1", block=block(0.0, 0.0, 1.2, 0.4), row_cm=20.0, spacing_cm=40.0, rows_run="across"),
        bed="b1",
    )
    assert places(pen) == [(0.2, 0.1), (0.6, 0.1), (1.0, 0.1), (0.2, 0.3), (0.6, 0.3), (1.0, 0.3)]


def test_rows_told_stand_in_the_middle_of_a_wider_block(pen: Pen) -> None:
    pen(sown("leek 1", block=block(0, 0, 1.2, 0.2), rows=2, row_cm=30.0, spacing_cm=20.0), bed="b1")
    assert places(pen) == [(0.45, 0.1), (0.75, 0.1)]


def test_fewer_plants_fill_it_from_the_corner_and_more_stand_closer(pen: Pen) -> None:
    pen(sown("leek 1", block=block(0.0, 0.0, 0.3, 1.0), row_cm=30.0, spacing_cm=20.0), bed="b1")
    assert places(pen, count=2) == [(0.15, 0.1), (0.15, 0.3)]
    close = places(pen, count=10)
    assert len(close) == 10
    assert close[1][1] - close[0][1] == pytest.approx(0.1)


def test_single_places_are_where_they_were_told(pen: Pen) -> None:
    pen(kinds.PlantedOut(planting="p", crop="courgette", plants=2, spots=((0.6, 0.5), (0.6, 1.7))), bed="b1")
    assert places(pen) == [(0.6, 0.5), (0.6, 1.7)]
    free = garden(pen).free_ground("b1", LATER)
    assert free is not None
    assert free.area_m2 == pytest.approx(2.88 - 2 * 0.09)


def test_plants_in_two_blocks_are_shared_out(pen: Pen) -> None:
    spaced = {"row_cm": 20.0, "spacing_cm": 20.0}
    pen(sown("leek 1", block=block(0.0, 0.0, 0.4, 0.4), **spaced), bed="b1")
    pen(sown("leek 1", block=block(0.0, 1.0, 0.4, 0.8), **spaced), 2, bed="b1")
    assert len(places(pen)) == 4 + 8
    assert len(places(pen, count=24)) == 24
    assert sum(along < 0.5 for _, along in places(pen, count=24)) == 8


def test_without_any_distance_there_are_no_places(pen: Pen) -> None:
    pen(sown("leek 1", block=block(0.0, 0.0, 0.3, 1.0)), bed="b1")
    assert places(pen) == []
    assert len(places(pen, usual=(30.0, 10.0))) == 10


def test_a_row_of_known_length_counted_in_a_stretch_uses_its_block(pen: Pen) -> None:
    pen(sown("leek 1", rows=2, block=block(0.0, 0.0, 0.6, 1.5)), bed="b1")
    pen(kinds.Counted(standing=10, of_row_m=1.0), 20, planting="leek 1")
    assert garden(pen).plantings["leek 1"].plants.number == pytest.approx(30.0)


# -- what stays with a planting ----------------------------------------------------------------------


def test_a_place_belongs_to_the_bed_it_is_in(pen: Pen) -> None:
    pen(kinds.BedSet(name="Nursery", x_m=3.0, width_m=1.0, length_m=1.0), bed="b2")
    pen(sown("leek 1", block=block(0.0, 0.0, 1.0, 0.2)), bed="b2")
    pen(kinds.PlantedOut(planting="leek 1", crop="leek", plants=10), 60, bed="b1")
    leek = garden(pen).plantings["leek 1"]
    assert [corners(each) for each in leek.stays[0].blocks] == [(0.0, 0.0, 1.0, 0.2)]
    assert leek.blocks == ()
    assert leek.area_m2 is None


def test_told_blocks_give_the_area_and_none_counts_twice(pen: Pen) -> None:
    pen(sown("pea 1", block=block(0.0, 0.0, 1.2, 1.0)), bed="b1")
    pen(sown("pea 1", block=block(0.0, 0.0, 1.2, 0.5)), 20, bed="b1")
    pea = garden(pen).plantings["pea 1"]
    assert pea.area_m2 == pytest.approx(1.2)
    assert not pea.area_assumed


# -- questions ---------------------------------------------------------------------------------------


def asked(pen: Pen, act: Payload, bed: str = "b1") -> list[Question]:
    return questions(garden(pen), Pen(first=LATER)(act, bed=bed), LATER)


def test_a_place_past_the_edge_is_asked_about(pen: Pen) -> None:
    (found,) = asked(pen, sown("pea 1", block=block(0.0, 2.0, 1.2, 0.7)))
    assert "0.3 m past the edge of Long bed" in str(found)
    assert found.may_insist
    (spot,) = asked(pen, kinds.PlantedOut(planting="k", crop="kale", plants=1, spots=((1.5, 0.2),)))
    assert "0.3 m past" in str(spot)


@pytest.mark.parametrize(
    "act",
    [
        sown("dill 1", block=block(0.3, 0.5, 0.5, 0.3)),
        kinds.PlantedOut(planting="kale 1", crop="kale", plants=1, spots=((0.6, 0.6),)),
    ],
)
def test_ground_that_is_taken_is_asked_about_and_the_free_ground_named(pen: Pen, act: Payload) -> None:
    pen(sown("pea 1", block=block(0.0, 0.0, 1.2, 1.0)), bed="b1")
    (found,) = asked(pen, act)
    assert "On that ground since 1 Apr 2026: pea 1" in found.found
    assert found.may_insist
    assert found.nearest == ("1.2 m by 1.4 m, from 0 m across and 1 m along",)


def test_neighbours_and_what_is_over_are_not_asked_about(pen: Pen) -> None:
    pen(sown("pea 1", block=block(0.0, 0.0, 1.2, 1.0)), bed="b1")
    pen(sown("cress 1", block=block(0.0, 1.0, 1.2, 1.0)), bed="b1")
    pen(kinds.Ended(how="cleared"), 30, planting="cress 1")
    assert asked(pen, sown("dill 1", block=block(0.0, 0.97, 1.2, 0.5))) == []


def test_two_plants_in_one_place_and_more_places_than_plants(pen: Pen) -> None:
    pen(kinds.PlantedOut(planting="kale 1", crop="kale", spots=((0.6, 0.6),)), bed="b1")
    near = kinds.PlantedOut(planting="k", crop="cabbage", plants=1, spots=((0.65, 0.6), (0.6, 1.4)))
    assert ["2 places are named for 1 plants" in str(each) for each in asked(pen, near)] == [True, False]
    assert asked(pen, kinds.PlantedOut(planting="k", crop="cabbage", spots=((0.75, 0.6),))) == []


@pytest.mark.parametrize("odd", [block(0, 0, 0.0, 1.0), block(float("nan"), 0, 1, 1), block(0, 0, 1, -1)])
def test_a_place_that_is_none_cannot_be_insisted_on(pen: Pen, odd: Block) -> None:
    (found,) = asked(pen, sown("pea 1", block=odd))
    assert not found.may_insist


# -- geometry ----------------------------------------------------------------------------------------

SIDES = st.floats(0.1, 3.0)
BLOCKS = st.builds(block, st.floats(-0.5, 3.0), st.floats(-0.5, 6.0), SIDES, SIDES)


@given(st.lists(BLOCKS, max_size=6), SIDES, SIDES)
def test_free_stretches_lie_in_the_bed_touch_nothing_and_miss_no_place(
    taken: list[Block], width_m: float, length_m: float
) -> None:
    free = free_stretches(width_m, length_m, taken)
    for place, one in enumerate(free):
        assert sticks_out_m(one, width_m, length_m) <= 1e-9
        for other in (*taken, *free[:place]):
            both = shared(one, other)
            assert both is None or min(both.width_m, both.length_m) < 1e-6
    # Together they cover all but slivers: no square of two hands' breadth is left out.
    step = 0.05
    for i in range(int(width_m / step)):
        for j in range(int(length_m / step)):
            spot = block(i * step, j * step, 0.2, 0.2)
            if sticks_out_m(spot, width_m, length_m) <= 0 and not any(
                overlap(spot, other, 0.0) for other in (*taken, *free)
            ):
                pytest.fail(f"{spot} is free and not found")


@given(st.lists(BLOCKS, max_size=6))
def test_joined_blocks_do_not_lie_in_each_other(blocks: list[Block]) -> None:
    found: tuple[Block, ...] = ()
    for one in blocks:
        found = joined(found, one)
    assert joined(found, found[0]) == found if found else True
    for one in blocks:
        assert any(overlap(one, other, 0.0) for other in found)
