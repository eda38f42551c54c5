"""Monthly normals as people write them."""

from __future__ import annotations

import pytest

from spadework.errors import InputFileError, ParameterError
from spadework.weather.read.normals_table import Quantity, read_normals_table, read_row

TWELVE = tuple(float(n) for n in range(1, 13))


@pytest.mark.parametrize(
    "text",
    [
        "1 2 3 4 5 6 7 8 9 10 11 12",
        "1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12",
        "1,2,3,4,5,6,7,8,9,10,11,12",
        "1;2;3;4;5;6;7;8;9;10;11;12",
        "1,0 2,0 3,0 4,0 5,0 6,0 7,0 8,0 9,0 10,0 11,0 12,0",
        "1,0; 2,0; 3,0; 4,0; 5,0; 6,0; 7,0; 8,0; 9,0; 10,0; 11,0; 12,0",
        "1 2 3 4 5 6 7 8 9 10 11 12 °C",
        "1C 2C 3C 4C 5C 6C 7C 8C 9C 10C 11C 12C",
    ],
)
def test_a_row_in_many_hands(text: str) -> None:
    assert read_row(text, "--tmin", "temperature") == TWELVE


def test_a_row_in_other_units() -> None:
    assert read_row(" ".join(["14"] * 12) + " F", "--tmin", "temperature") == (-10.0,) * 12
    assert read_row(" ".join(["14F"] * 12), "--tmin", "temperature") == (-10.0,) * 12
    assert read_row(" ".join(["2.5"] * 12) + " in", "--rain", "rain") == (63.5,) * 12
    assert read_row(" ".join(["2.5"] * 12) + " cm", "--rain", "rain") == (25.0,) * 12
    assert read_row("−1 " * 12, "--tmin", "temperature") == (-1.0,) * 12


@pytest.mark.parametrize(
    ("text", "quantity", "message"),
    [
        ("1 2 3", "temperature", "--row has 3 numbers"),
        ("", "temperature", "--row has 0 numbers"),
        ("1 " * 13, "temperature", "--row has 13 numbers"),
        ("1 " * 11 + "warm", "temperature", "'warm' is not a number"),
        ("1 " * 11 + "90", "temperature", "--row of Dec is 90 °C.*-70 to 55"),
        ("1 " * 12 + "in", "temperature", "given in 'in'.*c, f"),
        ("-1 " * 12, "rain", "--row of Jan is -1 mm"),
        ("40 " * 12, "days", "--row of Jan is 40 days"),
        ("1F " * 6 + "1C " * 6, "temperature", "mixes c and f"),
    ],
)
def test_rows_that_cannot_be(text: str, quantity: Quantity, message: str) -> None:
    with pytest.raises(ParameterError, match=message):
        read_row(text, "--row", quantity)


HEAD = "month,tmin,tmax,rain,wet days"
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "June", "July", "Aug", "Sept", "Oct", "Nov", "Dec")


def rows(head: str = HEAD, **changes: str) -> bytes:
    lines = [f"{month},{n},{n + 8},{50 + n},{n}" for n, month in enumerate(MONTHS, start=1)]
    lines = [changes.get(line.split(",")[0], line) for line in lines]
    return "\n".join([head, *lines]).encode()


def test_a_table() -> None:
    read = read_normals_table(rows(), "normals.csv")
    assert read.tmin_c == TWELVE
    assert read.tmax_c == tuple(n + 8 for n in TWELVE)
    assert read.rain_mm == tuple(n + 50 for n in TWELVE)
    assert read.wet_days == TWELVE


@pytest.mark.parametrize(
    "head",
    [
        "month,low (°F),high (°F),rainfall (in),rain days",
        "Month,tmin_f,tmax_f,rain_in,wet_days",
        "month,Min [F],Max [F],Precipitation [inch],wet",
    ],
)
def test_a_table_in_other_units(head: str) -> None:
    read = read_normals_table(rows(head), "normals.csv")
    assert read.tmin_c[0] == pytest.approx(-17.222, abs=0.001)
    assert read.rain_mm[0] == pytest.approx(51 * 25.4)


def test_a_table_without_wet_days_and_with_semicolons() -> None:
    content = rows("month,night,day,rain,notes").replace(b",", b";")
    assert read_normals_table(content, "normals.csv").wet_days is None


@pytest.mark.parametrize(
    ("content", "messages"),
    [
        (b"", ["found nothing"]),
        (rows("month,tmin,rain"), ["heading, tmax: found no such column"]),
        (rows("month,tmin,min,tmax,rain"), ["heading, tmin: found twice"]),
        (b"\n".join(rows().splitlines()[:9]), ["found 8 rows; allowed: twelve"]),
        (
            rows(Mar="Mar,x,11,53,3", May="May,5,99,55,5"),
            ["row 4, column 'tmin': found 'x'", "row 6, column 'tmax': found '99'"],
        ),
        (rows(Mar="Apr,3,11,53,3"), ["row 4, column 'month': found 'apr'; allowed: Mar"]),
        (rows("month,tmin (mm),tmax,rain,wet days"), ["heading, tmin: found 'mm'; allowed: c, f"]),
    ],
)
def test_a_faulty_table_is_refused_whole(content: bytes, messages: list[str]) -> None:
    with pytest.raises(InputFileError) as error:
        read_normals_table(content, "normals.csv")
    for message in messages:
        assert message in str(error.value)
