"""The daily wave in the soil of a bare desert station."""

from __future__ import annotations

import numpy as np
import pytest

from measured_stations import SCAN_HOURS_BEHIND_SUN, rmse, scan
from spadework.science import soil, thermometer

BARE = soil.SURFACES["bare-dry"]


def _whole_days() -> np.ndarray:
    return ~np.isnan(scan("soil_5cm_c")).any(axis=1)


def _half_range(column: str) -> np.ndarray:
    hours = scan(column)
    half: np.ndarray = (np.nanmax(hours, axis=1) - np.nanmin(hours, axis=1)) / 2.0
    return half


def _modelled_half_range(depth_cm: float) -> np.ndarray:
    return soil.daily_amplitude_c(
        np.nanmin(scan("air_min_c"), axis=1),
        np.nanmax(scan("air_max_c"), axis=1),
        np.nanmean(scan("solar_wm2"), axis=1) * 0.0864,
        depth_cm,
        BARE,
    )


@pytest.mark.parametrize(
    ("days", "rmse_c", "bias_c", "r"), [("all", 1.18, -0.08, 0.90), ("whole", 1.00, -0.37, 0.94)]
)
def test_half_range_at_5_cm(days: str, rmse_c: float, bias_c: float, r: float) -> None:
    chosen = _whole_days() if days == "whole" else np.full(365, True)
    model, seen = _modelled_half_range(5.0)[chosen], _half_range("soil_5cm_c")[chosen]
    assert rmse(model - seen) == pytest.approx(rmse_c, abs=0.01)
    assert (model - seen).mean() == pytest.approx(bias_c, abs=0.01)
    assert np.corrcoef(model, seen)[0, 1] == pytest.approx(r, abs=0.01)


def test_half_range_falls_with_depth() -> None:
    whole = _whole_days()
    five, ten, twenty = (_half_range(f"soil_{depth}cm_c")[whole] for depth in (5, 10, 20))
    assert 5.0 / np.median(np.log(five / ten)) == pytest.approx(12.1, abs=0.1)
    assert 10.0 / np.median(np.log(ten / twenty)) == pytest.approx(7.6, abs=0.1)
    # One damping depth of 10 cm lies between the two: 12 % short at 10 cm, 23 % too much at 20 cm.
    share_at_ten = np.median(_modelled_half_range(10.0)[whole]) / np.median(ten)
    share_at_twenty = np.median(_modelled_half_range(20.0)[whole]) / np.median(twenty)
    assert (share_at_ten, share_at_twenty) == pytest.approx((0.88, 1.23), abs=0.01)


def test_wave_within_the_day() -> None:
    hours, half = scan("soil_5cm_c"), _half_range("soil_5cm_c")
    season = _whole_days() & (np.arange(1, 366) >= 60) & (np.arange(1, 366) <= 300)
    wave = ((hours - hours.mean(axis=1, keepdims=True)) / half[:, None])[season].mean(axis=0)
    ours = thermometer.wave_at_hour(np.arange(24) + SCAN_HOURS_BEHIND_SUN)
    assert ours == pytest.approx(wave, abs=0.006)
    # Ten of these hours, from the study's own choice of days.
    hours_listed = [6, 8, 9, 10, 12, 14, 16, 18, 20, 22]
    listed = [-0.81, -0.52, -0.21, 0.21, 0.89, 1.12, 0.91, 0.40, -0.03, -0.29]
    assert ours[hours_listed] == pytest.approx(listed, abs=0.065)


def test_wave_arrives_later_below() -> None:
    assert soil.wave_lag_h(10.0, 10.0) - soil.wave_lag_h(5.0, 10.0) == pytest.approx(24.0 / (4.0 * np.pi))
    hours = scan("soil_10cm_c")
    half = _half_range("soil_10cm_c")
    season = ~np.isnan(hours).any(axis=1) & (np.arange(1, 366) >= 60) & (np.arange(1, 366) <= 300)
    wave = ((hours - hours.mean(axis=1, keepdims=True)) / half[:, None])[season].mean(axis=0)
    ours = thermometer.wave_at_hour(np.arange(24) + SCAN_HOURS_BEHIND_SUN, depth_cm=10.0)
    # A uniform soil delays the wave by 1.9 h; this soil, whose upper part damps less, by about an hour.
    assert np.abs(ours - wave).max() < 0.45
    assert np.argmax(ours) in (15, 16)
    assert np.argmax(wave) == 15


@pytest.mark.parametrize(
    ("hour", "raw_c", "brought_c"), [(8, 6.30, 2.15), (10, 3.21, 1.74), (12, 11.59, 1.48), (20, 1.21, 1.26)]
)
def test_a_spot_reading_brought_to_its_daily_mean(hour: int, raw_c: float, brought_c: float) -> None:
    days = np.arange(365)
    spring = _whole_days() & (days >= 60) & (days < 166)
    hours = scan("soil_5cm_c")[spring]
    reading, mean = hours[:, hour], hours.mean(axis=1)
    half = _modelled_half_range(5.0)[spring]
    brought = thermometer.daily_mean_from_reading_c(reading, hour + SCAN_HOURS_BEHIND_SUN, half)
    assert rmse(reading - mean) == pytest.approx(raw_c, abs=0.01)
    assert rmse(brought - mean) == pytest.approx(brought_c, abs=0.01)
