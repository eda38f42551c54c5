"""The place through the years: soil, light, and what is worked out once."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from grounds import CHAMPION, CORDOBA, champion_ground, cordoba_ground, soil_ground
from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.science import soil
from spadework.science.sun import day_length_sunrise_to_sunset_h

SOW = date(2018, 4, 20)


def test_soil_has_forgotten_its_start_after_the_spin_up() -> None:
    long = champion_ground(SOW - timedelta(days=200), 230, SOW - timedelta(days=200))
    cut = 200 - SPIN_UP_DAYS
    later = replace(
        long.years,
        first_day=long.dates[cut],
        tmin_c=long.years.tmin_c[:, cut:],
        tmax_c=long.years.tmax_c[:, cut:],
        rain_mm=long.years.rain_mm[:, cut:],
    )
    short = Ground(long.site, later, long.surface)
    assert np.abs(long.soil_mean_c[:, cut] - short.soil_mean_c[:, 0]).max() > 3.0
    # five stores of 8.8 days leave under a hundredth of the first error
    assert np.abs(long.soil_mean_c[:, 200:] - short.soil_mean_c[:, SPIN_UP_DAYS:]).max() < 0.1


def test_even_weather_gives_the_soil_asked_for() -> None:
    ground = soil_ground([8.0, 15.0], days=30)
    assert ground.soil_mean_c == pytest.approx(np.array([[8.0], [15.0]]) * np.ones(30))
    assert ground.soil_half_c(1.3) == pytest.approx(0.0)


def test_days_shorten_in_the_southern_autumn_while_they_lengthen_in_the_north() -> None:
    south = cordoba_ground(date(2019, 3, 1), 60)
    north = champion_ground(date(2018, 3, 1), 60)
    assert (np.diff(south.photoperiod_h) < 0).all()
    assert (np.diff(north.photoperiod_h) > 0).all()


def test_light_of_the_south_is_the_light_of_the_north_half_a_year_on() -> None:
    december = cordoba_ground(date(2018, 12, 21), 1).photoperiod_h[0]
    june = float(day_length_sunrise_to_sunset_h(-CORDOBA.lat_deg, 172))
    assert december == pytest.approx(june, abs=0.05)


def test_the_day_of_the_year_runs_on_over_new_year() -> None:
    ground = cordoba_ground(date(2019, 12, 30), 5)
    assert ground.day_of_year.tolist() == [364, 365, 1, 2, 3]
    assert [str(day) for day in ground.dates[1:3]] == ["2019-12-31", "2020-01-01"]


def test_radiation_is_taken_where_measured_and_estimated_where_not() -> None:
    years = soil_ground(12.0, days=4, half_range_c=5.0).years
    measured = np.array([[20.0, np.nan, 5.0, np.nan]])
    mixed = Ground(CHAMPION, replace(years, solar_mj=measured), "grass")
    plain = Ground(CHAMPION, replace(years, solar_mj=None), "grass")
    assert mixed.solar_mj[0, [0, 2]].tolist() == [20.0, 5.0]
    assert mixed.solar_mj[0, [1, 3]] == pytest.approx(plain.solar_mj[0, [1, 3]])
    assert (plain.solar_mj > 3.0).all()


def test_surfaces_order_as_a_grower_expects_in_spring() -> None:
    ground = champion_ground(date(2018, 4, 1), 40)
    means = {
        name: float(Ground(ground.site, ground.years, name).soil_mean_c.mean()) for name in soil.SURFACES
    }
    assert means["clear-film"] > means["black-film"] > means["bare-moist"] > means["grass"] > means["mulch"]


def test_the_daily_wave_is_damped_with_depth() -> None:
    ground = champion_ground(date(2018, 4, 1), 40)
    halves = [float(ground.soil_half_c(depth).mean()) for depth in (0.5, 1.3, 5.0, 10.0)]
    assert halves == sorted(halves, reverse=True)
    assert halves[1] / halves[3] == pytest.approx(np.exp((10.0 - 1.3) / 10.0))


def test_what_is_kept_is_made_once_and_cannot_be_written() -> None:
    ground = soil_ground(10.0, days=5)
    made: list[int] = []

    def make() -> np.ndarray:
        made.append(1)
        return np.arange(5.0)

    first = ground.keep(("kind", 1), make)
    assert ground.keep(("kind", 1), make) is first
    assert ground.keep(("kind", 2), make) is not first
    assert len(made) == 2
    with pytest.raises(ValueError, match="read-only"):
        first[0] = 9.0


def test_seedbed_dries_without_rain_and_is_wet_with_it() -> None:
    dry = soil_ground(18.0, days=40, half_range_c=8.0)
    wet = soil_ground(18.0, days=40, half_range_c=8.0, rain_mm=6.0)
    assert dry.seedbed_wet_share[0, -1] < 0.1
    assert wet.seedbed_wet_share[0, 5:].min() > 0.5
    assert (np.diff(dry.seedbed_wet_share[0]) <= 1e-12).all()
