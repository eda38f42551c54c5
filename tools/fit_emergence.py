"""Fit the emergence law to the published tables of days and percent by soil temperature.

    python tools/fit_emergence.py --csv out.csv    fit, write parameters with their spread and sources
    python tools/fit_emergence.py --toe            fit the one shared constant over all crops
    python tools/fit_emergence.py --table          print law against table as markdown

Each crop has ten parameters and up to eighteen printed cells. Where cells are few, weak priors from
independent published rows (base temperatures, practical maximum temperatures) settle what the cells
cannot.
"""

from __future__ import annotations

import argparse
import csv
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median

import numpy as np
from scipy.optimize import least_squares

from spadework.science import emergence
from spadework.science.emergence import EmergenceLaw

FOLDER = Path(__file__).parents[1] / "tests" / "published" / "germination"
HARRINGTON = "UCSC_KNOTT97"
SMALL = 0.08  # log error of a printed day count beside its rounding to whole days
POINTS = 4.0  # error of a printed percent, in points
WARM_BASE = 11.0
SET_ASIDE = {"fava bean", "Swiss chard"}  # two equal cells; a row that contradicts beet, the same species
LARGE_SEED = {
    "lima bean",
    "bush bean",
    "sweet corn",
    "cucumber",
    "melon",
    "pea",
    "watermelon",
    "pumpkin",
    "summer squash",
    "winter squash",
    "fava bean",
    "southern pea",
    "soybean",
}


@dataclass
class Cells:
    """What is printed for one crop."""

    days: dict[float, float] = field(default_factory=dict)
    never: set[float] = field(default_factory=set)
    percent: dict[float, float] = field(default_factory=dict)
    unclear: dict[float, float] = field(default_factory=dict)
    days_source: str = ""


def rows(name: str) -> Iterator[dict[str, str]]:
    """Rows of one table beside the published checks."""
    with (FOLDER / name).open(newline="", encoding="utf-8") as file:
        yield from csv.DictReader(file)


def read_cells() -> dict[str, Cells]:
    """Printed cells by crop. A zero percent whose day cell is marked untested is kept apart as unclear."""
    crops: dict[str, Cells] = {}
    untested: set[tuple[str, float]] = set()
    for row in rows("days.csv"):
        cells = crops.setdefault(row["crop"], Cells(days_source=row["source_id"]))
        temp = float(row["temp_c"])
        trade = row["source_id"] != HARRINGTON
        if trade and (
            (row["crop"], temp) == ("southern pea", 10.0) or (row["status"] == "none" and temp < 20)
        ):
            continue  # trade rows that contradict the published base temperature of the crop
        if row["status"] == "ok":
            cells.days[temp] = float(row["days"])
        elif row["status"] == "none":
            cells.never.add(temp)
        else:
            untested.add((row["crop"], temp))
    for row in rows("percent.csv"):
        if row["pct_normal"] == "":
            continue
        cells, temp, percent = crops[row["crop"]], float(row["temp_c"]), float(row["pct_normal"])
        if percent == 0 and (row["crop"], temp) in untested:
            cells.unclear[temp] = percent
        else:
            cells.percent[temp] = percent
    return crops


def independent() -> dict[str, list[dict[str, str]]]:
    """Rows of independent thermal-time studies by crop."""
    found: dict[str, list[dict[str, str]]] = {}
    for row in rows("thermal_time.csv"):
        found.setdefault(row["crop"], []).append(row)
    return found


def numbers(studies: list[dict[str, str]], column: str, process: str | None = None) -> list[float]:
    """Values of one column, of one process or all."""
    return [
        float(row[column])
        for row in studies
        if row[column] and (process is None or row["process"] == process)
    ]


@dataclass(frozen=True)
class Prior:
    """Weak expectations for one crop [degC]."""

    base_c: float
    optimum_c: float
    top_c: float
    base_sd: float


def prior_for(
    crop: str, studies: list[dict[str, str]], ranges: dict[str, dict[str, str]], published: bool = True
) -> Prior:
    """Centre of the priors, from independent rows where there are any; firmer where the cells are only
    trade rows."""
    row = ranges.get(crop, {})
    bases = numbers(studies, "tb_c", "emergence") or numbers(studies, "tb_c")
    warm = float(row["min_c"]) > 9 if row.get("min_c") else bool(bases) and median(bases) > 7
    base = median(bases) if bases else (WARM_BASE if warm else 2.0)
    optimum = float(row["opt_hi_c"]) if row.get("opt_hi_c") else (30.0 if warm else 26.0)
    top = float(row["max_c"]) if row.get("max_c") else (39.0 if warm else 33.0)
    return Prior(base, optimum, top, 3.0 if published else 1.0)


