"""Perennials, traits, tubs, chores and hours in the fold; and a third watering in a day."""

from __future__ import annotations

import math
from datetime import date, timedelta

import pytest

from garden_book import SPRING, Pen
from spadework.garden import entries as kinds
from spadework.garden.ask import questions
from spadework.garden.fold import fold

TODAY = SPRING + timedelta(days=40)


@pytest.fixture
def pen() -> Pen:
    pen = Pen()
    pen(kinds.BedSet(name="Bed 1", width_m=1.2, length_m=2.4), bed="b1")
    return pen


def test_a_perennial_stands_over_years_and_is_told_with_the_year_it_was_planted(pen: Pen) -> None:
    pen(
        kinds.PlantedOut(planting="rhubarb 1", crop="rhubarb", plants=2, perennial=True, only_year=True),
        date(2022, 1, 1),
        bed="b1",
    )
    garden = fold(pen.written)
    rhubarb = garden.plantings["rhubarb 1"]
    assert rhubarb.perennial
    assert rhubarb.only_year
    assert rhubarb.started_on.year == 2022
    assert garden.standing(date(2024, 6, 1), bed="b1") == (rhubarb,)
    assert [before.year for before in garden.before("b1")] == [2026, 2025, 2024, 2023, 2022]
    assert garden.beds["b1"].described
    assert questions(fold(pen.written[:1]), pen.written[1], TODAY) == []


def test_traits_come_with_the_planting_or_its_lot_and_go_along_when_it_is_moved(pen: Pen) -> None:
    pen(kinds.LotSet(lot="l1", crop="courgette", traits=("Self-setting",)))
    pen(kinds.Sown(planting="c 1", crop="courgette", lot="l1", tray="tray", traits=("bush",)))
    pen(kinds.PlantedOut(planting="c 2", crop="courgette", from_planting="c 1"), 20, bed="b1")
    garden = fold(pen.written)
    for key in ("c 1", "c 2"):
        assert garden.plantings[key].traits == ("bush", "Self-setting")
        assert garden.plantings[key].has("self setting")
        assert not garden.plantings[key].has("climbing")


def test_a_round_tub_holds_less_than_the_square_round_it() -> None:
    pen = Pen()
    pen(
        kinds.BedSet(name="Tub", shape="tub", width_m=0.5, length_m=0.5, depth_m=0.4, is_round=True),
        bed="t1",
    )
    pen(kinds.BedSet(name="Sack", shape="sack", width_m=0.5, length_m=0.5, depth_m=0.4, x_m=2.0), bed="s1")
    beds = fold(pen.written).beds
    assert beds["t1"].area_m2 == pytest.approx(math.pi * 0.25**2)
    assert beds["t1"].volume_l == pytest.approx(math.pi * 2.5**2 * 4)
    assert beds["s1"].volume_l == pytest.approx(100.0)
    outline = beds["t1"].outline
    assert outline is not None
    assert outline.area_m2 == pytest.approx(0.25)


def test_a_round_bed_as_long_as_it_is_not_wide_cannot_be() -> None:
    (found,) = questions(
        fold([]), Pen()(kinds.BedSet(name="Tub", width_m=0.5, length_m=0.6, is_round=True), bed="t1"), TODAY
    )
    assert not found.may_insist


def test_a_chore_comes_due_is_done_put_off_and_taken_off(pen: Pen) -> None:
    pen(kinds.ChoreSet(chore="hens", minutes=10.0, person="ann", every_days=7), 0)
    pen(kinds.ChoreSet(chore="glass", minutes=40.0, first=SPRING + timedelta(days=9)), 0)
    chores = fold(pen.written).chores
    assert chores["hens"].due(SPRING)
    assert not chores["glass"].due(SPRING + timedelta(days=8))
    assert chores["glass"].due(SPRING + timedelta(days=9))
    pen(kinds.Minutes(minutes=12.0, job="hens"), 2)
    pen(kinds.Minutes(minutes=35.0, job="glass"), 10)
    pen(kinds.Skipped(job="hens", why="rain"), 9)
    chores = fold(pen.written).chores
    assert chores["hens"].next_on == SPRING + timedelta(days=9)
    assert not chores["hens"].due(SPRING + timedelta(days=9))
    assert chores["hens"].due(SPRING + timedelta(days=10))
    assert chores["glass"].next_on is None
    pen(kinds.ChoreSet(chore="hens", minutes=15.0, person="ann", every_days=7), 11)
    assert fold(pen.written).chores["hens"].done_on == SPRING + timedelta(days=2)
    pen(kinds.ChoreSet(chore="hens", minutes=15.0, gone=True), 12)
    assert set(fold(pen.written).chores) == {"glass"}


