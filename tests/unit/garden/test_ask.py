"""Impossible and odd acts are asked about, never taken silently and never a dead end."""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from garden_book import SPRING, Pen
from spadework.garden import entries as kinds
from spadework.garden.ask import Question, questions
from spadework.garden.entries import Payload
from spadework.garden.fold import fold

TODAY = SPRING + timedelta(days=60)


def day(after: int) -> date:
    return SPRING + timedelta(days=after)


@pytest.fixture
def pen() -> Pen:
    pen = Pen()
    pen(kinds.PersonSet(person="ann", name="Ann", role="keeper"))
    pen(kinds.PersonSet(person="bob", name="Bob"))
    pen(kinds.PersonSet(person="cy", name="Cy", role="reader"))
    pen(kinds.BedSet(name="Long bed", width_m=1.2, length_m=2.4), bed="b1")
    pen(kinds.BedSet(name="Short bed", width_m=1.0, length_m=1.0, x_m=3.0), bed="b2")
    pen(kinds.KitSet(item="fleece", sort="fleece", length_m=6.0))
    pen(kinds.LotSet(lot="l1", crop="carrot", seeds=300))
    pen(kinds.Sown(planting="carrot 1", crop="carrot", rows=3, row_cm=25.0, seeds=200, lot="l1"), bed="b1")
    pen(kinds.PlantedOut(planting="leek 1", crop="leek", plants=20), 5, bed="b2")
    pen(kinds.PlantedOut(planting="old 1", crop="lettuce", plants=6), 5, bed="b2")
    pen(kinds.Ended(how="cleared"), 30, planting="old 1")
    return pen


def asked(pen: Pen, act: Payload | None = None, after: int = 40, **fields: Any) -> list[Question]:
    """Questions about an entry that is not yet in the book."""
    garden = fold(pen.written, picked_whole={"leek"})
    entry = Pen(first=day(200))(act, day(after), **fields)
    return questions(garden, entry, TODAY)


def only(found: list[Question]) -> Question:
    assert len(found) == 1, [str(question) for question in found]
    return found[0]


@pytest.mark.parametrize(
    ("act", "fields"),
    [
        (kinds.Counted(standing=150), {"planting": "carrot 1"}),
        (kinds.Counted(standing=20, of_row_m=1.0), {"planting": "carrot 1"}),
        (kinds.Thinned(removed=60), {"planting": "carrot 1"}),
        (kinds.Thinned(left=20), {"planting": "leek 1"}),
        (kinds.Picked(pieces=20), {"planting": "leek 1"}),
        (kinds.Picked(kg=2.0), {"bed": "b1", "planting": "carrot 1"}),
        (kinds.Watered(litres=20.0), {"bed": "b1"}),
        (kinds.Moved(act="on", item="fleece"), {"bed": "b1"}),
        (kinds.Sown(planting="carrot 2", crop="carrot", seeds=100, lot="l1"), {"bed": "b1"}),
        (kinds.Sown(planting="leek 2", crop="leek", tray="tray"), {}),
        (kinds.PlantedOut(planting="leek 2", crop="leek", plants=5, from_planting="leek 1"), {"bed": "b1"}),
        (kinds.Note(text="late, but worth it"), {"planting": "old 1"}),
        (kinds.Seen(what="slugs"), {}),
        (kinds.Amended(material="cow manure", state="finished", spray_history="clean"), {"bed": "b1"}),
        (kinds.Amended(material="compost"), {"bed": "b1"}),
        (kinds.Treated(product="soap", label_days=3), {"planting": "carrot 1"}),
        (kinds.Locked(lock="k", on="bed", why="lead"), {"bed": "b1"}),
        (kinds.ThermometerRead(place="leaf", min_c=-4.0), {}),
        (kinds.RainGauge(rain_mm=40.0), {}),
        (kinds.PersonSet(person="dee", name="Dee"), {"author": "ann"}),
        (kinds.BedSet(name="Third bed", x_m=0.0, y_m=3.0), {"bed": "b3"}),
        (kinds.Stage(what="up"), {"planting": "carrot 1"}),
    ],
)
def test_plain_entries_raise_no_question(pen: Pen, act: Payload, fields: dict[str, Any]) -> None:
    assert asked(pen, act, **fields) == []


