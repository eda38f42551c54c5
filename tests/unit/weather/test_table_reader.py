"""Tables from home stations: headings, units, dates, decimal signs, rows through the day, and bad files."""

from __future__ import annotations

import contextlib

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import InputFileError
from spadework.weather.read.columns import read_heading, split_title
from spadework.weather.read.detect import read_weather
from spadework.weather.read.result import ReadResult


def read(text: str | bytes, **hints: str) -> ReadResult:
    return read_weather(text.encode() if isinstance(text, str) else text, "home.csv", **hints)


@pytest.mark.parametrize(
    ("title", "words", "unit"),
    [
        ("Max Temp (°F)", ["max", "temp"], "f"),
        ("tmin_c", ["tmin"], "c"),
        ("Rain in", ["rain"], "in"),
        ("Précipitations [mm]", ["precipitations"], "mm"),
        ("Wind m/s", ["wind"], "m/s"),
        ("wind_m_s", ["wind"], "m/s"),
        ("Solar Rad (W/m²)", ["solar", "rad"], "w"),
        ("Humidity %", ["humidity"], "%"),
    ],
)
def test_a_heading_is_taken_apart(title: str, words: list[str], unit: str) -> None:
    assert split_title(title) == (words, unit)


@pytest.mark.parametrize(
    ("low", "high"),
    [
        ("tmin", "tmax"),
        ("Low", "High"),
        ("Min Temp", "Max Temp"),
        ("Minimum temperature", "Maximum temperature"),
        ("Temp. min.", "Temp. max."),
        ("MinTempC", "MaxTempC"),
        ("Lowest outdoor temperature", "Highest outdoor temperature"),
        ("Tn", "Tx"),
        ("Air temperature low", "Air temperature high"),
    ],
)
def test_many_wordings_are_understood(low: str, high: str) -> None:
    s = read(f"Date;{high};{low};Rain mm\n2021-05-01;14.2;3.5;0\n2021-05-02;15;4;1.2\n").series
    assert (s.tmin_c.tolist(), s.tmax_c.tolist(), s.rain_mm.tolist()) == ([3.5, 4], [14.2, 15], [0, 1.2])


@pytest.mark.parametrize(
    "title",
    [
        *(
            "Indoor max",
            "Max humidity",
            "Soil min",
            "Max gust",
            "Time of max temp",
            "Rain rate max",
            "Heat index max",
        ),
        *("Dew point min", "Max UV", "Pressure max", "Monthly rain", "Wind direction", "Rain rate", "Snow"),
    ],
)
def test_other_columns_are_not_mistaken(title: str) -> None:
    found = read_heading(["Date", title]).columns
    assert not {"tmin", "tmax", "rain", "temp"} & found.keys()


def test_fahrenheit_and_inches_from_the_heading() -> None:
    s = read("Date,Max (°F),Min (°F),rain in\n2021-05-01,68,50,0.1\n2021-05-02,77,41,T\n").series
    assert s.tmax_c.tolist() == pytest.approx([20, 25])
    assert s.tmin_c.tolist() == pytest.approx([10, 5])
    assert s.rain_mm.tolist() == pytest.approx([2.54, 0])


def test_units_from_the_cells_a_row_of_their_own_or_the_hints() -> None:
    cells = read("Date,High,Low,Rain\n2021-05-01,20 °C,10 °C,2 mm\n").series
    row = read("Date,High,Low,Rain\n,°C,°C,mm\n2021-05-01,20,10,2\n").series
    hints = read("Date,High,Low,Rain\n2021-05-01,68,50,0.2\n", temp_unit="f", rain_unit="cm").series
    for s in (cells, row, hints):
        assert (s.tmin_c[0], s.tmax_c[0], s.rain_mm[0]) == (
            pytest.approx(10),
            pytest.approx(20),
            pytest.approx(2),
        )


def test_units_that_nobody_gave_are_decided_and_said() -> None:
    hot = read("Date,High,Low,Rain\n2021-05-01,68,50,0.1\n")
    assert hot.series.tmax_c[0] == pytest.approx(20)
    assert any("no air reaches" in note for note in hot.notes)
    assert any("taken as in" in note for note in hot.notes)
    mild = read("Date,High,Low,Rain\n2021-05-01,20,10,0.1\n")
    assert mild.series.tmax_c[0] == 20
    assert any("taken as degC" in note for note in mild.notes)
    with pytest.raises(InputFileError, match="rain up to 60 without a unit"):
        read("Date,High,Low,Rain\n2021-05-01,70,50,60\n")