def build(x: np.ndarray, crop: str) -> EmergenceLaw:
    """Parameters from the unconstrained vector of the fit."""
    base, log_sum, optimum, log_gap, log_fall, best, cold_half, log_cold, heat_half, log_heat = map(float, x)
    shoulder = optimum + float(np.exp(log_gap))
    return EmergenceLaw(
        base_c=base,
        sum_cd=float(np.exp(log_sum)),
        optimum_c=optimum,
        shoulder_c=shoulder,
        ceiling_c=shoulder + float(np.exp(log_fall)),
        best_pct=best,
        cold_half_c=cold_half,
        cold_width_c=float(np.exp(log_cold)),
        heat_half_c=heat_half,
        heat_width_c=float(np.exp(log_heat)),
        depth_cost_cd_mm=0.5 if crop in LARGE_SEED else 1.0,
    )


def residuals(x: np.ndarray, crop: str, cells: Cells, prior: Prior) -> np.ndarray:
    """Weighted misses in days and percent, and the pull of the priors."""
    law = build(x, crop)
    out = []
    for temp, days in cells.days.items():
        rate = max(float(emergence.rate_per_day(temp, law)), 1e-4)
        out.append((-np.log(rate) - np.log(days)) / np.hypot(SMALL, 0.29 / days))
    curve = law.best_pct / (
        (1 + np.exp((law.cold_half_c - np.array(list(cells.percent) or [0.0])) / law.cold_width_c))
        * (1 + np.exp((np.array(list(cells.percent) or [0.0]) - law.heat_half_c) / law.heat_width_c))
    )
    out.extend(
        (shown - printed) / POINTS for shown, printed in zip(curve, cells.percent.values(), strict=False)
    )
    for temp in sorted(
        cells.never
    ):  # nothing may emerge here: too few would, or the ceiling lies at or below
        few = max(float(emergence.percent_normal(temp, law)) - 0.8 * emergence.FEWEST_PCT, 0.0)
        out.append(min(5 * few, 10 * max(law.ceiling_c - temp, 0.0)))
    hottest = max(
        [t for t, p in cells.percent.items() if p >= emergence.FEWEST_PCT and t not in cells.never] + [0.0]
    )
    out.append(10 * max(hottest + 0.3 - law.ceiling_c, 0.0))
    out += [
        (law.base_c - prior.base_c) / prior.base_sd,
        (law.optimum_c - prior.optimum_c) / 5.0,
        (law.shoulder_c - law.optimum_c - 3.0) / 3.0,
        (law.ceiling_c - prior.top_c - 4.0) / 3.0,
        (law.best_pct - 93.0) / 30.0,
        (law.cold_half_c - law.base_c - 1.0) / 3.0,
        (np.log(law.cold_width_c) - np.log(1.2)) / 1.0,
        (law.heat_half_c - prior.top_c) / 2.5,
        (np.log(law.heat_width_c) - np.log(1.2)) / 1.0,
    ]
    return np.array(out)


def fit(crop: str, cells: Cells, prior: Prior) -> tuple[EmergenceLaw, float]:
    """Best parameters of one crop from several starts, and the sum of squares."""
    low = np.array(
        [-1.0, np.log(25.0), 18.0, np.log(0.01), np.log(3.0), 20.0, -12.0, np.log(0.3), 18.0, np.log(0.3)]
    )
    high = np.array(
        [18.0, np.log(450.0), 36.0, np.log(12.0), np.log(20.0), 100.0, 24.0, np.log(7.0), 42.0, np.log(7.0)]
    )
    best, cost = None, np.inf
    for base in (prior.base_c - 1.0, prior.base_c + 1.0):
        for optimum in (prior.optimum_c - 5.0, prior.optimum_c):
            for gap in (0.5, 4.0):
                start = np.array(
                    [
                        base,
                        np.log(100.0),
                        optimum,
                        np.log(gap),
                        np.log(8.0),
                        92.0,
                        base + 1.0,
                        np.log(1.2),
                        prior.top_c,
                        np.log(1.2),
                    ]
                )
                start = np.clip(start, low + 1e-3, high - 1e-3)
                got = least_squares(
                    residuals,
                    start,
                    bounds=(low, high),
                    args=(crop, cells, prior),
                    x_scale=np.maximum(abs(start), 0.5),
                )
                if got.cost < cost:
                    best, cost = build(got.x, crop), float(got.cost)
    assert best is not None
    return best, cost


def fit_all(crops: dict[str, Cells]) -> dict[str, EmergenceLaw]:
    """Parameters of every crop with day cells."""
    studies, ranges = independent(), {row["crop"]: row for row in rows("ranges.csv")}
    return {
        crop: rounded(
            fit(crop, cells, prior_for(crop, studies.get(crop, []), ranges, cells.days_source == HARRINGTON))[
                0
            ]
        )
        for crop, cells in crops.items()
        if len(cells.days) >= 2 and crop not in SET_ASIDE
    }


