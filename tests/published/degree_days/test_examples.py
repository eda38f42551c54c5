"""Degree-days against worked days of extension services and journals, row by row."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Any, cast

import numpy as np
import pytest

from long_records import climate
from spadework.science.degree_days import Cutoff, Method, degree_days
from spadework.units import c_from_f, cdelta_from_f, fdelta_from_c

with (Path(__file__).parent / "examples.csv").open(newline="", encoding="utf-8") as _file:
    ROWS = list(csv.DictReader(_file))


def _celsius(text: str, unit: str) -> float:
    return float(c_from_f(float(text))) if unit == "F" else float(text)


def _in_unit(warmth: Any, unit: str) -> Any:
    return fdelta_from_c(warmth) if unit == "F" else warmth


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "day"], ids=lambda r: r["case"])
def test_worked_day(row: dict[str, str]) -> None:
    unit = row["unit"]
    if row["tmin"]:
        tmin, tmax = _celsius(row["tmin"], unit), _celsius(row["tmax"], unit)
    else:  # given as a daily mean of 64 F
        tmin = tmax = _celsius("64", unit)
    got = degree_days(
        tmin,
        tmax,
        _celsius(row["lower"], unit),
        _celsius(row["upper"], unit) if row["upper"] else None,
        cast(Method, row["method"]),
        cast(Cutoff, row["cutoff"]),
        _celsius(row["tmin_next"], unit) if row["tmin_next"] else None,
    )
    assert float(_in_unit(got, unit)) == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "unit conversion"], ids=lambda r: r["case"])
def test_conversion(row: dict[str, str]) -> None:
    assert cdelta_from_f(float(row["tmin"])) == pytest.approx(
        float(row["expected"]), abs=float(row["tolerance"])
    )


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "seven-day sum"], ids=lambda r: r["case"])
def test_week(row: dict[str, str]) -> None:
    days = np.array([[float(part) for part in day.split("/")] for day in row["tmin"].split(";")])
    got = degree_days(days[:, 0], days[:, 1], float(row["lower"]), None, cast(Method, row["method"])).sum()
    assert got == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


def test_every_row_is_read() -> None:
    assert len(ROWS) == 132
    assert {r["kind"] for r in ROWS} == {"day", "unit conversion", "seven-day sum"}


CHECKS = {
    (7, 14): (0.468, 0.286, 0.468, 0.468),
    (13, 14): (1.5, 1.5, 1.5, 1.5),
    (35, 40): (21.0, 21.0, 0.0, 16.5),
    (13, 40): (12.944, 13.593, 5.802, 11.389),
    (7, 40): (10.94, 11.136, 4.541, 9.54),
    (7, 20): (2.874, 2.462, 2.874, 2.874),
}


@pytest.mark.parametrize(("day", "expected"), CHECKS.items())
def test_thresholds_12_and_33(day: tuple[float, float], expected: tuple[float, ...]) -> None:
    asked: list[tuple[Method, Cutoff]] = [
        ("single-sine", "horizontal"),
        ("single-triangle", "horizontal"),
        ("single-sine", "vertical"),
        ("single-sine", "intermediate"),
    ]
    got = [float(degree_days(*day, 12, 33, method, cutoff)) for method, cutoff in asked]
    assert got == pytest.approx(expected, abs=0.0005)


def test_near_the_threshold_methods_part() -> None:
    assert float(degree_days(2, 18, 10, method="average")) == 0.0
    assert float(degree_days(2, 18, 10, method="modified-average")) == 4.0
    assert float(degree_days(2, 18, 10)) == pytest.approx(2.546, abs=0.0005)


def _days_to(year: int, method: Method) -> int:
    record = climate("champion")
    begin = int(np.flatnonzero((record["year"] == year) & (record["month"] == 5) & (record["day"] == 15))[0])
    season = slice(begin, begin + 200)
    cutoff: Cutoff = "none" if method == "average" else "horizontal"
    warmth = degree_days(record["tmin_c"][season], record["tmax_c"][season], 10, 32, method, cutoff)
    return int(np.searchsorted(np.cumsum(warmth), 700.0))


def test_maturity_in_nebraska() -> None:
    """Days from 15 May to 700 degree-days above 10 C at Champion: computed, on the open record."""
    assert _days_to(1995, "single-sine") == 78
    assert _days_to(1995, "average") == 79
    assert _days_to(1992, "single-sine") == 76
