"""Picking again and again, and supports."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.errors import ParameterError
from spadework.science import picking


def test_fruit_past_its_size_beside_fruit_drawn_by_chance() -> None:
    rng = np.random.default_rng(2)
    for gap, good in ((30.0, 40.0), (40.0, 40.0), (80.0, 40.0), (200.0, 40.0)):
        age = rng.uniform(0.0, gap, 200_000)
        assert picking.past_size_share(gap, good) == pytest.approx(np.mean(age > good), abs=0.004)


def test_waiting_costs_more_each_day_and_never_more_than_all() -> None:
    loss = picking.picking_loss_share(np.arange(0.0, 600.0, 20.0), 60.0)
    assert np.all(loss[:4] == 0.0)
    assert np.all(np.diff(loss[3:]) > 0.0)
    assert loss.max() < 1.0


def test_wind_on_a_row_of_beans() -> None:
    # stopped air at 10 m/s presses with 60 N on a square metre; at twice the wind with four times that
    assert picking.wind_force_n(10.0, 1.0, gusts=False) == pytest.approx(60.0)
    assert picking.wind_force_n(20.0, 4.0, gusts=False) == pytest.approx(960.0)
    assert picking.wind_force_n(10.0, 1.0) == pytest.approx(60.0 * 1.6**2)


def test_posts_and_what_stands_above_them() -> None:
    assert picking.post_length_m(1.8) == pytest.approx(2.4)
    assert picking.leaning_share([0.0, 0.5, 1.0, 2.0], [0.0, 1.0, 0.0, 1.5]) == pytest.approx(
        [0.0, 0.0, 1.0, 0.25]
    )


def test_what_cannot_be_is_refused() -> None:
    for wrong in (
        lambda: picking.past_size_share(-1.0, 10.0),
        lambda: picking.past_size_share(10.0, 0.0),
        lambda: picking.wind_force_n(-1.0, 1.0),
        lambda: picking.post_length_m(-1.0),
        lambda: picking.leaning_share(-1.0, 0.0),
    ):
        with pytest.raises(ParameterError):
            wrong()
