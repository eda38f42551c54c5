"""Cases of the infection rules, each at the limits its publication prints."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.science import infection, infection_moulds


def test_two_days_rule_needs_both_days() -> None:
    # at least 10 degC and 6 h at 90 percent on each of two days (AHDB, James Hutton Institute)
    low = np.array([10.0, 10.0, 9.9, 12.0, 12.0, 12.0])
    humid = np.array([6.0, 6.0, 9.0, 6.0, 5.0, 11.0])
    assert infection.late_blight_two_days(low, humid).tolist() == [False, True, False, False, False, False]


def test_older_rule_asks_eleven_hours() -> None:
    low, humid = np.full(3, 10.0), np.array([11.0, 11.0, 10.0])
    assert infection.late_blight_two_days(low, humid, 11.0).tolist() == [False, True, False]


def test_whatever_the_older_rule_says_the_newer_says_too() -> None:
    rng = np.random.default_rng(7)
    low, humid = rng.uniform(5, 15, (20, 60)), rng.uniform(0, 24, (20, 60))
    older = infection.late_blight_two_days(low, humid, 11.0)
    assert (infection.late_blight_two_days(low, humid) | ~older).all()


def test_rain_favourable_day() -> None:
    # mean of five days below 25.5 degC, 30 mm in ten days, minimum not below 7.2 degC (Hyre)
    low, high, rain = np.full(12, 12.0), np.full(12, 24.0), np.zeros(12)
    rain[0] = 30.0
    assert infection.rain_favourable(low, high, rain).tolist() == [True] * 10 + [False] * 2
    assert not infection.rain_favourable(np.full(12, 7.1), high, np.full(12, 9.0)).any()
    assert not infection.rain_favourable(np.full(12, 19.0), np.full(12, 32.1), np.full(12, 9.0)).any()


@pytest.mark.parametrize(
    ("humid", "night", "before", "rain", "spores"),
    [
        (6, 14, 22, 0, True),
        (3, 14, 22, 0, False),
        (6, 25, 26, 0, False),
        (6, 14, 28, 0, False),
        (6, 14, 22, 2, False),
    ],
)
def test_onion_mildew_night(humid: float, night: float, before: float, rain: float, spores: bool) -> None:
    assert bool(infection_moulds.onion_mildew_night(humid, night, before, rain)) is spores


@pytest.mark.parametrize(
    ("wet", "temp", "infects"),
    [
        # Cohen: 2 h from 20 degC, 6 h from 10, 12 h from 5, none above 25
        (2, 20, True),
        (2, 19, False),
        (1, 22, False),
        (6, 10, True),
        (6, 9, False),
        (12, 5, True),
        (12, 4, False),
        (24, 25, True),
        (24, 28, False),
    ],
)
def test_cucurbit_mildew_envelope(wet: float, temp: float, infects: bool) -> None:
    assert bool(infection_moulds.cucurbit_mildew_infects(wet, temp)) is infects


def test_lettuce_mildew_morning() -> None:
    # wet for 4 h from 6 on (Scherm and van Bruggen); not above 20 degC (Wu and others)
    wet, temp = np.array([4.0, 3.9, 4.0, 4.2]), np.array([15.0, 15.0, 20.5, np.nan])
    assert infection_moulds.lettuce_mildew_morning(wet, temp).tolist() == [True, False, False, False]


def test_powdery_mildew_day() -> None:
    # 10 to 32 degC, best 20 to 27, stopped at 38 (Cornell)
    days = infection_moulds.powdery_mildew_day([4, 14, 20, 22, 28, 22], [15.9, 26, 34, 38, 37, 30])
    assert days == pytest.approx([0.0, 1.0, 1.0, 0.0, 0.0, 1.0])


def test_white_mould_needs_rain_before_and_wet_leaves() -> None:
    mean, high = np.full(20, 17.0), np.full(20, 22.0)
    rain = np.full(20, 2.0)
    wet = np.full(20, 13.0)
    found = infection_moulds.white_mould_days(mean, high, rain, wet)
    assert not found[:12].any()
    assert found[12:].all()
    assert not infection_moulds.white_mould_days(mean, high, rain * 0.5, wet).any()
    assert not infection_moulds.white_mould_days(mean, high, rain, wet - 1.0).any()
    assert not infection_moulds.white_mould_days(mean, high + 8.0, rain, wet).any()


def test_damping_off_takes_three_cold_wet_days() -> None:
    soil, wet = np.array([12.0, 12, 12, 12, 14, 12]), np.array([1.0, 1, 1, 0.5, 1, 1])
    assert infection_moulds.damping_off_day(soil, wet).tolist() == [False, False, True, False, False, False]
    assert infection_moulds.damping_off_day(np.full(3, 15.0), np.ones(3), 16.0).tolist() == [
        False,
        False,
        True,
    ]


def test_beet_spot_takes_two_days() -> None:
    wet, temp = np.array([9.0, 9, 8, 12, 12]), np.array([20.0, 20, 20, 14, 20])
    assert infection_moulds.beet_spot_pair(wet, temp).tolist() == [False, True, False, False, False]
