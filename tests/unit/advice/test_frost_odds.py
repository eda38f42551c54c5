"""Frost odds of two real places."""

from __future__ import annotations

from datetime import date
from functools import cache

import numpy as np
import pytest

from ghcn_fixture import champion_series, cordoba_series
from spadework.advice.frost_odds import FrostAnswer, FrostYears, last_and_first_chance, odds_frost
from spadework.weather.years import CalendarYears, calendar_years


@cache
def champion() -> CalendarYears:
    whole = calendar_years(champion_series(), last=None)
    assert whole.labels == tuple(range(1982, 2019))
    return whole


@cache
def cordoba() -> CalendarYears:
    return calendar_years(cordoba_series(), last=None, south=True)


def record_of(whole: CalendarYears, season: int = 2021) -> FrostYears:
    dates = np.array([whole.day(column, season) for column in range(365)])
    return FrostYears(tmin_c=whole.tmin_c, dates=dates, labels=whole.labels, made=whole.made)


def ask(
    whole: CalendarYears,
    below_c: float = 0.0,
    by: date | None = None,
    at_odds: tuple[str, float] | None = None,
) -> FrostAnswer:
    return odds_frost(
        record_of(whole),
        today=date(2021, 3, 1),
        below_c=below_c,
        by=None if by is None else (by, whole.column(by)),
        at_odds=at_odds,
        notes=[],
    )


def day_of_year(day: date | None) -> int:
    assert day is not None
    return day.timetuple().tm_yday


def test_champions_last_spring_frost() -> None:
    found = ask(champion()).dates[0]
    assert found.place == "shelter"
    last = found.last_spring
    # Weibull positions over the 37 years: 115.2, 129 and 146.2; the answer is a whole day of some year
    assert day_of_year(last.q10) == pytest.approx(115.2, abs=1.0)
    assert day_of_year(last.q50) == pytest.approx(129.0, abs=1.0)
    assert day_of_year(last.q90) == pytest.approx(146.2, abs=1.0)
    assert last.never == 0.0
    assert last.years == 37


def test_champions_first_autumn_frost() -> None:
    first = ask(champion()).dates[0].first_autumn
    assert day_of_year(first.q10) == pytest.approx(257.6, abs=1.0)
    assert day_of_year(first.q50) == pytest.approx(271.0, abs=1.0)
    assert day_of_year(first.q90) == pytest.approx(283.2, abs=1.0)
    assert first.never == 0.0


@pytest.mark.parametrize(("by", "chance"), [(date(2021, 5, 15), 0.24), (date(2021, 4, 30), 0.81)])
def test_champions_odds_of_a_frost_from_a_day_on(by: date, chance: float) -> None:
    found = ask(champion(), by=by).by[0]
    assert (found.place, found.side, found.on) == ("shelter", "on or after", by)
    assert found.frost.chance == pytest.approx(chance, abs=0.005)
    assert found.frost.years_yes == round(found.frost.chance * 37)


def test_a_frost_on_the_day_itself_counts_on_both_sides() -> None:
    tmin_c = np.full((4, 365), 10.0)
    tmin_c[:, 100] = -1.0
    tmin_c[:, 300] = -1.0
    record = FrostYears(
        tmin_c, np.arange("2021-01-01", "2022-01-01", dtype="datetime64[D]"), (1, 2, 3, 4), np.zeros(4, bool)
    )

    def chance(by: date, column: int) -> float:
        found = odds_frost(record, today=by, below_c=0.0, by=(by, column), at_odds=None, notes=[])
        return found.by[0].frost.chance

    assert chance(date(2021, 4, 11), 100) == 1.0
    assert chance(date(2021, 4, 12), 101) == 0.0
    assert chance(date(2021, 10, 27), 299) == 0.0
    assert chance(date(2021, 10, 28), 300) == 1.0
    dates = odds_frost(record, today=date(2021, 1, 1), below_c=0.0, by=None, at_odds=None, notes=[]).dates[0]
    assert dates.last_spring.q50 == date(2021, 4, 11)
    assert dates.first_autumn.q50 == date(2021, 10, 28)
    assert dates.frost_free_days["q50"] == 199.0


@pytest.mark.parametrize("whole", [champion, cordoba], ids=["north", "south"])
@pytest.mark.parametrize("below_c", [0.0, -2.0])
def test_the_leaf_freezes_later_in_spring_and_sooner_in_autumn(whole, below_c: float) -> None:  # type: ignore[no-untyped-def]
    shelter, leaf = ask(whole(), below_c).dates
    assert (shelter.place, leaf.place) == ("shelter", "leaf")
    for name in ("q10", "q50", "q90"):
        in_shelter, at_leaf = getattr(shelter.last_spring, name), getattr(leaf.last_spring, name)
        if in_shelter is not None:
            assert at_leaf > in_shelter
        in_shelter, at_leaf = getattr(shelter.first_autumn, name), getattr(leaf.first_autumn, name)
        if in_shelter is not None:
            assert at_leaf < in_shelter


