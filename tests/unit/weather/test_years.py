"""The years: what is seen, what is borrowed, and that nothing is known before its day."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ghcn_fixture import champion_series, cordoba_series
from spadework.errors import ParameterError, RecordError
from spadework.weather.fill import fill_gaps
from spadework.weather.series import Series
from spadework.weather.years import CalendarYears, Years, build_years, calendar_years


def counting(first: str, last: str) -> Series:
    """A record whose minimum is the day's number since 1970, so that every column tells where it is from."""
    days = np.arange(first, np.datetime64(last) + 1, dtype="datetime64[D]")
    number = days.astype(int).astype(float)
    return Series(start=days[0], tmin_c=number, tmax_c=number + 5, rain_mm=number * 0)


def days_of(row: np.ndarray) -> np.ndarray:
    return row.astype(int).astype("datetime64[D]")


RECORD = counting("1990-01-01", "2005-12-31")


def real(years: Years | CalendarYears) -> np.ndarray:
    """The rows that were not made."""
    return years.tmin_c[~years.made]


def real_labels(years: Years | CalendarYears) -> list[int]:
    return [label for label, made in zip(years.labels, years.made, strict=True) if not made]


def test_a_row_is_this_season_then_a_past_year_from_the_next_day_on() -> None:
    years = build_years(RECORD, date(2005, 4, 1), 100, date(2005, 5, 10))
    assert years.seen_days == 40
    assert years.labels == tuple(range(1990, 2005))
    for row, label in zip(years.tmin_c, years.labels, strict=True):
        dates = days_of(row)
        assert str(dates[39]) == "2005-05-10"
        assert str(dates[40]) == f"{label}-05-11"
        assert (np.diff(dates[40:]).astype(int) == 1).all()
    assert years.note == ""


def test_a_season_over_new_year_runs_on() -> None:
    years = build_years(RECORD, date(2004, 10, 1), 200, date(2004, 11, 30))
    dates = days_of(years.tmin_c[0])
    assert [str(d) for d in dates[[60, 61, 92]]] == ["2004-11-30", "1990-12-01", "1991-01-01"]
    assert real_labels(years)[-1] == 2003
    assert str(days_of(real(years)[-1])[-1]) < "2004-10-01"


def test_nothing_seen_yet_gives_past_years_alone() -> None:
    years = build_years(RECORD, date(2005, 6, 1), 50, date(2005, 5, 1))
    assert years.seen_days == 0
    assert str(days_of(years.tmin_c[-1])[0]) == "2004-06-01"


def test_29_february() -> None:
    borrowed = build_years(RECORD, date(2004, 2, 20), 30, date(2004, 2, 28))
    starts = [str(days_of(row)[9]) for row in borrowed.tmin_c]
    assert starts[:3] == ["1990-02-28", "1991-02-28", "1992-02-29"]
    seen = build_years(RECORD, date(2004, 2, 20), 30, date(2004, 2, 29))
    assert {str(days_of(row)[10])[5:] for row in real(seen)} == {"03-01"}


@given(st.integers(0, 3650), st.integers(-40, 200), st.integers(1, 500))
def test_a_hindcast_knows_nothing_after_its_day(start: int, told: int, days: int) -> None:
    first = date(1996, 1, 1) + timedelta(days=start)
    today = min(first + timedelta(days=told), date(2005, 12, 31))
    try:
        years = build_years(RECORD, first, days, today)
    except RecordError:
        return
    known = build_years(RECORD.between(RECORD.start, today), first, days, today)
    assert np.array_equal(known.tmin_c, years.tmin_c)
    assert real(years).max() <= (today - date(1970, 1, 1)).days
    for row in real(years):
        dates = days_of(row)
        assert (dates[: years.seen_days] == years.dates[: years.seen_days]).all()
        borrowed = dates[years.seen_days :]
        if borrowed.size:
            assert borrowed[-1] < np.datetime64(first)
    assert years.seen_days == max(0, min(days, told + 1, (today - first).days + 1))


