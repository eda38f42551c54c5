"""Locks: set by rule where nobody thinks of them, reaching what they should, lifted by those who may."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from garden_book import SPRING, Pen
from source_tree import first_column
from spadework.garden import entries as kinds
from spadework.garden.fold import fold
from spadework.garden.lock_rules import (
    BEAN_TEST,
    LABEL_DAYS,
    PETS_MANURE,
    RAW_MANURE,
    RULES,
    SPRAY_CARRIED_OVER,
    is_manure,
    is_of_pets,
)
from spadework.garden.locks import Lock
from spadework.garden.state import Garden


def day(after: int) -> date:
    return SPRING + timedelta(days=after)


@pytest.fixture
def pen() -> Pen:
    pen = Pen()
    for key in ("b1", "b2"):
        pen(kinds.BedSet(name=key), bed=key)
    for planting, crop, bed in (("c", "carrot", "b1"), ("m", "sweet-corn", "b1"), ("l", "leek", "b2")):
        pen(kinds.Sown(planting=planting, crop=crop), bed=bed)
    return pen


def people(pen: Pen) -> None:
    pen(kinds.PersonSet(person="ann", name="Ann", role="keeper"))
    pen(kinds.PersonSet(person="bob", name="Bob", role="helper"))
    pen(kinds.PersonSet(person="cy", name="Cy", role="reader"))


def rules(locks: tuple[Lock, ...]) -> list[str]:
    return [lock.rule for lock in locks]


def amended(pen: Pen, material: str = "horse manure", after: int = 10, **fields: Any) -> str:
    usual = {"state": "raw", "spray_history": "clean"}
    place = {"bed": "b1"} | {key: fields.pop(key) for key in ("bed", "batch", "author") if key in fields}
    return pen(kinds.Amended(material=material, **(usual | fields)), after, **place).key


def held(garden: Garden, planting: str, after: int, stops: Any = "picking") -> bool:
    return bool(garden.locks_on(day(after), planting=planting, stops=stops))


def test_raw_manure_locks_picking_for_120_days_and_90_off_the_soil(pen: Pen) -> None:
    amended(pen)
    garden = fold(pen.written)
    assert not held(garden, "c", 9)
    assert held(garden, "c", 10)
    assert held(garden, "c", 129)
    assert not held(garden, "c", 130)
    assert held(garden, "m", 99)
    assert not held(garden, "m", 100)
    assert not held(garden, "l", 50), "another bed"
    assert rules(garden.locks_on(day(129), bed="b1")) == [RAW_MANURE]
    (lock,) = garden.locks
    assert (lock.source, lock.on, lock.subject, lock.stops) == ("NOP-205203", "bed", "b1", "picking")


def test_a_tomato_counts_as_off_the_soil_only_where_it_was_supported(pen: Pen) -> None:
    pen(kinds.PlantedOut(planting="t", crop="tomato", plants=3), 20, bed="b1")
    amended(pen)
    assert held(fold(pen.written), "t", 110)
    pen(kinds.Tended(act="supported"), 40, planting="t")
    assert not held(fold(pen.written), "t", 110)


def test_what_is_planted_later_is_locked_too_and_what_left_before_is_not(pen: Pen) -> None:
    pen(kinds.PlantedOut(planting="x", crop="lettuce", plants=9), 5, bed="b1")
    pen(kinds.PlantedOut(planting="x", crop="lettuce", plants=9), 8, bed="b2")
    amended(pen)
    pen(kinds.PlantedOut(planting="n", crop="lettuce", plants=9), 40, bed="b1")
    garden = fold(pen.written)
    assert held(garden, "n", 100)
    assert not held(garden, "x", 50)


def test_manure_dug_in_on_the_day_the_crop_was_moved_out_does_not_follow_it(pen: Pen) -> None:
    amended(pen, after=10)
    pen(kinds.PlantedOut(planting="c", crop="carrot", plants=9), 10, bed="b2")
    assert not held(fold(pen.written), "c", 50)


def test_a_lock_goes_with_plants_moved_out_of_the_bed(pen: Pen) -> None:
    amended(pen)
    pen(kinds.PlantedOut(planting="c2", crop="carrot", from_planting="c", plants=5), 20, bed="b2")
    garden = fold(pen.written)
    assert held(garden, "c2", 60)
    assert not held(garden, "l", 60)
    assert rules(garden.locks_on(day(60), bed="b2")) == [RAW_MANURE], "whoever asks about the bed is told"


def test_a_lock_on_planting_stays_with_the_ground(pen: Pen) -> None:
    amended(pen, "hay", state="finished", spray_history="sprayed")
    pen(kinds.PlantedOut(planting="c2", crop="carrot", from_planting="c", plants=5), 20, bed="b2")
    garden = fold(pen.written)
    assert garden.locks_on(day(60), bed="b1", stops="planting")
    assert not garden.locks_on(day(60), bed="b2", stops="planting")
    assert not garden.locks_on(day(60), planting="c2")


def test_a_lock_on_a_tunnel_holds_for_the_beds_inside(pen: Pen) -> None:
    pen(kinds.BedSet(name="Tunnel", shape="tunnel"), bed="t")
    pen(kinds.BedSet(name="Inner", inside="t"), bed="i")
    pen(kinds.Sown(planting="p", crop="lettuce"), bed="i")
    amended(pen, bed="t")
    garden = fold(pen.written)
    assert held(garden, "p", 50)
    assert rules(garden.locks_on(day(50), bed="i")) == [RAW_MANURE]


@pytest.mark.parametrize(
    ("material", "state", "locked"),
    [
        ("cow manure", "raw", True),
        ("cow manure", "not known", True),
        ("cow manure", "finished", False),
        ("chicken litter", "not known", True),
        ("farmyard muck", "not known", True),
        ("green manure", "not known", False),
        ("green manure and cow manure", "not known", True),
        ("compost", "not known", False),
        ("compost", "raw", True),
        ("leaf litter", "raw", False),
        ("straw", "raw", False),
        ("chicken manure pellets", "not known", False),
        ("chicken manure pellets", "raw", True),
    ],
)
def test_what_counts_as_raw_manure(pen: Pen, material: str, state: str, locked: bool) -> None:
    amended(pen, material, state=state)
    assert (RAW_MANURE in rules(fold(pen.written).locks)) == locked


def test_feed_made_of_manure_counts_too(pen: Pen) -> None:
    pen(kinds.Fed(material="seaweed"), 5, bed="b1")
    assert fold(pen.written).locks == ()
    pen(kinds.Fed(material="sheep dung tea"), 5, bed="b1")
    assert rules(fold(pen.written).locks) == [RAW_MANURE]


def test_dung_of_pets_stays_out_even_when_finished(pen: Pen) -> None:
    amended(pen, "pig manure", state="finished")
    garden = fold(pen.written)
    assert rules(garden.locks) == [PETS_MANURE]
    assert held(garden, "c", 4000)
    assert is_of_pets("dogs' droppings")
    assert not is_of_pets("pigeon droppings")
    assert not is_manure("doghouse straw")


def test_the_days_on_a_label(pen: Pen) -> None:
    pen(kinds.Treated(product="soap", label_days=3), 10, planting="c")
    pen(kinds.Treated(product="copper", label_days=14), 10, bed="b2")
    pen(kinds.Treated(product="water", label_days=0), 10, bed="b2")
    garden = fold(pen.written)
    assert rules(garden.locks) == [LABEL_DAYS, LABEL_DAYS]
    assert [held(garden, "c", after) for after in (10, 12, 13)] == [True, True, False]
    assert [held(garden, "l", after) for after in (23, 24)] == [True, False]
    assert not held(garden, "m", 11)


def test_a_label_nobody_read_locks_until_it_is(pen: Pen) -> None:
    treated = pen(kinds.Treated(product="soap"), 10, planting="c")
    garden = fold(pen.written)
    assert held(garden, "c", 3000)
    assert "label" in garden.locks[0].test
    pen(kinds.Treated(product="soap", label_days=3), 10, planting="c", replaces=treated.key)
    assert not held(fold(pen.written), "c", 13)


def test_a_tray_treated_locks_what_is_planted_out_of_it(pen: Pen) -> None:
    pen(kinds.Sown(planting="t", crop="lettuce", tray="tray"))
    pen(kinds.Treated(product="soap", label_days=30), 10, planting="t")
    pen(kinds.PlantedOut(planting="t2", crop="lettuce", from_planting="t", plants=5), 20, bed="b2")
    assert held(fold(pen.written), "t2", 30)


@pytest.mark.parametrize(
    ("material", "history", "locked"),
    [
        ("hay", "", True),
        ("hay", "not known", True),
        ("straw", "sprayed", True),
        ("straw", "clean", False),
        ("horse manure", "", True),
        ("grass clippings", "", True),
        ("compost", "", False),
        ("compost", "not known", True),
        ("compost", "sprayed", True),
        ("leaf mould", "", False),
    ],
)
def test_weedkiller_carried_over(pen: Pen, material: str, history: str, locked: bool) -> None:
    amended(pen, material, state="finished", spray_history=history)
    garden = fold(pen.written)
    assert rules(garden.locks) == [SPRAY_CARRIED_OVER] * locked
    assert bool(garden.locks_on(day(500), bed="b1", stops="planting")) == locked
    assert not garden.locks_on(day(20), bed="b1", stops="picking"), "it harms plants, not eaters"


def test_a_bean_test_of_a_batch_frees_every_bed_it_went_into_and_later_uses(pen: Pen) -> None:
    for bed in ("b1", "b2"):
        amended(pen, "hay", state="finished", spray_history="not known", batch="bale", bed=bed)
    garden = fold(pen.written)
    assert rules(garden.locks_on(day(20), batch="bale", stops="using")) == [SPRAY_CARRIED_OVER] * 2
    assert garden.locks_on(day(20), bed="b2", stops="planting")
    (name,) = {lock.lock for lock in garden.locks if lock.on == "batch"}
    assert garden.locks[0].test == BEAN_TEST
    pen(kinds.Unlocked(lock=name, why="beans grew straight"), 40)
    amended(pen, "hay", 50, state="finished", spray_history="not known", batch="bale")
    garden = fold(pen.written)
    assert garden.locks_on(day(39), bed="b1", stops="planting")
    assert garden.locks_on(day(40)) == ()
    assert garden.locks_on(day(60)) == ()


def test_a_batch_locked_by_a_person_is_locked_in_the_beds_it_went_into(pen: Pen) -> None:
    amended(pen, "compost", state="finished", batch="heap")
    pen(kinds.Locked(lock="k", on="batch", why="glass in it"), 20, batch="heap")
    garden = fold(pen.written)
    assert [lock.stops for lock in garden.locks_on(day(21), batch="heap")] == ["using"]
    pen(kinds.PlantedOut(planting="c2", crop="carrot", from_planting="c", plants=5), 25, bed="b2")
    assert held(fold(pen.written), "c2", 30), "it may be about what was taken out of that soil"
    for stops in ("picking", "planting", None):
        assert [lock.lock for lock in garden.locks_on(day(21), bed="b1", stops=stops)] == ["k"]
    assert held(garden, "c", 21)
    assert not garden.locks_on(day(21), bed="b2")


def test_locks_nobody_gave_a_place_hold_everywhere(pen: Pen) -> None:
    amended(pen, bed="")
    garden = fold(pen.written)
    assert held(garden, "c", 20)
    assert held(garden, "l", 20)
    assert garden.locks_on(day(20), bed="b2")
    pen(kinds.Sown(planting="t", crop="lettuce", tray="tray"))
    assert held(fold(pen.written), "t", 20), "in no bed at all"


def test_a_heap_is_not_yet_on_any_soil(pen: Pen) -> None:
    amended(pen, bed="", batch="heap")
    assert fold(pen.written).locks == ()


def test_a_lock_of_a_person(pen: Pen) -> None:
    pen(kinds.Locked(lock="k", on="planting", why="sick", until=day(20)), 10, planting="c")
    garden = fold(pen.written)
    assert [held(garden, "c", after) for after in (9, 10, 19, 20)] == [False, True, True, False]
    assert [lock.lock for lock in garden.locks_on(day(12), bed="b1")] == ["k"], "what stands in it is locked"
    assert not held(garden, "m", 12)


def test_only_those_who_may_lift_it(pen: Pen) -> None:
    people(pen)
    pen(kinds.Locked(lock="k", on="bed", why="lead"), 5, bed="b1")
    for author in ("bob", "cy", "stranger"):
        pen(kinds.Unlocked(lock="k", why="please"), 10, author=author)
    garden = fold(pen.written)
    assert held(garden, "c", 300)
    assert len(garden.locks[0].refused) == 3
    assert [person.key for person in garden.lifters(garden.locks[0])] == ["ann"]
    pen(kinds.Unlocked(lock="k", why="tested"), 12)
    garden = fold(pen.written)
    assert [held(garden, "c", after) for after in (11, 12)] == [True, False]
    assert (garden.locks[0].lifted_by, garden.locks[0].lifted_why) == ("ann", "tested")
    assert held(fold(pen.written, day=day(11)), "c", 300)


def test_anyone_but_a_reader_may_lift_some(pen: Pen) -> None:
    people(pen)
    pen(kinds.Locked(lock="k", on="bed", why="wet paint", may_lift="anyone"), 5, bed="b1")
    pen(kinds.Unlocked(lock="k", why="dry"), 10, author="cy")
    assert held(fold(pen.written), "c", 10)
    pen(kinds.Unlocked(lock="k", why="dry"), 10, author="bob")
    assert not held(fold(pen.written), "c", 10)


def test_in_a_garden_without_a_keeper_whoever_is_not_a_helper_is_the_keeper(pen: Pen) -> None:
    pen(kinds.Locked(lock="k", on="bed", why="lead"), 5, bed="b1")
    pen(kinds.Unlocked(lock="k", why="tested"), 6)
    assert not held(fold(pen.written), "c", 6)
    pen(kinds.PersonSet(person="ann", name="Ann", role="helper"))
    assert held(fold(pen.written), "c", 6)


def test_locked_again_after_it_was_lifted(pen: Pen) -> None:
    pen(kinds.Locked(lock="k", on="bed", why="lead"), 5, bed="b1")
    pen(kinds.Unlocked(lock="k", why="tested"), 10)
    pen(kinds.Locked(lock="k", on="bed", why="lead again"), 20, bed="b1")
    assert [held(fold(pen.written), "c", after) for after in (9, 10, 19, 20)] == [True, False, False, True]


def test_lifting_before_it_was_set_lifts_nothing(pen: Pen) -> None:
    pen(kinds.Unlocked(lock="k", why="early"), 4)
    pen(kinds.Locked(lock="k", on="bed", why="lead"), 5, bed="b1")
    assert held(fold(pen.written), "c", 6)


def test_a_lock_cannot_be_passed_by_undoing_or_correcting_its_entry(pen: Pen) -> None:
    people(pen)
    manure = amended(pen)
    lock = pen(kinds.Locked(lock="k", on="bed", why="lead"), 5, bed="b1")
    pen(withdraws=manure, author="bob")
    pen(
        kinds.Locked(lock="k", on="bed", why="lead", until=day(6)),
        5,
        bed="b1",
        author="bob",
        replaces=lock.key,
    )
    garden = fold(pen.written)
    assert held(garden, "c", 50)
    assert {each.entry_undone_by for each in garden.locks_on(day(50))} == {"bob"}
    assert "amended" not in garden.beds["b1"].last, "the act itself is undone"
    for name in {each.lock for each in garden.locks}:
        pen(kinds.Unlocked(lock=name, why="looked into"), 20)
    assert [held(fold(pen.written), "c", after) for after in (19, 20)] == [True, False]


def test_a_keeper_and_whoever_wrote_it_may_take_an_entry_back(pen: Pen) -> None:
    people(pen)
    own = amended(pen, author="bob")
    pen(withdraws=own, author="bob")
    other = amended(pen, author="bob")
    pen(withdraws=other, author="ann")
    assert fold(pen.written).locks == ()


def test_a_correction_that_keeps_the_lock_leaves_one(pen: Pen) -> None:
    people(pen)
    manure = amended(pen)
    amended_again = kinds.Amended(material="cow manure", state="raw", spray_history="clean", litres=40.0)
    pen(amended_again, 10, bed="b1", author="bob", replaces=manure)
    (lock,) = fold(pen.written).locks
    assert lock.why == "cow manure, raw"


def test_a_correction_by_its_author_takes_the_lock_away(pen: Pen) -> None:
    manure = amended(pen, state="not known")
    amended_again = kinds.Amended(material="horse manure", state="finished", spray_history="clean")
    pen(amended_again, 10, bed="b1", replaces=manure)
    assert fold(pen.written).locks == ()


def test_locks_in_the_whole_garden_and_days_past_the_calendar(pen: Pen) -> None:
    pen(kinds.Treated(product="soap", label_days=10**9), 1, bed="b1")
    amended(pen)
    garden = fold(pen.written)
    assert rules(garden.locks_on(day(20))) == [LABEL_DAYS, RAW_MANURE]
    assert garden.locks[0].until == date.max


def test_every_rule_has_a_receipt_the_sources_know() -> None:
    known = set(first_column("sources.md"))
    for rule in RULES.values():
        assert rule.provenance in known
        if rule.provenance == "published" and rule.name != LABEL_DAYS:
            assert set(rule.source.split("; ")) <= known
