"""Set the fitted emergence law beside the published cells: a row a crop for the sheets, a page for the
reader."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path
from statistics import median

import numpy as np
from fit_emergence import (
    BY_STUDY,
    HARRINGTON,
    Cells,
    by_study,
    fit,
    fit_all,
    independent,
    numbers,
    prior_for,
    read_cells,
    rounded,
    rows,
)

from spadework.science import emergence
from spadework.science.emergence import EmergenceLaw


def spread(own: float, others: list[float]) -> tuple[float, float]:
    """Lowest and highest of the value in use and the independent ones."""
    return min([own, *others]), max([own, *others])


@dataclass(frozen=True)
class Miss:
    """Law against one printed cell."""

    crop: str
    temp_c: float
    printed: float | None
    law: float | None
    at_or_below: bool

    @property
    def relative(self) -> float:
        """Share by which the law misses the printed value; infinite where one has no value."""
        if self.printed is None or self.law is None:
            return 0.0 if self.printed is self.law else float("inf")
        return self.law / self.printed - 1.0


def day_misses(crop: str, cells: Cells, law: EmergenceLaw) -> list[Miss]:
    """Every printed day cell of a crop, with 'none' as None."""
    printed = {**dict.fromkeys(cells.never), **cells.days}
    return [
        Miss(crop, temp, printed[temp], emergence.emergence_at(temp, law).median_days, temp <= law.optimum_c)
        for temp in sorted(printed)
    ]


def left_out(crops: dict[str, Cells]) -> list[Miss]:
    """Each day cell at or below the optimum predicted by a fit that did not see it, nor its percent."""
    studies, ranges = independent(), {row["crop"]: row for row in rows("ranges.csv")}
    misses = []
    for crop, cells in crops.items():
        if cells.days_source != HARRINGTON:
            continue
        prior = prior_for(crop, studies.get(crop, []), ranges)
        for temp, days in cells.days.items():
            fewer = Cells(
                {t: d for t, d in cells.days.items() if t != temp},
                cells.never,
                {t: p for t, p in cells.percent.items() if t != temp},
                {},
                cells.days_source,
            )
            law = rounded(fit(crop, fewer, prior)[0])
            misses.append(
                Miss(crop, temp, days, emergence.emergence_at(temp, law).median_days, temp <= law.optimum_c)
            )
    return misses


PARAMETERS = (
    "base_c",
    "sum_cd",
    "optimum_c",
    "shoulder_c",
    "ceiling_c",
    "best_pct",
    "cold_half_c",
    "cold_width_c",
    "heat_half_c",
    "heat_width_c",
    "depth_cost_cd_mm",
)


def write_csv(path: Path) -> None:
    """One row a crop: parameters, spread over independent studies, misses, provenance."""
    crops, studies = read_cells(), independent()
    laws = fit_all(crops)
    with path.open("w", newline="", encoding="utf-8") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(
            [
                "crop",
                *PARAMETERS,
                "base_low",
                "base_high",
                "sum_low",
                "sum_high",
                "optimum_low",
                "optimum_high",
                "ceiling_low",
                "ceiling_high",
                "n_days",
                "n_percent",
                "median_days_error_pct",
                "median_percent_error",
                "provenance",
                "source",
                "note",
            ]
        )
        for crop in [*laws, "Swiss chard", *BY_STUDY]:
            fitted, own = crop in laws, studies.get(crop, [])
            law = laws[crop] if fitted else laws["beet"] if crop == "Swiss chard" else by_study(crop, own)
            ranges = [
                *spread(law.base_c, numbers(own, "tb_c", "emergence") or numbers(own, "tb_c")),
                *spread(law.sum_cd, numbers(own, "theta_t_cd", "emergence")),
                *spread(law.optimum_c, numbers(own, "to_hi_c", "germination")),
                *spread(law.ceiling_c, numbers(own, "tc_c")),
            ]
            cells = crops.get(crop, Cells())
            days = [
                100 * abs(m.relative) for m in day_misses(crop, cells, law) if m.printed and m.at_or_below
            ]
            percent = [abs(float(emergence.percent_normal(t, law)) - p) for t, p in cells.percent.items()]
            if fitted and cells.days_source == HARRINGTON:
                told = (
                    "computed",
                    "UCSC_KNOTT97 days and HDF percent (Harrington and Minges 1954)",
                    "fitted",
                )
            elif fitted:
                told = ("common-practice", "", "fitted to trade rows; percent by rule and weak priors")
            elif crop == "Swiss chard":
                told = (
                    "computed",
                    "UCSC_KNOTT97 days and HDF percent (Harrington and Minges 1954)",
                    "beet row, the same species; a trade row gives up to twice the days",
                )
                ranges[3] = 237.0
            else:
                source, _, _, top, _ = BY_STUDY[crop]
                told = (
                    "memory" if source == "BW1974" else "published",
                    source,
                    f"base and sum as in the source; optimum and ceiling: {top}; percent: rule, memory",
                )
            out.writerow(
                [
                    crop,
                    *(getattr(law, name) for name in PARAMETERS),
                    *ranges,
                    len(cells.days) * fitted,
                    len(cells.percent),
                    f"{median(days):.1f}" if days else "",
                    f"{median(percent):.1f}" if percent else "",
                    *told,
                ]
            )


def shown(value: float | None, digits: int = 1) -> str:
    """A number for the page, or none."""
    return "none" if value is None else f"{value:.{digits}f}"


def print_table() -> None:
    """Law against table, cell by cell, then the medians."""
    crops = read_cells()
    laws = {crop: law for crop, law in fit_all(crops).items() if crops[crop].days_source == HARRINGTON}
    print("# Emergence: law against table\n")
    print(
        "Written by `tools/fit_emergence.py --table`. Days and percent of normal seedlings at constant soil\n"
        "temperature, seed about 13 mm deep: Harrington and Minges, 1954, *Vegetable Seed Germination*,\n"
        "University of California, as reproduced by the University of California, Santa Cruz (days; after\n"
        "Maynard and Hochmuth, 1997, *Knott's Handbook for Vegetable Growers*) and in a secondary\n"
        "reproduction (percent). A blank cell was not tested or is not legible; `none` means no emergence.\n"
        "Zeros of percent whose day cell was not tested are marked `0?` and were not fitted or scored.\n"
    )
    print("| crop | C | table days | law days | error | table % | law % | error |")
    print("| --- | --- | --- | --- | --- | --- | --- | --- |")
    misses: list[Miss] = []
    points: list[float] = []
    for crop, law in laws.items():
        cells = crops[crop]
        by_temp = {m.temp_c: m for m in day_misses(crop, cells, law)}
        misses += by_temp.values()
        for temp in sorted(set(by_temp) | set(cells.percent) | set(cells.unclear)):
            answer = emergence.emergence_at(temp, law)
            miss = by_temp.get(temp)
            days = [shown(miss.printed, 0) if miss else "", shown(answer.median_days), ""]
            if miss and miss.printed and miss.law:
                days[2] = f"{100 * miss.relative:+.0f} %"
            elif miss:
                days[2] = "agrees" if miss.printed is miss.law else "MISS"
            percent = ["", f"{answer.normal_pct:.0f}", ""]
            if temp in cells.percent:
                points.append(abs(answer.normal_pct - cells.percent[temp]))
                percent[0], percent[2] = (
                    f"{cells.percent[temp]:.0f}",
                    f"{answer.normal_pct - cells.percent[temp]:+.0f}",
                )
            elif temp in cells.unclear:
                percent[0] = "0?"
            print(f"| {crop} | {temp:.0f} | {' | '.join(days)} | {' | '.join(percent)} |")
    with_days = [m for m in misses if m.printed is not None]
    never = [m for m in misses if m.printed is None]
    unseen = left_out(crops)
    print("\n## Medians\n\n| what | cells | value |\n| --- | --- | --- |")
    for what, chosen in (
        ("days, at and below the optimum", [m for m in with_days if m.at_or_below]),
        ("days, above the optimum", [m for m in with_days if not m.at_or_below]),
        (
            "days, each cell left out of its own fit, at and below the optimum",
            [m for m in unseen if m.at_or_below],
        ),
        (
            "days, each cell left out of its own fit, above the optimum",
            [m for m in unseen if not m.at_or_below],
        ),
    ):
        sizes = sorted(abs(m.relative) for m in chosen)
        print(f"| median absolute error, {what} | {len(sizes)} | {100 * median(sizes):.1f} % |")
        tail = sizes[int(0.9 * len(sizes))]
        bound = f"{100 * tail:.0f} %" if np.isfinite(tail) else "more than one in ten refused"
        print(f"| 90 in 100 cells within, {what} | {len(sizes)} | {bound} |")
    print(f"| median absolute error, percent of seedlings | {len(points)} | {median(points):.1f} points |")
    print(f"| largest error, percent of seedlings | {len(points)} | {max(points):.0f} points |")
    refused = sum(m.law is None for m in never)
    print(f"| cells printed as none that the law refuses too | {len(never)} | {refused} |")
    print_independent(laws)


def print_independent(laws: dict[str, EmergenceLaw]) -> None:
    """The law beside another published table, which no fit has seen."""
    print("\n## Beside an independent study\n")
    print(
        "Base and heat sum to half emergence in soil, as printed in a school-garden guide of the\n"
        "Baden-Wuerttemberg ministry for rural areas after Wagenvoort and Bierhuizen, 1974 (GMS_BW). No fit\n"
        "has seen these beyond a weak pull on the base. The onion row of the older table behaves like\n"
        "germination on paper, not emergence from soil.\n"
    )
    print("| crop | C | study days | law days | error |\n| --- | --- | --- | --- | --- |")
    sizes = []
    for crop, studies in independent().items():
        for row in studies:
            if crop not in laws or row["source_id"] != "GMS_BW":
                continue
            for temp in (10.0, 20.0):
                above = temp - float(row["tb_c"])
                days = emergence.emergence_at(temp, laws[crop]).median_days
                if above <= 0 or days is None:
                    continue
                study = float(row["theta_t_cd"]) / above
                sizes.append(abs(days / study - 1.0))
                print(
                    f"| {crop} | {temp:.0f} | {study:.1f} | {days:.1f} | {100 * (days / study - 1):+.0f} % |"
                )
    print(f"\nMedian absolute difference {100 * median(sizes):.0f} % over {len(sizes)} cells.")