def test_the_last_thirty_or_all() -> None:
    s = champion_series()
    assert build_years(s, date(2018, 4, 1), 200, date(2018, 4, 1)).labels == tuple(range(1988, 2018))
    assert build_years(s, date(2018, 4, 1), 200, date(2018, 4, 1), last=None).count == 36
    with pytest.raises(ParameterError, match="3 past years are too few"):
        build_years(s, date(2018, 4, 1), 200, date(2018, 4, 1), last=3)


def test_few_years_are_topped_up_and_said() -> None:
    few = build_years(RECORD, date(1996, 4, 1), 100, date(1996, 4, 1))
    assert (few.count, int(few.made.sum()), real_labels(few)) == (15, 9, list(range(1990, 1996)))
    assert few.note == (
        "Few years: 6 measured and 9 made, drawn from the means, spread and rain of the record's own 6 years."
    )
    assert (few.tmin_c[few.made][:, 0] == few.tmin_c[0, 0]).all()  # the day seen is the same in every row


def test_years_not_asked_for_are_not_made() -> None:
    few = build_years(RECORD, date(1996, 4, 1), 100, date(1996, 4, 1), last=4)
    assert (few.count, few.made.any(), few.note) == (4, False, "Thin: the odds stand on 4 past years only.")


def test_too_few_years_are_refused_where_nothing_else_is_told() -> None:
    short = RECORD.between(date(1992, 6, 1), date(1995, 12, 31))
    with pytest.raises(RecordError, match=r"gives 2 past years for 1995-04-02 to .*At least 4.*tell normals"):
        build_years(short, date(1995, 4, 1), 100, date(1995, 4, 1))


def test_a_record_a_little_behind_is_eked_out_and_said() -> None:
    years = build_years(
        RECORD.between(date(1990, 1, 1), date(2005, 5, 1)), date(2005, 4, 1), 90, date(2005, 5, 8)
    )
    assert years.seen_days == 31
    assert years.note == "The record ends on 2005-05-01; past years stand in for the 7 days up to 2005-05-08."


def test_a_record_far_behind_is_refused_when_what_happened_matters() -> None:
    short = RECORD.between(date(1990, 1, 1), date(2005, 4, 1))
    with pytest.raises(
        RecordError, match=r"ends on 2005-04-01, 37 days before 2005-05-08.*--today 2005-04-01"
    ):
        build_years(short, date(2005, 3, 1), 90, date(2005, 5, 8))
    years = build_years(short, date(2005, 3, 1), 90, date(2005, 5, 8), need_seen=False)
    assert years.seen_days == 32
    ahead = build_years(short, date(2010, 5, 1), 90, date(2010, 5, 1), need_seen=False)
    assert (ahead.seen_days, ahead.labels[-1]) == (0, 2004)
    assert ahead.note.startswith("The record ends on 2005-04-01; nothing of this season was seen")


def test_a_record_that_begins_too_late_or_has_a_hole_is_refused() -> None:
    with pytest.raises(RecordError, match="begins on 1990-01-01"):
        build_years(RECORD, date(1989, 12, 1), 90, date(1990, 2, 1))
    low = RECORD.tmin_c.copy()
    at = RECORD.index_of(date(2005, 4, 10))
    low[at : at + 3] = np.nan
    with pytest.raises(
        RecordError, match="3 days since 2005-04-01 have no temperature, the first is 2005-04-10"
    ):
        build_years(RECORD.with_elements({"tmin_c": low}, {}), date(2005, 4, 1), 90, date(2005, 5, 1))


def test_days_filled_up_to_today_do_not_count_as_seen() -> None:
    flags = np.zeros(RECORD.days, dtype=bool)
    at = RECORD.index_of(date(2005, 5, 8))
    flags[at : at + 5] = True
    s = RECORD.with_elements({}, {"tmin_c": flags})
    years = build_years(s, date(2005, 5, 1), 60, date(2005, 5, 10))
    assert years.seen_days == 7
    inside = build_years(s, date(2005, 5, 1), 60, date(2005, 5, 20))
    assert inside.seen_days == 20
    assert "5 days of the 20 seen this season had to be filled." in inside.note
    assert inside.filled_share == pytest.approx(5 / 60)