def rounded(law: EmergenceLaw) -> EmergenceLaw:
    """Parameters as they are written in a sheet: what is checked is what is used."""
    return EmergenceLaw(
        base_c=round(law.base_c, 1),
        sum_cd=round(law.sum_cd, 0 if law.sum_cd > 99.5 else 1),
        optimum_c=round(law.optimum_c, 1),
        shoulder_c=max(round(law.shoulder_c, 1), round(law.optimum_c, 1)),
        ceiling_c=round(law.ceiling_c, 1),
        best_pct=round(law.best_pct, 1),
        cold_half_c=round(law.cold_half_c, 1),
        cold_width_c=round(law.cold_width_c, 2),
        heat_half_c=round(law.heat_half_c, 1),
        heat_width_c=round(law.heat_width_c, 2),
        depth_cost_cd_mm=law.depth_cost_cd_mm,
    )


# Crops without a table by temperature: base and sum from the named study, the rest from ranges or by rule.
# crop: (source of base and sum, optimum, ceiling, source of those two, best percent)
BY_STUDY: dict[str, tuple[str, float, float, str, float]] = {
    "leek": ("GMS_BW", 27.0, 37.0, "onion row", 85.0),
    "endive": ("GMS_BW", 24.0, 34.0, "memory", 88.0),
    "corn salad": ("GMS_BW", 20.0, 28.0, "memory", 75.0),
    "celery": ("GMS_BW", 22.0, 31.0, "memory", 70.0),
    "parsley": ("GMS_BW", 27.0, 37.0, "memory", 75.0),
    "garden cress": ("GMS_BW", 26.0, 36.0, "memory", 90.0),
    "red cabbage": ("GMS_BW", 29.4, 39.0, "cabbage row", 90.0),
    "kale": ("BW1974", 29.4, 39.0, "cabbage row", 90.0),
    "brussels sprouts": ("BW1974", 29.4, 39.0, "cabbage row", 90.0),
    "savoy cabbage": ("BW1974", 29.4, 39.0, "cabbage row", 90.0),
    "turnip": ("BW1974", 30.0, 41.0, "DAWLING2022 optimum, UCGN154 maximum", 93.0),
    "pepper": ("BW1974", 28.0, 38.0, "DSSAT optimum, UCGN154 maximum plus 3", 85.0),
    "fava bean": ("BW1974", 25.0, 35.0, "FABA_SPROUT", 90.0),
    "sugar pea": ("BW1974", 26.0, 33.5, "pea row", 90.0),
    "scorzonera": ("BW1974", 24.0, 33.0, "memory", 75.0),
    "purslane": ("BW1974", 33.0, 44.0, "memory", 85.0),
    "chicory witloof": ("BW1974", 26.0, 36.0, "memory", 85.0),
}


def by_study(crop: str, studies: list[dict[str, str]]) -> EmergenceLaw:
    """Parameters of a crop that has a base and a sum but no table."""
    source, optimum, top, _, best = BY_STUDY[crop]
    row = next(r for r in studies if r["source_id"] == source and r["theta_t_cd"])
    base = float(row["tb_c"])
    return rounded(
        EmergenceLaw(
            base_c=base,
            sum_cd=float(row["theta_t_cd"]),
            optimum_c=optimum,
            shoulder_c=optimum + 0.3 * (top - optimum),
            ceiling_c=top,
            best_pct=best,
            depth_cost_cd_mm=0.5 if crop in LARGE_SEED else 1.0,
            **emergence.default_percent_shape(base, optimum, top),
        )
    )


def fit_toe() -> None:
    """Sum of squares over all crops of the published table for a range of the shared constant."""
    crops, studies = read_cells(), independent()
    ranges = {row["crop"]: row for row in rows("ranges.csv")}
    for toe in np.arange(1.4, 3.5, 0.2):
        emergence.TOE_CDELTA = float(toe)
        cost = sum(
            fit(crop, cells, prior_for(crop, studies.get(crop, []), ranges))[1]
            for crop, cells in crops.items()
            if cells.days_source == HARRINGTON
        )
        print(f"toe {toe:.1f} C: half sum of squares {cost:.1f}")


def main() -> None:
    """Read what is wanted from the command line."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--csv", type=Path)
    parser.add_argument("--toe", action="store_true")
    parser.add_argument("--table", action="store_true")
    asked = parser.parse_args()
    import emergence_report as report

    if asked.csv:
        report.write_csv(asked.csv)
    if asked.toe:
        fit_toe()
    if asked.table:
        report.print_table()


if __name__ == "__main__":
    main()
