"""Beds, kit, the seed tin and people."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from garden_book import SPRING, Pen
from spadework.errors import UnknownName
from spadework.garden import entries as kinds
from spadework.garden.fold import fold
from spadework.garden.records import Before, KitItem, Placed, SeedLot


def day(after: int) -> date:
    return SPRING + timedelta(days=after)


@pytest.fixture
def pen() -> Pen:
    pen = Pen()
    pen(kinds.BedSet(name="Long bed", width_m=1.2, length_m=2.4), bed="b1")
    pen(kinds.BedSet(name="Short bed", width_m=1.0, length_m=1.0, x_m=3.0), bed="b2")
    pen(kinds.KitSet(item="fleece", sort="fleece", length_m=6.0))
    pen(kinds.KitSet(item="hoops", sort="hoops", pieces=10))
    return pen


def item(pen: Pen, name: str = "fleece") -> KitItem:
    return fold(pen.written).kit[name]


def lot(pen: Pen) -> SeedLot:
    return fold(pen.written).tin["l1"]


def test_beds_by_key_and_name(pen: Pen) -> None:
    garden = fold(pen.written)
    assert garden.bed("b1").name == garden.bed("LONG-bed").name == "Long bed"
    with pytest.raises(UnknownName, match=r"'lang bed'.*Long bed"):
        garden.bed("lang bed")
    pen(kinds.BedSet(name="long bed"), bed="b3")
    with pytest.raises(UnknownName, match="more than one"):
        fold(pen.written).bed("Long bed")


def test_a_bed_described_anew_keeps_its_history(pen: Pen) -> None:
    pen(kinds.Tended(act="weeded"), 3, bed="b1")
    pen(kinds.BedSet(name="Lower bed", width_m=1.0, length_m=3.0, mulch="bark"), 5, bed="b1")
    bed = fold(pen.written).beds["b1"]
    assert (bed.name, bed.area_m2, bed.made_on, bed.mulch) == ("Lower bed", 3.0, SPRING, "bark")
    assert (bed.last["weeded"], len(bed.history)) == (day(3), 3)


def test_a_bed_taken_up_and_made_again(pen: Pen) -> None:
    pen(kinds.BedGone(why="path"), 10, bed="b1")
    assert (fold(pen.written).beds["b1"].gone_on, fold(pen.written).beds["b1"].gone_why) == (day(10), "path")
    pen(kinds.BedSet(name="Long bed"), 10, bed="b1")
    assert fold(pen.written).beds["b1"].gone_on is None


def test_nothing_said_of_an_undescribed_bed_is_lost(pen: Pen) -> None:
    pen(kinds.Watered(litres=5.0), 3, bed="b9")
    bed = fold(pen.written).beds["b9"]
    assert (bed.described, bed.name, bed.area_m2, bed.last["watered"]) == (False, "b9", None, day(3))


def test_a_bed_that_cannot_be_has_no_outline(pen: Pen) -> None:
    pen(kinds.BedSet(name="Odd", width_m=-1.0), bed="b8")
    assert fold(pen.written).beds["b8"].outline is None


def test_flow_as_measured_goes_before_rated_and_emitters() -> None:
    pen = Pen()
    pen(kinds.BedSet(name="a", emitters=30, emitter_l_h=2.0), bed="a")
    pen(kinds.BedSet(name="b", emitters=30, emitter_l_h=2.0, flow_l_min=1.5), bed="b")
    pen(kinds.BedSet(name="c", flow_l_min=1.5, measured_l_min=0.7), bed="c")
    pen(kinds.BedSet(name="d", week_allowance_l=60.0), bed="d")
    beds = fold(pen.written).beds
    assert [beds[key].flow_l_min for key in "abcd"] == [1.0, 1.5, 0.7, None]
    assert [beds[key].week_allowance_l for key in "cd"] == [None, 60.0]


def test_waterings_in_litres_and_as_a_depth(pen: Pen) -> None:
    pen(kinds.BedSet(name="Wet", width_m=1.0, length_m=2.0, measured_l_min=3.0), bed="b3")
    pen(kinds.Watered(litres=10.0), 1, bed="b3")
    pen(kinds.Watered(minutes=4.0), 2, bed="b3")
    pen(kinds.Watered(depth_mm=8.0), 3, bed="b3")
    pen(kinds.Watered(), 4, bed="b3")
    pen(kinds.Watered(minutes=4.0), 4, bed="b1")
    garden = fold(pen.written)
    assert [(w.litres, w.depth_mm) for w in garden.waterings("b3")] == [
        (10.0, 5.0),
        (12.0, 6.0),
        (16.0, 8.0),
        (None, None),
    ]
    assert [w.on for w in garden.waterings("b3", since=day(3))] == [day(3), day(4)]
    assert garden.waterings("b1")[0].litres is None
    assert garden.waterings("b7") == ()


def test_water_given_to_one_planting_is_a_depth_on_its_own_ground(pen: Pen) -> None:
    pen(kinds.Sown(planting="p1", crop="carrot", area_m2=0.5), bed="b1")
    pen(kinds.Watered(litres=5.0), 2, planting="p1")
    assert fold(pen.written).waterings("b1")[0].depth_mm == 10.0


def test_what_was_done_to_the_bed_counts_for_its_plantings_while_they_stood_there(pen: Pen) -> None:
    pen(kinds.Watered(litres=5.0), 1, bed="b1")
    pen(kinds.Sown(planting="p1", crop="carrot"), 2, bed="b1")
    pen(kinds.Sown(planting="p2", crop="leek"), 2, bed="b1")
    garden = fold(pen.written)
    assert garden.last_done("watered", bed="b1") == day(1)
    assert garden.last_done("watered", planting="p1") is None
    pen(kinds.Watered(litres=5.0), 4, bed="b1")
    pen(kinds.Watered(litres=5.0), 6, planting="p1")
    assert fold(pen.written).last_done("watered", planting="p2") == day(4), "only the other was watered"
    pen(kinds.Ended(how="cleared"), 8, planting="p2")
    pen(kinds.Watered(litres=5.0), 9, bed="b1")
    garden = fold(pen.written)
    assert garden.last_done("watered", planting="p1") == day(9)
    assert garden.last_done("watered", planting="p2") == day(4)
    assert garden.last_done("weeded", "hoed", bed="b1") is None
    last = garden.last_entries(bed="b1", count=2)
    assert [entry.happened_on for entry in last] == [day(9), day(8)]
    assert [e.happened_on for e in garden.last_entries(planting="p1")] == [day(6), day(2)]


def test_what_stood_before_by_bed_and_year(pen: Pen) -> None:
    pen(kinds.Stood(crop="pea", year=2024), bed="b1")
    pen(kinds.Stood(crop="kale", year=2025, family="cabbages"), bed="b1")
    pen(kinds.Sown(planting="g", crop="garlic"), date(2025, 10, 10), bed="b1")
    pen(kinds.Ended(how="cleared"), date(2026, 7, 1), planting="g")
    pen(kinds.Sown(planting="c", crop="carrot"), date(2026, 7, 2), bed="b1")
    garden = fold(pen.written)
    families = {"pea": "Fabaceae", "kale": "Brassicaceae", "garlic": "Amaryllidaceae"}
    assert garden.before("b1", families) == (
        Before(bed="b1", year=2026, crop="carrot", planting="c"),
        Before(bed="b1", year=2026, crop="garlic", family="Amaryllidaceae", planting="g"),
        Before(bed="b1", year=2025, crop="garlic", family="Amaryllidaceae", planting="g"),
        Before(bed="b1", year=2025, crop="kale", family="cabbages"),
        Before(bed="b1", year=2024, crop="pea", family="Fabaceae"),
    )
    assert [b.crop for b in garden.before("b1", until=date(2026, 1, 1))] == ["garlic", "kale", "pea"]
    assert garden.before("b2") == ()


def test_standing_on_any_day(pen: Pen) -> None:
    pen(kinds.Sown(planting="p1", crop="carrot"), 2, bed="b1")
    pen(kinds.Sown(planting="p2", crop="leek", tray="t"), 1)
    pen(kinds.PlantedOut(planting="p2", crop="leek", plants=10), 30, bed="b2")
    pen(kinds.Ended(how="cleared"), 40, planting="p1")
    garden = fold(pen.written)
    assert [p.key for p in garden.standing()] == ["p2"]
    assert [p.key for p in garden.standing(day(2))] == ["p2", "p1"]
    assert [p.key for p in garden.standing(day(39), bed="b1")] == ["p1"]
    assert garden.standing(day(40), bed="b1") == ()
    assert garden.standing(day(29), bed="b2") == ()
    assert [p.key for p in garden.standing(bed="b2")] == ["p2"]
    assert garden.standing(day(0)) == ()


def test_kit_in_use_and_free(pen: Pen) -> None:
    pen(kinds.Moved(act="on", item="fleece", length_m=2.0), 1, bed="b1")
    pen(kinds.Moved(act="on", item="fleece"), 2, bed="b2")
    fleece = item(pen)
    assert fleece.free_m == 3.0
    assert fleece.placed == (
        Placed(item="fleece", bed="b1", length_m=2.0, since=day(1)),
        Placed(item="fleece", bed="b2", length_m=1.0, assumed=True, since=day(2)),
    )
    pen(kinds.Moved(act="on", item="fleece"), 3, bed="b1")
    assert item(pen).free_m == 3.0, "said again it only says that it is there"
    pen(kinds.Moved(act="on", item="fleece", length_m=0.4), 3, bed="b1")
    assert item(pen).free_m == pytest.approx(2.6)
    pen(kinds.Moved(act="off", item="fleece", length_m=0.4), 4, bed="b1")
    assert item(pen).free_m == pytest.approx(3.0)
    pen(kinds.Moved(act="off"), 5, bed="b1")
    assert [placed.bed for placed in item(pen).placed] == ["b2"]
    pen(kinds.Moved(act="off", item="fleece"), 6)
    assert (item(pen).placed, item(pen).free_m) == ((), 6.0)


def test_more_out_than_there_is_shows(pen: Pen) -> None:
    pen(kinds.Moved(act="on", item="fleece", length_m=8.0), 1, bed="b1", insisted=True)
    assert item(pen).free_m == -2.0


def test_a_cover_without_length_takes_no_more_than_is_free(pen: Pen) -> None:
    pen(kinds.Moved(act="on", item="fleece", length_m=5.0), 1, bed="b2")
    pen(kinds.Moved(act="on", item="fleece"), 2, bed="b1")
    assert item(pen).free_m == 0.0


def test_opened_and_shut(pen: Pen) -> None:
    pen(kinds.Moved(act="on", item="fleece", length_m=2.0), 1, bed="b1")
    pen(kinds.Moved(act="opened"), 2, bed="b1")
    garden = fold(pen.written)
    assert [placed.opened for placed in garden.covers(bed="b1")] == [True]
    assert garden.beds["b1"].opened is True
    pen(kinds.Moved(act="shut", item="fleece"), 3, bed="b1")
    assert [placed.opened for placed in fold(pen.written).covers(bed="b1")] == [False]


def test_covers_over_a_planting(pen: Pen) -> None:
    pen(kinds.Sown(planting="p1", crop="carrot"), bed="b1")
    pen(kinds.Sown(planting="p2", crop="kale"), bed="b1")
    pen(kinds.Moved(act="on", item="fleece", length_m=1.0), 1, planting="p1")
    pen(kinds.Moved(act="on", item="hoops", pieces=4), 1, bed="b1")
    garden = fold(pen.written)
    assert [c.item for c in garden.covers(planting="p1")] == ["fleece", "hoops"]
    assert [c.item for c in garden.covers(planting="p2")] == ["hoops"]
    assert [c.item for c in garden.covers(bed="b1")] == ["fleece", "hoops"]
    assert garden.kit["hoops"].free_pieces == 6
    pen(kinds.Moved(act="off", item="hoops"), 2, planting="p1")
    assert fold(pen.written).kit["hoops"].free_pieces == 10


def test_trays_hold_plantings_until_they_are_planted_out(pen: Pen) -> None:
    pen(kinds.KitSet(item="tray", sort="tray", pieces=3))
    pen(kinds.Sown(planting="p1", crop="leek", tray="tray"))
    assert (item(pen, "tray").holds, item(pen, "tray").free_pieces) == (("p1",), 2)
    pen(kinds.PlantedOut(planting="p1", crop="leek", plants=4), 30, bed="b1")
    assert (item(pen, "tray").holds, item(pen, "tray").free_pieces) == ((), 3)


def test_kit_the_garden_was_never_said_to_have(pen: Pen) -> None:
    pen(kinds.Moved(act="on", item="mesh", length_m=2.0), 1, bed="b1", insisted=True)
    mesh = item(pen, "mesh")
    assert (mesh.described, mesh.free_m, mesh.placed[0].length_m) == (False, None, 2.0)


def test_the_tin_after_sowings(pen: Pen) -> None:
    pen(kinds.LotSet(lot="l1", crop="carrot", year=2025, seeds=500, germinated=41, tested=50), 5)
    pen(kinds.Sown(planting="p1", crop="carrot", seeds=200, lot="l1"), 5, bed="b1")
    pen(kinds.Sown(planting="p2", crop="carrot", lot="l1"), 8, bed="b1")
    tin = lot(pen)
    assert (tin.left(), tin.sown, tin.uncounted, tin.plantings) == (300.0, 200, 1, ("p1", "p2"))
    assert tin.germination is not None
    assert (tin.germination.share, tin.tested_on) == (pytest.approx(42 / 52), day(5))
    pen(kinds.LotSet(lot="l1", crop="carrot", year=2025, seeds=150), 8)
    tin = lot(pen)
    assert (tin.left(), tin.uncounted, tin.tested_on) == (150.0, 0, day(5)), "counted anew after the sowing"
    pen(kinds.Sown(planting="p3", crop="carrot", seeds=10, lot="l1"), 8, bed="b1")
    assert lot(pen).left() == 140.0


def test_a_lot_told_in_the_evening_was_there_in_the_morning(pen: Pen) -> None:
    pen(kinds.Sown(planting="p1", crop="carrot", seeds=200, lot="l1"), 5, bed="b1")
    pen(kinds.LotSet(lot="l1", crop="carrot", seeds=500), 5)
    assert lot(pen).left() == 300.0


def test_lots_weighed_and_lots_never_told(pen: Pen) -> None:
    pen(kinds.LotSet(lot="l1", crop="carrot", grams=2.0), 1)
    pen(kinds.Sown(planting="p1", crop="carrot", seeds=200, lot="l1"), 5, bed="b1")
    pen(kinds.Sown(planting="p2", crop="leek", seeds=20, lot="l2"), 5, bed="b1")
    assert (lot(pen).left(), lot(pen).left(880.0)) == (None, 1560.0)
    assert fold(pen.written).lot("L2").described is False


def test_a_test_that_cannot_be_is_left_out(pen: Pen) -> None:
    pen(kinds.LotSet(lot="l1", crop="carrot", germinated=9, tested=5))
    assert lot(pen).germination is None


def test_mulch_batches_and_minutes_of_a_bed(pen: Pen) -> None:
    pen(kinds.Tended(act="mulched", material="leaf mould"), 1, bed="b1")
    pen(
        kinds.Amended(material="compost", batch="heap 1", state="finished", spray_history="clean"),
        2,
        bed="b1",
    )
    pen(kinds.Minutes(minutes=15.0, people=2), 2, bed="b1")
    bed = fold(pen.written).beds["b1"]
    assert (bed.mulch, bed.batches, bed.minutes) == ("leaf mould", (("heap 1", day(2)),), 30.0)
    assert bed.last["amended"] == day(2)


def test_people_and_as_of_a_day(pen: Pen) -> None:
    pen(kinds.PersonSet(person="bob", name="Bob", not_for=("lifting",)), 1)
    pen(kinds.PersonSet(person="bob", name="Bob", role="keeper"), 10)
    garden = fold(pen.written)
    assert (garden.people["bob"].role, garden.people["bob"].not_for) == ("keeper", ())
    then = fold(pen.written, day=day(9))
    assert (then.people["bob"].role, then.people["bob"].not_for) == ("helper", ("lifting",))
    assert then.day == then.last_day == day(9)
    assert fold(pen.written, day=day(0)).people == {}
