"""Let three growers with the same minutes work through real seasons, and print what each brought in.

    python tools/season_simulation.py [--only PLACE] [--curves near wrong] [--minutes 30 60 90]
        [--plantings 40] [--days 150]

Prints the tables of docs/accuracy.md, "Does following the round pay". Needs the development environment,
whose packages bring the records.
"""

from __future__ import annotations

import argparse
import sys
from itertools import product
from pathlib import Path
from time import perf_counter
from typing import Final

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

import numpy as np

from simulated_season.growers import served
from simulated_season.season import WAYS, Outcome, Run, Way, season

FIRST_YEAR: Final = {"champion": 2010, "norfolk": 2012, "cordoba": 2012}
"""Seasons tested are the latest with enough years before them."""

MINUTES: Final = (30.0, 60.0, 90.0)


def main() -> None:
    """Run everything that was asked for and print it."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--seasons", type=int, default=1)
    asked.add_argument("--years", type=int, default=8)
    asked.add_argument("--plantings", type=int, default=40)
    asked.add_argument("--days", type=int, default=150)
    asked.add_argument("--minutes", type=float, nargs="*", default=MINUTES)
    asked.add_argument("--curves", nargs="*", default=["near", "wrong"])
    asked.add_argument("--only", default="", choices=["", *FIRST_YEAR])
    given = asked.parse_args()
    print("Kinds served: " + ", ".join(sorted(served())) + ".", flush=True)
    shown = []
    for place, curves in product([given.only] if given.only else FIRST_YEAR, given.curves):
        found: dict[tuple[Way, float], list[Outcome]] = {}
        for season_at in range(given.seasons):
            run = Run(
                place=place,
                year=FIRST_YEAR[place] + season_at,
                curves=curves,
                seed=season_at + 1,
                plantings=given.plantings,
                years=given.years,
                days=given.days,
            )
            for minutes, way in product(given.minutes, WAYS):
                begun = perf_counter()
                outcome = season(run, way, minutes)
                found.setdefault((way, minutes), []).append(outcome)
                print(
                    f"# {place} {run.year} {curves} {way} {minutes:.0f}: {outcome.kept:.3f}, "
                    f"{np.mean(outcome.minutes):.0f} min a day, {perf_counter() - begun:.0f} s, "
                    + said(outcome),
                    flush=True,
                )
                if way == "round" and minutes == 60.0:
                    shown += [count for count in outcome.shown if count]
        for minutes in given.minutes:
            cells = [
                " to ".join(f"{100 * end:.0f}" for end in sorted({min(kept), max(kept)}))
                for way in WAYS
                for kept in [[outcome.kept for outcome in found[way, minutes]]]
            ]
            print(f"| {place}, {curves} | {minutes:.0f} | " + " | ".join(cells) + " |", flush=True)
    if shown:
        print(f"Jobs on a round of 60 minutes, median of days that had any: {np.median(shown):.0f}.")


def said(outcome: Outcome) -> str:
    """Losses by cause and jobs by kind, in a line."""
    lost = ", ".join(f"{why} {share:.2f}" for why, share in sorted(outcome.lost.items()))
    done = ", ".join(f"{kind} {times}" for kind, times in sorted(outcome.done.items()))
    return f"lost: {lost}; done: {done}"


if __name__ == "__main__":
    main()