def test_decimal_comma_and_day_first() -> None:
    result = read("datum;Tmin;Tmax;Niederschlag (mm)\n13.05.2021;3,5;14,2;0,0\n14.05.2021;4,1;15,0;1.002,4\n")
    assert result.series.tmin_c.tolist() == [3.5, 4.1]
    assert result.series.rain_mm.tolist() == [0, 1002.4]


@pytest.mark.parametrize(
    "dates",
    [
        ["2021-05-01", "2021-05-02"],
        ["20210501", "20210502"],
        ["1 May 2021", "2 May 2021"],
        ["May 1, 2021", "May 2, 2021"],
        ["01-May-21", "02-May-21"],
        ["Sat 1 May 2021", "Sun 2 May 2021"],
        ["2021/5/1", "2021/5/2"],
        ["2021-05-01T00:00:00", "2021-05-02T00:00:00"],
    ],
)
def test_dates_as_people_write_them(dates: list[str]) -> None:
    s = read("Date;Min C;Max C\n" + "".join(f"{d};5;15\n" for d in dates)).series
    assert (str(s.start), s.days) == ("2021-05-01", 2)


def test_year_month_and_day_in_columns_of_their_own() -> None:
    s = read("Day Month Year Tmin(C) Tmax(C) Prcp(mm)\n1 3 1982 -21.5 3 0\n2 3 1982 -10 1 0.5\n").series
    assert (str(s.start), s.tmin_c.tolist()) == ("1982-03-01", [-21.5, -10])


def test_day_and_month_are_told_apart_or_asked_for() -> None:
    rows = "{};20;5\n{};21;6\n{};22;7\n"
    by_number = read("Date;Max C;Min C\n" + rows.format("12/05/2021", "13/05/2021", "14/05/2021"))
    by_order = read("Date;Max C;Min C\n" + rows.format("5/1/2021", "5/2/2021", "5/3/2021"))
    assert (str(by_number.series.start), str(by_order.series.start)) == ("2021-05-12", "2021-05-01")
    assert any("follow each other" in note for note in by_order.notes)
    unclear = "Date;Max C;Min C\n" + rows.format("5/1/2021", "6/2/2021", "7/3/2021")
    with pytest.raises(InputFileError, match="day/month or month/day"):
        read(unclear)
    assert str(read(unclear, date_order="dmy").series.start) == "2021-01-05"
    assert str(read(unclear, date_order="mdy").series.start) == "2021-05-01"


def test_a_row_that_breaks_the_order_of_the_others_is_a_fault() -> None:
    with pytest.raises(InputFileError, match=r"row 3, column 'Date': found '05/14/2021'"):
        read("Date;Max C;Min C\n13/05/2021;20;5\n05/14/2021;20;5\n")


def test_rows_through_the_day_become_one() -> None:
    rows = "".join(
        f"2021-05-0{d} {h:02d}:00,{10 + d + abs(12 - h)},80,0.1,99\n"
        for d in (1, 2, 3)
        for h in range(24)
        if d < 3 or h < 8
    )
    result = read("Time,Temperature (°C),Humidity (%),Rain (mm),Rain rate (mm/h)\n" + rows)
    s = result.series
    assert (str(s.start), s.days) == ("2021-05-01", 2)  # the third day is not whole
    assert (s.tmin_c.tolist(), s.tmax_c.tolist()) == ([11, 12], [23, 24])
    assert s.rain_mm.tolist() == pytest.approx([2.4, 2.4])
    assert s.rh_mean_pct is not None
    assert s.rh_mean_pct.tolist() == pytest.approx([80, 80])
    assert any("whole day" in note for note in result.notes)


def test_rain_that_counts_up_through_the_day_is_not_summed() -> None:
    rows = "".join(f"2021-05-01 {h:02d}:00,{10 + h},{h / 10}\n" for h in range(24))
    assert read("Timestamp,Outdoor temp C,Rain today mm\n" + rows).series.rain_mm[0] == pytest.approx(2.3)


