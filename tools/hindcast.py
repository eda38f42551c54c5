"""Foretell past seasons as if they were to come, and print how the answers scored.

    python tools/hindcast.py

Prints the tables of docs/accuracy.md. Needs the development environment, whose packages bring the records,
and the measured soil stations.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

import station_emergence
from drawn_seasons import CROPS, STARTS, dates_held, groups, odds_of_place
from forward_seasons import LONG_PLACES, PLACES, forward, frost_forward, sum_forward
from hindcasts import FROSTS, START, SUMS, crop_hindcast, frost_hindcast, sum_hindcast
from made_hindcast import NAMES, made_hindcast
from spadework.record.hindcast import Stage
from spadework.record.reliability import EDGES, Group
from spadework.record.scores import Score

DRAWS = 100


def table(head: str, rows: Iterable[list[str]]) -> None:
    """One table, its columns named in one line."""
    names = head.split(" | ")
    print("\n| " + head + " |\n|" + " --- |" * len(names))
    for row in rows:
        print("| " + " | ".join(row) + " |")


def scores(stages: list[Stage]) -> list[str]:
    """Packet's miss, then CRPS and how often 80 % held at each share of the way."""
    start = stages[0]
    return [
        f"{start.packet_mae:.2f}",
        *(f"{stage.years.crps:.2f}, {stage.years.held_80:.2f}" for stage in stages),
        f"{start.years.pit_sd:.3f}",
    ]


def forward_scores(score: Score, late: float) -> list[str]:
    """Of a forward hindcast."""
    return [str(score.cases), f"{score.crps:.2f}", f"{score.held_80:.2f}", f"{late:+.1f}"]


def said_and_seen(found: list[Group]) -> list[str]:
    """Said, then seen, group by group."""
    return [f"{g.said:.2f}, {g.seen:.2f}" if g.weight else "" for g in found]


ON_THE_WAY = "packet, MAE | at the start | 25 % of the way | 50 % | 75 % | spread of places"
GROUPS = " | ".join(f"{low:g} to {high:g}" for low, high in pairwise(EDGES))


def main() -> None:
    """Print every table."""
    table("place, requirement | " + ON_THE_WAY, ([name, *scores(sum_hindcast(name))] for name in SUMS))
    table(
        "place, crop | years | what | " + ON_THE_WAY,
        (
            [f"{place.capitalize()}, {crop}", str(stages[0].years.cases), what, *scores(stages)]
            for place in START
            for crop in START[place]
            for what, stages in crop_hindcast(place, crop)
        ),
    )
    table(
        "place, crop | seasons | packet, MAE | past years, CRPS | 80 % held | later (+) than foretold, days",
        (
            [
                f"{place.capitalize()}, {crop}",
                str(one.ready.cases),
                f"{one.packet_mae:.2f}",
                f"{one.ready.crps:.2f}",
                f"{one.ready.held_80:.2f}",
                f"{one.late:+.1f}",
            ]
            for place in PLACES
            for crop in START[place]
            for one in [forward(place, crop, draws=1)]
        ),
    )
    table(
        "place, requirement | seasons | CRPS | 80 % held | later (+) than foretold, days",
        ([name, *forward_scores(*sum_forward(name))] for name in SUMS if "Seattle" not in name),
    )
    table(
        "place | freeze | seasons | CRPS | 80 % held | later (+) than foretold, days",
        (
            [place.capitalize(), what, *forward_scores(score, late)]
            for place in LONG_PLACES
            for what, score, late in frost_forward(place)
        ),
    )
    table(
        "place | years | freeze | CRPS | 80 % held, Weibull | 80 % held, linear",
        (
            [
                place.capitalize(),
                str(years),
                what,
                f"{score.crps:.2f}",
                f"{score.held_80:.2f}",
                f"{linear:.2f}",
            ]
            for place in FROSTS
            for what, years, score, linear in frost_hindcast(place)
        ),
    )
    table(
        "place, requirement | asked | real years | told normals | with the record's own spread",
        (
            [
                name,
                f"{beside.share:.0%} of the way",
                *(
                    f"{score.crps:.2f}, {score.held_80:.2f} ({score.crps / beside.real.crps - 1:+.1%})"
                    for score in (beside.real, beside.told, beside.own)
                ),
            ]
            for name in NAMES
            for beside in made_hindcast(name)
        ),
    )
    for kind, misses in (("law", station_emergence.plain_laws()), ("sheet", station_emergence.sheets())):
        table(
            f"{kind} | sowings | " + " | ".join(station_emergence.NAMES),
            (
                [
                    miss.crop,
                    str(miss.sowings),
                    *(
                        f"{miss.by[name]:.2f}" + (f", {miss.held[name]:.2f}" if miss.held else "")
                        for name in station_emergence.NAMES
                    ),
                ]
                for miss in misses
            ),
        )
    print_drawn()


def print_drawn() -> None:
    """Chances with the crop's own spread folded in, against seasons in which it was drawn."""
    drawn = {(place, crop): odds_of_place(place, crop, DRAWS) for place in STARTS for crop in CROPS}
    rows = []
    for which, what in enumerate(("ready by a day", "picked by a day")):
        for place in STARTS:
            found = groups([drawn[place, crop][which] for crop in CROPS])
            rows.append([f"{what}, {place.capitalize()}", *said_and_seen(found)])
        rows.append([f"{what}, all", *said_and_seen(groups([one[which] for one in drawn.values()]))])
    forward_odds = [forward(place, crop, DRAWS).odds for place in PLACES for crop in START[place]]
    rows.append(["picked, from earlier years alone", *said_and_seen(groups(forward_odds))])
    table("chance of | " + GROUPS, rows)
    table(
        "place | crop | seasons lived | 80 % dates held | without that spread",
        (
            [place.capitalize(), crop, f"{cases:,}", f"{held:.2f}", f"{narrow:.2f}"]
            for place in STARTS
            for crop in CROPS
            for cases, held in [dates_held(place, crop, DRAWS)]
            for narrow in [dates_held(place, crop, DRAWS, overrides={"development.cv": 0.02})[1]]
        ),
    )


if __name__ == "__main__":
    main()
