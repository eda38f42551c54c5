"""The book on both engines: what goes in comes out, once, in order, and nothing is ever changed."""

from __future__ import annotations

import typing
from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from book_entries import DAY, EVERY_ACT, NOON, entry
from book_servers import Place
from spadework.errors import EntryConflict, ParameterError, StoreError, UnknownName
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.store.book import Book, Wanted
from spadework.store.sql_book import SqlBook


def test_the_examples_hold_every_kind() -> None:
    assert {type(act) for act in EVERY_ACT} == set(typing.get_args(Payload))


def test_every_kind_comes_back_as_it_went_in(place: Place) -> None:
    said = [entry(act, bed="long bed", planting="p", batch="b") for act in EVERY_ACT]
    said.append(entry(None, withdraws=said[0].key))
    said.append(entry(kinds.Picked(kg=1.0), replaces=said[12].key, insisted=True))
    with place.open() as book:
        assert book.append(said) == tuple(each.key for each in said)
    with place.open() as book:
        assert book.entries() == said
        assert book.count() == len(said)
        assert book.last_key() == said[-1].key


def test_a_new_book_is_empty(book: SqlBook) -> None:
    opened: Book = book
    assert opened.entries() == []
    assert (opened.count(), opened.last_key(), opened.damage, opened.read_only) == (0, None, "", False)


def test_the_same_entry_again_counts_once(book: SqlBook) -> None:
    first, second = entry(), entry()
    assert book.append([first, first]) == (first.key, first.key)
    assert book.append([second, first]) == (second.key, first.key)
    assert book.entries() == [first, second]


def test_the_same_moment_in_another_zone_is_the_same(book: SqlBook) -> None:
    first = entry()
    book.append([first])
    elsewhere = first.recorded_at.astimezone(timezone(timedelta(hours=5, minutes=30)))
    book.append([typing.cast(Entry, entry(key=first.key, recorded_at=elsewhere))])
    assert book.count() == 1


@pytest.mark.parametrize("together", [True, False])
def test_one_key_with_two_contents_is_refused_and_both_are_named(book: SqlBook, together: bool) -> None:
    first = entry(kinds.Counted(standing=12))
    other = entry(kinds.Counted(standing=21), key=first.key, recorded_at=first.recorded_at)
    bystander = entry()
    if not together:
        book.append([first])
    before = book.entries()
    with pytest.raises(EntryConflict) as caught:
        book.append([bystander, *([first] if together else []), other])
    assert all(part in str(caught.value) for part in (first.key, '"standing":12', '"standing":21'))
    assert book.entries() == before


def test_since_goes_by_arrival_and_not_by_key(book: SqlBook) -> None:
    late, early = entry(key="Z" * 26), entry(key="A" * 26)
    book.append([late])
    book.append([early])
    assert book.entries(late.key) == [early]
    assert book.entries(early.key) == []
    with pytest.raises(UnknownName, match="No entry has the key K"):
        book.entries("K")


def test_as_known_then_goes_by_the_moment_whatever_its_zone(book: SqlBook) -> None:
    east = timezone(timedelta(hours=9))
    first = entry(recorded_at=datetime(2026, 5, 20, 23, 30, tzinfo=east))  # half past two by London
    second = entry(recorded_at=datetime(2026, 5, 20, 15, 0, 0, 1, tzinfo=UTC))
    book.append([second, first])
    assert book.entries(known_on=datetime(2026, 5, 20, 15, tzinfo=UTC)) == [first]
    assert book.entries(known_on=datetime(2026, 5, 21, 0, 0, 0, 1, tzinfo=east)) == [second, first]
    assert book.entries(known_on=datetime(2026, 5, 20, 14, tzinfo=UTC)) == []
    with pytest.raises(ParameterError, match="no time zone"):
        book.entries(known_on=datetime(2026, 5, 20))


