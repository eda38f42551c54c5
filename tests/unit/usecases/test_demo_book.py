"""The demo's book holds together: on any day, with nothing in it that the program would question."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from functools import cache
from itertools import groupby

import numpy as np
import pytest

from spadework.crops.loader import load_sheet
from spadework.garden.ask import questions
from spadework.garden.entries import Amended, BedSet, Entry, Kept, Lifted, Picked, Sown, Stage, Treated
from spadework.garden.fold import fold
from spadework.garden.site import Site
from spadework.garden.state import Garden
from spadework.usecases.demo.script import place, plan
from spadework.usecases.demo.season import book_of
from spadework.usecases.demo_garden import DEMO_NAME
from spadework.usecases.keep_book import picked_whole
from spadework.weather.demo_normals import DEMO_ELEVATION_M, DEMO_LAT_DEG, DEMO_LON_DEG, demo_record

SITE = Site(name=DEMO_NAME, lat_deg=DEMO_LAT_DEG, lon_deg=DEMO_LON_DEG, elevation_m=DEMO_ELEVATION_M)
LAST = date(2027, 12, 31)
DAYS = [date(2027, month, day) for month in range(1, 13) for day in (4, 19)]


@cache
def book(today: date) -> tuple[Entry, ...]:
    return tuple(book_of(SITE, demo_record(today), today))


@cache
def garden(today: date) -> Garden:
    entries = book(today)
    return fold(entries, picked_whole=picked_whole(entry.act for entry in entries))


def test_the_same_day_gives_the_same_book_and_a_later_one_the_same_and_more() -> None:
    for day in DAYS:
        part = book(day)
        assert part == book(LAST)[: len(part)], f"{day} is not the beginning of {LAST}"


def test_the_weather_of_a_date_does_not_hang_on_the_day_of_asking() -> None:
    early, late = demo_record(date(2027, 4, 1)), demo_record(date(2027, 9, 30))
    at = late.index_of(early.start + np.timedelta64(400, "D"))
    assert np.array_equal(late.tmin_c[at : at + 300], early.tmin_c[400:700])


def test_it_stands_on_a_leap_day_and_is_as_long_as_two_seasons_are() -> None:
    assert 1500 <= len(book(date(2028, 2, 29))) <= 2500
    assert 3000 <= len(book(LAST)) <= 4000
    assert max(entry.happened_on for entry in book(LAST)) < LAST


def test_nothing_in_it_is_questioned_but_what_was_insisted_on() -> None:
    entries = book(LAST)
    whole = picked_whole(entry.act for entry in entries)
    known: list[Entry] = []
    odd = []
    for at, evening in groupby(entries, key=lambda entry: entry.recorded_at):
        before = fold(known, picked_whole=whole)
        told = len(known)
        for entry in evening:
            asked = questions(before, entry, at.date())
            if asked and told != len(known):
                # the entries of one evening may speak of each other
                before, told = fold(known, picked_whole=whole), len(known)
                asked = questions(before, entry, at.date())
            if bool(asked) != entry.insisted:
                odd.append((entry.happened_on, entry.planting, entry.act, [str(each) for each in asked]))
            known.append(entry)
    assert odd == []
    insisted = [entry for entry in entries if entry.insisted]
    assert insisted
    assert all(isinstance(entry.act, Amended) for entry in insisted), "only loads of which little is known"


def test_plantings_never_share_ground() -> None:
    last = garden(LAST)
    for bed in last.beds.values():
        if bed.shape in ("shelf", "tunnel") or bed.outline is None:
            continue
        for day in DAYS:
            standing = garden(LAST).standing(day, bed=bed.key)
            covered_m2 = sum(each.area_m2 or 0.0 for each in standing)
            assert covered_m2 <= bed.outline.area_m2 + 1e-6, (day, bed.key, [each.key for each in standing])


@pytest.mark.parametrize("day", DAYS, ids=str)
def test_there_is_something_true_on_every_day(day: date) -> None:
    here = garden(day)
    standing = here.standing(day)
    assert len(standing) >= (30 if 5 <= day.month <= 9 else 20 if day.month == 10 else 8)
    assert any(each.perennial for each in standing)
    if 4 <= day.month <= 12:
        assert here.locks_on(day), "a lock is in force"
    if 4 <= day.month <= 11:
        assert any(item.placed for item in here.kit.values()), "kit is placed"
    if day.month in (11, 12, 1, 2):
        assert {"leek", "garlic"} <= {each.crop for each in standing}
    if day.month in (10, 11, 12, 1, 2, 3):
        stored = [
            entry for entry in here.entries if isinstance(entry.act, Kept) and entry.act.act == "stored"
        ]
        assert len(stored) >= 5
    if day.month in (4, 5):
        assert any(item.holds for item in here.kit.values()), "trays on the shelf"
    newest = max(entry.happened_on for entry in here.entries)
    assert (day - newest) <= timedelta(days=35)


def _of(entries: tuple[Entry, ...], year: int) -> Iterator[Entry]:
    return (entry for entry in entries if entry.happened_on.year == year)


def test_two_seasons_are_not_the_same_season() -> None:
    ups = [
        [(e.happened_on.month, e.happened_on.day) for e in _of(book(LAST), year) if isinstance(e.act, Stage)]
        for year in (2026, 2027)
    ]
    assert ups[0] != ups[1]


def test_blocks_move_on_by_a_year() -> None:
    beds = {
        year: {e.bed for e in _of(book(LAST), year) if isinstance(e.act, Sown) and e.act.crop == "potato"}
        for year in (2026, 2027)
    }
    assert not {bed for bed in beds[2026] & beds[2027] if not bed.startswith("tub")}


def test_harvests_are_what_the_sheets_call_usual() -> None:
    """Each planting that gave something gave a fifth to twice what its rows usually give."""
    for planting in garden(LAST).plantings.values():
        took = planting.picked_kg + planting.lifted_kg
        usual = load_sheet(planting.crop).harvest.yield_kg_m
        if took == 0 or usual is None or planting.rows is None or planting.ended_on is None:
            continue
        length_m = planting.row_length_m or 1.0
        rows_kg = usual.value * planting.rows * length_m
        assert 0.05 * rows_kg <= took <= 2.0 * rows_kg, (planting.key, took, rows_kg)


def test_nobody_is_set_to_what_they_should_not_do() -> None:
    not_for = {one.key: set(one.not_for) for one in place().people}
    for entry in book(LAST):
        if isinstance(entry.act, (Lifted, Amended)) and "lifting" in not_for[entry.author]:
            pytest.fail(f"{entry.author} carried: {entry.act}")
        if isinstance(entry.act, Treated) and "sprays" in not_for[entry.author]:
            pytest.fail(f"{entry.author} sprayed: {entry.act}")


def test_the_place_is_as_big_as_it_is_said_to_be() -> None:
    beds = [entry.act for entry in book(LAST) if isinstance(entry.act, BedSet)]
    assert sum(bed.shape in ("framed", "ground") and not bed.inside for bed in beds) == 22
    assert [sum(bed.shape == shape for bed in beds) for shape in ("tunnel", "frame", "tub")] == [1, 1, 6]
    assert [sum(one.role == role for one in place().people) for role in ("keeper", "helper")] == [2, 6]
    assert len(plan().plantings) + len(plan().perennials) >= 75


def test_tender_crops_do_not_stand_tall_in_april() -> None:
    """No tomato, bean, squash or cucumber is in the open before the middle of May."""
    tender = {"tomato", "pepper", "bush-bean", "pole-bean", "runner-bean", "summer-squash", "winter-squash"}
    for planting in garden(LAST).plantings.values():
        inside = planting.bed.startswith(("tunnel", "shelf", "frame"))
        if planting.crop in tender and not inside:
            stays = [stay.since for stay in planting.stays if stay.bed == planting.bed]
            assert min((day.month, day.day) for day in stays) >= (5, 15), planting.key


def test_what_is_picked_was_ready_before() -> None:
    for planting in garden(LAST).plantings.values():
        first = planting.first_picked_on
        entries = [entry for entry in planting.history if isinstance(entry.act, (Picked, Lifted))]
        young = entries and isinstance(entries[0].act, Picked) and entries[0].act.quality == "poor"
        if first is None or planting.perennial or young:
            continue
        assert planting.stages.get("ready", date.max) <= first, planting.key
