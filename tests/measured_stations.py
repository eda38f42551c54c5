"""The measured stations as arrays."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np
import pandas as pd

from shared_data import shared_file

SCAN_LAT_DEG = 33.65
SCAN_HOURS_BEHIND_SUN = 0.33


@dataclass(frozen=True)
class Station:
    """One station's year 2020."""

    lat_deg: float
    doy: np.ndarray
    tmin_c: np.ndarray
    tmax_c: np.ndarray
    solar_mj: np.ndarray
    soil_c: np.ndarray
    growing: np.ndarray
    """Days after the 20th whose trailing ten-day mean of the air passes 4 degC."""


@cache
def uscrn() -> pd.DataFrame:
    table = pd.read_csv(shared_file("data/uscrn_daily_2020_100stations.csv.gz"), dtype={"wban": str})
    table["doy"] = pd.to_datetime(table["lst_date"].astype(str)).dt.dayofyear
    return table


def uscrn_stations(group: str) -> Iterator[Station]:
    """The stations of one set; the few missing air and radiation days are bridged in a straight line."""
    table = uscrn()
    for _, rows in table[table["set"] == group].groupby("wban"):
        rows = rows.sort_values("doy")
        low, high = rows["t_daily_min"].interpolate(), rows["t_daily_max"].interpolate()
        trailing = ((low + high) / 2.0).rolling(10).mean().to_numpy()
        doy = rows["doy"].to_numpy()
        yield Station(
            float(rows["latitude"].iloc[0]),
            doy,
            low.to_numpy(),
            high.to_numpy(),
            rows["solarad_daily"].interpolate().to_numpy(),
            rows["soil_temp_5_daily"].to_numpy(),
            (trailing > 4.0) & (doy > 20),
        )


@cache
def _scan() -> pd.DataFrame:
    return pd.read_csv(shared_file("data/scan_2184_forddrylake_hourly_2015.csv.gz"))


def scan(column: str) -> np.ndarray:
    """One column of the desert station as [day, hour]."""
    hours: np.ndarray = _scan().pivot(index="date", columns="hour", values=column).to_numpy()
    return hours


def oklahoma() -> pd.DataFrame:
    table = pd.read_csv(shared_file("data/fluxnet2015_US-AR1_daily_2009_2012.csv.gz"))
    table["date"] = pd.to_datetime(table["TIMESTAMP"].astype(str))
    return table


def rmse(miss: np.ndarray) -> float:
    return float(np.sqrt(np.mean(np.square(miss))))