def test_the_leafs_odds_are_those_of_drawn_nights() -> None:
    tmin_c = champion().tmin_c[-10:]
    past, come = last_and_first_chance(tmin_c, 0.0, "leaf")
    rng = np.random.default_rng(3)
    draws = 3000
    site = rng.normal(0.0, 1.28, (draws, 1))
    for year in range(10):
        surface = tmin_c[year] - 2.05 + site + rng.normal(0.0, 1.55, (draws, 365))
        frozen = surface <= 0.0
        spring, autumn = frozen[:, :196], frozen[:, 196:]
        for day in (120, 135, 150):
            assert past[year, day] == pytest.approx(1.0 - spring[:, day + 1 :].any(axis=1).mean(), abs=0.05)
        for day in (255, 270, 285):
            assert come[year, day] == pytest.approx(autumn[:, : day - 195].any(axis=1).mean(), abs=0.05)


@pytest.mark.parametrize("whole", [champion, cordoba], ids=["north", "south"])
def test_the_days_at_given_odds_are_where_the_odds_by_day_change(whole) -> None:  # type: ignore[no-untyped-def]
    for place, at in enumerate(ask(whole(), at_odds=("1 in 5", 0.2)).at_odds):
        assert at.spring_after is not None
        assert at.autumn_before is not None
        one = np.timedelta64(1, "D")

        def chance(day: np.datetime64, place: int = place) -> float:
            return ask(whole(), by=day.astype("datetime64[D]").item()).by[place].frost.chance

        spring, autumn = np.datetime64(at.spring_after), np.datetime64(at.autumn_before)
        assert chance(spring + one) <= 0.2 < chance(spring)
        assert chance(autumn - one) <= 0.2 < chance(autumn)


def test_rarer_odds_lie_further_out() -> None:
    often, seldom = (ask(champion(), at_odds=("", chance)).at_odds[0] for chance in (0.5, 0.1))
    assert often.spring_after is not None
    assert seldom.spring_after is not None
    assert often.autumn_before is not None
    assert seldom.autumn_before is not None
    assert seldom.spring_after > often.spring_after
    assert seldom.autumn_before < often.autumn_before


def test_a_southern_spring_lies_between_july_and_the_new_year() -> None:
    shelter, leaf = ask(cordoba()).dates
    for found in (shelter, leaf):
        spring, autumn = found.last_spring.q50, found.first_autumn.q50
        assert spring is not None
        assert autumn is not None
        assert date(2021, 7, 1) <= spring <= date(2021, 12, 31)
        assert date(2022, 1, 1) <= autumn <= date(2022, 6, 30)


def test_colder_limits_come_later_in_autumn_and_end_sooner_in_spring() -> None:
    mild, hard = (ask(champion(), below_c).dates[0] for below_c in (0.0, -4.0))
    assert hard.last_spring.q50 < mild.last_spring.q50  # type: ignore[operator]
    assert hard.first_autumn.q50 > mild.first_autumn.q50  # type: ignore[operator]
    assert hard.frost_free_days["q50"] > mild.frost_free_days["q50"]  # type: ignore[operator]


def test_a_place_without_frost_has_no_frost_dates() -> None:
    record = FrostYears(
        np.full((6, 365), 18.0),
        np.arange("2021-01-01", "2022-01-01", dtype="datetime64[D]"),
        tuple(range(6)),
        np.zeros(6, bool),
    )
    found = odds_frost(
        record,
        today=date(2021, 1, 1),
        below_c=0.0,
        by=(date(2021, 4, 1), 90),
        at_odds=("1 in 5", 0.2),
        notes=[],
    )
    for entry in found.dates:
        assert entry.last_spring.q50 is None
        assert entry.last_spring.never == pytest.approx(1.0, abs=1e-4)
        assert entry.first_autumn.q50 is None
        assert entry.first_autumn.never == pytest.approx(1.0, abs=1e-4)
    assert [by.frost.years_yes for by in found.by] == [0, 0]
    assert found.years == 6


def test_a_place_that_always_freezes_is_not_called_free() -> None:
    record = FrostYears(
        np.full((6, 365), -8.0),
        np.arange("2021-01-01", "2022-01-01", dtype="datetime64[D]"),
        tuple(range(6)),
        np.zeros(6, bool),
    )
    found = odds_frost(
        record, today=date(2021, 1, 1), below_c=0.0, by=(date(2021, 6, 1), 151), at_odds=None, notes=[]
    )
    assert [by.frost.chance for by in found.by] == [1.0, 1.0]
    assert found.dates[0].last_spring.q50 == date(2021, 7, 15)
    assert found.dates[0].first_autumn.q50 == date(2021, 7, 16)