def test_a_year_with_many_filled_days_is_left_out() -> None:
    for days, used in ((15, True), (16, False)):
        flags = np.zeros(RECORD.days, dtype=bool)
        at = RECORD.index_of(date(2000, 5, 1))
        flags[at : at + days] = True
        s = RECORD.with_elements({}, {"tmin_c": flags})
        assert (2000 in build_years(s, date(2005, 4, 1), 90, date(2005, 4, 1)).labels) is used
        assert (2000 in calendar_years(s).labels) is used


def test_a_year_with_a_missing_temperature_is_left_out() -> None:
    low = RECORD.tmin_c.copy()
    low[RECORD.index_of(date(2000, 5, 1))] = np.nan
    s = RECORD.with_elements({"tmin_c": low}, {})
    assert 2000 not in build_years(s, date(2005, 4, 1), 90, date(2005, 4, 1)).labels
    assert 2000 in build_years(s, date(2005, 6, 1), 90, date(2005, 6, 1)).labels
    assert 2000 not in calendar_years(s).labels


def test_a_window_wholly_seen_is_one_row() -> None:
    years = build_years(RECORD, date(1990, 3, 1), 30, date(1990, 6, 1))
    assert (years.count, years.seen_days) == (1, 30)


@pytest.mark.parametrize("days", [0, 5000])
def test_a_window_that_cannot_be_run(days: int) -> None:
    with pytest.raises(ParameterError, match="Allowed: 1 to"):
        build_years(RECORD, date(2005, 4, 1), days, date(2005, 4, 1))


def test_a_southern_season_runs_over_new_year() -> None:
    s = fill_gaps(cordoba_series()).series
    years = build_years(s, date(2015, 9, 1), 240, date(2015, 10, 15))
    assert years.count == 24  # 1991 to 2014
    warmest = years.tmin_c[:, years.seen_days :].mean(axis=0).argmax() + years.seen_days
    assert str(years.dates[warmest])[5:7] in ("12", "01", "02")


def test_calendar_years_north_and_the_published_freeze_dates() -> None:
    """Champion 1982-2018: last 0 C day 115.2, 129, 146.2 of the year (the method notes, measured)."""
    years = calendar_years(champion_series(), last=None)
    freezing = years.tmin_c[:, :196] <= 0
    last = 196 - freezing[:, ::-1].argmax(axis=1)
    assert np.quantile(last, [0.1, 0.5, 0.9], method="weibull").tolist() == pytest.approx([115.2, 129, 146.2])
    assert (str(years.day(128)), years.column(date(2020, 5, 9))) == ("2001-05-09", 128)
    assert str(years.day(128, 2016)) == "2016-05-09"


def test_calendar_years_south_put_winter_at_the_ends() -> None:
    years = calendar_years(cordoba_series(), last=None, south=True)
    assert years.tmin_c.shape == (30, 365)
    mean = years.tmin_c.mean(axis=0)
    assert max(mean[:30].mean(), mean[-30:].mean()) < mean[170:200].mean()
    assert (str(years.day(0)), str(years.day(364)), str(years.day(184, 2010))) == (
        "2001-07-01",
        "2002-06-30",
        "2011-01-01",
    )
    assert (years.column(date(2024, 7, 1)), years.column(date(2024, 2, 29))) == (0, 242)


def test_a_column_is_the_same_calendar_day_in_every_year() -> None:
    for south in (False, True):
        years = calendar_years(RECORD, last=None, south=south)
        for row, label in zip(years.tmin_c, years.labels, strict=True):
            dates = days_of(row)
            assert all(str(d)[5:] != "02-29" for d in dates)
            assert [str(d) for d in dates[[0, 100, 250, 364]]] == [
                str(years.day(column, label)) for column in (0, 100, 250, 364)
            ]


def test_calendar_years_stop_at_today_and_need_four() -> None:
    assert real_labels(calendar_years(RECORD, today=date(2000, 12, 30)))[-1] == 1999
    assert real_labels(calendar_years(RECORD, today=date(2000, 12, 31)))[-1] == 2000
    with pytest.raises(RecordError, match="3 complete years"):
        calendar_years(RECORD, today=date(1993, 6, 1))
