"""Series: shape, cutting, joining."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import ParameterError, RecordError
from spadework.weather.series import Series, merge


def series(start: str, tmin: list[float], station: str = "", source: str = "a", **more: object) -> Series:
    low = np.array(tmin, dtype=float)
    return Series(
        start=np.datetime64(start), tmin_c=low, tmax_c=low + 10, rain_mm=np.zeros(low.size), station=station,
        source=source, **more,  # type: ignore[arg-type]
    )  # fmt: skip


def test_a_series_knows_its_days() -> None:
    s = series("2020-02-28", [1, 2, 3])
    assert (s.days, str(s.end), [str(d) for d in s.dates][1]) == (3, "2020-03-01", "2020-02-29")
    assert s.index_of(date(2020, 3, 1)) == 2


def test_its_arrays_cannot_be_changed_but_the_callers_can() -> None:
    own = np.array([1.0, 2.0])
    s = Series(start=np.datetime64("2020-01-01"), tmin_c=own, tmax_c=own + 5, rain_mm=own * 0)
    with pytest.raises(ValueError, match="read-only"):
        s.tmin_c[0] = 9
    own[0] = 3.0


@pytest.mark.parametrize("tmax", [[1.0], [1.0, 2.0, 3.0], [[1.0, 2.0]]])
def test_arrays_of_other_lengths_are_refused(tmax: list[float]) -> None:
    with pytest.raises(ParameterError, match="tmax_c has shape"):
        Series(
            start=np.datetime64("2020-01-01"), tmin_c=np.zeros(2), tmax_c=np.array(tmax), rain_mm=np.zeros(2)
        )


def test_an_unknown_filled_element_is_refused() -> None:
    with pytest.raises(ParameterError, match="hail"):
        series("2020-01-01", [1.0], filled={"hail": np.array([True])})


def test_between_cuts_to_what_there_is_and_refuses_nothing() -> None:
    s = series("2020-01-01", [1, 2, 3, 4], filled={"tmin_c": np.array([False, True, False, False])})
    part = s.between(date(2020, 1, 2), date(2020, 2, 1))
    assert part.tmin_c.tolist() == [2, 3, 4]
    assert part.filled["tmin_c"].tolist() == [True, False, False]
    with pytest.raises(RecordError, match="No weather between"):
        s.between(date(2021, 1, 1), date(2021, 2, 1))


def test_newer_numbers_win_and_are_counted() -> None:
    merged = merge(series("2020-01-01", [1, 2, 3], source="old"), series("2020-01-03", [9, 4], source="new"))
    assert merged.series.tmin_c.tolist() == [1, 2, 9, 4]
    assert (merged.added_days, merged.changed_days, merged.same_days) == (1, 1, 0)
    assert [merged.series.source_names[i] for i in merged.series.source_index] == ["old", "old", "new", "new"]  # type: ignore[union-attr]
    assert "1 days added" in merged.text


def test_an_older_number_stays_where_the_newer_file_has_none() -> None:
    merged = merge(series("2020-01-01", [1, 2, 3]), series("2020-01-01", [1, np.nan, 5], source="b"))
    assert merged.series.tmin_c.tolist() == [1, 2, 5]
    assert merged.kept_values == 2  # minimum and maximum of the second day
    assert merged.withdrawn_values == 0


def test_a_number_the_same_station_no_longer_gives_is_taken_out() -> None:
    source = "GHCN-Daily station X1 (f)"
    old = series("2020-01-01", [1, 2, 3], station="X1", source=source)
    merged = merge(old, series("2020-01-01", [1, np.nan, 3], station="X1", source=source))
    assert np.isnan(merged.series.tmin_c[1])
    assert (merged.withdrawn_values, merged.changed_days, merged.same_days) == (2, 1, 2)


def test_days_from_elsewhere_are_not_withdrawn_by_a_station() -> None:
    own = "GHCN-Daily station X1 (f)"
    first = merge(
        series("2020-01-01", [1, np.nan, 3], station="X1", source=own),
        series("2020-01-02", [7], source="home"),
    )
    again = merge(first.series, series("2020-01-01", [1, np.nan, 3], station="X1", source=own))
    assert again.series.tmin_c.tolist() == [1, 7, 3]


def test_a_filled_number_never_replaces_a_measured_one() -> None:
    old = series("2020-01-01", [1, 2, 3])
    new = series(
        "2020-01-01", [1, 8, 3], filled={n: np.array([False, True, False]) for n in ("tmin_c", "tmax_c")}
    )
    assert merge(old, new).series.tmin_c.tolist() == [1, 2, 3]


def test_a_gap_between_two_files_is_missing_days() -> None:
    merged = merge(series("2020-01-01", [1]), series("2020-01-04", [4], source="b"))
    assert np.isnan(merged.series.tmin_c).tolist() == [False, True, True, False]


numbers = st.lists(st.one_of(st.floats(-40, 40), st.just(np.nan)), min_size=1, max_size=30)


@given(numbers, numbers, st.integers(-40, 40))
def test_a_merge_loses_no_day_and_invents_none(a: list[float], b: list[float], shift: int) -> None:
    old = series("2020-03-01", a)
    new = series(str(np.datetime64("2020-03-01") + shift), b, source="b")
    joined = merge(old, new).series
    for s in (new, old):
        at = slice(joined.index_of(s.start), joined.index_of(s.start) + s.days)
        assert (~np.isnan(joined.tmin_c[at]) | np.isnan(s.tmin_c)).all()
    known = {x for x in [*a, *b] if x == x}
    assert {float(x) for x in joined.tmin_c if x == x} <= known
    assert merge(joined, new).changed_days == 0


@given(numbers)
def test_taking_out_what_was_filled_gives_back_the_gaps(values: list[float]) -> None:
    gaps = np.isnan(values)
    s = series("2020-01-01", np.nan_to_num(values).tolist(), filled={"tmin_c": gaps})
    assert (np.isnan(s.unfilled().tmin_c) == gaps).all()
