"""Score made years as forecasts of the day a sum of warmth is reached, beside real years.

    python tools/score_made_years.py

Five crop-like sums at three places. Every block of a few consecutive years stands for a young record; it is
scored on all other years of the place, with and without made years beside it. Told normals are the means of
the whole record, so that they know the years scored; published normals of another period know a little less.
Needs the development environment, whose packages bring the records.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from datetime import date
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from ghcn_fixture import climate_series
from spadework.weather.made_years import Climate
from spadework.weather.normals import normals_of, told_normals
from spadework.weather.series import Series
from spadework.weather.years import CalendarYears, calendar_years

SUMS = (
    ("champion", 10.0, 700.0, 134),
    ("champion", 10.0, 1000.0, 139),
    ("champion", 4.4, 1100.0, 109),
    ("norfolk", 4.4, 1100.0, 99),
    ("brussels", 4.4, 1100.0, 99),
)
"""Place, base, degree-days, column of the first day."""

FEW = (4, 8, 12)


def reached(years: CalendarYears, base_c: float, need_cday: float, first: int) -> np.ndarray:
    warmth = np.clip((years.tmin_c + years.tmax_c) / 2 - base_c, 0, None)[:, first:]
    days: np.ndarray = (np.cumsum(warmth, axis=1) < need_cday).sum(axis=1).astype(float)
    return days


def crps(members: np.ndarray, seen: float) -> float:
    apart = np.abs(members[:, None] - members).mean() / 2
    return float(np.abs(members - seen).mean() - apart)


def score(members: np.ndarray, others: Iterable[float]) -> tuple[float, float]:
    """Mean CRPS and how often the middle 80 % held."""
    low, high = np.quantile(members, [0.1, 0.9], method="weibull")
    seen = list(others)
    return float(np.mean([crps(members, day) for day in seen])), float(
        np.mean([low <= day <= high for day in seen])
    )


def young(series: Series, first: int, years: int) -> Series:
    return series.between(date(first, 1, 1), date(first + years - 1, 12, 31))


def main() -> None:
    rows: dict[str, list[tuple[float, float]]] = {}
    alone: dict[str, list[tuple[float, float]]] = {}
    for place, base_c, need_cday, start in SUMS:
        series = climate_series(place)
        whole = calendar_years(series, last=None)
        days = reached(whole, base_c, need_cday, start)
        own = normals_of(series, place)
        climate = Climate(told_normals(place, own.tmin_c, own.tmax_c, own.rain_mm))
        none = calendar_years(None, today=date(2020, 1, 1), climate=climate)
        made = reached(none, base_c, need_cday, start)
        left_out = [score(np.delete(days, at), [day]) for at, day in enumerate(days)]
        real = tuple(np.mean(left_out, axis=0))
        only = score(made, days)
        alone.setdefault("real", []).append((real[0], real[1]))
        alone.setdefault("made", []).append(only)
        print(
            f"{place:9} base {base_c:4} {need_cday:5.0f} Cd: {days.size} real years, one left out "
            f"{real[0]:.2f} d, held {real[1]:.2f}; 30 made from told normals {only[0]:.2f} d, "
            f"held {only[1]:.2f}"
        )
        for few in FEW:
            for at in range(0, days.size - few + 1, 2):
                record = young(series, whole.labels[at], few)
                others = np.delete(days, np.arange(at, at + few))
                for name, told in (("own", Climate()), ("told", climate)):
                    found = reached(calendar_years(record, climate=told), base_c, need_cday, start)
                    rows.setdefault(f"{few} {name}", []).append(score(found, others))
                rows.setdefault(f"{few} alone", []).append(score(days[at : at + few], others))
    print()
    for name, scores in {**alone, **rows}.items():
        mean = np.mean(scores, axis=0)
        print(f"{name:9} CRPS {mean[0]:.2f} d, 80 % held {mean[1]:.2f}  ({len(scores)} cases)")


if __name__ == "__main__":
    main()