ODD: list[tuple[str, Payload, dict[str, Any], str, tuple[str, ...]]] = [
    ("planting", kinds.Thinned(removed=5), {"planting": "carot 1"}, "never sown", ("carrot 1",)),
    ("planting", kinds.Thinned(removed=5), {"bed": "b1"}, "No planting is named", ("carrot 1",)),
    ("number", kinds.Thinned(removed=201), {"planting": "carrot 1"}, "at most 200 stood", ()),
    ("number", kinds.Thinned(left=21), {"planting": "leek 1"}, "at most 20", ()),
    ("number", kinds.Lifted(pieces=21), {"planting": "leek 1"}, "at most 20", ()),
    ("number", kinds.Picked(pieces=21), {"planting": "leek 1"}, "picked whole", ()),
    ("number", kinds.Ended(how="lost", plants=21), {"planting": "leek 1"}, "at most 20", ()),
    ("number", kinds.PrickedOut(plants=201), {"planting": "carrot 1"}, "at most 200", ()),
    ("number", kinds.Counted(standing=201), {"planting": "carrot 1"}, "200 were sown", ()),
    ("day", kinds.Counted(standing=1), {"planting": "carrot 1", "after": -2}, "sown only on", ()),
    ("day", kinds.Stage(what="up"), {"planting": "carrot 1", "after": 0}, "that very day", ()),
    ("planting", kinds.Counted(standing=1), {"planting": "old 1"}, "over since", ()),
    (
        "bed",
        kinds.Counted(standing=1),
        {"planting": "leek 1", "bed": "b1"},
        "none of it stands in",
        ("Short bed",),
    ),
    ("bed", kinds.Watered(litres=5.0), {"bed": "long bad"}, "No bed is called", ("Long bed",)),
    ("day", kinds.Note(text="x"), {"after": 61}, "still to come", ()),
    ("planting", kinds.Sown(planting="carrot 1", crop="carrot"), {"bed": "b1"}, "there already", ()),
    ("bed", kinds.Sown(planting="n", crop="carrot"), {}, "No bed is named", ()),
    ("number", kinds.Sown(planting="n", crop="pea", rows=9, row_cm=40.0), {"bed": "b1"}, "do not fit", ()),
    ("number", kinds.Sown(planting="n", crop="pea", area_m2=3.0), {"bed": "b1"}, "do not fit", ()),
    ("number", kinds.Sown(planting="n", crop="pea", row_length_m=3.0), {"bed": "b1"}, "do not fit", ()),
    ("tin", kinds.Sown(planting="n", crop="carrot", lot="l9"), {"bed": "b1"}, "No seed lot l9", ("l1",)),
    ("tin", kinds.Sown(planting="n", crop="pea", lot="l1"), {"bed": "b1"}, "is carrot, not pea", ()),
    ("tin", kinds.Sown(planting="n", crop="carrot", seeds=101, lot="l1"), {"bed": "b1"}, "100 were left", ()),
    (
        "number",
        kinds.PlantedOut(planting="n", crop="leek", plants=21, from_planting="leek 1"),
        {"bed": "b1"},
        "at most 20",
        (),
    ),
    (
        "planting",
        kinds.PlantedOut(planting="n", crop="lettuce", plants=2, from_planting="old 1"),
        {"bed": "b1"},
        "Nothing of it is left",
        (),
    ),
    (
        "planting",
        kinds.PlantedOut(planting="n", crop="leek", plants=2, from_planting="leek l"),
        {"bed": "b1"},
        "No planting leek l",
        ("leek 1",),
    ),
    (
        "number",
        kinds.PlantedOut(planting="n", crop="kale", plants=33, spacing_cm=30.0),
        {"bed": "b1"},
        "32 do",
        (),
    ),
    ("kit", kinds.Moved(act="on", item="fleace"), {"bed": "b1"}, "has no fleace", ("fleece",)),
    ("kit", kinds.Moved(act="on", item="fleece", length_m=7.0), {"bed": "b1"}, "6 m are free", ()),
    ("kit", kinds.Moved(act="off", item="fleece"), {"bed": "b1"}, "No fleece is on Long bed", ()),
    ("kit", kinds.Moved(act="off"), {"bed": "b1"}, "Nothing is on Long bed", ()),
    ("kit", kinds.Moved(act="on"), {"bed": "b1"}, "No cover is named", ("fleece",)),
    ("soil", kinds.Amended(material="cow manure", spray_history="clean"), {"bed": "b1"}, "raw or fin", ()),
    ("soil", kinds.Amended(material="hay"), {"bed": "b1"}, "spray history", ("clean", "sprayed")),
    ("soil", kinds.Fed(material="dung tea"), {"bed": "b1"}, "counts as raw", ()),
    ("label", kinds.Treated(product="soap"), {"bed": "b1"}, "was not read", ()),
    ("bed", kinds.Treated(product="soap", label_days=3), {}, "what was treated", ()),
    ("number", kinds.Watered(litres=400.0), {"bed": "b1"}, "139 mm", ()),
    ("number", kinds.ThermometerRead(place="air", max_c=86.0), {}, "86 °C", ()),
    ("number", kinds.RainGauge(rain_mm=301.0), {}, "flood", ()),
    ("number", kinds.Minutes(minutes=1000.0), {}, "A day is shorter", ()),
    ("person", kinds.Note(text="x"), {"author": "bop"}, "Nobody called bop", ("bob",)),
    ("person", kinds.Note(text="x"), {"author": "cy"}, "only reads", ()),
    ("person", kinds.PersonSet(person="ann", name="Ann", role="helper"), {}, "only keeper", ()),
    ("bed", kinds.BedSet(name="long BED", x_m=9.0), {"bed": "b3"}, "is called Long bed already", ()),
    ("bed", kinds.BedSet(name="New", x_m=1.0), {"bed": "b3"}, "lies over Long bed", ()),
    ("bed", kinds.BedSet(name="New", x_m=9.0, inside="tunel"), {"bed": "b3"}, "No tunnel", ()),
    ("planting", kinds.BedGone(), {"bed": "b1"}, "Still standing there: carrot 1", ()),
    ("day", kinds.Stood(crop="pea", year=2026), {"bed": "b1"}, "is not over", ()),
    ("lock", kinds.Unlocked(lock="k", why="x"), {}, "No lock k", ()),
    ("day", kinds.Locked(lock="k", on="bed", why="x", until=SPRING), {"bed": "b1"}, "before it begins", ()),
    ("entry", None, {"withdraws": "01ZZZZZZZZZZZZZZZZZZZZZZZZ"}, "nothing to undo", ()),
]