def test_a_time_in_its_own_column_with_am_and_pm() -> None:
    rows = "".join(
        f"2021-05-01,{h}:00 {half},{t}\n" for t, (h, half) in enumerate([(12, "AM"), (6, "AM"), (6, "PM")])
    )
    s = read("Date,Time,Temp C\n" + rows).series
    assert (s.days, s.tmin_c[0], s.tmax_c[0]) == (1, 0, 2)


def test_signs_for_a_missing_value_and_lines_above_the_heading() -> None:
    text = "My station\nexported 2021\n\nDate\tLow C\tHigh C\tRain mm\n2021-05-01\t--\t15\tn/a\n"
    s = read(text + "2021-05-02\t4\t\t0\n" + "2021-05-03\t4\t16\t0\n").series
    assert np.isnan(s.tmin_c).tolist() == [True, False, False]
    assert np.isnan(s.tmax_c).tolist() == [False, True, False]
    assert np.isnan(s.rain_mm).tolist() == [True, False, False]


def test_days_left_out_are_missing_and_order_does_not_matter() -> None:
    result = read("Date,Low C,High C\n2021-05-04,4,14\n2021-05-01,1,11\n")
    assert np.isnan(result.series.tmin_c).tolist() == [False, True, True, False]
    assert any("sorted" in note for note in result.notes)


def test_crossed_days_are_set_missing_and_said() -> None:
    rows = "".join(f"2021-05-{d:02d},{20 if d == 3 else d % 4},{10 + d % 3}\n" for d in range(1, 9))
    result = read("Date,Low C,High C\n" + rows)
    assert np.isnan(result.series.tmin_c[2])
    assert np.isnan(result.series.tmax_c[2])
    assert "1 days had a minimum above the maximum; both were set missing." in result.notes


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "cp1252"])
def test_encodings(encoding: str) -> None:
    result = read("Date;Max °C;Min °C;Kälte\n2021-05-01;15;5;x\n".encode(encoding))
    assert result.series.tmax_c[0] == 15


def test_quoted_cells_and_thousands() -> None:
    s = read('"Date","High C","Low C"\n"May 1, 2021","15.5","5"\n').series
    assert s.tmax_c[0] == 15.5


def test_two_columns_for_one_thing_need_a_choice() -> None:
    text = "Date,Low,Min,High\n2021-05-01,5,6,10\n"
    with pytest.raises(InputFileError, match="'Low' and 'Min'"):
        read(text)
    assert read(text, tmin="Min").series.tmin_c[0] == 6
    with pytest.raises(InputFileError, match="no column 'Minn'"):
        read(text, tmin="Minn")