def test_a_chore_ends_with_its_last_day(pen: Pen) -> None:
    pen(kinds.ChoreSet(chore="hens", minutes=10.0, every_days=7, last=SPRING + timedelta(days=10)))
    pen(kinds.Minutes(minutes=9.0, job="hens"), 4)
    assert fold(pen.written).chores["hens"].next_on is None


def test_a_stage_looked_for_and_not_there_is_not_reached(pen: Pen) -> None:
    pen(kinds.Sown(planting="m 1", crop="melon"), bed="b1")
    pen(kinds.Stage(what="ready", test="no crack at the stalk", reached=False), 30, planting="m 1")
    assert fold(pen.written).plantings["m 1"].stages == {}
    pen(kinds.Stage(what="ready", test="comes off the stalk"), 35, planting="m 1")
    assert fold(pen.written).plantings["m 1"].stages == {"ready": SPRING + timedelta(days=35)}


def test_covers_moved_at_told_hours_go_by_the_hour(pen: Pen) -> None:
    pen(kinds.KitSet(item="fleece", sort="fleece", length_m=10.0))
    pen(kinds.Moved(act="on", item="fleece", hour=18.0), 3, bed="b1")
    pen(kinds.Moved(act="off", item="fleece", hour=9.0), 3, bed="b1")
    assert [placed.item for placed in fold(pen.written).covers(bed="b1")] == ["fleece"]
    assert [placed.item for placed in fold(reversed(pen.written)).covers(bed="b1")] == ["fleece"]


def test_without_hours_covers_go_by_the_order_of_writing(pen: Pen) -> None:
    pen(kinds.KitSet(item="fleece", sort="fleece", length_m=10.0))
    pen(kinds.Moved(act="on", item="fleece"), 3, bed="b1")
    pen(kinds.Moved(act="off", item="fleece", hour=9.0), 3, bed="b1")
    assert fold(pen.written).covers(bed="b1") == ()


def test_a_third_watering_on_one_day_is_asked_about(pen: Pen) -> None:
    third = Pen(first=TODAY)(kinds.Watered(litres=9.0), 0, bed="b1")
    pen(kinds.Watered(litres=9.0, hour=7.0), 40, bed="b1")
    assert questions(fold(pen.written), third, TODAY) == []
    pen(kinds.Watered(minutes=5.0), 40, bed="b1")
    (found,) = questions(fold(pen.written), third, TODAY)
    assert found.about == "double"
    assert "Bed 1 was watered 2 times that day already: 9 l." in found.found
    assert found.may_insist


def test_a_measured_flow_goes_before_the_rated_one_also_when_the_bed_is_described_anew(pen: Pen) -> None:
    pen(kinds.BedSet(name="Bed 1", flow_l_min=6.0), 1, bed="b1")
    pen(kinds.Watered(minutes=10.0), 2, bed="b1")
    assert fold(pen.written).waterings("b1")[0].litres == pytest.approx(60.0)
    pen(kinds.FlowMeasured(flow_l_min=3.5), 3, bed="b1")
    pen(kinds.BedSet(name="Bed 1", flow_l_min=6.0, mulch="straw"), 4, bed="b1")
    garden = fold(pen.written)
    assert garden.beds["b1"].flow_l_min == 3.5
    assert garden.waterings("b1")[0].litres == pytest.approx(35.0)


@pytest.mark.parametrize(
    ("not_for", "act", "asked_about"),
    [
        ("spraying", kinds.Treated(product="soap", label_days=1), True),
        ("heavy lifting", kinds.Lifted(kg=20.0), True),
        ("weeding", kinds.Tended(act="weeded"), True),
        ("watering", kinds.Tended(act="weeded"), False),
        ("spraying", kinds.Watered(litres=5.0), False),
    ],
)
def test_work_a_person_is_not_for_is_asked_about(
    pen: Pen, not_for: str, act: kinds.Payload, asked_about: bool
) -> None:
    pen(kinds.PersonSet(person="ben", name="Ben", not_for=(not_for,)))
    pen(kinds.PlantedOut(planting="leek 1", crop="leek", plants=20), bed="b1")
    entry = Pen("ben", first=TODAY)(act, 0, bed="b1", planting="leek 1")
    found = questions(fold(pen.written), entry, TODAY)
    assert [f"Ben is not for {not_for}" in each.found for each in found] == [True] * asked_about
