"""Forecasts, totals, frost tables and paired minima move the years as they were told to."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from ghcn_fixture import champion_series, cordoba_series
from grounds import CHAMPION, champion_ground, years_of
from spadework.clock.conditioning import condition_calendar, condition_ground, condition_years
from spadework.clock.conditioning_forecast import error_sd_c, known_days, with_forecast
from spadework.clock.conditioning_frost import fit_nights, frost_days, table_points
from spadework.clock.conditioning_minima import site_minima
from spadework.clock.conditioning_warmth import totals_by_year, with_warmth
from spadework.clock.course import set_out
from spadework.clock.infection import wet_hours
from spadework.crops.loader import load_sheet
from spadework.garden.told import (
    Fact,
    ForecastDay,
    FrostTable,
    PairedMinima,
    Thermometer,
    Told,
    WarmthTotal,
)
from spadework.weather.calendar_years import calendar_years
from spadework.weather.years import Years
from tellings import told

TODAY = date(2018, 5, 20)
FIRST = date(2018, 3, 20)


def years(today: date = TODAY) -> Years:
    return champion_ground(FIRST, 200, today).years


def column(day: date) -> int:
    return (day - FIRST).days


def ahead(days: int) -> date:
    return TODAY + timedelta(days=days)


def entries(*facts: Fact, on: date = TODAY) -> list[Told]:
    return [told(fact, on) for fact in facts]


# -- forecast ------------------------------------------------------------------------------------------


def test_a_forecast_day_takes_the_place_of_the_years_own() -> None:
    day = ForecastDay(day=ahead(1), high_c=12.0, low_c=3.0)
    found = with_forecast(years(), entries(day), CHAMPION, TODAY).years
    at = column(day.day)
    assert found.tmin_c[:, at].mean() == pytest.approx(3.0)
    assert found.tmax_c[:, at].mean() == pytest.approx(12.0)
    assert found.tmin_c[:, at].std() == pytest.approx(1.0 + 3.0 / 14.0)
    assert (found.tmax_c - found.tmin_c)[:, at] == pytest.approx(9.0)
    others = np.delete(np.arange(200), at)
    assert (found.tmin_c[:, others] == years().tmin_c[:, others]).all()
    assert (found.rain_mm == years().rain_mm).all()


def test_the_error_grows_for_two_weeks_and_carries_over() -> None:
    assert [error_sd_c(lead) for lead in (0, 7, 14, 16)] == [1.0, 2.5, 4.0, 4.0]
    days = [ForecastDay(day=ahead(lead), mean_c=15.0) for lead in range(1, 15)]
    found = with_forecast(years(), entries(*days), CHAMPION, TODAY).years
    mean = (found.tmin_c + found.tmax_c)[:, column(ahead(1)) : column(ahead(15))] / 2.0
    assert mean.std(axis=0) == pytest.approx([error_sd_c(lead) for lead in range(1, 15)])
    errors = (mean - 15.0) / mean.std(axis=0)
    assert 0.4 < np.mean(errors[:, 1:] * errors[:, :-1]) < 0.8


def test_the_same_forecast_gives_the_same_years_and_a_fresh_one_is_surer() -> None:
    day = ForecastDay(day=ahead(6), high_c=12.0, low_c=3.0)
    one, two = (with_forecast(years(), entries(day), CHAMPION, TODAY).years for _ in range(2))
    assert (one.tmin_c == two.tmin_c).all()
    old = [told(day, TODAY - timedelta(days=6))]
    stale = with_forecast(years(), old, CHAMPION, TODAY).years
    assert stale.tmin_c[:, column(day.day)].std() > one.tmin_c[:, column(day.day)].std() + 1.0


def test_a_day_known_by_its_mean_keeps_the_years_own_range() -> None:
    found = with_forecast(years(), entries(ForecastDay(day=ahead(2), mean_c=14.0)), CHAMPION, TODAY)
    at = column(ahead(2))
    plain = years()
    assert (found.years.tmax_c - found.years.tmin_c)[:, at] == pytest.approx(
        (plain.tmax_c - plain.tmin_c)[:, at]
    )
    assert (found.years.tmax_c + found.years.tmin_c)[:, at].mean() / 2.0 == pytest.approx(14.0)
    assert "known only by its mean" in found.applied[0].text


def test_rain_falls_in_its_share_of_the_years() -> None:
    days = [
        ForecastDay(day=ahead(1), rain_mm=6.0, rain_odds=0.7),
        ForecastDay(day=ahead(2), rain_mm=4.0),
        ForecastDay(day=ahead(3), rain_mm=0.0),
        ForecastDay(day=ahead(4), rain_odds=0.5),
    ]
    plain = years()
    found = with_forecast(plain, entries(*days), CHAMPION, TODAY).years
    rain = found.rain_mm[:, column(ahead(1)) : column(ahead(5))]
    assert sorted(set(rain[:, 0])) == [0.0, 6.0]
    assert (rain > 0.0).sum(axis=0).tolist() == [21, 30, 0, 15]
    assert rain[rain[:, 3] > 0, 3].min() >= 1.0
    assert (found.tmin_c == plain.tmin_c).all()


def test_later_forecasts_stand_over_earlier_ones_thing_by_thing() -> None:
    day = ahead(3)
    said = [
        told(ForecastDay(day=day, high_c=20.0, low_c=9.0, rain_mm=5.0, wind_m_s=6.0), ahead(-2)),
        told(ForecastDay(day=day, mean_c=10.0), ahead(-1)),
        told(ForecastDay(day=day, rain_mm=0.0), ahead(0)),
        told(ForecastDay(day=day, mean_c=30.0), ahead(1)),
    ]
    found = known_days(said, TODAY)[day]
    assert (found.fact.high_c, found.fact.mean_c, found.fact.rain_mm, found.fact.wind_m_s) == (
        None, 10.0, 0.0, 6.0,
    )  # fmt: skip
    assert found.told_on == ahead(-1)


def test_days_already_seen_are_left_alone() -> None:
    day = ForecastDay(day=ahead(-3), high_c=30.0, low_c=20.0)
    plain = years()
    seen = with_forecast(plain, [told(day, ahead(-5))], CHAMPION, TODAY)
    assert seen.years is plain
    assert seen.applied == ()
    # without a record of this season the old forecast is the best there is
    unseen = years(date(2018, 3, 1))
    found = with_forecast(unseen, [told(day, ahead(-5))], CHAMPION, TODAY).years
    assert found.tmin_c[:, column(day.day)].mean() == pytest.approx(20.0)


@pytest.mark.parametrize(
    ("told_day", "drop_c"),
    [
        (ForecastDay(day=ahead(1), high_c=10.0, low_c=0.0), np.nan),
        (ForecastDay(day=ahead(1), high_c=10.0, low_c=0.0, wind_m_s=5.0), -0.5),
        (ForecastDay(day=ahead(1), high_c=10.0, low_c=0.0, cloud_share=0.9), -0.5),
        (ForecastDay(day=ahead(1), high_c=10.0, low_c=0.0, dew_c=-12.0), -3.3),
        (ForecastDay(day=ahead(1), high_c=10.0, low_c=0.0, dew_c=5.0), -1.6),
    ],
)
def test_wind_cloud_and_dew_say_how_far_the_leaf_falls(told_day: ForecastDay, drop_c: float) -> None:
    plain = years()
    conditioned = condition_years(plain, entries(told_day), CHAMPION, TODAY)
    at = column(ahead(1))
    if np.isnan(drop_c):
        assert conditioned.leaf_drop_c is None
        return
    assert conditioned.leaf_drop_c is not None
    assert conditioned.leaf_drop_c[:, at] == pytest.approx(drop_c)
    assert np.isnan(np.delete(conditioned.leaf_drop_c, at, axis=1)).all()
    ground, _ = condition_ground(conditioned, [], CHAMPION, TODAY)
    usual = replace(ground, leaf_drop_c=None, _kept={})
    tomato = load_sheet("tomato")
    loss = [set_out(tomato, g, at).lost_frost[:, at].mean() for g in (usual, ground)]
    assert (loss[1] < loss[0]) == (drop_c > -2.05)


def test_a_told_dew_point_says_how_long_the_air_is_humid() -> None:
    def humid_h(dew_c: float | None) -> float:
        day = ForecastDay(day=ahead(1), high_c=20.0, low_c=10.0, dew_c=dew_c)
        conditioned = condition_years(years(), entries(day), CHAMPION, TODAY)
        ground, _ = condition_ground(conditioned, [], CHAMPION, TODAY)
        at = column(ahead(1))
        return float(wet_hours(ground, at, at + 1).humid_h.mean())

    assert humid_h(15.0) > humid_h(None) > humid_h(0.0) == 0.0


def test_cloud_takes_the_suns_warmth_from_the_soil() -> None:
    def soil_c(cloud: float) -> float:
        days = [ForecastDay(day=ahead(d), high_c=20.0, low_c=8.0, cloud_share=cloud) for d in (1, 2, 3)]
        conditioned = condition_years(years(), entries(*days), CHAMPION, TODAY)
        ground, _ = condition_ground(conditioned, [], CHAMPION, TODAY)
        return float(ground.soil_mean_c[:, column(ahead(3))].mean())

    assert 0.5 < soil_c(0.0) - soil_c(1.0) < 5.0


# -- totals --------------------------------------------------------------------------------------------


def total(value: float, until: date = TODAY, **other: object) -> WarmthTotal:
    return WarmthTotal(total_cday=value, base_c=10.0, since=date(2018, 4, 1), until=until, **other)  # type: ignore[arg-type]


@pytest.mark.parametrize("seen", [True, False])
@pytest.mark.parametrize("method", ["average", "single-sine", "double-triangle"])
def test_the_years_come_to_the_told_total(seen: bool, method: str) -> None:
    plain = years(TODAY if seen else date(2018, 3, 1))
    fact = total(180.0, method=method, upper_c=30.0)
    found, applied = with_warmth(plain, entries(fact), TODAY)
    sums = totals_by_year(found, fact, 0.0, np.zeros(200, dtype=np.bool_))
    assert sums == pytest.approx(180.0, abs=0.01)
    at = column(TODAY)
    assert (found.tmin_c[:, at + 1 :] == plain.tmin_c[:, at + 1 :]).all()
    assert (found.tmin_c[:, :12] == plain.tmin_c[:, :12]).all()
    shift = found.tmax_c[:, 12 : at + 1] - plain.tmax_c[:, 12 : at + 1]
    assert np.ptp(shift, axis=1).max() < 1e-9  # one constant a year
    # a double method ends on the minimum of the next morning, which each year has its own
    alike = 0.2 if method.startswith("double") else 1e-9
    assert (np.ptp(shift[:, 0]) < alike) == seen
    assert ("the record gives" in applied[0].text) == seen


def test_of_a_later_total_only_the_days_since_are_free() -> None:
    first, second = total(60.0, date(2018, 5, 5)), total(150.0)
    found, _ = with_warmth(years(), entries(second, first), TODAY)
    none = np.zeros(200, dtype=np.bool_)
    assert totals_by_year(found, first, 0.0, none) == pytest.approx(60.0, abs=0.01)
    assert totals_by_year(found, second, 0.0, none) == pytest.approx(150.0, abs=0.01)


def test_a_total_the_years_have_already_changes_nothing() -> None:
    plain = years()
    own = float(totals_by_year(plain, total(0.0), 0.0, np.zeros(200, dtype=np.bool_))[0])
    found, _ = with_warmth(plain, entries(total(own)), TODAY)
    assert np.abs(found.tmin_c - plain.tmin_c).max() < 1e-6
    later, _ = with_warmth(plain, [told(total(500.0), ahead(1))], TODAY)
    assert later is plain


# -- frost tables --------------------------------------------------------------------------------------

SPRING = FrostTable(
    below_c=0.0,
    season="spring",
    dates=((0.9, date(2018, 4, 10)), (0.5, date(2018, 4, 28)), (0.1, date(2018, 5, 14))),
)


@pytest.mark.parametrize("south", [False, True])
def test_the_years_dates_meet_a_told_table(south: bool) -> None:
    series = cordoba_series() if south else champion_series()
    whole = calendar_years(series, 30, south=south)
    own = frost_days(whole.tmin_c, 0.0, "spring", [0.9, 0.5, 0.1])
    shifted = [day - 8 for day in own]
    dates = tuple(
        (chance, whole.day(round(column)).astype("datetime64[D]").item())
        for chance, column in zip((0.9, 0.5, 0.1), shifted, strict=True)
    )
    table = replace(SPRING, dates=dates)
    found, _, applied = condition_calendar(whole, entries(table), TODAY)
    reached = frost_days(found.tmin_c, 0.0, "spring", [0.9, 0.5, 0.1])
    assert np.abs(reached - shifted).max() <= 3.0
    # autumn was not told: its dates stay
    assert frost_days(found.tmin_c, 0.0, "autumn", [0.5]) == frost_days(whole.tmin_c, 0.0, "autumn", [0.5])
    assert "warmer" in applied[0].text
    assert (found.tmax_c >= found.tmin_c).all()


def test_a_table_the_years_have_already_changes_next_to_nothing() -> None:
    whole = calendar_years(champion_series(), 30)
    own = frost_days(whole.tmin_c, 0.0, "spring", [0.9, 0.5, 0.1])
    table = replace(
        SPRING,
        dates=tuple(
            (c, whole.day(round(d)).astype("datetime64[D]").item())
            for c, d in zip((0.9, 0.5, 0.1), own, strict=True)
        ),
    )
    fit = fit_nights(whole, entries(table), TODAY)
    assert fit is not None
    assert abs(fit.spring.offset_c) < 0.3
    assert abs(np.log(fit.spring.factor)) < 0.1


def test_median_and_spread_stand_for_three_dates() -> None:
    table = FrostTable(below_c=0.0, season="spring", median=date(2018, 5, 1), spread_days=10.0)
    points = dict(table_points(table, south=False))
    assert points[0.5] == 120.0
    assert points[0.1] == pytest.approx(120.0 + 12.816, abs=0.001)
    autumn = dict(table_points(replace(table, season="autumn", median=date(2018, 9, 28)), south=False))
    assert autumn[0.1] == pytest.approx(270.0 - 12.816, abs=0.001)


def test_several_limits_are_met_together_and_each_half_by_its_own() -> None:
    whole = calendar_years(champion_series(), 30)
    spring = [replace(SPRING, below_c=0.0), replace(SPRING, below_c=-2.0, dates=((0.5, date(2018, 4, 20)),))]
    autumn = FrostTable(below_c=0.0, season="autumn", median=date(2018, 10, 8), spread_days=9.0)
    found, _, applied = condition_calendar(whole, entries(*spring, autumn), TODAY)
    assert frost_days(found.tmin_c, 0.0, "spring", [0.5])[0] == pytest.approx(117, abs=4)
    assert frost_days(found.tmin_c, -2.0, "spring", [0.5])[0] == pytest.approx(109, abs=5)
    assert frost_days(found.tmin_c, 0.0, "autumn", [0.5])[0] == pytest.approx(280, abs=3)
    assert len(applied) == 2


def test_running_years_move_too_but_not_the_nights_that_were_seen() -> None:
    whole = calendar_years(champion_series(), 30, today=TODAY)
    plain = years(date(2018, 4, 10))
    nights = fit_nights(whole, entries(SPRING), TODAY)
    assert nights is not None
    found = condition_years(plain, entries(SPRING), CHAMPION, TODAY, nights).years
    seen = plain.seen_days
    assert (found.tmin_c[:, :seen] == plain.tmin_c[:, :seen]).all()
    moved = (found.tmin_c - plain.tmin_c)[:, seen : seen + 40].mean()
    assert moved == pytest.approx(nights.spring.offset_c, abs=0.6)
    assert moved > 1.0
    assert (found.tmax_c >= found.tmin_c).all()


# -- paired minima -------------------------------------------------------------------------------------


def pair(difference_c: float, nights: int = 1, *, open_sky: bool = False, **other: object) -> PairedMinima:
    own = Thermometer(shelter="open" if open_sky else "sheltered")
    return PairedMinima(difference_c=difference_c, nights=nights, own=own, **other)  # type: ignore[arg-type]


def test_a_sheltered_thermometer_moves_the_air_and_not_the_leaf() -> None:
    found = site_minima(entries(pair(-3.0, 20, spread_c=1.2)), TODAY)
    error2 = (1.2**2 + 0.5**2) / 20
    assert found.air_c == pytest.approx(-3.0 * 1.28**2 / (1.28**2 + error2))
    assert (found.leaf_c, found.leaf_sd_c) == (0.0, 1.28)
    plain = years()
    moved = condition_years(plain, entries(pair(-3.0, 20, spread_c=1.2)), CHAMPION, TODAY).years
    assert (moved.tmin_c - plain.tmin_c) == pytest.approx(found.air_c)
    assert (moved.tmax_c == plain.tmax_c).all()


def test_an_open_thermometer_reads_the_leaf_and_leaves_the_air() -> None:
    usual = site_minima(entries(pair(-2.05, 30, open_sky=True)), TODAY)
    assert usual.leaf_c == pytest.approx(0.0)
    assert usual.air_c == 0.0
    assert usual.leaf_sd_c < 0.4
    hollow = site_minima(entries(pair(-5.05, 30, open_sky=True)), TODAY)
    error2 = (1.55**2 + 0.5**2) / 30
    assert hollow.leaf_c == pytest.approx(-3.0 * 1.28**2 / (1.28**2 + error2))
    plain = years()
    assert (
        condition_years(plain, entries(pair(-5.0, 9, open_sky=True)), CHAMPION, TODAY).years.tmin_c
        == plain.tmin_c
    ).all()


def test_like_is_compared_with_like() -> None:
    """In a hollow 3 degrees colder an open thermometer reads both hollow and leaf: neither counts twice."""
    both = entries(pair(-3.0, 60, spread_c=1.0), pair(-5.05, 60, open_sky=True))
    found = site_minima(both, TODAY)
    assert found.air_c == pytest.approx(-3.0, abs=0.1)
    assert found.leaf_c == pytest.approx(0.0, abs=0.1)


def test_one_night_says_little_and_many_singles_say_as_much_as_their_mean() -> None:
    one = site_minima(entries(pair(-4.0)), TODAY).air_c
    assert -3.0 < one < -1.5
    singles = entries(*(pair(-4.0, on=date(2018, 4, day)) for day in range(1, 11)))
    assert site_minima(singles, TODAY).air_c == pytest.approx(
        site_minima(entries(pair(-4.0, 10)), TODAY).air_c
    )
    assert site_minima([told(pair(-4.0), ahead(1))], TODAY).air_c == 0.0


def test_an_open_thermometer_colder_than_usual_costs_plants() -> None:
    tomato = load_sheet("tomato")
    at = column(ahead(1))

    def killed(*facts: Fact) -> float:
        said = entries(*facts)
        ground, _ = condition_ground(condition_years(years(), said, CHAMPION, TODAY), said, CHAMPION, TODAY)
        return float(set_out(tomato, ground, at).lost_frost[:, at + 20].mean())

    assert killed(pair(-5.0, 20, open_sky=True)) > killed() > killed(pair(-0.5, 20, open_sky=True))
    assert killed(pair(-3.0, 20)) > killed() > killed(pair(2.0, 20))


# -- all together --------------------------------------------------------------------------------------


def test_with_nothing_told_nothing_changes() -> None:
    plain = years()
    found = condition_years(plain, [], CHAMPION, TODAY)
    assert found.years is plain
    assert found.applied == ()


def test_a_single_row_of_seen_weather_can_be_conditioned() -> None:
    low = np.tile(np.linspace(2.0, 8.0, 60), (1, 1))
    one = replace(years_of(low, low + 10.0, first_day="2018-03-20"), seen_days=60)
    found = condition_years(one, entries(total(90.0, date(2018, 4, 30)), pair(-1.0, 9)), CHAMPION, TODAY)
    assert np.isfinite(found.years.tmin_c).all()


def test_a_told_wind_blows_in_the_years_and_leaves_the_rest_alone() -> None:
    still = ForecastDay(day=ahead(3), high_c=12.0, low_c=3.0, rain_odds=0.5)
    windy = replace(still, wind_m_s=10.0)
    bare = replace(years(), wind_m_s=None)
    found = with_forecast(bare, entries(windy), CHAMPION, TODAY).years
    assert found.wind_m_s is not None
    column = int((np.datetime64(ahead(3), "D") - found.first_day).astype(int))
    told_wind = found.wind_m_s[:, column]
    assert told_wind.mean() == pytest.approx(10.0, rel=0.1)
    assert 0.1 < told_wind.std() / told_wind.mean() < 0.5
    others = np.delete(found.wind_m_s, column, axis=1)
    assert np.isnan(others).all()
    calm = with_forecast(bare, entries(still), CHAMPION, TODAY).years
    assert calm.wind_m_s is None
