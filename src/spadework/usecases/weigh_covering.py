"""A bed's cover: shut, open by day, or off, side by side."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Literal

import msgspec

from spadework.advice.cover_state import Settled, State, hands_said, set_by_hand, settle
from spadework.advice.guarding import named as _named
from spadework.advice.odds import Fact
from spadework.clock.cover_kinds import cover_of, covers
from spadework.errors import ParameterError
from spadework.types import Floats
from spadework.usecases.bed_names import bed_called
from spadework.usecases.jobs_today import open_day


class CoverOption(msgspec.Struct, frozen=True, kw_only=True):
    """One state of the cover, and what a day and the week's nights of it cost."""

    state: State | Literal["shut, flowers set by hand"]
    costs: float
    by_year: list[float]


class CoverAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """The states side by side, the cheapest first."""

    question: str
    today: date
    bed: str
    name: str
    cover: str
    lies: bool
    verdict: State
    second: State
    reason: str
    options: list[CoverOption]
    facts: list[Fact]
    note: str


def weigh_covering(garden: Path, today: date, bed: str, *, item: str = "") -> CoverAnswer:
    """Whether a bed is better under its cover, with it open by day, or bare.

    Parameters
    ----------
    garden : Path
    today : date
    bed : str
    item : str
        A piece of kit; the one that lies there, else usual fleece.

    Raises
    ------
    UnknownName, RecordError, StoreError
    ParameterError
        If nothing stands in the bed, or the kit changes no warmth.
    """
    day = open_day(garden, today)
    scene = day.scene
    here = bed_called(day.garden, bed)
    plots = tuple(plot for plot in scene.in_bed(here.key) if not plot.indoors)
    if not plots:
        raise ParameterError(f"Nothing stands in {here.name}.", "Name a bed in which something grows.")
    placed = day.garden.covers(bed=here.key)
    named = day.garden.item(item) if item else None
    if named is None and placed:
        named = day.garden.kit.get(placed[0].item)
    cover = covers()["fleece"] if named is None else cover_of(named.sort, named.grade, named.item)
    if cover is None:
        assert named is not None
        raise ParameterError(f"{named.item} changes no warmth.", "Name fleece, mesh, film or shade cloth.")
    lies = named is not None and any(each.item == named.item and not each.opened for each in placed)
    found = settle(
        scene, plots, cover, lies=lies and named is not None and named.sort in ("fleece", "film"), item=named
    )
    costs: dict[State | Literal["shut, flowers set by hand"], Floats] = dict(found.cost.items())
    if (by_hand := set_by_hand(plots, found)) is not None:
        costs["shut, flowers set by hand"] = by_hand
    name = cover.name if named is None else named.item
    hands = hands_said(plots, found)
    return CoverAnswer(
        question="cover",
        today=today,
        bed=here.key,
        name=here.name,
        cover=name,
        lies=lies,
        verdict=found.state,
        second=found.second,
        reason=(
            f"Shut, it gets to about {found.under_c:.0f} °C under it today, and what stands there minds more "
            f"than {found.limit_c:.0f} °C; bare, frost of the coming week takes {_of_100(found.frost)} of "
            f"the bed's worth, mean of the years{_flights(found)}."
            f"{f' {hands[:1].upper()}{hands[1:]}.' if hands else ''}"
        ),
        options=[
            CoverOption(
                state=state,
                costs=round(float(cost.mean()), 4),
                by_year=[round(float(each), 3) for each in cost],
            )
            for state, cost in sorted(costs.items(), key=lambda each: float(each[1].mean()))
        ],
        facts=[
            Fact(
                name="share of the worth that heat costs under it today",
                value=round(found.heat, 3),
                source="memory",
            ),
            Fact(
                name="share that flowers without bees cost today", value=round(found.bees, 3), source="memory"
            ),
            Fact(
                name="share that frost takes in the coming week without it",
                value=round(found.frost, 3),
                law="frost at the leaf",
                source="computed",
            ),
            Fact(
                name="share that birds and animals take in a day without it",
                value=round(found.eaten, 4),
                law="visits to tender plants and ripe crops",
                source="memory",
            ),
            Fact(
                name="share that insects which fly in take in a day without it",
                value=round(found.flown, 4),
                law="the clocks of their sheets, through the years",
                source="computed",
            ),
        ],
        note=scene.ground.years.note,
    )


def _of_100(share: float) -> str:
    return "nothing" if share < 0.005 else f"{share * 100:.0f} in 100"


def _flights(found: Settled) -> str:
    if not found.insects:
        return ""
    return f", and {_named(found.insects[:3])} could fly in"
