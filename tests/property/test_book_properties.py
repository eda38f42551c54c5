"""What must hold of the garden whatever is in the book."""

from __future__ import annotations

import dataclasses
import itertools
import math
from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta
from random import Random
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from garden_book import SPRING, Pen
from spadework.garden import entries as kinds
from spadework.garden.ask import questions
from spadework.garden.entries import Entry, Payload
from spadework.garden.fold import fold
from spadework.garden.keys import new_key
from spadework.garden.locks import Lock
from spadework.garden.state import Garden

BEDS = st.sampled_from(["", "b1", "b2", "b3"])
PLANTINGS = st.sampled_from(["", "p1", "p2", "p3", "p4"])
PEOPLE = st.sampled_from(["ann", "bob", "cy"])
BATCHES = st.sampled_from(["", "heap"])
COUNTS = st.integers(0, 60) | st.none()
METRES = st.floats(0.1, 9.0) | st.none()
BLOCKS = st.none() | st.builds(
    kinds.Block,
    across_m=st.floats(-1.0, 2.0),
    along_m=st.floats(0.0, 4.0),
    width_m=st.floats(0.1, 2.0),
    length_m=st.floats(0.1, 4.0),
)
SPOTS = st.lists(st.tuples(st.floats(0.0, 2.0), st.floats(0.0, 4.0)), max_size=3).map(tuple)
HOURS = st.none() | st.integers(0, 24).map(float)

ACTS: st.SearchStrategy[Payload] = st.one_of(
    st.builds(
        kinds.Sown,
        planting=PLANTINGS,
        crop=st.sampled_from(["carrot", "tomato"]),
        seeds=COUNTS,
        rows=st.integers(1, 4) | st.none(),
        row_length_m=METRES,
        lot=st.sampled_from(["", "l1"]),
        tray=st.sampled_from(["", "tray"]),
        block=BLOCKS,
        traits=st.sampled_from([(), ("early",)]),
    ),
    st.builds(
        kinds.PlantedOut,
        planting=PLANTINGS,
        crop=st.just("leek"),
        plants=COUNTS,
        from_planting=PLANTINGS,
        spacing_cm=st.floats(1.0, 60.0) | st.none(),
        block=BLOCKS,
        spots=SPOTS,
        only_year=st.booleans(),
        perennial=st.booleans(),
    ),
    st.builds(kinds.Counted, standing=st.integers(0, 60), of_row_m=METRES),
    st.builds(kinds.Thinned, removed=COUNTS, left=COUNTS, spacing_cm=st.floats(1.0, 60.0) | st.none()),
    st.builds(kinds.PrickedOut, plants=st.integers(0, 60), into=st.sampled_from(["", "tray"])),
    st.builds(kinds.Picked, kg=METRES, pieces=COUNTS, last=st.booleans()),
    st.builds(kinds.Lifted, pieces=COUNTS),
    st.builds(kinds.Ended, how=st.sampled_from(["cleared", "lost"]), plants=COUNTS),
    st.builds(
        kinds.Moved,
        act=st.sampled_from(["on", "off", "opened", "shut"]),
        item=st.sampled_from(["", "fleece", "hoops"]),
        length_m=METRES,
        pieces=COUNTS,
        hour=HOURS,
    ),
    st.builds(kinds.Watered, litres=METRES, minutes=METRES, hour=HOURS),
    st.builds(kinds.Tended, act=st.sampled_from(["weeded", "supported", "mulched"]), material=BATCHES),
    st.builds(
        kinds.Amended,
        material=st.sampled_from(["cow manure", "hay", "compost"]),
        batch=BATCHES,
        state=st.sampled_from(["raw", "finished", "not known"]),
        spray_history=st.sampled_from(["clean", "sprayed", "not known", ""]),
    ),
    st.builds(kinds.Treated, product=st.just("soap"), label_days=st.integers(0, 30) | st.none()),
    st.builds(kinds.Stage, what=st.sampled_from(["up", "ready"]), reached=st.booleans()),
    st.builds(
        kinds.Minutes, minutes=st.integers(1, 90).map(float), job=st.sampled_from(["", "hens", "weed"])
    ),
    st.builds(
        kinds.ChoreSet,
        chore=st.just("hens"),
        minutes=st.just(5.0),
        every_days=st.none() | st.integers(1, 9),
        gone=st.booleans(),
    ),
    st.builds(
        kinds.Locked,
        lock=st.sampled_from(["k1", "k2"]),
        on=st.sampled_from(["bed", "planting", "batch"]),
        why=st.just("x"),
        until=st.dates(SPRING, SPRING + timedelta(days=90)) | st.none(),
        may_lift=st.sampled_from(["keeper", "anyone"]),
    ),
    st.builds(kinds.Unlocked, lock=st.sampled_from(["k1", "k2"]), why=st.just("x")),
    st.builds(
        kinds.BedSet,
        name=st.sampled_from(["one", "two"]),
        length_m=st.floats(-1.0, 9.0),
        inside=BEDS,
    ),
    st.just(kinds.BedGone()),
    st.builds(
        kinds.KitSet, item=st.sampled_from(["fleece", "tray"]), sort=st.just("fleece"), length_m=METRES
    ),
    st.builds(
        kinds.LotSet,
        lot=st.just("l1"),
        crop=st.just("carrot"),
        seeds=COUNTS,
        germinated=COUNTS,
        tested=COUNTS,
    ),
    st.builds(
        kinds.PersonSet,
        person=PEOPLE,
        name=st.just("x"),
        role=st.sampled_from(["keeper", "helper", "reader"]),
    ),
    st.builds(kinds.Stood, crop=st.just("pea"), year=st.integers(2020, 2025)),
)


