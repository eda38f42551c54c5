"""Telling what was seen, and what it moves."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from gardens import make_garden
from spadework.errors import ParameterError, RecordError
from spadework.garden.told import Event
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.learn import list_learned, tell_event
from spadework.usecases.read_sheets import read_sheet
from spadework.usecases.tell import forget
from spadework.usecases.weigh_sowing import weigh_sowing

TODAY = date(2018, 4, 25)
SOWN = date(2017, 4, 20)


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return make_garden(tmp_path, "north")


def ready_on(day: date, **more: str) -> Event:
    return Event(crop="carrot", what="ready", started=SOWN, on=day, **more)  # type: ignore[arg-type]


def middle(garden: Path, today: date = TODAY) -> date:
    found = ask_ready(garden, today, "carrot", sown=date(2018, 4, 20)).ready.q50
    assert found is not None
    return found


def test_an_early_crop_brings_the_next_one_forward_and_forgetting_restores_it(garden: Path) -> None:
    before = ask_ready(garden, TODAY, "carrot", sown=date(2018, 4, 20))
    told = tell_event(garden, TODAY, ready_on(date(2017, 7, 3)))
    assert told.stored
    (line,) = told.crops
    assert line.after < line.before
    assert line.spread_after < line.spread_before
    after = ask_ready(garden, TODAY, "carrot", sown=date(2018, 4, 20))
    assert after.ready.q50 is not None
    assert before.ready.q50 is not None
    assert after.ready.q50 < before.ready.q50
    assert [[e.key for e in one.events] for one in list_learned(garden, TODAY).crops] == [[told.key]]
    forget(garden, TODAY, told.key)
    assert ask_ready(garden, TODAY, "carrot", sown=date(2018, 4, 20)) == before
    assert not list_learned(garden, TODAY).crops


def test_a_second_event_is_told_beside_the_first(garden: Path) -> None:
    first = tell_event(garden, TODAY, ready_on(date(2017, 7, 8)))
    second = tell_event(
        garden, TODAY, Event(crop="carrot", what="ready", started=date(2016, 4, 20), on=date(2016, 7, 8))
    )
    assert second.crops[0].before == first.crops[0].after
    assert second.crops[0].spread_after <= first.crops[0].spread_after
    assert len(second.crops[0].events) == 2


def test_nothing_told_later_is_known(garden: Path) -> None:
    earlier = date(2018, 4, 22)
    before = middle(garden, earlier)
    tell_event(garden, TODAY, ready_on(date(2017, 7, 3)))
    assert middle(garden, earlier) == before


def test_a_slip_in_the_date_is_asked_about_and_kept_only_when_sure(garden: Path) -> None:
    slip = ready_on(date(2017, 6, 1))
    asked = tell_event(garden, TODAY, slip)
    assert not asked.stored
    assert "by 1 Jun 2017 it had 15.6" in asked.doubts[0]
    assert "with 46.0 days of best warmth" in asked.doubts[0]
    assert not list_learned(garden, TODAY).crops
    kept = tell_event(garden, TODAY, slip, sure=True)
    assert kept.stored
    assert list_learned(garden, TODAY).crops


def test_coming_up_moves_the_warmth_to_come_up_and_the_sheet_shows_it(garden: Path) -> None:
    late = Event(crop="beetroot", what="came up", started=date(2017, 4, 20), on=date(2017, 5, 8), bed="B2")
    told = tell_event(garden, TODAY, late)
    assert told.stored
    assert told.crops[0].after > told.crops[0].before
    assert [bed.bed for bed in told.beds] == ["B2"]
    shown = {value.field: value for value in read_sheet("beet", garden, TODAY).values}
    factor = shown["emergence.field_sum_factor"]
    assert factor.sheet_value is not None
    assert isinstance(factor.value, float)
    assert factor.value > factor.sheet_value


@pytest.mark.parametrize(
    "event",
    [
        ready_on(date(2017, 4, 1)),
        ready_on(date(2018, 5, 1)),
        Event(crop="carrot", what="came up", started=SOWN, start="set-out", on=date(2017, 5, 8)),
        Event(crop="carrot", what="ready", started=SOWN, on=date(2017, 7, 8), not_yet_on=date(2017, 7, 9)),
    ],
)
def test_impossible_events_are_refused(garden: Path, event: Event) -> None:
    with pytest.raises(ParameterError):
        tell_event(garden, TODAY, event)
    assert not list_learned(garden, TODAY).crops


def test_the_answer_says_what_it_moves(garden: Path) -> None:
    told = tell_event(garden, TODAY, ready_on(date(2017, 7, 3)))
    (move,) = [move for move in told.moves if move.what == "ready"]
    assert move.before is not None
    assert move.after is not None
    assert move.after < move.before
    assert ask_ready(garden, TODAY, "carrot", sown=TODAY).ready.q50 == move.after


def test_the_same_event_counts_once(garden: Path) -> None:
    event = ready_on(date(2017, 7, 8))
    first = tell_event(garden, TODAY, event)
    again = tell_event(garden, TODAY, event)
    assert first.stored
    assert not again.stored
    assert again.key == first.key
    assert again.crops == first.crops
    assert again.moves == first.moves


def test_two_days_for_one_planting_are_asked_about_and_the_older_gives_way(garden: Path) -> None:
    first = tell_event(garden, TODAY, ready_on(date(2017, 7, 8)))
    other = ready_on(date(2017, 7, 12))
    asked = tell_event(garden, TODAY, other)
    assert not asked.stored
    assert "8 Jul" in asked.doubts[0]
    assert "12 Jul" in asked.doubts[0]
    kept = tell_event(garden, TODAY, other, sure=True)
    assert kept.withdrawn == [first.key]
    (line,) = list_learned(garden, TODAY).crops
    assert [event.key for event in line.events] == [kept.key]


def test_a_sowing_seen_to_come_up_tells_more_of_its_requirement(garden: Path) -> None:
    without = tell_event(garden, TODAY, ready_on(date(2017, 7, 8))).crops[0]
    tell_event(
        garden, TODAY, Event(crop="carrot", what="came up", started=SOWN, on=date(2017, 5, 6)), sure=True
    )
    after = {line.what: line for line in list_learned(garden, TODAY).crops}
    assert after["ready"].spread_after < without.spread_after


def test_a_look_before_bounds_the_day(garden: Path) -> None:
    late = Event(
        crop="carrot", what="ready", started=SOWN, on=date(2017, 7, 20), not_yet_on=date(2017, 6, 28)
    )
    wide = tell_event(garden, TODAY, late).crops[0]
    assert wide.after == pytest.approx(wide.before, rel=0.08)
    assert wide.spread_after < wide.spread_before


def test_a_warm_bed_is_learned_and_used_when_it_is_named(garden: Path) -> None:
    sown = date(2018, 4, 20)
    plain = ask_ready(garden, TODAY, "beetroot", sown=sown).ready.q50
    for crop, year, day in (
        ("carrot", 2017, (6, 30)),
        ("lettuce", 2016, (6, 3)),
        ("bush bean", 2015, (7, 1)),
    ):
        start = date(year, 5, 20) if crop == "bush bean" else date(year, 4, 20)
        event = Event(crop=crop, what="ready", started=start, on=date(year, *day), bed="by the wall")
        tell_event(garden, TODAY, event, sure=True)
    (bed,) = list_learned(garden, TODAY).beds
    assert bed.offset_c > 0.3
    assert bed.sd_c < 1.2
    assert ask_ready(garden, TODAY, "beetroot", sown=sown).ready.q50 == plain
    named = ask_ready(garden, TODAY, "beetroot", sown=sown, bed="by the wall")
    assert plain is not None
    assert named.ready.q50 is not None
    assert named.ready.q50 < plain
    assert "warmer than the rest" in named.note


def test_a_variety_is_learned_apart_and_lends_to_its_crop(garden: Path) -> None:
    before = ask_ready(garden, TODAY, "carrot", sown=SOWN).ready.q50
    tell_event(garden, TODAY, ready_on(date(2017, 7, 1), variety="Nantes"))
    own = ask_ready(garden, TODAY, "carrot", sown=SOWN, variety="Nantes").ready.q50
    other = ask_ready(garden, TODAY, "carrot", sown=SOWN).ready.q50
    assert own is not None
    assert other is not None
    assert before is not None
    assert own < other < before


def test_what_makes_another_crop_of_it_is_refused_even_when_sure(garden: Path) -> None:
    """Seed that came up on the day after it was sown in cold ground."""
    soon = Event(crop="parsnip", what="came up", started=date(2017, 3, 1), on=date(2017, 3, 2))
    with pytest.raises(ParameterError):
        tell_event(garden, TODAY, soon, sure=True)
    assert not list_learned(garden, TODAY).crops


def test_weather_that_is_not_known_is_said(garden: Path) -> None:
    old = Event(crop="carrot", what="ready", started=date(1970, 4, 20), on=date(1970, 7, 8))
    with pytest.raises(RecordError):
        tell_event(garden, TODAY, old)
    assert not list_learned(garden, TODAY).crops


def test_quick_seed_can_be_learned_below_the_sheets_usual_range(garden: Path) -> None:
    """Beds may be quicker than any table: what was learned still loads with every question."""
    for year in (2015, 2016, 2017):
        up = Event(crop="radish", what="came up", started=date(year, 5, 20), on=date(year, 5, 22))
        tell_event(garden, TODAY, up, sure=True)
    assert ask_ready(garden, TODAY, "radish", sown=TODAY).ready.q50 is not None


def test_an_answer_says_what_it_owes_to_what_was_learned(garden: Path) -> None:
    def said(**start: date) -> str:
        return " ".join(ask_ready(garden, TODAY, "carrot", **start).assumptions)

    assert "learned" not in said(sown=TODAY)
    line = tell_event(garden, TODAY, ready_on(date(2017, 7, 3))).crops[0]
    expected = f"learned from 1 event here: {line.after:.1f} days of best warmth (the sheet has 46.0)"
    assert expected in said(sown=TODAY)
    assert "Coming up" not in said(sown=TODAY)
    assert any(expected in text for text in weigh_sowing(garden, TODAY, "carrot").assumptions)
    tell_event(garden, TODAY, Event(crop="carrot", what="came up", started=SOWN, on=date(2017, 5, 8)))
    assert "Coming up as learned from 1 event here: 1." in said(sown=TODAY)
