"""Two season models on the Champion weather: pcse (phenology only) and aquacrop.

They compute more than a clock does, day by day and season by season; the ratio says what our answers could
cost if they were built on them, not that they are badly made.
"""

from __future__ import annotations

import logging
import os
import sqlite3
import tempfile
import warnings
from collections import namedtuple
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np

from bench.champion import ELEVATION_M, LAT_DEG, LON_DEG, Champion
from bench.figures import best_seconds

MAIZE, GRID, CAMPAIGN = 2, 31031, 2000
"""Grain maize in pcse's packaged demo data."""

SOWN, LIFTED = (5, 1), (9, 30)
"""The season; the demo's maize is late and not yet ripe at its end, so the season is cut, not stretched."""


def pcse_seconds_per_season(weather: Champion, seasons: int = 8) -> tuple[float, int]:
    """Time of one season of Wofost72_Phenology [s], and its length [day].

    From 1 May to 30 September with the packaged demo parameters for grain maize; radiation by Hargreaves from
    the extremes.
    """
    # pcse writes a folder into the home folder when it is imported; the person's own stays untouched.
    with tempfile.TemporaryDirectory() as home, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        kept, os.environ["HOME"] = os.environ.get("HOME"), home
        try:
            return _run_pcse(weather, weather.years[:seasons])
        finally:
            logging.shutdown()
            if kept is None:
                del os.environ["HOME"]
            else:
                os.environ["HOME"] = kept


def _run_pcse(weather: Champion, years: tuple[int, ...]) -> tuple[float, int]:
    from pcse.base import ParameterProvider
    from pcse.models import Wofost72_Phenology
    from pcse.settings import settings
    from pcse.tests.db_input import fetch_cropdata, fetch_sitedata, fetch_soildata

    def as_names(cursor: sqlite3.Cursor, row: tuple[Any, ...]) -> Any:
        fields = [column[0] for column in cursor.description]
        return namedtuple("Row", fields)(*row)

    database = sqlite3.connect(Path(settings.PCSE_USER_HOME) / "pcse.db")
    database.row_factory = as_names
    try:
        site = fetch_sitedata(database, GRID, CAMPAIGN)
        crop = fetch_cropdata(database, GRID, CAMPAIGN, MAIZE)
        soil = fetch_soildata(database, GRID)
    finally:
        database.close()
    provider = _pcse_weather(weather)
    lengths: list[int] = []

    def season(year: int) -> None:
        begin = date(year, *SOWN)
        calendar = {
            "crop_name": "maize",
            "variety_name": "demo",
            "crop_start_date": begin,
            "crop_start_type": "sowing",
            "crop_end_date": date(year, *LIFTED),
            "crop_end_type": "harvest",
            "max_duration": 240,
        }
        plan = [{begin: {"CropCalendar": calendar, "TimedEvents": None, "StateEvents": None}}]
        model = Wofost72_Phenology(
            ParameterProvider(sitedata=site, cropdata=crop, soildata=soil), provider, plan
        )
        model.run_till_terminate()
        lengths.append(len(model.get_output()))

    def all_seasons() -> None:
        for year in years:
            season(year)

    seconds = best_seconds(all_seasons, repeats=2) / len(years)
    if min(lengths) < 150:
        raise RuntimeError(f"pcse ended a season after {min(lengths)} days; the comparison would not be fair")
    return seconds, round(float(np.mean(lengths)))


def _pcse_weather(weather: Champion) -> Any:
    from pcse.base import WeatherDataContainer, WeatherDataProvider

    from spadework.science.radiation import solar_from_temperature_range_mj
    from spadework.science.sun import extraterrestrial_radiation_mj

    doy = (weather.dates - weather.dates.astype("datetime64[Y]")).astype(float) + 1.0
    top_mj = extraterrestrial_radiation_mj(np.float64(LAT_DEG), doy)
    solar_mj = solar_from_temperature_range_mj(weather.tmin_c, weather.tmax_c, top_mj)
    vapour_hpa = 6.108 * np.exp(17.27 * weather.tmin_c / (weather.tmin_c + 237.3))
    provider = WeatherDataProvider()
    provider.latitude, provider.longitude, provider.elevation = LAT_DEG, LON_DEG, ELEVATION_M
    for row, day in enumerate(weather.dates.astype(object)):
        evaporation_cm = float(weather.et0_mm[row]) / 10.0
        provider._store_WeatherDataContainer(
            WeatherDataContainer(
                LAT=LAT_DEG,
                LON=LON_DEG,
                ELEV=ELEVATION_M,
                DAY=day,
                IRRAD=float(solar_mj[row]) * 1e6,
                TMIN=float(weather.tmin_c[row]),
                TMAX=float(weather.tmax_c[row]),
                VAP=float(vapour_hpa[row]),
                RAIN=float(weather.rain_mm[row]) / 10.0,
                WIND=2.0,
                E0=evaporation_cm,
                ES0=evaporation_cm,
                ET0=evaporation_cm,
            ),
            day,
        )
    return provider


def aquacrop_seconds_per_season(weather: Champion) -> float:
    """Time of one season of aquacrop [s]: maize sown on 1 May on sandy loam, all years in one run."""
    import pandas as pd
    from aquacrop import AquaCropModel, Crop, InitialWaterContent, Soil

    years = weather.years
    table = pd.DataFrame(
        {
            "MinTemp": weather.tmin_c,
            "MaxTemp": weather.tmax_c,
            "Precipitation": weather.rain_mm,
            "ReferenceET": np.maximum(weather.et0_mm, 0.1),
            "Date": pd.to_datetime(weather.dates),
        }
    )
    ran: list[int] = []

    def run() -> None:
        model = AquaCropModel(
            sim_start_time=f"{years[0]}/05/01",
            sim_end_time=f"{years[-1]}/12/30",
            weather_df=table,
            soil=Soil(soil_type="SandyLoam"),
            crop=Crop("Maize", planting_date="05/01"),
            initial_water_content=InitialWaterContent(value=["FC"]),
        )
        model.run_model(till_termination=True)
        ran.append(len(model.get_simulation_results()))

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        seconds = best_seconds(run, repeats=1)
    if ran[-1] != len(years):
        raise RuntimeError(f"aquacrop ran {ran[-1]} seasons, not {len(years)}")
    return seconds / len(years)
