"""The network's formats: what is read, what is flagged, what is refused."""

from __future__ import annotations

import gzip
import time
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ghcn_fixture import (
    CHAMPION,
    CORDOBA,
    by_station_csv_text,
    champion_series,
    cordoba_series,
    daily_summaries_csv_text,
    dly_text,
)
from spadework.errors import InputFileError, ParameterError
from spadework.weather.read.detect import read_weather
from spadework.weather.read.ghcn_dly import read_dly
from spadework.weather.series import Series

WRITERS = [dly_text, by_station_csv_text, daily_summaries_csv_text]
FLAGS = {("TMAX", "1990-07-04"): "I", ("PRCP", "1991-05-01"): "G", ("TMAX", "1992-07-04"): "I"}


def short(days: int = 400) -> Series:
    s = champion_series()
    return s.between(np.datetime64("1990-01-01"), np.datetime64("1990-01-01") + days - 1)


@pytest.mark.parametrize("writer", WRITERS)
@pytest.mark.parametrize(("station", "record"), [(CHAMPION, champion_series), (CORDOBA, cordoba_series)])
def test_what_is_written_is_read_back(
    writer: Callable[[str, Series], str], station: str, record: Callable[[], Series]
) -> None:
    s = record()
    read = read_weather(writer(station, s).encode(), "file")
    assert (read.station, read.series.start, read.series.end) == (station, s.start, s.end)
    kept = read.series.measured_days()
    # A real record may hold a stuck stretch; everything else is there to the tenth the format has.
    assert (~kept).sum() == sum(f.days - 1 for f in read.findings if f.kind == "stuck")
    assert np.abs(read.series.tmin_c - s.tmin_c)[kept].max() <= 0.0500001
    assert np.abs(read.series.tmax_c - s.tmax_c)[kept].max() <= 0.0500001
    assert np.abs(read.series.rain_mm - s.rain_mm).max() <= 0.0500001


@pytest.mark.parametrize("writer", WRITERS)
def test_a_flagged_value_is_missing_and_counted(writer: Callable[..., str]) -> None:
    s = champion_series()
    read = read_weather(writer(CHAMPION, s, FLAGS).encode(), "file")
    assert dict(read.flagged) == {"I": 2, "G": 1}
    assert np.isnan(read.series.tmax_c[s.index_of(np.datetime64("1990-07-04"))])
    assert not np.isnan(read.series.tmin_c[s.index_of(np.datetime64("1990-07-04"))])
    assert np.isnan(read.series.rain_mm[s.index_of(np.datetime64("1991-05-01"))])


def test_the_stuck_days_of_a_real_record_are_found() -> None:
    """Champion 1982: six days running at -27.2 and -16.1 C, as no weather does."""
    read = read_weather(dly_text(CHAMPION, champion_series()).encode(), "c.dly")
    stuck = [f for f in read.findings if f.kind == "stuck"]
    assert [(str(f.first_day), f.days) for f in stuck] == [("1982-02-05", 6)]
    assert read.missing["tmin_c"] == 5


def test_day_summaries_tell_the_place_and_find_their_units() -> None:
    s = champion_series()
    tenths = read_weather(daily_summaries_csv_text(CHAMPION, s).encode(), "f")
    assert (tenths.lat_deg, tenths.lon_deg, tenths.elevation_m) == (40.47, -101.75, 1000.0)
    for units, size, rain in (("metric", 0.0500001, 0.0500001), ("us", 0.278, 0.1270001)):
        read = read_weather(daily_summaries_csv_text(CHAMPION, s, units=units).encode(), "f")
        assert np.nanmax(np.abs(read.series.tmax_c - s.tmax_c)) <= size
        assert np.nanmax(np.abs(read.series.rain_mm - s.rain_mm)) <= rain
        told = read_weather(daily_summaries_csv_text(CHAMPION, s, units=units).encode(), "f", units=units)
        assert np.array_equal(told.series.tmax_c, read.series.tmax_c, equal_nan=True)


