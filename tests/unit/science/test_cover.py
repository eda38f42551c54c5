"""Covers by day and by night."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.errors import ParameterError
from spadework.science import air, cover, frost, sun


@pytest.mark.parametrize(
    ("case", "gains"),
    [
        ({}, (10, 17, 27)),
        ({"air_changes_per_hour": 30.0}, (4, 6, 10)),
        (
            {
                "passing_share": 0.85, "heating_share": 0.3, "loss_w_m2_k": 9.0, "skin_factor": 1.3,
                "height_m": 0.3, "air_changes_per_hour": 150.0,
            },
            (3, 5, 8),
        ),
    ],
)  # fmt: skip
def test_gains_by_day_of_a_shut_and_an_open_house_and_fleece(
    case: dict[str, float], gains: tuple[int, ...]
) -> None:
    assert cover.sun_gain_cdelta([300.0, 500.0, 800.0], **case) == pytest.approx(gains, abs=0.9)


def test_the_rule_of_the_shut_house_follows_from_the_balance() -> None:
    assert cover.sun_gain_cdelta(1000.0) / 1000.0 == pytest.approx(cover.SHUT_HOUSE_C_PER_W, abs=0.0005)
    assert cover.chance_too_hot(15.0, 441.2) == pytest.approx(0.5, abs=0.001)
    assert cover.chance_too_hot(15.0, 0.0) < 1e-6
    assert cover.chance_too_hot(10.0, 200.0) < 0.05 < 0.9 < cover.chance_too_hot(18.0, 700.0)


def test_hours_of_sun_hold_the_days_sum() -> None:
    rise, fall = sun.sunrise_sunset_solar_h(45.0, np.array([100.0, 172.0, 355.0]))
    hours = (np.arange(1440) + 0.5) / 60.0
    found = cover.sun_at_hours_w_m2([18.0, 28.0, 4.0], rise, fall, hours)
    assert found.sum(axis=-1) * 60.0 / 1e6 == pytest.approx([18.0, 28.0, 4.0], rel=1e-4)
    assert found[:, 0] == pytest.approx(0.0)


def test_odds_by_hour_in_a_tunnel_rise_to_noon_and_fall() -> None:
    rise, fall = sun.sunrise_sunset_solar_h(45.0, np.array([140.0]))
    hours = np.arange(5, 20) + 0.5
    outside = air.hourly_temperature_c([8.0], [19.0], sunrise_h=rise, sunset_h=fall, hours=hours)
    odds = cover.chance_too_hot(outside, cover.sun_at_hours_w_m2([22.0], rise, fall, hours))[0]
    best = int(np.argmax(odds))
    assert 11.0 < hours[best] < 15.0
    assert np.all(np.diff(odds[: best + 1]) > 0.0)
    assert np.all(np.diff(odds[best:]) < 0.0)


def test_a_gain_by_night_includes_nothing_at_all() -> None:
    for mean in (0.0, 0.5, 1.5, 4.0):
        nodes = cover.night_gain_nodes_cdelta(mean)
        assert nodes.min() >= -1.0
        assert np.all(np.diff(nodes) > 0.0)
    usual = cover.night_gain_nodes_cdelta(1.5, 1001)
    assert usual.mean() == pytest.approx(1.5, abs=0.03)
    # six to seven nights in a hundred gain nothing
    assert np.mean(usual <= 0.0) == pytest.approx(0.061, abs=0.003)
    assert cover.night_gain_nodes_cdelta(0.0, 1001).mean() > 0.25


def test_bare_leaves_are_as_the_frost_law_says_and_a_cover_helps() -> None:
    tmin = np.array([-4.0, -1.0, 0.5, 3.0])
    bare = cover.chance_harmed(tmin, -1.0)
    assert bare == pytest.approx(frost.chance_surface_below(tmin, -1.0))
    fleece, thick = (cover.chance_harmed(tmin, -1.0, night_gain_c=gain) for gain in (1.5, 2.8))
    assert np.all(thick < fleece)
    assert np.all(fleece < bare)
    # an uncertain forecast brings the odds nearer to even
    vague = cover.chance_harmed(tmin, -1.0, tmin_sd_c=2.5)
    assert np.all(np.abs(vague - 0.5) < np.abs(bare - 0.5))
    cloudy = cover.chance_harmed(tmin, -1.0, offset=frost.plant_surface_offset(stirred=True))
    assert np.all(cloudy < bare)
    assert np.all(cover.chance_harmed(tmin, -1.0, site_offset_c=-2.0) > bare)


def test_covered_odds_beside_drawn_nights() -> None:
    rng = np.random.default_rng(8)
    gain = rng.normal(1.5, 1.0, 400_000)
    gain = gain[gain >= -1.0]
    drop = rng.normal(-2.05, 1.55, gain.size) + rng.normal(0.0, 1.28, gain.size)
    drawn = np.mean(0.5 + drop + gain <= -1.0)
    assert cover.chance_harmed(0.5, -1.0, night_gain_c=1.5) == pytest.approx(drawn, abs=0.004)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ParameterError):
        cover.sun_gain_cdelta(-1.0)
    with pytest.raises(ParameterError):
        cover.chance_too_hot(20.0, 300.0, air_sd_c=0.0)
    with pytest.raises(ParameterError):
        cover.chance_harmed(0.0, 0.0, tmin_sd_c=-1.0)
