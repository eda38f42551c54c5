"""The grower's thermometer: what readings may and may not do."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError
from spadework.science import thermometer


def test_without_readings_the_prior_stands() -> None:
    offset = thermometer.thermometer_offset([], [], [0, 30])
    assert offset.mean_c == pytest.approx([0.0, 0.0])
    assert offset.sd_c == pytest.approx(np.full(2, np.hypot(1.55, 1.5)))


@given(st.lists(st.tuples(st.integers(0, 120), st.floats(-6.0, 6.0)), min_size=1, max_size=12))
def test_readings_only_ever_narrow(readings: list[tuple[int, float]]) -> None:
    days, residuals = zip(*readings, strict=True)
    offset = thermometer.thermometer_offset(days, residuals, np.arange(0, 130, 5))
    assert np.all(offset.sd_c <= np.hypot(1.55, 1.5) + 1e-9)
    assert np.all(np.isfinite(offset.mean_c))


def test_a_reading_fades_but_never_to_nothing() -> None:
    offset = thermometer.thermometer_offset([0], [-2.0], [0, 30, 3000])
    assert abs(offset.mean_c[0]) > abs(offset.mean_c[1]) > abs(offset.mean_c[2]) > 0.5


def test_two_readings_on_one_day_are_both_heard() -> None:
    offset = thermometer.thermometer_offset([5, 5], [1.0, 3.0], [5])
    once = thermometer.thermometer_offset([5], [2.0], [5])
    assert offset.sd_c[0] < once.sd_c[0]
    assert 1.0 < offset.mean_c[0] < 2.0


def test_a_better_thermometer_counts_for_more() -> None:
    offset = thermometer.thermometer_offset([0, 40], [2.0, -2.0], [20], reading_sd_c=[0.2, 3.0])
    assert offset.mean_c[0] > 0.0


@pytest.mark.parametrize(
    ("days", "residuals", "extra"),
    [
        ([0, 1], [1.0], {}),
        ([0], [np.nan], {}),
        ([np.nan], [1.0], {}),
        ([0], [1.0], {"reading_sd_c": 0.0}),
        ([0], [1.0], {"reading_sd_c": [1.0, 1.0]}),
        ([0], [1.0], {"daily_correlation": 1.2}),
        ([0], [1.0], {"between_sd_c": -1.0}),
    ],
)
def test_refusals(days: list[float], residuals: list[float], extra: dict[str, float]) -> None:
    with pytest.raises(ParameterError):
        thermometer.thermometer_offset(days, residuals, [0], **extra)  # type: ignore[arg-type]


def test_the_clock_face_is_round() -> None:
    assert thermometer.wave_at_hour(-1.0) == pytest.approx(thermometer.wave_at_hour(23.0))
    assert thermometer.wave_at_hour(24.2) == pytest.approx(thermometer.wave_at_hour(0.2))
    assert np.isnan(thermometer.wave_at_hour([np.nan])).all()


def test_best_hours_to_read() -> None:
    assert abs(thermometer.wave_at_hour(9.75)) < 0.1
    assert abs(thermometer.wave_at_hour(20.0)) < 0.1
    assert thermometer.wave_at_hour(12.0) > 0.7


def test_a_noon_reading_is_brought_down() -> None:
    assert thermometer.daily_mean_from_reading_c(20.0, 12.33, 5.0) == pytest.approx(20.0 - 5.0 * 0.88)
