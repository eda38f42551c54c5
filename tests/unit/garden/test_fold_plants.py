"""Plantings from sowing to clearing, and how many plants stand."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from garden_book import SPRING, Pen
from spadework.garden import entries as kinds
from spadework.garden.fold import fold
from spadework.garden.planting import Planting, Plants, Stay

BED = kinds.BedSet(name="Long bed", width_m=1.2, length_m=2.4)


def day(after: int) -> date:
    return SPRING + timedelta(days=after)


@pytest.fixture
def pen() -> Pen:
    pen = Pen()
    pen(BED, bed="b1")
    return pen


def sown(pen: Pen, **fields: Any) -> None:
    pen(kinds.Sown(planting="p1", crop="carrot", **fields), bed="b1")


def planted(pen: Pen, plants: int | None = 20, after: int = 0, **fields: Any) -> None:
    pen(kinds.PlantedOut(planting="p1", crop="lettuce", plants=plants, **fields), after, bed="b1")


def p1(pen: Pen, **fields: Any) -> Planting:
    return fold(pen.written, **fields).plantings["p1"]


def test_a_sowing_is_seeds_until_it_is_counted(pen: Pen) -> None:
    sown(pen, variety="Early", rows=3, row_cm=25.0, seeds=200, depth_mm=13.0)
    planting = p1(pen)
    assert (planting.bed, planting.stays) == ("b1", (Stay(bed="b1", since=SPRING),))
    assert (planting.sown_on, planting.set_out_on, planting.started_on) == (SPRING, None, SPRING)
    assert planting.plants == Plants(number=None, at_most=200, basis="seeds", on=SPRING)
    assert planting.plants.expected() is None
    assert planting.plants.expected(0.5) == 100.0
    assert (planting.area_m2, planting.area_assumed) == (pytest.approx(3 * 0.25 * 2.4), True)


def test_seeds_thinned_before_they_were_counted(pen: Pen) -> None:
    sown(pen, seeds=200)
    pen(kinds.Thinned(removed=30), 20, planting="p1")
    plants = p1(pen).plants
    assert (plants.at_most, plants.taken) == (170, 30)
    assert plants.expected(0.5) == 70.0
    assert plants.expected(0.1) == 0.0


def test_counts_and_thinnings_in_the_order_they_were_written(pen: Pen) -> None:
    sown(pen, seeds=200)
    pen(kinds.Counted(standing=120), 20, planting="p1")
    pen(kinds.Thinned(removed=30), 20, planting="p1")
    assert p1(pen).plants.number == 90.0
    pen(kinds.Counted(standing=88), 20, planting="p1")
    assert p1(pen).plants.number == 88.0
    pen(kinds.Thinned(left=40), 25, planting="p1")
    assert p1(pen).plants == Plants(number=40.0, at_most=40, basis="thinned", on=day(25))


def test_a_correction_keeps_the_place_of_what_it_corrects(pen: Pen) -> None:
    sown(pen, seeds=200)
    count = pen(kinds.Counted(standing=120), 20, planting="p1")
    pen(kinds.Thinned(removed=30), 20, planting="p1")
    pen(kinds.Counted(standing=100), 20, planting="p1", replaces=count.key)
    assert p1(pen).plants.number == 70.0


def test_a_count_in_a_stretch_of_row_counts_for_all_rows(pen: Pen) -> None:
    sown(pen, rows=3, seeds=400)
    pen(kinds.Counted(standing=20, of_row_m=0.5), 20, planting="p1")
    plants = p1(pen).plants
    assert (plants.number, plants.basis, plants.per_row_m) == (
        pytest.approx(40 * 3 * 2.4),
        "counted in a stretch",
        40.0,
    )


def test_a_count_in_a_stretch_without_known_rows_is_only_a_density(pen: Pen) -> None:
    sown(pen, seeds=400)
    pen(kinds.Counted(standing=20, of_row_m=0.5), 20, planting="p1")
    plants = p1(pen).plants
    assert (plants.number, plants.per_row_m, plants.basis) == (None, 40.0, "seeds")


def test_thinned_to_a_spacing(pen: Pen) -> None:
    sown(pen, rows=3, seeds=400)
    pen(kinds.Thinned(spacing_cm=5.0), 20, planting="p1")
    planting = p1(pen)
    assert (planting.plants.number, planting.plants.basis) == (144.0, "thinned to a spacing")
    assert planting.spacing_cm == 5.0


def test_thinning_to_a_spacing_adds_no_plants(pen: Pen) -> None:
    sown(pen, rows=3, seeds=400)
    pen(kinds.Counted(standing=60), 19, planting="p1")
    pen(kinds.Thinned(spacing_cm=5.0), 20, planting="p1")
    assert p1(pen).plants.number == 60.0


def test_plants_lost_picked_and_lifted_go(pen: Pen) -> None:
    planted(pen, 20, spacing_cm=30.0)
    pen(kinds.Ended(how="lost", why="slugs", plants=3), 5, planting="p1")
    pen(kinds.Picked(pieces=4, kg=1.5), 30, planting="p1")
    planting = p1(pen, picked_whole={"lettuce"})
    assert (planting.plants.number, planting.lost_plants, planting.picked_pieces) == (13.0, 3, 4)
    assert (planting.picked_kg, planting.first_picked_on, planting.picking_over) == (1.5, day(30), False)
    assert planting.ended_on is None
    assert p1(pen).plants.number == 17.0, "a crop not picked whole keeps its plants"
    assert planting.area_m2 == pytest.approx(20 * 0.09), "what was lost still takes its room"


def test_a_planting_of_which_nothing_is_left_is_over_until_a_count_says_otherwise(pen: Pen) -> None:
    planted(pen, 20)
    pen(kinds.Lifted(pieces=15), 60, planting="p1")
    pen(kinds.Lifted(pieces=5), 63, planting="p1")
    planting = p1(pen)
    assert (planting.ended_on, planting.ended_how, planting.lifted_pieces) == (day(63), "lifted", 20)
    assert planting.stays == (Stay(bed="b1", since=SPRING, until=day(63)),)
    pen(kinds.Counted(standing=2), 64, planting="p1")
    planting = p1(pen)
    assert (planting.ended_on, planting.ended_how, planting.plants.number) == (None, "", 2.0)
    assert planting.stays == (Stay(bed="b1", since=SPRING),)


def test_a_worked_out_number_ends_no_planting(pen: Pen) -> None:
    sown(pen, rows=1, seeds=400)
    pen(kinds.Counted(standing=5, of_row_m=1.2), 20, planting="p1")
    pen(kinds.Lifted(pieces=30), 90, planting="p1")
    assert (p1(pen).plants.number, p1(pen).ended_on) == (0.0, None)


def test_cleared(pen: Pen) -> None:
    planted(pen, 20)
    pen(kinds.Picked(kg=1.0, last=True), 60, planting="p1")
    pen(kinds.Ended(how="cleared", why="bolted"), 60, planting="p1")
    planting = p1(pen)
    assert (planting.ended_on, planting.ended_how, planting.ended_why) == (day(60), "cleared", "bolted")
    assert (planting.plants.number, planting.picked_kg, planting.picking_over) == (0.0, 1.0, True)
    assert planting.stands(day(59))
    assert not planting.stands(day(60))
    pen(kinds.Counted(standing=5), 61, planting="p1")
    assert p1(pen).ended_on == day(60), "what a person said is over stays so"


def test_lost_altogether(pen: Pen) -> None:
    planted(pen, 20)
    pen(kinds.Ended(how="lost", why="frost", plants=20), 3, planting="p1")
    assert (p1(pen).ended_how, p1(pen).lost_plants) == ("lost", 20)


def test_some_of_a_sowing_of_unknown_number_is_lost(pen: Pen) -> None:
    sown(pen)
    pen(kinds.Ended(how="lost", plants=5), 20, planting="p1")
    assert (p1(pen).ended_on, p1(pen).lost_plants, p1(pen).plants.number) == (None, 5, None)


def test_from_the_tray_to_the_bed_under_one_name(pen: Pen) -> None:
    pen(kinds.Sown(planting="p1", crop="leek", variety="Long", seeds=60, tray="tray 1"))
    pen(kinds.PrickedOut(plants=48, into="cells"), 20, planting="p1")
    assert (p1(pen).plants.number, p1(pen).bed, p1(pen).stays) == (48.0, "", ())
    pen(kinds.PlantedOut(planting="p1", crop="leek", plants=40), 50, bed="b1")
    planting = p1(pen)
    assert (planting.sown_on, planting.set_out_on, planting.started_on) == (SPRING, day(50), SPRING)
    assert (planting.plants.number, planting.plants.basis, planting.planted) == (40.0, "planted", 40)
    assert planting.stays == (Stay(bed="b1", since=day(50)),)
    assert planting.bed_on(day(49)) == ""
    assert planting.bed_on(day(50)) == "b1"
    assert [type(entry.act).__name__ for entry in planting.history] == ["Sown", "PrickedOut", "PlantedOut"]


def test_a_part_of_a_tray_becomes_a_planting_of_its_own(pen: Pen) -> None:
    pen(kinds.Sown(planting="t1", crop="leek", variety="Long", seeds=60, lot="l1", tray="tray 1"))
    pen(kinds.Counted(standing=50), 15, planting="t1")
    pen(kinds.PlantedOut(planting="p1", crop="leek", plants=30, from_planting="t1"), 50, bed="b1")
    garden = fold(pen.written)
    assert garden.plantings["t1"].plants.number == 20.0
    planting = garden.plantings["p1"]
    assert (planting.sown_on, planting.set_out_on, planting.lot) == (SPRING, day(50), "l1")
    assert (planting.variety, planting.plants.number) == ("Long", 30.0)
    assert [each.key for each in garden.lineage("p1")] == ["p1", "t1"]
    assert [type(e.act).__name__ for e in garden.history("p1")] == ["Sown", "Counted", "PlantedOut"]
    pen(kinds.PlantedOut(planting="p2", crop="leek", from_planting="t1"), 52, bed="b1")
    garden = fold(pen.written)
    assert (garden.plantings["t1"].ended_on, garden.plantings["t1"].ended_how) == (day(52), "moved")
    assert garden.plantings["p2"].plants.number == 20.0


def test_gaps_filled_add_plants(pen: Pen) -> None:
    planted(pen, 20)
    pen(kinds.Ended(how="lost", plants=4), 3, planting="p1")
    planted(pen, 4, after=5)
    assert (p1(pen).plants.number, p1(pen).planted, p1(pen).set_out_on) == (20.0, 24, SPRING)
    assert p1(pen).stays == (Stay(bed="b1", since=SPRING),)


def test_plants_set_among_seedlings_of_unknown_number_leave_it_unknown(pen: Pen) -> None:
    sown(pen, seeds=100)
    pen(kinds.PlantedOut(planting="p1", crop="carrot", plants=6), 30, bed="b1")
    assert (p1(pen).plants.number, p1(pen).plants.at_most) == (None, 106)


def test_moved_to_another_bed(pen: Pen) -> None:
    planted(pen, 20)
    pen(kinds.BedSet(name="Other"), bed="b2")
    pen(kinds.PlantedOut(planting="p1", crop="lettuce", plants=18), 10, bed="b2")
    planting = p1(pen)
    assert planting.stays == (Stay(bed="b1", since=SPRING, until=day(10)), Stay(bed="b2", since=day(10)))


def test_sown_again(pen: Pen) -> None:
    sown(pen, seeds=100)
    pen(kinds.Sown(planting="p1", crop="carrot", seeds=50), 14, bed="b1")
    assert (p1(pen).seeds, p1(pen).plants.at_most, p1(pen).sown_again) == (150, 150, (day(14),))
    assert p1(pen).sown_on == SPRING


def test_a_failed_row_sown_again_begins_anew(pen: Pen) -> None:
    sown(pen, seeds=100)
    pen(kinds.Stage(what="up"), 12, planting="p1")
    pen(kinds.Stage(what="ready", reached=False), 13, planting="p1")
    pen(kinds.Counted(standing=8), 13, planting="p1")
    pen(kinds.Sown(planting="p1", crop="carrot", seeds=90), 14, bed="b1")
    planting = p1(pen)
    assert (planting.started_on, planting.grows_since, planting.anew_on) == (SPRING, day(14), day(14))
    assert (planting.seeds, planting.plants.number, planting.plants.basis) == (90, None, "seeds")
    assert (dict(planting.stages), dict(planting.not_yet)) == ({}, {})


def test_gaps_filled_leave_the_row_as_it_was(pen: Pen) -> None:
    sown(pen, seeds=100)
    pen(kinds.Counted(standing=40), 13, planting="p1")
    pen(kinds.Sown(planting="p1", crop="carrot", seeds=30), 14, bed="b1")
    planting = p1(pen)
    assert (planting.anew_on, planting.grows_since, planting.seeds) == (None, SPRING, 130)
    assert (planting.plants.number, planting.plants.basis) == (40.0, "counted")


def test_sown_again_after_it_was_cleared_stands_again(pen: Pen) -> None:
    sown(pen, seeds=100)
    pen(kinds.Ended(how="lost", why="crust"), 10, planting="p1")
    pen(kinds.Sown(planting="p1", crop="carrot", seeds=50), 14, bed="b1")
    planting = p1(pen)
    assert planting.ended_on is None
    assert planting.stays == (Stay(bed="b1", since=SPRING, until=day(10)), Stay(bed="b1", since=day(14)))


def test_stages_sizes_minutes_and_last_acts(pen: Pen) -> None:
    sown(pen)
    pen(kinds.Stage(what="up"), 12, planting="p1")
    pen(kinds.Stage(what="up"), 14, planting="p1")
    pen(kinds.Measured(height_cm=10.0), 20, planting="p1")
    pen(kinds.Measured(leaves=4.0), 25, planting="p1")
    pen(kinds.Minutes(minutes=20.0, people=2), 25, planting="p1")
    pen(kinds.Tended(act="weeded"), 26, planting="p1", insisted=True)
    planting = p1(pen)
    assert dict(planting.stages) == {"up": day(12)}
    assert (planting.height_cm, planting.leaves, planting.minutes) == (10.0, 4.0, 40.0)
    assert (planting.last["weeded"], planting.last["measured"], planting.insisted) == (day(26), day(25), True)


def test_acts_on_plantings_nobody_sowed_are_kept_apart(pen: Pen) -> None:
    stray = pen(kinds.Counted(standing=5), 3, planting="p9", bed="b1")
    garden = fold(pen.written)
    assert garden.strays == (stray,)
    assert garden.beds["b1"].history[-1] == stray
    assert "p9" not in garden.plantings


def test_order_within_a_day_where_it_should_not_matter(pen: Pen) -> None:
    pen(kinds.Counted(standing=5), planting="p1")
    pen(kinds.Ended(how="cleared"), 0, planting="p1")
    pen(kinds.Picked(kg=2.0), 0, planting="p1")
    sown(pen, seeds=10)
    planting = p1(pen)
    assert (planting.picked_kg, planting.ended_on, planting.plants.basis) == (2.0, SPRING, "counted")


def test_numbers_that_cannot_be_do_not_stop_the_fold(pen: Pen) -> None:
    planted(pen, -3)
    for act in (
        kinds.Counted(standing=-5),
        kinds.Counted(standing=3, of_row_m=0.0),
        kinds.Thinned(removed=-4, spacing_cm=0.0),
        kinds.Lifted(pieces=900),
        kinds.Ended(how="lost", plants=-1),
    ):
        pen(act, 1, planting="p1")
    number = p1(pen).plants.number
    assert number is not None
    assert number >= 0