@pytest.mark.parametrize(("about", "act", "fields", "says", "nearest"), ODD)
def test_odd_entries(
    pen: Pen, about: str, act: Payload, fields: dict[str, Any], says: str, nearest: tuple[str, ...]
) -> None:
    question = only(asked(pen, act, **fields))
    assert question.about == about
    assert says in str(question)
    assert question.may_insist
    if nearest:
        assert question.nearest[: len(nearest)] == nearest


NOT_SO: list[tuple[Payload | None, dict[str, Any], str]] = [
    (None, {}, "says nothing"),
    (None, {"replaces": "01ZZZZZZZZZZZZZZZZZZZZZZZZ", "withdraws": "01Z"}, "correction says nothing"),
    (kinds.Note(text="x"), {"recorded_at": datetime(2026, 5, 1)}, "time zone"),
    (kinds.Note(text=" "), {}, "No text"),
    (kinds.Note(text="x"), {"author": " "}, "Nobody wrote"),
    (kinds.Counted(standing=-1), {"planting": "carrot 1"}, "below zero"),
    (kinds.Counted(standing=1, of_row_m=0.0), {"planting": "carrot 1"}, "above zero"),
    (kinds.Watered(litres=float("nan")), {"bed": "b1"}, "no number"),
    (kinds.Watered(litres=float("inf")), {"bed": "b1"}, "no number"),
    (kinds.BedSet(name="x", width_m=0.0), {"bed": "b9"}, "above zero"),
    (kinds.BedSet(name="x"), {}, "no key"),
    (kinds.Sown(planting="", crop="pea"), {"bed": "b1"}, "No planting"),
    (kinds.LotSet(lot="l2", crop="pea", germinated=11, tested=10), {}, "More than all"),
    (kinds.LotSet(lot="l2", crop="pea", tested=10), {}, "Half a germination test"),
    (kinds.LotSet(lot="l2", crop="pea", year=1066), {}, "year 1066"),
    (kinds.Seen(what="slugs", plants=3, of_plants=2), {}, "3 of 2"),
    (kinds.Seen(what="slugs", hour=25.0), {}, "no hour 25"),
    (kinds.ThermometerRead(place="air", min_c=9.0, max_c=3.0), {}, "wrong way round"),
    (kinds.ThermometerRead(place="air"), {}, "Nothing was measured"),
    (kinds.Photo(sha256="abc"), {}, "digest"),
    (kinds.Locked(lock="k", on="batch", why="x"), {"bed": "b1"}, "names none"),
    (kinds.Stood(crop="pea", year=2024), {}, "Name the bed"),
]


