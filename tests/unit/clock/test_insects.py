"""Insect clocks on weather to order: ten degree-days a day above 10 degC from the first of January."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from grounds import EVEN, cordoba_ground, years_of
from spadework.clock.ground import Ground
from spadework.clock.insects import present, run_events, tells_time
from troubles import event, told, trouble

ROWS, DAYS = 3, 300


def ground(mean_c: float = 20.0, first_day: str = "2021-01-01", **more: float) -> Ground:
    flat = np.full((ROWS, DAYS), mean_c)
    return Ground(EVEN, years_of(flat - 5.0, flat + 5.0, first_day=first_day), "bare-moist", **more)


def test_an_event_comes_when_its_total_is_reached() -> None:
    fly = trouble("fly", event("flight", total=told(100)))
    window = run_events(fly, ground(), south=False)["flight"]
    assert window.opens.tolist() == [9.0] * ROWS  # ten days of ten
    assert run_events(fly, ground(9.0), south=False)["flight"].opens == pytest.approx(np.nan, nan_ok=True)


def test_days_before_its_start_do_not_count() -> None:
    fly = trouble("fly", event("flight", total=told(100), start="03-01"))
    assert run_events(fly, ground(), south=False)["flight"].opens.tolist() == [31 + 28 + 9.0] * ROWS
    since_december = ground(first_day="2020-12-01")
    flat = trouble("fly", event("flight", total=told(100)))
    assert run_events(flat, since_december, south=False)["flight"].opens.tolist() == [31 + 9.0] * ROWS


def test_south_of_the_equator_the_year_begins_in_july() -> None:
    fly = trouble("fly", event("flight", total=told(100), start="03-01"))
    winter = ground(first_day="2021-06-15")
    assert run_events(fly, winter, south=True)["flight"].opens.tolist() == [16 + 62 + 9.0] * ROWS


def test_the_season_is_that_of_the_last_day_seen() -> None:
    whole = cordoba_ground(date(2020, 5, 1), 300, date(2020, 11, 10))
    fly = trouble("fly", event("flight", total=told(100)))
    opens = run_events(fly, whole, south=True)["flight"].opens
    assert (opens >= 61).all()  # not before July
    assert (opens < 200).all()


def test_published_totals_that_disagree_are_spread_over_the_years() -> None:
    fly = trouble("fly", event("flight", total=told(100, 80, 160)), event("eggs", total=told(120, 100, 180)))
    found = run_events(fly, ground(), south=False)
    assert len(set(found["flight"].opens.tolist())) == ROWS
    assert (found["flight"].opens >= 7).all()
    assert (found["flight"].opens <= 15).all()
    # who flies early lays early
    assert (found["eggs"].opens - found["flight"].opens).tolist() == [2.0] * ROWS


def test_a_stage_ends_with_its_own_warmth_or_with_the_next_event() -> None:
    fly = trouble(
        "fly",
        event("flight", total=told(100), lasts=told(50), harms=True),
        event("eggs", start="flight", total=told(30), stage="egg"),
        event("grubs", start="eggs", clock="days", total=told(7), stage="larva", harms=True),
    )
    found = run_events(fly, ground(), south=False)
    assert (found["flight"].opens[0], found["flight"].closes[0]) == (9, 14)
    assert (found["eggs"].opens[0], found["eggs"].closes[0]) == (12, 19)
    assert found["grubs"].opens[0] == 19
    about = present(fly, ground(), south=False)
    assert np.flatnonzero(about[0])[[0, 4]].tolist() == [9, 13]
    assert about[0, 14:19].sum() == 0.0


def test_a_seen_event_starts_the_clock_anew() -> None:
    fly = trouble(
        "fly",
        event("flight", total=told(100), harms=True),
        event("eggs", total=told(150)),
        event("grubs", start="eggs", total=told(40), harms=True),
    )
    seen = {"flight": date(2021, 2, 1)}
    found = run_events(fly, ground(), south=False, seen=seen)
    assert found["flight"].opens.tolist() == [31.0] * ROWS
    assert found["eggs"].opens.tolist() == [31 + 4.0] * ROWS  # fifty degree-days more
    assert found["grubs"].opens.tolist() == [31 + 8.0] * ROWS
    # eggs seen say that the flight has been
    early = run_events(fly, ground(), south=False, seen={"eggs": date(2021, 1, 5)})
    assert early["flight"].opens.tolist() == [4.0] * ROWS


def test_what_waits_to_be_seen_never_comes_by_itself() -> None:
    beetle = trouble(
        "beetle",
        event("eggs", start="seen", total=told(0), stage="egg"),
        event("grubs", start="eggs", total=told(100), harms=True),
    )
    assert not tells_time(beetle)
    assert np.isnan(run_events(beetle, ground(), south=False)["grubs"].opens).all()
    assert present(beetle, ground(), south=False).min() == 1.0  # no clock speaks against it
    seen = {"eggs": date(2021, 4, 1)}
    assert tells_time(beetle, seen)
    assert run_events(beetle, ground(), south=False, seen=seen)["grubs"].opens.tolist() == [100.0] * ROWS


def test_a_trigger_is_the_first_warm_stretch() -> None:
    warm = np.full((1, 60), 8.0)
    warm[0, 20:22] = 20.0  # two warm days are no stretch
    warm[0, 40:] = 16.0
    place = Ground(EVEN, years_of(warm - 4, warm + 4, first_day="2021-01-01"), "bare-moist")
    beetle = trouble("beetle", event("out", clock="trigger", base_c=13.0, over_days=5, harms=True))
    assert run_events(beetle, place, south=False)["out"].opens.tolist() == [43.0]


def test_a_season_runs_from_month_to_month() -> None:
    slug = trouble("slug", event("feeding", clock="season", base_c=None, months=(4, 6), harms=True))
    about = present(slug, ground(), south=False)[0]
    assert np.flatnonzero(about)[[0, -1]].tolist() == [90, 180]
    southern = present(slug, ground(first_day="2021-07-01"), south=True)[0]
    assert np.flatnonzero(southern)[0] == 31 + 31 + 30  # October


def test_a_warm_bed_is_earlier() -> None:
    fly = trouble("fly", event("flight", total=told(100)))
    plain = run_events(fly, ground(15.0), south=False)["flight"].opens
    sunny = run_events(fly, ground(15.0, bed_offset_c=2.0), south=False)["flight"].opens
    assert (sunny < plain).all()


def test_a_chain_that_bites_its_tail_never_opens() -> None:
    odd = trouble("odd", event("a", start="b", total=told(1)), event("b", start="a", total=told(1)))
    assert np.isnan(run_events(odd, ground(), south=False)["a"].opens).all()
