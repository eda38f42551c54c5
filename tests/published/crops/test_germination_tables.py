"""The sheets' own emergence parameters against the published tables of days and percent.

Source: Harrington, J.F. & Minges, P.A. (1954), Vegetable Seed Germination, table of days (UCSC_KNOTT97) and
table of percent normal seedlings (HDF). Days are printed as whole days, so half a day is rounding.
"""

from __future__ import annotations

import csv
from pathlib import Path
from statistics import median

import pytest

from spadework.crops import find, load_sheet
from spadework.science.emergence import EmergenceLaw, emergence_at

TABLES = Path(__file__).parents[1] / "germination"


def law(crop: str) -> EmergenceLaw:
    return load_sheet(crop).emergence.law()


def rows(table: str, source: str) -> list[dict[str, str]]:
    with (TABLES / table).open(encoding="utf-8") as file:
        return [row for row in csv.DictReader(file) if row["source_id"] == source]


DAYS = rows("days.csv", "UCSC_KNOTT97")
PERCENT = rows("percent.csv", "HDF")
CROPS = sorted({row["crop"] for row in DAYS})


def day_errors(crop: str) -> list[float]:
    """Relative errors of days at and below the optimum, where the table has a figure."""
    found = []
    for row in DAYS:
        if row["crop"] == crop and row["days"] and float(row["temp_c"]) <= law(crop).optimum_c + 0.5:
            days = emergence_at(float(row["temp_c"]), law(crop)).median_days
            found.append(abs(days / float(row["days"]) - 1) if days else 1.0)
    return found


def percent_errors(crop: str) -> list[float]:
    """Errors in points wherever the days table says the temperature was tried.

    The percent table prints 0 for temperatures that its companion marks as never tested; those say nothing.
    """
    untested = {(row["crop"], row["temp_c"]) for row in DAYS if row["status"] == "untested"}
    found = []
    for row in PERCENT:
        known = row["pct_normal"] and (row["crop"], row["temp_c"]) not in untested
        if row["crop"] == crop and known:
            percent = emergence_at(float(row["temp_c"]), law(crop)).normal_pct
            found.append(abs(percent - float(row["pct_normal"])))
    return found


def test_the_tables_hold_eighteen_crops() -> None:
    assert len(CROPS) == 18
    assert {row["crop"] for row in PERCENT} == set(CROPS)
    assert {find(crop) for crop in CROPS} >= {"carrot", "lettuce", "spinach", "watermelon", "lima-bean"}


def test_days_at_and_below_the_optimum() -> None:
    errors = [error for crop in CROPS for error in day_errors(crop)]
    assert len(errors) > 75
    assert median(errors) < 0.12


@pytest.mark.parametrize("crop", [crop for crop in CROPS if crop != "lima bean"])
def test_days_of_each_crop(crop: str) -> None:
    assert median(day_errors(crop)) < 0.12


def test_lima_bean_days_are_the_known_miss() -> None:
    """31, 18, 7 and 7 days at 15, 20, 25 and 30 C lie on no smooth curve; the miss is a fifth."""
    assert 0.12 < median(day_errors("lima bean")) < 0.25


def test_percent() -> None:
    errors = [error for crop in CROPS for error in percent_errors(crop)]
    assert len(errors) > 110
    assert median(errors) < 6


@pytest.mark.parametrize("crop", CROPS)
def test_percent_of_each_crop(crop: str) -> None:
    assert median(percent_errors(crop)) < 6


def test_cells_without_emergence_are_without_emergence() -> None:
    """Where the table tried a temperature and nothing came, the law gives no days or hardly any seedlings."""
    wrong = []
    for row in DAYS:
        if row["status"] == "none":
            found = emergence_at(float(row["temp_c"]), law(row["crop"]))
            if found.median_days is not None and found.normal_pct >= 10:
                wrong.append((row["crop"], row["temp_c"], found.normal_pct))
    assert wrong == []