@st.composite
def books(draw: Any, most: int = 25) -> list[Entry]:
    """Entries of any kind, some correcting or undoing others; keys in order of writing."""
    book: list[Entry] = []
    moment = datetime(2026, 4, 1, 8, tzinfo=UTC)
    for number in range(draw(st.integers(0, most))):
        moment += timedelta(seconds=draw(st.integers(0, 1)))
        other = draw(st.sampled_from(book)).key if book else ""
        how = draw(st.sampled_from(["act", "act", "act", "act", "replaces", "withdraws"])) if other else "act"
        book.append(
            Entry(
                key=new_key(moment, number.to_bytes(10, "big")),
                happened_on=SPRING + timedelta(days=draw(st.integers(0, 30))),
                recorded_at=moment,
                author=draw(PEOPLE),
                act=None if how == "withdraws" else draw(ACTS),
                bed=draw(BEDS),
                planting=draw(PLANTINGS),
                batch=draw(BATCHES),
                replaces=other if how == "replaces" else "",
                withdraws=other if how == "withdraws" else "",
            )
        )
    return book


def undo(entry: Entry, number: int, author: str = "ann") -> Entry:
    """An entry that withdraws another, written after all others."""
    moment = datetime(2026, 6, 1, 8, tzinfo=UTC) + timedelta(seconds=number)
    return Entry(
        key=new_key(moment, number.to_bytes(10, "big")),
        happened_on=date(2026, 6, 1),
        recorded_at=moment,
        author=author,
        withdraws=entry.key,
    )


@given(books(), st.integers(0, 2**20))
def test_the_order_entries_come_in_never_matters(book: list[Entry], seed: int) -> None:
    shuffled = book.copy()
    Random(seed).shuffle(shuffled)
    assert fold(shuffled) == fold(book)


@given(books(), st.data())
def test_replays_and_doubles_never_change_the_garden(book: list[Entry], data: st.DataObject) -> None:
    again = data.draw(st.lists(st.sampled_from(book), max_size=30)) if book else []
    assert fold([*book, *again]) == fold(book)
    assert fold([*again, *book, *book]) == fold(book)


@given(books(), st.data())
def test_undoing_an_undo_gives_back_the_garden(book: list[Entry], data: st.DataObject) -> None:
    if not book:
        return
    first = undo(data.draw(st.sampled_from(book)), 1, data.draw(PEOPLE))
    second = undo(first, 2, data.draw(PEOPLE))
    third = undo(second, 3)
    assert fold([*book, first, second]) == fold(book)
    assert fold([*book, first, second, third]) == fold([*book, first])


