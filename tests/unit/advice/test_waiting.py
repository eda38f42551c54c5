"""Windows and forfeits from losses that can be worked out on paper."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from spadework.advice.job import AHEAD_DAYS
from spadework.advice.waiting import always, fading, net_of, ramp, window_of

TODAY = date(2026, 6, 15)
MADE = np.zeros(4, dtype=bool)
ANY = np.ones((4, AHEAD_DAYS + 1), dtype=bool)


def test_a_ramp_begins_when_told_and_ends_at_its_most() -> None:
    loss = ramp(np.array([2.0, -5.0]), 10.0, 0.4)
    assert loss.shape == (2, AHEAD_DAYS + 1)
    np.testing.assert_allclose(loss[0, [0, 2, 7, 12, 21]], [0.0, 0.0, 0.2, 0.4, 0.4])
    np.testing.assert_allclose(loss[1, [0, 5]], [0.2, 0.4])


def test_fading_loses_two_thirds_in_a_scale() -> None:
    loss = fading(0.0, 7.0, 1.0)
    np.testing.assert_allclose(loss[0, 7], 1.0 - np.exp(-1.0))


def test_what_can_be_started_anew_is_not_lost() -> None:
    lost, anew = np.full((1, 22), 0.5), np.full((1, 22), 0.8)
    np.testing.assert_allclose(net_of(lost, anew), 0.1)


def test_it_closes_on_the_last_day_that_saves_half() -> None:
    window = window_of(ramp(np.zeros(4), 10.0, 0.4), ANY, TODAY, MADE)
    assert (window.opens, window.best) == (TODAY, TODAY)
    assert window.closes == TODAY + timedelta(days=4)  # on the fifth day half of 0.4 is gone
    assert not window.open_ended


def test_it_opens_when_most_years_let_it() -> None:
    may = ANY.copy()
    may[:3, :6] = False
    window = window_of(np.zeros((4, AHEAD_DAYS + 1)), may, TODAY, MADE)
    assert window.opens == TODAY + timedelta(days=6)
    assert window.open_ended
    assert window.opens <= window.best <= window.closes


def test_it_closes_where_it_makes_no_sense_any_more() -> None:
    may = ANY.copy()
    may[:, 8:] = False
    window = window_of(np.zeros((4, AHEAD_DAYS + 1)), may, TODAY, MADE)
    assert window.closes == TODAY + timedelta(days=7)


def test_what_nothing_moves_is_open_as_far_as_is_looked() -> None:
    assert always(TODAY).closes == TODAY + timedelta(days=AHEAD_DAYS)