def test_units_that_cannot_be_told_are_asked_for() -> None:
    text = '"STATION","DATE","TMAX","TMIN"\n' + "".join(
        f'"X","2020-01-{d:02d}","{40 + d}","30"\n' for d in range(1, 20)
    )
    with pytest.raises(InputFileError, match='Say units="tenths"'):
        read_weather(text.encode(), "f")
    assert read_weather(text.encode(), "f", units="us").series.tmax_c[0] == pytest.approx((41 - 32) / 1.8)


def test_long_csv_reads_with_and_without_a_heading_and_gzipped() -> None:
    s = short()
    plain = read_weather(by_station_csv_text(CHAMPION, s, heading=False).encode(), "f.csv")
    packed = read_weather(gzip.compress(by_station_csv_text(CHAMPION, s).encode()), "f.csv.gz")
    assert np.array_equal(plain.series.tmin_c, packed.series.tmin_c)


@pytest.mark.parametrize("writer", [by_station_csv_text, daily_summaries_csv_text])
def test_several_stations_need_a_choice(writer: Callable[..., str]) -> None:
    s = short(20)
    both = writer(CHAMPION, s) + "".join(writer(CORDOBA, s).splitlines(keepends=True)[1:])
    with pytest.raises(InputFileError, match="2 stations"):
        read_weather(both.encode(), "f", units="tenths")
    assert read_weather(both.encode(), "f", station=CORDOBA, units="tenths").station == CORDOBA
    with pytest.raises(InputFileError, match="no row of USC00999999"):
        read_weather(both.encode(), "f", station="USC00999999")


def test_carriage_returns_and_trimmed_blanks_are_read() -> None:
    text = dly_text(CHAMPION, short())
    whole = read_weather(text.encode(), "f").series
    crlf = read_weather(text.replace("\n", "\r\n").encode(), "f").series
    trimmed = "".join(line.rstrip() + "\n" for line in text.splitlines())
    cut = read_weather(trimmed.encode(), "f").series
    assert np.array_equal(whole.tmin_c, crlf.tmin_c)
    assert np.array_equal(whole.tmin_c, cut.tmin_c)


def test_wind_humidity_and_dew_point_come_along_and_others_are_named() -> None:
    text = dly_text(CHAMPION, short(31))
    first = text.splitlines()[0]
    more = "\n".join(first[:17] + code + first[21:] for code in ("AWND", "RHAV", "ADPT", "SNWD")) + "\n"
    read = read_weather((text + more).encode(), "f")
    assert read.series.wind_m_s is not None
    assert read.series.rh_mean_pct is not None
    assert read.series.tdew_c is not None
    assert any("SNWD" in note for note in read.notes)


def _change(line: int, start: int, new: str) -> Callable[[str], str]:
    def change(text: str) -> str:
        lines = text.splitlines()
        old = lines[line]
        lines[line] = old[:start] + new + old[start + len(new) :]
        return "\n".join(lines) + "\n"

    return change


BAD_DLY: dict[str, tuple[Callable[[str], str], str]] = {
    "month 13": (_change(4, 15, "13"), r"line 5, columns 16-17 \(month\): found '13'"),
    "month of letters": (_change(4, 15, "ab"), r"line 5, columns 16-17"),
    "year 0000": (_change(0, 11, "0000"), r"line 1, columns 12-15"),
    "value of letters": (_change(2, 21, "  12x"), r"line 3, columns 22-26 \(day 1\): found '  12x'"),
    "blank inside": (_change(2, 21, "1 2 3"), r"line 3, columns 22-26"),
    "two minus": (_change(2, 29, " --12"), r"line 3, columns 30-34 \(day 2\)"),
    "31 February": (_change(3, 21 + 30 * 8, "   55"), r"line 4, day 31: found the value 55"),
    "cut line": (lambda t: "\n".join([*t.splitlines()[:5], t.splitlines()[5][:101]]), r"line 6, column 102"),
    "empty line": (lambda t: t.replace("\n", "\n\n", 1), r"line 2: found an empty line"),
    "line twice": (lambda t: t + t.splitlines()[0] + "\n", r"TMAX of 1990-01 again, first in line 1"),
    "two stations": (_change(1, 0, CORDOBA), r"2 stations"),
    "no element of ours": (
        lambda t: "".join(x[:17] + "SNOW" + x[21:] + "\n" for x in t.splitlines()),
        "only SNOW",
    ),
}