@given(books())
def test_withdrawing_everything_gives_the_empty_garden(book: list[Entry]) -> None:
    # A withdrawal withdrawn is one less, so only what does something is taken back, and only once.
    acts = [entry for entry in book if entry.act is not None]
    undone = [undo(entry, number) for number, entry in enumerate(acts)]
    assert fold([*acts, *undone]) == fold([])
    withdrawals = [entry for entry in book if entry.act is None]
    more = [undo(entry, number + 100) for number, entry in enumerate(withdrawals)]
    assert fold([*book, *undone, *more]) == fold([])


@given(books(), st.integers(0, 30))
def test_as_known_then_never_sees_what_was_written_later(book: list[Entry], seconds: int) -> None:
    then = datetime(2026, 4, 1, 8, tzinfo=UTC) + timedelta(seconds=seconds)
    known = [entry for entry in book if entry.recorded_at <= then]
    garden = fold(book, known_on=then)
    assert garden == fold(known)
    assert garden.keys == {entry.key for entry in known}


@given(books(), st.integers(0, 30))
def test_as_of_a_day_never_sees_what_happened_later(book: list[Entry], after: int) -> None:
    day = SPRING + timedelta(days=after)
    garden = fold(book, day=day)
    assert all(entry.happened_on <= day for entry in garden.entries)
    assert all(lock.set_on <= day for lock in garden.locks)
    assert all(lock.lifted_on is None or lock.lifted_on <= day for lock in garden.locks)
    whole = fold(book)
    for planting in garden.plantings.values():
        for stay in planting.stays:
            assert stay.until is None or stay.since <= stay.until <= day
    # What stands on a past day is the same, asked then or from here, unless it was reopened since.
    reopened = {p.key for p in whole.plantings.values() if p.sown_again or p.from_planting or p.set_out_on}
    # Plants set out from it later show that some stood until then.
    reopened |= {e.act.from_planting for e in whole.entries if isinstance(e.act, kinds.PlantedOut)}
    then = {p.key for p in garden.standing(day)} - reopened
    assert {p.key for p in whole.standing(day)} - reopened <= then | _counted_again(whole)


def _counted_again(garden: Garden) -> set[str]:
    """Plantings that a count can have taken out of their end."""
    return {
        entry.planting
        for entry in garden.entries
        if isinstance(entry.act, kinds.Counted) and entry.act.standing > 0
    }


@given(books())
def test_numbers_stay_possible(book: list[Entry]) -> None:
    garden = fold(book, picked_whole={"leek"})
    for planting in garden.plantings.values():
        plants = planting.plants
        assert plants.number is None or (plants.number >= 0 and math.isfinite(plants.number))
        assert plants.at_most is None or plants.at_most >= 0
        assert (planting.ended_on is None) == (planting.ended_how == "")
        open_stays = [stay for stay in planting.stays if stay.until is None]
        assert len(open_stays) == (planting.ended_on is None and bool(planting.stays))
        assert all(one.until == two.since or one.until < two.since for one, two in _pairs(planting.stays))
        assert planting.ended_on is None or planting.ended_on >= planting.started_on
    for item in garden.kit.values():
        assert all(placed.length_m is None or placed.length_m > 0 or placed.assumed for placed in item.placed)


def _pairs(stays: Any) -> list[tuple[Any, Any]]:
    return list(itertools.pairwise(stays))


@given(books(), books(most=3))
def test_anything_can_be_asked_about(book: list[Entry], more: list[Entry]) -> None:
    garden = fold(book)
    for entry in more:
        for question in questions(garden, entry, SPRING + timedelta(days=20)):
            assert str(question)
            assert question.may_insist == (question.about != "form")


