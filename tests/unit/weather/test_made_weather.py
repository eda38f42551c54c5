"""Made weather against the measured record whose normals it was made from."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from ghcn_fixture import champion_series, climate_series
from spadework.errors import ParameterError
from spadework.weather.demo_normals import demo_normals, demo_record
from spadework.weather.made import Normals, made_record, normals_of
from spadework.weather.series import Series
from spadework.weather.years import build_years, calendar_years


def last_freeze(series: Series) -> np.ndarray:
    years = calendar_years(series, last=None)
    freezing = years.tmin_c[:, :196] <= 0
    return np.quantile(196 - freezing[:, ::-1].argmax(axis=1), [0.1, 0.5, 0.9], method="weibull")


@pytest.mark.parametrize("place", ["champion", "norfolk", "brussels"])
def test_made_years_have_the_records_means_spread_and_rain(place: str) -> None:
    """Bounds are the sizes the project's method notes report for this rule (normals and monthly spread)."""
    normals = normals_of(climate_series(place), place)
    made = normals_of(made_record(normals, 200, 1, last_day=date(2020, 12, 31)), "made")
    for name in ("tmin_c", "tmax_c"):
        error = getattr(made, name) - getattr(normals, name)
        assert np.sqrt(np.mean(error**2)) < 0.43
    for name in ("tmin_sd_c", "tmax_sd_c"):
        assert (getattr(made, name) / getattr(normals, name)).mean() == pytest.approx(1.0, abs=0.07)
    assert made.wet_days.sum() / normals.wet_days.sum() == pytest.approx(0.9, abs=0.05)
    assert made.rain_mm.sum() / normals.rain_mm.sum() == pytest.approx(1.0, abs=0.05)


def test_made_years_have_the_records_last_freeze() -> None:
    """Champion: record 115.2, 129, 146.2; made 113, 125, 137. A real spring's late tail is not reached."""
    record = last_freeze(champion_series())
    normals = normals_of(champion_series(), "champion")
    made = last_freeze(made_record(normals, 200, 1, last_day=date(2020, 12, 31)))
    assert np.abs(made - record)[:2].max() <= 4.5
    assert 0 < record[2] - made[2] <= 10


def test_a_seed_gives_the_same_weather_and_another_does_not() -> None:
    first = made_record(demo_normals(), 5, 1, last_day=date(2026, 5, 20))
    again = made_record(demo_normals(), 5, 1, last_day=date(2026, 5, 20))
    other = made_record(demo_normals(), 5, 2, last_day=date(2026, 5, 20))
    assert np.array_equal(first.tmin_c, again.tmin_c)
    assert not np.array_equal(first.tmin_c, other.tmin_c)


def test_the_demo_record_is_whole_and_says_that_it_is_made() -> None:
    s = demo_record(date(2026, 5, 20))
    assert (str(s.end), s.made.all(), "invented" in s.source) == ("2026-05-20", True, True)
    assert not np.isnan(s.tmin_c).any()
    assert (s.tmin_c <= s.tmax_c).all()
    assert (s.rain_mm >= 0).all()
    years = build_years(s, date(2026, 4, 15), 200, date(2026, 5, 20))
    assert (years.count, years.made.all()) == (30, True)
    assert "Made weather" in years.note


def normals(**changes: list[float]) -> Normals:
    whole = demo_normals()
    fields = {
        n: getattr(whole, n) for n in ("tmin_c", "tmax_c", "tmin_sd_c", "tmax_sd_c", "rain_mm", "wet_days")
    }
    return Normals(name="here", **(fields | {n: np.array(v, dtype=float) for n, v in changes.items()}))


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"tmin_c": [1.0]}, "not twelve numbers"),
        ({"tmin_c": [50.0] * 12}, "month 1"),
        ({"tmin_sd_c": [0.0] * 12}, "spread"),
        ({"wet_days": [40.0] * 12}, "out of range"),
        ({"wet_days": [0.0] * 12}, "rain without wet days"),
    ],
)
def test_impossible_normals_are_refused(changes: dict[str, list[float]], message: str) -> None:
    with pytest.raises(ParameterError, match=message):
        normals(**changes)


def test_a_dry_month_stays_dry() -> None:
    rain, wet = [50.0] * 12, [8.0] * 12
    rain[6] = wet[6] = 0.0
    s = made_record(normals(rain_mm=rain, wet_days=wet), 20, 3, last_day=date(2020, 12, 31))
    july = s.dates.astype("datetime64[M]").astype(int) % 12 == 6
    # The chain may carry a wet spell over from 30 June, but starts none.
    assert s.rain_mm[july].sum() <= 0.05 * s.rain_mm.sum() / 12


@pytest.mark.parametrize("years", [0, 201])
def test_only_a_sensible_number_of_years(years: int) -> None:
    with pytest.raises(ParameterError, match="made years were asked for"):
        made_record(demo_normals(), years, 1, last_day=date(2020, 1, 1))
