"""Made years where the record is short or missing: how many, from what, the same every time."""

from __future__ import annotations

import time
from datetime import date

import numpy as np
import pytest

from ghcn_fixture import champion_series, climate_series, cordoba_series
from spadework.errors import ParameterError, RecordError
from spadework.weather.climates import CLIMATES, climate_kind, daily_spread
from spadework.weather.made import made_days
from spadework.weather.made_years import Climate, calendar_column
from spadework.weather.normals import Normals, normals_of, told_normals
from spadework.weather.years import build_years, calendar_years

TODAY = date(2018, 5, 10)


def told(place: str, climate: str = "", *, south: bool = False) -> Normals:
    """What a person could tell of a place: twelve means and totals, no spread."""
    own = normals_of(climate_series(place), place)
    return told_normals(place, own.tmin_c, own.tmax_c, own.rain_mm, climate=climate, south=south)


def test_a_short_record_speaks_for_itself() -> None:
    series = champion_series().between(date(2012, 1, 1), TODAY)
    years = build_years(series, date(2018, 4, 20), 200, TODAY)
    assert (years.count, int(years.made.sum()), years.labels[:6]) == (
        15,
        9,
        (2012, 2013, 2014, 2015, 2016, 2017),
    )
    assert set(years.labels[6:]) == {0}
    assert years.note == (
        "Few years: 6 measured and 9 made, drawn from the means, spread and rain of the record's own 6 years."
    )
    july = years.tmax_c[years.made][:, 75:100]
    assert 29 < july.mean() < 35


def test_told_means_and_the_records_own_spread_go_together() -> None:
    """Nights of July: 15.1 C in the told normals of Champion, spread 2.6 C in its record, 2.9 C borrowed."""
    series = champion_series().between(date(2012, 1, 1), TODAY)
    own = build_years(series, date(2018, 6, 20), 40, TODAY)
    both = build_years(series, date(2018, 6, 20), 40, TODAY, climate=Climate(told("champion")))
    assert both.note == (
        "Few years: 6 measured and 9 made, drawn from told monthly normals and the spread of days in the"
        " record's own 6 years."
    )
    assert np.array_equal(both.tmin_c[~both.made], own.tmin_c[~own.made])
    lift = float((told("champion").tmin_c - normals_of(series, "own").tmin_c)[6])
    moved = float((both.tmin_c[both.made] - own.tmin_c[own.made])[:, 20:].mean())
    assert moved == pytest.approx(lift, abs=0.4)


def test_a_record_of_fifteen_years_is_left_alone() -> None:
    series = champion_series().between(date(2001, 1, 1), TODAY)
    years = build_years(series, date(2018, 4, 20), 200, TODAY)
    assert (years.count, years.made.any(), years.note) == (17, False, "")


def test_told_normals_stand_in_for_years_that_a_young_record_lacks() -> None:
    series = champion_series().between(date(2016, 1, 1), TODAY)
    with pytest.raises(RecordError, match="tell normals"):
        build_years(series, date(2018, 4, 20), 200, TODAY)
    years = build_years(series, date(2018, 4, 20), 200, TODAY, climate=Climate(told("champion")))
    assert (years.count, int(years.made.sum()), years.seen_days) == (15, 13, 21)
    assert years.note.startswith("Few years: 2 measured and 13 made, drawn from told monthly normals")
    assert "in a steppe climate" in years.note


def test_without_a_record_all_years_are_made_and_said() -> None:
    with pytest.raises(RecordError, match=r"no weather yet.*tell normals"):
        build_years(None, date(2018, 4, 20), 200, TODAY)
    years = build_years(None, date(2018, 4, 20), 200, TODAY, climate=Climate(told("norfolk")))
    assert (years.count, years.made.all(), years.seen_days, set(years.labels)) == (30, True, 0, {0})
    assert years.note == (
        "Made weather: all 30 years are drawn from told monthly normals and the usual spread of days in a"
        " maritime climate; none of them was measured. Nothing of the days up to 2018-05-10 was seen."
    )
    assert (years.tmin_c <= years.tmax_c).all()
    odds = calendar_years(None, today=TODAY, climate=Climate(told("norfolk")))
    assert (odds.count, odds.made.all(), odds.tmin_c.shape) == (30, True, (30, 365))
    with pytest.raises(RecordError, match=r"no weather yet.*tell normals"):
        calendar_years(None, today=TODAY)


