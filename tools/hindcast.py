"""Foretell past seasons as if they were to come, each year from all the others, and print the scores.

    python tools/hindcast.py

Prints the tables of docs/accuracy.md. Needs the development environment, whose packages bring the records.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from hindcasts import CROPS, FROSTS, SUMS, crop_hindcast, emergence_on_stations, frost_hindcast, sum_hindcast


def table(head: str, rows: list[list[str]]) -> None:
    """One table, its columns named in one line."""
    names = head.split(" | ")
    print("\n| " + head + " |\n|" + " --- |" * len(names))
    for row in rows:
        print("| " + " | ".join(row) + " |")


def main() -> None:
    """Print every table."""
    table(
        "place, requirement | asked | packet, MAE | past years, CRPS | 80 % held",
        [
            [
                name,
                "at sowing" if stage.share == 0 else f"{stage.share:.0%} of the way",
                f"{stage.packet_mae:.2f}",
                f"{stage.years.crps:.2f}",
                f"{stage.years.held_80:.2f}",
            ]
            for name in SUMS
            for stage in sum_hindcast(name)
        ],
    )
    table(
        "place, crop | years | what | packet, MAE | past years, CRPS | 80 % held",
        [
            [
                f"{place}, {crop}",
                str(score.cases),
                what,
                f"{packet:.2f}",
                f"{score.crps:.2f}",
                f"{score.held_80:.2f}",
            ]
            for place, crop in CROPS
            for what, packet, score in crop_hindcast(place, crop)
        ],
    )
    table(
        "place | years | freeze | CRPS | 80 % held, Weibull | 80 % held, linear",
        [
            [place, str(score.cases), what, f"{score.crps:.2f}", f"{score.held_80:.2f}", f"{linear:.2f}"]
            for place in FROSTS
            for what, score, linear in frost_hindcast(place)
        ],
    )
    table(
        "crop | sowings | air as soil | two stores | and one reading",
        [
            [crop, str(count), *(f"{miss:.2f}" for miss in misses)]
            for crop, count, *misses in emergence_on_stations()
        ],
    )


if __name__ == "__main__":
    main()