BAD: dict[str, tuple[str | bytes, str]] = {
    "empty": (b"", "an empty file"),
    "blank": (b" \n\n\t\n", "an empty file"),
    "byte order mark only": (b"\xef\xbb\xbf", "an empty file"),
    "picture": (b"\x89PNG\r\n\x1a\n" + bytes(99), "a picture"),
    "spreadsheet": (b"PK\x03\x04" + bytes(99), "a spreadsheet"),
    "broken gzip": (b"\x1f\x8b\x08junk", "damaged gzip"),
    "binary": (bytes(range(256)) * 9, "bytes that are not text"),
    "prose": ("This is a letter about the weather.\nIt was fine.\n", "a row that names the columns"),
    "one word": ("hello", "columns parted by"),
    "no heading": ("2021-05-01,5,15,0\n2021-05-02,5,15,0\n", "a row that names the columns"),
    "heading only": ("date,tmin,tmax,rain\n", "no row of data"),
    "no dates": ("tmin,tmax\n1,2\n", "a row that names the columns"),
    "month 13": ("date,tmin,tmax\n2021-13-01,1,2\n", r"row 2, column 'date': found '2021-13-01'"),
    "30 February": ("date,tmin,tmax\n2021-02-30,1,2\n", r"found '2021-02-30'"),
    "no number": ("date,tmin,tmax\n2021-01-01,1,warm\n", r"row 2, column 'tmax': found 'warm'"),
    "wrong unit": ("date,tmin,tmax\n2021-01-01,1,2 mm\n", r"row 2, column 'tmax': found '2 mm'"),
    "cut row": ("date,tmin,tmax,rain\n2021-01-01,1,2,0\n2021-01-02,1\n", r"row 3: found 2 cells"),
    "long row": ("date,tmin,tmax\n2021-01-01,1,2\n2021-01-02,1,2,3\n", r"row 3: found 4 cells"),
    "day twice": (
        "date,tmin,tmax\n2021-01-01,1,2\n2021-01-01,1,2\n",
        r"row 3: found 2021-01-01 again, first in row 2",
    ),
    "exchanged": (
        "date,tmin,tmax\n" + "".join(f"2021-01-0{d},9,{d}\n" for d in range(1, 6)),
        "probably exchanged",
    ),
    "only means": ("date,temperature\n2021-01-01,5\n2021-01-02,6\n", "with one row a day"),
    "nothing in it": ("date,tmin,tmax\n2021-01-01,,\n", "no usable daily temperature"),
    "slip in the year": (
        "date,tmin,tmax\n" + "".join(f"2021-01-{d:02d},1,{d}\n" for d in range(1, 20)) + "1821-01-20,1,2\n",
        "row 21: found 1821-01-20, ten years or more",
    ),
    "unclosed quote": ('date,tmin,tmax\n"2021-01-01,1,2\n', "row"),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_file_is_refused_whole_and_in_words(name: str) -> None:
    data, message = BAD[name]
    with pytest.raises(InputFileError, match=message) as caught:
        read(data)
    assert all(f.where and f.found and f.allowed and f.do for f in caught.value.faults)


def test_every_fault_is_told_in_file_order() -> None:
    with pytest.raises(InputFileError) as caught:
        read(
            "date,tmin,tmax\n2021-01-01,1,2\n2021-13-01,1,2\n2021-01-03,x1,2\n2021-01-04,1\n2021-01-05,1,y\n"
        )
    assert [fault.where.split(",")[0] for fault in caught.value.faults] == [
        "row 3",
        "row 4",
        "row 5",
        "row 6",
    ]


def test_a_missing_file_and_a_folder_are_plain_refusals(tmp_path: object) -> None:
    with pytest.raises(InputFileError, match="no such file"):
        read_weather(f"{tmp_path}/none.csv")
    with pytest.raises(InputFileError, match="a folder"):
        read_weather(f"{tmp_path}")


@given(st.binary(max_size=400))
def test_no_bytes_whatever_raise_anything_else(data: bytes) -> None:
    with contextlib.suppress(InputFileError):
        read(data)


@given(st.text(alphabet='0123456789-/.,;:\t\n" datemixrnCF°', max_size=300))
def test_no_near_table_raises_anything_else(text: str) -> None:
    with contextlib.suppress(InputFileError):
        read("date,tmin,tmax,rain\n" + text)


numbers = st.integers(-300, 400).map(lambda n: n / 10)


@given(
    st.lists(st.tuples(numbers, st.integers(1, 150), st.integers(0, 500)), min_size=15, max_size=60),
    st.sampled_from([(",", "."), (";", ","), ("\t", "."), ("\t", ","), (";", ".")]),
    st.sampled_from(["{2:04d}-{1:02d}-{0:02d}", "{0:02d}/{1:02d}/{2}", "{0}.{1}.{2}", "{1:02d}/{0:02d}/{2}"]),
)
def test_a_table_written_any_way_reads_the_same(
    rows: list[tuple[float, int, int]], signs: tuple[str, str], dates: str
) -> None:
    separator, decimal = signs
    days = np.datetime64("2021-03-01") + np.arange(len(rows))
    lines = [separator.join(["Date", "Low (C)", "High (C)", "Rain (mm)"])]
    for day, (low, more, rain) in zip(days, rows, strict=True):
        year, month, number = (int(part) for part in str(day).split("-"))
        cells = [f"{value:.1f}".replace(".", decimal) for value in (low, low + more / 10, rain / 10)]
        lines.append(separator.join([dates.format(number, month, year), *cells]))
    s = read("\n".join(lines)).series
    kept = s.measured_days()
    low = np.array([row[0] for row in rows])
    assert str(s.start) == "2021-03-01"
    assert np.abs(s.tmin_c - low)[kept].max() < 1e-9
    assert np.abs(s.rain_mm - np.array([row[2] / 10 for row in rows])).max() < 1e-9