def test_a_record_that_begins_this_spring_is_led_in_by_the_normals() -> None:
    series = champion_series().between(date(2018, 4, 25), TODAY)
    climate = Climate(told("champion"))
    years = build_years(series, date(2018, 4, 1), 200, TODAY, climate=climate)
    assert (years.count, years.made.all(), years.seen_days) == (30, True, 40)
    assert "begins on 2018-04-25: the 24 days before it are taken as the normals have them" in years.note
    assert np.array_equal(years.tmin_c[0, 24:40], series.tmin_c)
    assert np.allclose(years.tmin_c[0, :24], climate.normals.tmin_c[3], atol=6)  # type: ignore[union-attr]


def test_no_more_years_are_made_than_asked_for() -> None:
    few = build_years(None, date(2018, 4, 20), 200, TODAY, last=10, climate=Climate(told("norfolk")))
    assert few.count == 10


def test_a_record_without_rain_stays_without_rain() -> None:
    series = champion_series().between(date(2012, 1, 1), TODAY)
    dry = series.with_elements({"rain_mm": np.full(series.days, np.nan)}, {})
    years = build_years(dry, date(2018, 4, 20), 200, TODAY)
    assert np.isnan(years.rain_mm).all()
    assert "no rain in the record" in years.note


def test_southern_made_years_have_their_winter_in_july() -> None:
    short = cordoba_series().between(date(2014, 1, 1), date(2020, 12, 31))
    whole = calendar_years(short, today=date(2020, 12, 31), south=True)
    assert whole.count == 15
    made = whole.tmin_c[whole.made].mean(axis=0)
    assert made[:30].mean() < made[170:200].mean() - 8
    low, high = daily_spread("continental", south=True)
    assert (low[6], high[0]) == (5.1, 3.0)


def test_the_same_place_gives_the_same_years_and_a_day_more_of_record_hardly_moves_them() -> None:
    series = champion_series().between(date(2012, 1, 1), TODAY)
    first = build_years(series, date(2018, 6, 1), 100, date(2018, 5, 9))
    again = build_years(series, date(2018, 6, 1), 100, date(2018, 5, 9))
    later = build_years(series, date(2018, 6, 1), 100, TODAY)
    assert np.array_equal(first.tmin_c, again.tmin_c)
    assert np.abs(first.tmin_c - later.tmin_c)[first.made].max() < 0.5


def test_a_longer_window_begins_as_a_shorter_one() -> None:
    climate = Climate(told("norfolk"))
    short = build_years(None, date(2018, 4, 20), 60, TODAY, climate=climate)
    long = build_years(None, date(2018, 4, 20), 900, TODAY, climate=climate)
    assert np.array_equal(short.tmin_c, long.tmin_c[:, :60])
    assert np.array_equal(short.rain_mm, long.rain_mm[:, :60])


def test_five_hundred_years_take_less_than_a_tenth_of_a_second() -> None:
    normals = told("champion")
    took = []
    for _ in range(3):
        start = time.process_time()
        made_days(normals, 500, 1)
        took.append(time.process_time() - start)
    assert min(took) < 0.1


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        ("champion", "steppe"),
        ("norfolk", "maritime"),
        ("brussels", "maritime"),
        ("tunis", "mediterranean"),
        ("cordoba", "subtropical"),
        ("hyderabad", "tropical"),
    ],
)
def test_the_kind_of_climate_is_read_from_the_normals(place: str, kind: str) -> None:
    own = normals_of(climate_series(place), place)
    assert climate_kind(own.tmin_c, own.tmax_c, own.rain_mm) == kind


@pytest.mark.parametrize("climate", CLIMATES)
def test_every_climate_makes_years(climate: str) -> None:
    rows = made_days(told("norfolk", climate), 40, 1)
    assert np.isfinite(rows.tmin_c).all()
    assert rows.rain_mm.sum(axis=1).mean() == pytest.approx(708, rel=0.1)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"tmin_c": [1.0] * 11}, "twelve"),
        ({"climate": "lunar"}, "Known: continental"),
        ({"wet_days": [0.0] * 12}, "rain without wet days"),
        ({"wet_days": [40.0] * 12}, "out of range"),
    ],
)
def test_impossible_told_normals_are_refused(change: dict[str, object], message: str) -> None:
    given: dict[str, object] = {"tmin_c": [1.0] * 12, "tmax_c": [9.0] * 12, "rain_mm": [50.0] * 12}
    with pytest.raises(ParameterError, match=message):
        told_normals("here", **(given | change))  # type: ignore[arg-type]


def test_days_of_the_year() -> None:
    assert [calendar_column(date(2024, *day)) for day in ((1, 1), (2, 28), (2, 29), (3, 1), (12, 31))] == [
        0,
        58,
        58,
        59,
        364,
    ]