@pytest.mark.parametrize("name", BAD_DLY)
def test_a_damaged_station_file_is_refused_with_the_place(name: str) -> None:
    change, message = BAD_DLY[name]
    with pytest.raises(InputFileError, match=message) as caught:
        read_weather(change(dly_text(CHAMPION, short(60))).encode(), "bad.dly")
    assert str(caught.value).startswith("bad.dly was not taken; nothing was changed.")


def test_all_faults_are_told_at_once() -> None:
    text = _change(4, 15, "13")(_change(1, 15, "00")(dly_text(CHAMPION, short(60))))
    with pytest.raises(InputFileError) as caught:
        read_weather(text.encode(), "f")
    assert len(caught.value.faults) == 2


BAD_CSV = {
    "cut row": ("{0}USC00251450,19900301,TMAX", "fields"),
    "no such day": ("{0}USC00251450,19900231,TMAX,10,,,7,\n", "column DATE: found '19900231'"),
    "no number": ("{0}USC00251450,19900301,TMAX,ab,,,7,\n", "column TMAX: found 'ab'"),
    "day again": ("{0}USC00251450,19900101,TMAX,10,,,7,\n", "19900101 again"),
}


@pytest.mark.parametrize("name", BAD_CSV)
def test_a_damaged_long_csv_is_refused_with_the_row(name: str) -> None:
    addition, message = BAD_CSV[name]
    with pytest.raises(InputFileError, match=message):
        read_weather(addition.format(by_station_csv_text(CHAMPION, short(31))).encode(), "f")


def test_a_cut_row_of_day_summaries_is_refused() -> None:
    text = daily_summaries_csv_text(CHAMPION, short(31)) + '"USC00251450","1990-03-01"\n'
    with pytest.raises(InputFileError, match="row 33: found 2 fields"):
        read_weather(text.encode(), "f", units="tenths")


def test_unknown_hints_are_refused() -> None:
    with pytest.raises(ParameterError, match="colour"):
        read_weather(b"x", "f", colour="red")
    with pytest.raises(ParameterError, match="temp_unit is 'kelvin'"):
        read_weather(b"x", "f", temp_unit="kelvin")


def test_a_hundred_years_are_read_in_well_under_a_tenth_of_a_second() -> None:
    lines = dly_text(CHAMPION, champion_series()).splitlines()
    # 36 years moved back by 36 and 72 keep their leap years.
    years = [
        line[:11] + str(int(line[11:15]) - back) + line[15:]
        for back in (0, 36, 72)
        for line in lines
        if int(line[11:15]) < 2018
    ]
    data = (
        "\n".join([*years, *(x[:17] + "SNOW" + x[21:] for x in years if x[17:21] == "PRCP")]) + "\n"
    ).encode()
    read_dly(data, "warm")
    spent = []
    for _ in range(3):
        begin = time.process_time()
        parsed = read_dly(data, "f")
        spent.append(time.process_time() - begin)
    assert parsed.series.days > 39_000
    assert min(spent) < 0.1


values = st.lists(st.one_of(st.none(), st.integers(-890, 560)), min_size=1, max_size=90)


@given(values, st.integers(0, 20000))
def test_any_tenths_survive_the_format(tenths: list[int | None], shift: int) -> None:
    low = np.array([np.nan if t is None else t / 10 for t in tenths])
    if np.isnan(low).all():
        return
    start = np.datetime64("1930-01-01") + shift
    s = Series(start=start, tmin_c=low, tmax_c=low, rain_mm=np.abs(low))
    back = read_dly(dly_text(CHAMPION, s).encode(), "f").series
    at = s.index_of(back.start)
    assert np.array_equal(back.tmin_c, low[at : at + back.days], equal_nan=True)
    assert np.isnan(low[:at]).all()
    assert np.isnan(low[at + back.days :]).all()