@given(books(), st.integers(0, 200))
def test_no_lock_in_force_is_hidden_from_the_place_it_is_on(book: list[Entry], after: int) -> None:
    garden = fold(book)
    day = SPRING + timedelta(days=after)
    for lock in garden.locks_on(day):
        if lock.subject:
            place: dict[str, Any] = {lock.on: lock.subject}
            assert lock in garden.locks_on(day, **place) or _shorter_wait(lock, day)
        if lock.on == "bed":
            for planting in garden.standing(day, bed=lock.subject):
                assert lock in garden.locks_on(day, planting=planting.key) or _shorter_wait(lock, day)


def _shorter_wait(lock: Lock, day: date) -> bool:
    """The rule lets crops off the soil go sooner, and only between the two days."""
    return lock.off_soil_until is not None and lock.off_soil_until <= day


ONE_DAY: tuple[tuple[Payload, dict[str, str]], ...] = (
    (kinds.BedSet(name="one", width_m=1.2, length_m=2.4), {"bed": "b1"}),
    (kinds.KitSet(item="fleece", sort="fleece", length_m=9.0), {}),
    (kinds.PersonSet(person="ann", name="Ann", role="keeper"), {}),
    (kinds.LotSet(lot="l1", crop="carrot", seeds=300, traits=("early",)), {}),
    (kinds.ChoreSet(chore="hens", minutes=10.0), {}),
    (kinds.Sown(planting="p1", crop="carrot", seeds=100, lot="l1", tray="tray"), {"planting": "p1"}),
    (kinds.PlantedOut(planting="p1", crop="carrot", plants=40), {"bed": "b1", "planting": "p1"}),
    (kinds.Amended(material="cow manure", state="raw", spray_history="clean"), {"bed": "b1"}),
    (kinds.Treated(product="soap", label_days=3), {"planting": "p1"}),
    (kinds.Locked(lock="k1", on="bed", why="lead"), {"bed": "b1"}),
    (kinds.Watered(litres=5.0), {"bed": "b1"}),
    (kinds.Tended(act="weeded"), {"bed": "b1"}),
    (kinds.Moved(act="on", item="fleece", length_m=2.4, hour=18.0), {"bed": "b1"}),
    (kinds.Moved(act="off", item="fleece", hour=7.0), {"bed": "b1"}),
    (kinds.Picked(kg=0.5), {"planting": "p1"}),
    (kinds.Minutes(minutes=12.0, job="hens"), {"bed": "b1"}),
    (kinds.Stage(what="up"), {"planting": "p1"}),
    (kinds.Thinned(removed=4), {"planting": "p1"}),
    (kinds.Measured(height_cm=4.0), {"planting": "p1"}),
    (kinds.Ended(how="lost", plants=3), {"planting": "p1"}),
    (kinds.Unlocked(lock="k1", why="tested"), {}),
)
"""Acts of one day, no two of which depend on which came first but by their kinds (and by hours told)."""


@given(st.permutations(ONE_DAY))
def test_order_of_writing_within_a_day_does_not_matter_where_it_should_not(
    acts: list[tuple[Payload, dict[str, str]]],
) -> None:
    assert _told_apart(_written(acts)) == _told_apart(_written(list(ONE_DAY)))


def _written(acts: list[tuple[Payload, dict[str, str]]]) -> Garden:
    pen = Pen()
    for act, about in acts:
        pen(act, **about)
    return fold(pen.written)


def _told_apart(garden: Garden) -> dict[str, Any]:
    """All of a garden but the entries themselves, their keys and their order."""
    keyed = {"history", "entry", "entries", "lock", "refused", "strays", "keys", "undone"}

    def plain(value: Any) -> Any:
        if dataclasses.is_dataclass(value):
            fields = [field.name for field in dataclasses.fields(value) if field.name not in keyed]
            return {name: plain(getattr(value, name)) for name in fields}
        if isinstance(value, Mapping):
            return {key: plain(each) for key, each in value.items()}
        if isinstance(value, tuple):
            return sorted((plain(each) for each in value), key=repr)
        return value

    found = plain(garden)
    assert isinstance(found, dict)
    assert found["plantings"]["p1"]["plants"]["number"] == 33.0
    assert [placed["item"] for placed in found["kit"]["fleece"]["placed"]] == ["fleece"]
    return found
