"""Telling what was seen, and what it moves."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from gardens import make_garden
from spadework.errors import ParameterError
from spadework.garden.told import Event
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.learn import list_learned, tell_event
from spadework.usecases.read_sheets import read_sheet
from spadework.usecases.tell import forget

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
    assert [one.events for one in list_learned(garden, TODAY).crops] == [[told.key]]
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
    assert "Is the date right" in asked.doubts[0]
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
