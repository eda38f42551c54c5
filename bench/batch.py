"""Development in bulk: 60 crops, 37 years of 730 days, 365 sowing days; 810,300 courses."""

from __future__ import annotations

import numpy as np

from bench.champion import Champion
from bench.figures import Figure, best_seconds
from spadework.clock.batch import daily_rates, finish_all
from spadework.science.response import ResponseTable, response_table
from spadework.types import Floats

CROPS, SOWINGS = 60, 365


def _tables(bases_c: Floats) -> list[ResponseTable]:
    cardinals = ((base, base + 20.0, base + 24.0, base + 32.0) for base in bases_c.tolist())
    return [response_table("trapezoid", *four) for four in cardinals]


def measure(weather: Champion) -> tuple[list[Figure], float]:
    """Figures of the batch, and its time per course [s] from weather to finish, tables at hand."""
    tmin_c, tmax_c = weather.rows(weather.tmin_c), weather.rows(weather.tmax_c)
    mean_c, half_range_c = (tmin_c + tmax_c) / 2.0, (tmax_c - tmin_c) / 2.0
    years, days = mean_c.shape

    # Made crops: thresholds and requirements spread evenly over what sheets hold.
    bases = np.linspace(0.0, 11.0, CROPS)
    required_days = np.linspace(25.0, 90.0, CROPS)

    def build() -> object:
        response_table.cache_clear()
        return _tables(bases)

    tables_s = best_seconds(build, repeats=2)
    tables = _tables(bases)
    sow_days = np.arange(SOWINGS, dtype=np.int64)

    rates = daily_rates(tables, mean_c, half_range_c)
    finish = finish_all(rates, sow_days, required_days)
    reached = float((finish < days).mean())
    if not 0.5 < reached < 1.0:
        raise RuntimeError(f"{reached:.0%} of the courses are finished; the workload is not a fair one")

    rates_s = best_seconds(lambda: daily_rates(tables, mean_c, half_range_c), repeats=7)
    finish_s = best_seconds(lambda: finish_all(rates, sow_days, required_days), repeats=7)
    both_s = best_seconds(
        lambda: finish_all(daily_rates(tables, mean_c, half_range_c), sow_days, required_days), repeats=7
    )
    crop_days, courses = CROPS * years * days, CROPS * years * SOWINGS
    figures = [
        Figure("batch: daily rates from the response tables", rates_s / crop_days * 1e9, "ns per crop-day"),
        Figure("batch: running sums and finishing days", finish_s / crop_days * 1e9, "ns per crop-day"),
        Figure("batch: both together", both_s / crop_days * 1e9, "ns per crop-day", budget=60.0),
        Figure("batch: both together, all 810,300 courses", both_s * 1e3, "ms", budget=500.0),
        Figure("batch: both together", both_s / courses * 1e9, "ns per course"),
        Figure("batch: building the 60 response tables, once", tables_s * 1e3, "ms"),
    ]
    return figures, both_s / courses