@pytest.mark.parametrize(("act", "fields", "says"), NOT_SO)
def test_what_says_nothing_or_contradicts_itself_cannot_be_insisted_on(
    pen: Pen, act: Payload | None, fields: dict[str, Any], says: str
) -> None:
    found = asked(pen, act, **fields)
    assert found
    assert not any(question.may_insist for question in found)
    assert any(says in str(question) for question in found)


def test_an_entry_pointing_at_itself(pen: Pen) -> None:
    key = "01AAAAAAAAAAAAAAAAAAAAAAAA"
    assert not only(asked(pen, None, key=key, withdraws=key)).may_insist


def test_an_entry_in_the_book_already_raises_no_question(pen: Pen) -> None:
    garden = fold(pen.written)
    for entry in pen.written:
        assert questions(garden, entry, TODAY) == []


def test_what_was_undone_cannot_be_undone_again(pen: Pen) -> None:
    undo = pen(withdraws=pen.written[-1].key)
    assert "already" in str(only(asked(pen, None, withdraws=undo.withdraws)))
    assert asked(pen, None, withdraws=undo.key) == []


def test_a_correction_is_asked_about_without_what_it_corrects(pen: Pen) -> None:
    sown = next(e for e in pen.written if isinstance(e.act, kinds.Sown))
    better = kinds.Sown(planting="carrot 1", crop="carrot", seeds=250, lot="l1")
    assert asked(pen, better, 0, bed="b1", replaces=sown.key) == []
    too_many = kinds.Sown(planting="carrot 1", crop="carrot", seeds=301, lot="l1")
    assert only(asked(pen, too_many, 0, bed="b1", replaces=sown.key)).about == "tin"


def test_written_twice_by_two_people(pen: Pen) -> None:
    pen(kinds.Picked(kg=1.0), 40, planting="leek 1", author="bob")
    question = only(asked(pen, kinds.Picked(kg=1.0), planting="leek 1"))
    assert (question.about, "Bob" in question.found) == ("double", True)
    assert asked(pen, kinds.Picked(kg=1.1), planting="leek 1") == []
    assert asked(pen, kinds.Picked(kg=1.0), 41, planting="leek 1") == []


def test_the_rest_of_a_cover_is_named(pen: Pen) -> None:
    pen(kinds.Moved(act="on", item="fleece", length_m=5.0), 20, bed="b2")
    question = only(asked(pen, kinds.Moved(act="on", item="fleece"), bed="b1"))
    assert "2.4 m of fleece went on, but 1 m are free. The rest is on b2 5 m." in str(question)
    assert "already" in str(only(asked(pen, kinds.Moved(act="on", item="fleece"), bed="b2")))


