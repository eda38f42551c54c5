"""What must hold of the clocks of troubles whatever the weather."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from grounds import EVEN, years_of
from spadework.clock.ground import Ground
from spadework.clock.infection import RULES, risk_days
from spadework.clock.insects import present, run_events
from troubles import event, told, trouble

DAYS = 150
FLY = trouble(
    "fly",
    event("flight", total=told(120, 90, 160), method="single-sine", harms=True, lays=True, lasts=told(150)),
    event("eggs", total=told(180, 150, 210), method="single-sine", stage="egg"),
    event("grubs", start="eggs", total=told(60), base_c=6.0, stage="larva", harms=True),
    event("out", clock="trigger", base_c=12.0, over_days=5, harms=True),
)


@st.composite
def weather(draw: Any) -> Ground:
    """Two years of a spring: any level, drift and jumps."""
    level, drift = draw(st.floats(-5.0, 18.0)), draw(st.floats(-5.0, 15.0))
    rng = np.random.default_rng(draw(st.integers(0, 2**20)))
    mean = level + drift * np.linspace(0, 1, DAYS) + rng.normal(0, 4.0, (2, DAYS))
    half = rng.uniform(0.5, 10.0, (2, DAYS))
    rain = rng.gamma(0.6, 6.0, (2, DAYS)) * (rng.random((2, DAYS)) < draw(st.floats(0, 1)))
    return Ground(
        EVEN, years_of(mean - half, mean + half, rain_mm=rain, first_day="2021-01-01"), "bare-moist"
    )


@given(weather(), st.floats(0.0, 4.0))
def test_more_warmth_never_makes_an_event_later(ground: Ground, more_c: float) -> None:
    years = ground.years
    warm = replace(years, tmin_c=years.tmin_c + more_c, tmax_c=years.tmax_c + more_c)
    plain = run_events(FLY, ground, south=False)
    warmer = run_events(FLY, replace(ground, years=warm, _kept={}), south=False)
    for key in plain:
        before, after = (np.nan_to_num(each[key].opens, nan=DAYS) for each in (plain, warmer))
        assert (after <= before).all(), key


@given(weather(), weather(), st.integers(10, DAYS - 1))
def test_more_time_never_makes_an_egg_unhatch(one: Ground, other: Ground, day: int) -> None:
    # the same weather until a day, any weather after it: what had hatched by then has hatched
    low, high = one.years.tmin_c.copy(), one.years.tmax_c.copy()
    low[:, day:], high[:, day:] = other.years.tmin_c[:, day:], other.years.tmax_c[:, day:]
    changed = replace(one, years=replace(one.years, tmin_c=low, tmax_c=high), _kept={})
    first, later = (run_events(FLY, ground, south=False) for ground in (one, changed))
    for key in first:
        hatched = first[key].opens < day
        assert (later[key].opens[hatched] == first[key].opens[hatched]).all(), key


@given(weather())
def test_presence_is_a_share_and_windows_are_in_order(ground: Ground) -> None:
    about = present(FLY, ground, south=False)
    assert ((about >= 0.0) & (about <= 1.0)).all()
    for window in run_events(FLY, ground, south=False).values():
        known = ~np.isnan(window.opens)
        assert (np.isnan(window.closes) == ~known).all()
        assert (window.closes[known] >= window.opens[known]).all()


@given(weather(), st.sampled_from(list(RULES)))
def test_infection_is_a_share(ground: Ground, rule: str) -> None:
    found = risk_days(rule, ground)
    assert ((found >= 0.0) & (found <= 1.0)).all()
