"""The weather as it is drawn agrees with the record and with the frost odds."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np
import pytest

from spadework.advice.odds import as_date
from spadework.errors import ParameterError
from spadework.store.garden_folder import open_garden
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.draw_weather import draw_weather
from spadework.usecases.keep_reading import keep_frost_seen, keep_rain, keep_thermometer
from spadework.usecases.write_answer import Writing

TODAY = date(2024, 6, 12)
HOW = Writing(today=TODAY, on=None, by="", insist=False, key="")


def test_weeks_are_those_of_the_record(north_garden: Path) -> None:
    series = open_garden(north_garden).weather()
    drawn = draw_weather(north_garden, as_date(series.end))
    week = next(each for each in reversed(drawn.weeks) if each.low_c is not None)
    at = series.index_of(week.first)
    assert week.low_c == pytest.approx(np.nanmean(series.tmin_c[at : at + 7]), abs=0.06)
    assert week.rain_mm == pytest.approx(np.nansum(series.rain_mm[at : at + 7]), abs=0.06)
    assert sum(each.days for each in drawn.sources) == series.days


def test_the_frost_curve_passes_where_the_frost_dates_lie(north_garden: Path) -> None:
    drawn = draw_weather(north_garden, TODAY)
    middle = next(
        each.last_spring.q50 for each in ask_frost(north_garden, TODAY).dates if each.place == "leaf"
    )
    assert middle is not None
    near = min(drawn.frost, key=lambda each: abs((each.day - middle.replace(year=each.day.year)).days))
    assert 0.35 < near.at_leaf < 0.65
    rising = [each.at_leaf for each in drawn.frost]
    assert rising == sorted(rising)


def test_own_readings_go_into_the_book_and_nonsense_does_not(own_garden: Path) -> None:
    assert "12" in keep_rain(own_garden, HOW, 12.0, 3).entries[0].text
    assert keep_thermometer(own_garden, HOW, "air", min_c=-1.0, max_c=9.0).stored
    assert "frost" in keep_frost_seen(own_garden, HOW).entries[0].text
    with pytest.raises(ParameterError, match="gauge"):
        keep_rain(own_garden, HOW, -1.0)
    with pytest.raises(ParameterError, match="What did it read"):
        keep_thermometer(own_garden, HOW, "air")
    with pytest.raises(ParameterError, match="above the highest"):
        keep_thermometer(own_garden, HOW, "air", min_c=9.0, max_c=1.0)