def test_a_bed_taken_up(pen: Pen) -> None:
    pen(kinds.Moved(act="on", item="fleece", length_m=1.0), 20, bed="b2")
    pen(kinds.Ended(how="cleared"), 21, planting="leek 1")
    assert only(asked(pen, kinds.BedGone(), bed="b2")).about == "kit"
    pen(kinds.BedGone(), 22, bed="b2", insisted=True)
    assert "taken up" in str(only(asked(pen, kinds.Watered(litres=1.0), bed="b2")))


def test_picking_under_a_lock(pen: Pen) -> None:
    pen(
        kinds.Amended(material="horse manure", state="raw", spray_history="clean"),
        10,
        bed="b1",
        author="bob",
    )
    question = only(asked(pen, kinds.Picked(kg=1.0), planting="carrot 1"))
    assert (question.about, question.may_insist) == ("lock", True)
    assert "horse manure, raw" in question.found
    assert "9 Aug 2026" in question.why
    assert "Ann" in question.why
    assert only(asked(pen, kinds.Picked(kg=1.0), bed="b1", planting="carrot 1")).about == "lock"
    assert asked(pen, kinds.Picked(kg=1.0), 9, planting="carrot 1") == []
    assert asked(pen, kinds.Picked(kg=1.0), planting="leek 1") == []


def test_planting_where_it_is_locked_and_using_a_locked_batch(pen: Pen) -> None:
    hay = kinds.Amended(material="hay", state="finished", spray_history="sprayed", batch="bale")
    pen(hay, 10, bed="b1")
    sow = kinds.Sown(planting="n", crop="bush-bean")
    assert {question.about for question in asked(pen, sow, bed="b1")} == {"lock"}
    assert asked(pen, sow, bed="b2") == []
    assert "Batch bale is locked" in str(asked(pen, hay, bed="b2")[0])


def test_lifting_a_lock(pen: Pen) -> None:
    pen(kinds.Locked(lock="k", on="bed", why="lead", test="a soil test"), 10, bed="b1")
    assert asked(pen, kinds.Unlocked(lock="k", why="tested, clean")) == []
    assert "Say how it came out" in str(only(asked(pen, kinds.Unlocked(lock="k", why=""))))
    assert "may not lift" in str(only(asked(pen, kinds.Unlocked(lock="k", why="x"), author="bob")))
    assert "in force already" in str(only(asked(pen, kinds.Locked(lock="k", on="bed", why="x"), bed="b1")))
    assert only(asked(pen, kinds.Unlocked(lock="kk", why="x"))).nearest == ("k",)
    pen(kinds.Unlocked(lock="k", why="tested"), 20)
    assert "over already" in str(only(asked(pen, kinds.Unlocked(lock="k", why="x"))))


def test_undoing_an_entry_that_set_a_lock(pen: Pen) -> None:
    lock = pen(kinds.Locked(lock="k", on="bed", why="lead"), 10, bed="b1")
    assert "stays until it is lifted by Ann" in str(only(asked(pen, None, withdraws=lock.key, author="bob")))
    assert asked(pen, None, withdraws=lock.key) == []


def test_every_question_is_two_plain_sentences(pen: Pen) -> None:
    for _, act, fields, _, _ in ODD:
        for question in asked(pen, act, **fields):
            for part in (question.found, question.why):
                assert part[-1] in ".?"
                assert not re.search(r"\bNone\b|\binf\b|  ", part)


@pytest.mark.parametrize("about", [{"bed": "b1"}, {"planting": "carrot 1"}], ids=["bed", "planting"])
def test_two_waterings_of_a_day_are_plain_and_a_third_is_asked_about(pen: Pen, about: dict[str, str]) -> None:
    watered = kinds.Watered(litres=5.0)
    assert asked(pen, watered, **about) == []
    pen(watered, 40, bed="b1")
    assert asked(pen, watered, **about) == []
    pen(watered, 40, planting="carrot 1")
    question = only(asked(pen, watered, **about))
    assert question.about == "double"
    assert "watered 2 times that day already: 5 l, 5 l" in question.found
    assert question.may_insist
    # of another day nothing is asked
    assert asked(pen, watered, 41, **about) == []
