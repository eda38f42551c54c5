"""What the checks find, and what filling puts in."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ghcn_fixture import champion_series, climate_series, cordoba_series
from spadework.types import Floats
from spadework.weather.checks import check
from spadework.weather.fill import fill_gaps, same_day
from spadework.weather.series import Series


def series(tmin: list[float], tmax: list[float] | None = None, rain: list[float] | None = None) -> Series:
    low = np.array(tmin, dtype=float)
    return Series(
        start=np.datetime64("2020-04-01"),
        tmin_c=low,
        tmax_c=low + 8 if tmax is None else np.array(tmax, dtype=float),
        rain_mm=np.zeros(low.size) if rain is None else np.array(rain, dtype=float),
    )


def with_gap(s: Series, first: str, days: int, *names: str) -> Series:
    at = s.index_of(np.datetime64(first))
    changed: dict[str, Floats] = {}
    for name in names or ("tmin_c", "tmax_c", "rain_mm"):
        values = s.element(name)
        assert values is not None
        changed[name] = values.copy()
        changed[name][at : at + days] = np.nan
    return s.with_elements(changed, {})


def test_a_crossed_day_is_missing_and_never_exchanged() -> None:
    found = check(series([1, 12, 3], [9, 8, 10]))
    assert np.isnan(found.series.tmin_c).tolist() == [False, True, False]
    assert np.isnan(found.series.tmax_c).tolist() == [False, True, False]
    assert found.count("crossed") == 1
    crossed = next(f for f in found.findings if f.kind == "crossed")
    assert str(crossed) == "2020-04-02: minimum 12.0 above maximum 8.0 C; both set missing."


def test_what_no_place_has_seen_is_missing() -> None:
    found = check(series([1, -95, 3], [9, 8, 60], [0, 2000, -1]))
    assert np.isnan(found.series.tmin_c).tolist() == [False, True, False]
    assert np.isnan(found.series.tmax_c).tolist() == [False, False, True]
    assert np.isnan(found.series.rain_mm).tolist() == [False, True, True]
    assert found.count("impossible") == 4


@pytest.mark.parametrize(("days", "stuck"), [(4, False), (5, True), (7, True)])
def test_a_pair_that_repeats_is_missing_from_the_second_day(days: int, stuck: bool) -> None:
    found = check(series([1, *[4] * days, 2]))
    assert np.isnan(found.series.tmin_c).sum() == (days - 1 if stuck else 0)
    assert found.count("stuck") == (days if stuck else 0)


def test_one_value_that_repeats_is_reported_and_kept() -> None:
    tmax = [10.0 + day for day in range(12)]
    found = check(series([3] * 12, tmax))
    assert [f.done for f in found.findings] == ["kept"]
    assert found.series.tmin_c.tolist() == [3] * 12


def test_a_jump_is_reported_and_kept() -> None:
    found = check(series([-10, 16, 10], [0, 20, 18]))
    assert [(f.kind, f.element, str(f.first_day)) for f in found.findings] == [
        ("jump", "tmin_c", "2020-04-02")
    ]
    assert found.series.tmin_c[1] == 16


def test_gaps_are_reported_with_their_length() -> None:
    found = check(series([1, np.nan, np.nan, 4], [9, 10, 11, 12]))
    assert [(f.kind, f.element, f.days) for f in found.findings] == [("gap", "tmin_c", 2)]


def test_real_records_are_left_alone() -> None:
    """82,000 days of eight records: one stuck stretch, nothing crossed, nothing impossible."""
    days = kinds = 0
    for place in ("brussels", "cambridge", "champion", "cordoba", "hyderabad", "norfolk", "suffolk", "tunis"):
        found = check(climate_series(place))
        days += found.series.days
        kinds += sum(f.kind in ("crossed", "impossible", "stuck") for f in found.findings)
    assert (days, kinds) == (82_334, 1)


def test_checking_twice_changes_nothing() -> None:
    once = check(series([1, 12, 3, -95, 4, 4, 4, 4, 4, 4], [9, 8, 10, 3, 12, 12, 12, 12, 12, 12])).series
    twice = check(once).series
    assert np.array_equal(once.tmin_c, twice.tmin_c, equal_nan=True)


def test_a_short_gap_is_a_straight_line() -> None:
    out = fill_gaps(series([2, np.nan, np.nan, 8])).series
    assert out.tmin_c.tolist() == [2, 4, 6, 8]
    assert out.filled["tmin_c"].tolist() == [False, True, True, False]


def test_a_longer_gap_follows_the_season_and_meets_its_edges() -> None:
    s = champion_series()
    truth = s.tmin_c[s.index_of(np.datetime64("2000-05-01")) :][:40]
    filled = fill_gaps(with_gap(s, "2000-05-01", 40))
    at = s.index_of(np.datetime64("2000-05-01"))
    got = filled.series.tmin_c[at : at + 40]
    assert filled.filled["tmin_c"] == 40
    straight = np.linspace(s.tmin_c[at - 1], s.tmin_c[at + 40], 42)[1:-1]
    assert np.sqrt(np.mean((got - truth) ** 2)) < np.sqrt(np.mean((straight - truth) ** 2))
    assert abs(got[0] - s.tmin_c[at - 1]) < 3
    assert "Filled: minimum on 40 days, maximum on 40 days, rain on 40 days" in filled.notes[0]


def test_filled_rain_is_that_of_another_year_and_not_nought() -> None:
    s = champion_series()
    at = s.index_of(np.datetime64("2000-05-01"))
    out = fill_gaps(with_gap(s, "2000-05-01", 30, "rain_mm")).series.rain_mm[at : at + 30]
    donor = s.index_of(np.datetime64("1999-05-01"))
    assert np.array_equal(out, s.rain_mm[donor : donor + 30])
    both = with_gap(with_gap(s, "2000-05-01", 30, "rain_mm"), "1999-05-10", 1, "rain_mm")
    after = s.index_of(np.datetime64("2001-05-01"))
    assert np.array_equal(fill_gaps(both).series.rain_mm[at : at + 30], s.rain_mm[after : after + 30])


def test_a_hole_of_months_is_left_open_and_said() -> None:
    filled = fill_gaps(with_gap(champion_series(), "2000-03-01", 61))
    assert filled.left_open == {"tmin_c": 61, "tmax_c": 61, "rain_mm": 61}
    assert "more than 60 days" in filled.notes[-1]


def test_the_ends_are_never_made_longer() -> None:
    filled = fill_gaps(series([np.nan, 2, 3, np.nan], [9, 10, 11, 12])).series
    assert np.isnan(filled.tmin_c).tolist() == [True, False, False, True]


def test_a_filled_minimum_never_lies_above_a_measured_maximum() -> None:
    out = fill_gaps(series([10, np.nan, 10], [15, 6, 15])).series
    assert (out.tmin_c[1], out.tmax_c[1]) == (6, 6)
    assert not out.filled.get("tmax_c", np.zeros(3, bool)).any()


def test_filling_again_gives_the_same() -> None:
    once = fill_gaps(with_gap(cordoba_series(), "2003-01-20", 25)).series
    twice = fill_gaps(once).series
    assert np.array_equal(once.tmin_c, twice.tmin_c)
    assert np.array_equal(once.rain_mm, twice.rain_mm)


@given(st.lists(st.one_of(st.floats(-30, 30), st.just(np.nan)), min_size=3, max_size=80))
def test_filling_keeps_every_measured_number_and_flags_the_rest(values: list[float]) -> None:
    s = series(values)
    filled = fill_gaps(s)
    measured = ~np.isnan(s.tmin_c)
    assert np.array_equal(filled.series.tmin_c[measured], s.tmin_c[measured])
    flags = filled.series.filled.get("tmin_c", np.zeros(s.days, dtype=bool))
    assert (flags == (~measured & ~np.isnan(filled.series.tmin_c))).all()
    if measured.any():
        inside = np.flatnonzero(measured)
        assert np.nanmin(filled.series.tmin_c) >= np.nanmin(s.tmin_c) - 1e-9 or inside.size == 1


@pytest.mark.parametrize(
    ("day", "years", "expected"),
    [("2024-02-29", -1, "2023-02-28"), ("2024-02-29", -4, "2020-02-29"), ("2023-03-01", -3, "2020-03-01")],
)
def test_the_same_day_of_another_year(day: str, years: int, expected: str) -> None:
    assert str(same_day(np.datetime64(day), years)) == expected