def test_find(book: SqlBook) -> None:
    carrots = entry(kinds.Counted(standing=9), bed="a", planting="carrot-1", author="ben")
    leeks = entry(kinds.Watered(litres=9.0), bed="a", planting="leek-1", happened_on=date(2026, 5, 1))
    manure = entry(kinds.Amended(material="manure"), bed="b", batch="heap", recorded_at=NOON)
    undone = entry(None, withdraws=leeks.key)
    book.append([carrots, leeks, manure, undone])
    assert book.find(Wanted()) == [carrots, leeks, manure, undone]
    assert book.find(Wanted(bed="a")) == [carrots, leeks]
    assert book.find(Wanted(bed="a", kinds=("watered", "counted"), author="ann")) == [leeks]
    assert book.find(Wanted(planting="carrot-1", batch="")) == [carrots]
    assert book.find(Wanted(batch="heap")) == [manure]
    assert book.find(Wanted(kinds=("",))) == [undone]
    assert book.find(Wanted(first=date(2026, 5, 2), last=DAY)) == [carrots, manure, undone]
    assert book.find(Wanted(last=date(2026, 5, 1))) == [leeks]
    assert book.find(Wanted(known_on=NOON)) == [manure]
    assert book.find(Wanted(bed="a' OR '1'='1")) == []


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"key": "", "act": None}, "no key"),
        ({"recorded_at": datetime(2026, 5, 20)}, "without zone"),
        ({"act": kinds.Counted(standing="twelve")}, "Expected `int`"),  # type: ignore[arg-type]
        ({"act": kinds.Measured(height_cm=float("nan"))}, "would not be read again"),
        ({"act": kinds.RainGauge(rain_mm=float("inf"))}, "Expected `float`"),
        ({"act": kinds.FactTold(source="", sort="x", fact={"days": (1, 2)})}, "would not be read again"),
        ({"act": kinds.FactTold(source="", sort="x", fact={"that": object()})}, "cannot be kept"),
        ({"act": kinds.Note(text="\ud800")}, "cannot be kept"),
        ({"bed": "a\0b"}, "null sign"),
    ],
)
def test_what_would_not_be_read_again_is_refused_whole(
    book: SqlBook, wrong: dict[str, object], said: str
) -> None:
    fine = entry()
    bad = Entry(**({"key": "K", "happened_on": DAY, "recorded_at": NOON, "author": "ann"} | wrong))  # type: ignore[arg-type]
    with pytest.raises(ParameterError, match=said):
        book.append([fine, bad])
    assert book.count() == 0


def test_nothing_added_is_nothing_written(book: SqlBook) -> None:
    assert book.append([]) == ()


@pytest.mark.parametrize("act", ["UPDATE entries SET bed = 'x'", "DELETE FROM entries"])
def test_the_database_itself_refuses_change(book: SqlBook, act: str) -> None:
    first = entry()
    book.append([first])
    with pytest.raises(StoreError, match="only ever added"), book.database.writing():
        book.database.run(act, [()])
    assert book.entries() == [first]


def test_a_write_that_stops_half_way_leaves_nothing(book: SqlBook) -> None:
    def entries() -> typing.Iterator[Entry]:
        yield entry()
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        book.append(entries())
    with pytest.raises(StoreError), book.database.writing():
        book.database.run("INSERT INTO meta (name, value) VALUES (?, ?)", [("a", "b"), ("a", "c")])
    assert book.count() == 0
    assert book.database.rows("SELECT * FROM meta") == []
    book.append([entry()])
    assert book.count() == 1


def test_a_reader_sees_whole_writes_and_does_not_wait(place: Place) -> None:
    with place.open() as writer, place.open() as reader:
        writer.append([entry()])
        with writer.database.writing():
            writer.database.run("INSERT INTO meta (name, value) VALUES (?, ?)", [("a", "b")])
            assert reader.count() == 1
            assert reader.database.rows("SELECT * FROM meta") == []
        assert reader.database.rows("SELECT * FROM meta") == [("a", "b")]


def test_many_at_once(book: SqlBook) -> None:
    many = [entry() for _ in range(1300)]
    book.append(many)
    assert book.append(many) == tuple(each.key for each in many)
    assert book.entries() == many


ENTRIES = st.lists(
    st.builds(
        lambda key, standing, bed: entry(
            kinds.Counted(standing=standing), key=key, bed=bed, recorded_at=NOON
        ),
        st.sampled_from("ABCDEFGH"),
        st.integers(0, 2),
        st.sampled_from(["", "a"]),
    ),
    max_size=12,
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=25)
@given(batches=st.lists(ENTRIES, max_size=5))
def test_however_entries_are_sent_each_key_keeps_its_first_content(
    place: Place, batches: list[list[Entry]]
) -> None:
    with place.open() as book:
        kept: dict[str, Entry] = {each.key: each for each in book.entries()}
        for batch in batches:
            trial = dict(kept)
            agree = all(trial.setdefault(each.key, each) == each for each in batch)
            if agree:
                book.append(batch)
                kept = trial
            else:
                with pytest.raises(EntryConflict):
                    book.append(batch)
        assert book.entries() == list(kept.values())
